"""What lies before a bed: its soil up to today and in every year, and when what stands is ready."""

from __future__ import annotations

from datetime import date, timedelta
from pathlib import Path

import pytest

from spadework.faces.charts import soil_trace, water_standing
from spadework.faces.voice import Voice
from spadework.usecases.demo_garden import make_demo
from spadework.usecases.jobs_today import open_day
from spadework.usecases.keep_garden import make_garden
from spadework.usecases.show_bed_ahead import AHEAD_DAYS, BACK_DAYS, show_bed_ahead
from spadework.usecases.show_ground import show_ground
from spadework.usecases.show_water import short_of_water, show_water

DAY = date(2026, 6, 12)


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("demo") / "garden"
    make_demo(folder, DAY)
    return folder


def test_the_trace_runs_to_today_and_on_in_every_year(demo: Path) -> None:
    soil = show_bed_ahead(demo, DAY, "lake-1").soil
    assert soil is not None
    assert len(soil.past) == BACK_DAYS + 1
    assert soil.days[BACK_DAYS] == DAY
    assert soil.days[-1] == DAY + timedelta(days=AHEAD_DAYS)
    assert len(soil.reeds) == 30
    # every reed starts where the seen line ends
    assert soil.seen
    assert all(reed[0] == soil.past[-1] for reed in soil.reeds)
    inside = [reed for reed in soil.reeds if soil.later_low_c <= reed[-1] <= soil.later_high_c]
    assert len(inside) >= soil.later_years == 24
    assert (date(2026, 5, 31), 17.7) in soil.readings


def test_a_tunnel_is_warmer_than_the_open(demo: Path) -> None:
    tunnel, open_ = (show_bed_ahead(demo, DAY, bed).soil for bed in ("tunnel", "bush-row"))
    assert tunnel is not None
    assert open_ is not None
    assert tunnel.felt
    assert tunnel.now_c > open_.now_c


def test_without_weather_it_says_nothing_rather_than_guessing(tmp_path: Path) -> None:
    folder = tmp_path / "g"
    make_garden(folder, "Plot", 52.0, 0.0, 20.0, bed_lines=["2 beds 1.2 x 2.4 m"], today=DAY)
    found = show_bed_ahead(folder, DAY, "bed-1")
    assert found.soil is None
    assert show_ground(folder, DAY).beds[0].plantings == []


def test_plants_are_drawn_as_they_have_grown(demo: Path) -> None:
    beds = {bed.key: bed for bed in show_ground(demo, DAY).beds}
    beans = beds["shed-3"].plantings[0]
    assert not beans.up
    assert len(beans.drills) == 2
    (ax, ay), (bx, by) = beans.drills[0]
    assert ax == bx
    assert by > ay
    potatoes = beds["gate-2"].plantings[0]
    assert potatoes.up
    assert 0.0 < potatoes.grown < 1.0
    later = {bed.key: bed for bed in show_ground(demo, DAY + timedelta(days=30)).beds}
    assert later["gate-2"].plantings[0].grown > potatoes.grown


def test_beds_that_go_short_are_those_the_water_page_names(demo: Path) -> None:
    short = short_of_water(open_day(demo, DAY).scene)
    told = {bed.bed: bed.short for bed in show_water(demo, DAY).beds if bed.short is not None}
    assert short == told
    assert short


@pytest.mark.parametrize("us", [False, True])
def test_the_picture_speaks_the_garden_s_degrees(demo: Path, us: bool) -> None:
    soil = show_bed_ahead(demo, DAY, "lake-1").soil
    assert soil is not None
    drawn = str(soil_trace(soil, DAY, Voice(us=us, today=DAY), title="Soil"))
    assert (">70°<" in drawn) == us
    assert (">20°<" in drawn) == (not us)
    assert drawn.count('class="warm-reed') == 30


def test_the_store_is_drawn_within_its_outline() -> None:
    drawn = str(water_standing(40.0, 90.0, 10.0, title="Water"))
    assert "short below here" in drawn
    assert "NaN" not in drawn.casefold()
