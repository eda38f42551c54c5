"""Names of beds on the plan: every one is there, and none lies over another or over a bed."""

from __future__ import annotations

from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from spadework.faces.charts.plan_names import Box, Named, name_places

BOUNDS: Box = (0.0, 0.0, 500.0, 300.0)


def _share(one: Box, other: Box) -> bool:
    return min(one[2], other[2]) - max(one[0], other[0]) > 0.01 and (
        min(one[3], other[3]) - max(one[1], other[1]) > 0.01
    )


def _row(names: list[str], *, wide: float = 28.8, path: float = 14.4) -> list[Named]:
    step = wide + path
    return [
        Named(name.casefold(), name, (60 + at * step, 100.0, 60 + at * step + wide, 220.0))
        for at, name in enumerate(names)
    ]


def test_long_names_over_narrow_beds_do_not_meet() -> None:
    beds = _row(["Asparagus bed", "Rhubarb bed", "Berry 1", "Berry 2", "Herb bed", "Bush row"])
    found = name_places(beds, BOUNDS)
    assert set(found) == {bed.key for bed in beds}
    boxes = [each.box for each in found.values()]
    for at, box in enumerate(boxes):
        assert not any(_share(box, other) for other in boxes[at + 1 :])
        assert not any(_share(box, bed.box) for bed in beds)


def test_tubs_in_a_column_are_named_beside() -> None:
    tubs = [Named(f"t{at}", f"Tub {at}", (50.0, 60 + 18.0 * at, 60.0, 70 + 18.0 * at)) for at in range(6)]
    found = name_places(tubs, BOUNDS)
    lines = sorted(each.lines[0][1] for each in found.values())
    assert all(after - before > 10 for before, after in pairwise(lines))


def test_a_name_in_a_tunnel_stays_in_it() -> None:
    tunnel = Named("tunnel", "Tunnel", (100.0, 60.0, 182.0, 252.0))
    beds = [
        tunnel,
        Named("west", "Tunnel west", (105.0, 72.0, 134.0, 240.0), "tunnel"),
        Named("east", "Tunnel east", (148.0, 72.0, 177.0, 240.0), "tunnel"),
    ]
    found = name_places(beds, BOUNDS)
    for key in ("west", "east"):
        left, top, right, bottom = found[key].box
        assert left >= 100
        assert right <= 182
        assert top >= 59
        assert bottom <= 253


@given(st.lists(st.text("abc d", min_size=1, max_size=20), min_size=1, max_size=8, unique=True))
def test_every_bed_is_named_whatever_it_is_called(names: list[str]) -> None:
    beds = [Named(str(at), name, (20.0 * at, 40.0, 20.0 * at + 12, 90.0)) for at, name in enumerate(names)]
    found = name_places(beds, BOUNDS)
    assert {key: " ".join(line for _, _, line in each.lines).split() for key, each in found.items()} == {
        bed.key: bed.name.split() for bed in beds
    }
