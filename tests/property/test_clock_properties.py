"""What must hold of the clock whatever the weather."""

from __future__ import annotations

from typing import Any

import numpy as np
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays

from grounds import EVEN, years_of
from spadework.advice.odds import date_odds, odds_of
from spadework.clock.batch import finish_all
from spadework.clock.course import Course, set_out, sow
from spadework.clock.fate import frost_survival, heat_loss
from spadework.clock.ground import Ground
from spadework.clock.sprout import Sowing, sprout
from spadework.crops.loader import load_sheet

DAYS = 150
CROPS = st.sampled_from(
    ["carrot", "parsnip", "lettuce", "spinach", "bush-bean", "pea", "onion", "potato", "radish"]
)
RAISED = st.sampled_from(["tomato", "cabbage", "leek", "cucumber", "celery", "lettuce"])


@st.composite
def weather(draw: Any, low_c: float = -10.0, high_c: float = 28.0) -> Ground:
    """Two years of weather that drifts and jumps: any level, any swing, any rain."""
    level = draw(st.floats(low_c, high_c))
    drift = draw(st.floats(-15.0, 15.0))
    seed = draw(st.integers(0, 2**20))
    rng = np.random.default_rng(seed)
    mean = level + drift * np.linspace(0, 1, DAYS) + rng.normal(0, 4.0, (2, DAYS))
    half = rng.uniform(0.5, 10.0, (2, DAYS))
    rain = rng.gamma(0.6, 6.0, (2, DAYS)) * (rng.random((2, DAYS)) < draw(st.floats(0, 1)))
    return Ground(EVEN, years_of(mean - half, mean + half, rain_mm=rain), "bare-moist")


def warmer(ground: Ground, by_c: float) -> Ground:
    years = ground.years
    return Ground(
        ground.site,
        years_of(years.tmin_c + by_c, years.tmax_c + by_c, rain_mm=years.rain_mm, solar_mj=ground.solar_mj),
        ground.surface,
    )


@given(
    arrays(np.float64, (2, 2, 40), elements=st.floats(0.0, 1.0)),
    st.lists(st.integers(0, 39), min_size=1, max_size=4),
    st.lists(st.floats(0.01, 60.0), min_size=2, max_size=2),
)
def test_finish_all_is_the_plain_loop(rates: np.ndarray, days: list[int], required: list[float]) -> None:
    found = finish_all(rates, np.array(days), np.array(required))
    for crop, year, place in np.ndindex(found.shape):
        gathered = np.cumsum(rates[crop, year, days[place] :])
        day = days[place] + int(np.count_nonzero(gathered < required[crop] * (1 - 1e-12)))
        if day != found[crop, year, place]:
            # a sum begun elsewhere may round otherwise, but only at the goal itself
            nearest = np.abs(gathered / required[crop] - 1.0).min()
            assert nearest < 1e-9


@given(weather(), CROPS, st.integers(0, 60), st.booleans())
def test_a_course_keeps_within_bounds(ground: Ground, crop: str, day: int, watered: bool) -> None:
    _bounds(sow(load_sheet(crop), ground, Sowing(day, watered=watered)))


@given(weather(), RAISED, st.integers(0, 60))
def test_a_set_out_course_keeps_within_bounds(ground: Ground, crop: str, day: int) -> None:
    _bounds(set_out(load_sheet(crop), ground, day))


def _bounds(course: Course) -> None:
    for name in ("ready", "flowering", "lost_frost", "lost_heat", "bolted", "picked", "emerged"):
        values = getattr(course, name)
        assert np.isfinite(values).all(), name
        assert values.min() >= -1e-12, name
        assert values.max() <= 1 + 1e-9, name
        assert np.diff(values, axis=-1).min() >= -1e-9, name
    assert (course.picked <= course.ready + 1e-9).all()
    for name in ("leaves", "height_cm", "checked_days", "stage"):
        values = getattr(course, name)
        assert np.isfinite(values).all(), name
        assert np.diff(values, axis=-1).min() >= -1e-9, name
        assert values.min() >= 0, name


@given(weather(low_c=-8.0, high_c=4.0), CROPS, st.integers(0, 40), st.floats(0.0, 6.0))
def test_warmth_never_delays_emergence_while_it_is_cool(
    ground: Ground, crop: str, day: int, by_c: float
) -> None:
    sheet = load_sheet(crop)
    hotter = warmer(ground, by_c)
    ceiling = sheet.emergence.optimum_c.value
    hottest = hotter.soil_mean_c + hotter.soil_half_c(sheet.sowing.depth_mm.value / 10.0)
    cool = warmer(ground, 0.0)
    first, second = (sprout(sheet, place, Sowing(day)) for place in (cool, hotter))
    # until the first day that passes the optimum at some hour
    until = int(np.argmax((hottest > ceiling).any(axis=0))) if (hottest > ceiling).any() else DAYS
    assert (second.progress[:, :until] >= first.progress[:, :until] - 1e-9).all()


