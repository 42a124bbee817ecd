"""Plainly written segments go past the parser, and give what the parser would have given."""

from __future__ import annotations

import time

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from oatsack.errors import TrackError
from oatsack.files.tracks import gpx_pass, gpx_runs, read_track
from oatsack.values.route import Track
from support.tracks import gpx

DEGREES = st.floats(-89.0, 89.0).map(lambda value: f"{value:.7f}")
HEIGHT = st.one_of(st.none(), st.floats(-400.0, 8000.0).map(lambda value: f"{value:.1f}"))
TIME = st.one_of(st.none(), st.integers(10, 59).map(lambda s: f"2027-06-12T10:{s}:00Z"))
GAP = st.sampled_from(["", " ", "\n    "])
EXTRA = st.sampled_from(["", "", "", "<name>here</name>", "<extensions><hr>9</hr></extensions>"])


@st.composite
def segments(draw: st.DrawFn) -> str:
    """Segments as recorders write them, some with more than a plain point in them."""
    out = []
    for _ in range(draw(st.integers(1, 3))):
        rows = []
        for _ in range(draw(st.integers(2, 6))):
            lat, lon, gap = draw(DEGREES), draw(DEGREES), draw(GAP)
            height, clock = draw(HEIGHT), draw(TIME)
            inner = f"<ele>{height}</ele>{gap}" if height else ""
            inner += f"<time>{clock}</time>" if clock else ""
            rows.append(f'<trkpt lat="{lat}" lon="{lon}">{gap}{inner}{draw(EXTRA)}</trkpt>{gap}')
        out.append(f"<trkseg>{''.join(rows)}</trkseg>")
    return f"<trk>{''.join(out)}</trk>"


def by_parser(data: bytes) -> Track:
    """The track with nothing taken past the parser."""
    kept = gpx_pass.pieces
    gpx_pass.pieces = lambda whole: iter([(whole, ())])  # type: ignore[assignment]
    try:
        return read_track(data, "walk.gpx")
    finally:
        gpx_pass.pieces = kept


@pytest.mark.slow
@given(segments())
@settings(max_examples=120, deadline=None)
def test_the_short_way_gives_what_the_parser_gives(body: str) -> None:
    data = gpx(body)
    try:
        slow = by_parser(data)
    except TrackError as error:
        with pytest.raises(TrackError) as caught:
            read_track(data, "walk.gpx")
        assert caught.value.faults == error.faults
        return
    assert read_track(data, "walk.gpx") == slow


PLAIN = '<trkpt lat="47" lon="13"><ele>500</ele></trkpt>\n<trkpt lat="47.1" lon="13"/>'


def test_a_plain_segment_is_taken_whole() -> None:
    assert [row[1:] for row in gpx_runs.points_of(PLAIN.encode())] == [
        ("47", "13", "500", ""), ("47.1", "13", "", ""),
    ]  # fmt: skip


@pytest.mark.parametrize(
    "more",
    ["<!-- one more -->", "x", "<desc/>", '<trkpt lat="1" lon="1"><sym>hut</sym></trkpt>',
     "<trkseg/>", '<trkpt lon="1" lat="1"/>', "&#65;"],
)  # fmt: skip
def test_anything_else_in_a_segment_leaves_it_to_the_parser(more: str) -> None:
    for inside in (PLAIN + more, more + PLAIN):
        assert gpx_runs.points_of(inside.encode()) == ()


def test_points_in_a_comment_or_in_raw_text_do_not_count() -> None:
    hidden = f"<trkseg>{PLAIN.replace('47', '11')}</trkseg>"
    for veil in (f"<!-- {hidden} -->", f"<desc><![CDATA[{hidden}]]></desc>", f"<?see {hidden}?>"):
        track = read_track(gpx(f"<trk>{veil}<trkseg>{PLAIN}</trkseg></trk>"), "walk.gpx")
        assert track.lat == (47.0, 47.1), veil


def test_a_number_that_is_none_is_told_with_its_line() -> None:
    body = f'<trk><trkseg>\n{PLAIN}\n<trkpt lat="4-7" lon="13"/></trkseg></trk>'
    with pytest.raises(TrackError) as caught:
        read_track(gpx(body), "walk.gpx")
    (fault,) = caught.value.faults
    assert (fault.line, fault.read) == (6, "'4-7'")


def test_too_many_points_are_refused_the_short_way_too(monkeypatch: pytest.MonkeyPatch) -> None:
    from oatsack.files.tracks import gpx_check

    monkeypatch.setattr(gpx_check, "MOST_POINTS", 3)
    with pytest.raises(TrackError, match="too many points"):
        read_track(gpx(f"<trk><trkseg>{PLAIN}{PLAIN}</trkseg></trk>"), "walk.gpx")


def test_an_unclosed_segment_is_not_well_formed() -> None:
    with pytest.raises(TrackError, match="well-formed"):
        read_track(gpx(f"<trk><trkseg>{PLAIN}</trk>"), "walk.gpx")


def test_the_short_way_is_at_least_half_as_long_again_quicker() -> None:
    rows = "".join(
        f'<trkpt lat="{47 + k * 1e-5:.6f}" lon="13"><ele>{500 + k % 7}.0</ele></trkpt>\n'
        for k in range(6000)
    )
    data = gpx(f"<trk><trkseg>{rows}</trkseg></trk>")
    took = {}
    for name, reader in (
        ("short", lambda: read_track(data, "w.gpx")),
        ("long", lambda: by_parser(data)),
    ):
        runs = []
        for _ in range(3):
            begin = time.process_time()
            reader()
            runs.append(time.process_time() - begin)
        took[name] = min(runs)
    assert took["short"] < took["long"] / 1.3
