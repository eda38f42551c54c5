"""What cannot be told at all: one clear line for each impossibility."""

from __future__ import annotations

from datetime import date, timedelta
from math import isfinite

from spadework.clock.conditioning_frost import SPRING_DAYS, table_points
from spadework.errors import ParameterError
from spadework.garden.site import Site
from spadework.garden.told import (
    Fact,
    ForecastDay,
    FrostTable,
    PairedMinima,
    SkyHours,
    SoilWarmth,
    WarmthTotal,
)
from spadework.science.degree_days import METHODS

FORECAST_DAYS = 16
"""How far ahead a forecast may reach."""


def refuse_impossible(fact: Fact, site: Site, today: date) -> None:
    """Refuse what no thermometer, bulletin or table can say.

    Raises
    ------
    ParameterError
    """
    if isinstance(fact, ForecastDay):
        _forecast(fact, today)
    elif isinstance(fact, SoilWarmth):
        _soil(fact, today)
    elif isinstance(fact, WarmthTotal):
        _warmth(fact, today)
    elif isinstance(fact, FrostTable):
        _frost_table(fact, site)
    elif isinstance(fact, PairedMinima):
        _minimum(fact, today)
    elif isinstance(fact, SkyHours):
        _sky(fact, today)


def _within(name: str, value: float | None, low: float, high: float, unit: str) -> None:
    if value is not None and not (isfinite(value) and low <= value <= high):
        raise ParameterError(
            f"{name} of {value:g}{f' {unit}' if unit else ''} is not possible.",
            f"Allowed: {low:g} to {high:g}{f' {unit}' if unit else ''}.",
        )


def _forecast(fact: ForecastDay, today: date) -> None:
    if fact.day < today:
        raise ParameterError(
            f"{fact.day} is past; a forecast is of today or later.", "Add what was measured as weather."
        )
    if fact.day > today + timedelta(days=FORECAST_DAYS):
        raise ParameterError(
            f"{fact.day} is more than {FORECAST_DAYS} days ahead of {today}.",
            "Tell a nearer day; past years say more about one so far off.",
        )
    if (fact.high_c is None) != (fact.low_c is None):
        raise ParameterError("High and low go together.", "Give both, or the mean.")
    told = (
        fact.high_c,
        fact.mean_c,
        fact.rain_mm,
        fact.rain_odds,
        fact.wind_m_s,
        fact.cloud_share,
        fact.dew_c,
    )
    if all(value is None for value in told):
        raise ParameterError(
            f"Nothing is told of {fact.day}.", "Give high and low, or mean, rain, wind, cloud or dew."
        )
    for name, value in (("A high", fact.high_c), ("A low", fact.low_c), ("A mean", fact.mean_c)):
        _within(name, value, -60.0, 60.0, "°C")
    _within("A dew point", fact.dew_c, -60.0, 40.0, "°C")
    _within("Rain", fact.rain_mm, 0.0, 500.0, "mm")
    _within("The odds of rain", fact.rain_odds, 0.0, 1.0, "")
    _within("Wind", fact.wind_m_s, 0.0, 60.0, "m/s")
    _within("Cloud", fact.cloud_share, 0.0, 1.0, "")
    if fact.high_c is not None and fact.low_c is not None:
        if fact.low_c > fact.high_c:
            raise ParameterError(
                f"On {fact.day} the low {fact.low_c:.1f} °C is above the high {fact.high_c:.1f} °C.",
                "Give the high first: 18/6.",
            )
        if fact.mean_c is not None and not fact.low_c <= fact.mean_c <= fact.high_c:
            raise ParameterError(
                f"On {fact.day} the mean {fact.mean_c:.1f} °C is not between low and high.", "Correct it."
            )
    top = fact.high_c if fact.high_c is not None else None
    if fact.dew_c is not None and top is not None and fact.dew_c > top:
        raise ParameterError(
            f"On {fact.day} the dew point {fact.dew_c:.1f} °C is above the high {top:.1f} °C.", "Correct it."
        )


