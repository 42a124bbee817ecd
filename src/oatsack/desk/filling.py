"""What was typed into a form -> the changes of a trip file: only what differs, where it stands.

A field is named by its path in the file (``walkers[0].mass``); a blank one takes the key away, a
row beyond the end of a list adds to it, a row marked `GONE` or left blank goes. Texts stay texts:
what they mean, and whether they may stand there, `files.trip` says when the changed file is read.
"""

from __future__ import annotations

import datetime as dt
import difflib
import re
from collections.abc import Iterator, Mapping
from typing import Any

from pydantic.fields import FieldInfo

from oatsack.errors import UsageError
from oatsack.files.trip.document import Path
from oatsack.files.trip.edit import parse_path
from oatsack.files.trip.faults import fields_of, inner_table, is_many, kind_of
from oatsack.files.trip.kinds import YES_NO
from oatsack.files.trip.tables import Table, TripTable
from oatsack.reports.words import say

MOST_MORE = 60
"""So many rows can be added at once."""
GONE = "gone"
"""The key of a row that says whether it is to go."""
SHORT = {
    "pots": "volume", "stove": "kind", "cans": "net", "containers": "volume",
    "avoids": "allergen", "bans": "food", "water": "distance",
}  # fmt: skip
"""Tables that a bare text may stand for, and the key that it then gives."""
Changes = Iterator[tuple[str, object]]
Data = Mapping[str, Any]


def changes(data: Data, sent: Mapping[str, str]) -> dict[str, object]:
    """Path -> new value (None takes it away), in the order in which `edit_trip` must make them.

    `data` is the file as read, `sent` the form's fields by path. Raises UsageError for a name
    that is no key of a trip file.
    """
    return dict(_of_table("", TripTable, data, _tree(sent)))


def _tree(sent: Mapping[str, str]) -> dict[Any, Any]:
    """Fields by path as tables in tables; rows by their number."""
    root: dict[Any, Any] = {}
    for name, text in sent.items():
        holder, steps = root, parse_path(name)
        for step in steps[:-1]:
            holder = holder.setdefault(step, {})
            if not isinstance(holder, dict):
                raise UsageError(say("desk.no-field", name=repr(name)))
        holder[steps[-1]] = text
    return root


def _of_table(path: str, table: type[Table], now: Data, sent: Mapping[Any, Any]) -> Changes:
    for name, given in sent.items():
        info = fields_of(table).get(name) if isinstance(name, str) else None
        if info is None:
            raise UsageError(say("desk.no-field", name=repr(name)))
        here, inner = f"{path}.{name}" if path else name, inner_table(info.annotation)
        if isinstance(given, dict) != (inner is not None):
            raise UsageError(say("desk.no-field", name=repr(here)))
        yield from _of_field(here, info, inner, now.get(name), given)


def _of_field(
    here: str, info: FieldInfo, inner: type[Table] | None, now: Any, given: Any
) -> Changes:
    if inner is not None and is_many(info):
        yield from _of_rows(here, inner, now, given)
    elif inner is not None and isinstance(now, str):
        wanted = _merged(inner, _unfolded(here, now), given)
        if wanted != _unfolded(here, now):
            yield here, _folded(here, wanted)
    elif inner is not None:
        yield from _of_table(here, inner, now or {}, given)
    elif is_many(info):
        yield from _of_lines(here, now, lines_of(given))
    elif tidy(given) != shown(now):
        yield here, value_of(info, given)


def _of_rows(here: str, inner: type[Table], now: Any, sent: Mapping[Any, Any]) -> Changes:
    """Rows changed where they stand, new ones behind them, and the ones that go last."""
    items = [now] if isinstance(now, str | dict) else list(now or ())
    edits: list[tuple[str, object]] = []
    more: list[object] = []
    gone: list[int] = []
    for number, row in sorted(_rows(here, sent)):
        if number > len(items) + MOST_MORE:
            raise UsageError(say("desk.many-rows", name=f"{here}[{number}]"))
        given = {key: text for key, text in row.items() if key != GONE}
        before = _unfolded(here, items[number]) if number < len(items) else {}
        made = _merged(inner, before, given)
        if number < len(items) and (row.get(GONE) or not made):
            gone.append(number)
        elif number < len(items):
            edits += _of_item(f"{here}[{number}]", inner, items[number], given)
        elif made:
            headed = items and all(isinstance(one, dict) for one in items)
            more.append(made if headed else _folded(here, made))
    if isinstance(now, str | dict) and (edits or more or gone):
        yield here, _whole(here, inner, items, sent)
        return
    yield from edits
    yield from ((f"{here}[{len(items) + n}]", item) for n, item in enumerate(more))
    yield from ((f"{here}[{number}]", None) for number in reversed(gone))


def _rows(here: str, sent: Mapping[Any, Any]) -> Iterator[tuple[int, dict[str, Any]]]:
    for number, row in sent.items():
        if not isinstance(number, int) or not isinstance(row, dict):
            raise UsageError(say("desk.no-rows", name=repr(here)))
        yield number, row


def _whole(here: str, inner: type[Table], items: list[Any], sent: Mapping[Any, Any]) -> object:
    """The list written anew, where a bare text stood for a list of one."""
    made = []
    for number, row in sorted(_rows(here, sent)):
        before = _unfolded(here, items[number]) if number < len(items) else {}
        wanted = _merged(inner, before, {k: v for k, v in row.items() if k != GONE})
        if wanted and not row.get(GONE):
            made.append(_folded(here, wanted))
    return made or None


