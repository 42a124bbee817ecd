"""The published models by shelf, with their sources, ranges and how their check values came out.

Plain rows for whoever shows them, and `models_page`, the reference that is kept in the docs and
compared with the code by a test. To add a model, see its shelf; to add a shelf, name it here.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from oatsack.cite import UNSOURCED, bibliography, cite, key_of
from oatsack.route import pace
from oatsack.values.model import Bound, Model
from oatsack.walker import energy, hall_2011, resting, tissue
from oatsack.walker.person import Body


@dataclass(frozen=True, slots=True, kw_only=True)
class Shelf:
    """Models of one quantity, the default first."""

    name: str
    help: str
    models: tuple[Model, ...]
    default: Model


SHELVES: tuple[Shelf, ...] = (
    Shelf(
        name="walking cost",
        help="Gross power of walking, in watts. Every function takes `mass_kg`, `load_kg`, "
        "`speed_ms`, `grade_pct`, `terrain` and `resting_w`, as single numbers or arrays.",
        models=energy.MODELS,
        default=energy.DEFAULT,
    ),
    Shelf(
        name="walking time",
        help="Speed by slope, in metres a second, from `grade_pct`. A walker's own speed on the "
        "flat scales the whole curve, which is our choice. Rests are not in it.",
        models=pace.MODELS,
        default=pace.DEFAULT,
    ),
    Shelf(
        name="resting use",
        help="What a body uses lying still, in kcal a day, from `mass_kg`, `height_cm`, "
        "`age_years` and `sex`; halfway between the sexes where none is stated.",
        models=resting.MODELS,
        default=resting.DEFAULT,
    ),
)

# The standard walker of the comparison: 75 kg with 12 kg at 4.5 km/h on a dirt path.
STANDARD: Mapping[str, float] = {
    "mass_kg": 75.0, "load_kg": 12.0, "speed_ms": 1.25, "terrain": 1.1,
    "resting_w": 1692.5 * 4184.0 / 86400.0,
}  # fmt: skip
BODIES: Mapping[str, Body] = {
    "man, 35 years, 75 kg, 178 cm": Body(mass_kg=75.0, height_cm=178.0, age_years=35.0, sex="male"),
    "woman, 30 years, 62 kg, 165 cm": Body(
        mass_kg=62.0, height_cm=165.0, age_years=30.0, sex="female"
    ),
}
SHORT_KCAL = 7000.0
GRADES_PCT = (-20.0, -10.0, 0.0, 10.0, 20.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Record:
    """How a model did on its check values: how many, how many met, the worst miss by tolerance."""

    published: int
    oracle: int
    met: int
    worst: float

    @property
    def total(self) -> int:
        """All check values."""
        return self.published + self.oracle


def record(model: Model) -> Record:
    """The model's check values, evaluated now."""
    results = model.check()
    kinds = [case.kind for case, _, _ in results]
    return Record(
        published=kinds.count("published"),
        oracle=kinds.count("oracle"),
        met=sum(ok for _, _, ok in results),
        worst=max(
            (abs(got - case.expected) / case.tolerance for case, got, _ in results), default=0
        ),
    )


def bounds(model: Model) -> Iterator[tuple[str, str, str]]:
    """Each bounded quantity, its range in words, and why."""
    for name, bound in model.validity.items():
        yield name, _range(bound), bound.why


def _range(bound: Bound) -> str:
    if bound.low is None and bound.high is None:
        return "any"
    if bound.low is None:
        return f"up to {bound.high:g}"
    if bound.high is None:
        return f"from {bound.low:g}"
    if bound.low == bound.high:
        return f"{bound.low:g} only"
    return f"{bound.low:g} to {bound.high:g}"


def kept_facts() -> str:
    """Every model as JSON, one a line, check values evaluated now: what `oatsack models` reads, so
    that showing the shelf loads no model."""
    rows = [_facts(shelf, model) for shelf in SHELVES for model in shelf.models]
    lines = [json.dumps(row, ensure_ascii=False) for row in rows]
    return "[\n" + ",\n".join(lines) + "\n]\n"


def _facts(shelf: Shelf, model: Model) -> dict[str, Any]:
    return {
        "name": model.name, "shelf": shelf.name, "default": model is shelf.default,
        "unit": model.unit, "help": model.help, "notes": model.notes,
        "sources": list(model.sources),
        "validity": {n: {"range": words, "why": why} for n, words, why in bounds(model)},
        "cases": [
            {"arguments": dict(case.arguments), "expected": case.expected, "got": float(got),
             "within": case.tolerance, "met": bool(ok), "kind": case.kind, "source": case.source}
            for case, got, ok in model.check()
        ],
    }  # fmt: skip