@given(weather(), CROPS, st.integers(0, 50), st.integers(1, 40))
def test_a_later_sowing_is_never_further_on(ground: Ground, crop: str, day: int, later: int) -> None:
    sheet = load_sheet(crop)
    first, second = (sprout(sheet, ground, Sowing(when)) for when in (day, day + later))
    assert (second.progress <= first.progress + 1e-9).all()
    assert (second.median_day >= first.median_day).all()


@given(weather(), CROPS, st.integers(0, 50))
def test_rain_alone_is_never_quicker(ground: Ground, crop: str, day: int) -> None:
    sheet = load_sheet(crop)
    watered, rain = (sprout(sheet, ground, Sowing(day, watered=water)) for water in (True, False))
    assert (rain.progress <= watered.progress + 1e-9).all()
    assert (rain.median_day >= watered.median_day).all()


@given(weather(), CROPS, st.integers(0, 50), st.floats(0.0, 60.0), st.floats(0.0, 60.0))
def test_depth_never_hastens(ground: Ground, crop: str, day: int, one_mm: float, other_mm: float) -> None:
    """At one and the same temperature; the wave's damping with depth is another matter."""
    sheet = load_sheet(crop)
    flat = Ground(ground.site, years_of(ground.air_mean_c, ground.air_mean_c, solar_mj=0.0), ground.surface)
    shallow, deep = sorted((one_mm, other_mm))
    first, second = (sprout(sheet, flat, Sowing(day, depth_mm=depth)) for depth in (shallow, deep))
    assert (second.progress <= first.progress + 1e-9).all()


@given(weather(), st.sampled_from(["tomato", "kale", "carrot", "leek"]), st.floats(0.0, 5.0))
def test_colder_nights_never_spare(ground: Ground, crop: str, by_c: float) -> None:
    way = np.broadcast_to(np.linspace(-0.1, 1.0, DAYS), ground.years.tmin_c.shape)
    sheet = load_sheet(crop)
    alive = []
    for shift in (0.0, -by_c):
        shares, weights = frost_survival(sheet, ground.years.tmin_c + shift, way)
        alive.append(np.tensordot(weights, shares, axes=1))
        offset, _ = frost_survival(sheet, ground.years.tmin_c, way, site_offset_c=shift)
        assert np.abs(offset - shares).max() < 1e-9 + 0.003 * (shift != 0.0)
    assert (alive[1] <= alive[0] + 1e-9).all()


@given(weather(), st.sampled_from(["tomato", "lettuce", "spinach", "carrot"]), st.floats(0.0, 5.0))
def test_hotter_days_never_spare(ground: Ground, crop: str, by_c: float) -> None:
    way = np.broadcast_to(np.linspace(-0.1, 1.0, DAYS), ground.years.tmin_c.shape)
    cool, hot = (heat_loss(load_sheet(crop), ground.years.tmax_c + shift, way) for shift in (0.0, by_c))
    assert (hot >= cool - 1e-9).all()


@given(arrays(np.float64, (5, 40), elements=st.floats(0.0, 1.0)))
def test_dates_stand_in_order_and_the_rest_is_never(chances: np.ndarray) -> None:
    rising = np.maximum.accumulate(chances, axis=-1)
    dates = np.arange("2021-04-01", "2021-05-11", dtype="datetime64[D]")
    found = date_odds(rising, dates, np.zeros(5, dtype=np.bool_))
    known = [day for day in (found.q10, found.q50, found.q90) if day is not None]
    assert known == sorted(known)
    assert 0.0 <= found.never <= 1.0
    assert abs(found.never - (1.0 - rising[:, -1].mean())) < 1e-4
    if found.never > 0.5:
        assert found.q50 is None
    if found.never == 1.0:
        assert found.q10 is None


@given(arrays(np.float64, st.integers(1, 40), elements=st.floats(0.0, 1.0)))
def test_odds_are_a_mean_and_a_rounded_count(chances: np.ndarray) -> None:
    found = odds_of(chances, np.zeros(chances.size, dtype=np.bool_))
    assert abs(found.chance - chances.mean()) < 1e-4
    assert abs(found.years_yes - chances.sum()) <= 0.5 + 1e-9
    assert found.years == chances.size
