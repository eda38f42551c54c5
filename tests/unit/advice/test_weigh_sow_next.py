"""The next sowing weighed, on small invented gardens."""

from __future__ import annotations

import numpy as np
import pytest

from scenes import Weather, bed, said, scene_of
from spadework.advice.succession import NEVER, NextSowing, feeds_days, next_sowing, standing_of
from spadework.advice.weigh_sow_next import NextAnswer, _fed, weigh_sow_next
from spadework.crops.loader import load_sheet
from spadework.garden import entries as kinds

MILD = Weather(rain_every=0)
PEAS = kinds.Sown(planting="pea-1", crop="pea", rows=2, row_length_m=2.0, area_m2=1.2, seeds=80)


def asked(sown: str, today: str) -> NextAnswer:
    scene = scene_of([bed(), said(PEAS, sown, bed="bed-1")], today, MILD)
    return weigh_sow_next(scene, load_sheet("pea"), standing_of(scene, "pea"), crop="pea", way="sown")


def made(ready: list[float]) -> NextSowing:
    """One year in which a sowing on each day is ready on a given day, and always gets there."""
    days = np.array([ready])
    return NextSowing(
        ready=days, arrives=np.ones_like(days), value=np.ones_like(days), gap=np.zeros_like(days)
    )


def test_days_fed_by_hand() -> None:
    run, over = made([50.0, 54.0, 70.0]), np.array([50.0])
    assert _fed(run, [0], over, 14.0, 20.0)[0] == 14.0  # ready on the day: all fourteen
    assert _fed(run, [1], over, 14.0, 20.0)[0] == 10.0  # four days late
    assert _fed(run, [2], over, 14.0, 20.0)[0] == 0.0  # after they are over
    early = np.array([60.0])
    # ready ten days too soon and good for twenty: ten are left when it is wanted
    assert _fed(run, [0], early, 14.0, 20.0)[0] == 10.0
    # half of it, seven days, and the other half from day 54 on
    assert _fed(run, [0, 1], over, 14.0, 20.0)[0] == 14.0


def test_what_is_cut_for_months_feeds_longer_than_the_days_between_two_sowings() -> None:
    parsley, radish = load_sheet("parsley"), load_sheet("radish")
    assert feeds_days(radish) == radish.next.every_days.value  # pulled once
    assert feeds_days(parsley) == parsley.harvest.days.value / 2.0 > parsley.next.every_days.value
    assert feeds_days(load_sheet("asparagus")) is None


def test_right_after_a_sowing_it_waits_and_later_it_is_today() -> None:
    early, late = asked("2026-04-20", "2026-04-21"), asked("2026-04-20", "2026-05-20")
    assert early.verdict in ("wait", "two steps")
    assert early.options[early.best].fed_days > early.options[0].fed_days + 0.5
    assert late.verdict == "sow today"
    assert late.options[0].gap_days > 0.0


def test_the_best_feeds_longest_within_little() -> None:
    answer = asked("2026-04-20", "2026-05-01")
    most = max(option.fed_days for option in answer.options)
    assert answer.options[answer.best].fed_days >= most - 0.5
    for option in answer.options:
        assert len(option.fed_by_year) == 12
        assert 0.0 <= option.fed_days <= answer.wanted_days
        assert option.fed_days == pytest.approx(np.mean(option.fed_by_year), abs=0.1)


def test_nothing_stands() -> None:
    scene = scene_of([bed()], "2026-05-01", MILD)
    answer = weigh_sow_next(scene, load_sheet("pea"), [], crop="pea", way="sown")
    assert answer.before is None
    assert answer.verdict == "sow today"
    assert "nothing of it stands" in answer.reason


def test_too_late_in_the_season_nothing_gets_there() -> None:
    scene = scene_of([bed()], "2026-10-20", MILD)
    run = next_sowing(load_sheet("pea"), scene.ground, scene.column, before=None)
    assert float(run.arrives.mean()) < 0.5
    assert float(run.ready.max()) <= NEVER
