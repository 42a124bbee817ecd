"""The forms of a trip: written back with comments and undo, faults beside their fields at once."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from pathlib import Path

import pytest

from oatsack.files.trip.write import write_trip
from support.amount import some
from support.desk_pages import WEEKEND, Client, Opens, Sent, faults_beside
from support.tracks import gpx, line, points

FORMS = ("walkers/0", "walkers/1", "form/kit", "form/rules", "form/days")


@pytest.fixture(scope="module")
def client(tmp_path_factory: pytest.TempPathFactory) -> Client:
    return Client(tmp_path_factory.mktemp("trips"), works=Opens())


@pytest.fixture(autouse=True)
def as_it_was(client: Client) -> Iterator[None]:
    """Each test leaves the trip as it found it, by undo."""
    before = client.text()
    yield
    for _ in range(6):
        if client.text() == before:
            return
        client.undo()
    assert client.text() == before


def test_an_untouched_form_changes_nothing(client: Client) -> None:
    before = client.text()
    for form in some(FORMS, 3):
        answer = client.fill(f"/trip/walk/{form}")
        if form == "walkers/1":  # nobody there yet: nothing typed is nobody
            assert client.text() == before
            continue
        assert answer.status_code == 200 and answer.url.path == "/trip/walk", form
        assert client.text() == before, form


def test_a_walker_is_changed_with_allergies_target_and_usual(client: Client) -> None:
    before = client.text()
    answer = client.send("/trip/walk/walkers/0", {
        "walkers[0].name": "Ida", "walkers[0].target": "2100 kcal", "walkers[0].eats": "vegan",
        "walkers[0].avoids[0].allergen": "peanut", "walkers[0].avoids[0].scope": "party",
        "walkers[0].usual.breakfast": "2 rolled-oats", "add:walkers[0].usual.counts": "",
    })  # fmt: skip
    assert answer.status_code == 200, answer.text
    walker = tomllib.loads(client.text())["walkers"][0]
    assert walker["name"] == "Ida" and walker["target"] == "2100 kcal" and walker["eats"] == "vegan"
    assert walker["avoids"] == [{"allergen": "peanut", "scope": "party"}]
    assert walker["usual"]["breakfast"] == ["2 rolled-oats"]
    comments = [row for row in before.splitlines() if row.startswith("#")]
    assert [row for row in comments if row not in client.text()] == []


def test_a_food_is_put_into_the_usual_by_its_name(client: Client) -> None:
    page = client.get("/trip/walk/walkers/0").text
    assert 'name="add:walkers[0].usual.dinner"' in page and ">Couscous<" in page
    client.send("/trip/walk/walkers/0", {"add:walkers[0].usual.dinner": "couscous"})
    assert tomllib.loads(client.text())["walkers"][0]["usual"]["dinner"] == ["couscous"]


def test_several_faults_stand_beside_their_fields_with_what_was_typed(client: Client) -> None:
    before = client.text()
    answer = client.send("/trip/walk/walkers/0", {
        "walkers[0].mass": "heavy", "walkers[0].target": "lots", "walkers[0].age": "4o",
        "walkers[0].avoids[0].allergen": "nuts", "walkers[0].usual.lunch": "Nice Bread",
    })  # fmt: skip
    assert answer.status_code == 422 and client.text() == before
    beside = faults_beside(answer.text)
    assert set(beside) == {"f-walkers-0-mass", "f-walkers-0-target", "f-walkers-0-age",
                           "f-walkers-0-avoids-0-allergen", "f-walkers-0-usual-lunch"}  # fmt: skip
    assert "heavy" in beside["f-walkers-0-mass"] and "tree_nut" in str(beside)
    sent = Sent(answer.text).forms[0]
    assert sent["walkers[0].mass"] == "heavy" and sent["walkers[0].usual.lunch"] == "Nice Bread"
    assert sent["walkers[0].avoids[0].allergen"] == "nuts"
    assert 'aria-invalid="true"' in answer.text and 'href="#f-walkers-0-mass"' in answer.text


def test_a_food_that_is_not_in_the_larder_is_told_beside_its_list(client: Client) -> None:
    answer = client.fill("/trip/walk/walkers/0", **{"walkers[0]__usual__dinner": "moon-cheese"})
    assert answer.status_code == 422
    assert "moon-cheese" in faults_beside(answer.text)["f-walkers-0-usual-dinner"]


def test_a_walker_is_added_renamed_and_removed_with_all_that_names_them(client: Client) -> None:
    client.send("/trip/walk/walkers/1", {"walkers[1].name": "Bo", "walkers[1].mass": "70 kg"})
    client.send("/trip/walk/form/rules", {"rules.bans[0].food": "sardines-oil",
                                          "rules.bans[0].walker": "Bo"})  # fmt: skip
    assert 'walker = "Bo"' in client.text()
    client.send("/trip/walk/walkers/1", {"walkers[1].name": "Beo"})
    assert 'walker = "Beo"' in client.text() and "Bo\"" not in client.text()
    sent = client.fields("/trip/walk/walkers/1")
    answer = client.post("/trip/walk/walkers/1", sent | {"wish": "remove"})
    assert answer.status_code == 200 and answer.url.path == "/trip/walk/walkers"
    assert "Beo" not in client.text() and "sardines-oil" not in client.text()


def test_the_last_walker_cannot_be_taken_away(client: Client) -> None:
    assert "Take this walker" not in client.get("/trip/walk/walkers/0").text
    before = client.text()
    client.post("/trip/walk/walkers/0", client.fields("/trip/walk/walkers/0") | {"wish": "remove"})
    assert client.text() == before


def test_kit_is_written_row_by_row(client: Client) -> None:
    answer = client.send("/trip/walk/form/kit", {
        "kit.pots[0].volume": "1.2 l", "kit.stove.kind": "gas-open", "kit.bottles": "1 l\n1.5 l",
        "kit.cans[0].net": "230 g", "kit.cans[0].now": "300 g", "kit.mug": "½ l",
        "kit.containers[0].name": "keg", "kit.containers[0].volume": "8 l",
    })  # fmt: skip
    assert answer.status_code == 200, answer.text
    kit = tomllib.loads(client.text())["kit"]
    assert kit["pots"] == ["1.2 l"] and kit["bottles"] == ["1 l", "1.5 l"] and kit["mug"] == "½ l"
    assert kit["cans"] == [{"net": "230 g", "now": "300 g"}]
    assert kit["containers"] == [{"name": "keg", "volume": "8 l"}]
    sent = client.fields("/trip/walk/form/kit")
    client.post("/trip/walk/form/kit", sent | {"kit.containers[0].gone": "yes"})
    assert not tomllib.loads(client.text())["kit"].get("containers")


def test_us_units_are_read_as_they_are_typed_and_two_readings_are_refused(client: Client) -> None:
    client.send("/trip/walk/walkers/0", {"walkers[0].mass": "150 lb",
                                         "walkers[0].height": "5 ft 8 in"})  # fmt: skip
    assert '"150 lb"' in client.text()
    answer = client.send("/trip/walk/form/kit", {"kit.mug": "8 oz"})
    assert answer.status_code == 422 and "oz" in faults_beside(answer.text)["f-kit-mug"]


def test_rules_are_set_and_taken_back(client: Client) -> None:
    client.send("/trip/walk/form/rules", {
        "rules.hot_breakfast": "no", "rules.minutes.dinner": "30 min", "rules.budget": "90 EUR",
        "rules.spare": "none", "rules.dinner_apart": "1", "rules.bans[0].food": "sardines-oil",
    })  # fmt: skip
    rules = tomllib.loads(client.text())["rules"]
    assert rules["hot_breakfast"] is False and rules["minutes"] == {"dinner": "30 min"}
    assert rules["budget"] == "90 EUR" and rules["bans"] == ["sardines-oil"]
    client.send("/trip/walk/form/rules", {"rules.hot_breakfast": "", "rules.bans[0].food": ""})
    rules = tomllib.loads(client.text())["rules"]
    assert "hot_breakfast" not in rules and not rules.get("bans")


@pytest.mark.slow
def test_a_food_of_the_trips_own_larder_is_banned_and_held_by_its_name(client: Client) -> None:
    row = "name,id,per,kcal,pack_g,doses,meals\nOat cake & cheese,oat-cake,100g,400,200,4,lunch\n"
    (client.folder / "mine.csv").write_text(row, "utf-8")
    client.send("/trip/walk/form/rules", {"larder.files": "bundled\nmine.csv"})
    page = client.get("/trip/walk/form/rules").text
    assert '<option value="Oat cake &amp; cheese">' in page and page.count("<datalist") == 1
    typed = {"rules.bans[0].food": " oat CAKE & cheese", "rules.holds[0].food": "Couscous",
             "rules.holds[0].meal": "dinner"}  # fmt: skip
    answer = client.send("/trip/walk/form/rules", typed)
    assert answer.status_code == 200, answer.text
    rules = tomllib.loads(client.text())["rules"]
    assert (rules["bans"], rules["holds"][0]["food"]) == (["oat-cake"], "couscous")
    shown = client.fields("/trip/walk/form/rules")
    assert shown["rules.bans[0].food"] == "Oat cake & cheese"
    wrong = client.send("/trip/walk/form/rules", {"rules.bans[1].food": "moon cheese",
                                                  "rules.holds[1].food": "Couscous"})  # fmt: skip
    assert wrong.status_code == 422
    assert "moon cheese" in faults_beside(wrong.text)["f-rules-bans-1-food"]
    assert Sent(wrong.text).forms[0]["rules.holds[1].food"] == "Couscous"


def test_a_page_of_rules_grows_little_with_what_is_held(client: Client) -> None:
    before = len(client.get("/trip/walk/form/rules").content)
    typed = {f"rules.bans[{n}].{key}": text for n in range(8)
             for key, text in (("food", "sardines-oil"), ("date", "2027-06-12"))}  # fmt: skip
    client.send("/trip/walk/form/rules", typed)
    assert len(tomllib.loads(client.text())["rules"]["bans"]) == 8
    assert len(client.get("/trip/walk/form/rules").content) - before < 8 * 3000


def test_days_by_hand_take_the_place_of_a_usual_day_and_give_way_again(client: Client) -> None:
    page = client.get("/trip/walk/form/days").text
    assert page.count('name="route.days[') >= 2 * 7
    answer = client.send("/trip/walk/form/days", {
        "way": "days", "route.days[0].distance": "12 km", "route.days[0].up": "400 m",
        "route.days[0].camp": "By the ford", "route.days[1].distance": "9 km",
    })  # fmt: skip
    assert answer.status_code == 200, answer.text
    route = tomllib.loads(client.text())["route"]
    assert "usual_day" not in route and route["days"][0]["camp"] == "By the ford"
    client.send("/trip/walk/form/days", {"way": "usual", "route.usual_day.distance": "10 km",
                                         "route.usual_day.up": "300 m"})  # fmt: skip
    route = tomllib.loads(client.text())["route"]
    assert "days" not in route and route["usual_day"] == {"distance": "10 km", "up": "300 m"}


def test_times_come_from_the_browsers_own_field(client: Client) -> None:
    client.send("/trip/walk/form/days", {"to": "2027-06-13T17:30"})
    assert tomllib.loads(client.text())["to"] == "2027-06-13 17:30"
    answer = client.send("/trip/walk/form/days", {"to": "2027-06-10T17:30"})
    assert answer.status_code == 422 and "before it begins" in faults_beside(answer.text)["f-to"]


def upload(client: Client, data: bytes, name: str = "../../way.gpx"):  # type: ignore[no-untyped-def]
    sent = client.fields("/trip/walk/form/days", form=1)
    return client.http.post("/trip/walk/track", data=sent, files={"file": (name, data)})


def a_way() -> bytes:
    body = '<wpt lat="47.09" lon="13.0"><name>Camp at the bend</name></wpt>'
    track = line(20_000.0, lambda along: 500.0 + along / 50.0, step_m=200.0)
    return gpx(f"{body}<trk><trkseg>{points(track)}</trkseg></trk>")


def test_a_track_is_taken_named_by_us_and_cut_at_a_camp(client: Client) -> None:
    before = set(client.folder.iterdir())
    answer = upload(client, a_way())
    assert answer.status_code == 200, answer.text
    route = tomllib.loads(client.text())["route"]
    assert "usual_day" not in route
    made = client.folder / route["track"]
    assert made.read_bytes() == a_way() and made.name.startswith("walk-")
    assert {p for p in client.folder.iterdir() if p.is_file()} - before == {made}
    page = client.get("/trip/walk/form/days").text
    assert "Camp at the bend" in page
    answer = client.send("/trip/walk/form/days", {"route.camps": "Camp at the bend"})
    assert answer.status_code == 200, answer.text
    assert tomllib.loads(client.text())["route"]["camps"] == ["Camp at the bend"]
    answer = client.send("/trip/walk/form/days", {"route.camps": "Nowhere"})
    assert answer.status_code == 422
    assert "Nowhere" in faults_beside(answer.text)["f-route-camps"]


BOMB = (
    '<?xml version="1.0"?><!DOCTYPE gpx [<!ENTITY a "aaaaaaaaaa">'
    + "".join(f'<!ENTITY {chr(98 + n)} "{f"&{chr(97 + n)};" * 10}">' for n in range(9))
    + "]><gpx version=\"1.1\"><trk><name>&j;</name></trk></gpx>"
).encode()
OUTSIDE = b'<?xml version="1.0"?><!DOCTYPE gpx [<!ENTITY x SYSTEM "file:///etc/passwd">]><gpx>&x;</gpx>'
BAD_TRACKS = {
    "a bomb of entities": BOMB, "a file of the machine": OUTSIDE, "nothing": b"",
    "no track": b"GIF89a....", "too deep": b"<gpx>" + b"<a>" * 500,
    "no numbers": gpx('<trk><trkseg><trkpt lat="x" lon="13"/></trkseg></trk>'),
    "one point": gpx('<trk><trkseg><trkpt lat="47" lon="13"/></trkseg></trk>'),
}  # fmt: skip


def test_what_is_no_safe_track_is_refused_and_leaves_nothing_behind(client: Client) -> None:
    before, files = client.text(), sorted(client.folder.iterdir())
    for name, data in BAD_TRACKS.items():
        answer = upload(client, data)
        assert answer.status_code == 422, name
        assert "walk.gpx" not in str(client.text()) and "Traceback" not in answer.text, name
        assert 'role="alert"' in answer.text and "root:" not in answer.text, name
    assert client.text() == before and sorted(client.folder.iterdir()) == files


def test_an_oversized_track_is_refused_before_it_is_read(client: Client) -> None:
    assert upload(client, b"<gpx>" + b" " * 8_000_000).status_code == 413


def test_names_that_are_no_fields_and_rows_without_end_are_refused(client: Client) -> None:
    before = client.text()
    sent = client.fields("/trip/walk/form/kit")
    for name in ("kit.nothing", "__class__", "walkers[0]", "kit.pots[0].name.x", "a b", "[0]"):
        answer = client.post("/trip/walk/form/kit", sent | {name: "x"})
        assert answer.status_code == 422 and "Traceback" not in answer.text, name
    answer = client.post("/trip/walk/form/kit", sent | {"kit.pots[99999999].volume": "1 l"})
    assert answer.status_code == 422
    assert client.get("/trip/walk/form/nothing").status_code == 404
    assert client.get("/trip/walk/walkers/7").status_code == 404
    assert client.text() == before


def test_a_form_from_an_older_page_is_told_and_shown_both(client: Client) -> None:
    old = client.fields("/trip/walk/form/kit")
    client.send("/trip/walk/form/kit", {"kit.mug": "400 ml"})
    answer = client.post("/trip/walk/form/kit", old | {"kit.mug": "500 ml"})
    assert answer.status_code == 409
    assert "400 ml" in answer.text and "500 ml" in answer.text
    assert "400 ml" in client.text()
    mine = Sent(answer.text).forms[0]
    assert client.post("/trip/walk/text", mine).status_code == 200  # the second thought is mine
    assert "500 ml" in client.text()
    client.undo()
    assert "400 ml" in client.text()
    del old["head"]
    assert client.post("/trip/walk/form/kit", old).status_code == 422


def test_a_file_written_with_everything_is_shown_whole_and_comes_back_unchanged(
    tmp_path: Path,
) -> None:
    text = write_trip(WEEKEND) + (
        '\n[[kit.pots]]\nvolume = "900 ml"  # dented\n\n[kit.stove]\nkind = "gas-open"\n'
        "\n[[rules.holds]]\nfood = \"couscous\"\ndate = 2027-06-12\nmeal = 'dinner'\ncount = 1\n"
    )
    for heading in ("kit", "rules"):  # the hints at the end have headings of their own
        text = text.replace(f"\n[{heading}]\n", "\n", 1)
    client = Client(tmp_path, text, works=Opens())
    for form in ("form/kit", "form/rules", "form/days", "walkers/0"):
        client.fill(f"/trip/walk/{form}")
        assert client.text() == text, form
    client.send("/trip/walk/form/kit", {"kit.pots[1].volume": "2 l"})
    assert client.text().count("[[kit.pots]]") == 2 and "# dented" in client.text()


def test_a_file_broken_in_an_editor_is_mended_in_its_text(tmp_path: Path) -> None:
    good = write_trip(WEEKEND)
    client = Client(tmp_path, good.replace('"68 kg"', '"heavy"') + "oops\n", works=Opens())
    answer = client.get("/trip/walk")
    assert answer.status_code == 422 and 'href="/trip/walk/text"' in answer.text
    page = client.get("/trip/walk/text")
    assert page.status_code == 200 and "heavy" in page.text and page.text.count("Line ") >= 2
    answer = client.send("/trip/walk/text", {"text": good.replace("68 kg", "bulky")})
    assert answer.status_code == 422 and "bulky" in answer.text
    assert "bulky" not in client.text()
    answer = client.send("/trip/walk/text", {"text": good})
    assert answer.status_code == 200 and client.text() == good
    assert list((tmp_path / "earlier").glob("walk-*.toml"))  # what was broken is kept
    for head in ("x", "", "9" * 30, "-1"):
        sent = client.fields("/trip/walk/text") | {"head": head}
        assert client.post("/trip/walk/text", sent).status_code == 422, head
    assert client.get("/trip/none/text").status_code == 404
