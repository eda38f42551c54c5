"""What a person told the garden in a line: forecasts, thermometers, bulletins, tables of frost, events.

Each is a frozen record with the day it was told, so that an answer for a past day uses only what was known
then. Nothing here computes; `clock.conditioning` lets each of them bear on the years.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Literal, TypeAlias

Shelter: TypeAlias = Literal["sheltered", "open"]
"""Sheltered: in a screen or shaded box, it reads the air. Open: under the sky, it reads like a leaf."""

Season: TypeAlias = Literal["spring", "autumn"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Thermometer:
    """Where a thermometer hangs.

    Parameters
    ----------
    height_m : float  [m]
        Above the ground.
    shelter : "sheltered" or "open"
    surroundings : str
        Words for the person: "by the shed wall", "in the hollow".
    """

    height_m: float = 1.5
    shelter: Shelter = "sheltered"
    surroundings: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class ForecastDay:
    """One day of a forecast: high and low, or only a mean.

    Parameters
    ----------
    day : date
    high_c, low_c, mean_c : float or None  [degC]
        High and low together, or a mean, or all three.
    rain_mm : float or None  [mm]
        Rain if it rains; with `rain_odds` None taken as certain.
    rain_odds : float or None
        Chance of rain, 0 to 1.
    wind_m_s : float or None  [m s-1]
    cloud_share : float or None
        0 to 1.
    dew_c : float or None  [degC]
        Dew point.
    """

    day: date
    high_c: float | None = None
    low_c: float | None = None
    mean_c: float | None = None
    rain_mm: float | None = None
    rain_odds: float | None = None
    wind_m_s: float | None = None
    cloud_share: float | None = None
    dew_c: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class SoilWarmth:
    """Soil temperature at a depth: a spot reading with its hour, or a mean over days.

    Parameters
    ----------
    temp_c : float  [degC]
    depth_cm : float  [cm]
    first, last : date
        The day read, or the stretch averaged over.
    hour : float or None  [h]
        Clock hour by the sun of a spot reading; None where the value is a daily mean or a mean over days.
    bed : str
        Empty for the whole garden.
    """

    temp_c: float
    depth_cm: float
    first: date
    last: date
    hour: float | None = None
    bed: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class WarmthTotal:
    """A degree-day total quoted by a bulletin.

    Parameters
    ----------
    total_cday : float  [degC day]
    base_c : float  [degC]
    upper_c : float or None  [degC]
    since, until : date
        First and last day summed.
    method : str
        As in `science.degree_days`.
    """

    total_cday: float
    base_c: float
    since: date
    until: date
    upper_c: float | None = None
    method: str = "average"


@dataclass(frozen=True, slots=True, kw_only=True)
class FrostTable:
    """Told frost dates of one limit and season.

    Parameters
    ----------
    below_c : float  [degC]
        Limit at the shelter thermometer.
    season : "spring" or "autumn"
    dates : tuple of (float, date)
        Chance and day: in spring the chance of a frost on or after the day, in autumn on or before it. The
        year of the day does not count.
    median : date or None
    spread_days : float or None  [d]
        Standard deviation of the date, with `median`.
    """

    below_c: float
    season: Season
    dates: tuple[tuple[float, date], ...] = ()
    median: date | None = None
    spread_days: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class PairedMinima:
    """Own thermometer against the station, one night or many.

    Parameters
    ----------
    difference_c : float  [degC]
        Own minus station: of one night, or the mean of several.
    nights : int
    spread_c : float or None  [degC]
        Standard deviation between nights, where several.
    own : Thermometer
    on : date or None
        The night, where it is one.
    """

    difference_c: float
    nights: int = 1
    spread_c: float | None = None
    own: Thermometer = Thermometer()
    on: date | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class MonthlyNormals:
    """Twelve monthly means, January to December.

    Parameters
    ----------
    tmin_c, tmax_c : tuple of 12 float  [degC]
    rain_mm : tuple of 12 float  [mm]
    wet_days : tuple of 12 float or None  [d]
        Days with 1 mm or more; estimated where None.
    climate : "continental", "maritime", "mediterranean", "subtropical" or ""
        Daily spread is borrowed by this; found from the normals where empty.
    """

    tmin_c: tuple[float, ...]
    tmax_c: tuple[float, ...]
    rain_mm: tuple[float, ...]
    wet_days: tuple[float, ...] | None = None
    climate: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Event:
    """Something seen that the clock can learn from.

    Parameters
    ----------
    crop : str
        Sheet key.
    what : "came up" or "ready"
        Half of what came up was up; or first worth picking.
    started, on : date
        Sown or set out; seen.
    start : "sown" or "set-out"
    not_yet_on : date or None
        Last day on which it was looked at and had not happened.
    bed : str
        Empty where the garden's beds are not told apart.
    variety : str
    """

    crop: str
    what: Literal["came up", "ready"]
    started: date
    on: date
    start: Literal["sown", "set-out"] = "sown"
    not_yet_on: date | None = None
    bed: str = ""
    variety: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class SkyHours:
    """Thunder or smoke of a day, forecast or there: hours in which nobody works outside.

    Parameters
    ----------
    what : "thunder" or "smoke"
    day : date
    from_hour, until_hour : float  [h]
        By the clock; the whole day where nobody said.
    """

    what: Literal["thunder", "smoke"]
    day: date
    from_hour: float = 0.0
    until_hour: float = 24.0


Fact: TypeAlias = (
    ForecastDay | SoilWarmth | WarmthTotal | FrostTable | PairedMinima | MonthlyNormals | Event | SkyHours
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """A told fact with its receipt.

    Parameters
    ----------
    key : str
        Sortable identifier.
    told_on : date
        The day it was told or fetched; what an answer for an earlier day does not know.
    source : str
        Who said it: "own reading", "paper", "Open-Meteo".
    fact : Fact
    """

    key: str
    told_on: date
    source: str
    fact: Fact
