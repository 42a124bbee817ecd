"""No sentence for people stands in the code of the doors and the desk: all stand in the words file.

What looks like a sentence is three English words in a row. Docstrings are for whoever reads the
code; those of verbs are their help, made into the reference, and stand beside their options.
"""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

from oatsack.reports.words import sentences

SOURCE = Path(__file__).resolve().parents[2] / "src" / "oatsack"
FOLDERS = ("desk", "web", "cli")
SENTENCE = re.compile(r"[a-z]{2,}[,;:]? [a-z]{1,}[,;:]? [a-z]{2,}")
REASONS = {"NOT_ASKED", "LEFT_TO_THE_TEXT"}
"""Tables that say why a key has no field: read by tests and whoever adds one, shown to nobody."""
KNOWN = {
    ("desk/edits.py", "the trip file"), ("desk/ways.py", "the trip file"),
    ("web/live.py", ": still at work\n\n"),
}  # fmt: skip
"""What a text without a file is called among its faults; a comment in a stream of events."""
LOGGED = {"note", "LOG"}
"""What is written to the log is for whoever looks for a fault."""
HELP = {"cli/main.py", "cli/verbs/__init__.py", "cli/plain.py"}
"""Help of the command line, one line for each verb."""


def said_in(text: str) -> Iterator[tuple[int, str]]:
    """Line and text of every string that looks like a sentence, f-strings as one."""
    tree = ast.parse(text)
    silent = {id(node) for node in _silent(tree)}
    for node in ast.walk(tree):
        if isinstance(node, ast.JoinedStr) and id(node) not in silent:
            silent |= {id(part) for part in node.values}
            parts = [part.value if isinstance(part, ast.Constant) else "0" for part in node.values]
            whole = "".join(str(part) for part in parts)
            if SENTENCE.search(re.sub(r"<[^>]*>", " ", whole)):
                yield node.lineno, whole
    for node in ast.walk(tree):
        said = node.value if isinstance(node, ast.Constant) and id(node) not in silent else None
        if isinstance(said, str) and SENTENCE.search(re.sub(r"<[^>]*>", " ", said)):
            yield node.lineno, said


def _silent(tree: ast.AST) -> Iterator[ast.AST]:
    """Docstrings, notes below a name, the tables of reasons, and what is logged."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Call):
            called = node.func.value if isinstance(node.func, ast.Attribute) else node.func
            if isinstance(called, ast.Name) and called.id in LOGGED:
                yield from (part for one in node.args for part in ast.walk(one))
        if isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant):
            yield node.value
        if isinstance(node, ast.Assign | ast.AnnAssign):
            names = [node.target] if isinstance(node, ast.AnnAssign) else node.targets
            if {n.id for n in names if isinstance(n, ast.Name)} & REASONS and node.value:
                yield from ast.walk(node.value)


def test_no_code_of_the_desk_or_a_door_holds_a_sentence_of_its_own() -> None:
    own = {}
    for folder in FOLDERS:
        for path in sorted((SOURCE / folder).rglob("*.py")):
            name = path.relative_to(SOURCE).as_posix()
            found = [] if name in HELP else said_in(path.read_text("utf-8"))
            texts = [(line, said) for line, said in found if (name, said) not in KNOWN]
            if texts:
                own[name] = texts
    assert own == {}


def test_what_is_known_still_stands_there() -> None:
    gone = [(name, said) for name, said in KNOWN
            if said not in [text for _, text in said_in((SOURCE / name).read_text("utf-8"))]]
    assert gone == []


def test_every_key_that_code_asks_for_by_name_exists() -> None:
    lacking = []
    for folder in FOLDERS:
        for path in sorted((SOURCE / folder).rglob("*.py")):
            keys = re.findall(r'\b(?:say|told)\(\s*"([\w-]+\.[\w.-]+)"', path.read_text("utf-8"))
            lacking += [(path.name, key) for key in keys if key not in sentences()]
    assert lacking == []


def test_the_finder_of_this_test_would_find_a_sentence_and_leaves_notes_alone() -> None:
    code = (
        '"""A docstring may say what it likes."""\n'
        'NOT_ASKED = {"x": "is told in another place"}\n'
        'KEY = "web.refused.plan"\n'
        '"""A note below a name likewise."""\n'
        'def f(n): raise ValueError(f"there is no {n} here at all")\n'
        'LINE = "put it back there"\n'
    )
    assert [said for _, said in said_in(code)] == [
        "there is no 0 here at all", "put it back there"]  # fmt: skip
