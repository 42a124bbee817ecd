"""Every kind of clash on a page: each way out is a button, and pressing it gives a plan.

A tiny larder of our own, so that every wish can be made to fail by itself. All invented.
"""

from __future__ import annotations

import html
import re
from pathlib import Path

import pytest

from oatsack.desk import ways
from support.desk_pages import Client

COLUMNS = (
    "id", "name", "category", "role", "carry", "pack_g", "dose_g", "per", "kcal", "protein_g",
    "fat_g", "carb_g", "price", "meals", "diet", "prep", "water_ml", "wait_min", "simmer_min",
    "needs_pot",
)  # fmt: skip
FOODS = {
    "stew": "Stew,meal,main,sealed,120,120,100 g,400,15,12,55,6,dinner,vegan,boil,300,8,,no",
    "pot-stew": "Pot stew,meal,main,repack,480,120,100 g,400,15,12,55,20,dinner,vegan,simmer,400,,"
                "12,yes",
    "bar": "Bar,snack,snack,sealed,50,50,100 g,450,10,18,60,1.5,lunch breakfast move,vegan,none,,,,"
           "no",
    "nuts": "Nuts,nut,snack,repack,300,30,100 g,600,20,50,20,4,lunch move breakfast,vegan,none,,,,"
            "no",
    "bread": "Bread,bread,side,repack,400,50,100 g,250,8,2,50,2,lunch breakfast,vegan,none,,,,no",
    "noon-soup": "Soup,soup,main,sealed,90,90,100 g,420,15,15,55,4,lunch,vegan,boil,300,5,,no",
    "porridge": "Porridge,breakfast,main,sealed,80,80,100 g,390,12,9,62,1,breakfast,vegan,boil,200,"
                "4,,no",
    "dawn-bar": "Bar,snack,snack,sealed,50,50,100 g,450,10,18,60,1.5,breakfast,vegan,none,,,,no",
    "noon-bar": "Bar,snack,snack,sealed,50,50,100 g,450,10,18,60,1.5,lunch move,vegan,none,,,,no",
    "odd": "Odd,bread,side,repack,400,50,100 g,1250,8,2,50,2,lunch breakfast,vegan,none,,,,no",
}  # fmt: skip
COLD = ("bar", "nuts", "bread")


def trip(target: str = "2000 kcal", *, walkers: int = 1, more: str = "", rules: str = "",
         kit: str = "") -> str:  # fmt: skip
    """Two days of a walk."""
    people = "".join(
        f'[[walkers]]\nname = "W{n}"\nmass = "68 kg"\ntarget = "{target}"\n{more}\n'
        for n in range(walkers)
    )
    return (
        '# a note of mine\nfrom = "2027-06-12 09:00"\nto = "2027-06-13 15:00"\n'
        f'[larder]\nfiles = ["larder.csv"]\n{people}[route]\n'
        f'usual_day = {{ distance = "14 km", up = "500 m" }}\n[kit]\n{kit}\n'
        f'[rules]\n# kept\nspare = "none"\n{rules}\n'
    )


CASES: dict[str, tuple[tuple[str, ...], str]] = {
    "budget": (("stew", *COLD), trip(rules='budget = "8 EUR"')),
    "eat": (("stew", "bar"), trip("6000 kcal")),
    "eat-all": (("stew", "bar"), trip("6000 kcal", walkers=2)),
    "dislikes": (("stew", *COLD), trip(more=f"dislikes = {list(COLD)}")),
    "bans": (("stew", *COLD), trip(rules='bans = [{food="bar"},{food="nuts"},{food="bread"}]')),
    "minutes": (("pot-stew", *COLD), trip(rules='minutes = { dinner = "4 min" }')),
    "pot": (("pot-stew", *COLD), trip(walkers=3, kit='pots = ["600 ml"] # the small one')),
    "container": (("stew", *COLD), trip(walkers=2, kit='containers = [{volume = "3 l"}]')),
    "budget-and-container": (
        ("stew", *COLD), trip(walkers=2, kit='containers = ["2.6 l"]', rules='budget = "8 EUR"'),
    ),
    "cook-lunch": (("stew", "noon-soup", "dawn-bar"), trip("1100 kcal")),
    "cook-breakfast": (
        ("stew", "porridge", "noon-bar"), trip("900 kcal", rules="hot_breakfast = false")
    ),
}  # fmt: skip


def opened(folder: Path, foods: tuple[str, ...], text: str) -> Client:
    folder.mkdir()
    rows = "".join(f"{name},{FOODS[name]}\n" for name in foods)
    (folder / "larder.csv").write_text(",".join(COLUMNS) + "\n" + rows, "utf-8")
    return Client(folder, text)


def wished(client: Client, wish: str) -> str:
    sent = client.fields("/trip/walk")
    keep = {key: sent[key] for key in ("token", "head")}
    return str(client.post("/trip/walk/change", keep | {"wish": wish}).text)


@pytest.mark.slow
@pytest.mark.parametrize("case", sorted(CASES))
def test_each_way_out_is_a_button_and_pressing_it_gives_a_plan(tmp_path: Path, case: str) -> None:
    foods, text = CASES[case]
    client = opened(tmp_path / case, foods, text)
    page = client.get("/trip/walk").text
    assert "These wishes clash" in page
    told = page[page.index("Ways out") :].split("</ul>")[0]
    keys = re.findall(r'value="way ([^"]+)"', told)
    assert f"way-out.{case}" in keys
    added = told.count('<a href="/larder/label"')
    assert told.count("<li>") == len(keys) + added, "no way out without a button"
    for key in keys:
        after = wished(client, f"way {key}")
        assert 'id="ribbon"' in after, (key, client.text())
        assert client.text() != text
        assert all(note in client.text() for note in ("# a note of mine", "# kept"))
        back = wished(client, "undo")
        assert "These wishes clash" in back and client.text() == text
    if "small one" in text:
        assert "# the small one" in client.text()


def test_every_way_out_that_writes_into_a_trip_is_tried_here() -> None:
    parts = {part for case in CASES for part in ways.parts_of(f"way-out.{case}")}
    assert parts == set(ways.WRITES)
    assert any(len(ways.parts_of(f"way-out.{case}")) > 1 for case in CASES), "together too"


def test_what_is_said_of_eating_is_what_is_written(tmp_path: Path) -> None:
    client = opened(tmp_path / "eat", *CASES["eat"])
    page = html.unescape(str(client.get("/trip/walk").text))
    said = re.search(r"Eating about ([\d,]+) kcal a day", page)
    wished(client, "way way-out.eat")
    found = re.search(r'target = "(\d+) kcal"', client.text())
    assert said and found
    assert abs(float(said[1].replace(",", "")) - float(found[1])) <= 50.0


def test_labels_that_keep_foods_out_are_shown_where_they_stand(tmp_path: Path) -> None:
    client = opened(tmp_path / "odd", ("stew", "odd"), trip())
    page = client.get("/trip/walk").text
    link = re.search(r'<a href="(/larder\?q=odd)"[^>]*>See the label</a>', page)
    assert link and client.get(link[1]).status_code == 200
