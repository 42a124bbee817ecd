"""A form of the trip file ready to show: labels, hints, what stands there, and what is wrong.

Everything comes from the tables that read the file: what a key is, which words it takes, what
stands if it is left blank. Which keys, in which order: `form_specs`. It writes nothing.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import cache
from typing import Any

from pydantic.fields import FieldInfo

from oatsack.desk.filling import GONE, SHORT, shown
from oatsack.errors import Fault
from oatsack.files.trip.edit import parse_path
from oatsack.files.trip.faults import fields_of, is_many, kind_of, table_at
from oatsack.files.trip.kinds import MOMENT, TEXT, YES_NO
from oatsack.files.trip.reference import default_text, value_default
from oatsack.files.trip.tables import Table, TripTable
from oatsack.reports.words import say, sentences
from oatsack.web.form_specs import Part


@dataclass(frozen=True, slots=True, kw_only=True)
class Field:
    """One thing asked for."""

    name: str
    label: str
    hint: str
    value: str
    sort: str
    """text, moment, date, lines, select, checks, or listed (a text with foods to pick from)."""
    options: tuple[tuple[str, str], ...] = ()
    offers: tuple[tuple[str, str], ...] = ()
    """Foods that can be put in by their names, where a list of foods stands."""
    faults: tuple[str, ...] = ()
    needed: bool = False

    @property
    def id(self) -> str:
        """An id for the page."""
        return "f-" + re.sub(r"[^a-z0-9]+", "-", self.name.casefold()).strip("-")


@dataclass(frozen=True, slots=True, kw_only=True)
class Rows:
    """One row of a list: its fields, and the box that lets it go (none for a blank row)."""

    title: str
    fields: tuple[Field, ...]
    gone: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    """A heading with its fields, or with rows of them."""

    title: str
    hint: str
    fields: tuple[Field, ...] = ()
    rows: tuple[Rows, ...] = ()
    folded: bool = False
    when: str = ""

    @property
    def faulty(self) -> bool:
        """Whether anything in it is at fault, so that it must not stay folded."""
        inside = [*self.fields, *(f for row in self.rows for f in row.fields)]
        return any(one.faults for one in inside)


@dataclass(frozen=True, slots=True, kw_only=True)
class Filled:
    """What a form is filled with: the file, over it what was sent, and the faults of that."""

    data: Mapping[str, Any]
    sent: Mapping[str, str] = field(default_factory=dict)
    faults: Sequence[Fault] = ()
    offers: Mapping[str, tuple[tuple[str, str], ...]] = field(default_factory=dict)
    """Meal -> foods that suit it, by id and name; ``""`` are all."""
    walkers: tuple[str, ...] = ()

    def named(self, food: str) -> str:
        """A food as one says it: its name, where that is no other's too."""
        return next((said for id, said in self.offers.get("", ()) if id == food), food)

    @property
    def foods(self) -> tuple[str, ...]:
        """What a field for one food offers."""
        return tuple(said for _, said in self.offers.get("", ()))


def groups(parts: Iterable[Part], filled: Filled) -> tuple[Group, ...]:
    """All parts of a form."""
    return tuple(_group(part, filled) for part in parts)


def unplaced(shown_: Iterable[Group], filled: Filled) -> tuple[str, ...]:
    """Faults that no field of the form shows."""
    names = _names(shown_)
    return tuple(
        f"{fault.path}: {told(fault)}" for fault in filled.faults if not _field_of(fault, names)
    )


def faulty(shown_: Iterable[Group]) -> tuple[Field, ...]:
    """The fields that are at fault, in order, to be led to from the top of the page."""
    return tuple(one for one in _fields(shown_) if one.faults)


def lists_foods(shown_: Iterable[Group]) -> bool:
    """Whether any field offers every food."""
    return any(one.sort == "listed" for one in _fields(shown_))


def told(fault: Fault) -> str:
    """A fault beside its field: what is wrong, what was read, what to write."""
    read = fault.read.strip("\"'") or say("web.form.blank")
    wrong, instead = (words[:1].upper() + words[1:] for words in (fault.wrong, fault.instead))
    return say("web.form.fault", wrong=wrong, read=read, instead=instead).strip()


