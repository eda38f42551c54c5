"""Ways round beds, by hand and by what must hold of every way."""

from __future__ import annotations

from itertools import pairwise
from math import hypot
from time import process_time
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from garden_book import Pen
from spadework.errors import ParameterError, UnknownName
from spadework.garden import entries as kinds
from spadework.garden.fold import fold
from spadework.garden.state import Bed
from spadework.garden.walk import Walks, walks

BUDGET_S = 0.1


def beds(**described: dict[str, Any]) -> dict[str, Bed]:
    pen = Pen()
    for key, fields in described.items():
        pen(kinds.BedSet(name=key, **fields), bed=key)
    return dict(fold(pen.written).beds)


def bed(x_m: float, y_m: float, width_m: float = 1.2, length_m: float = 2.4, **more: Any) -> dict[str, Any]:
    return {"x_m": x_m, "y_m": y_m, "width_m": width_m, "length_m": length_m, **more}


def metres(found: Walks, one: str, other: str) -> float:
    along = found.way(one, other)
    drawn = sum(hypot(b[0] - a[0], b[1] - a[1]) for a, b in pairwise(along))
    assert drawn == pytest.approx(found.between(one, other))
    return drawn


def test_neighbours_are_stood_at_on_the_path_between_them() -> None:
    found = walks(beds(a=bed(0, 0), b=bed(1.8, 0)))
    assert found.stands == ((pytest.approx(1.35), 1.2), (pytest.approx(1.65), 1.2))
    assert metres(found, "a", "b") == pytest.approx(0.3)
    assert found.between("a", "a") == 0.0


def test_a_long_bed_between_is_gone_round() -> None:
    found = walks(beds(a=bed(0, 0), wall=bed(1.8, -2, length_m=6.4), b=bed(3.6, 0)))
    assert metres(found, "a", "b") == pytest.approx(2 * hypot(0.3, 3.35) + 1.5)
    assert not found.over


@pytest.mark.parametrize(("gap_m", "through"), [(0.2, False), (0.3, True), (0.5, True)])
def test_a_gap_of_less_than_thirty_centimetres_is_no_path(gap_m: float, through: bool) -> None:
    middle = 1.2 + gap_m / 2
    found = walks(beds(a=bed(0, 0), b=bed(1.2 + gap_m, 0)), {"south": (middle, -1.0), "north": (middle, 3.4)})
    assert (metres(found, "south", "north") == pytest.approx(4.4)) == through
    if not through:
        # Out to the corner of either bed, along its side, and back to the middle.
        assert metres(found, "south", "north") == pytest.approx(2 * hypot(middle + 0.15, 0.85) + 2.7)


def test_a_turned_bed_is_gone_round_at_its_turned_corner() -> None:
    square = beds(a=bed(0, 0, 2.0, 2.0, turn_deg=45.0))
    found = walks(square, {"west": (-3.0, 2**0.5), "east": (3.0, 2**0.5)})
    reach = 2**0.5 + 0.15 * 2**0.5
    assert metres(found, "west", "east") == pytest.approx(2 * hypot(3.0, reach))


def test_a_tunnel_is_gone_into_at_its_ends() -> None:
    found = walks(
        beds(
            tunnel=bed(0, 0, 3.0, 6.0, shape="tunnel"),
            left=bed(0.2, 0.5, 1.0, 5.0, inside="tunnel"),
            right=bed(1.8, 0.5, 1.0, 5.0, inside="tunnel"),
        ),
        {"gate": (5.0, 3.0)},
    )
    assert metres(found, "left", "right") == pytest.approx(0.3)
    expected = 2.65 + hypot(1.18, 0.5) + 0.32 + hypot(1.85, 3.15)
    assert metres(found, "right", "gate") == pytest.approx(expected)
    assert not found.over


def test_a_tunnel_without_beds_in_it_is_in_the_way() -> None:
    found = walks(beds(tunnel=bed(0, 0, 3.0, 6.0, shape="tunnel")), {"w": (-1.0, 3.0), "e": (4.0, 3.0)})
    assert metres(found, "w", "e") == pytest.approx(2 * hypot(0.85, 3.15) + 3.3)
    assert found.stands[0][0] == 1.5


