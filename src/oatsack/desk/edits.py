"""What each wish writes into a trip's text: keep, let go, take out, put in, swap, never, the dial.

A wish becomes changes for `files.trip.edit_trip`, so that the walker's words stand in the trip file
with its comments and order (C12). Nothing is planned here.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from oatsack.errors import UsageError
from oatsack.reports.words import say
from oatsack.values.food import Food
from oatsack.values.plan import Plan

Changes = Mapping[str, object]
Where = Mapping[str, Any]
"""Food, walker (by name), date and meal, as a hold or a ban of the trip file names them."""
KEYS = ("food", "walker", "date", "meal")
LEAST_KCAL = 500.0
"""The dial goes no lower on a full day; ours."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Word:
    """One hold or ban that stands in the trip: which list, its place in it, and what it says."""

    kind: str
    place: int
    where: Where
    count: float = 0.0


def words_of(text: str) -> tuple[Word, ...]:
    """Every hold and ban of a trip's text, in its order."""
    rules = _rules(text)
    return tuple(
        Word(kind=kind, place=n, where={k: row[k] for k in KEYS if k in row},
             count=float(row.get("count", 0.0)))
        for kind in ("holds", "bans") for n, row in enumerate(_rows(rules.get(kind, ())))
    )  # fmt: skip


def _rows(given: Any) -> list[Mapping[str, Any]]:
    """Holds or bans as tables; a food alone may stand for one, and one ban alone for the list."""
    many = [given] if isinstance(given, str) else given
    return [one if isinstance(one, Mapping) else {"food": one} for one in many]


def _listed(text: str) -> Changes:
    """One ban that stands for the list made a list, so that others can stand beside it."""
    bans = _rules(text).get("bans")
    return {"rules.bans": [bans]} if isinstance(bans, str) else {}


def data_of(text: str) -> Mapping[str, Any]:
    """A trip's text as tables."""
    from oatsack.files.trip.toml import read_toml

    return read_toml(text, "the trip file").data


def _rules(text: str) -> Mapping[str, Any]:
    found: Mapping[str, Any] = data_of(text).get("rules", {})
    return found


def kept(text: str, where: Where, count: float) -> Changes:
    """So many doses of a food stay somewhere, whatever else changes; an earlier word there goes."""
    for word in words_of(text):
        if word.kind == "holds" and _same(word.where, where):
            return {f"rules.holds[{word.place}].count": count}
    free = _without(w for w in words_of(text) if w.kind == "bans" and _covers(w.where, where))
    held = {f"rules.holds[{_many(text, 'holds')}]": {**where, "count": count}}
    return {**_listed(text), **free, **held}


def let_go(text: str, where: Where) -> Changes:
    """The hold there is taken back. Raises UsageError where there is none."""
    found = [w for w in words_of(text) if w.kind == "holds" and _same(w.where, where)]
    if not found:
        raise UsageError(say("desk.no-hold"))
    return _without(found)


def taken_back(text: str, kind: str, place: int) -> Changes:
    """One hold or ban by its place in its list."""
    if kind not in ("holds", "bans") or not 0 <= place < _many(text, kind):
        raise UsageError(say("desk.no-word"))
    return {**_listed(text), f"rules.{kind}[{place}]": None}


def banned(text: str, where: Where) -> Changes:
    """A food is forbidden: there, or (without date and meal) at every meal of that walker."""
    over = [w for w in words_of(text) if w.kind == "holds" and _covers(where, w.where)]
    if any(w.kind == "bans" and _same(w.where, where) for w in words_of(text)):
        return _without(over)
    ban = {f"rules.bans[{_many(text, 'bans')}]": dict(where)}
    return {**_without(over), **_listed(text), **ban}


def swapped(text: str, where: Where, other: str, count: float) -> Changes:
    """Another food in the place of one: the one is forbidden there, the other kept."""
    into = {**where, "food": other}
    changes = dict(banned(text, where))
    unbanned = [w for w in words_of(text) if w.kind == "bans" and _same(w.where, into)]
    if unbanned:
        raise UsageError(say("desk.banned"))
    gone = sum(1 for path, value in changes.items() if value is None and "holds" in path)
    changes[f"rules.holds[{_many(text, 'holds') - gone}]"] = {**into, "count": count}
    return changes


def _same(a: Where, b: Where) -> bool:
    return all(a.get(key) == b.get(key) for key in KEYS)


def _covers(wide: Where, narrow: Where) -> bool:
    """Whether a ban without date, meal or walker meets a word that has them."""
    return all(key not in wide or wide[key] == narrow.get(key) for key in KEYS)


def _many(text: str, kind: str) -> int:
    return sum(word.kind == kind for word in words_of(text))


def _without(words: Iterable[Word]) -> dict[str, object]:
    """Removals from the last to the first, so that the places before them stay true."""
    order = sorted(words, key=lambda w: (w.kind, -w.place))
    return {f"rules.{word.kind}[{word.place}]": None for word in order}


def like_for_like(old: Food, doses: float, new: Food) -> float:
    """So many whole doses of a new food as bring no more than the energy of the old, at least one:
    what is missing is filled from lighter things, what is too much would not fit the pot."""
    if old.dose_kcal <= 0 or new.dose_kcal <= 0:
        return 1.0
    return float(max(1, int(doses * old.dose_kcal / new.dose_kcal + 0.15)))


def turned(plan: Plan, steps_kcal: Mapping[str, float]) -> Changes:
    """The dial: some walkers' own number, so much more or less on a full day [kcal]."""
    out: dict[str, object] = {}
    for n, walker in enumerate(plan.trip.walkers):
        if steps_kcal.get(walker.id):
            wanted = max(LEAST_KCAL, plan.chosen[walker.id].base_kcal + steps_kcal[walker.id])
            out[f"walkers[{n}].target"] = f"{round(wanted / 10.0) * 10} kcal"
    return out


def weighed(text: str, load: float, liking: float, price: float) -> Changes:
    """What load, liking and price weigh against each other; aims in order would outrank them."""
    weights = {"load": load, "liking": liking, "price": price}
    aims = {"rules.aims": None} if "aims" in _rules(text) else {}
    return {**aims, **{f"rules.weights.{name}": weight for name, weight in weights.items()}}


def numbered(plan: Plan, target: str) -> Changes:
    """The same number for everyone, as it was typed."""
    return {f"walkers[{n}].target": target for n, _ in enumerate(plan.trip.walkers)}
