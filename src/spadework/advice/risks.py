"""What may spoil a sowing in the ground: cold rot, washing rain, crust, hot soil."""

from __future__ import annotations

import msgspec
import numpy as np

from spadework.advice.odds import Odds, odds_of
from spadework.clock.ground import Ground
from spadework.clock.sprout import Sprout
from spadework.crops.sheet import Sheet
from spadework.science.soil_water import crusted
from spadework.types import Bools, Floats, Ints

WASHING_RAIN_MM = 20.0
"""Rain in one day that washes fine seed out of a drill or seals the bed. Source: memory."""

WASH_DAYS = 5
"""Days after sowing in which rain does it."""

POOR_SHARE = 0.6
"""Soil is too cold or too hot where it lets up less than this share of the crop's best. common-practice."""


class Risk(msgspec.Struct, frozen=True, kw_only=True):
    """One thing that may spoil the sowing: in how many years, and what helps."""

    name: str
    odds: Odds
    means: str
    helps: str


def sowing_risks(
    sheet: Sheet, ground: Ground, sprout: Sprout, sow_day: int, *, watered: bool = True
) -> list[Risk]:
    """The quality risks of one sowing day, most likely first; those under 1 year in 20 are left out."""
    made = ground.years.made
    up = np.minimum(sprout.median_day, ground.dates.size - 1)
    found = [
        _risk(
            "cold soil",
            _soil_too(sheet, ground, sprout, sow_day, cold=True),
            made,
            "seed lies long and part of it rots",
            "wait for warmer soil, or warm the bed under clear cover first",
        ),
        _risk(
            "hot soil",
            _soil_too(sheet, ground, sprout, sow_day, cold=False),
            made,
            "seed stays asleep or fails in soil this warm",
            "sow in the evening into watered soil and shade it until it is up",
        ),
        _risk(
            "washing rain",
            _washing(ground, sow_day),
            made,
            f"a day of {WASHING_RAIN_MM:.0f} mm or more within {WASH_DAYS} days of sowing",
            "lay fleece over the drill, or sow after the rain",
        ),
        _risk(
            "crust",
            crust_by_year(ground, sow_day, up),
            made,
            "hard rain and then drying days before it is up",
            "keep the surface damp and loose, or cover the drill with sieved compost",
        ),
    ]
    if sheet.emergence.rot_c is not None:
        found.append(
            _risk(
                "rot",
                _cold_wet(ground, sow_day, sheet.emergence.rot_c.value, watered),
                made,
                f"wet soil below {sheet.emergence.rot_c.value:.0f} °C in the first week",
                "wait, or start it in trays",
            )
        )
    return sorted((r for r in found if r.odds.chance >= 0.05), key=lambda r: -r.odds.chance)


def _risk(name: str, chance: Floats, made: Bools, means: str, helps: str) -> Risk:
    return Risk(name=name, odds=odds_of(chance, made), means=means, helps=helps)


def _soil_too(sheet: Sheet, ground: Ground, sprout: Sprout, sow_day: int, *, cold: bool) -> Floats:
    law = sheet.emergence.law()
    rows = np.arange(sprout.able.size)
    running = np.cumsum(ground.soil_mean_c, axis=-1)
    last = np.clip(sprout.median_day, sow_day + 1, ground.dates.size - 1)
    mean = (running[rows, last] - running[rows, sow_day]) / (last - sow_day)
    below = mean < (law.cold_half_c + law.heat_half_c) / 2.0
    return np.asarray((sprout.let_up < POOR_SHARE) & (below if cold else ~below), dtype=np.float64)


def _washing(ground: Ground, sow_day: int) -> Floats:
    rain = ground.years.rain_mm[:, sow_day : sow_day + WASH_DAYS]
    return np.asarray((rain >= WASHING_RAIN_MM).any(axis=1), dtype=np.float64)


def crust_by_year(ground: Ground, sow_day: int, up: Ints) -> Floats:
    """Whether the bed has crusted over before the seed is up, 0 or 1, [year]."""
    hard = crusted(ground.years.rain_mm, ground.et0_mm, sown_day=sow_day)
    before = np.arange(hard.shape[1]) < up[:, None]
    return np.asarray((hard & before).any(axis=1), dtype=np.float64)


def _cold_wet(ground: Ground, sow_day: int, rot_c: float, watered: bool) -> Floats:
    week = slice(sow_day, sow_day + 7)
    cold = ground.soil_mean_c[:, week].mean(axis=1) < rot_c
    wet = ground.seedbed_wet_share[:, week].mean(axis=1) > 0.5
    return np.asarray(cold & (wet | watered), dtype=np.float64)
