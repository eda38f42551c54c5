"""Told forecast days replace the years' days; each year takes the forecast with an error of its own."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from zlib import crc32

import numpy as np

from spadework.clock.applied import Applied, AppliedFact
from spadework.garden.phrases import day_text, temp_text
from spadework.garden.site import Site
from spadework.garden.told import ForecastDay, Told
from spadework.science import frost, sun
from spadework.science.evapotranspiration import saturation_vapour_pressure_kpa
from spadework.types import Bools, Floats
from spadework.weather.years import Years

ERROR_FIRST_C, ERROR_LAST_C, ERROR_GROWS_DAYS = 1.0, 4.0, 14
"""Error of a told temperature on the day it is told, and from two weeks ahead on; it grows evenly between.
Source: memory."""

ERROR_CARRY = 0.6
"""Correlation of the error from one day to the next. Source: memory."""

WIND_ERROR_FIRST, WIND_ERROR_LAST = 0.2, 0.5
"""The same of a told mean wind, as a share of it. Source: memory."""

STIRRED_WIND_M_S = 3.0
CLOUDY_SHARE = 0.7
"""Wind, or share of the sky in cloud, from which a night counts as stirred. Source: memory."""

CLEAR_SUN, CLOUDY_SUN = 0.75, 0.25
"""Share of the sun above the air that reaches the ground under a clear and a covered sky; between them in a
straight line of cloud. Source: FAO56, equation 35, with cloud taken as the sunshine that is missing."""

USUAL_WET_DAY_MM = 4.0
"""Rain of a wet day where neither the forecast nor the years give one. Source: memory."""

WET_MM = 1.0


@dataclass(frozen=True)
class KnownDay:
    """What all told forecasts together say of one day; the latest word on each thing stands."""

    fact: ForecastDay
    told_on: date
    source: str


@dataclass(frozen=True, eq=False)
class ForecastYears:
    """Years with the forecast in them, and the nights it says something of."""

    years: Years
    leaf_drop_c: Floats | None
    applied: tuple[Applied, ...]


def known_days(told: Sequence[Told], today: date) -> dict[date, KnownDay]:
    """Forecast by day, as known today: later forecasts stand over earlier ones, thing by thing.

    Temperatures go together: a later mean does not leave an earlier high standing. So do rain and its odds.
    """
    found: dict[date, KnownDay] = {}
    for entry in sorted(told, key=lambda entry: (entry.told_on, entry.key)):
        fact = entry.fact
        if not isinstance(fact, ForecastDay) or entry.told_on > today:
            continue
        before = found.get(fact.day)
        if before is None:
            found[fact.day] = KnownDay(fact, entry.told_on, entry.source)
            continue
        warmth = fact if has_warmth(fact) else before.fact
        rain = fact if fact.rain_mm is not None or fact.rain_odds is not None else before.fact
        joined = ForecastDay(
            day=fact.day,
            high_c=warmth.high_c,
            low_c=warmth.low_c,
            mean_c=warmth.mean_c,
            rain_mm=rain.rain_mm,
            rain_odds=rain.rain_odds,
            wind_m_s=before.fact.wind_m_s if fact.wind_m_s is None else fact.wind_m_s,
            cloud_share=before.fact.cloud_share if fact.cloud_share is None else fact.cloud_share,
            dew_c=before.fact.dew_c if fact.dew_c is None else fact.dew_c,
        )
        newest = entry.told_on if has_warmth(fact) else before.told_on
        found[fact.day] = KnownDay(joined, newest, entry.source)
    return found


def has_warmth(fact: ForecastDay) -> bool:
    """Whether a day's temperature is told at all."""
    return fact.mean_c is not None or (fact.high_c is not None and fact.low_c is not None)


