"""The everyday command, read and helped without a parser: a parser costs more than the answer.

Reads only what has one meaning: words in their places, ``--name value`` and ``--flag``, for texts,
whole numbers and paths. Whatever else is written (a slip, ``--name=value``, a list) is left to the
parser, which also says what is wrong. A test holds both against each other.
"""

from __future__ import annotations

import inspect
import re
import types
import typing
from collections.abc import Callable, Iterator, Sequence
from importlib import import_module
from pathlib import Path
from typing import Any, NamedTuple

from oatsack.cli.verbs import Verb

WIDTH = 80
READERS: dict[object, Callable[[str], Any]] = {str: str, int: int, Path: Path}
MARKS = {str: "TEXT", int: "NUMBER", Path: "PATH"}
EMPTY = inspect.Parameter.empty


class Argument(NamedTuple):
    """One argument of a verb as the command line knows it."""

    name: str
    options: tuple[str, ...]
    """How it is called as an option, as ``--out`` and ``-o``."""
    kind: Any
    """str, int, Path, bool, or a type that only the parser reads."""
    placed: bool
    """Whether it is told by its place among the words."""
    rest: bool
    """Whether it takes all words that are left."""
    default: object


def function_of(verb: Verb) -> Callable[..., Any]:
    """The function behind a verb."""
    module, _, name = verb.target.partition(":")
    function: Callable[..., Any] = getattr(import_module(module), name)
    return function


def arguments_of(function: Callable[..., Any]) -> tuple[Argument, ...]:
    """The arguments of a verb's function, in their order."""
    names = {**function.__globals__, "option": lambda *given: given}
    hints = typing.get_type_hints(function, globalns=names, include_extras=True)
    found = []
    for one in inspect.signature(function).parameters.values():
        hint, options = hints[one.name], (f"--{one.name.replace('_', '-')}",)
        renamed = typing.get_origin(hint) is typing.Annotated
        if renamed:
            hint, options = typing.get_args(hint)
        found.append(Argument(
            name=one.name, options=options, kind=_kind(hint), default=one.default,
            placed=one.kind is not one.KEYWORD_ONLY and not renamed,
            rest=one.kind is one.VAR_POSITIONAL,
        ))  # fmt: skip
    return tuple(found)


def _kind(hint: Any) -> Any:
    """A type without its None."""
    if typing.get_origin(hint) in (types.UnionType, typing.Union):
        left = [part for part in typing.get_args(hint) if part is not type(None)]
        return left[0] if len(left) == 1 else hint
    return hint


def read(
    words: Sequence[str], arguments: Sequence[Argument]
) -> tuple[list[Any], dict[str, Any]] | None:
    """What a verb's function is called with, by place and by name; None: ask the parser."""
    called = {name: one for one in arguments if not one.rest for name in one.options}
    refused = {_off(one): one.name for one in arguments if one.kind is bool and one.default}
    placed: list[str] = []
    named: dict[str, Any] = {}
    left = iter(words)
    for word in left:
        if not word.startswith("-"):
            placed.append(word)
            continue
        if word in refused and refused[word] not in named:
            named[refused[word]] = False
            continue
        one = called.get(word)
        value = None if one is None else _value(one, left)
        if one is None or value is None or one.name in named:
            return None
        named[one.name] = value
    return _together(placed, named, arguments)


def _off(one: Argument) -> str:
    """How something that is on without a word is put off: ``--no-browser``."""
    return one.options[0].replace("--", "--no-", 1)


def _value(one: Argument, left: Iterator[str]) -> Any:
    """The value of an option; None where it is not plain."""
    return True if one.kind is bool else _plain(one, next(left, "-"))


def _plain(one: Argument, word: str) -> Any:
    if one.kind not in READERS or not word or word.startswith("-"):
        return None
    if one.kind is int and not (word.isascii() and word.isdigit()):
        return None
    return READERS[one.kind](word)


def _together(
    placed: list[str], named: dict[str, Any], arguments: Sequence[Argument]
) -> tuple[list[Any], dict[str, Any]] | None:
    """Words into places; None where one is missing, left over or not plain."""
    free = [one for one in arguments if one.placed]
    if free and free[-1].rest:
        free = free[:-1] + [free[-1]] * (len(placed) - len(free) + 1)
    if len(placed) > len(free) or any(one.name in named for one in free):
        return None
    values = [_plain(one, word) for one, word in zip(free, placed, strict=False)]
    given = {one.name for one, _ in zip(free, placed, strict=False)} | named.keys()
    missing = any(one.default is EMPTY and not one.rest and one.name not in given
                  for one in arguments)  # fmt: skip
    return None if missing or None in values else (values, named)


def help_page(verb: Verb) -> str:
    """What `oatsack VERB --help` says: use, what it does, and each argument."""
    from textwrap import fill

    function = function_of(verb)
    arguments = arguments_of(function)
    what, _, rest = inspect.cleandoc(function.__doc__ or "").partition("\n\nParameters\n")
    texts = dict(re.findall(r"^(\w+)\n((?:    .*\n?)+)", rest, re.M))
    use = " ".join(["oatsack", verb.name, *(_use(one) for one in arguments if one.placed)])
    rows = [(_written(one), _about(one, texts.get(one.name, ""))) for one in arguments]
    more = " [OPTIONS]" if any(not one.placed for one in arguments) else ""
    told = "\n\n".join(fill(part, WIDTH) for part in what.split("\n\n"))
    return "\n".join([f"Usage: {use}{more}", "", told, "", *_table(rows)]).rstrip()


def _use(one: Argument) -> str:
    name = one.name.upper().rstrip("_")
    if one.rest:
        return f"[{name}...]"
    return name if one.default is EMPTY else f"[{name}]"


def _written(one: Argument) -> str:
    """An argument as it is typed."""
    if one.placed:
        return one.name.upper().rstrip("_")
    if one.kind is bool:
        off = (_off(one),) if one.default else ()
        return ", ".join([*one.options, *off])
    choices = "|".join(map(str, typing.get_args(one.kind))) if _is_choice(one.kind) else ""
    return f"{', '.join(one.options)} {choices or MARKS.get(one.kind, 'TEXT')}"


def _is_choice(kind: Any) -> bool:
    return typing.get_origin(kind) is typing.Literal


def _about(one: Argument, text: str) -> str:
    """What its docstring says, and what it is when left out."""
    words = " ".join(text.split())
    if one.default is EMPTY and not one.rest:
        return words if one.placed else f"{words} Has to be given."
    if one.rest or one.default in (None, False, "") or one.default == Path():
        return words
    usual = one.options[0] if one.kind is bool else one.default
    return f"{words} Without it: {usual}."


def _table(rows: Sequence[tuple[str, str]]) -> Iterator[str]:
    from textwrap import wrap

    width = max((len(left) for left, _ in rows), default=0)
    for left, text in rows:
        first, *more = wrap(text, WIDTH - width - 4) or [""]
        yield f"  {left:<{width}}  {first}".rstrip()
        yield from (" " * (width + 4) + line for line in more)
