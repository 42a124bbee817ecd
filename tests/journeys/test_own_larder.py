"""A walker's own larder, from the sheet program to the foods of a menu. The foods are invented."""

from __future__ import annotations

import datetime as dt
import io
import subprocess
import sys
from contextlib import redirect_stdout
from pathlib import Path

import pytest

from oatsack.cli.verbs.foods import foods as foods_verb
from oatsack.errors import LarderError
from oatsack.files.larder import bundled, read_larder, read_with_dialect, write_larder
from oatsack.files.stock import read_stock
from oatsack.larder.plausible import admitted, doubts
from oatsack.larder.search import find
from oatsack.larder.stock import stocked
from support.foods import placeless

EUROPEAN = """\
Name;Pack (g);Servings;Energy kJ per 100 g;Fat per 100 g;carb_available_g per 100 g;\
Fibre per 100 g;Protein per 100 g;Salt per 100 g;category;role;contains;price;home_packs;best_before
Waldmüsli;500;10;1.650;9,5;58,0;9,1;11,2;0,03;breakfast;main;gluten tree_nut;3,49;1,5;31.3.2027
Bergkäse;200;5;1.690;33,5;0,5;;26,0;1,6;dairy;topping;milk;4,20;;
Brühwürfel;80;8;850;12,0;16,0;0,5;9,0;52,0;soup;small;celery;1,29;3;
Dörrfleisch;85;3;1.250;9,0;8,0;;46,0;4,1;protein;snack;;6,90;;
"""
AMERICAN = """\
name,pack,servings,per,calories,fat_g,carb_g,fiber_g,protein_g,sodium_mg,category,role,meals
Campfire chili,4 oz,1,pack,500,16,61,15,27,1500,meal,main,dinner
Ridge bar,12.3 oz,6,serving,250,11,30,3,12,190,snack,snack,lunch move
Summit mix,6 oz,6,serving,140,9,12,2,4,60,nut,snack,move
Morning oats,12.1 oz,8,serving,160,2,33,3,4,210,breakfast,main,breakfast
"""
SLIPS = """\
name,pack_g,doses,per,kcal,fat_g,carb_g,protein_g,category,role
Hazel bar,240,6,100 g,1966,25,55,9,snack,snack
Tarn dinner,4,1,pack,500,16,61,27,meal,main
Beck mix,170,6,serving,470,29,45,14,nut,snack
Moor flakes,500,10,100 g,372,7,64,12,breakfast,main
"""


def test_a_european_sheet_with_commas_and_kilojoules() -> None:
    reading = read_with_dialect(EUROPEAN.encode("cp1252"), "vorrat.csv")
    dialect = reading.dialect
    assert (dialect.encoding, dialect.delimiter, dialect.decimal) == ("windows-1252", ";", ",")
    muesli, cheese, cube, meat = reading.foods
    assert (muesli.id, muesli.name, muesli.dose_g) == ("waldmusli", "Waldmüsli", 50.0)
    assert muesli.per_100g.energy_kcal == pytest.approx(1650 / 4.184)
    assert muesli.per_100g.carb_g == pytest.approx(67.1)
    assert muesli.stock.best_before == dt.date(2027, 3, 31)
    assert cheese.per_100g.sodium_mg == pytest.approx(640.0)
    assert meat.state("wheat") == "unknown"
    # A cube is named in another language, so its salt is questioned until it is confirmed.
    inside, flags = admitted(reading.foods)
    assert [food.id for food in inside] == [muesli.id, cheese.id, meat.id]
    assert [flag.values["food"] for flag in flags] == [cube.id]


def test_an_american_sheet_with_ounces_and_servings() -> None:
    chili, bar, mix, oats = read_larder(AMERICAN.encode("utf-8-sig"), "pantry.csv")
    assert chili.dose_kcal == pytest.approx(500.0)
    assert bar.dose_g == pytest.approx(58.1, abs=0.1)
    assert bar.dose_kcal == pytest.approx(250.0)
    assert mix.pack_g == pytest.approx(170.1, abs=0.1)
    assert mix.dose_kcal * mix.doses_per_pack == pytest.approx(840.0)
    assert oats.per_100g.energy_kcal == pytest.approx(373, abs=1)
    assert admitted([chili, bar, mix, oats]) == ((chili, bar, mix, oats), ())