def _of_item(here: str, inner: type[Table], now: Any, given: Data) -> Changes:
    """One row of a list, a table or a text that stands for one."""
    if isinstance(now, dict):
        yield from _of_table(here, inner, now, given)
        return
    before = _unfolded(here, now)
    wanted = _merged(inner, before, given)
    if wanted != before:
        yield here, _folded(here, wanted)


def _merged(table: type[Table], now: Data, given: Data) -> dict[str, Any]:
    """A table with what was typed over it; blanks take keys away."""
    out = dict(now)
    for path, value in _of_table("", table, now, given):
        steps = parse_path(path)
        _set(out, steps, value)
    return out


def _set(holder: dict[str, Any], steps: Path, value: object) -> None:
    first = str(steps[0])
    if len(steps) == 1:
        if value is None:
            holder.pop(first, None)
        else:
            holder[first] = value
    elif isinstance(steps[1], int):  # rows of a new table come in order
        holder[first] = [*holder.get(first, []), value] if value is not None else holder[first]
    elif value is not None:
        inner = dict(holder.get(first, {}))
        _set(inner, steps[1:], value)
        holder[first] = inner


def _unfolded(here: str, now: Any) -> dict[str, Any]:
    """A bare text as the table that it stands for."""
    return dict(now) if isinstance(now, Mapping) else {_short(here): now}


def _folded(here: str, wanted: dict[str, Any]) -> object:
    """The bare text again, where nothing else is given."""
    short = SHORT.get(_name(here))
    return wanted[short] if short and set(wanted) == {short} else wanted


def _name(here: str) -> str:
    return re.sub(r"\[\d+\]$", "", here).rpartition(".")[2]


def _short(here: str) -> str:
    if _name(here) not in SHORT:
        raise UsageError(say("desk.no-table", here=here))
    return SHORT[_name(here)]


def _of_lines(here: str, now: Any, wanted: list[str]) -> Changes:
    """A list of texts, one to a line; items that stay keep their place and comments."""
    items = [now] if isinstance(now, str) else [shown(one) for one in now or ()]
    if items == wanted:
        return
    if not wanted:
        yield here, None
    elif not isinstance(now, list) or _moved(items, wanted):
        yield here, wanted
    else:
        yield from _edits(here, items, wanted)


def _moved(items: list[str], wanted: list[str]) -> bool:
    """Whether something came in between, so that single edits cannot make it."""
    steps = difflib.SequenceMatcher(None, items, wanted, autojunk=False).get_opcodes()
    return any(
        kind in ("insert", "replace") and b2 - b1 > a2 - a1 and a2 < len(items)
        for kind, a1, a2, b1, b2 in steps
    )


def _edits(here: str, items: list[str], wanted: list[str]) -> Changes:
    gone: list[int] = []
    end = len(items)
    steps = difflib.SequenceMatcher(None, items, wanted, autojunk=False).get_opcodes()
    for kind, a1, a2, b1, b2 in steps:
        if kind == "equal":
            continue
        both = min(a2 - a1, b2 - b1)
        yield from ((f"{here}[{a1 + n}]", wanted[b1 + n]) for n in range(both))
        gone += range(a1 + both, a2)
        for text in wanted[b1 + both : b2]:
            yield f"{here}[{end}]", text
            end += 1
    yield from ((f"{here}[{n}]", None) for n in reversed(gone))


def lines_of(text: str) -> list[str]:
    """The lines of a text that hold something."""
    return [line.strip() for line in str(text).splitlines() if line.strip()]


def tidy(text: object) -> str:
    """A typed text without blanks around it; a browser's date and time as files write it."""
    clean = str(text).strip()
    moment = re.fullmatch(r"(\d{4}-\d\d-\d\d)T(\d\d:\d\d)(:00)?", clean)
    return f"{moment[1]} {moment[2]}" if moment else clean


def shown(value: object) -> str:
    """A value of the file as it stands in a field."""
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, dt.datetime):
        return value.strftime("%Y-%m-%d %H:%M")
    if isinstance(value, dt.time):
        return value.strftime("%H:%M")
    if isinstance(value, float):
        return f"{value:.10g}"
    return tidy(value)


def value_of(info: FieldInfo, text: str) -> object:
    """What a typed text is in the file: true or false, a number, or the text; None if blank."""
    clean, kind = tidy(text), kind_of(info)
    if not clean or kind is None:
        return clean or None
    if kind is YES_NO:
        return {"yes": True, "no": False}.get(clean, clean)
    if kind.example.startswith('"'):
        return clean
    number = clean.replace(",", ".")
    if re.fullmatch(r"-?\d+", number):
        return int(number)
    return float(number) if re.fullmatch(r"-?\d*\.\d+", number) else clean


def renamed(data: Data, old: str, new: str | None) -> dict[str, object]:
    """What else names a walker: it follows a new name, and goes with a walker who goes (None)."""
    out: dict[str, object] = {}
    for path, row in _naming(data):
        key = "carrier" if path.startswith("kit") else "walker"
        if not isinstance(row, Mapping) or row.get(key, "").casefold() != old.casefold():
            continue
        whole = new is None and key == "walker"
        out[path if whole else f"{path}.{key}"] = new
    return out


def _naming(data: Data) -> Iterator[tuple[str, Any]]:
    """Every row that may name a walker, the last of each list first."""
    for top, key in (("rules", "holds"), ("rules", "bans"), ("kit", "containers")):
        rows = data.get(top, {}).get(key, ())
        for number, row in reversed(list(enumerate(rows if isinstance(rows, list) else ()))):
            yield f"{top}.{key}[{number}]", row
