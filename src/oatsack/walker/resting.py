"""What the body uses lying still in a day, by several published equations, and two whole-day norms.

The walking models take the resting power of the default equation; the norms (which hold daily life
and the heat of food already) only check the sums. A walker of unstated sex lies between the sexes.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType

from oatsack.errors import UsageError
from oatsack.values.model import Bound, Case, Model
from oatsack.values.walker import Sex

Person = Callable[[float, float, float, Sex], float]


def _between(equation: Person, mass: float, height: float, age: float, sex: Sex | None) -> float:
    """The equation for this sex, or halfway between both where none is stated (ours)."""
    if sex is not None:
        return equation(mass, height, age, sex)
    both: tuple[Sex, Sex] = ("female", "male")
    return sum(equation(mass, height, age, one) for one in both) / 2.0


def mifflin(*, mass_kg: float, height_cm: float, age_years: float, sex: Sex | None) -> float:
    """Mifflin-St Jeor [kcal/day]: ``10 W + 6.25 H - 5 A + 5`` (women -161). Source: Mifflin1990."""

    def equation(w: float, h: float, a: float, s: Sex) -> float:
        return 10.0 * w + 6.25 * h - 5.0 * a + (5.0 if s == "male" else -161.0)

    return _between(equation, mass_kg, height_cm, age_years, sex)


def mifflin_unrounded(
    *, mass_kg: float, height_cm: float, age_years: float, sex: Sex | None
) -> float:
    """Mifflin-St Jeor before rounding [kcal/day], for the body model. Source: Mifflin1990."""

    def equation(w: float, h: float, a: float, s: Sex) -> float:
        return 9.99 * w + 6.25 * h - 4.92 * a + (5.0 if s == "male" else -161.0)

    return _between(equation, mass_kg, height_cm, age_years, sex)


def roza_shizgal(*, mass_kg: float, height_cm: float, age_years: float, sex: Sex | None) -> float:
    """Harris-Benedict as revised in 1984 [kcal/day]. Source: RozaShizgal1984."""

    def equation(w: float, h: float, a: float, s: Sex) -> float:
        if s == "male":
            return 88.362 + 13.397 * w + 4.799 * h - 5.677 * a
        return 447.593 + 9.247 * w + 3.098 * h - 4.330 * a

    return _between(equation, mass_kg, height_cm, age_years, sex)


def harris_benedict(
    *, mass_kg: float, height_cm: float, age_years: float, sex: Sex | None
) -> float:
    """Harris and Benedict's first equation [kcal/day]. Source: HarrisBenedict1919."""

    def equation(w: float, h: float, a: float, s: Sex) -> float:
        if s == "male":
            return 66.5 + 13.75 * w + 5.003 * h - 6.755 * a
        return 655.1 + 9.563 * w + 1.850 * h - 4.676 * a

    return _between(equation, mass_kg, height_cm, age_years, sex)


# From this age on, so much per kg and so much besides; the lower end belongs to the band.
Bands = tuple[tuple[float, float, float], ...]
_HENRY: Mapping[str, Bands] = MappingProxyType(
    {
        "male": (
            (60, 13.5, 514), (30, 14.2, 593), (18, 16.0, 545), (10, 18.4, 581), (0, 23.3, 514),
        ),
        "female": (
            (60, 10.1, 569), (30, 9.74, 694), (18, 13.1, 558), (10, 11.1, 761), (0, 20.1, 507),
        ),
    }
)  # fmt: skip
_SCHOFIELD: Mapping[str, Bands] = MappingProxyType(
    {
        "male": ((60, 11.711, 587.7), (30, 11.472, 873.1), (0, 15.057, 692.2)),
        "female": ((60, 9.082, 658.5), (30, 8.126, 845.6), (0, 14.818, 486.6)),
    }
)


def _by_band(bands: Mapping[str, Bands]) -> Person:
    """An equation that is linear in mass within bands of age."""

    def equation(w: float, _h: float, a: float, s: Sex) -> float:
        per_kg, besides = next((b, c) for start, b, c in bands[s] if a >= start)
        return per_kg * w + besides

    return equation


def henry(*, mass_kg: float, height_cm: float, age_years: float, sex: Sex | None) -> float:
    """Henry's Oxford equations, by age band [kcal/day]; height is not used.

    Source: Henry2005; the bands below 18 from memory.
    """
    return _between(_by_band(_HENRY), mass_kg, height_cm, age_years, sex)


def schofield(*, mass_kg: float, height_cm: float, age_years: float, sex: Sex | None) -> float:
    """Schofield's equations, by age band [kcal/day]; height is not used. Source: Schofield1985."""
    return _between(_by_band(_SCHOFIELD), mass_kg, height_cm, age_years, sex)


_PEOPLE = ((75.0, 178.0, 35.0, "male"), (62.0, 165.0, 30.0, "female"),
           (80.0, 180.0, 25.0, "male"), (68.0, 170.0, 62.0, "female"))  # fmt: skip
_NAMES = ("mass_kg", "height_cm", "age_years", "sex")


def _model(
    name: str, function: Callable[..., float], source: str, values: tuple[float, ...], low: float
) -> Model:
    """One equation with its values for four people, worked out apart from this code."""
    return Model(
        name=name,
        help=(function.__doc__ or "").split(" [kcal/day]")[0],
        function=function,
        unit="kcal/day",
        sources=(source,),
        validity={"age_years": Bound(low=low, high=80.0, why="ages of the people measured")},
        cases=tuple(
            Case(
                arguments=dict(zip(_NAMES, person, strict=True)),
                expected=value,
                tolerance=0.005 + 1e-9,
                source=f"{source}, evaluated apart from this code",
                kind="oracle",
            )
            for person, value in zip(_PEOPLE, values, strict=True)
        ),
    )


MODELS: tuple[Model, ...] = (
    _model("mifflin-1990", mifflin, "Mifflin1990", (1692.50, 1340.25, 1805.00, 1271.50), 18.0),
    _model("henry-2005", henry, "Henry2005", (1658.00, 1297.88, 1825.00, 1255.80), 0.0),
    _model(
        "roza-shizgal-1984", roza_shizgal, "RozaShizgal1984",
        (1748.66, 1402.18, 1882.02, 1334.59), 18.0,
    ),
    _model(
        "mifflin-unrounded", mifflin_unrounded, "Mifflin1990",
        (1694.55, 1342.03, 1806.20, 1275.78), 18.0,
    ),
    _model(
        "schofield-1985", schofield, "Schofield1985", (1733.50, 1349.41, 1896.76, 1276.08), 18.0
    ),
    _model(
        "harris-benedict-1919", harris_benedict, "HarrisBenedict1919",
        (1751.86, 1412.98, 1898.16, 1329.97), 18.0,
    ),
)  # fmt: skip
DEFAULT: Model = MODELS[0]
YOUTH: Model = MODELS[1]
"""Whose bands reach below 18."""


def model(name: str) -> Model:
    """The resting equation of this name. Raises UsageError, naming all, when there is none."""
    for one in MODELS:
        if one.name == name:
            return one
    names = ", ".join(one.name for one in MODELS)
    raise UsageError(f"no resting equation {name!r}; there are: {names}")
