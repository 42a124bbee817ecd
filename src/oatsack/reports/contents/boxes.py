"""Resupply: one sheet for whoever sends the boxes, then a page per place with what is inside."""

from __future__ import annotations

import datetime as dt

from oatsack.reports.contents.bags import bag_name, contents, in_order, number
from oatsack.reports.document import (
    Block,
    Break,
    Document,
    Facts,
    Heading,
    Para,
    Row,
    cell,
    row,
    table,
)
from oatsack.reports.telling import MONTHS, WEEKDAYS, Telling, short_date
from oatsack.values.pack import Box, Place


def document(told: Telling) -> Document:
    """The sender's list, then a page per place."""
    boxes = told.plan.packed.boxes
    blocks: list[Block] = [*_list(told)] if boxes else [Para(text=told.say("boxes.none"))]
    for box in boxes:
        blocks += [Break(), *_place(told, box)]
    return Document(
        title=told.say("boxes.title", title=told.plan.trip.title), subtitle=told.title_line(),
        blocks=tuple(blocks), name="boxes", foot=told.foot(), large=True,
    )  # fmt: skip


def _list(told: Telling) -> list[Block]:
    """A line per place: when to post, when one comes, how likely both doors are open."""
    heads = ("[]", told.say("boxes.place") + "*2", told.say("boxes.post") + "*2",
             told.say("boxes.comes") + "*2", ">" + told.say("boxes.ready"),
             ">" + told.say("boxes.open"), ">" + told.say("bags.gross"))  # fmt: skip
    rows = [_line(told, box) for box in told.plan.packed.boxes]
    return [
        Heading(text=told.say("boxes.sender")),
        table(heads, rows, caption=told.say("boxes.sender")),
        Para(text=told.say("boxes.chances"), tone="quiet"),
    ]


def _line(told: Telling, box: Box) -> Row:
    return row(
        "", _named(told, box), _post(told, box), _comes(told, box),
        cell(_chance(told, box.box_chance), box.box_chance),
        cell(_chance(told, box.open_chance), box.open_chance),
        cell(told.m.mass(box.gross_g), box.gross_g),
    )  # fmt: skip


def _named(told: Telling, box: Box) -> str:
    """Its place, and which box of how many."""
    posted = [one for one in told.plan.packed.boxes if one.kind == "box"]
    if box.kind == "shop":
        return told.say("boxes.shop", place=box.place)
    return told.say("boxes.nth", place=box.place, n=posted.index(box) + 1, of=len(posted))


def _post(told: Telling, box: Box) -> str:
    if box.post_from is None or box.post_until is None or box.post_on is None:
        return told.say("boxes.bought")
    best = date_text(box.post_on)
    if box.post_from > box.post_until:
        return told.say("boxes.post_best", best=best)
    return told.say("boxes.post_between", first=date_text(box.post_from),
                    last=date_text(box.post_until), best=best)  # fmt: skip


def _comes(told: Telling, box: Box) -> str:
    """The day one comes, with the earliest and the latest."""
    day = short_date(told.day(box.arrive_day))
    if box.early is None or box.late is None:
        return day
    return told.say("boxes.comes_between", day=day, early=date_text(box.early),
                    late=date_text(box.late))  # fmt: skip


def _chance(told: Telling, chance: float | None) -> str:
    return "" if chance is None else told.m.percent(chance)


def date_text(date: dt.date) -> str:
    """A date that may lie outside the walk: "Fri 26 June"."""
    return f"{WEEKDAYS[date.weekday()]} {date.day} {MONTHS[date.month - 1]}"


def _place(told: Telling, box: Box) -> list[Block]:
    bags = [b for b in told.plan.packed.bags if b.id in box.bags]
    heads = ("[]", ">" + told.say("bags.number"), told.say("bags.bag"),
             told.say("boxes.who"), told.say("bags.contents") + "*3",
             ">" + told.say("bags.gross"))  # fmt: skip
    rows = [
        row("", number(b), bag_name(told, b), told.group(b.group), ", ".join(contents(told, b)),
            cell(told.m.fine(b.gross_g), b.gross_g))
        for b in in_order(bags)
    ]  # fmt: skip
    gross = cell(told.m.mass(box.gross_g), box.gross_g)
    rows.append(row("", "", told.say("boxes.sum"), "", "", gross, kind="total"))
    return [
        Heading(text=told.say("boxes.of", place=_named(told, box), leg=box.leg)),
        Facts(pairs=tuple(_facts(told, box))),
        table(heads, rows, caption=box.place),
        Para(text=told.say(f"boxes.not_inside_{box.kind}")),
    ]


def _facts(told: Telling, box: Box) -> list[tuple[str, str]]:
    """What stands on the outside, when it is posted, when the place is open, what it covers."""
    place = next((p for p in told.plan.trip.places if p.leg == box.leg), Place(name=box.place))
    days = [d for d in told.plan.days if d.leg == box.leg]
    span = told.say("boxes.days", first=short_date(days[0]), last=short_date(days[-1]))
    pairs = [(told.say("boxes.covers"), span), (told.say("boxes.comes"), _comes(told, box))]
    if box.kind == "box":
        held = told.say("boxes.held", fast=place.transit_fast_days, slow=place.transit_slow_days,
                        hold=place.hold_days)  # fmt: skip
        pairs += [(told.say("boxes.outside"), _outside(told, box)),
                  (told.say("boxes.post"), _post(told, box)), (told.say("boxes.way"), held)]
    pairs.append((told.say("boxes.opens"), _opens(told, box, place)))
    town = _town(told, place)
    return [*pairs, (told.say("boxes.town"), town)] if town else pairs


def _outside(told: Telling, box: Box) -> str:
    names = ", ".join(walker.name for walker in told.plan.trip.walkers)
    return told.say("boxes.outside_text", names=names, comes=_comes(told, box))


def _opens(told: Telling, box: Box, place: Place) -> str:
    """Weekdays, chance and the longest wait; that nobody asked, where nobody did."""
    on = ", ".join(WEEKDAYS[day] for day in sorted(place.open_weekdays))
    text = told.say("boxes.open_on", days=on, chance=box.open_chance or 0.0, wait=box.wait_days)
    asked = told.say("boxes.asked", date=place.checked) if place.checked else told.say(
        "boxes.not_asked")  # fmt: skip
    return f"{text} {asked}"


def _town(told: Telling, place: Place) -> str:
    """What is eaten there, and by how much that lightens the sacks."""
    kcal = [chosen.town.get(str(day), 0.0) for chosen in told.plan.chosen.values()
            for day in (place.day, place.day + 1)]  # fmt: skip
    if not any(kcal):
        return ""
    meals = ", ".join(told.say(f"meals.{meal}") for meal in sorted(place.town_meals))
    about = sum(kcal) / len(told.plan.chosen)
    return told.say("boxes.town_text", meals=meals or told.say("boxes.something"), kcal=about)
