"""Tables under a misspelt heading: what is at fault inside them, told in the same run.

``[[walker]]`` is no table of a trip file, so nothing below it would be looked at until the heading
is mended. The text is read once more with the heading as it was most likely meant.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import replace

from pydantic import ValidationError

from oatsack.errors import Fault
from oatsack.files.trip.document import Document
from oatsack.files.trip.faults import complaints, likely


def meant(error: ValidationError, document: Document) -> Mapping[str, str]:
    """Misspelt headings at the top -> the tables they stand for, where those are not given too."""
    found = {}
    for path, item in complaints(error):
        close = likely(path)
        if item["type"] == "extra_forbidden" and len(path) == 1 and close != path:
            value = document.data.get(str(path[0]))
            if isinstance(value, dict | list) and close[0] not in document.data:
                found[str(path[0])] = str(close[0])
    return found


def renamed(text: str, names: Mapping[str, str]) -> str:
    """The text with these headings mended; every other line stays where and as it is."""
    for wrong, right in names.items():
        head = rf"^(\s*\[\[?\s*){re.escape(wrong)}(?=\s*[.\]])"
        text = re.sub(head, rf"\g<1>{right}", text, flags=re.MULTILINE)
    return text


def inside(
    faults: Iterable[Fault], names: Mapping[str, str], document: Document
) -> tuple[Fault, ...]:
    """Of the faults of the mended text those that lie in the tables meant, with the lines as their
    owner wrote them."""
    tops = set(names.values())
    return tuple(
        replace(fault, text=document.line(fault.line)) for fault in faults
        if re.split(r"[.\[]", fault.path, maxsplit=1)[0] in tops
    )  # fmt: skip
