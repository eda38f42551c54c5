"""Telling: what is kept, what is asked about first, and what it does to answers."""

from __future__ import annotations

import shutil
from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path

import msgspec
import pytest

from spadework.errors import ParameterError, RecordError
from spadework.garden.told import (
    Fact,
    ForecastDay,
    FrostTable,
    MonthlyNormals,
    PairedMinima,
    SoilWarmth,
    Thermometer,
    WarmthTotal,
)
from spadework.usecases.ask_frost import ask_frost
from spadework.usecases.ask_ready import ask_ready
from spadework.usecases.keep_garden import make_garden
from spadework.usecases.setting import open_setting
from spadework.usecases.tell import ToldAnswer, forget, list_told, tell
from spadework.usecases.weigh_sowing import weigh_sowing
from tellings import is_told_nothing

TODAY = date(2018, 5, 20)
APRIL = date(2018, 4, 1)

SOIL = SoilWarmth(temp_c=12.0, depth_cm=5.0, first=TODAY, last=TODAY)
WARMTH = WarmthTotal(total_cday=140.0, base_c=10.0, since=APRIL, until=TODAY)
FORECAST = ForecastDay(day=TODAY + timedelta(days=1), high_c=15.0, low_c=6.0)
TABLE = FrostTable(below_c=0.0, season="spring", dates=((0.5, date(2018, 5, 1)), (0.1, date(2018, 5, 16))))
PAIR = PairedMinima(difference_c=-2.5, nights=20, spread_c=1.2)


def say(garden: Path, *facts: Fact, today: date = TODAY, sure: bool = False) -> ToldAnswer:
    return tell(garden, today, facts, source="test", sure=sure)


def emergence(garden: Path, today: date = TODAY, sown: date = TODAY) -> date:
    found = ask_ready(garden, today, "carrot", sown=sown).emergence
    assert found is not None
    assert found.q50 is not None
    return found.q50


# -- answers -------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("colder", "warmer"),
    [
        (SOIL, replace(SOIL, temp_c=21.0)),
        (replace(WARMTH, total_cday=108.0), replace(WARMTH, total_cday=145.0)),
        (
            [replace(FORECAST, day=TODAY + timedelta(days=d), high_c=11.0, low_c=2.0) for d in range(1, 9)],
            [replace(FORECAST, day=TODAY + timedelta(days=d), high_c=30.0, low_c=15.0) for d in range(1, 9)],
        ),
    ],
    ids=["soil", "warmth", "forecast"],
)
def test_warmth_told_brings_seed_up_sooner(
    own_garden: Path, tmp_path: Path, colder: Fact | list[Fact], warmer: Fact | list[Fact]
) -> None:
    sown = TODAY - timedelta(days=25) if isinstance(colder, WarmthTotal) else TODAY
    other = Path(shutil.copytree(own_garden, tmp_path / "other"))
    say(own_garden, *(colder if isinstance(colder, list) else [colder]))
    say(other, *(warmer if isinstance(warmer, list) else [warmer]))
    assert emergence(own_garden, sown=sown) > emergence(other, sown=sown)


def test_every_use_is_said_with_the_answer(own_garden: Path) -> None:
    kept = say(own_garden, SOIL, WARMTH, FORECAST, TABLE, PAIR)
    assert kept.stored
    for answer in (
        ask_ready(own_garden, TODAY, "carrot", sown=TODAY),
        weigh_sowing(own_garden, TODAY, "carrot"),
    ):
        for words in ("Told soil", "140 degree-days", "Told forecast", "last frosts of spring", "sheltered"):
            assert words in answer.note
    frost = ask_frost(own_garden, TODAY)
    assert "last frosts of spring" in frost.note
    assert "sheltered" in frost.note
    assert "Told soil" not in frost.note
    assert {fact.unit for fact in kept.facts} >= {"degC", "degC day", "d", "1"}


