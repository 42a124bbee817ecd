"""What belongs together: sauces, oil and cheese go with what carries them, bread is never dry."""

from __future__ import annotations

from oatsack.menu.allowed import FROM_THE_HAND
from oatsack.menu.frame import Frame, Option
from oatsack.menu.rules.base import Rule, Setting
from oatsack.menu.usual import Key

CARRIES = frozenset({"bread", "grain", "breakfast", "snack", "meal", "soup"})
"""Classes of sides that a topping can go on or in."""
BREAD_COMPANY = frozenset({"protein", "dairy", "nut", "vegetable", "sweet", "fat", "condiment"})
"""Classes that keep bread from being dry."""
FLAVOURS = frozenset({"protein", "dairy", "vegetable", "soup", "condiment", "meal"})
"""Classes that make a dinner of plain rice, pasta or couscous; oil alone does not."""

FLAVOUR_LEAST_KCAL = 30.0
"""A pinch of onion is no sauce; ours."""
RICH = frozenset({"nut", "fat", "condiment"})
"""Of nut butters, oils and sauces, one goes on a meal."""


def rows(frame: Frame) -> None:
    """use(topping) <= sum use(carriers); use(bread or plain grain) <= sum use(company); at most
    `most_toppings`, and one of a kind."""
    known: dict[object, list[int]] = {}
    for key, options in frame.options.items():
        if key in frame.given.whole or key[2] == "drinks":
            continue
        alike = (key[2], tuple((o.food.id, o.least) for o in options))
        for o in options:
            if o.use >= 0 and needs_company(o, key):
                of = (o.food.id, alike)
                if of not in known:
                    known[of] = [i for i, c in enumerate(options) if helps(c, o)]
                _beside(frame, o, [options[i] for i in known[of]])
        _few(frame, key, options)


def needs_company(o: Option, key: Key) -> bool:
    """Whether this is not to be eaten by itself."""
    if o.food.role == "topping":
        return not (key[2] == "move" and o.food.category in FROM_THE_HAND)
    plain = o.food.role == "main" and o.food.category == "grain" and key[2] == "dinner"
    return plain or o.food.category == "bread"


def helps(company: Option, o: Option) -> bool:
    """Whether one makes the other a thing to eat; sweet never goes with salty."""
    clash = {company.food.taste, o.food.taste} == {"sweet", "salty"}
    if company.food.id == o.food.id or clash:
        return False
    if o.food.role == "topping":
        side = company.food.role == "side" and company.food.category in CARRIES
        return company.food.role == "main" or side
    if o.food.role == "main":
        enough = company.facts.kcal * company.least >= FLAVOUR_LEAST_KCAL
        return enough and company.food.category in FLAVOURS and company.food.taste != "sweet"
    return company.food.category in BREAD_COMPANY


def _beside(frame: Frame, o: Option, company: list[Option]) -> None:
    if any(c.use < 0 for c in company):
        return
    terms = [(o.use, 1.0)] + [(c.use, -1.0) for c in company]
    name = f"toppings/beside/{'/'.join(map(str, o.key))}/{o.food.id}"
    frame.builder.row(name, terms, high=0.0)


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


def kind_of(o: Option) -> str:
    """Two toppings of one kind are not taken together."""
    return "rich" if o.food.category in RICH else o.food.category


RULE = Rule(
    name="toppings",
    help="Sauces, oil, spreads and cheese go with what carries them; bread comes with something.",
    rows=rows,
    bends=False,
    settings=(Setting(name="most_toppings", unit="", default=2.0, help="toppings on one meal"),),
)
