"""The need of an opened trip, without a menu: as a document, and as plain data."""

from __future__ import annotations

import datetime as dt
import json
from collections.abc import Mapping
from dataclasses import asdict, replace

from oatsack.desk.opening import Opened
from oatsack.errors import TripFileError
from oatsack.files.daylight import daylight_of
from oatsack.files.trip import placed
from oatsack.provision import Setting
from oatsack.provision.flow import EXTRA_KG, Needed, needed
from oatsack.reports.document import Document
from oatsack.reports.needing import Needing, document
from oatsack.values.walker import Walker
from oatsack.walker.norms import Level, iom_2005, nasem_2023
from oatsack.walker.person import Body, body_of

LEVEL: Level = "low"
"""Days at home are held against the norm for a little activity (ours)."""
NASEM_YEARS = 19.0
SEED = 0
"""The draws behind `--range` are the same in every run (C14)."""


def need_of(opened: Opened, *, today: dt.date) -> Needed:
    """Needs, targets and cautions of everyone. UsageError for a trip without a meal."""
    setting = Setting(today=today, track=opened.track,
                      daylight=daylight_of(opened.trip, opened.track))  # fmt: skip
    try:
        return needed(opened.trip, setting=setting)
    except TripFileError as error:
        raise TripFileError(placed(opened.trip, error.faults, opened.text)) from None


def people_of(found: Needed, *, drawn: bool = False) -> tuple[Needing, ...]:
    """One row of figures per walker; `drawn` adds ten thousand draws of the need."""
    return tuple(_person(found, w, drawn=drawn) for w in found.trip.walkers)


def _person(found: Needed, who: Walker, *, drawn: bool) -> Needing:
    walker, name = who.id, who.name
    need = found.want.needs[walker]
    more = float(found.heavier[walker].likely_kcal.sum() - need.likely_kcal.sum())
    one = Needing(
        walker=walker, name=name, days=need.days, shelf_kcal=need.shelf_kcal,
        eats_kcal=found.want.kcal[walker], more_kcal=more, extra_kg=EXTRA_KG,
        norm_kcal=_norms(body_of(who)),
    )  # fmt: skip
    if not drawn:
        return one
    from oatsack.walker.range import draw

    told = draw(need, seed=SEED)
    return replace(one, drawn=told.days, drawn_walk=told.walk)


def _norms(body: Body) -> Mapping[str, float]:
    """A day without the walk by two public norms [kcal]; the newer one is for adults."""
    rules = {"IOM 2005": iom_2005}
    if body.age_years >= NASEM_YEARS:
        rules["NASEM 2023"] = nasem_2023
    return {
        name: rule(body.mass_kg, body.height_cm, age_years=body.age_years, sex=body.sex,
                   level=LEVEL)
        for name, rule in rules.items()
    }  # fmt: skip


def told(found: Needed, *, drawn: bool = False) -> Document:
    """The document."""
    return document(found.trip, found.days, people_of(found, drawn=drawn), found.flags)


def as_json(found: Needed, *, drawn: bool = False) -> str:
    """The same figures as JSON, with the flags as keys and values."""
    people = {one.walker: asdict(one) for one in people_of(found, drawn=drawn)}
    flags = [asdict(flag) for flag in found.flags]
    return json.dumps({"need": people, "flags": flags}, indent=1, ensure_ascii=False,
                      default=dict)  # fmt: skip