def test_frost_odds_meet_a_told_table_and_move_with_the_own_thermometer(own_garden: Path) -> None:
    plain = ask_frost(own_garden, TODAY).dates[0].last_spring
    say(own_garden, TABLE)
    told_ = ask_frost(own_garden, TODAY).dates[0].last_spring
    assert plain.q50 is not None
    assert told_.q50 is not None
    assert told_.q90 is not None
    assert plain.q50 > date(2018, 5, 8)
    assert abs((told_.q50 - date(2018, 5, 1)).days) <= 3
    assert abs((told_.q90 - date(2018, 5, 16)).days) <= 4
    say(own_garden, PAIR)
    hollow = ask_frost(own_garden, TODAY).dates[0].last_spring
    assert hollow.q50 is not None
    assert 5 <= (hollow.q50 - told_.q50).days <= 25


def test_an_open_thermometer_moves_the_leaf_line_alone(own_garden: Path) -> None:
    before = ask_frost(own_garden, TODAY)
    say(own_garden, replace(PAIR, difference_c=-5.0, own=Thermometer(shelter="open")))
    after = ask_frost(own_garden, TODAY)
    assert after.dates[0] == before.dates[0]
    assert after.dates[1].last_spring.q50 is not None
    assert before.dates[1].last_spring.q50 is not None
    assert after.dates[1].last_spring.q50 > before.dates[1].last_spring.q50


def test_nothing_told_later_is_used(own_garden: Path) -> None:
    week = TODAY - timedelta(days=7)
    before = ask_ready(own_garden, week, "carrot", sown=week), ask_frost(own_garden, week)
    say(own_garden, SOIL, WARMTH, FORECAST, TABLE, PAIR)
    assert (ask_ready(own_garden, week, "carrot", sown=week), ask_frost(own_garden, week)) == before
    assert list_told(own_garden, week).told == []


def test_forgetting_restores_the_earlier_answer_exactly(own_garden: Path) -> None:
    def answers() -> list[bytes]:
        return [
            msgspec.json.encode(answer)
            for answer in (
                ask_ready(own_garden, TODAY, "carrot", sown=TODAY),
                ask_frost(own_garden, TODAY),
                weigh_sowing(own_garden, TODAY, "lettuce"),
            )
        ]

    before = answers()
    for line in say(own_garden, SOIL, WARMTH, FORECAST, TABLE, PAIR).told:
        assert answers() != before
        forget(own_garden, TODAY, line.key[-8:].lower())
    assert answers() == before
    assert list_told(own_garden, TODAY).told == []


# -- without a record of this season -------------------------------------------------------------------


def test_told_facts_bear_where_the_record_ended_years_ago(own_garden: Path) -> None:
    today, sown = date(2026, 5, 20), date(2026, 5, 10)
    with pytest.raises(RecordError, match="The record ends"):
        ask_ready(own_garden, today, "carrot", sown=sown)
    moved = {
        "cold": (replace(WARMTH, since=date(2026, 4, 1), until=today, total_cday=90.0), 8.0),
        "warm": (replace(WARMTH, since=date(2026, 4, 1), until=today, total_cday=250.0), 22.0),
    }
    dates = {}
    for name, (total, soil) in moved.items():
        kept = say(own_garden, total, replace(SOIL, temp_c=soil, first=today, last=today), today=today)
        assert kept.stored, kept.doubts
        dates[name] = emergence(own_garden, today, sown)
        for line in kept.told:
            forget(own_garden, today, line.key)
    assert (dates["cold"] - dates["warm"]).days >= 3
    say(own_garden, *(replace(FORECAST, day=today + timedelta(days=d)) for d in range(1, 5)), today=today)
    assert "Told forecast" in ask_ready(own_garden, today, "carrot", sown=today).note
    table = ask_frost(own_garden, today).dates[0].last_spring.q50
    say(own_garden, TABLE, PAIR, today=today)
    assert ask_frost(own_garden, today).dates[0].last_spring.q50 != table


def test_told_facts_bear_on_made_years_too(tmp_path: Path) -> None:
    make_garden(tmp_path / "bare", "Bare", 44.0, -93.0, 300.0)
    low = (-14.0, -11.0, -5.0, 2.0, 9.0, 14.0, 17.0, 15.0, 10.0, 4.0, -3.0, -11.0)
    normals = MonthlyNormals(tmin_c=low, tmax_c=tuple(t + 11.0 for t in low), rain_mm=(60.0,) * 12)
    garden = tmp_path / "bare"
    say(garden, normals)
    before = emergence(garden)
    said = say(garden, replace(SOIL, temp_c=9.0), FORECAST, TABLE, PAIR)
    assert said.stored, said.doubts
    assert emergence(garden) > before
    note = ask_ready(garden, TODAY, "carrot", sown=TODAY).note
    for words in ("made", "Told soil", "Told forecast", "sheltered"):
        assert words in note.lower() or words in note


