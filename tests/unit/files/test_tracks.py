"""GPX in: tracks, routes, waypoints; and what is refused, with its line."""

from __future__ import annotations

import pytest

from oatsack.errors import Fault, TrackError
from oatsack.files.tracks import FORMATS, format, read_track
from oatsack.files.tracks.gpx import kind_of, reliability_of
from support.each import each
from support.tracks import gpx, line, points

TWO = '<trkpt lat="47.0" lon="13.0"><ele>500</ele></trkpt>\n<trkpt lat="47.01" lon="13.0"/>'
SEGMENT = f"<trk><trkseg>{TWO}</trkseg></trk>"


def faults_of(data: bytes, name: str = "walk.gpx") -> tuple[Fault, ...]:
    with pytest.raises(TrackError) as caught:
        read_track(data, name)
    return caught.value.faults


@each("version", ["1.0", "1.1"])
def test_a_track_is_read_in_both_versions(version: str) -> None:
    track = read_track(gpx(SEGMENT, version=version), "walk.gpx")
    assert track.lat == (47.0, 47.01)
    assert track.height_m == (500.0, None)
    assert track.time_s == ()
    assert track.name == "walk.gpx"


def test_a_drawn_line_comes_back_as_it_went() -> None:
    drawn = line(2000.0, lambda x: 400.0 + 0.05 * x)
    track = read_track(gpx(f"<trk><trkseg>{points(drawn)}</trkseg></trk>"), "a.gpx")
    assert track.lat == pytest.approx(drawn.lat)
    assert track.height_m == pytest.approx(drawn.height_m, abs=0.006)


def test_several_tracks_and_segments_are_one_line_and_empty_ones_are_left_out() -> None:
    body = f"<trk><name>Both</name><trkseg>{TWO}</trkseg><trkseg/></trk>{SEGMENT}"
    track = read_track(gpx(body), "walk.gpx")
    assert track.starts == (0, 2)
    assert len(track.lat) == 4
    assert track.name == "Both"


def test_a_route_is_read_where_there_is_no_track() -> None:
    body = f"<rte><name>Way</name>{TWO.replace('trkpt', 'rtept')}</rte>"
    track = read_track(gpx(body), "walk.gpx")
    assert (len(track.lat), track.name) == (2, "Way")


def test_a_track_is_preferred_to_a_route() -> None:
    body = f"<rte>{TWO.replace('trkpt', 'rtept')}</rte>{SEGMENT}{SEGMENT}"
    assert len(read_track(gpx(body), "walk.gpx").lat) == 4


def test_times_are_seconds_and_missing_ones_stay_missing() -> None:
    body = (
        '<trk><trkseg><trkpt lat="47" lon="13"><time>2026-06-04T08:00:00Z</time></trkpt>'
        '<trkpt lat="47.01" lon="13"><time>2026-06-04T08:01:30+00:00</time></trkpt>'
        '<trkpt lat="47.02" lon="13"/></trkseg></trk>'
    )
    times = read_track(gpx(body), "walk.gpx").time_s
    assert times[0] == 1780560000.0  # oracle: `date -u -d 2026-06-04T08:00:00Z +%s`
    assert times[1] == times[0] + 90.0
    assert times[2] is None


def test_waypoints_bear_name_kind_height_and_doubt() -> None:
    body = SEGMENT + (
        '<wpt lat="47.0" lon="13.0"><ele>510</ele><name>Fold</name><type>camp</type></wpt>'
        '<wpt lat="47.0" lon="13.0"><name>Brook</name><desc>often dry in August</desc></wpt>'
        '<wpt lat="47.0" lon="13.0"><name>Top</name><sym>Summit</sym></wpt>'
    )
    fold, brook, top = read_track(gpx(body), "walk.gpx").waypoints
    assert (fold.name, fold.kind, fold.height_m) == ("Fold", "camp", 510.0)
    assert (brook.kind, brook.reliability) == ("water", "doubtful")
    assert (top.kind, top.reliability) == ("other", "sure")


@each(
    ("texts", "kind"),
    [
        (("camp", "", "Brook"), "camp"),
        (("", "Campground", ""), "camp"),
        (("", "Drinking Water", ""), "water"),
        (("", "", "Stone Well"), "water"),
        (("", "", "Wellington Rise"), "other"),
        (("", "Shopping Center", ""), "shop"),
        (("shop", "", "Camp shop"), "shop"),
        (("", "", ""), "other"),
    ],
)
def test_the_first_text_that_tells_gives_the_kind(texts: tuple[str, ...], kind: str) -> None:
    assert kind_of(*texts) == kind


