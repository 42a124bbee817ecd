"""The short code on a label: leg, number of the bag, version of the plan, and a check sign.

A person copies it in rain, from a label to a scale's screen; the check sign catches any one sign
misread and any two neighbours swapped. What a bag holds is not in it: the plan knows that.

Source: ISO7064, MOD 37,36 (check sign over letters and figures; from memory).
"""

from __future__ import annotations

from dataclasses import dataclass

SIGNS = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ"


@dataclass(frozen=True, slots=True, kw_only=True)
class Label:
    """What a code says."""

    leg: int
    number: int
    version: str


def encode(label: Label) -> str:
    """The code as it is printed: ``1-07-3713FB-K``."""
    body = f"{label.leg}-{label.number:02d}-{label.version.upper()}"
    return f"{body}-{check_sign(body)}"


def decode(text: str) -> Label | None:
    """What a code says; None if it is none, or a sign of it was misread. Small letters count as
    capitals, and any or no signs may stand between the parts' hyphens and spaces."""
    parts = text.upper().replace(" ", "-").split("-")
    if len(parts) != 4 or not (parts[0].isdecimal() and parts[1].isdecimal()):
        return None
    leg, number, version, check = parts
    body = "-".join(parts[:3])
    if set(version) - set(SIGNS) or check != check_sign(body):
        return None
    return Label(leg=int(leg), number=int(number), version=version.lower())


def check_sign(text: str) -> str:
    """The check sign over the letters and figures of a text. Source: ISO7064, MOD 37,36."""
    rest = 36
    for sign in text.upper():
        if sign in SIGNS:
            total = (rest + SIGNS.index(sign)) % 36 or 36
            rest = total * 2 % 37
    return SIGNS[(37 - rest) % 36]
