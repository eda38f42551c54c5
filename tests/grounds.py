"""Places for the clock's tests: two real records, and weather made to order."""

from __future__ import annotations

from datetime import date
from functools import cache

import numpy as np

from ghcn_fixture import champion_series, cordoba_series
from spadework.clock.ground import Ground
from spadework.garden.site import Site
from spadework.science.soil import SURFACES
from spadework.weather.years import Years, build_years

CHAMPION = Site("Champion", 40.4, -101.7, 1000.0)
CORDOBA = Site("Cordoba", -31.4, -64.2, 480.0)
EVEN = Site("Even", 50.0, 0.0, 0.0)


@cache
def champion_ground(first: date, days: int, today: date | None = None, last: int | None = 30) -> Ground:
    """Champion, Nebraska, from a day on; shared, so nothing may write into it."""
    return Ground(CHAMPION, build_years(champion_series(), first, days, today or first, last), "bare-moist")


@cache
def cordoba_ground(first: date, days: int, today: date | None = None) -> Ground:
    """Cordoba, in the southern hemisphere."""
    return Ground(CORDOBA, build_years(cordoba_series(), first, days, today or first), "bare-moist")


def years_of(
    tmin_c: np.ndarray,
    tmax_c: np.ndarray,
    *,
    rain_mm: np.ndarray | float = 0.0,
    solar_mj: np.ndarray | float | None = None,
    first_day: str = "2021-04-01",
) -> Years:
    """Years from arrays [year, day]."""
    low, high = np.broadcast_arrays(np.atleast_2d(tmin_c), np.atleast_2d(tmax_c))
    rows = low.shape[0]
    return Years(
        first_day=np.datetime64(first_day, "D"),
        tmin_c=np.array(low, dtype=np.float64),
        tmax_c=np.array(high, dtype=np.float64),
        rain_mm=np.array(np.broadcast_to(rain_mm, low.shape), dtype=np.float64),
        solar_mj=None if solar_mj is None else np.array(np.broadcast_to(solar_mj, low.shape), np.float64),
        wind_m_s=None,
        labels=tuple(range(1990, 1990 + rows)),
        made=np.zeros(rows, dtype=np.bool_),
        seen_days=0,
        filled_share=0.0,
        note="",
    )


def soil_ground(
    soil_c: np.ndarray | float,
    *,
    days: int = 300,
    half_range_c: float = 0.0,
    rain_mm: np.ndarray | float = 0.0,
    site: Site = EVEN,
    first_day: str = "2021-04-01",
) -> Ground:
    """A place whose seed zone holds the given mean [degC]: one row a value, or a row [year, day].

    The sun is left out, so that soil and air differ by the surface's constant alone. Where the soil changes
    along the days it follows with its usual lag.
    """
    wanted = np.atleast_1d(np.asarray(soil_c, dtype=np.float64))
    mean = (wanted[:, None] if wanted.ndim == 1 else wanted) - SURFACES["bare-moist"].a_c
    mean = np.array(np.broadcast_to(mean, (mean.shape[0], days)))
    years = years_of(
        mean - half_range_c, mean + half_range_c, rain_mm=rain_mm, solar_mj=0.0, first_day=first_day
    )
    return Ground(site, years, "bare-moist")