@each(
    ("said", "sure"),
    [("", "sure"), ("seasonal", "doubtful"), ("usually runs", "likely"), ("good", "sure")],
)
def test_a_comment_may_say_how_sure_the_water_is(said: str, sure: str) -> None:
    assert reliability_of(said) == sure


@each(
    ("codec", "declared"),
    [("utf-8", "UTF-8"), ("utf-8-sig", "UTF-8"), ("latin-1", "ISO-8859-1"), ("utf-16", "UTF-16")],
)
def test_every_usual_encoding_is_read(codec: str, declared: str) -> None:
    text = gpx(f'<wpt lat="47" lon="13"><name>Gröbner Tümpel</name></wpt>{SEGMENT}').decode()
    data = text.replace("UTF-8", declared, 1).encode(codec)
    assert read_track(data, "walk.gpx").waypoints[0].name == "Gröbner Tümpel"


def test_a_prefixed_namespace_and_comments_do_no_harm() -> None:
    body = f"<!-- drawn by hand -->{SEGMENT}"
    assert len(read_track(gpx(body), "walk.gpx").lat) == 2


def test_an_empty_file_is_told() -> None:
    assert faults_of(b"  \n")[0].wrong == "the file is empty"


def test_a_file_of_another_kind_is_told_what_can_be_read() -> None:
    (fault,) = faults_of(b"PK\x03\x04 a zip", "walk.zip")
    assert "GPX 1.0 or 1.1" in fault.instead


@each(
    "body",
    ["", '<trk><trkseg><trkpt lat="47" lon="13"/></trkseg></trk>', '<wpt lat="47" lon="13"/>',
     '<trk><trkseg><trkpt lat="47" lon="13"/><trkpt lat="47" lon="13"/></trkseg></trk>'],
)  # fmt: skip
def test_fewer_than_two_different_points_are_no_way(body: str) -> None:
    (fault,) = faults_of(gpx(body))
    assert "two different points" in fault.wrong


def test_broken_xml_is_told_with_its_line_and_column() -> None:
    data = gpx(SEGMENT).replace(b"</trkseg>", b"</trksag>")
    (fault,) = faults_of(data)
    assert "well-formed" in fault.wrong
    assert (fault.line, fault.column > 1) == (4, True)
    assert str(fault).startswith("walk.gpx:4:")


def test_a_file_cut_short_is_told() -> None:
    (fault,) = faults_of(gpx(SEGMENT)[:-30])
    assert "well-formed" in fault.wrong


def test_all_wrong_numbers_are_told_at_once_each_with_its_line() -> None:
    body = (
        "<trk><trkseg>\n"
        '<trkpt lat="97.0" lon="13"/>\n'
        '<trkpt lat="47.0" lon="east"/>\n'
        '<trkpt lat="47.0"/>\n'
        '<trkpt lat="47.0" lon="13"><ele>high</ele></trkpt>\n'
        '<trkpt lat="nan" lon="13"/>\n'
        "</trkseg></trk>"
    )
    found = faults_of(gpx(body))
    assert [(fault.line, fault.path) for fault in found] == [
        (4, "trkpt[1]@lat"),
        (5, "trkpt[2]@lon"),
        (6, "trkpt[3]@lon"),
        (7, "point[4].ele"),
        (8, "trkpt[5]@lat"),
    ]
    assert found[1].read == "'east'"


def test_a_time_that_cannot_be_read_counts_as_missing() -> None:
    """No plan needs the times of a track; a heap of messages about them would help nobody."""
    body = SEGMENT.replace("<ele>500</ele>", "<ele>500</ele><time>yesterday</time>")
    assert read_track(gpx(body), "walk.gpx").time_s == ()


def test_an_unknown_version_and_a_foreign_root_are_told() -> None:
    assert "version" in faults_of(gpx(SEGMENT, version="2.7"))[0].path
    assert "<kml>" in faults_of(b"<?xml version='1.0'?><kml/>")[0].read


def test_an_entity_bomb_is_refused_before_it_grows() -> None:
    bomb = "<!DOCTYPE gpx [<!ENTITY a 'ha'>" + "".join(
        f"<!ENTITY {chr(98 + k)} '{f'&{chr(97 + k)};' * 10}'>" for k in range(9)
    ) + "]>\n"  # fmt: skip
    (fault,) = faults_of(gpx(f"<trk><name>&j;</name></trk>{SEGMENT}", head=bomb))
    assert "entities" in fault.wrong
    assert fault.line == 2


