"""The typeface of every page: Atkinson Hyperlegible, with figures of one width for tables.

The fonts come from their package as they are; here two things are done to them in memory, which
their licence (SIL OFL 1.1, without reserved names) allows: the ten figures get equal widths, and a
page gets the font as WOFF, small enough to be embedded. It knows the tables of a TrueType file that
this needs, and no more. Source: OpenType, glyf, hmtx and loca tables; WOFF1, sections 3 to 5.
"""

from __future__ import annotations

import base64
import struct
import zlib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from itertools import pairwise
from typing import Literal

FAMILY = "Atkinson Hyperlegible"
Weight = Literal["Regular", "Bold"]
UNNEEDED = frozenset({b"DSIG", b"GSUB", b"fpgm", b"prep", b"cvt ", b"gasp"})
"""Signature, substitutions and hinting: left out of a page to save a third of its size."""

X_SHORT, X_SAME, REPEAT, ON_CURVE = 0x02, 0x10, 0x08, 0x01


def original(weight: Weight) -> bytes:
    """The font as its package holds it."""
    from fontpkg_atkinson_hyperlegible import ROOT

    data: bytes = (ROOT / "files" / f"AtkinsonHyperlegible-{weight}.ttf").read_bytes()
    return data


@cache
def tabular(weight: Weight) -> bytes:
    """The font as TrueType with the ten figures as wide as the widest of them."""
    tables = dict(read_tables(original(weight)))
    shape = _shape(tables)
    figures = [shape.glyph_of[ord(sign)] for sign in "0123456789"]
    widest = max(shape.advance[g] for g in figures)
    glyphs = list(shape.glyphs)
    metrics = list(zip(shape.advance, shape.bearing, strict=True))
    for g in figures:
        shift = (widest - shape.advance[g]) // 2
        glyphs[g] = shifted(glyphs[g], shift)
        metrics[g] = (widest, shape.bearing[g] + shift)
    tables[b"glyf"], tables[b"loca"] = _glyf(glyphs)
    tables[b"hmtx"] = b"".join(struct.pack(">Hh", *pair) for pair in metrics)
    tables[b"hhea"] = tables[b"hhea"][:34] + struct.pack(">H", len(metrics))
    head = tables[b"head"]
    tables[b"head"] = head[:8] + b"\0\0\0\0" + head[12:50] + struct.pack(">h", 1) + head[52:]
    tables.pop(b"DSIG", None)
    return _sfnt(tables)


@cache
def woff(weight: Weight) -> str:
    """The font with equal figures as WOFF, in base64, for a page that must stand alone."""
    tables = {t: d for t, d in read_tables(tabular(weight)).items() if t not in UNNEEDED}
    return base64.b64encode(_woff(tables)).decode()


def read_tables(font: bytes) -> Mapping[bytes, bytes]:
    """The tables of a TrueType file by tag."""
    (count,) = struct.unpack_from(">H", font, 4)
    found = {}
    for i in range(count):
        tag, _, offset, length = struct.unpack_from(">4sIII", font, 12 + 16 * i)
        found[tag] = font[offset : offset + length]
    return found


@dataclass(frozen=True, slots=True)
class _Shape:
    glyphs: tuple[bytes, ...]
    advance: tuple[int, ...]
    bearing: tuple[int, ...]
    glyph_of: Mapping[int, int]


def _shape(tables: Mapping[bytes, bytes]) -> _Shape:
    (count,) = struct.unpack_from(">H", tables[b"maxp"], 4)
    (long,) = struct.unpack_from(">h", tables[b"head"], 50)
    raw = struct.unpack_from(f">{count + 1}{'I' if long else 'H'}", tables[b"loca"])
    at = [place * (1 if long else 2) for place in raw]
    glyphs = tuple(tables[b"glyf"][a:b] for a, b in pairwise(at))
    (wide,) = struct.unpack_from(">H", tables[b"hhea"], 34)
    pairs = [struct.unpack_from(">Hh", tables[b"hmtx"], 4 * i) for i in range(wide)]
    rest = struct.unpack_from(f">{count - wide}h", tables[b"hmtx"], 4 * wide)
    pairs += [(pairs[-1][0], bearing) for bearing in rest]
    advance, bearing = zip(*pairs, strict=True)
    return _Shape(glyphs, advance, bearing, _cmap(tables[b"cmap"]))


