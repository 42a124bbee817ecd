"""Every key of a trip file is asked for by a form, or left to the text for a reason."""

from __future__ import annotations

from oatsack.files.larder_columns import BY_NAME
from oatsack.files.trip.edit import parse_path
from oatsack.files.trip.faults import fields_of, inner_table, table_at
from oatsack.files.trip.tables import Table, TripTable
from oatsack.reports.words import sentences
from oatsack.web import form_specs, label_form


def parts() -> list[form_specs.Part]:
    return [*form_specs.walker(0), *form_specs.kit(), *form_specs.rules(),
            *form_specs.days(1, track=True)]  # fmt: skip


def asked() -> set[tuple[str, str]]:
    """Table and key of every field of every form."""
    found = set()
    for part in parts():
        table = table_at(parse_path(part.path)) if part.path else TripTable
        assert table is not None, part.path
        found |= {(table.__name__, key) for key in part.keys}
    return found


def keys(table: type[Table]) -> set[tuple[str, str]]:
    """Table and key of every plain value at or below a table."""
    found: set[tuple[str, str]] = set()
    for key, info in fields_of(table).items():
        inner = inner_table(info.annotation)
        if key in form_specs.LEFT_TO_THE_TEXT and (table.__name__, key) not in asked():
            continue
        found |= keys(inner) if inner else {(table.__name__, key)}
    return found


def test_every_key_is_asked_for_or_left_to_the_text_for_a_reason() -> None:
    assert keys(TripTable) - asked() == set()


def test_no_form_asks_for_what_is_no_key() -> None:
    assert asked() - keys(TripTable) == set()


def test_nothing_is_left_to_the_text_that_is_no_key() -> None:
    names = {key for table in tables(TripTable) for key in fields_of(table)}
    assert set(form_specs.LEFT_TO_THE_TEXT) - names == set()


def tables(table: type[Table]) -> list[type[Table]]:
    inner = [inner_table(info.annotation) for info in fields_of(table).values()]
    return [table, *(below for one in inner if one for below in tables(one))]


def test_every_part_has_a_heading_in_words() -> None:
    lacking = [part.title for part in parts() if f"web.form.{part.title}" not in sentences()]
    assert lacking == []


def test_every_column_of_a_larder_is_asked_for_or_not_for_a_reason() -> None:
    asked_for = [name for _, names in label_form.PARTS for name in names]
    assert len(asked_for) == len(set(asked_for))
    assert set(asked_for) & set(label_form.NOT_ASKED) == set()
    assert set(asked_for) | set(label_form.NOT_ASKED) == set(BY_NAME)


def test_every_field_of_a_label_has_a_name_in_words() -> None:
    asked_for = [name for _, names in label_form.PARTS for name in names]
    plain = {"melts", "crushes"}  # their own names say it
    lacking = [n for n in asked_for if f"web.label.key.{n}" not in sentences() and n not in plain]
    assert lacking == []
