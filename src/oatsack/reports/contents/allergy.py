"""The allergy and emergency sheet: per person what must be avoided, which of OUR foods hold it, and
room for what only the person can fill in. Private: as few copies as are needed, destroyed after."""

from __future__ import annotations

from oatsack.reports.document import Block, Bullets, Document, Facts, Heading, Note, Para
from oatsack.reports.telling import Telling
from oatsack.values.walker import Avoid, Walker

BLANKS = ("signs", "action", "medicine", "trained", "contact")


def document(told: Telling) -> Document:
    """One section per walker who avoids something."""
    avoiders = [w for w in told.plan.trip.walkers if w.avoids]
    blocks: list[Block] = [Para(text=told.say("allergy.intro"))]
    for walker in avoiders:
        blocks += _walker(told, walker)
    if not avoiders:
        blocks.append(Para(text=told.say("allergy.nobody")))
    return Document(
        title=told.say("allergy.title", title=told.plan.trip.title), subtitle=told.title_line(),
        blocks=tuple(blocks), name="allergy", foot=told.foot(), large=True,
    )  # fmt: skip


def _walker(told: Telling, walker: Walker) -> list[Block]:
    blocks: list[Block] = [Heading(text=walker.name)]
    for avoid in walker.avoids:
        blocks += _avoid(told, walker, avoid)
    line = told.say("allergy.blank")
    blocks.append(Facts(pairs=tuple((told.say(f"allergy.{b}"), line) for b in BLANKS)))
    return blocks


def _avoid(told: Telling, walker: Walker, avoid: Avoid) -> list[Block]:
    name = told.say(f"allergen.{avoid.allergen}")
    held = holding(told, avoid)
    scope = told.say(f"scope.{avoid.scope}")
    title = told.say("allergy.avoids", walker=walker.name, allergen=name, scope=scope)
    if not held:
        return [Note(text=title, level="caution"), Para(text=told.say("allergy.none_held"))]
    return [
        Note(text=title, level="caution"),
        Para(text=told.say("allergy.held"), tone="strong"), Bullets(items=tuple(held)),
    ]  # fmt: skip


def holding(told: Telling, avoid: Avoid) -> list[str]:
    """The packed foods that hold the allergen, may, or were never read; and who eats them."""
    eaters: dict[str, set[str]] = {}
    for p in (*told.plan.menu.portions, *told.plan.menu.spare):
        eaters.setdefault(p.food, set()).add(told.name(p.walker))
    out = []
    for food, names in sorted(eaters.items()):
        state = told.food(food).state(avoid.allergen)
        if state != "free":
            text = told.say(f"allergy.{state}", food=told.food(food).name)
            out.append(told.say("allergy.eaten_by", what=text, who=", ".join(sorted(names))))
    return out
