"""From seed in the soil to seedlings in the row: how fast, how many, and when.

One law with few parameters, each with a meaning a grower could name: the temperature below which nothing
moves, the warmth a seed needs, the temperature beyond which more warmth no longer helps, and those at
which cold or heat leaves half of the seed in the ground.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from spadework.errors import ParameterError
from spadework.science.emergence_course import (
    SIGMA,
    TAU,
    WET_ENOUGH,
    progress,
    progress_weighted,
    rot_survival,
    share_emerged,
    wet_gate,
)
from spadework.types import Floats

__all__ = [
    "FEWEST_PCT",
    "LONGEST_DAYS",
    "SIGMA",
    "TABLE_DEPTH_MM",
    "TAU",
    "TOE_CDELTA",
    "WET_ENOUGH",
    "Emergence",
    "EmergenceLaw",
    "default_percent_shape",
    "emergence_at",
    "emergence_days",
    "percent_normal",
    "progress",
    "progress_weighted",
    "rate_per_day",
    "requirement_cd",
    "rot_survival",
    "share_emerged",
    "warmth_c",
    "wet_gate",
]

TABLE_DEPTH_MM = 13.0
"""Sowing depth of the published table the parameters are fitted to (half an inch). Source: UCSC_KNOTT97,
published."""

TOE_CDELTA = 2.5
"""Spread of the base temperature from seed to seed [degC], one value for all crops.

