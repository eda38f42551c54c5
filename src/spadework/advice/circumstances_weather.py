"""Which circumstances the weather of the last days makes hold, each with what says so."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Final

import numpy as np

from spadework.advice.circumstances import Hold
from spadework.clock.ground import Ground
from spadework.crops.trouble import Circumstance
from spadework.types import Bools, Floats

FROST_C: Final = 0.5
"""Shelter minimum from which leaves near the ground may have frozen. Source: common-practice."""

HOT_C: Final = 30.0
"""Maximum of a day that is called hot. Source: common-practice."""

HOT_DAYS: Final = 3

WARM_C: Final = 20.0
"""Mean maximum of a week that is called warm. Our own rule."""

COLD_NIGHT_C: Final = {"warm": 10.0, "cool": 4.0}
"""Minimum of a night that checks a crop of the warm or the cool season. Source: common-practice."""

COLD_NIGHTS: Final = 3

WET_MM: Final = 1.0
DRY_SPELL_MM: Final = 5.0
"""Rain of two weeks below which it has been dry. Our own rule."""

HEAVY_MM: Final = 20.0
"""Rain of a day that is called heavy; of three days half as much again. Source: common-practice."""

WET_DAYS: Final = 7
"""Days with rain of fourteen from which a fortnight is wet. Our own rule."""

LONG_WET_DAYS: Final = 3
"""Days with rain of the last seven from which leaves have stayed wet for long. Our own rule."""

MILD_NIGHT_C: Final = 9.0
"""Minimum from which slugs move and moulds grow through a wet night. Source: common-practice."""

STRONG_WIND_M_S: Final = 8.0
"""Mean wind of a day that breaks and dries plants. Source: common-practice."""

COLD_SOIL_C: Final = 12.0
"""Mean of the seed zone at which seed lies long. Source: common-practice."""

DULL_SHARE: Final = 0.6
"""Sun of the dull days over that of the bright ones. Our own rule."""

SOAKED_MM: Final = 15.0
DRY_BEFORE_DAYS: Final = 10


def by_weather(ground: Ground, column: int, season: str) -> Iterator[tuple[Circumstance, Hold]]:
    """What the weather up to a day makes hold.

    Parameters
    ----------
    ground : Ground
    column : int
        Today's.
    season : {"warm", "cool"}
        Of the crop.

    Yields
    ------
    (Circumstance, Hold)
        What cannot be known is left out: rain or wind that no record has.
    """
    years = ground.years
    low, high, rain = years.tmin_c, years.tmax_c, years.rain_mm

    def last(values: Floats, days: int) -> Floats:
        return values[:, max(column - days + 1, 0) : column + 1]

    coldest = last(low, 10).min(axis=1)
    yield (
        "frost lately",
        _hold(coldest <= FROST_C, lambda: f"a night went down to {_mean(coldest):.1f} °C lately"),
    )
    limit = COLD_NIGHT_C["warm" if season == "warm" else "cool"]
    cold = (last(low, 10) <= limit).sum(axis=1)
    yield (
        "cold nights",
        _hold(cold >= COLD_NIGHTS, lambda: f"{_mean(cold):.0f} of the last 10 nights were cold"),
    )
    hot = (last(high, 10) >= HOT_C).sum(axis=1)
    yield (
        "hot days",
        _hold(hot >= HOT_DAYS, lambda: f"{_mean(hot):.0f} of the last 10 days reached {HOT_C:.0f} °C"),
    )
    if years.wind_m_s is not None and not np.isnan(last(years.wind_m_s, 7)).all():
        wind = np.nanmax(np.nan_to_num(last(years.wind_m_s, 7)), axis=1)
        yield (
            "strong wind",
            _hold(wind >= STRONG_WIND_M_S, lambda: f"a day's mean wind reached {_mean(wind):.0f} m/s"),
        )
    yield from _by_sun(last(ground.solar_mj, 9))
    if np.isnan(last(rain, 14)).all():
        return
    fell = np.nan_to_num(rain)
    yield from _by_rain(fell, column)
    week = last(fell, 7).sum(axis=1)
    warm = last(high, 7).mean(axis=1)
    yield (
        "warm dry weather",
        _hold((warm >= WARM_C) & (week < DRY_SPELL_MM), lambda: "the last week was warm and dry"),
    )
    mild = ((last(low, 7) >= MILD_NIGHT_C) & (last(fell, 7) >= WET_MM)).sum(axis=1)
    yield (
        "mild wet nights",
        _hold(mild >= 2, lambda: f"{_mean(mild):.0f} of the last 7 nights were mild and wet"),
    )
    soil = last(ground.soil_mean_c, 10).mean(axis=1)
    wet = (last(fell, 10) >= WET_MM).sum(axis=1)
    yield (
        "cold wet soil",
        _hold((soil < COLD_SOIL_C) & (wet >= 3), lambda: f"the soil was at {_mean(soil):.0f} °C, and wet"),
    )


def _by_rain(fell: Floats, column: int) -> Iterator[tuple[Circumstance, Hold]]:
    def last(days: int) -> Floats:
        return fell[:, max(column - days + 1, 0) : column + 1]

    fortnight = last(14).sum(axis=1)
    yield (
        "dry spell",
        _hold(
            fortnight < DRY_SPELL_MM, lambda: f"{_mean(fortnight):.0f} mm of rain fell in the last two weeks"
        ),
    )
    most, three = last(7).max(axis=1), _most_in(last(9), 3)
    heavy = (most >= HEAVY_MM) | (three >= 1.5 * HEAVY_MM)
    yield (
        "heavy rain lately",
        _hold(heavy, lambda: f"{_mean(np.maximum(most, three)):.0f} mm fell within three days"),
    )
    days = (last(14) >= WET_MM).sum(axis=1)
    yield (
        "wet fortnight",
        _hold(days >= WET_DAYS, lambda: f"it rained on {_mean(days):.0f} of the last 14 days"),
    )
    week = (last(7) >= WET_MM).sum(axis=1)
    yield (
        "long wet leaves",
        _hold(week >= LONG_WET_DAYS, lambda: f"it rained on {_mean(week):.0f} of the last 7 days"),
    )
    yield "dry then soaked", _hold(_soaked_after_dry(fell, column), lambda: "a soaking ended a dry time")


def _soaked_after_dry(fell: Floats, column: int) -> Bools:
    """Whether within the last ten days a soaking ended a dry time, [year]."""
    found = np.zeros(fell.shape[0], dtype=np.bool_)
    for at in range(max(column - 9, DRY_BEFORE_DAYS), column + 1):
        before = fell[:, at - DRY_BEFORE_DAYS : at].sum(axis=1)
        found |= (before < DRY_SPELL_MM) & (fell[:, at] >= SOAKED_MM)
    return found


def _by_sun(solar: Floats) -> Iterator[tuple[Circumstance, Hold]]:
    if solar.shape[1] < 9:
        return
    dull, bright = solar[:, :6].mean(axis=1), solar[:, 6:].mean(axis=1)
    yield "bright after dull", _hold(dull < DULL_SHARE * bright, lambda: "bright days followed dull ones")


def _most_in(fell: Floats, days: int) -> Floats:
    """The most that fell in so many days in a row, [year]."""
    sums = [fell[:, at : at + days].sum(axis=1) for at in range(max(fell.shape[1] - days + 1, 1))]
    found: Floats = np.max(np.stack(sums), axis=0)
    return found


def _hold(true: Bools, why: Callable[[], str]) -> Hold:
    share = float(true.mean())
    return Hold(share, why() if share >= 0.5 else "")


def _mean(values: object) -> float:
    return float(np.mean(np.asarray(values, dtype=np.float64)))
