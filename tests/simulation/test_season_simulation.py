"""The simulated seasons themselves hold together, and the round pays in a short one.

The whole comparison, on three records with 30, 60 and 90 minutes, is written by
`tools/season_simulation.py` and reported in docs/accuracy.md; what is here is small
enough to run with every change.
"""

from __future__ import annotations

from functools import cache

import numpy as np
import pytest

from simulated_season.growers import served
from simulated_season.losses import Ground, TrueGarden
from simulated_season.nature import NATURES, Curves, built_up, drawn
from simulated_season.season import Outcome, Run, Way, season
from spadework.garden import entries as kinds

EVERYTHING = ("keep damp", "sow again", "weed", "water", "thin", "cover", "guard", "support", "earth up")
SHORT = Run(place="champion", year=2016, plantings=8, days=80, years=8)


def garden(*served_kinds: str, curves: Curves | None = None) -> TrueGarden:
    return TrueGarden(curves or Curves(fails=0.0), dict(NATURES), served_kinds or EVERYTHING, seed=1)


def sown(true: TrueGarden, crop: str = "carrot") -> None:
    act = kinds.Sown(planting="p", crop=crop, rows=3, row_length_m=1.2)
    true.start(act, "b", 5.0, 2.88)


def days(true: TrueGarden, count: int, low: float = 10.0, high: float = 22.0, rain: float = 4.0) -> None:
    for day in range(count):
        true.pass_day(day, low, high, rain, 4.0)


def left(true: TrueGarden) -> float:
    return true.plants["p"].kept


def test_a_crop_that_is_cared_for_comes_in_whole() -> None:
    true = garden("pick")  # nothing can be done against any loss, so none is drawn
    sown(true)
    days(true, 110)
    assert true.apply(kinds.Lifted(), "b", "p", 110) == pytest.approx(1.0)
    assert true.brought_in == pytest.approx(true.possible)


def test_lifted_too_soon_it_gives_less_and_is_gone() -> None:
    true = garden("pick")
    sown(true)
    days(true, 60)
    assert 0.0 < true.apply(kinds.Ended(how="cleared"), "b", "p", 60) < 0.7
    assert true.apply(kinds.Lifted(), "b", "p", 60) == 0.0


@pytest.mark.parametrize(
    ("crop", "kind", "cause", "care"),
    [
        ("carrot", "weed", "weeds", kinds.Tended(act="hoed")),
        ("carrot", "thin", "crowding", kinds.Thinned(left=72)),
        ("carrot", "water", "thirst", kinds.Watered(depth_mm=40.0)),
        ("potato", "earth up", "light", kinds.Tended(act="earthed up")),
        ("cabbage", "guard", "birds", kinds.Moved(act="on", item="net")),
    ],
)
def test_every_care_saves_from_its_own_loss(crop: str, kind: str, cause: str, care: kinds.Payload) -> None:
    lost = []
    for done in (False, True):
        true = garden(kind)
        sown(true, crop)
        for day in range(90):
            if done and day % 8 == 0:
                true.apply(care, "b", "p", day)
            true.pass_day(day, 10.0, 22.0, 0.0, 5.0)
        lost.append(true.lost_to().get(cause, 0.0))
    assert lost[0] > 0.2
    assert lost[1] < 0.5 * lost[0]


def test_a_seedbed_left_dry_loses_seed_and_sowing_again_brings_it_back() -> None:
    true = garden("keep damp", "sow again")
    sown(true)
    days(true, 9, rain=0.0)
    assert true.plants["p"].stand < 0.7
    true.apply(kinds.Sown(planting="p", crop="carrot"), "b", "p", 9)
    assert true.plants["p"].stand == 1.0


def test_frost_kills_tender_leaves_and_a_fleece_gains_on_it() -> None:
    true = garden("cover")
    sown(true, "tomato")
    true.pass_day(0, -0.8, 10.0, 0.0, 1.0)
    bare = left(true)
    assert bare < 1.0
    covered = garden("cover")
    sown(covered, "tomato")
    covered.apply(kinds.Moved(act="on", item="fleece"), "b", "p", 0)
    kept = []
    for day in range(30):
        covered.plants["p"].kept = 1.0
        covered.pass_day(day, -0.8, 10.0, 0.0, 1.0)
        kept.append(left(covered))
    assert np.mean(kept) > bare


def test_fruit_left_past_its_size_keeps_new_fruit_from_setting() -> None:
    taken = []
    for every in (3, 20):
        true = garden("pick")
        sown(true, "summer-squash")
        for day in range(120):
            true.pass_day(day, 15.0, 28.0, 3.0, 4.0)
            if day % every == 0:
                true.apply(kinds.Picked(), "b", "p", day)
        taken.append(true.plants["p"].taken)
    assert taken[0] > 0.9
    assert taken[1] < 0.8


def test_weeds_grow_to_cover_the_bed() -> None:
    ground = Ground(area_m2=1.0, water_mm=40.0)
    true = garden("weed")
    true.beds["b"] = ground
    days(true, 60)
    assert 0.5 < ground.weeds <= 1.0


def test_true_numbers_are_drawn_off_and_wrong_ones_farther() -> None:
    spread = {}
    for sort in ("near", "wrong"):
        found = [drawn(sort, np.random.default_rng(seed))[0].critical_cday for seed in range(60)]
        spread[sort] = float(np.std(np.log(found)))
    assert 0.1 < spread["near"] < 0.2
    assert 0.4 < spread["wrong"] < 0.65
    assert drawn("wrong", np.random.default_rng(3))[0] == drawn("wrong", np.random.default_rng(3))[0]


def test_losses_build_up_by_their_shape() -> None:
    assert [built_up(0.4, shape) for shape in ("ramp", "step", "late")] == pytest.approx([0.4, 0.0, 0.064])
    assert {built_up(1.0, shape) for shape in ("ramp", "step", "late")} == {1.0}


@cache
def short(way: Way, minutes: float = 30.0) -> Outcome:
    return season(SHORT, way, minutes)


@pytest.mark.slow
@pytest.mark.parametrize("way", ["round", "bed order", "packet"])
def test_every_grower_keeps_to_the_minutes_and_brings_something_in(way: Way) -> None:
    outcome = short(way)
    assert max(outcome.minutes) <= 30.0
    assert 0.0 < outcome.kept <= 1.0
    assert sum(outcome.done.values()) > 20


@pytest.mark.slow
def test_the_round_keeps_more_than_packet_dates_do_in_a_dry_season() -> None:
    assert short("round").kept > short("packet").kept + 0.05
    assert short("round").lost["weeds"] < short("packet").lost["weeds"]


@pytest.mark.slow
def test_a_season_is_the_same_each_time_it_is_run() -> None:
    assert season(SHORT, "packet", 30.0) == short("packet")
    assert "weed" not in short("packet").lost or "weed" in served()
