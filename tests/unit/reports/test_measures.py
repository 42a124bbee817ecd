"""Numbers as text: rounded to what can be known, one system at a time."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from oatsack.reports.measures import Measures
from support.each import each

METRIC, US = Measures(), Measures(units="us", currency="USD")


@each(
    ("kind", "value", "metric", "us"),
    [
        ("mass", 85.0, "85 g", "3 oz"),
        ("mass", 1243.0, "1.24 kg", "2 lb 12 oz"),
        ("mass", 453.59237, "454 g", "1 lb"),
        ("mass", 15.0, "15 g", "0.5 oz"),
        ("fine", 1243.0, "1,243 g", "2 lb 12 oz"),
        ("heavy", 4.914, "4.9 kg", "10 lb 13 oz"),
        ("body", 0.44, "0.4 kg", "1.0 lb"),
        ("energy", 2337.0, "2,340 kcal", "2,340 kcal"),
        ("about", 3920.0, "3,900", "3,900"),
        ("about", 287.0, "300", "300"),
        ("volume", 352.0, "350 ml", "1½ cups"),
        ("volume", 473.2, "475 ml", "2 cups"),
        ("volume", 236.6, "235 ml", "1 cup"),
        ("volume", 1480.0, "1.5 l", "6¼ cups"),
        ("volume", 3785.4, "3.8 l", "4.0 qt"),
        ("volume", 29.57, "30 ml", "1 fl oz"),
        ("room", 8800.0, "8.8 l", "537 in³"),
        ("height", 1149.0, "1,150 m", "3,770 ft"),
        ("distance", 14200.0, "14.2 km", "8.8 mi"),
        ("temperature", 4.0, "4 °C", "39 °F"),
        ("temperature", -0.2, "0 °C", "32 °F"),
        ("minutes", 12.4, "12 min", "12 min"),
        ("minutes", 95.0, "1 h 35", "1 h 35"),
        ("clock", 1110.0, "18:30", "18:30"),
        ("clock", 1500.0, "01:00", "01:00"),
        ("percent", 0.853, "85 %", "85 %"),
    ],
)  # fmt: skip
def test_a_number_reads_as_a_walker_says_it(kind: str, value: float, metric: str, us: str) -> None:
    assert getattr(METRIC, kind)(value) == metric
    assert getattr(US, kind)(value) == us


@each(
    ("value", "shown"),
    [(2.0, "2"), (1.5, "1½"), (0.5, "½"), (2.25, "2¼"), (1.1, "1.1"), (1234.0, "1,234"),
     (1234.6, "1,235"), (0.0, "0")],
)  # fmt: skip
def test_counts_use_fractions_where_one_would_say_them(value: float, shown: str) -> None:
    assert METRIC.number(value) == shown


def test_money_bears_the_currency_of_the_trip() -> None:
    assert METRIC.money(12.4) == "12.40 EUR"
    assert US.money(1234.5) == "1,234.50 USD"


@given(st.floats(0, 200_000))
def test_us_text_never_holds_sixteen_ounces_and_metric_units_never_leak(grams: float) -> None:
    text = US.mass(grams)
    assert " 16 oz" not in f" {text}"
    assert " g" not in text and "kg" not in text


@given(st.floats(0, 50_000))
def test_what_is_shown_is_within_two_percent_or_five_millilitres(ml: float) -> None:
    text = METRIC.volume(ml)
    number, unit = text.replace(",", "").split()
    back = float(number) * (1000.0 if unit == "l" else 1.0)
    assert abs(back - ml) <= max(2.51 if unit == "ml" else 50.1, 0.02 * ml)
