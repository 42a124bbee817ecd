"""What is eaten in a town on the way, in a few words for the line of a day."""

from __future__ import annotations

from oatsack.reports.telling import Telling
from oatsack.values.food import MEALS
from oatsack.values.route import Day


def town_text(told: Telling, day: Day) -> str:
    """Meals eaten in town on a day, and about how much that is for each: "dinner in Mill Town,
    about 800 kcal"; nothing on other days."""
    kcal = [chosen.town.get(str(day.number), 0.0) for chosen in told.plan.chosen.values()]
    if not any(kcal):
        return ""
    names, meals = [], set()
    for place in told.plan.trip.places:
        here = {m for m in place.town_meals if place.day + (m == "breakfast") == day.number}
        if here or place.day == day.number:
            names.append(place.name)
            meals |= here
    listed = ", ".join(told.say(f"meals.{m}") for m in MEALS if m in meals)
    return told.say("town.day", meals=listed or told.say("boxes.something"),
                    place=", ".join(names), kcal=sum(kcal) / len(kcal))  # fmt: skip
