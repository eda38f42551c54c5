"""Ways of sowing in hot soil: by the hour, into watered drills, under shade, deeper."""

from __future__ import annotations

from dataclasses import dataclass, replace

import msgspec
import numpy as np

from spadework.advice.odds import Odds, odds_of
from spadework.advice.stand import full_stand_chance
from spadework.clock.ground import Ground
from spadework.clock.sprout import Sprout
from spadework.crops.sheet import Sheet
from spadework.science import soil
from spadework.science.emergence import percent_normal
from spadework.science.thermometer import wave_at_hour
from spadework.types import Floats

WAKING_H = 16
"""Hours after sowing in which heat decides whether seed wakes or stays asleep [h]. Memory (lettuce)."""

SHOWN_H = 36
"""Hours shown: the first day and night [h]."""

HOT_FROM = 0.1
"""Odds of hot soil from which ways are compared. Our own rule."""

WET_CDELTA, WET_WAVE = -1.5, 0.7
"""Watering just before: mean of the first day [degC], share of the daily wave left. Source: memory."""

SHADE_SUN, SHADE_WAVE = 0.5, 0.5
"""A board or shade cloth: share of the sun's warming kept, share of the daily wave left. Source: memory."""


@dataclass(frozen=True)
class _Way:
    name: str
    hour: int
    wet: bool = False
    shade: bool = False
    depth_times: float = 1.0


_WAYS = (
    _Way("in the morning, as usual", 9),
    _Way("towards evening", 18),
    _Way("towards evening, into watered drills", 18, wet=True),
    _Way("towards evening, watered, and shaded until it is up", 18, wet=True, shade=True),
    _Way("the same, twice as deep", 18, wet=True, shade=True, depth_times=2.0),
)


class SowWay(msgspec.Struct, frozen=True, kw_only=True):
    """One way of sowing on a hot day.

    Parameters
    ----------
    first_hours_c : float
        Mean temperature at the seed over the first hours, middle of the years [degC].
    by_hour_c : list of float
        Temperature at the seed by the hour from sowing, middle of the years [degC].
    """

    way: str
    sown_at_hour: int
    depth_mm: float
    full_stand: Odds
    first_hours_c: float
    by_hour_c: list[float]


def sow_ways(
    sheet: Sheet, ground: Ground, sprout: Sprout, day: int, depth_mm: float, germination: float | None
) -> list[SowWay]:
    """Ways of sowing on one day, by what the seed feels in its first day and night.

    Parameters
    ----------
    sheet, ground : Sheet, Ground
    sprout : Sprout
        The sowing of that day run through the years.
    day : int
        Column of the day.
    depth_mm : float  [mm]
    germination : float or None

    Notes
    -----
    The able share is that of the same soil without heat, times the percent law's heat side at the mean of the
    first hours. How far water and shade cool the seed zone is memory, not measured.
    """
    deeper = sheet.sowing.seed_size == "large"
    return [
        _weigh(sheet, ground, sprout, day, depth_mm, germination, way)
        for way in _WAYS
        if deeper or way.depth_times == 1.0
    ]


def _weigh(
    sheet: Sheet,
    ground: Ground,
    sprout: Sprout,
    day: int,
    depth_mm: float,
    germination: float | None,
    way: _Way,
) -> SowWay:
    depth = depth_mm * way.depth_times
    by_hour = _by_hour(ground, day, depth / 10.0, way)
    first = by_hour[:, :WAKING_H].mean(axis=1)
    law = sheet.emergence.law()
    usual = ground.soil_mean_c[:, day : day + 3].mean(axis=1)
    heat_free = percent_normal(np.minimum(usual, law.optimum_c), law)
    cooled = percent_normal(np.maximum(first, np.minimum(usual, law.optimum_c)), law)
    now = percent_normal(usual, law)
    ratio = cooled / np.maximum(np.minimum(now, heat_free), 1e-3)
    able = np.clip(sprout.able * ratio, 1e-3, 0.99)
    stand = full_stand_chance(sheet, replace(sprout, able=able), day, germination)
    return SowWay(
        way=way.name,
        sown_at_hour=way.hour,
        depth_mm=depth,
        full_stand=odds_of(stand, ground.years.made),
        first_hours_c=round(float(np.median(first)), 1),
        by_hour_c=[round(float(value), 1) for value in np.median(by_hour, axis=0)],
    )


def _by_hour(ground: Ground, day: int, depth_cm: float, way: _Way) -> Floats:
    """Temperature at the seed by the hour from sowing, shape (year, hour) [degC]."""
    hours = way.hour + np.arange(SHOWN_H)
    columns = day + hours // 24
    surface = soil.SURFACES[ground.surface]
    mean = ground.soil_mean_c[:, columns]
    half = ground.soil_half_c(depth_cm)[:, columns]
    if way.wet:
        mean = mean + WET_CDELTA * (hours < way.hour + 24)
        half = half * WET_WAVE
    if way.shade:
        mean = mean - (1.0 - SHADE_SUN) * surface.b_c_per_mj * ground.solar_mj[:, columns]
        half = half * SHADE_WAVE
    found: Floats = mean + half * wave_at_hour(hours % 24, depth_cm)
    return found
