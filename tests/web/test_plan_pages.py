"""Buy, pack, kitchen and paper: what a plan's reports say, on pages and as files to take away."""

from __future__ import annotations

import csv
import io
import itertools
import re
from pathlib import Path

import pytest

from oatsack.files.planfile import load
from oatsack.files.trip.write import write_trip
from oatsack.values.plan import Plan
from support.desk_pages import WEEKEND, Client

pytestmark = pytest.mark.slow


@pytest.fixture(scope="module")
def client(tmp_path_factory: pytest.TempPathFactory) -> Client:
    return Client(tmp_path_factory.mktemp("trips"))


@pytest.fixture(scope="module")
def plan(client: Client) -> Plan:
    client.get("/trip/walk")
    return load(client.get("/trip/walk/plan.json").content)


def test_the_shopping_page_names_every_pack_that_is_bought(client: Client, plan: Plan) -> None:
    page = client.get("/trip/walk/buy").text
    missing = [line.food for line in plan.packed.buy
               if line.packs > 0 and plan.foods[line.food].name not in page]  # fmt: skip
    assert missing == [] and "packs" in page
    for file in ("shopping.pdf", "shopping.csv", "workbook.xlsx"):
        assert f"/paper/{file}" in page


def test_headings_never_skip_a_level(client: Client, plan: Plan) -> None:
    for path in ("buy", "pack", "kitchen", "paper", "likes", "walkers", "form/kit", "form/days"):
        page = client.get(f"/trip/walk/{path}").text
        levels = [int(level) for level in re.findall(r"<h(\d)", page)]
        assert levels[0] == 1 and levels.count(1) == 1, path
        jumps = [(a, b) for a, b in itertools.pairwise(levels) if b > a + 1]
        assert jumps == [], path


def test_the_packing_page_shows_bags_sacks_container_and_rubbish(
    client: Client, plan: Plan
) -> None:
    page = client.get("/trip/walk/pack").text
    for part in ("bags", "carriers", "container", "pack-out"):
        assert f'id="part-{part}"' in page
    offered = re.search(r'<select id="bag".*?</select>', page, re.DOTALL)
    assert offered and offered[0].count("<option value=") == len(plan.packed.bags)
    assert not [b.id for b in plan.packed.bags if f">{b.id}<" in offered[0]], "told in words"


def test_a_bag_on_the_scale_is_right_light_or_no_mass(client: Client, plan: Plan) -> None:
    bag = plan.packed.bags[0]
    right = client.send("/trip/walk/pack", {"bag": bag.id, "reading": f"{bag.gross_g:.0f} g"})
    assert right.status_code == 200 and 'role="status"' in right.text
    light = client.send("/trip/walk/pack", {"bag": bag.id, "reading": f"{bag.gross_g / 2:.0f} g"})
    assert light.status_code == 200
    assert said(light.text) != said(right.text) and said(light.text)
    for wrong in ({"bag": bag.id, "reading": "heavy"}, {"bag": "none", "reading": "10 g"}):
        answer = client.send("/trip/walk/pack", wrong)
        assert answer.status_code == 422 and said(answer.text) and "Traceback" not in answer.text


def said(page: str) -> str:
    found = re.search(r'<div class="note" role="status">(.*?)</div>', page, re.DOTALL)
    return found[1] if found else ""


def test_what_to_do_at_packed_bags_is_told_from_an_earlier_state(client: Client) -> None:
    client.send("/trip/walk/walkers/0", {"walkers[0].target": "3300 kcal"})
    page = client.get("/trip/walk/pack").text
    found = re.search(r'<option value="(\d+)">1 step back', page)
    assert found
    told = said(client.get(f"/trip/walk/pack?since={found[1]}").text)
    assert told.count("<p>") >= 2
    assert client.get("/trip/walk/pack?since=99999").status_code == 404
    assert client.get("/trip/walk/pack?since=x").status_code == 404
    client.undo()


def test_the_kitchen_page_has_every_cooked_meal_and_the_fuel(client: Client, plan: Plan) -> None:
    page = client.get("/trip/walk/kitchen").text
    rows = page.count("<tr") - page.count("<tr><th")
    assert plan.kitchen.meals and rows >= len(plan.kitchen.meals)
    assert "min" in page and "fuel" in page.casefold()


