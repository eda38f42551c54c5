"""Beds from a few lines."""

from __future__ import annotations

import pytest

from spadework.errors import InputFileError
from spadework.garden.entries import BedSet
from spadework.garden.lay_out import lay_out
from spadework.garden.lay_out_plot import overlapping
from spadework.garden.site import Units


def beds(*lines: str, units: Units = "metric", there: dict[str, BedSet] | None = None) -> dict[str, BedSet]:
    return dict(lay_out(lines, units=units, there=there).beds)


def one(line: str, units: Units = "metric") -> BedSet:
    found = beds(line, units=units)
    assert len(found) == 1, found
    return next(iter(found.values()))


def faults(*lines: str, there: dict[str, BedSet] | None = None) -> list[str]:
    with pytest.raises(InputFileError) as refused:
        beds(*lines, there=there)
    return [str(fault) for fault in refused.value.faults]


def corner(bed: BedSet) -> tuple[float, float]:
    return bed.x_m, bed.y_m


PLOT = (
    "12 beds 1.2 × 2.4 m in 3 rows, paths 0.6 m",
    "a tunnel 3 by 6 m north of them",
    "6 tubs 45 cm across, 40 cm deep beside the tunnel; cold frame 60 x 120 cm east of the beds",
    "4 beds 0.8 x 8 m named North 1 to North 4, west of the tunnel; seed shelf indoors",
    "beds 5 to 8 raised 30 cm, clay loam",
)


def test_twenty_five_beds_in_five_lines() -> None:
    found = beds(*PLOT)
    assert len(found) == 12 + 1 + 6 + 1 + 4 + 1
    assert list(overlapping(found)) == []
    assert [found[f"bed-{n}"].height_m for n in (4, 5, 8, 9)] == [0.0, 0.3, 0.3, 0.0]
    assert [found[f"bed-{n}"].soil for n in (4, 5, 8, 9)] == ["loam", "clay loam", "clay loam", "loam"]
    assert found["tub-6"].depth_m == 0.4
    assert found["cold-frame"].shape == "frame"
    assert found["north-3"].name == "North 3"


def test_rows_run_from_the_north_west() -> None:
    found = beds("12 beds 1.2 x 2.4 m in 3 rows, paths 0.6 m")
    # four in a row: 4 x 1.2 m and 3 paths; three rows: 3 x 2.4 m and 2 paths
    assert corner(found["bed-1"]) == (0.0, pytest.approx(6.0))
    assert corner(found["bed-4"]) == (pytest.approx(5.4), pytest.approx(6.0))
    assert corner(found["bed-12"]) == (pytest.approx(5.4), 0.0)


def test_rows_that_do_not_come_out_even() -> None:
    found = beds("7 beds 1 x 2 m in 3 rows, paths 0.5 m, 1 m between rows")
    norths = [bed.y_m for bed in found.values()]
    assert [norths.count(value) for value in (6.0, 3.0, 0.0)] == [3, 2, 2]


@pytest.mark.parametrize(
    ("line", "width_m", "length_m"),
    [
        ("bed 1.2 × 2.4 m", 1.2, 2.4),
        ("a bed 1.2 by 2.4 metres", 1.2, 2.4),
        ("a bed 1,2 x 2,4 m", 1.2, 2.4),
        ("one bed 120x240cm", 1.2, 2.4),
        ("a bed 120 x 240", 1.2, 2.4),
        ("a bed 1.2 x 2.4", 1.2, 2.4),
        ("a bed 2.4 m long, 1.2 m wide", 1.2, 2.4),
        ("a bed 1.2 m wide and 2.4 m long", 1.2, 2.4),
        ("bed 4 ft x 8 ft", 1.2192, 2.4384),
        ("bed 4x8 ft", 1.2192, 2.4384),
        ("bed 4' x 8'", 1.2192, 2.4384),
        ("bed 3'6\" by 2 yards", 1.0668, 1.8288),
        ("bed 3 ft 6 in x 6 feet", 1.0668, 1.8288),
        ("bed 2 1/2 x 8 ft", 0.762, 2.4384),
        ("bed 2½ x 8 ft", 0.762, 2.4384),
        ("bed 48 x 96 inches", 1.2192, 2.4384),
        ("tub 45 cm across", 0.45, 0.45),
        ("a round tub 18 in in diameter", 0.4572, 0.4572),
    ],
)
def test_sizes(line: str, width_m: float, length_m: float) -> None:
    bed = one(line)
    assert (bed.width_m, bed.length_m) == pytest.approx((width_m, length_m), abs=1e-4)


