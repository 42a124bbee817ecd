"""Typed values -> JSON values. Equal values give equal JSON."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Callable
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
    is_union,
    members,
    origin_of,
)

Encoder = Callable[[Any], Json]


@cache
def encoder(hint: Hint) -> Encoder:
    """The function that writes values of a hint."""
    if hint is float:
        return _float_out
    if hint in (int, str, bool, type(None)) or is_literal(hint):
        return _plain_out
    if hint in (dt.date, dt.datetime):
        return lambda value: value.isoformat()
    if is_union(hint):
        return _union_out(hint)
    if is_fields(hint):
        return _fields_out(hint)
    return _collection_out(hint)


def _float_out(value: Any) -> float:
    number = float(value) + 0.0
    if not math.isfinite(number):
        raise ValueError(f"{value} cannot be written: no number")
    return number


def _plain_out(value: Any) -> Json:
    if value is None or isinstance(value, str | bool):
        return value
    return int(value)


def _union_out(hint: Hint) -> Encoder:
    """Each member writes its own kind; a whole number stays one where whole numbers are meant."""
    tests = [(_belongs(part), encoder(part)) for part in members(hint)]

    def out(value: Any) -> Json:
        if value is None:
            return None
        for belongs, write in tests:
            if belongs(value):
                return write(value)
        raise ValueError(f"{value!r} is none of {hint}")

    return out


def _belongs(hint: Hint) -> Callable[[Any], bool]:
    """Whether a value may be meant by one member of a union."""
    if is_literal(hint):
        return lambda value: value in args_of(hint)
    if hint is float:
        return lambda value: isinstance(value, int | float) and not isinstance(value, bool)
    if hint is int:
        return lambda value: isinstance(value, int) and not isinstance(value, bool)
    if hint is dt.date:
        return lambda value: isinstance(value, dt.date) and not isinstance(value, dt.datetime)
    origin = origin_of(hint) or hint
    return lambda value: isinstance(value, origin)


def _fields_out(cls: type) -> Encoder:
    writers = [(name, encoder(hint)) for name, hint in hints_of(cls).items()]

    def out(value: Any) -> Json:
        return {name: write(getattr(value, name)) for name, write in writers}

    return out


def _collection_out(hint: Hint) -> Encoder:
    origin, args = origin_of(hint), args_of(hint)
    if origin is frozenset:
        write = encoder(args[0])
        return lambda value: [write(item) for item in sorted(value)]
    if origin is tuple and args[-1] is Ellipsis:
        write = encoder(args[0])
        return lambda value: [write(item) for item in value]
    if origin is tuple:
        writers = [encoder(arg) for arg in args]
        return lambda value: [w(item) for w, item in zip(writers, value, strict=True)]
    if is_mapping(hint):
        write = encoder(args[1])
        return lambda value: {_key_out(k): write(value[k]) for k in sorted(value, key=_key_order)}
    raise TypeError(f"no codec for {hint}")


def _key_out(key: Any) -> str:
    return "/".join(str(part) for part in key) if isinstance(key, tuple) else str(key)


def _key_order(key: Any) -> tuple[tuple[int, int, str], ...]:
    """Whole numbers by size, also where they are written as texts; then texts."""
    parts = key if isinstance(key, tuple) else (key,)
    return tuple(
        (0, int(part), "") if str(part).isdecimal() else (1, 0, str(part)) for part in parts
    )
