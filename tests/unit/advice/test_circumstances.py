"""What holds of a planting here and now, from invented weather and books."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from scenes import Weather, bed, said, scene_of
from spadework.advice.ailing.season import infection_now, present_now
from spadework.advice.circumstances import Here
from spadework.advice.circumstances_here import here_of, here_without
from spadework.crops.loader import load_sheet
from spadework.crops.trouble import Circumstance
from spadework.crops.troubles import all_troubles
from spadework.garden import entries as kinds
from spadework.garden.entries import Entry

TODAY = date(2026, 6, 20)


def _ago(days: int) -> date:
    return TODAY - timedelta(days=days)


def _planted(days_ago: int = 30, **more: object) -> Entry:
    planted = kinds.PlantedOut(planting="kale-1", crop="kale", plants=12, **more)  # type: ignore[arg-type]
    return said(planted, _ago(days_ago), bed="bed-1")


def _here(*entries: Entry, weather: Weather | None = None, planted: Entry | None = None) -> Here:
    scene = scene_of([bed(), planted or _planted(), *entries], TODAY, weather)
    return here_of(scene, scene.plots[0])


def _share(here: Here, name: Circumstance) -> float | None:
    hold = here.holds.get(name)
    return None if hold is None else hold.share


def _rain(**days_ago: float) -> dict[date, float]:
    return {_ago(int(day[1:])): fell for day, fell in days_ago.items()}


@pytest.mark.parametrize(
    ("name", "weather"),
    [
        ("frost lately", Weather(low_c={_ago(3): -1.0})),
        ("cold nights", Weather(low_c={_ago(day): 2.0 for day in range(1, 6)})),
        ("hot days", Weather(high_c={_ago(day): 33.0 for day in range(1, 5)})),
        ("dry spell", Weather(rain_every=0)),
        ("heavy rain lately", Weather(rain_every=0, rain_mm=_rain(d2=25.0))),
        ("wet fortnight", Weather(rain_every=1, rain_of_mm=4.0)),
        ("long wet leaves", Weather(rain_every=1, rain_of_mm=4.0)),
        ("dry then soaked", Weather(rain_every=0, rain_mm=_rain(d2=25.0))),
        ("mild wet nights", Weather(mean_c=14.0, rain_every=1, rain_of_mm=4.0)),
        ("warm dry weather", Weather(mean_c=14.0, rain_every=0)),
        ("strong wind", Weather(wind_m_s={_ago(2): 11.0})),
    ],
)
def test_weather_makes_it_hold(name: Circumstance, weather: Weather) -> None:
    here = _here(weather=weather)
    assert _share(here, name) == pytest.approx(1.0)
    assert here.holds[name].why


@pytest.mark.parametrize(
    "name", ["frost lately", "hot days", "heavy rain lately", "wet fortnight", "dry then soaked"]
)
def test_usual_weather_does_not(name: Circumstance) -> None:
    assert _share(_here(), name) == pytest.approx(0.0)


def test_without_wind_in_the_record_wind_is_not_known() -> None:
    assert "strong wind" not in _here().holds


@pytest.mark.parametrize(
    ("name", "entry"),
    [
        ("outside material lately", kinds.Amended(material="straw", spray_history="clean")),
        ("fresh manure", kinds.Amended(material="cow manure", state="raw", spray_history="clean")),
        ("hail", kinds.Note(text="hail in the night")),
        ("weedkiller near", kinds.Note(text="the neighbour used weedkiller on the path")),
        ("weeds near", kinds.Seen(what="fat hen", sort="weed")),
        ("organic mulch", kinds.Tended(act="mulched", material="straw")),
        ("standing water", kinds.Seen(what="standing water between the rows")),
    ],
)
def test_the_book_makes_it_hold(name: Circumstance, entry: kinds.Payload) -> None:
    here = _here(said(entry, _ago(5), bed="bed-1"))
    assert _share(here, name) == pytest.approx(1.0)
    assert name not in _here().holds or _share(_here(), name) == pytest.approx(0.0)


def test_what_was_done_to_another_bed_does_not_count() -> None:
    manure = kinds.Amended(material="cow manure", state="raw", spray_history="clean")
    here = _here(bed("bed-2", "Bed 2", x_m=2.0), said(manure, _ago(5), bed="bed-2"))
    assert _share(here, "fresh manure") == pytest.approx(0.0)


def test_planted_out_lately_is_for_two_weeks() -> None:
    assert _share(_here(planted=_planted(10)), "planted out lately") == pytest.approx(1.0)
    assert _share(_here(planted=_planted(20)), "planted out lately") == pytest.approx(0.0)


def test_the_same_family_before_counts() -> None:
    before = said(kinds.Stood(crop="cabbage", year=2025), date(2025, 12, 1), bed="bed-1")
    other = said(kinds.Stood(crop="carrot", year=2025), date(2025, 12, 1), bed="bed-1")
    assert _share(_here(before), "same family last year") == pytest.approx(1.0)
    assert _share(_here(other), "same family last year") == pytest.approx(0.0)
    assert "same family last year" not in _here().holds


def test_kit_over_the_bed_counts() -> None:
    net = said(kinds.KitSet(item="net", sort="netting", length_m=10.0), _ago(40))
    on = said(kinds.Moved(act="on", item="net", length_m=2.4), _ago(8), bed="bed-1")
    assert _share(_here(net, on), "under netting") == pytest.approx(1.0)
    assert _share(_here(net), "under netting") == pytest.approx(0.0)


def test_a_trouble_told_of_the_bed_before_is_remembered() -> None:
    seen = said(kinds.Seen(what="slugs", sort="pest"), date(2025, 8, 1), bed="bed-1")
    assert _here(seen).had == {"field-slug": "2025-08-01"}


def test_a_crop_that_does_not_stand_has_weather_and_no_age() -> None:
    scene = scene_of([bed(), _planted()], TODAY, Weather(rain_every=0))
    here = here_without(scene, load_sheet("tomato"))
    assert here.age is None
    assert _share(here, "dry spell") == pytest.approx(1.0)
    assert "planted out lately" not in here.holds


def test_clocks_say_how_far_a_stage_is_there() -> None:
    scene = scene_of([bed(), _planted()], TODAY, Weather(mean_c=10.0))
    ground = scene.season_ground()
    column = int((ground.dates == TODAY).argmax())
    found = present_now(all_troubles().values(), ground, column, scene.garden, south=False)
    assert found
    assert all(0.0 <= share <= 1.0 for share in found.values())
    winter = present_now(all_troubles().values(), ground, 20, scene.garden, south=False)
    assert sum(found.values()) > sum(winter.values())


def test_wet_weather_makes_diseases_likelier() -> None:
    def times(weather: Weather) -> float:
        scene = scene_of([bed(), _planted()], TODAY, weather)
        return sum(infection_now(all_troubles().values(), scene.ground, scene.column).values())

    wet, dry = Weather(mean_c=9.0, rain_every=1, rain_of_mm=6.0), Weather(mean_c=9.0, rain_every=0)
    assert times(wet) > times(dry)
