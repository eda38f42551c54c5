"""Today's hours: heat, sun, dew, rain, wind, thunder and smoke, and who should be out in them."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import numpy as np
import pytest

from scenes import PLACE, Weather, bed, scene_of
from spadework.advice.bodies import bad_hours, barred, bodies_said, may_do, strains_of
from spadework.advice.conditions import Conditions, conditions_of, hours_for
from spadework.advice.job import AHEAD_DAYS, Job
from spadework.advice.waiting import always
from spadework.garden.records import Person
from spadework.garden.told import SkyHours
from spadework.science import comfort

TODAY = date(2026, 7, 10)
WARM = Weather(spread_c=0.0, rain_every=0)


def hot(high_c: float) -> Weather:
    """A day of such a high, after a warm night."""
    return replace(
        WARM,
        high_c={TODAY: high_c},
        low_c={TODAY: high_c - 12.0, TODAY + timedelta(days=1): high_c - 12.0},
    )


def of(weather: Weather = WARM, *sky: SkyHours) -> Conditions:
    """The hours of the day."""
    return conditions_of(scene_of([bed()], TODAY, weather), sky)


def job(**more: object) -> Job:
    """A job, whatever it is."""
    usual: dict[str, object] = {
        "id": "j",
        "kind": "weed",
        "act": "Weed",
        "minutes": 5.0,
        "worth": 1.0,
        "loss": np.zeros((1, AHEAD_DAYS + 1)),
        "window": always(TODAY),
        "reason": "",
    }
    return Job(**{**usual, **more})  # type: ignore[arg-type]


def test_heat_index_is_the_published_regression_of_each_hour() -> None:
    # ROTHFUSZ1990 through science.comfort, checked there against the published table
    found = of(hot(36.0))
    dew = float(comfort.dew_point_guess_c(24.0))
    peak = int(found.temp_c.argmax())
    humid = comfort.relative_humidity_pct(found.temp_c[peak], dew)
    assert found.heat_index_c[peak] == pytest.approx(
        comfort.heat_index_c(found.temp_c[peak], humid), abs=1e-6
    )
    assert np.all(found.sun_heat_c >= found.heat_index_c)


def test_dangerous_heat_shuts_the_middle_of_the_day_and_leaves_the_morning() -> None:
    found = of(hot(40.0))
    assert found.shut[15]
    assert not found.shut[6]
    assert "Dangerous heat" in found.said[0]
    assert "local heat warnings" in found.said[0]
    open_hours = hours_for(found, ("daylight",))
    assert all(not (first <= 15.0 < last) for first, last in open_hours)
    assert any(first <= 15.0 < last for first, last in hours_for(found, ("daylight",), indoors=True))


def test_heavy_work_waits_before_light_work_does() -> None:
    found = of(hot(33.0))
    light, heavy = (hours_for(found, ("daylight",), heavy=each) for each in (False, True))
    assert sum(b - a for a, b in light) > sum(b - a for a, b in heavy) > 0.0
    assert any("heavy work early or late" in text for text in found.said)
    mild = of()
    assert hours_for(mild, ("daylight",)) == hours_for(mild, ("daylight",), heavy=True)
    assert not any("heat" in text.casefold() for text in mild.said)


def test_thunder_and_smoke_as_told_keep_everybody_in() -> None:
    thunder = SkyHours(what="thunder", day=TODAY, from_hour=14.0, until_hour=17.0)
    found = of(WARM, thunder)
    # half an hour after the last thunder: the hour from 17 is shut as well
    assert list(np.flatnonzero(found.shut)) == [14, 15, 16, 17]
    assert not found.suits["no thunder"][15]
    assert any("Thunder told from 14 to 18 h" in text for text in found.said)
    assert of(WARM, SkyHours(what="smoke", day=TODAY)).shut.all()
    tomorrow = SkyHours(what="thunder", day=TODAY + timedelta(days=1))
    assert not of(WARM, tomorrow).shut.any()


def test_leaves_are_wet_with_dew_in_the_morning_and_all_day_in_rain() -> None:
    dry = of().suits["dry leaves"]
    sunrise = int(of().sunrise_h)
    assert not dry[sunrise + 1]
    assert dry[13]
    wet = of(replace(WARM, rain_mm={TODAY: 6.0}))
    assert not wet.suits["dry leaves"].any()
    assert any(text.startswith("Rain today") for text in wet.said)
    soaked = of(replace(WARM, rain_mm={TODAY - timedelta(days=1): 15.0}))
    assert not soaked.suits["soil not wet"].any()
    assert of().suits["soil not wet"].all()


def test_uv_is_high_at_midsummer_noon_and_none_in_winter() -> None:
    summer = of()
    assert 11 <= int(summer.uv.argmax()) <= 13
    assert any("UV index" in text and "hat" in text for text in summer.said)
    winter = conditions_of(scene_of([bed()], "2026-12-20", WARM))
    assert winter.uv.max() < 2.0
    assert not any("UV" in text for text in winter.said)
    south = conditions_of(scene_of([bed()], "2026-12-20", WARM, replace(PLACE, lat_deg=-34.0)))
    assert south.uv.max() > 8.0


def test_what_people_say_is_not_for_them() -> None:
    said = Person(key="t", name="Tilde", not_for=("heavy loads", "bending down", "hot days", "sharp knives"))
    assert barred(said) == {"lifting", "stooping", "heat", "blades"}
    assert barred(Person(key="b", name="Bram")) == frozenset()


def test_loads_and_postures_respect_each_person() -> None:
    back = Person(key="o", name="Odo", not_for=("lifting",))
    assert strains_of(job(load_kg=8.0)) == ("lifting",)
    assert not may_do(back, job(load_kg=8.0))
    assert may_do(back, job(load_kg=2.0))
    assert not may_do(back, job(strains=("lifting",)))
    knees = Person(key="k", name="Kim", not_for=("kneeling",))
    assert not may_do(knees, job(strains=("kneeling",)))
    assert may_do(knees, job(load_kg=8.0))


def test_who_should_not_be_in_heat_is_out_early_instead() -> None:
    tilde, found = Person(key="t", name="Tilde", not_for=("heat",)), of(hot(33.0))
    assert bad_hours(tilde, found)[15]
    assert not may_do(tilde, job(), found, at_hour=14.0, minutes=60.0)
    assert may_do(tilde, job(), found, at_hour=6.0, minutes=60.0)
    assert may_do(tilde, job(), found, at_hour=14.0, minutes=60.0, indoors=True)
    assert bodies_said([tilde], found)[0].startswith("Tilde stays out of heat")
    assert not bodies_said([Person(key="b", name="Bram")], found)


@pytest.mark.parametrize(
    ("zone", "lat", "lon", "day", "rise", "down"),
    [
        # usual almanac hours by the clock of the place; memory. Our sun keeps mean time, up to 17 min off.
        ("Europe/London", 51.5, -0.1, date(2026, 6, 21), 4.72, 21.36),
        ("Europe/London", 51.5, -0.1, date(2026, 12, 21), 8.07, 15.89),
        ("Australia/Sydney", -33.9, 151.2, date(2026, 12, 21), 5.69, 20.08),
    ],
)
def test_sunrise_and_sunset_are_by_the_clock_people_live_by(
    zone: str, lat: float, lon: float, day: date, rise: float, down: float
) -> None:
    place = replace(PLACE, zone=zone, lat_deg=lat, lon_deg=lon)
    found = conditions_of(scene_of([bed()], day, WARM, place))
    assert found.sunrise_h == pytest.approx(rise, abs=0.3)
    assert found.sunset_h == pytest.approx(down, abs=0.3)


def test_the_surface_is_dry_again_the_day_after_a_little_rain_and_not_after_much() -> None:
    yesterday = TODAY - timedelta(days=1)
    for rain_mm, on, dry in ((2.0, yesterday, True), (12.0, yesterday, False), (3.0, TODAY, False)):
        found = of(replace(WARM, rain_mm={on: rain_mm}))
        assert bool(found.suits["dry soil surface"].any()) == dry