def test_a_garden_without_any_weather_keeps_what_it_is_told(tmp_path: Path) -> None:
    make_garden(tmp_path / "bare", "Bare", 45.0, 1.0, 10.0)
    kept = say(tmp_path / "bare", SOIL, WARMTH, FORECAST, TABLE, PAIR)
    assert kept.stored
    assert kept.does == []
    assert len(list_told(tmp_path / "bare", TODAY).told) == 5


# -- doubts --------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("facts", "both"),
    [
        ([replace(SOIL, temp_c=35.0)], ("35.0 °C", "°C then")),
        ([replace(SOIL, temp_c=2.0)], ("2.0 °C", "°C then")),
        ([replace(WARMTH, total_cday=400.0)], ("400 degree-days", "the record gives 1")),
        (
            [replace(TABLE, dates=((0.1, date(2018, 5, 1)), (0.5, date(2018, 5, 10))))],
            ("1 to 5 in 10", "rise"),
        ),
        (
            [
                FrostTable(
                    below_c=0.0, season="autumn", dates=((0.5, date(2018, 9, 20)), (0.1, date(2018, 9, 30)))
                )
            ],
            ("5 to 1 in 10", "fall"),
        ),
        ([replace(TABLE, dates=((0.5, date(2018, 3, 1)),))], ("1 Mar", "the record has 12 May")),
        ([replace(PAIR, difference_c=-9.0)], ("9.0 degrees colder", "8 degrees")),
        ([replace(FORECAST, high_c=55.0)], ("55.0 °C", "38.2 °C")),
        ([FORECAST, replace(FORECAST, high_c=20.0)], ("15.0 °C", "20.0 °C")),
        ([SOIL, replace(SOIL, temp_c=14.0)], ("12.0 °C", "14.0 °C")),
        ([SOIL, replace(SOIL, temp_c=24.0, depth_cm=10.0)], ("12.0 °C", "24.0 °C")),
        ([WARMTH, replace(WARMTH, total_cday=120.0)], ("140 degree-days", "120 degree-days")),
        ([WARMTH, replace(WARMTH, total_cday=145.0, until=date(2018, 5, 15))], ("140", "145")),
        ([TABLE, replace(TABLE, dates=((0.5, date(2018, 5, 3)),))], ("1 May", "3 May")),
        ([TABLE, replace(TABLE, below_c=-2.0, dates=((0.5, date(2018, 5, 8)),))], ("1 May", "8 May")),
        ([PAIR, replace(PAIR, difference_c=-1.0)], ("2.5 degrees", "1.0 degrees")),
    ],
)
def test_contradictions_are_asked_about_with_both_values(
    own_garden: Path, facts: list[Fact], both: tuple[str, str]
) -> None:
    assert all(say(own_garden, fact).stored for fact in facts[:-1])
    before = list_told(own_garden, TODAY)
    asked = say(own_garden, facts[-1])
    assert not asked.stored
    assert asked.does == []
    text = " ".join(asked.doubts)
    for value in both:
        assert value in text
    assert list_told(own_garden, TODAY) == before
    sure = say(own_garden, facts[-1], sure=True)
    assert sure.stored
    kept = list_told(own_garden, TODAY).told
    assert sure.told[0] in kept
    disagrees = "Told before" in text
    assert (len(sure.withdrawn) == 1) == disagrees
    assert len(kept) == (1 if disagrees else len(facts))


def test_all_or_nothing(own_garden: Path) -> None:
    asked = say(own_garden, WARMTH, replace(SOIL, temp_c=35.0))
    assert not asked.stored
    assert is_told_nothing(own_garden)


def test_the_same_words_twice_count_once(own_garden: Path) -> None:
    first = say(own_garden, SOIL, PAIR, FORECAST)
    again = say(own_garden, SOIL, PAIR, FORECAST)
    assert again.stored
    assert again.told == []
    assert again.known == first.told
    # the day after, the same forecast is a fresh one; the same reading is still the same
    tomorrow = say(own_garden, SOIL, FORECAST, today=TODAY + timedelta(days=1))
    assert [line.kind for line in tomorrow.told] == ["forecast"]