@pytest.mark.parametrize(
    ("line", "width_m", "length_m"),
    [("bed 4x8", 1.2192, 2.4384), ("bed 48 x 96", 1.2192, 2.4384), ("bed 1.2 x 2.4 m", 1.2, 2.4)],
)
def test_bare_numbers_in_an_american_garden(line: str, width_m: float, length_m: float) -> None:
    bed = one(line, "us")
    assert (bed.width_m, bed.length_m) == pytest.approx((width_m, length_m), abs=1e-4)


def test_inches_are_no_rows_and_rows_no_inches() -> None:
    found = beds("4 beds 4 x 8 in 2 rows", units="us")
    assert len(found) == 4
    assert found["bed-1"].length_m == pytest.approx(2.4384)
    assert found["bed-1"].y_m > found["bed-3"].y_m


def test_soil_water_shade_mulch() -> None:
    bed = one(
        "one long ground bed 0.8 x 10 m, drip line 20 emitters of 2 l/h, sandy loam, mulched with straw,"
        " shaded by the hedge and apple tree"
    )
    assert (bed.name, bed.shape) == ("Long Bed", "ground")
    assert (bed.emitters, bed.emitter_l_h, bed.water_by) == (20, 2.0, "emitters")
    assert (bed.soil, bed.mulch, bed.shaded_by) == ("sandy loam", "straw", ("hedge", "apple tree"))


def test_flow_rated_and_measured() -> None:
    bed = one("bed 1 x 2 m, hose 12 l/min, measured 9.5 l/min")
    assert (bed.flow_l_min, bed.measured_l_min, bed.water_by) == (12.0, 9.5, "hose")
    # one US gallon is 3.785411784 l exactly
    assert one("bed 1 x 2 m, hose 3 gpm").flow_l_min == pytest.approx(11.3562, abs=1e-4)


def test_a_tub_by_its_litres_is_as_deep_as_wide() -> None:
    tub = one("a 40 litre tub")
    assert tub.width_m == tub.depth_m
    assert 1000 * 3.14159265 / 4 * tub.width_m**2 * tub.depth_m == pytest.approx(40, rel=1e-3)


def test_tubs_and_sacks_are_round() -> None:
    found = beds(
        "2 tubs 45 cm across, watered by can", "a sack", "trough 30 x 90 cm", "square tub 40 x 40 cm"
    )
    assert [(bed.shape, bed.is_round) for bed in found.values()] == [
        ("tub", True), ("tub", True), ("sack", True), ("tub", False), ("tub", False),
    ]  # fmt: skip
    assert found["tub-1"].water_by == "can"


def test_sides_distances_and_places() -> None:
    found = beds(
        "4 beds 1 x 2 m, paths 0.5 m",
        "a tunnel 3 x 6 m, 2 m north of them",
        "cold frame 0.6 x 1.2 m west of bed 1",
        "a bed 1 x 1 m at 20, 3 m named Far",
    )
    assert found["tunnel"].y_m - (found["bed-1"].y_m + 2.0) == pytest.approx(2.0)
    assert found["tunnel"].x_m == found["bed-1"].x_m
    assert found["cold-frame"].x_m + 0.6 == pytest.approx(found["bed-1"].x_m - 0.5)
    assert corner(found["far"]) == (20.0, 3.0)


def test_what_is_in_the_way_is_passed() -> None:
    found = beds("2 beds 1 x 2 m", "box 1 x 1 m north of bed 1", "trough 1 x 1 m north of bed 1")
    assert found["trough-1"].y_m > found["box-1"].y_m + 1.0


def test_beds_inside_a_tunnel() -> None:
    laid = lay_out(["a tunnel 3 x 6 m", "3 beds 0.8 x 5 m inside the tunnel"])
    found = laid.beds
    assert [found[f"tunnel-bed-{n}"].inside for n in (1, 2, 3)] == ["tunnel"] * 3
    assert found["tunnel-bed-3"].x_m == pytest.approx(2.2)
    assert "Line 2: in Tunnel they lie 30 cm apart." in laid.took
    assert list(overlapping(found)) == []


def test_a_second_lot_of_beds_finds_room_in_the_tunnel() -> None:
    found = beds("a tunnel 3 x 6 m", "2 beds 0.8 x 3 m in the tunnel", "2 beds 0.8 x 2 m in the tunnel")
    assert list(overlapping(found)) == []
    assert {found[f"tunnel-bed-{n}"].inside for n in range(1, 5)} == {"tunnel"}


