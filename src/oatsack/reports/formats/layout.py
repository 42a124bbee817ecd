"""Text laid out in columns of a terminal: folding, columns, styles. Knows no document.

A line is a tuple of pieces, each a text with a style. Written here rather than taken from a
library, because loading one took longer than everything else that shows a plan. A no-break space
keeps two words on one line and is written as a plain one.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable, Sequence
from typing import NamedTuple

ANSI = {
    "": "", "bold": "1", "dim": "2", "underline": "4", "yellow": "1;33", "red": "1;31",
}  # fmt: skip


class Piece(NamedTuple):
    """A text and its style, a key of `ANSI`."""

    text: str
    style: str = ""


Line = tuple[Piece, ...]


def wide(text: str) -> int:
    """Columns that a text takes: two for a wide sign, none for a combining mark."""
    if text.isascii():
        return len(text)
    return sum(_wide(sign) for sign in text)


def _wide(sign: str) -> int:
    if unicodedata.combining(sign):
        return 0
    return 2 if unicodedata.east_asian_width(sign) in "WF" else 1


def fold(text: str, width: int) -> list[str]:
    """A text in lines of at most so many columns, parted between words where it can be."""
    width = max(1, width)
    out: list[str] = []
    for part in text.split("\n"):
        line = ""
        for word in part.split(" "):  # and nowhere else: other spaces tie words together
            if line and wide(line) + 1 + wide(word) <= width:
                line = f"{line} {word}"
                continue
            if line:
                out.append(line)
            *whole, line = _broken(word, width)
            out += whole
        out.append(line)
    return out


def _broken(word: str, width: int) -> list[str]:
    """A word in pieces that fit; most words are one piece."""
    if wide(word) <= width:
        return [word]
    pieces, piece = [], ""
    for sign in word:
        if piece and wide(piece) + _wide(sign) > width:
            pieces.append(piece)
            piece = ""
        piece += sign
    return [*pieces, piece]


def widths(texts: Sequence[Sequence[str]], fixed: Sequence[bool], room: int) -> list[int]:
    """How wide each column is, given the texts of each: as wide as it needs; where that is too
    much, the widest column that may fold gives way, column by column, down to its longest word."""
    need = [max((wide(x) for t in of for x in t.split("\n")), default=0) for of in texts]
    least = [
        n
        if keep
        else max((wide(w) for t in of for w in t.replace("\n", " ").split(" ")), default=0)
        for of, keep, n in zip(texts, fixed, need, strict=True)
    ]
    while sum(need) > room:
        able = [i for i in range(len(need)) if need[i] > least[i]]
        able = able or [i for i in range(len(need)) if not fixed[i] and need[i] > 1]
        if not able:
            break
        need[max(able, key=lambda i: (need[i], i))] -= 1
    return need


def side_by_side(cells: Sequence[Piece], wides: Sequence[int], right: Sequence[bool],
                 gap: int) -> list[Line]:  # fmt: skip
    """Cells of one row folded into their columns, one line below the other."""
    folded = [fold(c.text, w) if c.text else [""] for c, w in zip(cells, wides, strict=True)]
    return [
        tuple(
            Piece(_put(of[n] if n < len(of) else "", w, last=i == len(wides) - 1, right=side)
                  + " " * gap * (i < len(wides) - 1), c.style)
            for i, (of, w, side, c) in enumerate(zip(folded, wides, right, cells, strict=True))
        )
        for n in range(max(map(len, folded)))
    ]  # fmt: skip


def _put(text: str, width: int, *, last: bool, right: bool) -> str:
    space = " " * max(0, width - wide(text))
    if right:
        return space + text
    return text if last else text + space


def joined(lines: Iterable[Line], *, colour: bool) -> str:
    """The lines as text, without trailing space and without two blank lines in a row."""
    out: list[str] = []
    for line in lines:
        bare = "".join(piece.text for piece in line).rstrip()
        if bare:
            out.append((_styled(line) if colour else bare).replace("\N{NO-BREAK SPACE}", " "))
        elif out and out[-1]:
            out.append("")
    while out and not out[-1]:
        out.pop()
    return "\n".join(out) + "\n"


def _styled(line: Line) -> str:
    return "".join(
        f"\x1b[{ANSI[p.style]}m{p.text}\x1b[0m" if p.style and p.text.strip() else p.text
        for p in line
    ).rstrip()
