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
    key = "allergy.avoids_traces" if avoid.traces else "allergy.avoids"
    title = told.say(key, walker=walker.name, allergen=name, scope=told.say(f"scope.{avoid.scope}"))
    blocks: list[Block] = [Note(text=title, level="caution")]
    own, others = holding(told, avoid, walker)
    for heading, found in (("allergy.own", own), ("allergy.others", others)):
        if found:
            head = told.say(heading, walker=walker.name)
            blocks += [Para(text=head, tone="strong"), Bullets(items=tuple(found))]
    if not own and not others:
        blocks.append(Para(text=told.say("allergy.none_held")))
    return blocks


def holding(told: Telling, avoid: Avoid, walker: Walker) -> tuple[list[str], list[str]]:
    """The packed foods that hold the allergen, may, or were never read: the walker's own, and
    those of others with who eats them."""
    eaters: dict[str, set[str]] = {}
    for p in (*told.plan.menu.portions, *told.plan.menu.spare):
        eaters.setdefault(p.food, set()).add(p.walker)
    own, others = [], []
    for food, ids in sorted(eaters.items()):
        state = told.food(food).state(avoid.allergen)
        if state == "free":
            continue
        text = told.say(f"allergy.{state}", food=told.food(food).name)
        if walker.id in ids:
            own.append(text)
        rest = ", ".join(told.name(w) for w in sorted(ids - {walker.id}))
        if rest:
            others.append(told.say("allergy.eaten_by", what=text, who=rest))
    return own, others
