"""What a rule is: a name, its settings, the rows it writes, and the keys of its two sentences."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from oatsack.menu.facts import Facts
from oatsack.menu.frame import Frame
from oatsack.values.food import Meal

Term = tuple[int, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Setting:
    """One number a walker may turn: its full name is ``rule.setting``."""

    name: str
    unit: str
    default: float
    help: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Rule:
    """One rule. `bends` says whether a way out may touch it; soft rules never forbid anything."""

    name: str
    help: str
    rows: Callable[[Frame], None]
    hard: bool = True
    bends: bool = True
    settings: tuple[Setting, ...] = ()
    gives_in: str = "n"
    """Unit in which its rows are missed, as the name of a flag's value ends; n counts rows."""
    in_trip: tuple[str, ...] = ()
    """Keys of the trip file from which it takes its limits."""

    @property
    def holds_back(self) -> str:
        """Key of the sentence that says what holds back."""
        return f"rule.{self.name}.holds-back"

    @property
    def by_how_much(self) -> str:
        """Key of the sentence that says by how much it would have to give."""
        return f"rule.{self.name}.by-how-much"

    def value(self, frame: Frame, setting: str) -> float:
        """A setting's value for this frame."""
        default = next(s.default for s in self.settings if s.name == setting)
        return frame.setting(f"{self.name}.{setting}", default)


def day_terms(
    frame: Frame, walker: str, day: int, of: Callable[[Facts], float], meal: Meal | None = None
) -> list[Term]:
    """Terms that sum something of all a walker eats on a day, or at one meal of it."""
    options = frame.day_options(walker, day) if meal is None else frame.options.get(
        (walker, day, meal), []
    )  # fmt: skip
    terms = [(o.eat, of(o.facts)) for o in options]
    if meal in (None, "move"):
        terms += [(b.column, of(b.facts) * b.doses_day) for b in frame.day_bags(walker, day)]
    return terms


def trip_terms(frame: Frame, walker: str, of: Callable[[Facts], float]) -> list[Term]:
    """Terms that sum something of all a walker eats on the trip."""
    terms = [
        (o.eat, of(o.facts)) for d in frame.days.get(walker, ())
        for o in frame.day_options(walker, d)
    ]  # fmt: skip
    return terms + [
        (b.column, of(b.facts) * b.bag.food.doses_per_pack) for b in frame.bags.get(walker, ())
    ]


def gathered(terms: Iterable[Term]) -> list[Term]:
    """Terms with each column once."""
    out: dict[int, float] = {}
    for column, value in terms:
        out[column] = out.get(column, 0.0) + value
    return list(out.items())


def fixed_sum(frame: Frame, terms: Iterable[Term]) -> float:
    """What the walker's own picks already bring of such a sum."""
    low, high = frame.builder.low, frame.builder.high
    return sum(v * low[c] for c, v in terms if low[c] == high[c])
