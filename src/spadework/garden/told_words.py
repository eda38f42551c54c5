"""Told facts in a sentence, as the person said them."""

from __future__ import annotations

from spadework.garden.phrases import day_text, degrees_text, temp_text
from spadework.garden.told import (
    Event,
    Fact,
    ForecastDay,
    FrostTable,
    MonthlyNormals,
    PairedMinima,
    SkyHours,
    SoilWarmth,
    WarmthTotal,
)


def fact_text(fact: Fact) -> str:
    """A told fact in a few words, in metric and with the day before the month."""
    if isinstance(fact, ForecastDay):
        return f"forecast for {day_text(fact.day)}: {_weather(fact)}"
    if isinstance(fact, SoilWarmth):
        return _soil(fact)
    if isinstance(fact, WarmthTotal):
        top = "" if fact.upper_c is None else f", below {temp_text(fact.upper_c, 0)}"
        return (
            f"{fact.total_cday:.4g} degree-days above {temp_text(fact.base_c, 0)}{top} from "
            f"{day_text(fact.since)} to {day_text(fact.until)}, {fact.method}"
        )
    if isinstance(fact, FrostTable):
        return _frost_table(fact)
    if isinstance(fact, PairedMinima):
        return _minimum(fact)
    if isinstance(fact, MonthlyNormals):
        low, high = min(fact.tmin_c), max(fact.tmax_c)
        return f"monthly normals, nights from {temp_text(low)} and days to {temp_text(high)}"
    if isinstance(fact, SkyHours):
        whole = fact.from_hour <= 0.0 and fact.until_hour >= 24.0
        span = "" if whole else f" from {_clock(fact.from_hour)} to {_clock(fact.until_hour)}"
        return f"{fact.what} on {day_text(fact.day)}{span}"
    return _event(fact)


def _clock(hour: float) -> str:
    return f"{int(hour):02d}:{round(hour % 1.0 * 60.0):02d}"


def _weather(fact: ForecastDay) -> str:
    parts = []
    if fact.high_c is not None and fact.low_c is not None:
        parts.append(f"{temp_text(fact.low_c)} to {temp_text(fact.high_c)}")
    if fact.mean_c is not None:
        parts.append(f"mean {temp_text(fact.mean_c)}")
    if fact.rain_mm is not None or fact.rain_odds is not None:
        amount = "rain" if fact.rain_mm is None else f"rain {fact.rain_mm:.3g} mm"
        odds = "" if fact.rain_odds is None else f", {fact.rain_odds * 10:.3g} times in 10"
        parts.append(amount + odds)
    if fact.wind_m_s is not None:
        parts.append(f"wind {fact.wind_m_s:.3g} m/s")
    if fact.cloud_share is not None:
        parts.append(f"cloud over {fact.cloud_share * 10:.3g} tenths of the sky")
    if fact.dew_c is not None:
        parts.append(f"dew point {temp_text(fact.dew_c)}")
    return ", ".join(parts)


def _soil(fact: SoilWarmth) -> str:
    where = f" in {fact.bed}" if fact.bed else ""
    text = f"soil {temp_text(fact.temp_c)} at {fact.depth_cm:g} cm{where}"
    if fact.hour is not None:
        whole, minutes = divmod(round(fact.hour * 60), 60)
        return f"{text}, {day_text(fact.first)} at {whole}:{minutes:02d} by the sun"
    if fact.first == fact.last:
        return f"{text}, mean of {day_text(fact.first)}"
    return f"{text}, mean of {day_text(fact.first)} to {day_text(fact.last)}"


def _frost_table(fact: FrostTable) -> str:
    which = "last frosts of spring" if fact.season == "spring" else "first frosts of autumn"
    if fact.median is not None:
        dates = f"middle {day_text(fact.median)}, spread {fact.spread_days or 0.0:g} days"
    else:
        dates = ", ".join(f"{chance * 10:.3g} in 10 by {day_text(day)}" for chance, day in fact.dates)
        if fact.season == "spring":
            dates = dates.replace(" by ", " after ")
    return f"{which} at {temp_text(fact.below_c, 0)}: {dates}"


def _minimum(fact: PairedMinima) -> str:
    where = f" {fact.own.surroundings}" if fact.own.surroundings else ""
    nights = "1 night" if fact.nights == 1 else f"{fact.nights} nights"
    spread = "" if fact.spread_c is None else f", scatter {fact.spread_c:.1f} degrees"
    on = "" if fact.on is None else f", {day_text(fact.on)}"
    return (
        f"{fact.own.shelter} thermometer at {fact.own.height_m:g} m{where} {degrees_text(fact.difference_c)} "
        f"than the station, {nights}{spread}{on}"
    )


def _event(fact: Event) -> str:
    began = "sown" if fact.start == "sown" else "set out"
    name = f"{fact.variety} {fact.crop}".strip().replace("-", " ")
    bed = f", bed {fact.bed}" if fact.bed else ""
    seen = (
        day_text(fact.on)
        if fact.not_yet_on is None
        else f"{day_text(fact.on)}, not yet {day_text(fact.not_yet_on)}"
    )
    return f"{name}{bed}, {began} {day_text(fact.started, year=True)}, {fact.what} {seen}"
