"""A document as JSON: each block a table with its `kind`. For doors that draw it themselves."""

from __future__ import annotations

import json
from dataclasses import fields, is_dataclass
from typing import Any

from oatsack.reports.document import Document


def render(document: Document) -> bytes:
    """The document as UTF-8 JSON, keys in the order of the classes."""
    return json.dumps(plain(document), ensure_ascii=False, indent=1).encode() + b"\n"


def plain(value: Any) -> Any:
    """A block as dicts, lists and scalars; `kind` holds the name of its class."""
    if is_dataclass(value) and not isinstance(value, type):
        inner = {f.name: plain(getattr(value, f.name)) for f in fields(value)}
        return {"kind": inner.pop("kind", type(value).__name__.lower())} | inner
    if isinstance(value, tuple | list):
        return [plain(item) for item in value]
    return value
