"""`oatsack start`: four answers, favourites to pick, and a plan in the same go."""

from __future__ import annotations

import datetime as dt
import re
import sys
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

from oatsack.cli.option import option
from oatsack.cli.screen import say
from oatsack.errors import UsageError
from oatsack.reports.words import say as told

if TYPE_CHECKING:
    from oatsack.files.trip.write import Answers
    from oatsack.values.food import Food, Meal

MEALS: tuple[tuple[Meal, str], ...] = (
    ("breakfast", "breakfast"), ("lunch", "lunch"), ("dinner", "dinners"),
)  # fmt: skip


def start(
    *,
    mass: Annotated[list[str] | None, option("--mass", "-m")] = None,
    begin: Annotated[str | None, option("--from")] = None,
    end: Annotated[str | None, option("--to")] = None,
    day: str | None = None,
    eat: str | None = None,
    file: Path = Path("trip.toml"),
    out: Annotated[Path | None, option("--out", "-o")] = None,
) -> int:
    """Four answers, favourites to pick, and a plan. What is given as an option is not asked.

    Parameters
    ----------
    mass
        Body mass, once for each walker: --mass "68 kg".
    begin
        When the walk begins: "2026-07-02 09:00" or "Thu 09:00".
    end
        When it ends.
    day
        A usual day, how far and how much up: "16 km, 700 m".
    eat
        How much: "2200 kcal", "85%", light, usual or hungry.
    file
        The trip file that is left for later.
    out
        A folder for the plan and its papers.
    """
    from oatsack.cli.verbs.plan import plan
    from oatsack.desk.export import folder_for, place_for, write_file
    from oatsack.files.trip.write import write_trip

    place_for(file, option="--file")  # before the questions, not after them
    if out is not None:
        folder_for(out)
    typed = sys.stdin is not None and sys.stdin.isatty()
    talk = Talk(typed, () if typed else piped())
    answers = four(talk, {"mass": mass, "from": begin, "to": end, "day": day, "eat": eat})
    answers = favourites(talk, answers)
    write_file(file, write_trip(answers).encode("utf-8"))
    code = plan(file, out=out)
    say(told("cli.begun", file=file))
    return code


def piped() -> Iterator[str]:
    """What is piped in, line by line; nothing where nothing can be read."""
    try:
        yield from sys.stdin or ()
    except OSError:
        return


class Talk:
    """Asks on a terminal; without one it takes a line of what is piped in for an answer, and a
    missing answer is wrong use."""

    def __init__(self, open_ended: bool, lines: Iterable[str] = ()) -> None:
        self.open_ended, self.lines = open_ended, iter(lines)
        self.asks = open_ended
        """Whether there is somebody to ask what may be left open."""

    def ask(self, question: str, check: Callable[[str], object], option: str) -> str:
        """An answer that passes the check; asked again, with the reason, until it does."""
        if not self.open_ended:
            said = self._next()
            if said is None:
                raise UsageError(told("cli.nobody", option=option, question=question))
            check(said)
            return said
        while True:
            said = input(f"{question}  ").strip()
            try:
                check(said)
                return said
            except UsageError as error:
                print(f"  {error}")

    def offer(self, check: Callable[[str], object]) -> str:
        """An answer to what may be left open; a pipe that has ended leaves it."""
        if self.open_ended:
            return self.ask("     ", check, "")
        said = self._next() or ""
        check(said)
        return said

    def _next(self) -> str | None:
        line = next(self.lines, None)
        self.asks = self.asks or line is not None
        return None if line is None else line.strip()