def test_lying_east_to_west() -> None:
    found = beds("3 beds 1 x 3 m lying east to west in 3 rows, paths 0.5 m")
    for bed in found.values():
        assert bed.turn_deg == 90.0
    assert list(overlapping(found)) == []
    assert found["bed-1"].y_m - found["bed-2"].y_m == pytest.approx(1.5)


def test_a_turned_block_stays_apart() -> None:
    found = beds("9 beds 1 x 3 m in 3 rows turned 30 degrees", "a tunnel 3 x 6 m east of them")
    assert list(overlapping(found)) == []


def test_new_beds_beside_those_there() -> None:
    there = dict(beds("3 beds 1 x 2 m"))
    found = beds("2 beds 1 x 2 m east of them", "bed 2 clay", there=there)
    assert list(found) == ["bed-4", "bed-5", "bed-2"]
    assert found["bed-2"].soil == "clay"
    assert corner(found["bed-2"]) == corner(there["bed-2"])


def test_names_own_words_and_lists() -> None:
    assert list(beds("a herb bed 1 x 1 m")) == ["herb-bed"]
    assert list(beds("3 beds 1 x 2 m named Ada, Bo and Cy")) == ["ada", "bo", "cy"]
    assert list(beds('a bed 1 x 2 m called "By the Gate"')) == ["by-the-gate"]
    assert list(beds("beds 5 to 7, 1 x 2 m")) == ["bed-5", "bed-6", "bed-7"]
    assert list(beds("2 beds 1 x 2 m numbered from 13")) == ["bed-13", "bed-14"]
    assert len(beds("a dozen tubs 40 cm across, half a dozen pots 30 cm across")) == 18


def test_what_was_taken_is_told() -> None:
    took = " ".join(lay_out(["3 beds"]).took)
    for part in ("1.2 m by 2.4 m", "loam", "paths are 0.5 m wide", "numbered from the west"):
        assert part in took
    assert "4 ft by 8 ft" in " ".join(lay_out(["3 beds"], units="us").took)


def test_every_problem_at_once_with_line_and_column() -> None:
    found = faults(
        "12 beds 1.2 x 2.4 m in 3 rows, paved 0.6 m",
        "9 tubbs",
        "a tunnel 3 x 600 m",
        "bed 40 clay",
        "paths 3 m",
        "beds 1 x 2 m",
    )
    starts = ["line 1, column 32", "line 2, column 1", "line 3, column 10", "line 4, column 1",
              "line 5, column 1", "line 6, column 1"]  # fmt: skip
    assert [text.split(":")[0] for text in found] == starts
    assert "tubs" in found[1]
    assert "Bed 4" in found[3]


@pytest.mark.parametrize(
    ("lines", "part"),
    [
        (("3 beds 2 x 8 m inside the tunnel",), "'tunnel'"),
        (("a tunnel 2 x 3 m", "4 beds 1 x 2 m inside the tunnel"), "what fits 2 m by 3 m"),
        (("bed 1 x 2 m at 0, 0", "bed 1 x 2 m at 0.5, 0.5"), "Bed 2 over Bed 1"),
        (("2 beds 1 x 2 m named A, B, C",), "3 names for 2"),
        (("bed 1 x 2 m named A", "bed 1 x 2 m named a"), "a second a"),
        (("bed 1 x 2 m, 2 x 3 m",), "one width"),
        (("bed 0 x 2 m",), "above zero"),
        (("3 beds 1 x 2 m in 4 rows",), "4 rows for 3"),
        (("2 beds 1 x 2 m", "bed 1 10 x 10 m"), "Bed 2 over Bed 1"),
        (("bed 1 x 2 m", "bed 1 north of them"), "another place"),
        (("4000 beds",), "1 to 300"),
        (("2 tubs 60 m across",), "5 cm to 3 m"),
        (("2 beds 1 x 2 m inside bed 1",), "bed 1"),
    ],
)
def test_refusals(lines: tuple[str, ...], part: str) -> None:
    assert any(part in fault for fault in faults(*lines)), faults(*lines)


def test_remarks_and_empty_lines() -> None:
    assert list(beds("# the top", "", "2 beds 1 x 2 m  # by the gate")) == ["bed-1", "bed-2"]
    assert beds("") == {}