Source: measured (tools/fit_emergence.py, on the days table of Harrington and Minges, 1954, Vegetable Seed
Germination).
"""

FEWEST_PCT = 5.0
"""Below this percent of normal seedlings a sowing counts as one that will not emerge. Source:
common-practice."""

LONGEST_DAYS = 200.0
"""Beyond this a sowing counts as one that will not emerge; the longest printed cell is 172 days
(UCSC_KNOTT97)."""


@dataclass(frozen=True)
class EmergenceLaw:
    """Parameters of one crop's emergence.

    Parameters
    ----------
    base_c : float  [degC]
        Median base temperature of the seed lot. Below it only the quicker seeds move, and slowly.
    sum_cd : float  [degC day]
        Warmth above the base from sowing to half of the able seed up, at a depth of 13 mm.
    optimum_c : float  [degC]
        Rate no longer rises above this.
    shoulder_c : float  [degC]
        Rate begins to fall above this. At or above the optimum.
    ceiling_c : float  [degC]
        Nothing emerges at or above this.
    best_pct : float  [percent]
        Normal seedlings at the best temperature, 0 to 100.
    cold_half_c, heat_half_c : float  [degC]
        Temperatures at which cold or heat leaves half of the best percent.
    cold_width_c, heat_width_c : float  [degC]
        Steepness of those falls: from 73 to 27 percent of the best over two widths.
    depth_cost_cd_mm : float  [degC day per mm]
        More warmth for every mm deeper than 13 mm.

    Raises
    ------
    ParameterError
        If base < optimum <= shoulder < ceiling does not hold, or a sum, percent or width is out of range.
    """

    base_c: float
    sum_cd: float
    optimum_c: float
    shoulder_c: float
    ceiling_c: float
    best_pct: float
    cold_half_c: float
    cold_width_c: float
    heat_half_c: float
    heat_width_c: float
    depth_cost_cd_mm: float = 1.0

    def __post_init__(self) -> None:
        if not self.base_c < self.optimum_c <= self.shoulder_c < self.ceiling_c:
            raise ParameterError(
                f"Emergence temperatures are out of order: base {self.base_c:g}, optimum {self.optimum_c:g}, "
                f"shoulder {self.shoulder_c:g}, ceiling {self.ceiling_c:g} C.",
                "They must rise: base below optimum, optimum not above shoulder, shoulder below ceiling.",
            )
        if not (self.sum_cd > 0 and 0 < self.best_pct <= 100):
            raise ParameterError(
                f"Emergence sum is {self.sum_cd:g} degree-days and best percent {self.best_pct:g}.",
                "The sum must be above 0; the percent above 0 and at most 100.",
            )
        if not (self.cold_width_c > 0 and self.heat_width_c > 0 and self.depth_cost_cd_mm >= 0):
            raise ParameterError(
                f"Widths are {self.cold_width_c:g} and {self.heat_width_c:g} C, "
                f"depth cost {self.depth_cost_cd_mm:g}.",
                "Widths must be above 0, the depth cost 0 or more.",
            )


@dataclass(frozen=True)
class Emergence:
    """Days to emergence at one steady temperature, or why there are none."""

    median_days: float | None
    normal_pct: float
    reason: str | None


def warmth_c(temp_c: ArrayLike, law: EmergenceLaw) -> Floats:
    """Warmth that counts towards emergence in a day at a steady temperature.

    Parameters
    ----------
    temp_c : array, any shape  [degC]
        Soil temperature at seed depth. NaN gives NaN.
    law : EmergenceLaw

    Returns
    -------
    array, shape of temp_c  [degC day per day]
        Zero or more. Divide by `requirement_cd` for the rate.

    Notes
    -----
    Rate rises in a straight line above the base, with a soft toe below it because seeds of one lot differ
    in their base; level from optimum to shoulder, and falls in a straight line from shoulder to ceiling.
    Valid where the table has cells, 0 to 40 C. The toe is one for all crops; the four crops with a cell
    at 0 C miss there by 1 to 6 in 100. For a day that swings, average this over the daily wave; never
    evaluate it at the mean.

    Source
    ------
    Straight-line thermal time: BW1974 (Bierhuizen and Wagenvoort, 1974, Some aspects of seed germination in
    vegetables), memory. Toe and decline: computed, fitted to UCSC_KNOTT97.
    """
    temp = np.asarray(temp_c, dtype=np.float64)
    rise = TOE_CDELTA * _soft((np.minimum(temp, law.optimum_c) - law.base_c) / TOE_CDELTA)
    fall = np.clip((law.ceiling_c - temp) / (law.ceiling_c - law.shoulder_c), 0.0, 1.0)
    warmth: Floats = rise * fall
    return warmth


def requirement_cd(law: EmergenceLaw, depth_mm: ArrayLike = TABLE_DEPTH_MM) -> Floats:
    """Warmth from sowing to half of the able seed up, for a sowing depth.

    Parameters
    ----------
    law : EmergenceLaw
    depth_mm : array, any shape  [mm]
        Zero or more.

    Returns
    -------
    array, shape of depth_mm  [degC day]
        At least a quarter of the sum: a seed on the surface still has to germinate.

    Raises
    ------
    ParameterError
        If any depth is below zero.

    Source
    ------
    Linear cost of depth: memory; the published crop model S-APSIM uses a far steeper one for rapeseed.
    """
    depth = np.asarray(depth_mm, dtype=np.float64)
    if np.any(depth < 0):
        raise ParameterError(
            f"Sowing depth is {float(np.nanmin(depth)):g} mm.", "Give a depth of 0 mm or more."
        )
    need: Floats = np.maximum(law.sum_cd + (depth - TABLE_DEPTH_MM) * law.depth_cost_cd_mm, 0.25 * law.sum_cd)
    return need


def rate_per_day(temp_c: ArrayLike, law: EmergenceLaw, depth_mm: ArrayLike = TABLE_DEPTH_MM) -> Floats:
    """Share of the way from sowing to half emerged that one day at a steady temperature covers.

    Parameters
    ----------
    temp_c : array, any shape  [degC]
    law : EmergenceLaw
    depth_mm : array broadcasting with temp_c  [mm]

    Returns
    -------
    array, broadcast shape  [per day]

    Source
    ------
    computed: `warmth_c` over `requirement_cd`.
    """
    rate: Floats = warmth_c(temp_c, law) / requirement_cd(law, depth_mm)
    return rate


def percent_normal(temp_c: ArrayLike, law: EmergenceLaw) -> Floats:
    """Normal seedlings from good seed at a steady soil temperature.

    Parameters
    ----------
    temp_c : array, any shape  [degC]
        NaN gives NaN.
    law : EmergenceLaw

    Returns
    -------
    array, shape of temp_c  [percent]
        0 to 100; zero at and above the ceiling, where the rate is zero.

    Notes
    -----
    Moist soil, no crust, no disease. One lot of seed stands behind each fitted crop, so a poor lot's best
    percent (eggplant 60) is that lot's. Field losses are a separate factor.

    Source
    ------
    Product of a cold and a heat logistic: computed, fitted to HDF (percent table of Harrington and
    Minges, 1954).
    """
    temp = np.asarray(temp_c, dtype=np.float64)
    cold = np.exp(-_soft((law.cold_half_c - temp) / law.cold_width_c))
    heat = np.exp(-_soft((temp - law.heat_half_c) / law.heat_width_c))
    percent: Floats = np.where(temp >= law.ceiling_c, 0.0, law.best_pct * cold * heat)
    return percent


def default_percent_shape(base_c: float, optimum_c: float, ceiling_c: float) -> dict[str, float]:
    """Percent parameters for a crop whose percent by temperature has not been tabulated.

    Parameters
    ----------
    base_c, optimum_c, ceiling_c : float  [degC]
        Those of `EmergenceLaw`.

    Returns
    -------
    dict
        cold_half_c, cold_width_c, heat_half_c, heat_width_c  [degC].

    Notes
    -----
    Rounded medians over the 18 crops with a table: cold half 1.2 C above the base (range -4 to +7), heat
    half at 0.61 of the way from optimum to ceiling, width 0.11 of that way. A weak guide for any one
    crop: crops whose seed turns dormant in heat (celery) fail earlier.

    Source
    ------
    memory, in the shape of the rule; its numbers follow the fitted crops (tools/fit_emergence.py).
    """
    if not base_c < optimum_c < ceiling_c:
        raise ParameterError(
            f"Base {base_c:g}, optimum {optimum_c:g}, ceiling {ceiling_c:g} C are out of order.",
            "They must rise.",
        )
    return {
        "cold_half_c": base_c + 1.0,
        "cold_width_c": 1.0,
        "heat_half_c": optimum_c + 0.6 * (ceiling_c - optimum_c),
        "heat_width_c": max(0.11 * (ceiling_c - optimum_c), 0.5),
    }


def emergence_at(temp_c: float, law: EmergenceLaw, depth_mm: float = TABLE_DEPTH_MM) -> Emergence:
    """Days to half of the able seed up at one steady temperature, or the reason there will be none.

    Parameters
    ----------
    temp_c : float  [degC]
    law : EmergenceLaw
    depth_mm : float  [mm]

    Returns
    -------
    Emergence
        median_days is None when fewer than 5 percent would come, at or above the ceiling, or beyond 200 days.

    Raises
    ------
    ParameterError
        If temp_c is not a number.

    Source
    ------
    As `rate_per_day` and `percent_normal`: computed. The two limits are named beside their constants.
    """
    if not np.isfinite(temp_c):
        raise ParameterError("Soil temperature is not a number.", "Give it in degrees Celsius.")
    percent = float(percent_normal(temp_c, law))
    rate = float(rate_per_day(temp_c, law, depth_mm))
    if temp_c >= law.ceiling_c:
        return Emergence(None, percent, f"too hot: nothing emerges at {law.ceiling_c:.0f} C or above")
    if percent < FEWEST_PCT:
        side = "cold" if temp_c < law.optimum_c else "hot"
        return Emergence(None, percent, f"too {side}: fewer than {FEWEST_PCT:.0f} in 100 seeds would emerge")
    if rate * LONGEST_DAYS < 1.0:
        side = "cold" if temp_c < law.optimum_c else "hot"
        return Emergence(None, percent, f"too {side}: it would take more than {LONGEST_DAYS:.0f} days")
    return Emergence(1.0 / rate, percent, None)


def emergence_days(temp_c: ArrayLike, law: EmergenceLaw, depth_mm: ArrayLike = TABLE_DEPTH_MM) -> Floats:
    """Array form of `emergence_at`: days, NaN where it will not emerge or the temperature is missing.

    Parameters
    ----------
    temp_c : array, any shape  [degC]
    law : EmergenceLaw
    depth_mm : array broadcasting with temp_c  [mm]

    Returns
    -------
    array, broadcast shape  [day]

    Source
    ------
    As `emergence_at`: computed.
    """
    rate = rate_per_day(temp_c, law, depth_mm)
    comes = (percent_normal(temp_c, law) >= FEWEST_PCT) & (rate * LONGEST_DAYS >= 1.0)
    days: Floats = np.full(rate.shape, np.nan)
    np.divide(1.0, rate, out=days, where=comes)
    return days


def _soft(x: Floats) -> Floats:
    """ln(1 + e^x) without overflow; numpy's own logaddexp warns of NaN."""
    value: Floats = np.maximum(x, 0.0) + np.log1p(np.exp(-np.abs(x)))
    return value