def test_every_file_that_the_pages_name_can_be_had(client: Client) -> None:
    links: set[str] = set()
    for path in ("buy", "pack", "kitchen", "paper"):
        page = client.get(f"/trip/walk/{path}").text.replace("&amp;", "&")
        links |= set(re.findall(r'href="(/trip/walk/(?:paper/|plan|see)[^"]+)"', page))
    assert len(links) > 20
    begins = {"pdf": b"%PDF", "xlsx": b"PK", "html": b"<!doctype", "json": b"{"}
    slow = {link for link in links if link.endswith(".pdf")}
    for link in sorted(links - slow) + sorted(slow)[:3]:
        answer = client.get(link)
        assert answer.status_code == 200, link
        kind = link.rpartition(".")[2] if "/see/" not in link else ""
        assert answer.content.startswith(begins.get(kind, b"")), link
        if kind:
            assert kind == "json" or "attachment" in answer.headers["content-disposition"]


def test_a_list_for_a_sheet_program_comes_with_either_decimal_mark(client: Client) -> None:
    point = client.get("/trip/walk/paper/shopping.csv").content.decode("utf-8-sig")
    comma = client.get("/trip/walk/paper/shopping.csv?decimal=comma").content.decode("utf-8-sig")
    assert ";" in comma.splitlines()[0]
    one = [cell for row in csv.reader(io.StringIO(point)) for cell in row]
    other = [cell for row in csv.reader(io.StringIO(comma), delimiter=";") for cell in row]
    numbers = [(a, b) for a, b in zip(one, other, strict=True) if re.fullmatch(r"\d+\.\d+", a)]
    assert numbers and all(b == a.replace(".", ",") for a, b in numbers)


def test_what_does_not_exist_is_told_without_a_trace(client: Client) -> None:
    for path in ("paper/none.pdf", "paper/shopping.exe", "see/none", "paper/..%2f..%2fx.pdf",
                 "paper/shopping.pdf%00"):  # fmt: skip
        answer = client.get(f"/trip/walk/{path}")
        assert answer.status_code in (404, 422), path
        assert "Traceback" not in answer.text, path


@pytest.mark.slow
def test_packed_reserves_from_the_stock_and_gives_it_back(tmp_path: Path) -> None:
    client = Client(tmp_path)
    plan = load(client.get("/trip/walk/plan.json").content)
    food = next(line.food for line in plan.packed.buy if line.packs > 0)
    client.send("/larder/stock", {"food.0": food, "packs.0": "9"})
    sent = {k: v for k, v in client.fields("/trip/walk/likes").items() if k in ("token", "head")}
    client.post("/trip/walk/draw", sent | {"what": "stock"})
    assert not (tmp_path / "reserved.csv").exists()  # a plan only proposes (C17)
    answer = client.send("/trip/walk/buy", {"wish": "packed"})
    assert answer.status_code == 200, answer.text
    assert food in (tmp_path / "reserved.csv").read_text("utf-8-sig")
    client.send("/trip/walk/buy", {"wish": "undo"})
    assert food not in (tmp_path / "reserved.csv").read_text("utf-8-sig")


def test_every_page_says_in_the_list_of_pages_where_one_is(client: Client) -> None:
    for path in ("/", "/larder", "/trip/walk", "/trip/walk/walkers", "/trip/walk/form/kit",
                 "/trip/walk/buy", "/trip/walk/text"):  # fmt: skip
        here = re.findall(r'<a href="([^"]+)" aria-current="page"', client.get(path).text)
        assert here == [path]


@pytest.mark.slow
def test_a_trip_in_us_units_shows_no_metric_on_any_page(tmp_path: Path) -> None:
    client = Client(tmp_path, 'units = "us"\n' + write_trip(WEEKEND))
    mixed = {}
    for path in ("", "/buy", "/pack", "/kitchen", "/see/menu", "/see/sheet"):
        page = client.get(f"/trip/walk{path}")
        assert page.status_code == 200, path
        text = re.sub(r"<[^>]+>", " ", page.text).replace("\N{NO-BREAK SPACE}", " ")
        if found := re.findall(r"[^ ]* ?\d (?:g|kg|ml|l|km|m|°C)\b", text):
            mixed[path] = found[:6]
    assert mixed == {}
    assert " oz" in client.get("/trip/walk/pack").text.replace("\N{NO-BREAK SPACE}", " ")