def with_forecast(years: Years, told: Sequence[Told], site: Site, today: date) -> ForecastYears:
    """Put the told forecast into the years, on days that were not seen.

    Parameters
    ----------
    years : Years
    told : sequence of Told
    site : Site
        Its latitude gives the sun above the cloud.
    today : date

    Returns
    -------
    ForecastYears

    Notes
    -----
    Each year is the told value plus an error that carries over from day to day and grows with the days
    ahead. The same error moves high and low, so a forecast day's range has none. The errors are balanced:
    over the years each day's have mean 0 and the stated spread. They hang on what was told alone, so the
    same forecast always gives the same years.
    """
    days = known_days(told, today)
    columns = {_column(years, day): known for day, known in days.items()}
    columns = {
        column: known
        for column, known in sorted(columns.items())
        if years.seen_days <= column < years.tmin_c.shape[1]
    }
    if not columns:
        return ForecastYears(years, None, ())
    seed = crc32(repr([known.fact for known in columns.values()]).encode())
    random = np.random.default_rng(seed)
    first, last = min(columns), max(columns)
    errors = _errors(random, years.tmin_c.shape[0], last - first + 1)
    tmin, tmax, rain = years.tmin_c.copy(), years.tmax_c.copy(), years.rain_mm.copy()
    solar = None if years.solar_mj is None else years.solar_mj.copy()
    wind = None if years.wind_m_s is None else years.wind_m_s.copy()
    # drawn apart: what is told of wind moves neither warmth nor rain
    gusty = _errors(np.random.default_rng(seed + 1), years.tmin_c.shape[0], last - first + 1)
    drop = np.full(tmin.shape, np.nan)
    dew = _dew_c(years, columns)
    for column, known in columns.items():
        fact = known.fact
        error = errors[:, column - first] * error_sd_c((fact.day - known.told_on).days)
        _warmth(fact, column, error, tmin, tmax)
        _rain(fact, column, years.rain_mm, rain, random)
        stirred = is_stirred(fact)
        if stirred or fact.dew_c is not None:
            drop[:, column] = _leaf_drop_c(fact, tmin[:, column], stirred)
        if fact.wind_m_s is not None:
            wind = np.full(tmin.shape, np.nan) if wind is None else wind
            sd = wind_error_share((fact.day - known.told_on).days)
            wind[:, column] = fact.wind_m_s * np.exp(sd * gusty[:, column - first] - sd**2 / 2.0)
        if fact.cloud_share is not None:
            solar = np.full(tmin.shape, np.nan) if solar is None else solar
            solar[:, column] = _sun_mj(fact, site)
        elif solar is not None and has_warmth(fact):
            solar[:, column] = np.nan  # the old day's sun does not belong to the new day's warmth
    changed = replace(
        years, tmin_c=tmin, tmax_c=tmax, rain_mm=rain, solar_mj=solar, wind_m_s=wind, tdew_c=dew
    )
    return ForecastYears(changed, None if np.isnan(drop).all() else drop, (_applied(columns),))


def _dew_c(years: Years, columns: Mapping[int, KnownDay]) -> Floats | None:
    """Dew point with that of the forecast's days in it; NaN where a day is told without one."""
    told = {column: known.fact.dew_c for column, known in columns.items()}
    if years.tdew_c is None and all(dew is None for dew in told.values()):
        return None
    found = np.full(years.tmin_c.shape, np.nan) if years.tdew_c is None else years.tdew_c.copy()
    for column, dew in told.items():
        found[:, column] = np.nan if dew is None else dew
    return found


def is_stirred(fact: ForecastDay) -> bool:
    """Whether wind or cloud keeps the leaf near the air that night."""
    windy = fact.wind_m_s is not None and fact.wind_m_s > STIRRED_WIND_M_S
    return windy or (fact.cloud_share is not None and fact.cloud_share >= CLOUDY_SHARE)


def error_sd_c(lead_days: int) -> float:
    """Error of a told temperature some days after it was told [degC]."""
    share = min(max(lead_days, 0), ERROR_GROWS_DAYS) / ERROR_GROWS_DAYS
    return ERROR_FIRST_C + (ERROR_LAST_C - ERROR_FIRST_C) * share


def wind_error_share(lead_days: int) -> float:
    """Error of a told mean wind some days after it was told, as a share of it."""
    share = min(max(lead_days, 0), ERROR_GROWS_DAYS) / ERROR_GROWS_DAYS
    return WIND_ERROR_FIRST + (WIND_ERROR_LAST - WIND_ERROR_FIRST) * share


def _errors(random: np.random.Generator, rows: int, days: int) -> Floats:
    """Errors of unit spread [year, day], each day balanced over the years."""
    errors = np.empty((rows, days))
    shock = np.sqrt(1.0 - ERROR_CARRY**2)
    now = random.standard_normal(rows)
    for day in range(days):
        if day:
            now = ERROR_CARRY * now + shock * random.standard_normal(rows)
        if rows > 2:
            now = (now - now.mean()) / now.std()
        errors[:, day] = now
    return errors