def _cmap(cmap: bytes) -> dict[int, int]:
    """Code point -> glyph, of the format 4 subtable for Windows."""
    (count,) = struct.unpack_from(">H", cmap, 2)
    entries = [struct.unpack_from(">HHI", cmap, 4 + 8 * i) for i in range(count)]
    start = next(offset for platform, kind, offset in entries if (platform, kind) == (3, 1))
    (twice,) = struct.unpack_from(">H", cmap, start + 6)
    n = twice // 2
    ends = struct.unpack_from(f">{n}H", cmap, start + 14)
    begins = struct.unpack_from(f">{n}H", cmap, start + 16 + twice)
    deltas = struct.unpack_from(f">{n}H", cmap, start + 16 + 2 * twice)
    ranges_at = start + 16 + 3 * twice
    found = {}
    for i in range(n):
        (offset,) = struct.unpack_from(">H", cmap, ranges_at + 2 * i)
        for code in range(begins[i], min(ends[i], 0xFFFE) + 1):
            glyph = code
            if offset:
                place = ranges_at + 2 * i + offset + 2 * (code - begins[i])
                (glyph,) = struct.unpack_from(">H", cmap, place)
            found[code] = (glyph + deltas[i]) & 0xFFFF if glyph or not offset else 0
    return found


def shifted(glyph: bytes, shift: int) -> bytes:
    """A simple glyph moved to the right by so many units; its hints are dropped."""
    contours, x_min, y_min, x_max, y_max = struct.unpack_from(">hhhhh", glyph)
    if contours < 0 or shift == 0:
        return glyph
    ends = glyph[10 : 10 + 2 * contours]
    points = struct.unpack(">H", ends[-2:])[0] + 1
    (hints,) = struct.unpack_from(">H", glyph, 10 + 2 * contours)
    flags, at = _flags(glyph, 12 + 2 * contours + hints, points)
    xs, at = _deltas(glyph, flags, at)
    ys = glyph[at:]
    xs[0] += shift
    kept = [flag & ~(X_SHORT | X_SAME | REPEAT) for flag in flags]
    head = struct.pack(">hhhhh", contours, x_min + shift, y_min, x_max + shift, y_max)
    return head + ends + b"\0\0" + bytes(kept) + struct.pack(f">{points}h", *xs) + ys


def _flags(glyph: bytes, at: int, points: int) -> tuple[list[int], int]:
    flags: list[int] = []
    while len(flags) < points:
        flag, times = glyph[at], 1
        at += 1
        if flag & REPEAT:
            times += glyph[at]
            at += 1
        flags += [flag] * times
    return flags, at


def _deltas(glyph: bytes, flags: list[int], at: int) -> tuple[list[int], int]:
    xs = []
    for flag in flags:
        if flag & X_SHORT:
            xs.append(glyph[at] if flag & X_SAME else -glyph[at])
            at += 1
        elif flag & X_SAME:
            xs.append(0)
        else:
            xs.append(struct.unpack_from(">h", glyph, at)[0])
            at += 2
    return xs, at


def _glyf(glyphs: list[bytes]) -> tuple[bytes, bytes]:
    places, body = [0], b""
    for glyph in glyphs:
        body += glyph + b"\0" * (-len(glyph) % 4)
        places.append(len(body))
    return body, struct.pack(f">{len(places)}I", *places)


def _checksum(data: bytes) -> int:
    padded = data + b"\0" * (-len(data) % 4)
    words: tuple[int, ...] = struct.unpack(f">{len(padded) // 4}I", padded)
    return sum(words) & 0xFFFFFFFF


def _directory(count: int) -> bytes:
    power = count.bit_length() - 1
    return struct.pack(">IHHHH", 0x00010000, count, 16 << power, power, 16 * (count - (1 << power)))


def _sfnt(tables: Mapping[bytes, bytes]) -> bytes:
    entries, body, at = b"", b"", 12 + 16 * len(tables)
    for tag in sorted(tables):
        data = tables[tag]
        entries += struct.pack(">4sIII", tag, _checksum(data), at + len(body), len(data))
        body += data + b"\0" * (-len(data) % 4)
    font = _directory(len(tables)) + entries + body
    place = font.index(tables[b"head"], at) + 8
    adjust = (0xB1B0AFBA - _checksum(font)) & 0xFFFFFFFF
    return font[:place] + struct.pack(">I", adjust) + font[place + 4 :]


def _woff(tables: Mapping[bytes, bytes]) -> bytes:
    plain = 12 + 16 * len(tables) + sum(len(d) + -len(d) % 4 for d in tables.values())
    entries, body, at = b"", b"", 44 + 20 * len(tables)
    for tag in sorted(tables):
        data = tables[tag]
        packed = min(zlib.compress(data, 9), data, key=len)
        entries += struct.pack(
            ">4sIIII", tag, at + len(body), len(packed), len(data), _checksum(data)
        )
        body += packed + b"\0" * (-len(packed) % 4)
    head = struct.pack(
        ">IIIHHIHHIIIII", 0x774F4646, 0x00010000, at + len(body), len(tables), 0, plain, 1, 0,
        0, 0, 0, 0, 0,
    )  # fmt: skip
    return head + entries + body