def test_an_outside_entity_is_refused() -> None:
    head = '<!DOCTYPE gpx [<!ENTITY x SYSTEM "file:///etc/hostname">]>\n'
    (fault,) = faults_of(gpx(f"<trk><name>&x;</name></trk>{SEGMENT}", head=head))
    assert "entities" in fault.wrong


def test_too_many_bytes_and_too_many_points_are_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    from oatsack.files import tracks
    from oatsack.files.tracks import gpx_check

    monkeypatch.setattr(gpx_check, "MOST_POINTS", 1)
    assert "too many points" in faults_of(gpx(SEGMENT))[0].wrong
    monkeypatch.setattr(tracks, "MOST_BYTES", 100)
    assert "too large" in faults_of(gpx(SEGMENT))[0].wrong


def test_elements_nested_without_end_are_refused() -> None:
    body = "<a>" * 500 + "</a>" * 500
    assert "too deep" in faults_of(gpx(body))[0].wrong


def test_the_same_mistake_a_thousand_times_is_told_a_few_times() -> None:
    many = '<trkpt lat="x" lon="13"/>' * 1000
    assert len(faults_of(gpx(f"<trk><trkseg>{many}</trkseg></trk>"))) == format.MOST_FAULTS


def test_every_format_has_a_name_of_its_own_and_says_what_it_reads() -> None:
    assert len({one.name for one in FORMATS}) == len(FORMATS)
    assert all(one.help for one in FORMATS)


def way(lat: str = "47.0", lon: str = "13.0", ele: str = "500", more: str = "") -> bytes:
    """A track whose second point is this one, on line 4."""
    return gpx(
        f'<trk><trkseg><trkpt lat="46.9" lon="12.9"/>\n<trkpt lat="{lat}" lon="{lon}">'
        f"<ele>{ele}</ele>{more}</trkpt>\n</trkseg></trk>"
    )


@each(
    ("lat", "lon", "path"),
    [
        ("90", "180", ""), ("-90", "-180", ""), ("0", "0", ""), ("+47.5", "1e1", ""),
        ("90.001", "13", "trkpt[2]@lat"), ("-91", "13", "trkpt[2]@lat"),
        ("47", "180.001", "trkpt[2]@lon"), ("47", "-181", "trkpt[2]@lon"),
        ("nan", "13", "trkpt[2]@lat"), ("47", "inf", "trkpt[2]@lon"), ("", "13", "trkpt[2]@lat"),
        ("47,5", "13", "trkpt[2]@lat"), ("north", "13", "trkpt[2]@lat"),
    ],
)  # fmt: skip
def test_a_place_lies_on_the_earth_or_is_told_by_its_point_and_line(
    lat: str, lon: str, path: str
) -> None:
    for more in ("", "<name>x</name>"):  # the quick way past the parser, and the parser's own
        data = way(lat, lon, more=more)
        if not path:
            track = read_track(data, "walk.gpx")
            assert (track.lat[1], track.lon[1]) == (float(lat), float(lon))
            continue
        (fault,) = faults_of(data)
        assert (fault.path, fault.line) == (path, 4)
        assert fault.column == 1
        assert "degrees" in fault.wrong


@each(
    ("ele", "height"),
    [("500", 500.0), (" 500.25\n", 500.25), ("-430", -430.0), ("", None), ("1e3", 1000.0)],
)
def test_a_height_is_a_number_or_absent(ele: str, height: float | None) -> None:
    assert read_track(way(ele=ele), "walk.gpx").height_m == (None, height)


@each("ele", ["high", "500 m", "500,5", "nan", "inf", "1e999"])
def test_a_height_that_is_no_number_of_metres_is_told_with_its_line(ele: str) -> None:
    (fault,) = faults_of(way(ele=ele))
    assert (fault.path, fault.line) == ("point[2].ele", 4)


def test_of_two_heights_of_one_point_the_first_counts() -> None:
    assert read_track(way(more="<ele>900</ele>"), "walk.gpx").height_m[1] == 500.0


@each(
    ("said", "seconds"),
    [
        ("2026-06-04T08:00:00Z", 1780560000.0),  # date -u -d 2026-06-04T08:00:00Z +%s
        ("2026-06-04T10:00:00+02:00", 1780560000.0),
        ("2026-06-04T08:00:00", 1780560000.0),  # GPX11: times are UTC, said or not
        ("2026-06-04T08:00:00.5Z", 1780560000.5),
        ("2026-06-04", 1780560000.0 - 8 * 3600.0),
        ("yesterday", None),
        ("", None),
    ],
)
def test_a_time_is_in_seconds_of_universal_time(said: str, seconds: float | None) -> None:
    track = read_track(way(more=f"<time>{said}</time>"), "walk.gpx")
    assert track.time_s == (() if seconds is None else (None, seconds))