def _soil(fact: SoilWarmth, today: date) -> None:
    _within("Soil", fact.temp_c, -30.0, 60.0, "°C")
    _within("A depth", fact.depth_cm, 1.0, 30.0, "cm")
    _within("An hour", fact.hour, 0.0, 24.0, "h")
    if fact.first > fact.last:
        raise ParameterError(f"{fact.first} is after {fact.last}.", "Give the first day first.")
    if fact.last > today:
        raise ParameterError(
            f"{fact.last} is not over yet; a reading is of today or earlier.", "Correct the date, or --today."
        )
    if fact.hour is not None and fact.first != fact.last:
        raise ParameterError("A spot reading has one day.", "Give --on, or leave the hour out.")


def _warmth(fact: WarmthTotal, today: date) -> None:
    _within("A total", fact.total_cday, 0.0, 8000.0, "degree-days")
    _within("A base", fact.base_c, -5.0, 30.0, "°C")
    _within("An upper limit", fact.upper_c, 0.0, 50.0, "°C")
    if fact.upper_c is not None and fact.upper_c <= fact.base_c:
        raise ParameterError(
            f"The upper limit {fact.upper_c:g} °C is not above the base {fact.base_c:g} °C.", "Correct it."
        )
    if fact.since > fact.until:
        raise ParameterError(f"{fact.since} is after {fact.until}.", "Give the first day as --since.")
    if fact.until > today:
        raise ParameterError(
            f"{fact.until} is not over yet; a total is of days that were.", "Correct the date, or --today."
        )
    if (fact.until - fact.since).days > 366:
        raise ParameterError("A total of more than a year is no season's.", "Give the day it is summed from.")
    if fact.method not in METHODS:
        raise ParameterError(
            f"There is no degree-day method {fact.method!r}.", f"Choose one of: {', '.join(METHODS)}."
        )


def _frost_table(fact: FrostTable, site: Site) -> None:
    _within("A frost limit", fact.below_c, -30.0, 10.0, "°C")
    _within("A spread", fact.spread_days, 1.0, 60.0, "days")
    if bool(fact.dates) == (fact.median is not None) or (fact.median is None) != (fact.spread_days is None):
        raise ParameterError(
            "A frost table needs its dates.",
            'Give --date "1in10=25 May" once or more, or --median DATE with --spread DAYS.',
        )
    for chance, _ in fact.dates:
        if not 0.0 < chance < 1.0:
            raise ParameterError(f"Odds of {chance:g} are no odds.", "Give 1in10, 1in2, 20% and the like.")
    low, high = (0, SPRING_DAYS - 1) if fact.season == "spring" else (SPRING_DAYS, 364)
    for _, column in table_points(fact, site.south):
        if not low <= column <= high:
            half = "January to mid July" if (fact.season == "spring") != site.south else "July to December"
            raise ParameterError(
                f"A date of the table is not in {fact.season} at {site.name}.",
                f"{fact.season.capitalize()} frosts there lie in {half}.",
            )


def _sky(fact: SkyHours, today: date) -> None:
    if not today <= fact.day <= today + timedelta(days=FORECAST_DAYS):
        raise ParameterError(
            f"{fact.day} is not within the coming {FORECAST_DAYS} days.",
            f"Tell the {fact.what} of today or of a forecast.",
        )
    _within("An hour", fact.from_hour, 0.0, 24.0, "")
    _within("An hour", fact.until_hour, 0.0, 24.0, "")
    if fact.until_hour <= fact.from_hour:
        raise ParameterError("It ends before it begins.", "Give --until after --from, on the same day.")


def _minimum(fact: PairedMinima, today: date) -> None:
    _within("A difference", fact.difference_c, -40.0, 40.0, "degrees")
    _within("A number of nights", float(fact.nights), 1.0, 400.0, "")
    _within("A scatter", fact.spread_c, 0.0, 10.0, "degrees")
    _within("A height", fact.own.height_m, 0.0, 10.0, "m")
    if fact.on is not None and fact.on > today:
        raise ParameterError(f"{fact.on} is not here yet.", "Correct the date, or --today.")
