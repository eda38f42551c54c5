"""Whatever a line says: beds that do not lie over each other, or a refusal with reasons."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from spadework.errors import Fault, InputFileError
from spadework.garden.entries import BedSet
from spadework.garden.geometry import overlap
from spadework.garden.lay_out import lay_out
from spadework.garden.lay_out_plot import outline_of
from spadework.garden.site import Units

NUMBERS = st.one_of(
    st.integers(0, 400).map(str), st.floats(0.0, 60.0).map(lambda value: f"{value:.2f}"), st.just("1/2")
)
UNITS = st.sampled_from(["", " m", " cm", "mm", " ft", "'", '"', " in", " feet", " yards"])
LENGTHS = st.builds(str.__add__, NUMBERS, UNITS)
WHAT = st.sampled_from(
    ["beds", "bed", "raised beds", "a bed", "ground beds", "tubs", "a tunnel", "cold frame",
     "seed shelf indoors", "sacks", "herb bed", "box", "bed 2", "beds 1 to 3", "all beds", "the tunnel",
     "tunnel", "them"]
)  # fmt: skip
SIDES = st.sampled_from(["north", "south", "east", "west", "left", "beside", "inside", "in", "above"])
PARTS = st.one_of(
    st.builds("{} x {}".format, LENGTHS, LENGTHS),
    st.builds("{} by {}".format, LENGTHS, LENGTHS),
    st.builds("{} across".format, LENGTHS),
    st.builds("{} deep".format, LENGTHS),
    st.builds("raised {}".format, LENGTHS),
    st.builds("in {} rows".format, st.integers(0, 9)),
    st.builds("paths {}".format, LENGTHS),
    st.builds("{} of {}".format, SIDES, st.sampled_from(["them", "the beds", "tunnel", "bed 2", "it"])),
    st.builds("{} the {}".format, SIDES, st.sampled_from(["tunnel", "frame", "bed", "beds"])),
    st.builds("{} m {} of it".format, NUMBERS, SIDES),
    st.builds("turned {}".format, st.integers(-400, 400)),
    st.builds("at {}, {}".format, st.integers(-5, 5), st.integers(-5, 5)),
    st.builds("named {}".format, st.text(max_size=8)),
    st.sampled_from(["east to west", "clay loam", "indoors", "named A 1 to A 3", "9 emitters of 2 l/h", ";"]),
)  # fmt: skip
COUNTS = st.sampled_from(["", "2 ", "3 ", "a dozen ", "25 ", "six ", "one "])
LINES = st.builds(
    lambda count, what, parts: f"{count}{what} {' '.join(parts)}", COUNTS, WHAT, st.lists(PARTS, max_size=4)
)


def read(lines: list[str], units: Units) -> tuple[dict[str, BedSet] | None, list[Fault]]:
    try:
        return dict(lay_out(lines, units=units).beds), []
    except InputFileError as refused:
        return None, refused.faults


def expect_apart_or_reasons(lines: list[str], units: Units) -> None:
    found, faults = read(lines, units)
    assert (found is None) == bool(faults)
    assert all(fault.where.startswith("line ") and fault.found and fault.do for fault in faults)
    if found is None:
        return
    for one, bed in found.items():
        for other, its in found.items():
            if one < other and its.inside != one and bed.inside != other:
                assert not overlap(outline_of(bed), outline_of(its)), (lines, one, other)
        if bed.inside:
            host = outline_of(found[bed.inside])
            for x, y in outline_of(bed).corners:
                across, along = host.within((x, y))
                assert -0.01 <= across <= host.width_m + 0.01
                assert -0.01 <= along <= host.length_m + 0.01


@given(st.lists(LINES, max_size=5), st.sampled_from(["metric", "us"]))
def test_beds_lie_apart(lines: list[str], units: Units) -> None:
    expect_apart_or_reasons(lines, units)


SENSIBLE = st.builds(
    "{} {} {} x {} m {}{}".format,
    st.integers(1, 9),
    st.sampled_from(["beds", "boxes", "tunnels", "cold frames", "herb beds"]),
    st.floats(0.2, 4).map(lambda value: f"{value:.2f}"),
    st.floats(0.2, 9).map(lambda value: f"{value:.2f}"),
    st.sampled_from(["", "in a row ", "paths 0.7 m ", "east to west ", "turned 20 degrees "]),
    st.sampled_from(["", "3 m north of all", "west of all", "south of all", "beside all"]),
)


@given(st.lists(SENSIBLE, min_size=1, max_size=5), st.sampled_from(["metric", "us"]))
def test_sensible_lines_are_taken(lines: list[str], units: Units) -> None:
    lines = [lines[0].split(" m ")[0] + " m", *lines[1:]]  # nothing is there yet that it could lie beside
    expect_apart_or_reasons(lines, units)
    found, faults = read(lines, units)
    assert found is not None, (lines, faults)
    assert len(found) == sum(int(line.split()[0]) for line in lines)


@given(st.lists(st.text(max_size=60), max_size=3))
def test_any_text(lines: list[str]) -> None:
    expect_apart_or_reasons(lines, "metric")


@given(st.lists(LINES, max_size=5))
def test_the_same_lines_give_the_same_beds(lines: list[str]) -> None:
    assert read(lines, "metric") == read(lines, "metric")
