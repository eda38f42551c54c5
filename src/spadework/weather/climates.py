"""Daily spread by kind of climate, for places whose normals do not tell it."""

from __future__ import annotations

from typing import Final, Literal, get_args

import numpy as np

from spadework.types import Floats

Climate = Literal["continental", "steppe", "maritime", "mediterranean", "subtropical", "tropical"]
CLIMATES: Final[tuple[str, ...]] = get_args(Climate)

TROPICAL_COLDEST_C: Final = 18.0
"""Coldest month at least this warm. Class: common-practice."""

SUBTROPICAL_COLDEST_C: Final = 5.0
MARITIME_RANGE_CDELTA: Final = 18.0
MEDITERRANEAN_RANGE_CDELTA: Final = 23.0
STEPPE_DAY_RANGE_CDELTA: Final = 14.0
DRY_SUMMER_SHARE: Final = 1 / 3
"""Where one kind of climate ends: coldest month, warmest less coldest month, mean range of the day, and rain
of the three warmest months to that of the three coldest. Class: measured: set so that the records named at
`TMIN_SD_C` fall apart into groups of like spread."""

TMIN_SD_C: Final[dict[str, tuple[float, ...]]] = {
    "continental": (5.1, 5.2, 5.3, 5.1, 4.3, 3.4, 3.0, 3.3, 4.2, 5.2, 5.7, 5.4),
    "steppe": (4.9, 4.8, 4.8, 4.5, 3.8, 3.1, 2.9, 3.1, 3.8, 4.7, 5.2, 5.1),
    "maritime": (3.6, 3.4, 3.1, 2.9, 2.6, 2.4, 2.3, 2.3, 2.5, 2.9, 3.3, 3.6),
    "mediterranean": (3.1, 2.9, 2.9, 2.8, 2.6, 2.3, 2.1, 2.2, 2.5, 3.0, 3.3, 3.3),
    "subtropical": (4.4, 4.5, 4.7, 4.4, 3.4, 2.4, 2.0, 2.2, 3.0, 4.2, 4.9, 4.7),
    "tropical": (3.1, 2.6, 2.3, 2.2, 2.1, 1.7, 1.3, 1.2, 1.5, 2.1, 3.1, 3.5),
}
"""Standard deviation of the daily minimum about the season's course, January to December in the north.

Class: measured (tools/fit_climate_spread.py). Mean over the stations of a kind, two yearly waves: USCRN (100
stations, one year each, variance divided by 0.83, the share of it that single years of long records show)
and, with the weight of five stations, the long records of Champion, Brussels, eastern England (six as one),
Tunis, Seattle, Cordoba, Clemson and Hyderabad. Stations of one kind differ by 11 to 14 % (mediterranean
26 %); tropical rests on two.
"""

TMAX_SD_C: Final[dict[str, tuple[float, ...]]] = {
    "continental": (5.2, 5.2, 5.8, 5.9, 5.0, 3.7, 3.0, 3.3, 4.5, 6.1, 6.6, 5.9),
    "steppe": (5.0, 5.2, 6.1, 6.4, 5.4, 4.1, 3.5, 4.1, 5.6, 7.1, 7.0, 5.8),
    "maritime": (3.6, 3.6, 3.5, 3.6, 3.6, 3.6, 3.3, 3.0, 2.8, 2.9, 3.1, 3.4),
    "mediterranean": (3.1, 3.2, 3.7, 4.0, 4.0, 3.6, 3.3, 3.3, 3.6, 3.7, 3.5, 3.2),
    "subtropical": (4.6, 4.8, 4.9, 4.4, 3.5, 2.8, 2.4, 2.6, 3.2, 3.9, 4.4, 4.5),
    "tropical": (1.9, 2.1, 2.2, 2.4, 2.6, 2.6, 2.5, 2.2, 1.9, 1.7, 1.7, 1.8),
}
"""The same for the daily maximum; stations of one kind differ by 14 to 20 % (mediterranean 27 %)."""

WET_DAY_MM: Final[dict[str, float]] = {
    "continental": 8.9,
    "steppe": 5.8,
    "maritime": 5.1,
    "mediterranean": 8.9,
    "subtropical": 12.1,
    "tropical": 14.7,
}
"""Rain of a day with 1 mm or more, mean over the same stations. Class: measured; stations of one kind differ
by a third and more, so that a told number of wet days is worth having."""


def climate_kind(tmin_c: Floats, tmax_c: Floats, rain_mm: Floats) -> Climate:
    """The kind of climate twelve monthly normals speak of.

    Parameters
    ----------
    tmin_c, tmax_c : array, shape (12,)  [degC]
    rain_mm : array, shape (12,)  [mm]

    Returns
    -------
    str
        One of `CLIMATES`. The same for both hemispheres.
    """
    mean = (tmin_c + tmax_c) / 2.0
    order = np.argsort(mean)
    coldest, yearly = float(mean.min()), float(np.ptp(mean))
    summer, winter = float(rain_mm[order[-3:]].sum()), float(rain_mm[order[:3]].sum())
    if coldest >= TROPICAL_COLDEST_C:
        return "tropical"
    if summer < winter * DRY_SUMMER_SHARE and yearly < MEDITERRANEAN_RANGE_CDELTA:
        return "mediterranean"
    if coldest >= SUBTROPICAL_COLDEST_C:
        return "subtropical"
    if yearly < MARITIME_RANGE_CDELTA:
        return "maritime"
    return "steppe" if float((tmax_c - tmin_c).mean()) >= STEPPE_DAY_RANGE_CDELTA else "continental"


def daily_spread(climate: str, *, south: bool) -> tuple[Floats, Floats]:
    """Standard deviations of the daily minimum and maximum, January to December of that half of the earth."""
    turn = 6 if south else 0
    low, high = (np.roll(np.array(table[climate]), turn) for table in (TMIN_SD_C, TMAX_SD_C))
    return low, high
