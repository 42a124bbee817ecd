"""No sentence stands in a template: all stand in the words file, so that languages can follow."""

from __future__ import annotations

import re
from html.parser import HTMLParser
from pathlib import Path

from oatsack.reports.words import sentences

TEMPLATES = Path(__file__).resolve().parents[2] / "src" / "oatsack" / "web" / "templates"
SPOKEN = ("aria-label", "placeholder", "title", "alt", "value")
SAME_EVERYWHERE = {"Oatsack", "PDF", "CSV", "toml", "kcal"}
"""Names and marks that are no words of a language."""


def without_code(text: str) -> str:
    """A template with its code taken out, quotes inside code with it."""
    text = re.sub(r"\{#.*?#\}|\{% set \w+ %\}.*?\{% endset %\}", "", text, flags=re.DOTALL)
    return re.sub(r"\{\{.*?\}\}|\{%.*?%\}", " ", text, flags=re.DOTALL)


class Words(HTMLParser):
    """Collects every word that a page would say of itself."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.found: list[str] = []
        self.feed(without_code(page))

    def handle_data(self, data: str) -> None:
        self.found += re.findall(r"[^\W\d_]{2,}", data)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        said = [value for name, value in attrs if name in SPOKEN and tag not in ("option", "meta")]
        typed = dict(attrs).get("type") in ("hidden", "checkbox", "radio") or tag == "button"
        for text in [] if typed else said:
            self.found += re.findall(r"[^\W\d_]{2,}", text or "")


def test_no_template_holds_words_of_its_own() -> None:
    own = {}
    for path in sorted(TEMPLATES.glob("*.html")):
        found = [w for w in Words(path.read_text("utf-8")).found if w not in SAME_EVERYWHERE]
        if found:
            own[path.name] = found[:12]
    assert own == {}


def test_every_sentence_that_a_template_asks_for_exists() -> None:
    lacking = []
    for path in sorted(TEMPLATES.glob("*.html")):
        for key in re.findall(r'say\("([\w.-]+)"[,)]', path.read_text("utf-8")):
            if key not in sentences():
                lacking.append((path.name, key))
    assert lacking == []


def test_the_parser_of_this_test_would_find_a_word() -> None:
    page = '<p aria-label="One {{ x }}">{{ say("a") }} two {% if "three" %}</p>'
    assert Words(page).found == ["One", "two"]