def test_slips_are_named_and_kept_out_until_they_are_mended_or_confirmed() -> None:
    foods = read_larder(SLIPS.encode(), "slips.csv")
    inside, flags = admitted(foods)
    assert [food.name for food in inside] == ["Moor flakes"]
    named = {str(flag.values["food"]): flag.key for flag in flags}
    assert named["hazel-bar"] == "larder.kj-as-kcal"
    assert named["beck-mix"] == "larder.100g-as-serving"
    assert [flag.key for flag in doubts(foods[1])] == [
        "larder.ounces-as-grams", "larder.pack-in-ounces",
    ]  # fmt: skip
    head, *lines = SLIPS.splitlines()
    mended = (
        "\n".join([head, *lines])
        .replace("1966", "470")
        .replace("dinner,4,", "dinner,4 oz,")
        .replace("serving,470", "100 g,470")
    )
    assert admitted(read_larder(mended.encode(), "mended.csv"))[1] == ()
    confirmed = "\n".join([head + ",confirmed", *(line + ",yes" for line in lines)])
    assert len(admitted(read_larder(confirmed.encode(), "sure.csv"))[0]) == 4


def test_the_faults_of_a_bad_sheet_come_all_at_once() -> None:
    bad = EUROPEAN.replace("9,5", "9.5").replace("31.3.2027", "31.13.2027").replace("main", "mian")
    with pytest.raises(LarderError) as caught:
        read_larder(bad.encode(), "vorrat.csv")
    assert [(f.line, f.path.split(": ")[-1]) for f in caught.value.faults] == [
        (2, "fat_g"), (2, "role"), (2, "best_before"),
    ]  # fmt: skip
    for fault in caught.value.faults:
        assert fault.text[fault.column - 1 :].startswith(fault.read.strip("'"))


def test_the_bundled_larder_goes_out_to_a_sheet_and_comes_back() -> None:
    data = write_larder(bundled(), decimal=",")
    reading = read_with_dialect(data.decode().encode("utf-16"), "mine.csv")
    assert [placeless(food) for food in reading.foods] == [placeless(food) for food in bundled()]
    assert (reading.dialect.delimiter, reading.dialect.decimal) == (";", ",")


def test_a_stock_file_fills_the_larder() -> None:
    foods = read_larder(EUROPEAN.encode(), "vorrat.csv")
    text = "food;packs;best_before\nbergkase;0,5;2027-05-01\nwaldmusli;2;2027-01-01\n"
    lots = read_stock(text.encode(), "home.csv", {food.id for food in foods})
    muesli, cheese, *_ = stocked(foods, lots)
    assert [(lot.packs, lot.best_before) for lot in muesli.at_home] == [
        (2.0, dt.date(2027, 1, 1)), (1.5, dt.date(2027, 3, 31)),
    ]  # fmt: skip
    assert cheese.home_packs == 0.5


def test_own_foods_are_found_by_words() -> None:
    foods = read_larder(AMERICAN.encode(), "pantry.csv")
    assert [food.id for food in find(foods, ["chilli"])] == ["campfire-chili"]
    assert [food.id for food in find(foods, ["mix", "nut"])] == ["summit-mix"]


def test_the_foods_verb_searches_an_own_larder(tmp_path: Path) -> None:
    file = tmp_path / "pantry.csv"
    file.write_text(AMERICAN, encoding="utf-8")
    out = io.StringIO()
    with redirect_stdout(out):
        assert foods_verb("ridge", larder=file) == 0
    assert "ridge-bar" in out.getvalue()
    assert "campfire-chili" not in out.getvalue()


def test_the_foods_verb_reports_faults_without_a_traceback(tmp_path: Path) -> None:
    file = tmp_path / "bad.csv"
    file.write_text("name,pack_g,kcal per 100 g\nX,heavy,1\n", encoding="utf-8")
    run = subprocess.run(
        [sys.executable, "-m", "oatsack", "foods", "--larder", str(file)],
        capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert run.returncode == 2
    assert "bad.csv:2:3" in run.stderr
    assert "Traceback" not in run.stderr
