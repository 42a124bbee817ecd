"""Changing single values of a trip file's text; every other byte stays (C12).

Works on the text itself: a value is replaced where it stands, a new key comes behind the last one
of its table, a removed one goes with its line. So comments, order, blank lines, spelling and line
ends are kept. After each change the text is read again and compared with what was meant.
"""

from __future__ import annotations

import copy
import datetime as dt
import itertools
import json
import re
import tomllib
from collections.abc import Mapping
from typing import Any

from oatsack.errors import TripFileError, UsageError
from oatsack.files.trip.document import Document, Path, Place, path_text
from oatsack.files.trip.toml import read_toml, with_seconds

_STEP = re.compile(r"(?:^|\.)([A-Za-z0-9_-]+)|\[(\d+)\]")


def edit_trip(text: str, changes: Mapping[str, object]) -> str:
    """The text with values set (``walkers[0].target``), added, or removed (None), in this order.

    An index one beyond a list's end adds to the list. Values are texts, numbers, true or false,
    dates, lists and tables of these, as in the file; they are not checked here: parse the result.
    Raises TripFileError if the text is no TOML, UsageError for a path that leads nowhere.
    """
    ends = "\r\n" if "\r\n" in text else "\n"
    mark = "\ufeff" if text.startswith("\ufeff") else ""
    body = text.removeprefix(mark).replace("\r\n", "\n")
    for path, value in changes.items():
        body = _changed(body, parse_path(path), value)
    return mark + body.replace("\n", ends)


def parse_path(text: str) -> Path:
    """``walkers[0].usual.breakfast[1]`` as steps."""
    steps: list[str | int] = []
    at = 0
    while at < len(text):
        found = _STEP.match(text, at)
        if found is None:
            raise UsageError(f"no path of a trip file: {text!r}")
        steps.append(found[1] if found[1] is not None else int(found[2]))
        at = found.end()
    if not steps or isinstance(steps[0], int):
        raise UsageError(f"no path of a trip file: {text!r}")
    return tuple(steps)


def source_of(value: object) -> str:
    """TOML source of a value."""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str):
        return json.dumps(value, ensure_ascii=False).replace("\x7f", "\\u007F")
    if isinstance(value, int | float):
        return repr(value)
    if isinstance(value, dt.date | dt.datetime | dt.time):
        return value.isoformat()
    if isinstance(value, Mapping):
        return "{ " + ", ".join(f"{_key(k)} = {source_of(v)}" for k, v in value.items()) + " }"
    if isinstance(value, list | tuple):
        return "[" + ", ".join(source_of(item) for item in value) + "]"
    raise UsageError(f"no value of a trip file: {value!r}")


def _key(name: object) -> str:
    text = str(name)
    return text if re.fullmatch(r"[A-Za-z0-9_-]+", text) else source_of(text)


def _changed(text: str, path: Path, value: object) -> str:
    document = read_toml(text, "the trip file")
    if document.faults:
        raise TripFileError(document.faults)
    meant = _applied(document.data, path, value)
    new = _removed(text, document, path) if value is None else _put(text, document, path, value)
    try:
        made = tomllib.loads(with_seconds(new))
        as_meant = made == meant or (value is None and made == _closed(meant, path))
    except tomllib.TOMLDecodeError:
        as_meant = False
    if not as_meant:
        raise UsageError(f"cannot change {path_text(path)} in this file; change it by hand")
    return new


def _applied(data: dict[str, Any], path: Path, value: object) -> dict[str, Any]:
    """The data that the changed text must give."""
    data = copy.deepcopy(data)
    holder: Any = data
    for step, follows in itertools.pairwise(path):
        holder = _stepped(holder, step, path, missing=[] if isinstance(follows, int) else {})
    last = path[-1]
    try:
        if value is None:
            del holder[last]
        elif isinstance(holder, list) and last == len(holder):
            holder.append(value)
        else:
            holder[last] = value
    except (KeyError, IndexError, TypeError):
        raise UsageError(f"{path_text(path)} leads nowhere in this trip file") from None
    return tomllib.loads(f"x = {source_of(data)}")["x"]  # type: ignore[no-any-return]