def _warmth(fact: ForecastDay, column: int, error: Floats, tmin: Floats, tmax: Floats) -> None:
    if fact.high_c is not None and fact.low_c is not None:
        tmin[:, column] = fact.low_c + error
        tmax[:, column] = fact.high_c + error
    elif fact.mean_c is not None:
        half = (tmax[:, column] - tmin[:, column]) / 2.0
        tmin[:, column] = fact.mean_c + error - half
        tmax[:, column] = fact.mean_c + error + half


def _rain(
    fact: ForecastDay, column: int, years_rain: Floats, rain: Floats, random: np.random.Generator
) -> None:
    order = random.permutation(rain.shape[0])
    if fact.rain_mm is None and fact.rain_odds is None:
        return
    odds = 1.0 if fact.rain_odds is None else fact.rain_odds
    amount = fact.rain_mm
    if amount is None:
        near = years_rain[:, max(column - 10, 0) : column + 11]
        wet = near[near >= WET_MM]
        amount = float(wet.mean()) if wet.size else USUAL_WET_DAY_MM
    rain[:, column] = 0.0
    rain[order[: int(np.floor(odds * order.size + 0.5))], column] = amount


def _leaf_drop_c(fact: ForecastDay, tmin_c: Floats, stirred: Bools | bool) -> Floats:
    """Mean of the night's leaf less the shelter minimum, [year]: stirred air, or how near it is to dew."""
    humid = None
    if fact.dew_c is not None:
        dew = saturation_vapour_pressure_kpa(np.minimum(fact.dew_c, tmin_c))
        humid = 100.0 * dew / saturation_vapour_pressure_kpa(tmin_c)
    return np.broadcast_to(frost.plant_surface_offset(humid, stirred).mean_c, tmin_c.shape)


def _sun_mj(fact: ForecastDay, site: Site) -> float:
    assert fact.cloud_share is not None
    above = float(sun.extraterrestrial_radiation_mj(site.lat_deg, float(fact.day.timetuple().tm_yday)))
    return above * (CLEAR_SUN - (CLEAR_SUN - CLOUDY_SUN) * fact.cloud_share)


def _applied(columns: dict[int, KnownDay]) -> Applied:
    facts = [known.fact for known in columns.values()]
    told_on = sorted({known.told_on for known in columns.values()})
    span = day_text(facts[0].day)
    if len(facts) > 1:
        span = f"{len(facts)} days, {span} to {day_text(facts[-1].day)}"
    sources = ", ".join(dict.fromkeys(known.source for known in columns.values() if known.source))
    parts = [f"Told forecast for {span} ({f'{sources}, ' if sources else ''}told {day_text(told_on[-1])})"]
    warm = [known for known in columns.values() if has_warmth(known.fact)]
    numbers = []
    if warm:
        first, last = (error_sd_c((k.fact.day - k.told_on).days) for k in (warm[0], warm[-1]))
        spread = f"{first:.1f} degrees"
        if len(warm) > 1:
            spread += f" on the first day and {last:.1f} degrees on the last"
        parts.append(f"it takes the place of the years' own days, each year with an error of {spread}")
        numbers = [
            AppliedFact("forecast error", round(first, 2), "degC"),
            AppliedFact("forecast error, last day", round(last, 2), "degC"),
        ]
    text = ": ".join(parts) + "."
    means = [k.fact for k in warm if k.fact.high_c is None]
    if means:
        mean = means[0].mean_c
        known = (
            f"{day_text(means[0].day)} is known only by its mean"
            if len(means) == 1
            else (f"{len(means)} of them are known only by their mean")
        )
        assert mean is not None
        text += (
            f" {known}{f', {temp_text(mean)}' if len(means) == 1 else ''}: "
            "each year keeps its own distance of night and day from it."
        )
    rainy = [f for f in facts if f.rain_mm is not None or f.rain_odds is not None]
    if rainy:
        text += " Rain falls in as many of the years as its odds say."
    stirred = sum(is_stirred(f) for f in facts)
    if stirred:
        nights = "1 night" if stirred == 1 else f"{stirred} nights"
        text += f" Wind or cloud keeps the leaf near the air on {nights}."
    if any(f.dew_c is not None for f in facts):
        text += " The dew point says how far the leaf falls below the air, and how long leaves are wet."
    return Applied(text, "forecast", tuple(numbers))


def _column(years: Years, day: date) -> int:
    return int((np.datetime64(day, "D") - years.first_day).astype(int))