def test_a_bed_in_a_frame_is_reached_from_the_frame_and_a_shelf_is_in_nobodys_way() -> None:
    found = walks(
        beds(
            frame=bed(0, 0, shape="frame"),
            half=bed(0, 0, 1.2, 1.2, inside="frame"),
            shelf=bed(3.0, 0, shape="shelf"),
        ),
        {"w": (2.0, 1.2), "e": (6.0, 1.2)},
    )
    assert found.between("frame", "half") == 0.0
    assert metres(found, "w", "e") == pytest.approx(4.0)


def test_a_bed_shut_in_by_others_is_stepped_to_and_that_is_said() -> None:
    ring = {
        "n": bed(-1.0, 2.4, 3.2, 1.0),
        "s": bed(-1.0, -1.0, 3.2, 1.0),
        "w": bed(-1.0, 0.0, 1.0, 2.4),
        "e": bed(1.2, 0.0, 1.0, 2.4),
    }
    found = walks(beds(shut=bed(0, 0), **ring, far=bed(5, 0)))
    assert found.over == {"shut"}
    assert 3.0 < metres(found, "shut", "far") < 6.0


def test_beds_without_a_place_and_beds_taken_up_are_left_out() -> None:
    pen = Pen()
    pen(kinds.BedSet(name="A"), bed="a")
    pen(kinds.BedSet(name="B", x_m=1.8), bed="b")
    pen(kinds.BedGone(), bed="b")
    pen(kinds.Tended(act="weeded"), bed="c")
    found = walks(fold(pen.written).beds)
    assert found.keys == ("a",)
    assert found.unplaced == ("c",)
    with pytest.raises(UnknownName):
        found.between("a", "c")
    with pytest.raises(ParameterError):
        walks(fold(pen.written).beds, {"a": (0.0, 0.0)})
    assert walks({}).metres.shape == (0, 0)


PLACES = st.floats(-6, 6)
GARDENS = st.lists(
    st.builds(
        bed,
        PLACES,
        PLACES,
        st.floats(0.4, 3.0),
        st.floats(0.4, 5.0),
        turn_deg=st.sampled_from([0.0, 0.0, 30.0, 90.0, 217.0]),
        shape=st.sampled_from(["framed", "ground", "tub", "tunnel", "shelf"]),
    ),
    min_size=2,
    max_size=7,
)


@settings(max_examples=60)
@given(GARDENS)
def test_ways_are_a_measure_and_never_lead_through_a_bed(described: list[dict[str, Any]]) -> None:
    named = {f"b{number}": fields for number, fields in enumerate(described)}
    garden = beds(**named)
    found = walks(garden, {"gate": (-9.0, -9.0)})
    far = found.metres
    assert np.isfinite(far).all()
    assert (far == far.T).all()
    assert (far <= (far[:, :, None] + far[None, :, :]).min(axis=1) + 1e-9).all()
    straight = np.hypot(*(np.array(found.stands)[:, None] - np.array(found.stands)[None]).transpose(2, 0, 1))
    assert (far >= straight - 1e-9).all()
    for one in found.keys:
        for other in found.keys:
            if {one, other} & found.over:
                continue
            way = found.way(one, other)
            for a, b in pairwise(way):
                for step in range(21):
                    x, y = (p + (q - p) * step / 20 for p, q in zip(a, b, strict=True))
                    assert not any(_well_inside(each, x, y) for each in garden.values()), (one, other)


def _well_inside(bed: Bed, x: float, y: float) -> bool:
    assert bed.outline is not None
    across, along = bed.outline.within((x, y))
    edge = min(across, along, bed.outline.width_m - across, bed.outline.length_m - along)
    return bed.shape != "shelf" and edge > 1e-6


def test_forty_beds_take_less_than_a_tenth_of_a_second() -> None:
    forty = beds(**{f"b{n}": bed(n % 8 * 1.8, n // 8 * 3.0) for n in range(40)})
    times = []
    for _ in range(5):
        begin = process_time()
        found = walks(forty)
        times.append(process_time() - begin)
    assert found.metres.shape == (40, 40)
    # Out to the end of the row, along two beds, and back to the middle of the far side.
    assert found.between("b0", "b2") == pytest.approx(hypot(0.3, 1.35) + 3.3 + 1.35)
    assert min(times) < BUDGET_S, f"{min(times) * 1e3:.0f} ms"