def _closed(data: dict[str, Any], path: Path) -> dict[str, Any]:
    """The data without the tables above a removed key that were left empty: one that was only
    written as a dotted key goes with its last."""
    data = copy.deepcopy(data)
    for end in range(len(path) - 1, 0, -1):
        holder: Any = data
        for step in path[: end - 1]:
            holder = holder[step]
        if holder[path[end - 1]] != {}:
            break
        del holder[path[end - 1]]
    return data


def _stepped(holder: Any, step: str | int, path: Path, missing: Any) -> Any:
    """One step down, making what is missing on the way."""
    if isinstance(holder, dict) and isinstance(step, str):
        return holder.setdefault(step, missing)
    if isinstance(holder, list) and isinstance(step, int) and step < len(holder):
        return holder[step]
    raise UsageError(f"{path_text(path)} leads nowhere in this trip file")


def _put(text: str, document: Document, path: Path, value: object) -> str:
    """The text with a value in the place of the old one, or behind its neighbours."""
    if path not in _headed(document) and _sections(document, path):
        raise UsageError(f"{path_text(path)} is a whole table; change its keys one by one")
    if path in document.values and path not in _headed(document):
        return _spliced(text, document.values[path], source_of(value))
    if isinstance(path[-1], int):
        return _put_item(text, document, path, value)
    holder = path[:-1]
    while holder not in document.bodies and not _is_inline(document, holder):
        holder = holder[:-1]
    names = path[len(holder) :]
    if any(isinstance(name, int) for name in names):
        raise UsageError(f"{path_text(path)} leads nowhere in this trip file")
    if holder in document.bodies:
        return _put_line(text, document, holder, names, value)
    return _put_inside(text, document.values[holder], f"{_dotted(names)} = {source_of(value)}")


def _sections(document: Document, path: Path) -> list[Path]:
    """The tables with a heading at or below a path."""
    return [where for where in document.bodies if where[: len(path)] == path and where]


def _headed(document: Document) -> set[Path]:
    """Lists that are written as several [[tables]]."""
    return {path[:-1] for path in document.bodies if path and isinstance(path[-1], int)}


def _is_inline(document: Document, path: Path) -> bool:
    return path in document.values and document.values[path].source.startswith("{")


def _put_item(text: str, document: Document, path: Path, value: object) -> str:
    """A new last item of a list; a list that is not there yet is made."""
    holder = path[:-1]
    if holder in _headed(document) and isinstance(value, Mapping):
        return _put_section(text, document, holder, value)
    if holder in document.values:
        return _put_inside(text, document.values[holder], source_of(value))
    return _put(text, document, holder, [value])


def _put_section(text: str, document: Document, path: Path, value: Mapping[str, Any]) -> str:
    """One more [[table]] behind the last of its kind and all that belongs to it."""
    rows = text.split("\n")
    last = max(end for where, end in document.bodies.items() if where[: len(path)] == path)
    names = tuple(step for step in path if isinstance(step, str))
    lines = [f"{_key(name)} = {source_of(item)}" for name, item in value.items()]
    rows[last:last] = ["", f"[[{_dotted(names)}]]", *lines]
    return "\n".join(rows)


def _put_line(text: str, document: Document, holder: Path, names: Path, value: object) -> str:
    """A new line in a headed table; a missing table of the top gets its own heading at the end."""
    rows = text.split("\n")
    # ``kit.mug = ...`` at the top: carried on in its style
    dotted = names[:1] in document.keys and names[:1] not in document.values
    if not holder and len(names) > 1 and not dotted:
        while rows and not rows[-1].strip():
            rows.pop()
        heading = f"[{_dotted(names[:-1])}]"
        rows += ["", heading, f"{_dotted(names[-1:])} = {source_of(value)}", ""]
    else:
        last = document.bodies[holder]
        before = rows[last - 1] if last else ""
        indent = before[: len(before) - len(before.lstrip())] if "=" in before else ""
        rows.insert(last, f"{indent}{_dotted(names)} = {source_of(value)}")
    return "\n".join(rows)


