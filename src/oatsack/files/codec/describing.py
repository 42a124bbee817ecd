"""The JSON Schema (draft 2020-12) of a frozen dataclass: one definition per dataclass.

Descriptions are the docstrings of the classes, and the strings under their fields.
"""

from __future__ import annotations

import ast
import datetime as dt
import inspect
import textwrap
from typing import Any

from oatsack.files.codec.hints import (
    Hint,
    args_of,
    hints_of,
    is_fields,
    is_literal,
    is_mapping,
    is_optional,
    is_union,
    members,
    needed_of,
    origin_of,
)

DRAFT = "https://json-schema.org/draft/2020-12/schema"
_PLAIN: dict[Hint, dict[str, Any]] = {
    float: {"type": "number"},
    int: {"type": "integer"},
    str: {"type": "string"},
    bool: {"type": "boolean"},
    dt.date: {"type": "string", "format": "date"},
    dt.datetime: {"type": "string", "format": "date-time"},
}


def described(cls: type, title: str) -> dict[str, Any]:
    """The schema of a dataclass and of all that it holds."""
    definitions: dict[str, Any] = {}
    top = _of(cls, definitions)
    return {"$schema": DRAFT, "title": title, **top, "$defs": dict(sorted(definitions.items()))}


def _of(hint: Hint, definitions: dict[str, Any]) -> dict[str, Any]:
    if hint in _PLAIN:
        return _PLAIN[hint]
    if is_literal(hint):
        return {"enum": list(args_of(hint))}
    if is_union(hint):
        parts = [_of(part, definitions) for part in members(hint)]
        return {"anyOf": parts + ([{"type": "null"}] if is_optional(hint) else [])}
    if is_fields(hint):
        return _reference(hint, definitions)
    return _collection(hint, definitions)


def _reference(cls: Any, definitions: dict[str, Any]) -> dict[str, Any]:
    name = cls.__name__
    if name not in definitions:
        definitions[name] = {}  # holds the place while its own fields are described
        definitions[name] = _fields(cls, definitions)
    return {"$ref": f"#/$defs/{name}"}


def _fields(cls: type, definitions: dict[str, Any]) -> dict[str, Any]:
    texts = field_texts(cls)
    properties = {}
    for name, hint in hints_of(cls).items():
        about = {"description": texts[name]} if name in texts else {}
        properties[name] = {**_of(hint, definitions), **about}
    return {
        "type": "object",
        "description": inspect.cleandoc(cls.__doc__ or ""),
        "properties": properties,
        "required": [name for name in properties if name in needed_of(cls)],
        "additionalProperties": False,
    }


def _collection(hint: Hint, definitions: dict[str, Any]) -> dict[str, Any]:
    args = args_of(hint)
    if is_mapping(hint):
        return {"type": "object", "additionalProperties": _of(args[1], definitions)}
    if origin_of(hint) is tuple and args[-1] is not Ellipsis:
        items = [_of(arg, definitions) for arg in args]
        return {"type": "array", "prefixItems": items, "items": False, "minItems": len(items)}
    unique = {"uniqueItems": True} if origin_of(hint) is frozenset else {}
    return {"type": "array", "items": _of(args[0], definitions), **unique}


def field_texts(cls: type) -> dict[str, str]:
    """The string that stands under each field of a class, in its source."""
    (node,) = ast.parse(textwrap.dedent(inspect.getsource(cls))).body
    assert isinstance(node, ast.ClassDef)
    out: dict[str, str] = {}
    for field, below in zip(node.body, node.body[1:], strict=False):
        if isinstance(field, ast.AnnAssign) and isinstance(field.target, ast.Name):
            value = below.value if isinstance(below, ast.Expr) else None
            if isinstance(value, ast.Constant) and isinstance(value.value, str):
                out[field.target.id] = " ".join(value.value.split())
    return out
