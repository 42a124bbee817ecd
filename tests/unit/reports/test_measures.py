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


@each(
    ("kind", "value", "metric", "us"),
    [
        ("mass", 999.4, "999 g", "2 lb 3 oz"),
        ("mass", 999.5, "1.00 kg", "2 lb 3 oz"),
        ("mass", 9994.0, "9.99 kg", "22 lb 1 oz"),
        ("mass", 9995.0, "10.0 kg", "22 lb 1 oz"),
        ("mass", 281.8, "282 g", "9.9 oz"),
        ("mass", 282.2, "282 g", "10 oz"),
        ("mass", 439.0, "439 g", "15 oz"),
        ("mass", 439.5, "440 g", "1 lb"),
        ("mass", 467.8, "468 g", "1 lb 1 oz"),
        ("mass", -85.0, "-85 g", "-3 oz"),
        ("mass", -300.0, "-300 g", "-11 oz"),
        ("mass", -1243.0, "-1.24 kg", "-2 lb 12 oz"),
        ("heavy", 0.994, "0.99 kg", "2 lb 3 oz"),
        ("heavy", 0.996, "1.0 kg", "2 lb 3 oz"),
        ("per_body", 1.34, "1.3 g per kg", "0.6 g per lb"),
        ("mass_days", 6.6, "6.6 kg·days", "14.6 lb·days"),
        ("energy", 99.4, "99 kcal", "99 kcal"),
        ("energy", 100.0, "100 kcal", "100 kcal"),
        ("energy", 104.0, "100 kcal", "100 kcal"),
        ("energy", 106.0, "110 kcal", "110 kcal"),
        ("about", 974.0, "950", "950"),
        ("about", 976.0, "1,000", "1,000"),
        ("about", 1049.0, "1,000", "1,000"),
        ("about", 1051.0, "1,100", "1,100"),
        ("about", -1951.0, "-2,000", "-2,000"),
        ("volume", 997.4, "995 ml", "4¼ cups"),
        ("volume", 997.6, "1.0 l", "4¼ cups"),
        ("volume", 47.0, "45 ml", "1.6 fl oz"),
        ("volume", 48.0, "50 ml", "¼ cup"),
        ("volume", 1890.0, "1.9 l", "8 cups"),
        ("volume", 1893.0, "1.9 l", "2.0 qt"),
        ("litres", 1.5, "1.5 l", "6¼ cups"),
        ("minutes", 89.4, "89 min", "89 min"),
        ("minutes", 89.6, "1 h 30", "1 h 30"),
        ("minutes", 121.6, "2 h 02", "2 h 02"),
        ("clock", 1439.4, "23:59", "23:59"),
        ("clock", 1439.6, "00:00", "00:00"),
        ("height", 1147.0, "1,145 m", "3,760 ft"),
        ("height", 1148.0, "1,150 m", "3,770 ft"),
    ],
)
def test_where_one_way_of_showing_ends_the_next_begins(
    kind: str, value: float, metric: str, us: str
) -> None:
    assert (getattr(METRIC, kind)(value), getattr(US, kind)(value)) == (metric, us)


@each(
    ("value", "digits", "shown"),
    [
        (0.03, 0, "0"), (0.06, 0, "0.1"), (0.24, 0, "¼"), (0.22, 0, "0.2"), (0.74, 0, "¾"),
        (1.26, 0, "1¼"), (1.27, 0, "1.3"), (99.5, 0, "99½"), (101.5, 0, "102"), (-1.5, 0, "-1½"),
        (-0.5, 0, "-½"), (2.5, 1, "2.5"), (2.97, 0, "3"), (-0.04, 0, "0"),
    ],
)  # fmt: skip
def test_fractions_are_said_only_where_they_are_meant(
    value: float, digits: int, shown: str
) -> None:
    assert METRIC.number(value, digits) == shown
