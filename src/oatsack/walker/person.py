"""A walker's body as the formulas need it: what was stated, and what stands in for the rest."""

from __future__ import annotations

from dataclasses import dataclass

from oatsack.values.walker import Sex, Walker
from oatsack.walker import norms, resting
from oatsack.walker.joules import watts

DEFAULT_AGE_YEARS = 40.0
AVERAGE_HEIGHT_CM = {"male": 176.0, "female": 163.0, None: 169.5}
"""Average adult heights, from memory; between the sexes where none is stated."""
ADULT_YEARS = 18.0
YOUTH_LEVEL: norms.Level = "active"
CONDITION_KCAL_DAY = {"none": 0.0, "ill": 0.0, "pregnant": 340.0, "nursing": 400.0}
"""What a condition adds to a day: the second third of a pregnancy, nursing beyond half a year.
Source: IOM2005 (from memory). For planning food only; a professional decides."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Body:
    """One body. `sex` None lies between the sexes; `guessed` names what was not stated."""

    mass_kg: float
    height_cm: float = AVERAGE_HEIGHT_CM[None]
    age_years: float = DEFAULT_AGE_YEARS
    sex: Sex | None = None
    guessed: tuple[str, ...] = ()
    condition: str = "none"

    @property
    def youth(self) -> bool:
        """Whether the walker is under 18."""
        return self.age_years < ADULT_YEARS

    @property
    def fully_fed(self) -> bool:
        """Whether full food and a professional's advice are due, whatever was asked (C11)."""
        return self.youth or self.condition != "none"


def body_of(walker: Walker) -> Body:
    """The walker's body, with defaults of ours for age, height and sex where none is stated."""
    stated = {
        "age_years": walker.age_years,
        "height_cm": walker.height_cm,
        "sex": walker.sex,
    }
    return Body(
        mass_kg=walker.mass_kg,
        height_cm=walker.height_cm or AVERAGE_HEIGHT_CM[walker.sex],
        age_years=DEFAULT_AGE_YEARS if walker.age_years is None else walker.age_years,
        sex=walker.sex,
        guessed=tuple(name for name, value in stated.items() if value is None),
        condition=walker.condition,
    )


def resting_kcal_day(body: Body, equation: str | None = None) -> float:
    """What the body uses in a day lying still [kcal].

    By Mifflin1990, or Henry2005 below 18 years, unless another equation is named.
    """
    chosen = resting.YOUTH if body.youth else resting.DEFAULT
    rule = chosen if equation is None else resting.model(equation)
    kcal: float = rule.function(
        mass_kg=body.mass_kg, height_cm=body.height_cm, age_years=body.age_years, sex=body.sex
    )
    return kcal


def resting_w(body: Body, equation: str | None = None) -> float:
    """The same as a steady power [W]."""
    return float(watts(resting_kcal_day(body, equation)))


def norm_kcal_day(body: Body, level: norms.Level = YOUTH_LEVEL) -> float:
    """The public norm for a whole day of this body [kcal]; a check, and a floor for youths.

    Source: IOM2005.
    """
    return norms.iom_2005(
        body.mass_kg, body.height_cm, age_years=body.age_years, sex=body.sex, level=level
    )
