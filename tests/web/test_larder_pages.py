"""The larder's pages: search, labels judged at once, files in both decimal marks, stock, likes."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest

from oatsack.desk import labels
from oatsack.files.larder import bundled
from support.desk_pages import Client, Opens, Sent, faults_beside

LABEL = "/larder/label"
CRACKERS = {"name": "Rye crackers of mine", "category": "bread", "pack_g": "200 g", "per": "100 g",
            "kcal": "420"}  # fmt: skip


@pytest.fixture
def client(tmp_path: Path) -> Client:
    return Client(tmp_path, works=Opens())


def larder_text(client: Client) -> str:
    file = client.folder / "larder.csv"
    return file.read_text("utf-8-sig") if file.is_file() else ""


def test_foods_are_found_by_name_meal_and_what_they_are_free_of(client: Client) -> None:
    for asked, there, not_there in (
        ("oats", "Rolled oats", "Beef jerky"), ("vegan", "Rolled oats", "Beef jerky"),
        ("contains:fish", "Sardines", ">Couscous<"),
    ):  # fmt: skip
        page = client.get("/larder", params={"q": asked}).text
        assert there in page and not_there not in page, asked
    assert "0 foods found" in client.get("/larder?q=zzzzzz").text


def test_us_units_are_shown_when_asked_and_remembered(client: Client) -> None:
    assert "kcal in 100 g" in client.get("/larder").text
    page = client.get("/larder?units=us&q=rolled-oats").text
    assert "kcal in an ounce" in page and " oz" in page
    assert "kcal in an ounce" in client.get("/larder").text
    assert "kcal in 100 g" in client.get("/larder?units=metric").text


def test_a_label_is_read_per_serving_pack_and_100_g_in_kcal_and_kj(client: Client) -> None:
    """380 kcal in 100 g, said five ways; 1 kcal = 4.184 kJ (Nist811, table 8)."""
    ways = (
        {"per": "100 g", "kcal": "380"}, {"per": "100 g", "kj": "1589.92"},
        {"per": "serving", "serving_g": "40 g", "kcal": "152"}, {"per": "pack", "kcal": "1900"},
        {"per": "1 oz", "kcal": "107.728"},
    )  # fmt: skip
    for number, way in enumerate(ways):
        name = f"Oat rounds {number}"
        answer = client.send(LABEL, {"name": name, "pack_g": "500 g", **way})
        assert answer.status_code == 200, answer.text
        assert answer.url.path == f"/larder/food/oat-rounds-{number}"
    rows = [row.split(",") for row in larder_text(client).splitlines()]
    at = rows[0].index("kcal")
    assert [round(float(row[at]), 1) for row in rows[1:]] == [380.0] * len(ways)


def test_a_label_in_ounces_is_read_in_ounces(client: Client) -> None:
    client.send(LABEL, CRACKERS | {"pack_g": "8 oz"})
    rows = [row.split(",") for row in larder_text(client).splitlines()]
    assert float(rows[1][rows[0].index("pack_g")]) == pytest.approx(226.796, abs=1e-3)


def test_faults_of_a_label_stand_beside_their_fields_all_at_once(client: Client) -> None:
    answer = client.send(LABEL, {"name": "X", "pack_g": "much", "kcal": "a lot", "price": "3 EUR",
                                 "per": "100 g", "fat_g": "-"})  # fmt: skip
    assert answer.status_code == 422
    beside = faults_beside(answer.text)
    assert {"f-pack-g", "f-kcal", "f-price", "f-fat-g"} <= set(beside)
    assert "much" in beside["f-pack-g"]
    assert Sent(answer.text).forms[0]["pack_g"] == "much" and larder_text(client) == ""
    answer = client.send(LABEL, CRACKERS | {"per": ""})
    assert answer.status_code == 422 and "f-per" in faults_beside(answer.text)
    answer = client.send(LABEL, {})
    assert answer.status_code == 422 and "f-name" in faults_beside(answer.text)


def test_an_implausible_label_is_doubted_at_once_and_kept_only_when_confirmed(
    client: Client,
) -> None:
    odd = CRACKERS | {"kcal": "1750"}
    answer = client.send(LABEL, odd)
    assert answer.status_code == 422 and "kilojoules" in answer.text
    assert larder_text(client) == ""
    answer = client.send(LABEL, odd | {"confirmed": "yes"})
    assert answer.status_code == 200 and "yes" in larder_text(client).splitlines()[1]
    assert "You looked at this label again" in answer.text


def test_a_confirmation_is_asked_again_when_the_label_is_changed(client: Client) -> None:
    client.send(LABEL, CRACKERS | {"kcal": "1750", "confirmed": "yes"})
    path = f"{LABEL}?food=rye-crackers-of-mine"
    sent = client.fields(path)
    answer = client.post(LABEL, sent | {"kcal": "2100"})
    assert answer.status_code == 422


def test_checking_alone_keeps_nothing(client: Client) -> None:
    answer = client.send(LABEL, CRACKERS | {"wish": "check"})
    assert answer.status_code == 200 and "Nothing about these numbers looks odd" in answer.text
    assert larder_text(client) == ""


def test_allergens_are_written_one_by_one_and_silence_is_not_known(client: Client) -> None:
    client.send(LABEL, CRACKERS | {"allergen.milk": "contains", "allergen.egg": "free",
                                   "allergen.soy": "may"})  # fmt: skip
    page = client.get("/larder/food/rye-crackers-of-mine").text
    for name, state in (("milk", "contains it"), ("egg", "free of it"), ("peanut", "not known"),
                        ("soy", "may contain traces")):  # fmt: skip
        assert f"<dt>{name}</dt><dd>{state}</dd>" in page, name
    again = client.fields(f"{LABEL}?food=rye-crackers-of-mine")
    assert again["allergen.milk"] == "contains" and again["allergen.peanut"] == "unknown"


@pytest.mark.slow
def test_changing_a_price_changes_nothing_else_of_any_food(client: Client) -> None:
    lost = {}
    before = {food.id: labels.row_of(food) for food in bundled()}
    for name in list(before)[::12]:
        sent = client.fields(f"{LABEL}?food={name}")
        answer = client.post(LABEL, sent | {"price": "9.99", "confirmed": "yes"})
        assert answer.status_code == 200, (name, answer.text)
        after = labels.row_of(labels.food_of(client.folder, name))
        differ = {k for k in after if after[k] != before[name].get(k, "")}
        differ -= {"confirmed", "invented"}
        if differ != {"price"}:
            lost[name] = differ
    assert lost == {}


def test_a_bundled_food_is_changed_in_ones_own_file_and_put_back(client: Client) -> None:
    sent = client.fields(f"{LABEL}?food=couscous")
    answer = client.post(LABEL, sent | {"price": "1.11"})
    assert answer.status_code == 200, answer.text
    assert answer.url.path == "/larder/food/couscous" and "from your own file" in answer.text
    assert "1.11" in larder_text(client)
    answer = client.send("/larder/food/couscous", {})
    assert answer.status_code == 200 and "couscous" not in larder_text(client)
    assert list((client.folder / "earlier").glob("larder-*.csv"))


def test_a_larder_goes_out_and_comes_in_with_either_decimal_mark(client: Client) -> None:
    client.send(LABEL, CRACKERS | {"kcal": "420.5", "price": "2.75"})
    point = client.get("/larder.csv").content
    comma = client.get("/larder.csv?decimal=comma").content
    assert b"420.5" in point and b"420,5" in comma and b"420.5" not in comma
    for data in (point, comma):
        answer = taken(client, data)
        assert answer.status_code == 200 and "Took in 1 food" in answer.text, answer.text
        assert client.get("/larder.csv").content == point


def taken(client: Client, data: bytes):  # type: ignore[no-untyped-def]
    sent = client.fields("/larder")
    return client.http.post("/larder/import", data=sent, files={"file": ("x.csv", data)})


def test_faults_of_a_file_are_all_told_with_their_lines_and_nothing_is_taken(
    client: Client,
) -> None:
    data = b"name,pack_g,per,kcal\nGood,100 g,100 g,300\nBad,much,100 g,x\n,50 g,100 g,10\n"
    answer = taken(client, data)
    assert answer.status_code == 422 and larder_text(client) == ""
    assert answer.text.count("<b>Line 3</b>") == 2 and "<b>Line 4</b>" in answer.text
    for wrong in (b"", b"\x00\x01\x02", b"GIF89a;;;", b"x" * 2_000_001, b"name\n" * 3):
        answer = taken(client, wrong)
        assert answer.status_code == 422 and "Traceback" not in answer.text, wrong[:9]


def test_a_formula_in_a_name_is_not_run_by_a_sheet_program(client: Client) -> None:
    client.send(LABEL, CRACKERS | {"name": "=1+1 crackers"})
    rows = client.get("/larder.csv").text.splitlines()
    assert not any(cell.startswith(("=", "+", "@")) for cell in rows[1].split(","))


def test_stock_is_kept_with_dates_and_shown_with_the_foods(client: Client) -> None:
    answer = client.send("/larder/stock", {
        "food.0": "Couscous", "packs.0": "1,5", "best_before.0": "2028-01-31",
        "food.1": "rolled-oats", "packs.1": "2",
    })  # fmt: skip
    assert answer.status_code == 200, answer.text
    text = (client.folder / "stock.csv").read_text("utf-8-sig")
    assert "couscous,1.5,2028-01-31" in text and "rolled-oats,2," in text
    assert "best before 2028-01-31" in client.get("/larder/food/couscous").text
    client.send("/larder/stock", {"food.0": "", "packs.0": "", "best_before.0": ""})
    text = (client.folder / "stock.csv").read_text("utf-8-sig")
    assert "couscous" not in text and "rolled-oats" in text


def test_faults_of_the_stock_stand_beside_their_fields(client: Client) -> None:
    answer = client.send("/larder/stock", {
        "food.0": "Moon cheese", "packs.0": "1", "food.2": "couscous", "packs.2": "some",
        "best_before.2": "soon",
    })  # fmt: skip
    assert answer.status_code == 422 and not (client.folder / "stock.csv").exists()
    beside = faults_beside(answer.text)
    assert set(beside) == {"f-food-0", "f-packs-2", "f-best-before-2"}
    assert Sent(answer.text).forms[0]["food.2"] == "couscous"


def test_the_second_window_on_the_stock_is_told_and_shown_both(client: Client) -> None:
    old = client.fields("/larder/stock")
    client.send("/larder/stock", {"food.0": "couscous", "packs.0": "1"})
    answer = client.post("/larder/stock", old | {"food.0": "rolled-oats", "packs.0": "7"})
    assert answer.status_code == 409
    assert "couscous: 1 pack" in answer.text and "rolled-oats" in answer.text
    assert "couscous" in (client.folder / "stock.csv").read_text("utf-8-sig")
    again = Sent(answer.text).forms[0]
    assert again["packs.0"] == "7" and client.post("/larder/stock", again).status_code == 200
    assert "rolled-oats,7" in (client.folder / "stock.csv").read_text("utf-8-sig")


def test_stock_rows_have_a_bound(client: Client) -> None:
    sent = client.fields("/larder/stock")
    many = {f"food.{n}": "couscous" for n in range(601)}
    answer = client.post("/larder/stock", sent | many)
    assert answer.status_code in (400, 422) and "Traceback" not in answer.text


def test_a_trip_draws_on_larder_and_stock_when_told_to(client: Client) -> None:
    client.send(LABEL, CRACKERS)
    client.send("/larder/stock", {"food.0": "couscous", "packs.0": "1"})
    sent = {k: v for k, v in client.fields("/trip/walk/likes").items() if k in ("token", "head")}
    answer = client.post("/trip/walk/draw", sent | {"what": "larder"})
    assert answer.status_code == 200, answer.text
    sent["head"] = client.fields("/trip/walk/likes")["head"]
    client.post("/trip/walk/draw", sent | {"what": "stock"})
    larder = tomllib.loads(client.text())["larder"]
    assert larder["files"] == ["bundled", "larder.csv"] and larder["stock"] == "stock.csv"
    sent["head"] = client.fields("/trip/walk/likes")["head"]
    assert client.post("/trip/walk/draw", sent | {"what": "../x"}).status_code == 422


def test_likes_are_written_into_the_trip_and_taken_back(client: Client) -> None:
    page = client.get("/trip/walk/likes?q=couscous").text
    assert 'name="0/couscous"' in page
    sent = Sent(page).forms[0]
    answer = client.post("/trip/walk/likes", sent | {"0/couscous": "5"})
    assert answer.status_code == 200, answer.text
    assert tomllib.loads(client.text())["walkers"][0]["liking"] == {"couscous": 5}
    sent = Sent(client.get("/trip/walk/likes?q=couscous").text).forms[0]
    assert sent["0/couscous"] == "5"
    client.post("/trip/walk/likes", sent | {"0/couscous": ""})
    assert "couscous" not in tomllib.loads(client.text())["walkers"][0].get("liking", {})
    sent = Sent(client.get("/trip/walk/likes?q=couscous").text).forms[0]
    for wrong in ({"0/couscous": "9"}, {"7/couscous": "3"}, {"x/couscous": "3"}):
        assert client.post("/trip/walk/likes", sent | wrong).status_code == 422


def test_a_label_is_doubted_while_it_is_typed_and_nothing_is_kept(client: Client) -> None:
    asked = {"per": "100 g", "kcal": "1590", "category": "bread"}
    found = client.get("/larder/label.json", params=asked).json()
    assert found["faults"] == {} and len(found["doubts"]) == 1
    assert "kilojoules" in found["doubts"][0] and found["doubts"][0].startswith("This food")
    named = client.get("/larder/label.json", params=asked | {"name": "Rye <b>"}).json()
    assert named["doubts"][0].startswith("Rye <b>")
    assert client.get("/larder/label.json", params=asked | {"kcal": "380"}).json() == {
        "doubts": [], "faults": {}}  # fmt: skip
    assert larder_text(client) == ""


def test_the_page_of_a_label_says_where_to_ask_and_repeats_no_label_as_a_hint(
    client: Client,
) -> None:
    page = client.get(LABEL).text
    assert 'data-src="/larder/label.json"' in page
    assert '<p class="tick sure" hidden>' in page, "a tick only where there is a doubt"
    assert ">Protein, g</label>" in page and ">Protein.</span>" not in page
    doubted = client.send(LABEL, CRACKERS | {"kcal": "1590"})
    assert doubted.status_code == 422 and '<p class="tick sure">' in doubted.text
