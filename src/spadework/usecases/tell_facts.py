"""Facts as a form asks for them, made into what the garden is told."""

from __future__ import annotations

from datetime import date

from spadework.errors import ParameterError
from spadework.garden.told import (
    Fact,
    ForecastDay,
    FrostTable,
    PairedMinima,
    SkyHours,
    SoilWarmth,
    Thermometer,
)

__all__ = [
    "Fact",
    "forecast_day",
    "frost_table",
    "paired_minima",
    "sky_hours",
    "soil_warmth",
]


def forecast_day(
    *,
    day: date,
    low_c: float | None,
    high_c: float | None,
    rain_mm: float | None = None,
    rain_odds: float | None = None,
) -> Fact:
    """A day of a forecast.

    Raises
    ------
    ParameterError
        If only one of night and day is given.
    """
    if (low_c is None) != (high_c is None):
        raise ParameterError("A forecast needs its night and its day.", "Give the low and the high.")
    return ForecastDay(day=day, low_c=low_c, high_c=high_c, rain_mm=rain_mm, rain_odds=rain_odds)


def soil_warmth(*, temp_c: float, depth_cm: float, day: date, hour: float | None, bed: str = "") -> Fact:
    """Soil warmth of a day, at an hour or as its mean."""
    return SoilWarmth(temp_c=temp_c, depth_cm=depth_cm, first=day, last=day, hour=hour, bed=bed)


def paired_minima(*, own_c: float, station_c: float, on: date, open_sky: bool) -> Fact:
    """An own night minimum less the station's."""
    own = Thermometer(shelter="open" if open_sky else "sheltered")
    return PairedMinima(difference_c=round(own_c - station_c, 6), own=own, on=on)


def frost_table(*, season: str, chance: float, day: date, below_c: float) -> Fact:
    """One date of a table of frost.

    Raises
    ------
    ParameterError
    """
    if season not in ("spring", "autumn"):
        raise ParameterError("Of spring or of autumn?", "Say which.")
    which = "spring" if season == "spring" else "autumn"
    return FrostTable(below_c=below_c, season=which, dates=((chance, day),))  # type: ignore[arg-type]


def sky_hours(*, what: str, day: date, from_hour: float, until_hour: float) -> Fact:
    """Thunder or smoke of a day.

    Raises
    ------
    ParameterError
    """
    if what == "thunder":
        return SkyHours(what="thunder", day=day, from_hour=from_hour, until_hour=until_hour)
    if what == "smoke":
        return SkyHours(what="smoke", day=day, from_hour=from_hour, until_hour=until_hour)
    raise ParameterError("Thunder or smoke?", "Say which.")
