"""The invented climate of the demonstration garden. No place on earth; every number here is made up."""

from __future__ import annotations

import math
from datetime import date
from typing import Final

import numpy as np

from spadework.weather.made import Normals, made_record
from spadework.weather.series import Series, as_day

DEMO_LAT_DEG: Final = 44.5
DEMO_LON_DEG: Final = -76.5
DEMO_ELEVATION_M: Final = 90.0
"""Where the invented lake is supposed to lie: latitude for the sun, the rest to be complete."""

DEMO_SEED: Final = 20260501

_CLOSE: Final = 2099
"""The long record that demonstrations are cut from ends with this year, or with that of another century."""


def demo_normals() -> Normals:
    """Invented monthly normals of Marrow Lane: continental, beside a lake that holds back spring and
    autumn."""
    return Normals(
        name="invented normals of Marrow Lane",
        tmin_c=np.array([-11.0, -10.4, -5.2, 0.9, 6.8, 12.1, 15.0, 14.4, 10.2, 4.4, -0.6, -6.9]),
        tmax_c=np.array([-2.6, -1.2, 3.9, 11.3, 18.4, 23.4, 26.1, 25.1, 20.6, 13.4, 6.4, 0.2]),
        tmin_sd_c=np.array([7.2, 6.8, 5.6, 4.1, 4.0, 3.6, 3.1, 3.3, 4.2, 4.3, 4.8, 6.4]),
        tmax_sd_c=np.array([5.4, 5.1, 5.3, 5.6, 5.2, 4.3, 3.5, 3.5, 4.5, 5.0, 5.2, 5.1]),
        rain_mm=np.array([62.0, 52, 60, 74, 80, 84, 72, 80, 90, 84, 82, 72]),
        wet_days=np.array([13.0, 11, 11, 11, 12, 11, 9.5, 9.5, 10.5, 12, 13, 14]),
    )


def demo_record(last_day: date | np.datetime64, years: int = 31) -> Series:
    """Made weather of the demonstration garden up to a day.

    Notes
    -----
    It is cut from one long record, so that a date had the same weather whatever the last day is (within a
    century: records that end in another are another).
    """
    end = as_day(last_day)
    last_year = int(str(end)[:4])
    close = _CLOSE + 100 * math.ceil((last_year - _CLOSE) / 100)
    whole = made_record(demo_normals(), 100 + years + 2, DEMO_SEED, last_day=date(close, 12, 31))
    first = end - np.timedelta64(round(years * 365.25) - 1, "D")
    return whole.between(first, end)
