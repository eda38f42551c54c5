"""The scene of a day: each planting runs in its own air, with what was seen of it. All of it invented."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import numpy as np
import pytest

from spadework.advice.job import AHEAD_DAYS
from spadework.advice.scene import Plot, Scene
from spadework.crops.loader import load_sheet
from spadework.garden import entries as kinds
from spadework.garden.site import Site
from spadework.store.garden_folder import create, open_garden
from spadework.usecases.keep_book import Act, garden_state, write_acts
from spadework.usecases.scene import build_scene
from spadework.usecases.setting import open_setting
from spadework.weather.demo_normals import demo_record
from spadework.weather.read.result import ReadResult

TODAY = date(2026, 6, 15)


def _acts() -> list[Act]:
    made = date(2026, 3, 1)
    beds = {
        "one": kinds.BedSet(name="One"),
        "two": kinds.BedSet(name="Two", x_m=2.0),
        "hoops": kinds.BedSet(name="Hoops", shape="tunnel", x_m=4.0, width_m=3.0, length_m=6.0),
        "shelf": kinds.BedSet(name="Shelf", shape="shelf", x_m=20.0),
        "crowns": kinds.BedSet(name="Crowns", x_m=8.0),
    }

    def sown(key: str, crop: str, bed: str, on: date) -> Act:
        act = kinds.Sown(planting=key, crop=crop, rows=2, row_cm=25.0, row_length_m=2.0, seeds=60)
        return Act(payload=act, on=on, bed=bed, planting=key)

    may = date(2026, 5, 10)
    return [
        *(Act(payload=bed, on=made, bed=key) for key, bed in beds.items()),
        sown("out", "lettuce", "one", may),
        sown("seen", "lettuce", "two", may),
        sown("in", "lettuce", "hoops", may),
        sown("warm", "lettuce", "shelf", may),
        Act(
            payload=kinds.PlantedOut(planting="rhubarb", crop="rhubarb", plants=3),
            on=date(2023, 4, 1),
            bed="crowns",
            planting="rhubarb",
        ),
        Act(payload=kinds.Stage(what="up"), on=date(2026, 6, 1), bed="two", planting="seen"),
        Act(payload=kinds.Stage(what="ready"), on=date(2026, 6, 14), bed="hoops", planting="in"),
    ]


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("scene") / "garden"
    create(path, Site(name="Invented", lat_deg=47.2, lon_deg=-93.4, elevation_m=320.0))
    garden = open_garden(path)
    garden.add_weather(ReadResult(demo_record(TODAY, years=16), "made weather", "daily-csv"))
    assert write_acts(garden, _acts(), today=TODAY, author="ann", insist=True).stored
    return path


@pytest.fixture(scope="module")
def scene(folder: Path) -> Scene:
    setting = open_setting(folder, TODAY)
    return build_scene(setting, garden_state(setting.folder))


def _plot(scene: Scene, key: str) -> Plot:
    return next(plot for plot in scene.plots if plot.key == key)


def _up(plot: Plot) -> date:
    assert plot.course.sprout is not None
    day = np.median(plot.course.sprout.median_day)
    found = plot.course.ground.dates[int(day)].item()
    assert isinstance(found, date)
    return found


def test_everything_that_stands_has_a_course_over_the_same_years(scene: Scene) -> None:
    assert {plot.key for plot in scene.plots} == {"out", "seen", "in", "warm", "rhubarb"}
    assert {plot.course.ready.shape[0] for plot in scene.plots} == {scene.years}
    for plot in scene.plots:
        assert plot.course.ground.dates[plot.column].item() == TODAY


def test_it_comes_up_sooner_on_a_shelf_and_in_a_tunnel(scene: Scene) -> None:
    assert _up(_plot(scene, "warm")) < _up(_plot(scene, "out"))
    assert _up(_plot(scene, "in")) < _up(_plot(scene, "out"))


def test_compost_on_a_shelf_is_as_warm_as_the_room(scene: Scene) -> None:
    soil = _plot(scene, "warm").course.ground.soil_mean_c
    np.testing.assert_allclose(soil, 18.0, atol=1e-9)


def test_a_day_it_was_seen_to_be_up_stands(scene: Scene) -> None:
    assert _up(_plot(scene, "seen")) == date(2026, 6, 1)
    assert _up(_plot(scene, "out")) != date(2026, 6, 1)


def test_a_day_it_was_seen_to_be_ready_stands(scene: Scene) -> None:
    plot = _plot(scene, "in")
    chance = plot.course.ready.mean(axis=0)
    assert chance[plot.column - 6] < 0.1
    assert chance[plot.column + 5] > 0.9


def test_nothing_has_taken_what_was_seen_to_stand(scene: Scene) -> None:
    plot = _plot(scene, "in")  # seen to be ready on 14 June
    for lost in (plot.course.lost_frost, plot.course.lost_heat, plot.course.bolted):
        assert lost[:, : plot.column - 1].max() == 0.0
        assert lost[:, -1].max() <= 1.0
    assert plot.course.lost_frost[:, -1].mean() > 0.9  # lettuce does not outlive a continental winter


def test_what_stands_for_years_begins_anew_each_season(scene: Scene) -> None:
    plot = _plot(scene, "rhubarb")
    assert plot.course.ground.dates[plot.course.start_day].item() == date(2026, 1, 1)
    assert plot.course.ready.mean(axis=0)[plot.column] > 0.5  # rhubarb is pulled from May


def test_starting_anew_brings_less_the_later_it_is(scene: Scene) -> None:
    tomato = scene.start_anew(load_sheet("tomato"))
    assert tomato.shape == (scene.years, AHEAD_DAYS + 1)
    mean = tomato.mean(axis=0)
    assert mean[21] < mean[0]
    radish = scene.start_anew(load_sheet("radish")).mean(axis=0)
    assert radish[21] > mean[21]


def test_worth_follows_the_rows_and_the_yield_of_the_sheet(scene: Scene) -> None:
    plot = _plot(scene, "out")
    assert plot.worth.kg == pytest.approx(2 * 2.0 * plot.sheet.harvest.yield_kg_m.value)


def test_the_same_question_is_answered_from_what_is_kept(folder: Path, scene: Scene) -> None:
    setting = open_setting(folder, TODAY)
    assert build_scene(setting, garden_state(setting.folder)) is scene


def test_without_this_seasons_weather_past_years_stand_in(folder: Path) -> None:
    later = date(2027, 5, 20)
    setting = open_setting(folder, later)
    assert build_scene(setting, garden_state(setting.folder)).years >= 10


def test_each_bed_with_plants_has_its_water(scene: Scene) -> None:
    for bed in ("one", "two", "hoops", "crowns"):
        water = scene.water_of(bed)
        assert water is not None
        assert water.depletion_mm.shape == scene.ground.years.tmin_c.shape
        assert not np.isnan(water.depletion_mm[:, scene.column : scene.column + 22]).any()
        assert np.all(water.depletion_mm[:, scene.column] <= water.available_mm[:, scene.column])
    assert scene.water_of("shelf") is None
    assert scene.water_of("nowhere") is None