def _group(part: Part, filled: Filled) -> Group:
    table = table_at(parse_path(part.path)) if part.path else TripTable
    assert table is not None, part.path
    name = f"web.form.{part.title}-hint"
    hint = say(name) if name in sentences() else ""
    title = say(f"web.form.{part.title}")
    if not _is_list(part):
        now = _there(filled.data, part.path)
        fields = tuple(_field(table, part.path, key, now, filled) for key in part.keys)
        return _judged(Group(title=title, hint=hint, fields=fields, folded=part.folded,
                             when=part.when), filled)  # fmt: skip
    rows = tuple(_row(part, table, number, filled) for number in range(_count(part, filled)))
    return _judged(
        Group(title=title, hint=hint, rows=rows, folded=part.folded, when=part.when), filled
    )


def _is_list(part: Part) -> bool:
    return part.rows > 0 or part.path == "route.days"


def _count(part: Part, filled: Filled) -> int:
    sent = [int(found[1]) for name in filled.sent
            if (found := re.match(re.escape(part.path) + r"\[(\d+)\]", name))]  # fmt: skip
    return max(len(_items(filled.data, part.path)) + part.rows, *(n + 1 for n in sent), 0)


def _row(part: Part, table: type[Table], number: int, filled: Filled) -> Rows:
    items = _items(filled.data, part.path)
    item = items[number] if number < len(items) else {}
    now = item if isinstance(item, Mapping) else {SHORT[part.path.rpartition(".")[2]]: item}
    path = f"{part.path}[{number}]"
    there = number < len(items)
    fields = (_field(table, path, key, now, filled) for key in part.keys)
    return Rows(
        title=_row_title(part, number, now, there=there),
        fields=tuple(replace(f, needed=False, hint="" if number else f.hint) for f in fields),
        gone=f"{path}.{GONE}" if there else "",
    )


def _row_title(part: Part, number: int, now: Mapping[str, Any], *, there: bool) -> str:
    """A row's own name, or its number; days always bear theirs."""
    if part.path == "route.days":
        return say("web.form.day", n=number + 1)
    named = shown(now.get("name")) or say("web.form.row", n=number + 1)
    return named if there else say("web.form.another")


def _there(data: Mapping[str, Any], path: str) -> Mapping[str, Any]:
    """The table at a path of the file, empty where there is none."""
    holder: Any = data
    for step in parse_path(path) if path else ():
        if isinstance(step, int):
            holder = holder[step] if isinstance(holder, list) and step < len(holder) else {}
        else:
            holder = holder.get(step, {}) if isinstance(holder, Mapping) else {}
    if isinstance(holder, str):
        return {SHORT[path.rpartition(".")[2]]: holder}
    return holder if isinstance(holder, Mapping) else {}


def _items(data: Mapping[str, Any], path: str) -> list[Any]:
    """The rows at a path of the file."""
    above, _, name = path.rpartition(".")
    found = _there(data, above).get(name, [])
    return list(found) if isinstance(found, list) else [found]


def _field(
    table: type[Table], path: str, key: str, now: Mapping[str, Any], filled: Filled
) -> Field:
    known, name = _known(table, key), f"{path}.{key}" if path else key
    stands = now.get(key)
    many = [stands] if isinstance(stands, str) else stands or ()
    value = "\n".join(shown(one) for one in many) if known.many else shown(stands)
    sent = filled.sent.get(name, value)
    options = _of_this_trip(known, key, filled) or known.options
    food = key == "food" and not known.many and bool(filled.offers.get(""))
    return Field(
        name=name, label=known.label,
        sort="listed" if food else "select" if options and not known.many else known.sort,
        hint=known.brief if options or food else known.hint,
        value=filled.named(sent) if food else sent,
        options=options, needed=known.needed,
        offers=filled.offers.get(key, ()) if ".usual" in path else (),
    )  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class _Known:
    """What the tables say of a key, whatever stands in a file."""

    label: str
    hint: str
    brief: str
    """The hint where options stand beside it."""
    sort: str
    options: tuple[tuple[str, str], ...]
    blank: tuple[str, str]
    """The option that stands for nothing written."""
    many: bool
    needed: bool


@cache
def _known(table: type[Table], key: str) -> _Known:
    info = fields_of(table)[key]
    blank = ("", "" if info.is_required() else _usual(table, key, info))
    return _Known(
        label=_label(table, key), hint=_hint(table, key, info), sort=_sort(info),
        brief=_hint_of_options(table, key, info), options=_options(info, blank), blank=blank,
        many=is_many(info), needed=info.is_required(),
    )  # fmt: skip


def _label(table: type[Table], key: str) -> str:
    for name in (f"web.key.{table.__name__.removesuffix('Table').lower()}-{key}", f"web.key.{key}"):
        if name in sentences():
            return say(name)
    return key.replace("_", " ").capitalize()