def four(talk: Talk, given: dict[str, str | list[str] | None]) -> Answers:
    """The four answers, each from its option or asked for."""
    from oatsack.desk.starting import listed, moment
    from oatsack.files.trip.write import Answers

    today = dt.datetime.now().astimezone().date()
    masses = list(given["mass"] or ()) or listed(
        talk.ask(told("cli.ask-mass"), _masses, "--mass")
    )
    _masses(", ".join(masses))
    begin = given["from"] or talk.ask(
        told("cli.ask-begin", today=today), lambda t: moment(t, today),
        "--from",
    )  # fmt: skip
    first = moment(str(begin), today)
    end = given["to"] or talk.ask(
        told("cli.ask-end"), lambda t: moment(t, today, after=first), "--to"
    )
    last = moment(str(end), today, after=first)
    day = given["day"] or talk.ask(
        told("cli.ask-day"), _day, "--day"
    )
    distance, up = _day(str(day))
    answers = Answers(
        masses=tuple(masses), begin=f"{first:%Y-%m-%d %H:%M}", end=f"{last:%Y-%m-%d %H:%M}",
        distance=distance, up=up,
    )  # fmt: skip
    return replace(answers, target=_eat(talk, answers, given["eat"], today))


def _eat(talk: Talk, answers: Answers, given: object, today: dt.date) -> str:
    """How much to eat, with the mass of three levels side by side."""
    from oatsack import units
    from oatsack.desk.starting import as_energy, sizes, trip_of

    system = trip_of(answers).units
    found = sizes(answers, today)
    print(f"   {found[0].makes}")
    print(told("cli.sizes"))
    for size in found:
        each = ", ".join(units.rounded(kcal, 100.0) for kcal in size.kcal_day)
        print(told("cli.size", word=size.word, each=each,
                   mass=units.show_mass(size.food_g, system)))  # fmt: skip
    if given:
        trip_of(replace(answers, target=as_energy(str(given))))
        return as_energy(str(given))
    return as_energy(talk.ask(
        told("cli.ask-eat"),
        lambda text: trip_of(replace(answers, target=as_energy(text))), "--eat",
    ))  # fmt: skip


def _masses(text: str) -> None:
    from oatsack import units
    from oatsack.desk.starting import listed
    from oatsack.errors import UnitError

    masses = listed(text)
    if not masses:
        raise UsageError(told("cli.no-mass"))
    try:
        for one in masses:
            units.mass_kg(one)
    except UnitError as error:
        raise UsageError(str(error)) from None


def _day(text: str) -> tuple[str, str]:
    """Distance and climb of a usual day, as they were written.

    "16 km 700 m" is refused: it might be a way and a climb, or one way of 16.7 km.
    """
    from oatsack import units
    from oatsack.desk.starting import listed
    from oatsack.errors import UnitError

    parts = listed(text)
    if len(parts) == 1 and re.search(r"[^\W\d]\S* \S*\d", parts[0]):
        raise UsageError(told("cli.comma"))
    if not 1 <= len(parts) <= 2:
        raise UsageError(told("cli.no-day"))
    distance, up = (*parts, "0 m")[:2]
    try:
        units.length_m(distance)
        units.length_m(up)
    except UnitError as error:
        raise UsageError(str(error)) from None
    return distance, up


def favourites(talk: Talk, answers: Answers) -> Answers:
    """Short lists per meal, or nothing for ours; nobody is asked where all came as options."""
    if not talk.asks:
        return answers
    from oatsack.desk.starting import bags, offers
    from oatsack.files.larder import bundled

    foods = bundled()
    print(told("cli.favourites"))
    meals: dict[Meal, tuple[str, ...]] = {}
    for meal, word in MEALS:
        meals[meal] = _pick(talk, word, offers(foods, meal))
    open_bags = _pick(talk, told("cli.bags"), bags(foods))
    drinks = _pick(talk, told("cli.drinks"), offers(foods, "drinks"))
    counts = tuple(f"{d} a day" if d[0].isdigit() else f"1 {d} a day" for d in drinks)
    return replace(answers, meals=meals, bags=open_bags, counts=counts)


def _pick(talk: Talk, word: str, offered: Sequence[Food]) -> tuple[str, ...]:
    from oatsack.desk.starting import picked

    listed = "  ".join(f"{n} {food.name}" for n, food in enumerate(offered, start=1))
    print(f"   {word}: {listed}")
    return picked(talk.offer(lambda text: picked(text, offered)), offered)
