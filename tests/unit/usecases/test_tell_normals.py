"""Normals told, and a garden answered from them alone."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from pathlib import Path

import numpy as np
import pytest

from ghcn_fixture import champion_series, climate_series, cordoba_series
from spadework.errors import ParameterError, RecordError
from spadework.garden.site import Site
from spadework.garden.told import MonthlyNormals
from spadework.store.garden_folder import GardenFolder, create
from spadework.usecases.ask_frost import ask_frost
from spadework.usecases.ask_ready import ask_ready
from spadework.usecases.tell_normals import normals_from_file, normals_from_rows, tell_normals
from spadework.usecases.weigh_sowing import weigh_sowing
from spadework.weather.normals import normals_of
from spadework.weather.read.result import ReadResult

TODAY = date(2026, 5, 20)


def fact_of(place: str) -> MonthlyNormals:
    own = normals_of(climate_series(place), place)
    low, high, rain = (
        tuple(float(round(value, 1)) for value in row) for row in (own.tmin_c, own.tmax_c, own.rain_mm)
    )
    return MonthlyNormals(tmin_c=low, tmax_c=high, rain_mm=rain)


@pytest.fixture
def garden(tmp_path: Path) -> GardenFolder:
    return create(tmp_path, Site("Home", 52.6, 1.3, 30.0))


def test_a_garden_with_normals_alone_is_answered_and_says_so(garden: GardenFolder) -> None:
    with pytest.raises(RecordError, match="tell normals"):
        ask_frost(garden.path, TODAY)
    found = tell_normals(garden.path, TODAY, fact_of("norfolk"), "county table")
    assert (found.climate, found.climate_named, found.used) == ("maritime", False, True)
    assert (found.years, found.made_years) == (30, 30)
    assert [freeze.which for freeze in found.freezes] == ["last in spring", "first in autumn"]
    assert date(2026, 3, 28) < found.freezes[0].middle < date(2026, 4, 25)

    frost = ask_frost(garden.path, TODAY)
    assert (frost.years, frost.made_years, frost.first_year) == (30, 30, None)
    assert "all 30 years are drawn from told monthly normals" in frost.note
    ready = ask_ready(garden.path, TODAY, "carrot", sown=date(2026, 5, 1))
    assert (ready.ready.made_years, ready.ready.years) == (30, 30)
    assert "Nothing of the days up to 2026-05-20 was seen" in ready.note
    assert weigh_sowing(garden.path, TODAY, "carrot").note == ready.note


def test_an_answer_for_an_earlier_day_does_not_know_them(garden: GardenFolder) -> None:
    tell_normals(garden.path, TODAY, fact_of("norfolk"), "county table")
    with pytest.raises(RecordError):
        ask_frost(garden.path, date(2026, 5, 19))


def test_normals_told_anew_take_the_place_of_the_old(garden: GardenFolder) -> None:
    tell_normals(garden.path, TODAY, fact_of("brussels"), "paper")
    found = tell_normals(garden.path, TODAY, fact_of("norfolk"), "county table")
    assert found.replaced == 1
    again = tell_normals(garden.path, TODAY, fact_of("norfolk"), "county table")
    assert (again.replaced, again.key) == (0, found.key)
    assert len(garden.told(TODAY)) == 1


def test_a_named_climate_wins_over_the_numbers(garden: GardenFolder) -> None:
    found = tell_normals(garden.path, TODAY, replace(fact_of("norfolk"), climate="continental"), "told")
    assert (found.climate, found.climate_named, found.tmin_sd_c[0]) == ("continental", True, 5.1)


def test_a_long_record_does_not_need_them(tmp_path: Path) -> None:
    garden = create(tmp_path, Site("Champion", 40.4, -101.7, 1000.0))
    garden.add_weather(ReadResult(champion_series(), "champion.csv", "table"))
    found = tell_normals(garden.path, date(2018, 12, 31), fact_of("champion"), "told")
    assert (found.stored, found.used, found.made_years, found.doubts) == (True, False, 0, [])


def test_normals_that_the_record_contradicts_are_asked_about(tmp_path: Path) -> None:
    garden = create(tmp_path, Site("Champion", 40.4, -101.7, 1000.0))
    short = champion_series().between(date(2012, 1, 1), date(2018, 12, 31))
    garden.add_weather(ReadResult(short, "champion.csv", "table"))
    today = date(2018, 12, 31)
    found = tell_normals(garden.path, today, fact_of("norfolk"), "told")
    assert (found.stored, garden.told(today)) == (False, ())
    assert any(d.startswith("Jul: told a mean of 16.9 °C, the record has 23.") for d in found.doubts)
    sure = tell_normals(garden.path, today, fact_of("norfolk"), "told", sure=True)
    assert (sure.stored, sure.used, len(garden.told(today))) == (True, True, 1)
    warm = replace(fact_of("champion"), tmax_c=tuple(v + 6 for v in fact_of("champion").tmax_c))
    doubted = tell_normals(garden.path, today, warm, "told")
    assert doubted.doubts
    assert doubted.doubts[0].startswith("Over the year told a mean of 12.7 °C, the record has 10.1 °C")


def test_normals_of_the_other_half_of_the_earth_are_refused(garden: GardenFolder, tmp_path: Path) -> None:
    before = garden.told(TODAY)
    with pytest.raises(ParameterError, match="January is 15 °C warmer than July, but Home lies north"):
        tell_normals(garden.path, TODAY, fact_of("cordoba"), "told")
    assert garden.told(TODAY) == before
    south = create(tmp_path / "south", Site("South", -31.4, -64.2, 480.0))
    found = tell_normals(south.path, TODAY, fact_of("cordoba"), "told")
    assert found.climate == "subtropical"
    middle = found.freezes[0].middle
    record = np.asarray(cordoba_series().tmin_c)
    assert (record <= 0).any()
    assert date(2025, 7, 15) < middle < date(2025, 10, 1)


def test_rows_and_tables_tell_the_same(tmp_path: Path) -> None:
    fact = fact_of("norfolk")

    def row(values: tuple[float, ...]) -> str:
        return " ".join(f"{value:g}" for value in values)

    told = normals_from_rows(row(fact.tmin_c), row(fact.tmax_c), row(fact.rain_mm), None, "")
    path = tmp_path / "normals.csv"
    lines = [f"{a:g},{b:g},{c:g}" for a, b, c in zip(fact.tmin_c, fact.tmax_c, fact.rain_mm, strict=True)]
    path.write_text("\n".join(["tmin,tmax,rain", *lines]))
    assert told == fact == normals_from_file(path, "")
    with pytest.raises(ParameterError, match="need --tmin, --tmax and --rain"):
        normals_from_rows(row(fact.tmin_c), None, None, None, "")