def _dotted(names: Path) -> str:
    return ".".join(_key(name) for name in names)


def _put_inside(text: str, place: Place, item: str) -> str:
    """One more item before the closing bracket of a list or inline table."""
    start, end = _offset(text, (place.line, place.column)), _offset(text, place.end)
    inner = text[start + 1 : end - 1]
    kept = inner.rstrip()
    bare = re.sub(r"#[^\n]*", "", kept).rstrip()
    joint = "" if not bare else " " if bare.endswith(",") else ", "
    if "\n" in inner:
        rest = inner[len(kept) :] or "\n"
        comma = "" if not bare or bare.endswith(",") else ","
        return text[: start + 1] + _with_comma(kept, comma) + f"\n  {item},{rest}" + text[end - 1 :]
    tail = " " if text[end - 1] == "}" else ""
    head = " " if text[start] == "{" and not bare else ""
    return text[: start + 1] + kept + joint + head + item + tail + text[end - 1 :]


def _with_comma(kept: str, comma: str) -> str:
    """A comma behind the last item, before its comment if it has one."""
    row = kept.rsplit("\n", 1)[-1]
    comment = re.search(r"""(?:"[^"]*"|'[^']*'|[^"'#])*?(\s*#.*)$""", row)
    if not comma or comment is None:
        return kept + comma
    at = len(kept) - len(comment[1])
    return kept[:at] + comma + kept[at:]


def _spliced(text: str, place: Place, source: str) -> str:
    start, end = _offset(text, (place.line, place.column)), _offset(text, place.end)
    return text[:start] + source + text[end:]


def _offset(text: str, point: tuple[int, int]) -> int:
    rows = text.split("\n")
    return sum(len(row) + 1 for row in rows[: point[0] - 1]) + point[1] - 1


def _removed(text: str, document: Document, path: Path) -> str:
    """The text without a value: its line, its place in a list, or its whole section."""
    if _sections(document, path):
        return _without_sections(text, document, path)
    key, value = document.keys.get(path), document.values.get(path)
    if key is None or value is None:
        return _without_dotted(text, document, path)
    around = _around(document, path)
    if around is not None:
        return _without_item(text, key, value)
    rows = text.split("\n")
    del rows[key.line - 1 : value.end[0]]
    return "\n".join(rows)


def _around(document: Document, path: Path) -> Place | None:
    """The list or inline table in which a value stands; None for a line of its own."""
    for end in range(len(path) - 1, 0, -1):
        place = document.values.get(path[:end])
        if place is not None and place.source.startswith(("[", "{")):
            return None if path[:end] in document.bodies else place
    return None


def _without_item(text: str, key: Place, value: Place) -> str:
    """An item goes with the comma behind it, or before it if it was the last."""
    start = _offset(text, (key.line, key.column))
    end = _offset(text, value.end)
    behind = re.match(r"\s*,[ \t]*\n?", text[end:])
    if behind:
        return text[:start] + text[end + behind.end() :].lstrip(" ")
    before = re.search(r",\s*$", text[:start])
    return text[: before.start() if before else start] + text[end:]


def _without_sections(text: str, document: Document, path: Path) -> str:
    """Every heading at or below a path goes with its keys; comments above others stay."""
    rows = text.split("\n")
    gone = sorted(
        (document.keys[where].line, end)
        for where, end in document.bodies.items()
        if where[: len(path)] == path
    )
    for first, last in reversed(gone):
        while last < len(rows) and not rows[last].strip() and first > 1:
            last += 1
        del rows[first - 1 : last]
    return "\n".join(rows)


def _without_dotted(text: str, document: Document, path: Path) -> str:
    """A table that is only written as dotted keys (``usual.lunch = ...``) goes key by key."""
    below = [p for p in document.values if p[: len(path)] == path and p[:-1] == path]
    if not below:
        raise UsageError(f"{path_text(path)} leads nowhere in this trip file")
    for one in sorted(below, key=lambda p: document.keys[p].line, reverse=True):
        text = _removed(text, document, one)
    return text
