"""Every sentence for people, found by its key, in the walker's own units.

The sentences stand in `en.toml`, one table per subject; a key is the path through the tables, as
``first.days`` or ``flags.kitchen.thin``. A field in braces may say what kind of number it is, and
the voice shows it in the units of the trip::

    {mass_g:mass}  {energy_kcal:kcal}  {about_kcal:about}  {water_ml:volume}  {climb_m:height}
    {distance_m:distance}  {air_c:temperature}  {wait_min:minutes}  {price:money}  {share:percent}
    {food:food}  {walker:walker}  {meal:meal}  {day:day}  {bag:bag}  {why:gate}
    {clock_min:clock}  {n:# day|# days}

A field without a kind is shown as it is. Which kinds exist: `KINDS`. It knows no plan, only names.
"""

from __future__ import annotations

import re
import string
from collections.abc import Callable, Mapping
from dataclasses import field
from functools import cache
from pathlib import Path
from typing import Any

from oatsack.reports.measures import METRIC, Measures
from oatsack.values.flags import Flag
from oatsack.values.frozen import dataclass

TEXT = Path(__file__).with_name("en.toml")


@cache
def sentences() -> Mapping[str, str]:
    """All sentences by key."""
    return {name: text for subject in _subjects() for name, text in _of(subject).items()}


def sentence(key: str) -> str | None:
    """One sentence; only the tables of its own subject are parsed."""
    return _of(key.partition(".")[0]).get(key)


@cache
def _subjects() -> Mapping[str, str]:
    """The text of the tables of each subject: of ``[flags]``, ``[flags.kitchen]`` and so on."""
    found: dict[str, list[str]] = {}
    for table in re.split(r"^(?=\[)", TEXT.read_text(encoding="utf-8"), flags=re.M)[1:]:
        found.setdefault(re.split(r"[].]", table[1:], maxsplit=1)[0], []).append(table)
    return {subject: "".join(tables) for subject, tables in found.items()}


@cache
def _of(subject: str) -> Mapping[str, str]:
    import tomllib  # what is told in numbers alone needs no sentence

    return _flat(tomllib.loads(_subjects().get(subject, "")), "")


def _flat(table: Mapping[str, Any], prefix: str) -> dict[str, str]:
    out: dict[str, str] = {}
    for name, value in table.items():
        key = f"{prefix}{name}"
        out |= _flat(value, f"{key}.") if isinstance(value, Mapping) else {key: value}
    return out


KINDS: Mapping[str, Callable[[Measures, Any], str]] = {
    "mass": Measures.mass,
    "kg": Measures.heavy,
    "kcal": Measures.energy,
    "about": Measures.about,
    "volume": Measures.volume,
    "room": Measures.room,
    "height": Measures.height,
    "distance": Measures.distance,
    "temperature": Measures.temperature,
    "minutes": Measures.minutes,
    "clock": Measures.clock,
    "money": Measures.money,
    "percent": Measures.percent,
    "number": Measures.number,
    "body": Measures.body,
    "litres": Measures.litres,
    "tall": Measures.tall,
    "speed": Measures.speed,
}
NAMES = ("food", "walker", "meal", "day", "bag", "rule", "gate")


@dataclass(frozen=True, slots=True, kw_only=True)
class Voice:
    """Says sentences in one system of units, with the names that walkers, foods and days bear."""

    measures: Measures = METRIC
    foods: Mapping[str, str] = field(default_factory=dict)
    walkers: Mapping[str, str] = field(default_factory=dict)
    bags: Mapping[str, str] = field(default_factory=dict)
    days: Mapping[str, str] = field(default_factory=dict)
    """Number of a day (as text) -> "Thu 2"."""

    def say(self, key: str, /, **values: Any) -> str:
        """The sentence of a key with its values; a KeyError names a key that does not exist."""
        found = sentence(key)
        if found is None:
            raise KeyError(key)
        return self._filled(found, values)

    def flag(self, flag: Flag) -> str:
        """The sentence of a flag, which may name one by its whole key; one without a sentence shows
        its key and values."""
        template = sentence(f"flags.{flag.key}") or sentence(flag.key)
        if template is None:
            shown = ", ".join(f"{name} {value}" for name, value in flag.values.items())
            return f"{flag.key}: {shown}" if shown else flag.key
        values = _of_scope(flag.scope) | {"scope": flag.scope} | dict(flag.values)
        return self._filled(template, values)

    def values(self, flag: Flag) -> list[tuple[str, str]]:
        """The numbers in the sentence of a flag: name and how it is shown."""
        template = sentence(f"flags.{flag.key}") or sentence(flag.key) or ""
        numbers = {n: v for n, v in flag.values.items() if isinstance(v, int | float)}
        return [
            (name, self.shown(numbers[name], kind) if ours else kind.format(numbers[name]))
            for _, name, kind, ours in _pieces(template)
            if name in numbers and (not ours or kind in KINDS)
        ]

    def _filled(self, template: str, values: Mapping[str, Any]) -> str:
        """A sentence with its fields; one that nobody supplied shows as a gap."""
        out: list[str] = []
        for words, name, kind, ours in _pieces(template):
            out.append(words)
            if name:
                value = values.get(name)
                if value is None:
                    out.append("?")
                else:
                    out.append(self.shown(value, kind) if ours else kind.format(value))
        return "".join(out)

    def shown(self, value: Any, kind: str) -> str:
        """One value as text: a kind of `KINDS` or `NAMES`, or a choice ``# day|# days``."""
        if "|" in kind:
            return self._counted(value, kind)
        if kind in KINDS:
            if isinstance(value, str):
                return value
            return KINDS[kind](self.measures, value)
        return self._named(value, kind)

    def _counted(self, value: Any, kind: str) -> str:
        one, many = kind.split("|")
        form = one if 0.0 < float(value) <= 1.0 else many
        return form.replace("#", self.measures.number(value))

    def _named(self, value: Any, kind: str) -> str:
        if kind == "meal":
            return sentence(f"meals.{value}") or str(value)
        if kind == "gate":
            return sentence(f"gate.{value}") or str(value)
        if kind == "rule":
            return sentence(f"rule.{value}.holds-back") or str(value)
        if kind == "day":
            return self.days.get(str(int(float(value))), f"day {value}")
        known = {"food": self.foods, "walker": self.walkers, "bag": self.bags}[kind]
        return known.get(str(value), str(value))


def _of_scope(scope: str) -> dict[str, str]:
    """What an address such as ``need/anna/2`` tells: the walker and the day."""
    parts = scope.split("/")
    told = {"walker": parts[1]} if len(parts) > 1 else {}
    return told | ({"day": parts[2]} if len(parts) > 2 and parts[2].isdigit() else {})


@cache
def _pieces(template: str) -> tuple[tuple[str, str, str, bool], ...]:
    """A sentence in pieces: words, the field behind them, its kind, if that is ours, or else how
    Python formats it."""
    out = []
    for words, name, kind, how in string.Formatter().parse(template):
        ours = kind in KINDS or kind in NAMES or "|" in (kind or "")
        plain = "{" + (f"!{how}" if how else "") + (f":{kind}" if kind else "") + "}"
        out.append((words, name or "", kind if ours and kind else plain, ours))
    return tuple(out)


PLAIN = Voice()


def say(key: str, /, **values: Any) -> str:
    """The sentence of a key in metric units, for what is said without a plan."""
    return PLAIN.say(key, **values)


def say_flag(flag: Flag, voice: Voice = PLAIN) -> str:
    """The sentence of a flag."""
    return voice.flag(flag)