def test_a_newer_forecast_takes_the_older_ones_place_without_asking(own_garden: Path) -> None:
    say(own_garden, FORECAST, today=TODAY - timedelta(days=1))
    assert say(own_garden, replace(FORECAST, high_c=20.0, low_c=9.0)).stored
    # and what completes it is no contradiction
    assert say(own_garden, ForecastDay(day=FORECAST.day, rain_mm=3.0)).stored


def test_the_station_told_is_compared_with_the_record(own_garden: Path) -> None:
    night = replace(PAIR, nights=1, spread_c=None, on=TODAY)
    record = open_setting(own_garden, TODAY).weather()
    assert record is not None
    measured = float(record.tmin_c[record.index_of(TODAY)])
    asked = tell(own_garden, TODAY, [night], source="test", station_c=measured + 5.0)
    assert not asked.stored
    assert f"{measured:.1f} °C" in asked.doubts[0]
    assert tell(own_garden, TODAY, [night], source="test", station_c=measured + 0.5).stored


# -- impossible ----------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("fact", "wrong"),
    [
        (replace(FORECAST, high_c=5.0), "low 6.0 °C is above the high 5.0 °C"),
        (replace(FORECAST, high_c=None), "go together"),
        (replace(FORECAST, mean_c=16.0), "mean 16.0 °C is not between"),
        (replace(FORECAST, rain_odds=1.2), "odds of rain"),
        (replace(FORECAST, dew_c=18.0), "dew point 18.0 °C is above the high"),
        (replace(FORECAST, wind_m_s=-1.0), "Wind"),
        (replace(FORECAST, day=TODAY - timedelta(days=1)), "is past"),
        (replace(FORECAST, day=TODAY + timedelta(days=40)), "days ahead"),
        (ForecastDay(day=TODAY), "Nothing is told"),
        (replace(SOIL, first=TODAY + timedelta(days=1), last=TODAY + timedelta(days=1)), "not over yet"),
        (replace(SOIL, first=TODAY, last=TODAY - timedelta(days=1)), "is after"),
        (replace(SOIL, temp_c=80.0), "80 °C"),
        (replace(SOIL, temp_c=float("nan")), "Soil"),
        (replace(SOIL, depth_cm=80.0), "80 cm"),
        (replace(SOIL, hour=25.0), "25 h"),
        (replace(SOIL, first=APRIL, hour=8.0), "one day"),
        (replace(WARMTH, until=TODAY + timedelta(days=1)), "not over yet"),
        (replace(WARMTH, total_cday=-1.0), "-1 degree-days"),
        (replace(WARMTH, upper_c=9.0), "not above the base"),
        (replace(WARMTH, method="guess"), "no degree-day method"),
        (replace(TABLE, dates=()), "needs its dates"),
        (replace(TABLE, median=TODAY, spread_days=9.0), "needs its dates"),
        (replace(TABLE, dates=((1.0, TODAY),)), "no odds"),
        (replace(TABLE, dates=((0.5, date(2018, 9, 1)),)), "not in spring"),
        (replace(PAIR, nights=0), "nights"),
        (replace(PAIR, on=TODAY + timedelta(days=1)), "not here yet"),
        (replace(PAIR, difference_c=60.0), "60 degrees"),
    ],
)
def test_impossibilities_are_refused_even_from_the_sure(own_garden: Path, fact: Fact, wrong: str) -> None:
    with pytest.raises(ParameterError) as caught:
        say(own_garden, SOIL if fact is not SOIL else WARMTH, fact, sure=True)
    assert wrong in str(caught.value)
    assert is_told_nothing(own_garden)


def test_forgetting_needs_a_key_that_stands(own_garden: Path) -> None:
    key = say(own_garden, SOIL).told[0].key
    with pytest.raises(ParameterError, match="Nothing told"):
        forget(own_garden, TODAY - timedelta(days=1), key)
    with pytest.raises(ParameterError, match="Nothing told"):
        forget(own_garden, TODAY, "")
    assert forget(own_garden, TODAY, key).forgotten.key == key
    with pytest.raises(ParameterError, match="Nothing told"):
        forget(own_garden, TODAY, key)
