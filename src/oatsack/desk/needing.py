"""The need of an opened trip, without a menu: as a document, and as plain data."""

from __future__ import annotations

import datetime as dt
import json
from dataclasses import asdict, replace

from oatsack.desk.opening import Opened
from oatsack.files.daylight import daylight_of
from oatsack.provision import Setting
from oatsack.provision.flow import EXTRA_KG, Needed, needed
from oatsack.reports.document import Document
from oatsack.reports.needing import Needing, document

SEED = 0
"""The draws behind `--range` are the same in every run (C14)."""


def need_of(opened: Opened, *, today: dt.date) -> Needed:
    """Needs, targets and cautions of everyone. UsageError for a trip without a meal."""
    setting = Setting(today=today, track=opened.track,
                      daylight=daylight_of(opened.trip, opened.track))  # fmt: skip
    return needed(opened.trip, setting=setting)


def people_of(found: Needed, *, drawn: bool = False) -> tuple[Needing, ...]:
    """One row of figures per walker; `drawn` adds ten thousand draws of the need."""
    return tuple(_person(found, w.id, w.name, drawn=drawn) for w in found.trip.walkers)


def _person(found: Needed, walker: str, name: str, *, drawn: bool) -> Needing:
    need = found.want.needs[walker]
    more = float(found.heavier[walker].likely_kcal.sum() - need.likely_kcal.sum())
    one = Needing(
        walker=walker, name=name, days=need.days, shelf_kcal=need.shelf_kcal,
        eats_kcal=found.want.kcal[walker], more_kcal=more, extra_kg=EXTRA_KG,
    )  # fmt: skip
    if not drawn:
        return one
    from oatsack.walker.range import draw

    told = draw(need, seed=SEED)
    return replace(one, drawn=told.days, drawn_walk=told.walk)


def told(found: Needed, *, drawn: bool = False) -> Document:
    """The document."""
    return document(found.trip, found.days, people_of(found, drawn=drawn), found.flags)


def as_json(found: Needed, *, drawn: bool = False) -> str:
    """The same figures as JSON, with the flags as keys and values."""
    people = {one.walker: asdict(one) for one in people_of(found, drawn=drawn)}
    flags = [asdict(flag) for flag in found.flags]
    return json.dumps({"need": people, "flags": flags}, indent=1, ensure_ascii=False,
                      default=dict)  # fmt: skip
