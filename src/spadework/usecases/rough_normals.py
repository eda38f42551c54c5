"""Monthly normals from what a grower knows by heart: the coldest and the warmest month, and the rain."""

from __future__ import annotations

import math
from typing import Final

from spadework.errors import ParameterError
from spadework.garden.told import MonthlyNormals

COLDEST_C, HOTTEST_C = -60.0, 55.0
WETTEST_MM: Final = 1500.0
"""Beyond these a month is a slip of the pen. Class: common-practice."""

ROUGH: Final = "four temperatures and a month's rain, known by heart"
"""Where such normals are from, as every answer says."""


def rough_normals(
    winter_night_c: float,
    winter_day_c: float,
    summer_night_c: float,
    summer_day_c: float,
    rain_mm: float,
    *,
    south: bool,
    climate: str = "",
) -> MonthlyNormals:
    """Twelve months on an even wave between January and July, the rain the same in all.

    Parameters
    ----------
    winter_night_c, winter_day_c : float  [degC]
        Usual night and day of the coldest month: January, in the south July.
    summer_night_c, summer_day_c : float  [degC]
        Of the warmest: July, in the south January.
    rain_mm : float  [mm]
        Of a usual month.
    south : bool
        South of the equator.
    climate : str
        Whose spread of days to borrow; empty to go by the numbers.

    Raises
    ------
    ParameterError
        If the numbers are not possible, or out of order.

    Notes
    -----
    The first term of the year's wave, with its turning points in the named months. Our own rule.
    """
    temps = (winter_night_c, winter_day_c, summer_night_c, summer_day_c)
    if not all(math.isfinite(each) and COLDEST_C <= each <= HOTTEST_C for each in temps):
        raise ParameterError("Such a temperature is not possible.", "Look at the numbers and their unit.")
    if not math.isfinite(rain_mm) or not 0.0 <= rain_mm <= WETTEST_MM:
        raise ParameterError("So much rain in a month is not possible.", "Look at the number and its unit.")
    if winter_night_c > winter_day_c or summer_night_c > summer_day_c:
        raise ParameterError("A night is warmer than its day.", "Give the night first, then the day.")
    if winter_night_c + winter_day_c > summer_night_c + summer_day_c:
        raise ParameterError("The coldest month is warmer than the warmest.", "Give the cold one first.")
    return MonthlyNormals(
        tmin_c=_wave(winter_night_c, summer_night_c, south=south),
        tmax_c=_wave(winter_day_c, summer_day_c, south=south),
        rain_mm=(round(rain_mm, 1),) * 12,
        wet_days=None,
        climate=climate,
    )


def _wave(coldest_c: float, warmest_c: float, *, south: bool) -> tuple[float, ...]:
    middle, half = (coldest_c + warmest_c) / 2, (warmest_c - coldest_c) / 2
    sign = 1.0 if south else -1.0
    return tuple(round(middle + sign * half * math.cos(math.pi * month / 6), 1) for month in range(12))
