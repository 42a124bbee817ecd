"""Documentation is under test: shown commands exist, generated parts are today's."""

from __future__ import annotations

import re
import runpy
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from oatsack.cite import bibliography
from oatsack.cli.verbs import VERBS

ROOT = Path(__file__).resolve().parents[2]
README = (ROOT / "README.md").read_text(encoding="utf-8")


@pytest.fixture(scope="module")
def make_docs() -> dict[str, Any]:
    return runpy.run_path(str(ROOT / "scripts" / "make_docs.py"))


@pytest.mark.slow
def test_every_script_can_be_loaded(monkeypatch: pytest.MonkeyPatch) -> None:
    """Scripts lean on the tests' helpers; one that nobody runs for a day breaks unseen."""
    monkeypatch.syspath_prepend(str(ROOT / "scripts"))
    scripts = sorted((ROOT / "scripts").glob("*.py"))
    assert len(scripts) > 5
    for script in scripts:
        assert "main" in runpy.run_path(str(script), run_name="loaded"), script.name


def test_the_page_of_verbs_is_todays(make_docs: dict[str, Any]) -> None:
    kept = (ROOT / "docs" / "reference" / "verbs.md").read_text(encoding="utf-8")
    assert kept == make_docs["verbs_page"](), "run make docs"


def test_the_pages_of_rules_and_sources_are_todays() -> None:
    for name, function in (("rules", "rules_page"), ("sources", "sources_page")):
        script = runpy.run_path(str(ROOT / "scripts" / f"write_{name}.py"))
        kept = (ROOT / "docs" / "reference" / f"{name}.md").read_text(encoding="utf-8")
        assert kept == script[function](), f"docs/reference/{name}.md: run make docs"


def test_every_source_that_the_code_cites_stands_in_the_page() -> None:
    kept = (ROOT / "docs" / "reference" / "sources.md").read_text(encoding="utf-8")
    assert all(f"**{key}**" in kept for key in bibliography())


def test_every_verb_stands_in_the_page_and_has_help() -> None:
    kept = (ROOT / "docs" / "reference" / "verbs.md").read_text(encoding="utf-8")
    for verb in VERBS:
        assert f"## oatsack {verb.name}\n" in kept
        assert verb.help.endswith(".")


@pytest.mark.slow
def test_the_screen_in_the_readme_is_todays(make_docs: dict[str, Any]) -> None:
    shown = make_docs["screen"](make_docs["bundled_plan"]())
    assert make_docs["with_screen"](README, shown) == README, "run make docs"


def test_every_command_shown_in_the_readme_is_a_verb() -> None:
    named = set(re.findall(r"(?:^|\s|/)oatsack ([a-z-]+)", README))
    assert named <= {verb.name for verb in VERBS}
    assert {"start", "plan", "check", "foods", "why"} <= named


def test_every_make_target_shown_exists() -> None:
    makefile = (ROOT / "Makefile").read_text(encoding="utf-8")
    shown = set(re.findall(r"make ([a-z-]+)", README)) - {"without"}
    targets = set(re.findall(r"^([a-z-]+):", makefile, flags=re.MULTILINE))
    assert {"demo", "test"} <= shown
    assert shown & {"demo", "test", "check", "bench", "docs"} <= targets


def test_every_link_of_every_page_leads_somewhere() -> None:
    pages = [*ROOT.glob("*.md"), *(ROOT / "docs").rglob("*.md"), ROOT / "tests" / "README.md"]
    lost = [
        (page.name, target)
        for page in pages
        for target in re.findall(r"\]\(([^)#:]+)\)", page.read_text("utf-8").replace("\n", " "))
        if not (page.parent / target.strip()).exists()
    ]
    assert lost == []


def test_the_changelog_begins_with_changes_to_numbers() -> None:
    text = (ROOT / "CHANGELOG.md").read_text(encoding="utf-8")
    headings = re.findall(r"^### (.+)$", text, flags=re.MULTILINE)
    assert headings[0] == "Changes to numbers"


@pytest.mark.parametrize("verb", [verb.name for verb in VERBS])
def test_help_of_every_verb_answers(verb: str) -> None:
    done = subprocess.run(
        [sys.executable, "-m", "oatsack", verb, "--help"], capture_output=True, text=True,
        check=False,
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    assert f"oatsack {verb}" in done.stdout
