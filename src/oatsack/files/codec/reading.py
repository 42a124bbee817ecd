"""JSON values -> typed values, strictly, with every misfit found and its path.

Each reader first reads without bookkeeping; only where something does not fit is it read again, to
find all that is wrong and where.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterable, Mapping
from functools import cache
from typing import Any

from oatsack.files.codec.hints import (
    Hint,
    Json,
    args_of,
    hints_of,
    is_fields,
    is_literal,
    is_mapping,
    is_optional,
    is_union,
    members,
    needed_of,
    origin_of,
)

Decoder = Callable[[Json], Any]


class Misfit(ValueError):
    """A JSON value that does not fit its type: what is wrong, and where below the value at hand."""

    def __init__(self, wrong: str, read: object, path: str = "") -> None:
        self.wrong, self.read, self.path = wrong, read, path
        super().__init__(f"{path}: {wrong}, got {read!r}")

    def below(self, step: str) -> Misfit:
        """The same misfit, seen from one level above."""
        path = self.path
        joint = "." if path and not path.startswith("[") else ""
        return Misfit(self.wrong, self.read, f"{step}{joint}{path}")


class Misfits(ValueError):
    """All misfits of one value."""

    def __init__(self, found: list[Misfit]) -> None:
        self.found = found
        super().__init__("; ".join(str(one) for one in found))


@cache
def decoder(hint: Hint) -> Decoder:
    """The function that reads values of a hint; raises Misfit or Misfits."""
    if hint in _SIMPLE:
        return _SIMPLE[hint]
    if is_literal(hint):
        return _literal_in(args_of(hint))
    if is_union(hint):
        return _union_in(hint)
    if is_fields(hint):
        return _fields_in(hint)
    return _collection_in(hint)


def _float_in(data: Json) -> float:
    if type(data) is float:
        return data
    if type(data) is int:
        return float(data)
    raise Misfit("not a number", data)


def _int_in(data: Json) -> int:
    if type(data) is int:
        return data
    raise Misfit("not a whole number", data)


def _str_in(data: Json) -> str:
    if type(data) is str:
        return data
    raise Misfit("not a text", data)


def _bool_in(data: Json) -> bool:
    if type(data) is bool:
        return data
    raise Misfit("neither true nor false", data)


def _none_in(data: Json) -> None:
    if data is not None:
        raise Misfit("not null", data)


def _date_in(data: Json) -> dt.date:
    try:
        return dt.date.fromisoformat(_str_in(data))
    except ValueError as error:
        raise Misfit("not a date", data) from error


def _moment_in(data: Json) -> dt.datetime:
    try:
        return dt.datetime.fromisoformat(_str_in(data))
    except ValueError as error:
        raise Misfit("not a date with a time", data) from error


_SIMPLE: dict[Hint, Decoder] = {
    float: _float_in, int: _int_in, str: _str_in, bool: _bool_in, type(None): _none_in,
    dt.date: _date_in, dt.datetime: _moment_in,
}  # fmt: skip


def _literal_in(options: tuple[Any, ...]) -> Decoder:
    def read(data: Json) -> Any:
        if isinstance(data, str) and data in options:
            return data
        raise Misfit(f"none of {', '.join(map(str, options))}", data)

    return read


def _union_in(hint: Hint) -> Decoder:
    """The first member that takes the value; the complaint is that of the likeliest member."""
    readers = [decoder(part) for part in members(hint)]
    optional = is_optional(hint)

    def read(data: Json) -> Any:
        if data is None and optional:
            return None
        misfits: list[Misfit | Misfits] = []
        for one in readers:
            try:
                return one(data)
            except (Misfit, Misfits) as misfit:
                misfits.append(misfit)
        raise misfits[-1]

    return read


def _fields_in(cls: type) -> Decoder:
    fields = {name: decoder(hint) for name, hint in hints_of(cls).items()}
    needed = needed_of(cls)

    def read(data: Json) -> Any:
        if not isinstance(data, dict):
            raise Misfit("not an object", data)
        same = data.keys() == fields.keys()
        try:
            if same:  # the everyday way: no bookkeeping
                return cls(**{name: fields[name](item) for name, item in data.items()})
        except (Misfit, Misfits):
            pass
        found = [] if same else _wrong_keys(data, fields, needed)
        return cls(**_each(data.items(), fields.get, "{}", found))

    return read


def _wrong_keys(
    data: Mapping[str, Json], fields: Mapping[str, Decoder], needed: frozenset[str]
) -> list[Misfit]:
    found = [Misfit("unknown key", name, name) for name in data if name not in fields]
    return found + [Misfit("is missing", None, name) for name in sorted(needed - data.keys())]


def _each(
    items: Iterable[tuple[Any, Json]], reader: Callable[[Any], Decoder | None], step: str,
    found: list[Misfit],
) -> dict[Any, Any]:  # fmt: skip
    """Reads every item that has a reader, and complains of all that do not fit."""
    out: dict[Any, Any] = {}
    for name, item in items:
        one = reader(name)
        try:
            if one is not None:
                out[name] = one(item)
        except Misfit as misfit:
            found.append(misfit.below(step.format(name)))
        except Misfits as misfits:
            found += [one.below(step.format(name)) for one in misfits.found]
    if found:
        raise Misfits(found)
    return out


def _collection_in(hint: Hint) -> Decoder:
    origin, args = origin_of(hint), args_of(hint)
    if origin in (tuple, frozenset):
        return _items_in(origin, args)
    if is_mapping(hint):
        key, value = _key_in(args[0]), decoder(args[1])

        def read(data: Json) -> Any:
            if not isinstance(data, dict):
                raise Misfit("not an object", data)
            try:
                return {key(name): value(item) for name, item in data.items()}
            except (Misfit, Misfits):
                found: list[Misfit] = []
            keys = _each(((name, name) for name in data), lambda name: key, "{}", found)
            items = _each(data.items(), lambda name: value, "{}", found)
            return {keys[name]: item for name, item in items.items()}

        return read
    raise TypeError(f"no codec for {hint}")


def _items_in(origin: type, args: tuple[Hint, ...]) -> Decoder:
    fixed = origin is tuple and args[-1] is not Ellipsis
    readers = [decoder(arg) for arg in args if arg is not Ellipsis]

    def read(data: Json) -> Any:
        if not isinstance(data, list):
            raise Misfit("not a list", data)
        if fixed and len(data) != len(readers):
            raise Misfit(f"not {len(readers)} items", data)
        each = readers if fixed else readers * len(data)
        try:
            return origin([one(item) for one, item in zip(each, data, strict=True)])
        except (Misfit, Misfits):
            pass
        items = _each(enumerate(data), each.__getitem__, "[{}]", [])
        return origin(items.values())

    return read


def _key_in(hint: Hint) -> Callable[[str], Any]:
    """Reads a key again from the text that JSON makes of it."""
    if origin_of(hint) is tuple:
        parts = [_key_in(arg) for arg in args_of(hint)]

        def read(text: str) -> Any:
            words = text.rsplit("/", len(parts) - 1)
            if len(words) != len(parts):
                raise Misfit(f"not {len(parts)} parts", text)
            return tuple(part(word) for part, word in zip(parts, words, strict=True))

        return read
    if hint is int:
        return _whole_key
    if is_literal(hint):
        return _literal_in(args_of(hint))
    return str


def _whole_key(text: str) -> int:
    if not text.removeprefix("-").isdecimal():
        raise Misfit("a key that is no whole number", text)
    return int(text)
