"""What every question opens: the garden, its record, and the ground through the years."""

from __future__ import annotations

import hashlib
from datetime import date
from pathlib import Path

import numpy as np
import pytest

from spadework.clock.ground import SPIN_UP_DAYS
from spadework.errors import GardenError, ParameterError, RecordError, UnknownName
from spadework.usecases.ask_frost import ask_frost
from spadework.usecases.ask_ready import RUN_DAYS, ask_ready
from spadework.usecases.keep_garden import add_weather, make_garden
from spadework.usecases.setting import FARTHEST_AHEAD_DAYS, check_ahead, column_of, open_setting
from spadework.usecases.show_weather import show_weather
from spadework.usecases.weigh_resowing import weigh_resowing
from spadework.usecases.weigh_sowing import rank_sowings, weigh_sowing

TODAY = date(2018, 5, 10)


def test_the_ground_begins_well_before_the_sowing(north_garden: Path) -> None:
    ground, notes = open_setting(north_garden, TODAY).ground(date(2018, 4, 20), 200)
    assert column_of(ground, date(2018, 4, 20)) == SPIN_UP_DAYS
    assert ground.dates.size == SPIN_UP_DAYS + 200
    assert ground.years.count == 30
    assert ground.years.seen_days == SPIN_UP_DAYS + 21
    assert notes == []
    # the days seen are the same in every row, what follows is not
    assert np.ptp(ground.years.tmin_c[:, : ground.years.seen_days], axis=0).max() == 0.0
    assert np.ptp(ground.years.tmin_c[:, ground.years.seen_days :], axis=0).min() > 0.0


def test_a_day_to_come_begins_before_today(north_garden: Path) -> None:
    ground, _ = open_setting(north_garden, TODAY).ground(date(2018, 7, 1), 100)
    assert column_of(ground, TODAY) == SPIN_UP_DAYS
    assert column_of(ground, date(2018, 7, 1)) == SPIN_UP_DAYS + 52


def test_nothing_after_today_is_seen(north_garden: Path) -> None:
    """The record runs on to the end of the year; asked in May it must not be looked at."""
    setting = open_setting(north_garden, TODAY)
    ground, _ = setting.ground(date(2018, 4, 20), 200)
    series = setting.folder.weather()
    from_today = series.index_of(np.datetime64("2018-05-11"))
    truth = series.tmin_c[from_today : from_today + 60]
    at = ground.years.seen_days
    assert all(np.abs(row[at : at + 60] - truth).max() > 1.0 for row in ground.years.tmin_c)
    assert max(ground.years.labels) < 2018


def test_a_garden_without_weather_and_no_garden_at_all(tmp_path: Path) -> None:
    with pytest.raises(GardenError, match="No garden in"):
        open_setting(tmp_path / "none", TODAY)
    make_garden(tmp_path / "bare", "Bare", 45.0, 1.0, 10.0)
    for question in (
        lambda: ask_frost(tmp_path / "bare", TODAY),
        lambda: ask_ready(tmp_path / "bare", TODAY, "carrot", sown=TODAY),
        lambda: weigh_sowing(tmp_path / "bare", TODAY, "carrot"),
        lambda: rank_sowings(tmp_path / "bare", TODAY),
        lambda: weigh_resowing(tmp_path / "bare", TODAY, "carrot", sown=date(2018, 5, 1), seeds=9, up=1),
        lambda: show_weather(tmp_path / "bare", TODAY),
    ):
        with pytest.raises(RecordError, match="no weather yet") as caught:
            question()
        assert "weather add" in caught.value.hint


def test_a_crop_that_is_not_known(north_garden: Path) -> None:
    with pytest.raises(UnknownName) as caught:
        weigh_sowing(north_garden, TODAY, "parsnp")
    assert "parsnip" in caught.value.hint


def test_dates_too_far_ahead() -> None:
    check_ahead(date(2019, 6, 14), TODAY, "--sown")
    with pytest.raises(ParameterError, match=str(FARTHEST_AHEAD_DAYS)):
        check_ahead(date(2019, 6, 15), TODAY, "--sown")


