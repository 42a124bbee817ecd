"""The typeface: figures of one width, and a WOFF that unpacks to the same tables."""

from __future__ import annotations

import base64
import struct
import zlib

from oatsack.reports import fonts
from support.each import each


def shape(font: bytes) -> fonts._Shape:
    return fonts._shape(fonts.read_tables(font))


@each("weight", ["Regular", "Bold"])
def test_all_ten_figures_are_as_wide_as_the_widest(weight: fonts.Weight) -> None:
    before, after = shape(fonts.original(weight)), shape(fonts.tabular(weight))
    was = [before.advance[before.glyph_of[ord(c)]] for c in "0123456789"]
    now = [after.advance[after.glyph_of[ord(c)]] for c in "0123456789"]
    assert len(set(was)) > 1
    assert set(now) == {max(was)}


@each("weight", ["Regular", "Bold"])
def test_nothing_but_the_figures_is_changed(weight: fonts.Weight) -> None:
    before, after = shape(fonts.original(weight)), shape(fonts.tabular(weight))
    figures = {before.glyph_of[ord(c)] for c in "0123456789"}
    for g, glyph in enumerate(before.glyphs):
        if g not in figures:
            assert after.glyphs[g].startswith(glyph)
            assert after.advance[g] == before.advance[g]
    assert before.glyph_of == after.glyph_of


def test_a_shifted_figure_keeps_its_form() -> None:
    before, after = shape(fonts.original("Regular")), shape(fonts.tabular("Regular"))
    one = before.glyph_of[ord("1")]
    old = struct.unpack_from(">hhhhh", before.glyphs[one])
    new = struct.unpack_from(">hhhhh", after.glyphs[one])
    assert new[3] - new[1] == old[3] - old[1]
    assert (new[2], new[4]) == (old[2], old[4])
    assert new[1] > old[1]


def test_the_checksum_of_the_whole_font_is_what_the_format_asks_for() -> None:
    """OpenType, font file: the sum of all words with the adjustment in place is 0xB1B0AFBA."""
    assert fonts._checksum(fonts.tabular("Regular")) == 0xB1B0AFBA


def test_the_woff_unpacks_to_the_tables_of_the_font() -> None:
    """WOFF 1.0, sections 3 and 4: signature, table directory, zlib streams."""
    data = base64.b64decode(fonts.woff("Regular"))
    signature, flavour, length, count = struct.unpack_from(">IIIH", data)
    assert (signature, flavour, length) == (0x774F4646, 0x00010000, len(data))
    tables = fonts.read_tables(fonts.tabular("Regular"))
    for i in range(count):
        tag, at, packed, plain, _ = struct.unpack_from(">4sIIII", data, 44 + 20 * i)
        body = data[at : at + packed]
        assert (zlib.decompress(body) if packed < plain else body) == tables[tag]


def test_a_page_with_both_faces_stays_small() -> None:
    assert len(fonts.woff("Regular")) < 40_000
    assert len(fonts.woff("Bold")) < 40_000


@each("sign", "aÄß½·×°–…€±§é")
def test_the_signs_our_texts_use_are_in_the_font(sign: str) -> None:
    assert shape(fonts.tabular("Regular")).glyph_of.get(ord(sign), 0) > 0
