"""Real seasons for the simulation: what has been by a day, forecasts that err, and past years after them."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date, timedelta
from pathlib import Path
from types import SimpleNamespace
from typing import Any, Final, cast

import numpy as np

from ghcn_fixture import climate_series
from spadework.clock.ground import SPIN_UP_DAYS, Ground
from spadework.crops.forms import with_form
from spadework.crops.loader import load_sheet
from spadework.crops.sheet import Sheet
from spadework.garden.site import Site
from spadework.garden.told import ForecastDay
from spadework.usecases.setting import Setting
from spadework.weather.series import Series
from spadework.weather.years import build_years

FORECAST_DAYS: Final = 5
FORECAST_SPREAD_C: Final = (1.0, 1.4, 1.8, 2.2, 2.6)
"""Error of a forecast's extremes by days ahead, one standard deviation. Our own round figures."""

RAIN_MISSED: Final = (0.15, 0.2, 0.25, 0.3, 0.35)
"""Chance that a wet day is foretold dry, or a dry one wet, by days ahead. Our own round figures."""

WRONG_RAIN_MM: Final = 5.0


@dataclass(frozen=True, kw_only=True)
class Place:
    """A record and its garden year: usual days of sowing hardy and tender crops, usual last frost."""

    name: str
    site: Site
    cool: tuple[int, int]
    warm: tuple[int, int]
    last_frost: tuple[int, int]


PLACES: Final = {
    "champion": Place(
        name="champion",
        site=Site("Champion, Nebraska", 40.4, -101.7, 1029.0),
        cool=(4, 15),
        warm=(5, 20),
        last_frost=(5, 10),
    ),
    "norfolk": Place(
        name="norfolk", site=Site("Norfolk", 52.6, 1.3, 30.0), cool=(4, 1), warm=(5, 25), last_frost=(5, 5)
    ),
    "cordoba": Place(
        name="cordoba",
        site=Site("Cordoba, Argentina", -31.4, -64.2, 474.0),
        cool=(8, 25),
        warm=(10, 1),
        last_frost=(9, 10),
    ),
}


def day_of(year: int, day: tuple[int, int]) -> date:
    """A calendar day of a season's first year."""
    return date(year, *day)


class Seen:
    """Stands where a garden's setting stands: the record up to a day, and an imperfect forecast.

    Parameters
    ----------
    series : Series
    place : Place
    today : date
    years : int
        Past years at most.
    seed : int
        Of the forecast's errors; a day's forecast is the same for whoever asks.
    """

    def __init__(self, series: Series, place: Place, today: date, *, years: int, seed: int) -> None:
        self.today, self.series, self.place, self.years_most, self.seed = today, series, place, years, seed
        self.site = place.site
        name = (place.name, years, seed, today.isoformat())
        self.folder = SimpleNamespace(path=Path(place.name), digest=lambda _: repr(name))
        self.forecast = self._foretold()
        self.told = tuple(
            SimpleNamespace(fact=ForecastDay(day=today + timedelta(days=ahead + 1), mean_c=0.0))
            for ahead in range(FORECAST_DAYS)
        )

    def _foretold(self) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
        chance = np.random.default_rng([self.seed, self.today.toordinal()])
        first = self.series.index_of(np.datetime64(self.today, "D")) + 1
        here = slice(first, first + FORECAST_DAYS)
        low = self.series.tmin_c[here] + chance.normal(0.0, FORECAST_SPREAD_C)
        high = self.series.tmax_c[here] + chance.normal(0.0, FORECAST_SPREAD_C)
        rain = self.series.rain_mm[here].copy()
        missed = chance.random(FORECAST_DAYS) < RAIN_MISSED
        rain[missed] = np.where(rain[missed] >= 1.0, 0.0, WRONG_RAIN_MM)
        return np.minimum(low, high - 0.1), high, rain

    def bed_offset_c(self, _: str) -> float:
        return 0.0

    def sheet(self, name: str, *, variety: str = "", bed: str = "") -> Sheet:
        del bed
        sheet = load_sheet(name)
        return with_form(sheet, "variety", variety) if variety in sheet.varieties else sheet

    def ground(
        self, start: date, days: int, *, bed: str = "", need_seen: bool = True
    ) -> tuple[Ground, list[str]]:
        del bed, need_seen
        first = min(start, self.today) - timedelta(days=SPIN_UP_DAYS)
        years = build_years(self.series, first, (start - first).days + days, self.today, last=self.years_most)
        low, high, rain = years.tmin_c.copy(), years.tmax_c.copy(), years.rain_mm.copy()
        at = (self.today - first).days + 1
        for row, told in zip((low, high, rain), self.forecast, strict=True):
            row[:, at : at + FORECAST_DAYS] = told
        return Ground(self.site, replace(years, tmin_c=low, tmax_c=high, rain_mm=rain), "bare-moist"), []


def seen(place: str, today: date, *, years: int = 12, seed: int = 1) -> Setting:
    """What is known at a place on a day."""
    return cast(Setting, cast(Any, Seen(climate_series(place), PLACES[place], today, years=years, seed=seed)))