@pytest.mark.parametrize("by", [date(2018, 4, 30), date(2019, 3, 15)])
def test_a_day_outside_what_is_followed(north_garden: Path, by: date) -> None:
    with pytest.raises(ParameterError, match=f"within {RUN_DAYS} days"):
        ask_ready(north_garden, TODAY, "carrot", sown=date(2018, 5, 1), by=by)


def test_ready_by_a_day_never_falls(north_garden: Path) -> None:
    chances = []
    for by in (date(2018, 5, 1), date(2018, 7, 20), date(2018, 8, 20), date(2019, 2, 24)):
        found = ask_ready(north_garden, TODAY, "carrot", sown=date(2018, 5, 1), by=by)
        assert found.ready_by is not None
        chances.append(found.ready_by.chance)
        last = found.ready_before_loss.chance
    assert chances == sorted(chances)
    assert chances[0] == 0.0
    assert chances[-1] == pytest.approx(last, abs=1e-3)


def test_one_start_is_needed(north_garden: Path) -> None:
    with pytest.raises(ParameterError, match="One start"):
        ask_ready(north_garden, TODAY, "carrot")
    with pytest.raises(ParameterError, match="One start"):
        ask_ready(north_garden, TODAY, "tomato", sown=TODAY, set_out_on=TODAY)


def test_a_refused_file_changes_nothing(own_garden: Path, tmp_path: Path) -> None:
    record = own_garden / "weather" / "daily.csv"
    before = hashlib.sha256(record.read_bytes()).hexdigest()
    bad = tmp_path / "bad.csv"
    bad.write_text("date,tmin (C),tmax (C),rain (mm)\n2018-01-01,5,x,0\n", encoding="utf-8")
    from spadework.errors import InputFileError

    with pytest.raises(InputFileError, match="nothing was changed") as caught:
        add_weather(own_garden, bad, {})
    assert caught.value.faults
    assert hashlib.sha256(record.read_bytes()).hexdigest() == before


def test_a_file_that_is_not_there(own_garden: Path, tmp_path: Path) -> None:
    with pytest.raises(GardenError, match="cannot be read"):
        add_weather(own_garden, tmp_path / "none.csv", {})


def test_a_record_that_ended_years_ago_plans_but_does_not_follow(north_garden: Path) -> None:
    found = weigh_sowing(north_garden, date(2026, 5, 10), "carrot")
    assert "2018-12-31" in found.note
    with pytest.raises(RecordError, match="2018-12-31"):
        ask_ready(north_garden, date(2026, 5, 10), "carrot", sown=date(2026, 5, 1))


@pytest.mark.parametrize(
    ("given", "said"),
    [
        ({"seeds": 150, "up": 151}, "more than the 150"),
        ({"seeds": 150, "up": -1}, "below zero"),
        ({"seeds": 0, "up": 0}, "--seeds 0"),
        ({"seeds": 10, "up": 1, "sown": date(2018, 5, 11)}, "after today"),
        ({"seeds": 10, "up": 1, "sown": date(2017, 5, 11)}, "364 days ago"),
        ({"seeds": 10, "up": 1, "earlier": [(date(2018, 5, 5), 11)]}, "--up-on 11"),
        ({"seeds": 10, "up": 1, "earlier": [(date(2018, 4, 5), 1)]}, "not between"),
        ({"seeds": 10, "up": 1, "earlier": [(date(2018, 5, 10), 1)]}, "not between"),
        ({"seeds": 10, "up": 1, "earlier": [(date(2018, 5, 5), 1), (date(2018, 5, 5), 2)]}, "one day"),
        ({"seeds": 10, "up": 1, "wanted": 11}, "--wanted 11"),
        ({"seeds": 10, "up": 1, "dug": "green"}, "'green'"),
        ({"seeds": 10, "up": 1, "germination_pct": 0.0}, "--germination 0"),
        ({"seeds": 10, "up": 1, "germination_pct": float("nan")}, "--germination nan"),
        ({"seeds": 10, "up": 1, "depth_mm": 300.0}, "--depth 300"),
    ],
)
def test_counts_and_dates_that_cannot_be(north_garden: Path, given: dict, said: str) -> None:  # type: ignore[type-arg]
    asked = {"sown": date(2018, 4, 25), **given}
    with pytest.raises(ParameterError) as caught:
        weigh_resowing(north_garden, TODAY, "carrot", **asked)
    assert said in caught.value.message
    assert caught.value.hint
