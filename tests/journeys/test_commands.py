"""What a walker types, run as a program of its own: exit codes, files, screens, no traceback."""

from __future__ import annotations

import csv
import json
import subprocess
import sys
from pathlib import Path

import pytest

from judge.judge import judge
from oatsack.values.plan import FORMAT
from support.plans import SHORT

pytestmark = pytest.mark.slow


def oatsack(*words: str, folder: Path, text: str | None = None) -> subprocess.CompletedProcess[str]:
    """Runs the program in a folder with nothing to type on."""
    return subprocess.run(
        [sys.executable, "-m", "oatsack", *words], cwd=folder, input=text or "",
        capture_output=True, text=True, encoding="utf-8", check=False,
    )  # fmt: skip


@pytest.fixture(scope="module")
def planned(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with a trip that was planned into `plan/`."""
    folder = tmp_path_factory.mktemp("walk")
    (folder / "trip.toml").write_text(SHORT, encoding="utf-8")
    done = oatsack("plan", "trip.toml", "--out", "plan", folder=folder)
    assert done.returncode == 0, done.stderr
    assert len(done.stdout.splitlines()) <= 30
    return folder


def test_a_plan_leaves_its_files(planned: Path) -> None:
    names = {path.name for path in (planned / "plan").iterdir()}
    assert {"plan.json", "shopping.csv", "bags.csv", "plan.txt", "ribbon.svg"} <= names


def test_the_written_plan_passes_the_judge(planned: Path) -> None:
    assert judge(json.loads((planned / "plan" / "plan.json").read_text("utf-8"))) == []


def test_the_csv_files_open_as_sheets(planned: Path) -> None:
    for name in ("shopping.csv", "bags.csv"):
        text = (planned / "plan" / name).read_text(encoding="utf-8-sig")
        rows = list(csv.reader(text.splitlines()))
        assert len(rows) > 3
        assert len({len(row) for row in rows if row}) == 1, name


def test_json_on_standard_output_always_parses(planned: Path) -> None:
    done = oatsack("plan", "trip.toml", "--json", folder=planned)
    assert json.loads(done.stdout)["format"] == FORMAT


def test_equal_inputs_give_equal_bytes(planned: Path) -> None:
    first = oatsack("plan", "trip.toml", "--json", folder=planned).stdout
    assert oatsack("plan", "trip.toml", "--json", folder=planned).stdout == first


def test_planning_again_keeps_a_file_that_was_edited(planned: Path) -> None:
    edited = planned / "plan" / "shopping.csv"
    edited.write_text("my own list\n", encoding="utf-8")
    oatsack("plan", "trip.toml", "--out", "plan", folder=planned)
    kept = list((planned / "plan" / "earlier").glob("shopping-*.csv"))
    assert "my own list\n" in [path.read_text(encoding="utf-8") for path in kept]


def test_the_energy_dial_moves_the_food_not_the_need(planned: Path) -> None:
    less = json.loads(
        oatsack("plan", "trip.toml", "--target", "1700 kcal", "--json", folder=planned).stdout
    )
    more = json.loads(
        oatsack("plan", "trip.toml", "--target", "2600 kcal", "--json", folder=planned).stdout
    )
    assert less["totals"]["energy_kcal"] < 0.8 * more["totals"]["energy_kcal"]
    used = [sum(d["energy_kcal"] for d in p["need"]["anna"].values()) for p in (less, more)]
    assert used[0] == pytest.approx(used[1], rel=0.02)


def test_a_plan_near_another_says_how_much_moved(planned: Path) -> None:
    done = oatsack("plan", "trip.toml", "--near", "plan/plan.json", "--json", folder=planned)
    made = json.loads(done.stdout)
    assert made["made"]["near_hash"]
    assert made["menu"]["moved"] == 0


def test_why_opens_a_number(planned: Path) -> None:
    done = oatsack("why", "plan/plan.json", "need/anna/2/energy_kcal", folder=planned)
    assert done.returncode == 0
    assert "walking_kcal + camp_kcal" in done.stdout
    assert "Looney" in done.stdout


def test_why_with_a_wrong_word_is_wrong_use(planned: Path) -> None:
    done = oatsack("why", "plan/plan.json", "need/nobody", folder=planned)
    assert done.returncode == 2
    assert "there is: anna" in done.stderr
    assert "Traceback" not in done.stderr


def test_a_broken_trip_tells_all_its_faults_and_their_places(tmp_path: Path) -> None:
    broken = (
        SHORT.replace('"62 kg"', '"62"').replace("eats =", "eat =").replace('"15 km"', '"1,500 m"')
    )
    (tmp_path / "trip.toml").write_text(broken, encoding="utf-8")
    done = oatsack("check", "trip.toml", folder=tmp_path)
    assert done.returncode == 2
    for line in ("trip.toml:8:", "trip.toml:12:", "trip.toml:23:"):
        assert line in done.stderr
    assert "Traceback" not in done.stderr


def test_check_reports_larder_and_track_faults_in_the_same_run(tmp_path: Path) -> None:
    text = SHORT.replace("[kit]", '[larder]\nfiles = ["my.csv"]\n[kit]').replace(
        'usual_day = { distance = "15 km", up = "650 m" }', 'track = "way.gpx"'
    )
    (tmp_path / "trip.toml").write_text(text, encoding="utf-8")
    (tmp_path / "my.csv").write_text("id;name;kcall\nx;X;12\n", encoding="utf-8")
    (tmp_path / "way.gpx").write_text("<gpx><trk></gpx>", encoding="utf-8")
    done = oatsack("check", "trip.toml", folder=tmp_path)
    assert done.returncode == 2
    assert "my.csv:1:" in done.stderr
    assert "way.gpx" in done.stderr


def test_a_missing_file_is_said_plainly(tmp_path: Path) -> None:
    done = oatsack("plan", "nothing.toml", folder=tmp_path)
    assert done.returncode == 2
    assert "nothing.toml" in done.stderr
    assert "Traceback" not in done.stderr


def test_an_unknown_food_suggests_the_nearest(tmp_path: Path) -> None:
    (tmp_path / "trip.toml").write_text(SHORT.replace("fd-mac-cheese", "fd-mac-chese"), "utf-8")
    done = oatsack("check", "trip.toml", folder=tmp_path)
    assert done.returncode == 2
    assert 'did you mean "fd-mac-cheese"?' in done.stderr


def test_what_cannot_be_provisioned_is_explained_with_exit_code_1(tmp_path: Path) -> None:
    text = SHORT + '[rules]\nbudget = "5 EUR"\n'
    (tmp_path / "trip.toml").write_text(text, encoding="utf-8")
    done = oatsack("plan", "trip.toml", folder=tmp_path)
    assert done.returncode == 1
    assert "budget" in (done.stderr + done.stdout).lower()
    for word in ("infeasible", "Traceback", "solver"):
        assert word not in done.stderr + done.stdout


def test_start_asks_nothing_that_was_given_and_plans_at_once(tmp_path: Path) -> None:
    done = oatsack(
        "start", "--mass", "68 kg", "--from", "2026-07-02 09:00", "--to", "2026-07-05 15:00",
        "--day", "16 km, 700 m", "--eat", "usual", folder=tmp_path,
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    for word in ("light", "usual", "hungry", "to buy"):
        assert word in done.stdout
    assert (tmp_path / "trip.toml").read_text(encoding="utf-8").startswith("# A trip file")


def test_start_speaks_the_units_of_the_answers(tmp_path: Path) -> None:
    done = oatsack(
        "start", "--mass", "150 lb", "--from", "2026-07-02 09:00", "--to", "2026-07-04 15:00",
        "--day", "10 mi, 2300 ft", "--eat", "2000 kcal", folder=tmp_path,
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    assert " lb" in done.stdout
    assert " km" not in done.stdout


def test_start_without_answers_and_nobody_to_ask_is_wrong_use(tmp_path: Path) -> None:
    done = oatsack("start", folder=tmp_path)
    assert done.returncode == 2
    assert "--mass" in done.stderr


def test_start_refuses_an_answer_in_the_words_of_the_question(tmp_path: Path) -> None:
    done = oatsack(
        "start", "--mass", "68", "--from", "Thu 09:00", "--to", "Sun 15:00", "--day", "16 km",
        folder=tmp_path,
    )  # fmt: skip
    assert done.returncode == 2
    assert "68" in done.stderr
    assert "kg" in done.stderr


def test_foods_finds_with_a_slip_of_the_key(tmp_path: Path) -> None:
    done = oatsack("foods", "oatmeel", folder=tmp_path)
    assert "oatmeal" in done.stdout.lower()


def test_demo_copies_the_trip_out_and_provisions_it(tmp_path: Path) -> None:
    done = oatsack("demo", "there", folder=tmp_path)
    assert done.returncode == 0, done.stderr
    assert len(done.stdout.splitlines()) <= 30
    plan = json.loads((tmp_path / "there" / "plan.json").read_text("utf-8"))
    assert judge(plan) == []
    assert {w["eats"] for w in plan["trip"]["walkers"]} == {"vegetarian", "anything"}
    assert plan["trip"]["rules"]["budget"] is not None
    assert plan["trip"]["kit"]["containers"]


def test_an_unknown_verb_is_wrong_use(tmp_path: Path) -> None:
    done = oatsack("plam", folder=tmp_path)
    assert done.returncode == 2
    assert "Traceback" not in done.stderr


def test_a_closed_pipe_is_no_error(planned: Path) -> None:
    done = subprocess.run(
        f"{sys.executable} -m oatsack foods | head -1", shell=True, cwd=planned,
        capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert "Traceback" not in done.stderr
    assert "BrokenPipe" not in done.stderr
