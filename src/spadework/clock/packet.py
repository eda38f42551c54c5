"""Days on a seed packet, turned into warmth at the time and place the packet takes for granted.

A packet counts days; a crop counts warmth. The days are run through the place's past years from the crop's
usual day there, and what is gained on them is the requirement the packet means.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np

from spadework.clock import fate
from spadework.clock.course import set_out, sow
from spadework.clock.ground import Ground
from spadework.clock.sprout import Sowing, field_requirement_cd
from spadework.clock.tables import trapezoid_table
from spadework.crops.sheet import Sheet
from spadework.types import Floats

Since = Literal["sowing", "setting out"]

MAIN_SOWING_C = 13.0
"""Soil of the main spring sowings that packets of cool-season crops speak of [degC]; the first ones go into
colder soil and take longer than printed. Source: common-practice (10 to 15 degC)."""

UP_WITHIN_DAYS = 12.0
"""A warm-season crop is sown once its seed comes up within this many days [d]. Class: measured, on the sowing
temperatures that extension tables print for 11 such crops: RMSE 2.3 degC, bias -0.8."""

GROWING_SHARE = 0.25
"""Share of a best day's growth that the week's air must give plants set out. Source: memory."""

LATE_FROST_ODDS = 0.2
"""Odds of a later killing frost below which it is usual to plant. Source: common-practice."""

WEEK = 7
SPRING_DAYS = 210
"""Days from midwinter within which a usual spring day is looked for."""


@dataclass(frozen=True)
class Conversion:
    """A packet's days as warmth.

    Parameters
    ----------
    best_days : float  [d]
        Days of best warmth, from emergence or from setting out, as a mean over the years.
    spread : float
        Standard deviation between the years, as a share of it.
    requirement : float  [d]
        What the sheet has for the same stretch.
    """

    best_days: float
    spread: float
    requirement: float

    @property
    def ratio(self) -> float:
        """The packet's requirement over the sheet's."""
        return self.best_days / self.requirement


def sowing_warmth_c(sheet: Sheet) -> float:
    """Mean soil temperature of a week from which a crop is usually sown [degC]."""
    if sheet.season == "cool":
        return MAIN_SOWING_C
    return max(
        MAIN_SOWING_C, sheet.emergence.base_c.value + field_requirement_cd(sheet, None) / UP_WITHIN_DAYS
    )


def _days_below(sheet: Sheet) -> int:
    """Days from sowing in such soil until half is up."""
    return int(field_requirement_cd(sheet, None) / (sowing_warmth_c(sheet) - sheet.emergence.base_c.value))


def usual_start(sheet: Sheet, ground: Ground, first: int, since: Since) -> int | None:
    """Column of the day on which a crop is usually sown, or set out, in spring.

    Parameters
    ----------
    sheet : Sheet
    ground : Ground
        At least `SPRING_DAYS` from `first` on, none of them seen.
    first : int
        Column of midwinter.
    since : "sowing" or "setting out"
        Which day is asked for.

    Returns
    -------
    int or None
        Median over the years of the first day on which the week's warmth suffices and a later killing frost
        is rarer than one year in five; None where most springs have no such day.

    Notes
    -----
    Sown seed is safe below ground, so frost is asked for from the day it is up. Where the soil never gets too
    cold, the day is midwinter itself. Crops set in autumn have no such day.
    """
    last = min(first + SPRING_DAYS, ground.dates.size)
    if since == "sowing":
        enough = _week_mean(ground.soil_mean_c) >= sowing_warmth_c(sheet)
        below_ground = _days_below(sheet)
    else:
        pace = sheet.development
        rate = trapezoid_table(
            pace.base_c.value, pace.optimum_c.value, pace.shoulder_c.value, pace.ceiling_c.value
        )(ground.air_mean_c, ground.air_half_c)
        enough = _week_mean(rate) >= GROWING_SHARE
        if sheet.chill.limit_c is not None:
            enough &= _week_mean(ground.air_mean_c) >= sheet.chill.limit_c.value
        below_ground = 0
    risky = np.flatnonzero(later_frost(sheet, ground, last) >= LATE_FROST_ODDS)
    safe_from = max(first, (int(risky[-1]) + 1 if risky.size else 0) - below_ground)
    if safe_from >= last:
        return None
    found = enough[:, safe_from:last]
    day = np.where(found.any(axis=1), safe_from + np.argmax(found, axis=1), last)
    middle = int(np.floor(np.median(day)))
    return middle if middle < last else None


def later_frost(sheet: Sheet, ground: Ground, last: int) -> Floats:
    """Chance, pooled over the years, that a night from each column up to `last` kills young plants, [day]."""
    on_leaf = sheet.frost.measured_at == "leaf"
    # run backwards, so that what is multiplied up are the nights still to come
    tmin = ground.years.tmin_c[:, :last][:, ::-1]
    alive, weights = fate.frost_survival(
        sheet,
        tmin,
        np.zeros_like(tmin),
        site_offset_c=ground.leaf_offset_c if on_leaf else 0.0,
        site_sd_c=ground.leaf_sd_c,
    )
    chance: Floats = 1.0 - np.tensordot(weights, alive, axes=1).mean(axis=0)
    return chance[::-1]


def convert(sheet: Sheet, ground: Ground, column: int, days: float, since: Since) -> Conversion:
    """Warmth gained in a packet's days from a day on.

    Parameters
    ----------
    sheet : Sheet
    ground : Ground
        Must reach `days` past the column.
    column : int
        Day sown or set out, as the packet counts.
    days : float  [d]
        As printed.
    since : "sowing" or "setting out"
        From when they are counted.

    Notes
    -----
    Of days counted from sowing, those to median emergence in a watered row are left out by the course itself.
    A crop that is only raised under cover spends the sheet's weeks there first.
    """
    if since == "sowing" and not raised_only(sheet):
        course = sow(sheet, ground, Sowing(column))
    else:
        under_cover = raising_days(sheet) if since == "sowing" else 0
        course = set_out(sheet, ground, column + under_cover)
    grown = np.maximum(course.grown_days - course.head_days, 0.0)
    at = column + days
    whole = int(np.floor(at))
    after = min(whole + 1, grown.shape[1] - 1)
    gained = grown[:, whole] + (at - whole) * (grown[:, after] - grown[:, whole])
    mean = float(gained.mean())
    spread = float(gained.std() / mean) if mean > 0.0 else 0.0
    return Conversion(mean, spread, course.ready_days)


def raised_only(sheet: Sheet) -> bool:
    """Whether the crop is not sown or planted where it grows."""
    return not {"direct", "tubers", "sets", "cloves", "crowns"} & set(sheet.propagation)


def raising_days(sheet: Sheet) -> int:
    """Days under cover from sowing to setting out."""
    weeks = sheet.sowing.weeks_to_set_out
    return round(7.0 * (6.0 if weeks is None else weeks.value))


def _week_mean(values: Floats) -> Floats:
    """Mean of the week up to each day; of what there is on the first days."""
    running = np.cumsum(values, axis=1)
    found = running.copy()
    found[:, WEEK:] -= running[:, :-WEEK]
    found /= np.minimum(np.arange(1, values.shape[1] + 1), WEEK)
    return found
