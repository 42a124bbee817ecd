"""The reference of the trip file, made from its tables: every key, what it takes, its default.

`scripts/write_reference.py` keeps it in the documentation; a contract test compares.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Iterator
from typing import Any

from pydantic.fields import FieldInfo

from oatsack.files.trip.faults import fields_of, inner_table, is_many, kind_of
from oatsack.files.trip.kinds import Kind, quoted
from oatsack.files.trip.tables import Table, TripTable

HEAD = """# The trip file

A trip file is TOML: `key = value`, one per line, under headings. Four answers are enough: who walks
(body mass), from when to when, a usual day, and how much you want to eat. Everything else has a
default. Quantities are texts with their unit, metric or US: `"68 kg"`, `"150 lb"`, `"2300 ft"`,
`"½ cup"`, `"1,5 l"`. What has two readings is refused with both: `"1,500 m"`, `"8 oz"` of water.

```toml
from = "2026-07-02 09:00"
to = "2026-07-05 15:00"

[[walkers]]
mass = "68 kg"
target = "2200 kcal"

[route]
usual_day = { distance = "16 km", up = "700 m" }
```

This page is written by a script from the tables that read the file.
"""


def reference() -> str:
    """The page, in Markdown."""
    return "\n".join([HEAD, *_sections()])


def sections() -> Iterator[tuple[str, type[Table]]]:
    """Heading and table of every place in the file where keys stand, in reading order."""
    yield "", TripTable
    yield from _below("", TripTable)


def _below(path: str, table: type[Table]) -> Iterator[tuple[str, type[Table]]]:
    for key, info in fields_of(table).items():
        inner = inner_table(info.annotation)
        if inner is not None:
            here = f"{path}.{key}" if path else key
            here += "[]" if is_many(info) else ""
            yield here, inner
            yield from _below(here, inner)


def _sections() -> Iterator[str]:
    for path, table in sections():
        title = f"## `{path}`" if path else "## At the top"
        yield f"\n{title}\n\n{' '.join((table.__doc__ or '').split())}\n"
        yield "| key | what it is | what stands there | if left out |"
        yield "|---|---|---|---|"
        for key, info in fields_of(table).items():
            yield _row(table, key, info)


def _row(table: type[Table], key: str, info: FieldInfo) -> str:
    needed = info.is_required()
    cells = [
        f"`{key}`", str(info.description), _takes(info),
        "**must be given**" if needed else _default(table, key, info),
    ]  # fmt: skip
    return "| " + " | ".join(cell.replace("|", "\\|") for cell in cells) + " |"


def _takes(info: FieldInfo) -> str:
    """What may stand at a key, with an example."""
    inner = inner_table(info.annotation)
    if inner is not None:
        return "tables, below" if is_many(info) else "a table, below"
    kind = kind_of(info)
    assert kind is not None
    many = "a list of: " if is_many(info) else "by name: " if _is_by_name(info) else ""
    if kind.options is not None:
        return f"{many}{', '.join(f'`{quoted(one)}`' for one in kind.options())}"
    return f"{many}{kind.says}, as `{kind.example}`"


def _is_by_name(info: FieldInfo) -> bool:
    return "dict[" in str(info.annotation)


def value_default(table: type[Table], key: str) -> Any:
    """The default of the value that a key fills; None where it has none."""
    name = next(n for n, info in table.model_fields.items() if (info.alias or n) == key)
    if table.MAKES is None:
        return None
    fields = {field.name: field for field in dataclasses.fields(table.MAKES)}
    found = fields[name].default if name in fields else None
    return None if found is dataclasses.MISSING else found


def _default(table: type[Table], key: str, info: FieldInfo) -> str:
    extra = info.json_schema_extra
    otherwise = extra.get("otherwise", "") if isinstance(extra, dict) else ""
    if otherwise:
        return str(otherwise)
    if inner_table(info.annotation) is not None:
        return "none" if is_many(info) else "as below"
    shown = _shown(value_default(table, key), kind_of(info))
    return f"`{shown}`" if shown else "none"


def _shown(value: object, kind: Kind | None) -> str:
    """A default as it would be written; empty for none."""
    if value is None or value == "" or isinstance(value, tuple | frozenset) or kind is None:
        return ""
    if not isinstance(value, str | int | float):
        return ""
    return kind.show(value)


def default_text(table: type[Table], key: str) -> tuple[str, str]:
    """A sample value for a key, its default if it has one, and a line that says what it is."""
    info = fields_of(table)[key]
    kind = kind_of(info)
    inner = inner_table(info.annotation)
    shown = _shown(value_default(table, key), kind)
    sample = shown or SAMPLES.get(key) or (kind.example if kind and not inner else "")
    extra = info.json_schema_extra
    otherwise = extra.get("otherwise", "") if isinstance(extra, dict) else ""
    note = f" If left out: {otherwise}." if otherwise else ""
    return sample, f"{info.description}{note}"


SAMPLES = {
    "avoids": '["peanut"]', "dislikes": '["sardines"]', "pots": '["900 ml"]',
    "stove": '"gas-open"', "cans": '["230 g"]', "containers": '["10 l"]', "track": '"way.gpx"',
}  # fmt: skip
"""Samples of keys whose values are lists or tables."""
