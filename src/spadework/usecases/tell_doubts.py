"""What is asked about before it is believed: a told fact against the record, the years, and earlier facts.

Each doubt shows both values. Nothing is stored while one stands, unless the person is sure.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np

from spadework.clock.conditioning import condition_years
from spadework.clock.conditioning_frost import fit_nights, frost_days, table_points
from spadework.clock.conditioning_soil import daily_mean_c, error_sd_c, model_mean_c
from spadework.clock.conditioning_warmth import shift_for
from spadework.clock.ground import Ground
from spadework.errors import SpadeworkError
from spadework.garden.phrases import day_text, degrees_text, temp_text
from spadework.garden.told import (
    Fact,
    ForecastDay,
    FrostTable,
    MonthlyNormals,
    PairedMinima,
    SoilWarmth,
    Told,
    WarmthTotal,
)
from spadework.garden.told_words import fact_text
from spadework.science import soil, thermometer
from spadework.usecases.setting import Setting
from spadework.weather.years import Years

FORECAST_BEYOND_C = 6.0
"""A forecast this far outside all that was measured round its day is asked about. Common practice."""

SOIL_SDS = 3.0
"""Soil this many spreads between beds outside every year is asked about."""

TOTAL_SHARE, TOTAL_CDAY = 0.2, 20.0
"""A total that misses the record by both of these is asked about. Common practice."""

TOTAL_SHIFT_C = 6.0
"""So is one for which every year would have to be this much warmer or colder. Common practice."""

TABLE_MISS_DAYS = 10.0
TABLE_APART_DAYS = 35.0
"""A frost table that the years cannot meet to within the first, or that lies farther from the record than the
second. Common practice."""

PAIR_APART_C = 8.0
STATION_APART_C = 3.0
"""A pair farther apart than the first, and a told station reading that misses the record by the second.
Common practice."""


@dataclass(frozen=True)
class Doubt:
    """One thing to ask about.

    Parameters
    ----------
    text : str
        What was told and what speaks against it, both with their values.
    older : Told or None
        The earlier entry it disagrees with, which is withdrawn if the person is sure.
    """

    text: str
    older: Told | None = None


def doubts_about(setting: Setting, entry: Told, station_c: float | None = None) -> list[Doubt]:
    """What speaks against a fact that is about to be told.

    Parameters
    ----------
    setting : Setting
        With everything told before.
    entry : Told
        The new fact.
    station_c : float or None  [degC]
        The station's own reading, of a pair told for one night.
    """
    found = [Doubt(_against(entry.fact, older.fact), older) for older in disagreeing(entry, setting.told)]
    fact = entry.fact
    trial = replace(setting, also=(*setting.also, entry))
    if isinstance(fact, PairedMinima):
        found += _pair(setting, fact, station_c)
    if isinstance(fact, FrostTable):
        found += _table_alone(setting, fact)
    try:
        if isinstance(fact, ForecastDay):
            found += _forecast(setting, fact)
        elif isinstance(fact, SoilWarmth):
            found += _soil(trial, fact)
        elif isinstance(fact, WarmthTotal):
            found += _warmth(trial, fact)
        elif isinstance(fact, FrostTable):
            found += _table(setting, entry, fact)
    except SpadeworkError:
        pass  # a record too thin to compare with raises no doubt
    return found


def disagreeing(entry: Told, told: Sequence[Told]) -> list[Told]:
    """Earlier entries of the same kind about the same thing that say something else."""
    return [older for older in told if _disagree(entry, older)]


def _disagree(new: Told, old: Told) -> bool:
    one, other = new.fact, old.fact
    if one == other:
        return False
    if isinstance(one, ForecastDay) and isinstance(other, ForecastDay):
        # a later forecast takes an earlier one's place without asking
        return one.day == other.day and new.told_on == old.told_on and _differ(one, other)
    if isinstance(one, SoilWarmth) and isinstance(other, SoilWarmth):
        same = (one.first, one.last, one.hour, one.depth_cm, one.bed)
        return same == (other.first, other.last, other.hour, other.depth_cm, other.bed)
    if isinstance(one, WarmthTotal) and isinstance(other, WarmthTotal):
        if (one.base_c, one.upper_c, one.since) != (other.base_c, other.upper_c, other.since):
            return False
        if one.until == other.until:
            return abs(one.total_cday - other.total_cday) > 0.05
        early, late = sorted((one, other), key=lambda fact: fact.until)
        return one.method == other.method and late.total_cday < early.total_cday
    if isinstance(one, FrostTable) and isinstance(other, FrostTable):
        return (one.below_c, one.season) == (other.below_c, other.season)
    if isinstance(one, PairedMinima) and isinstance(other, PairedMinima):
        return one.own == other.own and one.on == other.on
    return isinstance(one, MonthlyNormals) and isinstance(other, MonthlyNormals)


def _differ(one: ForecastDay, other: ForecastDay) -> bool:
    names = ("high_c", "low_c", "mean_c", "rain_mm", "rain_odds", "wind_m_s", "cloud_share", "dew_c")
    pairs = [(getattr(one, name), getattr(other, name)) for name in names]
    return any(a is not None and b is not None and abs(a - b) > 0.005 for a, b in pairs)


def _against(new: Fact, old: Fact) -> str:
    return f"Told now: {fact_text(new)}. Told before: {fact_text(old)}."


def _forecast(setting: Setting, fact: ForecastDay) -> list[Doubt]:
    series = setting.weather()
    if series is None:
        return []
    day = np.datetime64(fact.day, "D")
    upto = series.dates <= np.datetime64(setting.today, "D")
    of_year = (series.dates - series.dates.astype("datetime64[Y]")).astype(np.int64)
    here = int((day - day.astype("datetime64[Y]")).astype(np.int64))
    apart = np.abs(of_year - here)
    near = upto & (np.minimum(apart, 365 - apart) <= 10)
    lows, highs = series.tmin_c[near], series.tmax_c[near]
    lows, highs = lows[~np.isnan(lows)], highs[~np.isnan(highs)]
    if lows.size < 40:
        return []
    found = []
    for name, value in (("high", fact.high_c), ("low", fact.low_c), ("mean", fact.mean_c)):
        if value is None:
            continue
        coldest = lows.min() if name != "high" else highs.min()
        warmest = highs.max() if name != "low" else lows.max()
        if not coldest - FORECAST_BEYOND_C <= value <= warmest + FORECAST_BEYOND_C:
            found.append(
                Doubt(
                    f"Told a {name} of {temp_text(value)} for {day_text(fact.day)}; in the record the days "
                    f"round it lie between {temp_text(float(coldest))} and {temp_text(float(warmest))}."
                )
            )
    return found


def _soil(trial: Setting, fact: SoilWarmth) -> list[Doubt]:
    ground = _ground(trial, trial.years(fact.first, (fact.last - fact.first).days + 2))
    reading, model = daily_mean_c(ground, fact), model_mean_c(ground, fact)
    surface = soil.SURFACES[ground.surface]
    sd = float(np.hypot(surface.offset_sd_c, thermometer.WITHIN_BED_SD_C))
    found = []
    reduced = "" if fact.hour is None else f", a daily mean of {temp_text(float(reading.mean()))}"
    if np.all(reading > model + SOIL_SDS * sd) or np.all(reading < model - SOIL_SDS * sd):
        low, high = float(model.min()), float(model.max())
        years = temp_text(low) if high - low < 0.05 else f"{temp_text(low)} to {temp_text(high)}"
        found.append(
            Doubt(
                f"Told {fact_text(fact)}{reduced}; by the weather the soil there had {years} then, and beds "
                f"differ by {sd:.1f} degrees."
            )
        )
    for older in trial.told:
        other = older.fact
        if (
            not isinstance(other, SoilWarmth)
            or other is fact
            or (other.first, other.last) != (fact.first, fact.last)
            or other.bed != fact.bed
            or (other.hour, other.depth_cm) == (fact.hour, fact.depth_cm)
        ):
            continue
        apart = float((reading - daily_mean_c(ground, other)).mean())
        if abs(apart) > SOIL_SDS * float(np.hypot(error_sd_c(fact), error_sd_c(other))):
            found.append(
                Doubt(
                    f"{_against(fact, other)} As means of the day they are {abs(apart):.1f} degrees apart.",
                    older,
                )
            )
    return found


def _ground(setting: Setting, years: Years) -> Ground:
    told = tuple(entry for entry in setting.told if not isinstance(entry.fact, SoilWarmth))
    conditioned = condition_years(years, told, setting.site, setting.today)
    return Ground(setting.site, conditioned.years, setting.site.surface)


def _warmth(trial: Setting, fact: WarmthTotal) -> list[Doubt]:
    years = trial.years(trial.today, 2)
    found = shift_for(years, fact, np.zeros(years.tmin_c.shape[1], dtype=np.bool_))
    if found is None:
        return []
    before, told = float(found.before_cday.mean()), fact.total_cday
    seen = bool(np.flatnonzero(found.free)[-1] < years.seen_days)
    if seen and abs(told - before) > max(TOTAL_CDAY, TOTAL_SHARE * before):
        return [
            Doubt(
                f"Told {fact_text(fact)}; the record gives {before:.0f} degree-days for the same days. Base, "
                "first day and method must be those of the bulletin."
            )
        ]
    missed = np.abs(found.after_cday - told) > 0.5
    smallest = float(np.abs(found.shift_c).min())
    if missed.all() or smallest > TOTAL_SHIFT_C:
        low, high = float(found.before_cday.min()), float(found.before_cday.max())
        return [
            Doubt(
                f"Told {fact_text(fact)}; the years have {low:.0f} to {high:.0f} degree-days for those days, "
                f"and even the nearest would have to be {degrees_text(float(_nearest(found.shift_c)))}."
            )
        ]
    return []


def _nearest(shift_c: np.ndarray) -> float:
    return float(shift_c[np.argmin(np.abs(shift_c))])


def _table_alone(setting: Setting, fact: FrostTable) -> list[Doubt]:
    """A table against itself, and against tables of other limits."""
    south = setting.site.south
    points = sorted(table_points(fact, south), key=lambda point: point[1])
    found = []
    for (chance, _), (later, _) in pairwise(points):
        if (later >= chance) if fact.season == "spring" else (later <= chance):
            way = "rise" if fact.season == "spring" else "fall"
            found.append(
                Doubt(
                    f"Told {fact_text(fact)}; the odds {way} as the season advances, from {chance * 10:.3g} "
                    f"to {later * 10:.3g} in 10."
                )
            )
            break
    for entry in setting.told:
        other = entry.fact
        if not isinstance(other, FrostTable) or other.season != fact.season or other.below_c == fact.below_c:
            continue
        mild, cold = sorted((fact, other), key=lambda table: -table.below_c)
        milds = dict(table_points(mild, south))
        for chance, column in table_points(cold, south):
            like = next((day for share, day in milds.items() if abs(share - chance) < 0.005), None)
            if like is not None and ((column > like) if fact.season == "spring" else (column < like)):
                found.append(
                    Doubt(
                        f"{_against(fact, other)} The colder limit would last longer than the milder one.",
                        entry,
                    )
                )
                break
    return found


def _table(setting: Setting, entry: Told, fact: FrostTable) -> list[Doubt]:
    whole = setting.calendar()
    points = table_points(fact, setting.site.south)
    own = frost_days(whole.tmin_c, fact.below_c, fact.season, [chance for chance, _ in points])
    apart = own - np.array([column for _, column in points])
    worst = int(np.argmax(np.abs(apart)))
    if abs(apart[worst]) > TABLE_APART_DAYS:
        day = day_text(whole.day(int(np.clip(round(own[worst]), 0, 364))).astype("datetime64[D]").item())
        return [
            Doubt(
                f"Told {fact_text(fact)}; the record has {day} at {points[worst][0] * 10:.3g} in 10, "
                f"{abs(apart[worst]):.0f} days away."
            )
        ]
    fit = fit_nights(whole, [entry], setting.today)
    half = None if fit is None else (fit.spring if fact.season == "spring" else fit.autumn)
    if half is not None and half.miss_days > TABLE_MISS_DAYS:
        return [
            Doubt(
                f"Told {fact_text(fact)}; no change of the nights here comes nearer to it than "
                f"{half.miss_days:.0f} days."
            )
        ]
    return []


def _pair(setting: Setting, fact: PairedMinima, station_c: float | None) -> list[Doubt]:
    found = []
    if abs(fact.difference_c) > PAIR_APART_C:
        found.append(
            Doubt(
                f"Told {fact_text(fact)}; two thermometers of one place are seldom {PAIR_APART_C:.0f} "
                "degrees apart."
            )
        )
    series = setting.weather()
    if station_c is None or fact.on is None or series is None:
        return found
    at = series.index_of(fact.on)
    if 0 <= at < series.days and series.measured_days()[at]:
        record_c = float(series.tmin_c[at])
        if abs(record_c - station_c) > STATION_APART_C:
            found.append(
                Doubt(
                    f"Told that the station had {temp_text(station_c)} on {day_text(fact.on)}; the record "
                    f"has {temp_text(record_c)}."
                )
            )
    return found
