"""What belongs together: sauces, oil and cheese go with what carries them, bread is never dry."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable
from dataclasses import dataclass

from oatsack.menu.allowed import FROM_THE_HAND
from oatsack.menu.frame import Frame, Option
from oatsack.menu.rules.base import Rule, Setting
from oatsack.menu.usual import Key
from oatsack.values.food import Food

BROTHY_ML_PER_G = 4.0
"""A dish made with so much water is a soup itself."""
CARRIES = frozenset({"bread", "grain", "breakfast", "snack", "meal", "soup"})
"""Classes of sides that a topping can go on or in."""
BREAD_COMPANY = frozenset({"protein", "dairy", "nut", "vegetable", "sweet", "fat", "condiment"})
"""Classes that keep bread from being dry."""
FLAVOURS = frozenset({"protein", "dairy", "vegetable", "soup", "condiment", "meal"})
"""Classes that make a dinner of plain rice, pasta, beans or couscous, where they are salty: oil
does not, nor do plain peas, nor chicken without a sauce."""
BODY = frozenset({"protein", "dairy", "nut", "meal"})
"""Classes that make plain rice with a sauce a dinner; vegetables and soup do as a side."""
GRAINY = frozenset({"bread", "breakfast", "grain"})
"""Classes that carry nut butters and seeds."""
SWEETENS = frozenset({"sweet", "fruit", "dairy", "nut"})
"""Classes that make a breakfast of plain porridge."""

SAUCES = frozenset({"condiment", "vegetable", "soup"})
"""Classes of toppings that are a sauce."""

FLAVOUR_LEAST_KCAL, BODY_LEAST_KCAL, RICH_LEAST_KCAL = 25.0, 35.0, 100.0
"""A pinch of onion is no sauce, a shred of carrot no vegetables; of a sauce with nuts or coconut in
it a sachet is body enough; ours."""
SAUCE_LEAST_KCAL = 20.0
"""A dash of something hot goes on anything; ours."""
RICH = frozenset({"nut", "fat", "condiment"})
"""Of nut butters, oils and sauces, one goes on a meal."""

Name = tuple[str, float]
Names = tuple[Name, ...]
"""What stands at a meal: foods with their least doses."""


def rows(frame: Frame) -> None:
    """use(topping) <= sum use(carriers); use(bread, plain main, dry cereal) <= sum use(company); at
    most `most_toppings`, and one of a kind; one soup (a dish that is one itself counted), one bread
    and one dried fruit. A main that stays plain, or with a sauce alone, is only dear: an empty
    larder must not forbid a dinner."""
    pairs: dict[tuple[str, str, str], dict[Name, bool]] = defaultdict(dict)
    known: dict[tuple[int, str, str, str], list[int]] = {}
    number: dict[Names, int] = {}
    for key, options in frame.options.items():
        if key in frame.given.whole or key[2] == "drinks":
            continue
        names = tuple((c.food.id, c.least) for c in options)
        same = number.setdefault(names, len(number))
        for o in options:
            for wish in WISHES if o.use >= 0 else ():
                if not wish.asks(o, key):
                    continue
                at = (same, wish.name, key[2], o.food.id)  # most days offer the same
                if at not in known:
                    known[at] = _helpers(wish, o, options, names, pairs[at[1:]])
                _beside(frame, wish, o, [options[i] for i in known[at]])
        _few(frame, key, options)
        _one_of(frame, key, options)


def _helpers(
    wish: Wish, o: Option, options: list[Option], names: Names, good: dict[Name, bool]
) -> list[int]:  # fmt: skip
    """Places of what makes a food a thing to eat; `good` remembers who does."""
    for name, c in zip(names, options, strict=True):
        if name not in good:
            good[name] = wish.met_by(c, o)
    return [i for i, name in enumerate(names) if good[name]]


def is_bread(food: Food) -> bool:
    """Bread and crackers, as the base of a lunch or from the hand."""
    return food.category == "bread"


def is_sauce(food: Food) -> bool:
    """A sauce of some substance, tomato powder or the like: it goes on what is plain, not on a dish
    that has its own."""
    return food.category in SAUCES and food.dose_kcal >= SAUCE_LEAST_KCAL


def is_fruit(food: Food) -> bool:
    """Dried fruit: one kind at a meal, as one handful."""
    return food.category == "fruit"


def needs_company(o: Option, key: Key) -> bool:
    """Whether this is not to be eaten by itself."""
    if o.food.role == "topping":
        return not (key[2] == "move" and o.food.category in FROM_THE_HAND)
    if o.food.role == "main" and key[2] == "breakfast":
        return is_dry_cereal(o.food) or o.food.taste == "neutral"
    return (o.food.role == "main" and is_plain(o)) or o.food.category == "bread"


def is_plain(o: Option) -> bool:
    """A dinner of rice, pasta or beans without any taste of its own."""
    plain = o.food.category in ("grain", "protein", "vegetable") and o.food.taste != "salty"
    return plain and o.slot.meal == "dinner"


def is_dry_cereal(food: Food) -> bool:
    """Cereal that is eaten as it is: it wants milk."""
    return food.category == "breakfast" and food.prep.kind == "none" and food.carry != "sealed"


def is_grainy(food: Food) -> bool:
    """What nut butter and seeds go with: bread, cereal, plain noodles or rice; no cooked dish."""
    return food.category in GRAINY and food.role in ("main", "side", "snack")


def is_soup(food: Food) -> bool:
    """A soup beside a dish, or a dish that is a soup itself."""
    if food.category == "soup":
        return food.role == "side"
    brothy = food.prep.water_ml >= BROTHY_ML_PER_G * food.dose_g
    return food.category == "grain" and food.role == "main" and brothy


def helps(company: Option, o: Option) -> bool:
    """Whether one makes the other a thing to eat; sweet never goes with salty."""
    clash = {company.food.taste, o.food.taste} == {"sweet", "salty"}
    if company.food.id == o.food.id or clash:
        return False
    if o.food.role == "topping":
        return _carries(company.food, o.food)
    if o.food.role == "main" and company.food.role == "main":
        return False
    if o.food.role == "main" and o.slot.meal == "breakfast":
        milk = company.food.category == "dairy" and company.food.taste != "salty"
        return milk if is_dry_cereal(o.food) else company.food.category in SWEETENS
    if o.food.role == "main":
        return _flavours(company)
    return company.food.category in BREAD_COMPANY


def _carries(under: Food, topping: Food) -> bool:
    if topping.category == "nut" and not is_grainy(under):
        return False
    if under.role == "main":
        return not (is_sauce(topping) and under.taste == "salty")
    return under.role == "side" and under.category in CARRIES


def _flavours(company: Option) -> bool:
    food = company.food
    gravy = food.category == "soup" and food.role == "topping"
    salty = food.category in FLAVOURS and food.taste == "salty" and not gravy
    return salty and company.facts.kcal * company.least >= FLAVOUR_LEAST_KCAL


def is_bare(o: Option, key: Key) -> bool:
    """A dinner of rice, pasta or potato that wants more beside it than a sauce."""
    return o.food.role == "main" and is_plain(o) and o.food.category == "grain"


def fills(company: Option, o: Option) -> bool:
    """Whether one makes a plate of plain rice a dinner: protein, cheese, nuts, a rich sauce; also
    vegetables or soup."""
    food, kcal = company.food, company.facts.kcal * company.least
    if food.role == "main" or food.taste == "sweet":
        return False
    if food.category == "condiment":
        return kcal >= RICH_LEAST_KCAL
    side = food.category in ("vegetable", "soup") and food.role == "side"
    return (food.category in BODY or side) and kcal >= BODY_LEAST_KCAL


@dataclass(frozen=True, slots=True)
class Wish:
    """Who asks for company, what is such, and the setting that says what a main costs without."""

    name: str
    asks: Callable[[Option, Key], bool]
    met_by: Callable[[Option, Option], bool]
    setting: str

    def grams(self, frame: Frame, o: Option) -> float:
        """What a main without it costs in the aim: on the first evening no less than on others."""
        return RULE.value(frame, self.setting) * max(frame.mean_carry, o.slot.carry_days)


def is_no_lunch(o: Option, key: Key) -> bool:
    """Dried meat or cheese from the hand, which alone is no lunch."""
    return key[2] == "lunch" and o.food.role == "snack" and o.food.category in FROM_THE_HAND


def is_lunch(company: Option, o: Option) -> bool:
    """Whether dried meat or cheese beside it makes a lunch: bread, a dish, a bar."""
    food = company.food
    return food.role in ("main", "side", "snack") and food.category not in FROM_THE_HAND


WISHES = (
    Wish("beside", needs_company, helps, "plain_grams"), Wish("body", is_bare, fills, "bare_grams"),
    Wish("lunch", is_no_lunch, is_lunch, "lunch_grams"),
)  # fmt: skip


def _beside(frame: Frame, wish: Wish, o: Option, company: list[Option]) -> None:
    if any(c.use < 0 for c in company):
        return
    terms = [(o.use, 1.0)] + [(c.use, -1.0) for c in company]
    where = f"{'/'.join(map(str, o.key))}/{o.food.id}"
    if o.food.role == "main" or wish is not WISHES[0]:
        name = wish.setting.removesuffix("_grams")
        terms.append((frame.slack(f"{name}/{where}", wish.grams(frame, o)), -1.0))
    frame.builder.row(f"toppings/{wish.name}/{where}", terms, high=0.0)


def _few(frame: Frame, key: Key, options: list[Option]) -> None:
    where = "/".join(map(str, key))
    toppings = [o for o in options if o.food.role == "topping" and o.use >= 0]
    most = RULE.value(frame, "most_toppings")
    if len(toppings) > most:
        frame.builder.row(f"toppings/few/{where}", [(o.use, 1.0) for o in toppings], high=most)
    for kind in sorted({kind_of(o) for o in toppings}):
        alike = [(o.use, 1.0) for o in toppings if kind_of(o) == kind]
        if len(alike) > 1:
            frame.builder.row(f"toppings/kind/{where}/{kind}", alike, high=1.0)


def _one_of(frame: Frame, key: Key, options: list[Option]) -> None:
    """One soup, one bread and one dried fruit at a meal."""
    for name, belongs in ONE_AT_A_MEAL:
        alike = [(o.use, 1.0) for o in options if o.use >= 0 and belongs(o.food)]
        if len(alike) > 1:
            frame.builder.row(f"toppings/{name}/{'/'.join(map(str, key))}", alike, high=1.0)


def kind_of(o: Option) -> str:
    """Two toppings of one kind are not taken together."""
    return "rich" if o.food.category in RICH else o.food.category


ONE_AT_A_MEAL: tuple[tuple[str, Callable[[Food], bool]], ...] = (
    ("soup", is_soup), ("bread", is_bread), ("fruit", is_fruit),
)  # fmt: skip
"""Kinds of which one is enough at a meal."""

RULE = Rule(
    name="toppings",
    help="Sauces, oil, spreads and cheese go with what carries them; bread comes with something.",
    rows=rows,
    bends=False,
    settings=(
        Setting(name="most_toppings", unit="", default=2.0, help="toppings on one meal"),
        Setting(name="plain_grams", unit="g", default=60.0, help="cost of a main that stays plain"),
        Setting(name="bare_grams", unit="g", default=30.0, help="cost of rice with a sauce alone"),
        Setting(name="lunch_grams", unit="g", default=40.0, help="cost of a lunch of meat alone"),
    ),
)
