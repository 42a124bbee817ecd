"""What belongs together: sauces, oil and cheese go with what carries them, bread is never dry."""

from __future__ import annotations

from oatsack.menu.allowed import FROM_THE_HAND
from oatsack.menu.frame import Frame, Option
from oatsack.menu.rules.base import Rule, Setting
from oatsack.menu.usual import Key

CARRIES = frozenset({"bread", "grain", "breakfast", "snack", "meal", "soup"})
"""Classes of sides that a topping can go on or in."""
COMPANY = frozenset({"protein", "dairy", "nut", "vegetable", "sweet", "fat", "condiment"})
"""Classes that keep bread from being dry."""


def rows(frame: Frame) -> None:
    """use(topping) <= sum use(carriers); sum toppings <= most; use(bread) <= sum use(company)."""
    for key, options in frame.options.items():
        if key in frame.given.whole or key[2] == "drinks":
            continue
        for o in options:
            if o.use >= 0 and o.food.role == "topping":
                _carried(frame, key, o, options)
            if o.use >= 0 and o.food.category == "bread" and o.food.role != "topping":
                _not_dry(frame, key, o, options)
        _few(frame, key, options)


def _carried(frame: Frame, key: Key, topping: Option, options: list[Option]) -> None:
    if key[2] == "move" and topping.food.category in FROM_THE_HAND:
        return
    carriers = [c for c in options if carries(c, topping)]
    if any(c.use < 0 for c in carriers):
        return
    terms = [(topping.use, 1.0)] + [(c.use, -1.0) for c in carriers]
    frame.builder.row(_name(frame, "carried", topping), terms, high=0.0)


def carries(carrier: Option, topping: Option) -> bool:
    """Whether one goes on or in the other; sweet never goes with salty."""
    tastes = {carrier.food.taste, topping.food.taste}
    if carrier is topping or tastes == {"sweet", "salty"}:
        return False
    side = carrier.food.role == "side" and carrier.food.category in CARRIES
    return carrier.food.role == "main" or side


def _not_dry(frame: Frame, key: Key, bread: Option, options: list[Option]) -> None:
    company = [c for c in options if c is not bread and c.food.category in COMPANY]
    if any(c.use < 0 for c in company):
        return
    terms = [(bread.use, 1.0)] + [(c.use, -1.0) for c in company]
    frame.builder.row(_name(frame, "not-dry", bread), terms, high=0.0)


def _few(frame: Frame, key: Key, options: list[Option]) -> None:
    most = RULE.value(frame, "most_toppings")
    terms = [(o.use, 1.0) for o in options if o.food.role == "topping" and o.use >= 0]
    if len(terms) > most:
        frame.builder.row(f"toppings/few/{'/'.join(map(str, key))}", terms, high=most)


def _name(frame: Frame, what: str, o: Option) -> str:
    return f"toppings/{what}/{'/'.join(map(str, o.key))}/{o.food.id}"


RULE = Rule(
    name="toppings",
    help="Sauces, oil, spreads and cheese go with what carries them; bread comes with something.",
    rows=rows,
    bends=False,
    settings=(Setting(name="most_toppings", unit="", default=2.0, help="toppings on one meal"),),
)