def _hint(table: type[Table], key: str, info: FieldInfo) -> str:
    """What it is, an example, and what stands if it is left blank."""
    kind = kind_of(info)
    what, blank = default_text(table, key)[1].partition(" If left out: ")[0], ""
    if kind is not None and kind.options is None and kind not in (YES_NO, TEXT):
        what += " " + say("web.form.example", example=kind.example.strip('"'))
    if not info.is_required():
        blank = _blank(table, key, info)
    return f"{what} {say('web.form.if-blank', what=blank)}" if blank else what


def _blank(table: type[Table], key: str, info: FieldInfo) -> str:
    """What stands if a key is left out; empty where nothing does."""
    sample, text = default_text(table, key)
    otherwise = text.partition(" If left out: ")[2].rstrip(".")
    if not otherwise and value_default(table, key) not in (None, "", (), frozenset()):
        otherwise = sample
    bare, kind = re.sub(r'["\[\]]', "", otherwise), kind_of(info)
    named = kind is YES_NO or (kind is not None and kind.options is not None)
    return _word(bare) if named else bare


def _sort(info: FieldInfo) -> str:
    kind = kind_of(info)
    if is_many(info):
        return "checks" if kind and kind.options else "lines"
    if kind is MOMENT:
        return "moment"
    return "select" if kind is YES_NO or (kind and kind.options) else "text"


def _of_this_trip(known: _Known, key: str, filled: Filled) -> tuple[tuple[str, str], ...]:
    """Options that only this trip's walkers give."""
    if key not in ("walker", "carrier") or known.many or not filled.walkers:
        return ()
    return (known.blank, *((name, name) for name in filled.walkers))


def _options(info: FieldInfo, blank: tuple[str, str]) -> tuple[tuple[str, str], ...]:
    kind = kind_of(info)
    if kind is YES_NO and not is_many(info):
        return (blank, ("yes", say("web.form.yes")), ("no", say("web.form.no")))
    if kind is None or kind.options is None:
        return ()
    words = tuple((word, _word(word)) for word in kind.options())
    return words if is_many(info) else (blank, *words)


FITS = 20
"""So many letters of what is usual fit into a box; more stand in the hint."""


def _usual(table: type[Table], key: str, info: FieldInfo) -> str:
    what = _blank(table, key, info)
    fits = what and len(what) <= FITS
    return say("web.form.usual-is", what=what) if fits else say("web.form.usual-way")


def _hint_of_options(table: type[Table], key: str, info: FieldInfo) -> str:
    """What it is; what is usual too, where that is too long for the box."""
    what = "" if info.is_required() else _blank(table, key, info)
    said = [str(info.description)] + [say("web.form.if-usual", what=what)] * (len(what) > FITS)
    return " ".join(said)


def _word(word: str) -> str:
    if word in ("true", "false"):
        return say("web.form.yes") if word == "true" else say("web.form.no")
    for group in ("allergen", "scope", "meals"):
        if f"{group}.{word}" in sentences():
            return say(f"{group}.{word}")
    return re.sub(r"(?<=[a-z])[_-](?=[a-z0-9])", " ", word)


def _judged(group: Group, filled: Filled) -> Group:
    """The group with every fault beside its field."""
    names = _names([group])
    said: dict[str, list[str]] = {}
    for fault in filled.faults:
        if where := _field_of(fault, names):
            said.setdefault(where, []).append(told(fault))

    def judged(one: Field) -> Field:
        return replace(one, options=_with_own(one), faults=tuple(said.get(one.name, ())))

    rows = tuple(replace(row, fields=tuple(map(judged, row.fields))) for row in group.rows)
    return replace(group, fields=tuple(map(judged, group.fields)), rows=rows)


def _with_own(one: Field) -> tuple[tuple[str, str], ...]:
    """The options, with what stands there even if nobody offers it."""
    known = {word for word, _ in one.options}
    if one.value in known or not one.options or one.sort == "checks":
        return one.options
    return (*one.options, (one.value, one.value))


def _fields(shown_: Iterable[Group]) -> Iterator[Field]:
    for group in shown_:
        yield from group.fields
        for row in group.rows:
            yield from row.fields


def _names(shown_: Iterable[Group]) -> list[str]:
    return [one.name for one in _fields(shown_)]


def _field_of(fault: Fault, names: Iterable[str]) -> str:
    """The field that a fault belongs to: its own, or the first of the table it is about."""
    path = fault.path
    inside = [n for n in names if path == n or path.startswith((f"{n}[", f"{n}."))]
    around = [n for n in names if n.startswith(f"{path}.")] if "[" in path else []
    return max(inside, key=len) if inside else around[0] if around else ""
