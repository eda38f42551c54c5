"""Supporting, mulching and the daily look, on small invented gardens."""

from __future__ import annotations

from datetime import date

import numpy as np
import pytest

from scenes import Weather, bed, only, said, scene_of
from spadework.advice.jobs import look, mulch, support
from spadework.garden import entries as kinds

TOMATOES = kinds.PlantedOut(planting="tomato-1", crop="tomato", plants=6)
GARDEN = [bed(), said(TOMATOES, "2026-05-20", bed="bed-1")]
DRY = Weather(rain_every=0)


def _tall(height_cm: float) -> list[kinds.Entry]:
    return [*GARDEN, said(kinds.Measured(height_cm=height_cm), "2026-06-10", planting="tomato-1")]


def test_tomatoes_are_staked_by_their_height() -> None:
    job = only(support.jobs(scene_of(_tall(32.0), "2026-06-10")))
    assert job.act == "Stake the tomatoes in Bed 1"
    assert job.window.opens == date(2026, 6, 10)
    assert 0.0 < job.forfeit(3) < job.forfeit(14)
    assert job.done == (kinds.Tended(act="supported"),)


def test_staked_they_are_tied_in_only_after_more_growth() -> None:
    staked = said(kinds.Tended(act="supported"), "2026-06-10", planting="tomato-1", bed="bed-1")
    assert not list(support.jobs(scene_of([*_tall(32.0), staked], "2026-06-10")))
    later = said(kinds.Measured(height_cm=70.0), "2026-07-01", planting="tomato-1")
    job = only(support.jobs(scene_of([*_tall(32.0), staked, later], "2026-07-01")))
    assert job.act == "Tie in the tomatoes in Bed 1"
    assert job.id == "support-tomato-1-2"


def _beans(height_cm: float) -> list[kinds.Entry]:
    sown = kinds.Sown(planting="fava-1", crop="fava-bean", rows=2, row_length_m=2.0)
    return [
        bed(),
        said(sown, "2026-03-20", bed="bed-1"),
        said(kinds.Stage(what="up"), "2026-04-10", planting="fava-1"),
        said(kinds.Measured(height_cm=height_cm), "2026-05-20", planting="fava-1"),
    ]


def _blowing(on: str, wind_m_s: float) -> Weather:
    return Weather(wind_m_s={date.fromisoformat(on): wind_m_s})


def test_what_is_held_against_wind_only_is_staked_when_gusts_are_forecast() -> None:
    assert not list(support.jobs(scene_of(_beans(60.0), "2026-05-20")))
    assert not list(support.jobs(scene_of(_beans(60.0), "2026-05-20", _blowing("2026-05-23", 6.0))))
    # a mean of 10 m/s gusts to 16, above the 14 that break stems standing as high as their support
    job = only(support.jobs(scene_of(_beans(60.0), "2026-05-20", _blowing("2026-05-23", 10.0))))
    assert job.act == "Stake the broad beans in Bed 1"
    assert "gusts strong enough to break them come within a week in 12 of 12 years" in job.reason
    # nothing is lost up to the morning of the gust, and what it breaks after that
    assert job.forfeit(3) == 0.0
    assert job.forfeit(4) == pytest.approx(support.BLOWN_LOSS, rel=0.25)
    assert job.window.closes == date(2026, 5, 23)


def test_a_gust_breaks_what_is_tall_and_spares_what_is_short() -> None:
    storm = _blowing("2026-06-12", 10.0)
    short = list(support.jobs(scene_of(_tall(10.0), "2026-06-10", storm)))
    tall = only(support.jobs(scene_of(_tall(40.0), "2026-06-10", storm)))
    calm = only(support.jobs(scene_of(_tall(40.0), "2026-06-10")))
    assert "gusts" in tall.reason
    assert not any("gusts" in job.reason for job in short)
    assert "gusts" not in calm.reason
    assert tall.forfeit(3) > calm.forfeit(3) + 0.1
    height = np.full((12, 22), 30.0)
    # no wind told: nothing is said of storms
    assert not support._storms(scene_of(_tall(32.0), "2026-06-10"), height, 30.0).any()


def _cucumbers(height_cm: float) -> list[kinds.Entry]:
    return [
        bed(),
        said(kinds.PlantedOut(planting="cucumber-1", crop="cucumber", plants=4), "2026-06-01", bed="bed-1"),
        said(kinds.Measured(height_cm=height_cm), "2026-06-20", planting="cucumber-1"),
    ]


def test_what_may_be_held_up_is_offered_by_choice_at_little_loss() -> None:
    job = only(support.jobs(scene_of(_cucumbers(26.0), "2026-06-20")))
    assert job.act == "Put up a trellis for the cucumbers in Bed 1, if you wish"
    assert "by choice: left to trail they take more room" in job.reason
    assert 0.0 < job.forfeit(14) <= support.CHOICE_LOSS
    # a storm does not break what lies on the ground
    blown = only(support.jobs(scene_of(_cucumbers(26.0), "2026-06-20", _blowing("2026-06-22", 12.0))))
    assert blown.forfeit(7) == pytest.approx(job.forfeit(7))
    # once it sprawls it is not offered any more
    assert not list(support.jobs(scene_of(_cucumbers(26.0), "2026-07-20")))


def test_mulch_where_drought_is_likely_and_the_soil_is_warm() -> None:
    job = only(mulch.jobs(scene_of(_tall(40.0), "2026-06-10", DRY)))
    assert job.forfeit(21) > job.forfeit(3) >= 0.0
    assert "Weed first" in job.reason
    assert "weedkiller" in job.cautions[0].text
    wet = Weather(rain_every=1, rain_of_mm=8.0)
    assert all(job.forfeit(21) < 1e-6 for job in mulch.jobs(scene_of(_tall(40.0), "2026-06-10", wet)))
    assert not list(mulch.jobs(scene_of(_tall(40.0), "2026-06-10", Weather(mean_c=2.0))))


def test_what_is_mulched_is_not_mulched_again() -> None:
    laid = said(kinds.Tended(act="mulched", material="straw"), "2026-06-09", bed="bed-1")
    assert not list(mulch.jobs(scene_of([*_tall(40.0), laid], "2026-06-10", DRY)))


def test_the_look_of_the_day_is_offered_once() -> None:
    job = only(look.jobs(scene_of(_tall(40.0), "2026-06-10")))
    assert 0.0 < job.forfeit(1) < job.forfeit(3) < job.forfeit(7)
    looked = said(kinds.Tended(act="looked over"), "2026-06-10")
    assert not list(look.jobs(scene_of([*_tall(40.0), looked], "2026-06-10")))
    assert not list(look.jobs(scene_of([bed()], "2026-06-10")))


def test_warm_days_bring_more_to_see() -> None:
    cold = only(look.jobs(scene_of(GARDEN, "2026-05-22", Weather(mean_c=5.0))))
    warm = only(look.jobs(scene_of(GARDEN, "2026-05-22", Weather(mean_c=13.0))))
    assert warm.forfeit(7) > cold.forfeit(7)
