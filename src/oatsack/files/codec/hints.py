"""Type hints, looked at the same way by everyone who writes, reads or describes values."""

from __future__ import annotations

import dataclasses
import sys
import types
import typing
from collections.abc import Mapping
from functools import cache
from typing import Any

Json = Any
Hint = Any


def origin_of(hint: Hint) -> Any:
    """``tuple`` of ``tuple[int, ...]``, and so on."""
    return typing.get_origin(hint)


def args_of(hint: Hint) -> tuple[Any, ...]:
    """What stands in a hint's brackets."""
    return typing.get_args(hint)


def is_union(hint: Hint) -> bool:
    """Whether a hint allows several kinds of value."""
    return origin_of(hint) in (types.UnionType, typing.Union)


def is_optional(hint: Hint) -> bool:
    """Whether None is allowed."""
    return is_union(hint) and type(None) in args_of(hint)


def members(hint: Hint) -> list[Hint]:
    """The kinds of a union, but for None; whole numbers before floats, which would take them."""
    return sorted((p for p in args_of(hint) if p is not type(None)), key=lambda part: part is float)


def is_literal(hint: Hint) -> bool:
    """Whether a hint lists its values."""
    return origin_of(hint) is typing.Literal


def is_fields(hint: Hint) -> bool:
    """Whether a hint is a dataclass."""
    return isinstance(hint, type) and dataclasses.is_dataclass(hint)


def is_mapping(hint: Hint) -> bool:
    """Whether a hint is a mapping's."""
    origin = origin_of(hint)
    return isinstance(origin, type) and issubclass(origin, Mapping)


@cache
def hints_of(cls: type) -> Mapping[str, Hint]:
    """The resolved hints of a dataclass's fields, in their order.

    All of them are evaluated at once: one by one they are a fifth of the time a plan takes to open.
    """
    names = [field.name for field in dataclasses.fields(cls)]
    texts = [str(field.type) for field in dataclasses.fields(cls)]
    found = eval(f"[{', '.join(texts)}]", vars(sys.modules[cls.__module__]))  # noqa: S307
    return dict(zip(names, found, strict=True))


@cache
def needed_of(cls: type) -> frozenset[str]:
    """Fields without a default."""
    return frozenset(
        field.name
        for field in dataclasses.fields(cls)
        if field.default is dataclasses.MISSING and field.default_factory is dataclasses.MISSING
    )