@each(
    ("kind", "told"),
    [
        (("camp", "", "Brook"), "camp"), (("", "Campground", "Brook"), "camp"),
        (("", "", "Brook by the mill"), "water"), (("", "", "Springfield"), "other"),
        (("", "", "Mill"), "other"), (("", "", ""), "other"), (("Summit", "Drinking Water", ""),
        "water"), (("", "", "HUT"), "camp"), (("", "", "post office"), "shop"),
        (("", "", "The old bothy"), "camp"), (("", "", "supermarket"), "shop"),
    ],
)  # fmt: skip
def test_a_waypoint_is_what_the_first_text_that_tells_says_in_whole_words(
    kind: tuple[str, ...], told: str
) -> None:
    assert kind_of(*kind) == told


@each(
    ("said", "sure"),
    [("seasonal", "doubtful"), ("Often dry in late summer", "doubtful"), ("may be dry", "doubtful"),
     ("usually flows", "likely"), ("Mostly, but unreliable", "doubtful"), ("clear", "sure"),
     ("unlikely", "sure"), ("", "sure")],
)  # fmt: skip
def test_doubt_about_water_is_told_by_whole_words_the_graver_first(said: str, sure: str) -> None:
    assert reliability_of(said) == sure


def test_a_waypoint_without_a_name_is_called_so_and_an_extension_names_nothing() -> None:
    body = SEGMENT + (
        '<wpt lat="47.0" lon="13.0"><name> </name></wpt>'
        '<wpt lat="47.0" lon="13.0"><extensions><name>Deep</name></extensions></wpt>'
        '<wpt lat="47.0" lon="13.0"><name>Mill</name><name>Second</name></wpt>'
    )
    names = [one.name for one in read_track(gpx(body), "walk.gpx").waypoints]
    assert names == ["unnamed", "unnamed", "Mill"]


@each(
    ("body", "name"),
    [
        ("<metadata><name>File</name></metadata><trk><name>Track</name>{}</trk>", "File"),
        ("<trk><name>Track</name>{}</trk><trk><name>Other</name></trk>", "Track"),
        ("<trk>{}</trk>", "walk.gpx"),
        ("<trk><name> </name>{}</trk>", "walk.gpx"),
    ],
)
def test_a_track_bears_the_first_name_there_is_or_the_files(body: str, name: str) -> None:
    text = body.format(f"<trkseg>{TWO}</trkseg>")
    assert read_track(gpx(text), "walk.gpx").name == name


@each(
    ("name", "lead", "known"),
    [("walk.gpx", 0, True), ("WALK.GPX", 0, True), ("walk.txt", 0, True), ("walk.xml", 1500, True),
     ("walk.xml", 2500, False)],
)  # fmt: skip
def test_a_file_is_known_by_its_name_or_its_first_lines(name: str, lead: int, known: bool) -> None:
    head = "<!-- " + "x" * lead + " -->\n" if lead else ""
    data = gpx(SEGMENT, head=head)
    if known:
        assert len(read_track(data, name).lat) == 2
    else:
        (fault,) = faults_of(data, name)
        assert "GPX 1.0 or 1.1" in fault.instead


@each(("deep", "fits"), [(61, True), (62, True), (63, False), (80, False)])
def test_elements_lie_in_each_other_up_to_sixty_four_levels(deep: int, fits: bool) -> None:
    # The outermost element, its extensions and these.
    inner = "<a>" * deep + "</a>" * deep
    data = gpx(f"<extensions>{inner}</extensions>{SEGMENT}")
    if fits:
        assert len(read_track(data, "walk.gpx").lat) == 2
    else:
        (fault,) = faults_of(data)
        assert "too deep" in fault.wrong


@each(("most", "fits"), [(3, True), (2, False)])
def test_points_of_every_sort_count_towards_the_most(most: int, fits: bool) -> None:
    from oatsack.files.tracks import gpx_check

    data = gpx(SEGMENT + '<wpt lat="47.0" lon="13.0"><name>Mill</name></wpt>')
    before = gpx_check.MOST_POINTS
    gpx_check.MOST_POINTS = most
    try:
        if fits:
            assert len(read_track(data, "walk.gpx").waypoints) == 1
        else:
            (fault,) = faults_of(data)
            assert fault.wrong == "too many points"
    finally:
        gpx_check.MOST_POINTS = before
