"""Days printed on a packet, turned into warmth at the place's usual sowing time."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from spadework.clock.course import set_out, sow
from spadework.clock.ground import Ground
from spadework.clock.sprout import Sowing, field_requirement_cd
from spadework.clock.tables import warmth_table
from spadework.crops.sheet import Sheet
from spadework.errors import ParameterError
from spadework.science import frost
from spadework.types import Floats

UP_WITHIN_DAYS = 21
"""Soil is warm enough to sow when half of the seed is up within this many days. Source: common-practice."""

SLOW_TIMES = 2.0
"""Slow seed is sown when it comes up within this many times its days in the best soil. common-practice."""

FROST_ODDS = 0.2
"""Tender plants are trusted out when a killing night comes later in no more than one year of five.
Source: common-practice."""

HALF_YEAR = 196
WEEK = 7


@dataclass(frozen=True)
class PacketWarmth:
    """What a packet's days are worth here.

    Parameters
    ----------
    start : int
        Column of the usual start.
    best_days : float
        Physiological days from emergence (or from taking root) to ready.
    """

    start: int
    best_days: float


def usual_start(sheet: Sheet, ground: Ground, *, set_out_plants: bool) -> int:
    """Column on which a crop is usually sown or set out at a place.

    Parameters
    ----------
    sheet : Sheet
    ground : Ground
        A whole year from midwinter, of which nothing has been seen.
    set_out_plants : bool
        Set out as plants rather than sown.

    Raises
    ------
    ParameterError
        Where no day of the year is warm enough.
    """
    ready = _frost_past(sheet, ground)
    if set_out_plants:
        return ready
    wanted = _sowing_warmth_c(sheet)
    soil = ground.soil_mean_c
    running = np.cumsum(soil, axis=1)
    week = (running[:, WEEK:] - running[:, :-WEEK]) / WEEK
    warm = week >= wanted
    if float(warm.any(axis=1).mean()) < 0.5:
        raise ParameterError(
            f"The soil here hardly ever reaches {wanted:.0f} °C, as {sheet.name} wants at sowing.",
            "Name the sowing day that the packet means with --packet-sown.",
        )
    first = np.where(warm.any(axis=1), np.argmax(warm, axis=1) + WEEK, soil.shape[1] - 1)
    warm_day = int(np.median(first))
    up = int(np.median(sow(sheet, ground, Sowing(warm_day)).begin_day)) - warm_day
    return max(warm_day, ready - up)


def _sowing_warmth_c(sheet: Sheet) -> float:
    """Soil temperature at which half of the seed comes up in good time [degC]."""
    law, need = sheet.emergence.law(), field_requirement_cd(sheet, None)
    temps = np.arange(2.0, law.optimum_c, 0.25)
    with np.errstate(divide="ignore"):
        days = need / warmth_table(law)(temps, np.full_like(temps, 4.0))
    limit = max(float(UP_WITHIN_DAYS), SLOW_TIMES * float(days.min()))
    return float(temps[int(np.argmax(days <= limit))])


def _frost_past(sheet: Sheet, ground: Ground) -> int:
    """First column after which a night that kills young plants comes in at most one year of five."""
    spring = ground.years.tmin_c[:, :HALF_YEAR]
    kill = sheet.frost.young_kill_c.value
    if sheet.frost.measured_at == "leaf":
        night: Floats = frost.chance_surface_below(spring, kill)
    else:
        night = (spring <= kill).astype(np.float64)
    later = 1.0 - np.flip(np.cumprod(np.flip(1.0 - night, axis=1), axis=1), axis=1)
    trusted = later.mean(axis=0) <= FROST_ODDS
    return int(np.argmax(trusted)) if trusted.any() else HALF_YEAR


def packet_warmth(
    sheet: Sheet, ground: Ground, days: float, start: int, *, set_out_plants: bool
) -> PacketWarmth:
    """Physiological days that a packet's days hold when counted from a start at this place.

    Parameters
    ----------
    sheet : Sheet
    ground : Ground
        A whole year and more from midwinter, of which nothing has been seen.
    days : float  [d]
        As printed, from sowing or from setting out.
    start : int
        Column they are counted from.
    set_out_plants : bool
        Counted from setting out rather than from sowing.

    Raises
    ------
    ParameterError
        Where the days end before the crop is even up.
    """
    course = set_out(sheet, ground, start) if set_out_plants else sow(sheet, ground, Sowing(start))
    end = min(start + round(days), ground.dates.size - 1)
    gained = np.maximum(course.grown_days[:, end] - course.head_days, 0.0)
    best_days = float(gained.mean())
    if best_days < 1.0:
        raise ParameterError(
            f"{days:g} days from then end before {sheet.name} has begun to grow.",
            "Check the number, or whether the packet counts from setting out (--from-setting-out).",
        )
    return PacketWarmth(start, best_days)
