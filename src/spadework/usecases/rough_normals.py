"""Monthly normals from what a grower knows by heart: the coldest and the warmest month, and the rain."""

from __future__ import annotations

import math
import re
from pathlib import Path
from typing import Final

from spadework import units
from spadework.errors import ParameterError
from spadework.garden.told import MonthlyNormals
from spadework.store.garden_folder import open_garden

_TWO: Final = re.compile(r"(-?\d+(?:\.\d+)?)[\s/]+(-?\d+(?:\.\d+)?)\s*°?([cCfF]?)")
_ONE: Final = re.compile(r"(\d+(?:\.\d+)?)\s*(mm|in|)")

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


def normals_by_heart(
    garden: Path, coldest: str | None, warmest: str | None, rain: str | None, climate: str
) -> MonthlyNormals:
    """The same from words: "-4 2" or "25 36 F" for a month's night and day, "55" or "2.2 in" for its rain.

    Parameters
    ----------
    garden : Path
        Its place says in which half of the earth it lies.
    coldest, warmest, rain : str or None
    climate : str

    Raises
    ------
    ParameterError
        If one is missing or cannot be read.
    GardenError
    """
    if coldest is None or warmest is None or rain is None:
        raise ParameterError(
            "By heart it takes the coldest month, the warmest, and a month's rain.",
            'Give --coldest "-4 2" --warmest "12 22" --rain 55.',
        )
    return rough_normals(
        *_two_temps(coldest, "--coldest"),
        *_two_temps(warmest, "--warmest"),
        _rain_mm(rain),
        south=open_garden(garden).site.south,
        climate=climate,
    )


def _two_temps(text: str, name: str) -> tuple[float, float]:
    found = _TWO.fullmatch(text.replace("−", "-").replace(",", ".").strip())
    if found is None:
        raise ParameterError(f"{name} {text!r} is no night and day.", 'Write them as "-4 2" or "25 36 F".')
    night, day = float(found[1]), float(found[2])
    fahrenheit = found[3].lower() == "f"
    return (units.c_from_f(night), units.c_from_f(day)) if fahrenheit else (night, day)


def _rain_mm(text: str) -> float:
    found = _ONE.fullmatch(text.replace(",", ".").strip().lower())
    if found is None:
        raise ParameterError(
            f"--rain {text!r} is no rain of a usual month.", 'Write it as 55 for mm, or "2.2 in".'
        )
    return float(found[1]) * (units.MM_PER_INCH if found[2] == "in" else 1.0)


def _wave(coldest_c: float, warmest_c: float, *, south: bool) -> tuple[float, ...]:
    middle, half = (coldest_c + warmest_c) / 2, (warmest_c - coldest_c) / 2
    sign = 1.0 if south else -1.0
    return tuple(round(middle + sign * half * math.cos(math.pi * month / 6), 1) for month in range(12))
