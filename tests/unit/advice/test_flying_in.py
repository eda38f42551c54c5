"""A cover's state weighs what flies in without it, on small invented gardens."""

from __future__ import annotations

from datetime import date

import pytest

from scenes import bed, said, scene_of
from spadework.advice.cover_state import settle
from spadework.advice.flying_in import flown_in
from spadework.clock.cover_kinds import covers
from spadework.garden import entries as kinds

TODAY = date(2026, 6, 12)
CABBAGES = [
    bed(),
    said(kinds.KitSet(item="fine net", sort="mesh", grade="0.8 mm", length_m=10.0), "2026-01-01"),
    said(kinds.KitSet(item="bird net", sort="netting", grade="20 mm", length_m=10.0), "2026-01-01"),
    said(kinds.PlantedOut(planting="cabbage-1", crop="cabbage", plants=6), "2026-05-20", bed="bed-1"),
    said(kinds.Moved(act="on", item="fine net", length_m=2.4), "2026-05-20", bed="bed-1"),
]


def test_a_fine_net_stays_over_cabbages_while_the_butterflies_fly() -> None:
    scene = scene_of(CABBAGES, TODAY)
    net = scene.garden.item("fine net")
    lost, names = flown_in(scene, scene.plots[0], net)
    assert float(lost.mean()) > 0.0
    assert "cabbage white caterpillar" in names
    found = settle(scene, scene.plots, covers()["mesh"], lies=False, item=net)
    assert (found.state, found.flown) == ("shut", pytest.approx(float(lost.mean())))


def test_what_passes_a_wide_net_does_not_count_for_it() -> None:
    scene = scene_of(CABBAGES, TODAY)
    lost, names = flown_in(scene, scene.plots[0], scene.garden.item("bird net"))
    assert (float(lost.max()), names) == (0.0, ())


def test_what_was_seen_under_it_is_shut_in_and_does_not_count() -> None:
    seen = said(kinds.Seen(what="cabbage white caterpillar", sort="pest"), "2026-06-10", bed="bed-1")
    scene = scene_of([*CABBAGES, seen], TODAY)
    assert (
        "cabbage white caterpillar" not in flown_in(scene, scene.plots[0], scene.garden.item("fine net"))[1]
    )