def models_page() -> str:
    """The reference of all models as Markdown."""
    lines = [
        "# Models",
        "",
        "Generated from the code by `scripts/write_models.py`; a test compares. Every number of a",
        "plan that a formula makes comes from one of these. Outside its range a model is flagged.",
        "A formula or a combination of our own making is labelled ours.",
    ]
    for shelf in SHELVES:
        lines += ["", f"## {shelf.name.capitalize()}", "", shelf.help]
        for model in shelf.models:
            lines += _model(model, default=model is shelf.default)
    return "\n".join([*lines, *_side_by_side(), *_bodies(), *_sources(), ""])


def _model(model: Model, *, default: bool) -> list[str]:
    did = record(model)
    return [
        "",
        f"### {model.name}{' (default)' if default else ''}",
        "",
        f"{model.help}. Gives {model.unit}.",
        "",
        *_notes(model),
        f"* Sources: {'; '.join(model.sources)}",
        *(f"* `{name}`: {words} ({why})" for name, words, why in bounds(model)),
        f"* Check values: {did.met} of {did.total} met {_kinds(did)}",
    ]


def _kinds(did: Record) -> str:
    return f"({did.published} printed, {did.oracle} worked out apart)"


def _notes(model: Model) -> list[str]:
    return [model.notes, ""] if model.notes else []


def _side_by_side() -> Iterable[str]:
    """Watts and speeds by slope, all models beside each other."""
    head = " | ".join(f"{grade:+.0f} %" for grade in GRADES_PCT)
    rule = "|---" * (len(GRADES_PCT) + 1) + "|"
    yield from ("", "## Side by side", "")
    yield "A walker of 75 kg carrying 12 kg at 4.5 km/h on a dirt path (factor 1.1), in watts. A"
    yield "figure in brackets lies outside the model's range of slope or speed."
    yield from ("", f"| model | {head} |", rule)
    for model in energy.MODELS:
        yield _row(model, [_watts(model, grade) for grade in GRADES_PCT])
    yield from ("", "Speed by slope, in km/h.", "", f"| rule | {head} |", rule)
    for model in pace.MODELS:
        speeds = [float(model.function(grade_pct=grade)) * 3.6 for grade in GRADES_PCT]
        yield _row(model, [f"{speed:.2f}" for speed in speeds])


def _bodies() -> Iterable[str]:
    """What a week of eating 1,000 kcal a day too little does, counted in three ways."""
    yield from ("", "## Eating less", "")
    low, high = tissue.WATER_KG
    yield "Seven days of 1,000 kcal too little, in kilograms. The plan shows tissue by the curve of"
    yield f"Hall2007 and, apart from it, {low:g} to {high:g} kg of water and glycogen (ours), which"
    yield "come back. Beside it stand the common rule (Wishnofsky1958) and the body model of"
    yield "Hall2011, which was made for diets and not for long days."
    yield from ("", "| body | usual fat | common rule | tissue | on the scales by Hall2011 |")
    yield "|---|---|---|---|---|"
    for name, body in BODIES.items():
        fat = tissue.fat_kg(body)
        by_rule, by_forbes = (
            SHORT_KCAL / density
            for density in (tissue.RULE_KCAL_KG, tissue.energy_kcal_per_kg(fat))
        )
        scales = -hall_2011.mass_change_kg(body, -SHORT_KCAL / 7.0, days=7)
        yield f"| {name} | {fat:.1f} | {by_rule:.2f} | {by_forbes:.2f} | {scales:.2f} |"


def _row(model: Model, cells: list[str]) -> str:
    return f"| {model.name} | {' | '.join(cells)} |"


def _watts(model: Model, grade_pct: float) -> str:
    given = {**STANDARD, "grade_pct": grade_pct}
    missed = model.outside(**given)
    text = f"{float(model.function(**given)):.0f}"
    return f"({text})" if missed.get("grade_pct") or missed.get("speed_ms") else text


def _sources() -> Iterable[str]:
    """The works cited above, with how far each was read."""
    cited = {
        key_of(source) for shelf in SHELVES for model in shelf.models for source in model.sources
    } | {"Hall2007", "Hall2011", "Wishnofsky1958"}
    yield from ("", "## Sources", "")
    yield "How far each was read stands in brackets; `copy` means its content as others give it."
    yield ""
    for key in sorted(cited - UNSOURCED):
        yield f"* **{key}** {cite(key)} [{bibliography()[key].read}]"
