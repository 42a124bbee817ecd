"""`dataclass`, made cheaply: a value class costs its first value something, not every start.

The standard decorator writes and compiles six methods for each class as it is defined. Eighty
classes of them are more than half of what a command that only shows something may take to answer.
Here all but ``__init__`` are shared functions, and ``__init__`` is compiled when the first value of
a class is made, so that a class which a command never uses costs next to nothing.

To a type checker this *is* the standard decorator, and to the standard library its classes are
dataclasses (`fields`, `replace`, `asdict` work). Only one form exists: frozen, with slots, without
inheritance. Classes that need another form take the standard one.
"""

from __future__ import annotations

import dataclasses
from functools import partial
from operator import attrgetter
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from dataclasses import dataclass as dataclass
else:

    def dataclass(*, frozen: bool, slots: bool, kw_only: bool = False) -> Any:
        """The decorator; its arguments are written out to say what the class is."""
        if not (frozen and slots):
            raise TypeError("only frozen values with slots; for others there is the standard one")
        return partial(_valued, kw_only)


def _valued(kw_only: bool, cls: type) -> type:
    """The class as a frozen dataclass whose ``__init__`` is yet to be compiled."""
    cls = dataclasses.dataclass(
        init=False, repr=False, eq=False, match_args=False, slots=True, kw_only=kw_only
    )(cls)
    fields = tuple(cls.__dataclass_fields__)  # type: ignore[attr-defined]
    shared = {
        "__init__": _first, "__repr__": _repr, "__setattr__": _refuse, "__delattr__": _refuse,
        "__getstate__": _state, "__setstate__": _restore, **_compared(fields),
    }  # fmt: skip
    for name, method in shared.items():
        type.__setattr__(cls, name, method)
    return cls


def _first(self: Any, *given: Any, **named: Any) -> None:
    """The ``__init__`` of a class that never had a value: puts the real one in its place."""
    cls = type(self)
    cls.__init__ = _written(cls)
    cls.__init__(self, *given, **named)


def _written(cls: Any) -> Any:
    """The ``__init__`` of a class, compiled."""
    names: dict[str, Any] = {"_missing": dataclasses.MISSING}
    arguments, lines = ["self"], []
    for name, field in cls.__dataclass_fields__.items():
        if not field.init:
            continue
        if field.kw_only and "*" not in arguments:
            arguments.append("*")
        names[f"_set_{name}"] = cls.__dict__[name].__set__  # the slot: frozen against all others
        value = name
        if field.default is not dataclasses.MISSING:
            names[f"_is_{name}"] = field.default
            arguments.append(f"{name}=_is_{name}")
        elif field.default_factory is not dataclasses.MISSING:
            names[f"_is_{name}"] = field.default_factory
            arguments.append(f"{name}=_missing")
            value = f"_is_{name}() if {name} is _missing else {name}"
        else:
            arguments.append(name)
        lines.append(f" _set_{name}(self, {value})")
    if hasattr(cls, "__post_init__"):
        lines.append(" self.__post_init__()")
    head = f"def __init__({', '.join(arguments)}):"
    exec("\n".join([head, *(lines or [" pass"])]), names)  # noqa: S102
    made = names["__init__"]
    made.__qualname__ = f"{cls.__qualname__}.__init__"
    return made


def _compared(fields: tuple[str, ...]) -> dict[str, Any]:
    """Equal are two values of one class whose fields are all equal; equal values hash alike."""
    parts = attrgetter(*fields) if fields else lambda value: ()

    def equal(self: Any, other: Any) -> Any:
        return parts(self) == parts(other) if other.__class__ is self.__class__ else NotImplemented

    def hashed(self: Any) -> int:
        return hash(parts(self))

    return {"__eq__": equal, "__hash__": hashed}


def _repr(self: Any) -> str:
    fields = ", ".join(f"{name}={getattr(self, name)!r}" for name in self.__dataclass_fields__)
    return f"{type(self).__qualname__}({fields})"


def _refuse(self: Any, name: str, *value: Any) -> None:
    raise dataclasses.FrozenInstanceError(f"cannot {'assign to' if value else 'delete'} {name!r}")


def _state(self: Any) -> list[Any]:
    return [getattr(self, name) for name in self.__dataclass_fields__]


def _restore(self: Any, state: list[Any]) -> None:
    for name, value in zip(self.__dataclass_fields__, state, strict=True):
        object.__setattr__(self, name, value)
