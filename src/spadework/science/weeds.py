"""Weeds: when the next flush comes, what leaving it costs, and whether hoed weeds die on the ground."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from spadework.errors import ParameterError
from spadework.types import Floats, Ints

WEED_BASE_C = 4.4
"""Soil temperature above which weeds come up, in a mixed flush [degC]. Source: FORCELLA1997, published."""

FLUSH_SUMS_CDAY = {"thread": 60.0, "two leaves": 140.0, "large": 300.0}
"""Warmth of damp soil since the ground was cleared at which the flush is at the white thread, has two true
leaves, and is large [degC d above 4.4]. Source: memory, within the range of half emergence of early weeds in
spring, 80 to 265 (FORCELLA1997)."""

STAGES = ("none", "thread", "two leaves", "large")

DAMP_FROM_SHARE = 0.2
"""Fullness of the top layer below which weed seed waits [-]. Source: memory."""

DRY_SHARE = 1.0 / 3.0
"""Warmth that counts on days with a dry top, over that of damp ones [-]: what comes from roots and from
deeper down comes all the same. Source: memory."""

HAND_MIN_PER_M2 = 2.1
"""Hand weeding of an ordinary stand of small weeds [min m-2]. Source: MELANDER-2005, drilled alliums by one
person, 0.6 to 3.6 over a season by weeds (published)."""

LATE_FACTOR = 1.5
"""Time to weed late over weeding early. Source: TIWARI-2022, published."""

DIE_BY_STAGE_SHARE = {"thread": 0.95, "two leaves": 0.85, "large": 0.5}
"""Share of hoed weeds that die on a drying day. Source: common-practice; purslane and grasses re-root
oftener."""

DRYING_ET0_MM = 3.0
"""Reference evapotranspiration of a day that withers hoed weeds by evening [mm d-1]. Source: memory."""

WET_GROUND_FACTOR = 0.5
RAIN_FACTOR = 0.35
"""What is left of that share where the surface is wet, and where rain falls within a day [-]. Source:
common-practice."""

_THRESHOLDS = np.array([FLUSH_SUMS_CDAY[stage] for stage in STAGES[1:]])
_NARROW = 2.2


def flush_warmth_cday(soil_c: ArrayLike, wet_share: ArrayLike, cleared_day: ArrayLike = 0) -> Floats:
    """Warmth the weeds of a flush have had since the ground was cleared, by the end of each day.

    Parameters
    ----------
    soil_c : array, shape (..., day)  [degC]
        Daily mean of the top 5 cm. NaN adds nothing.
    wet_share : array, shape (..., day)  [-]
        Fullness of the top layer, 0 to 1, as from `soil_water.seedbed_wetness`.
    cleared_day : array of int, shape (...)
        Position of the day of weeding; nothing counts until the day after.

    Notes
    -----
    On dry days a share counts, `DRY_SHARE`, until two leaves are there; from then on roots find water below
    the dry top, and every day counts.

    Returns
    -------
    array, shape (..., day)  [degC d]

    Raises
    ------
    ParameterError
        If there is no day axis.

    Source
    ------
    FORCELLA1997 for base and kind of sum (published); what dry days count: memory.
    Checked: tests/unit/science/test_weeds.py
    """
    soil, wet = np.broadcast_arrays(
        np.asarray(soil_c, dtype=np.float64), np.asarray(wet_share, dtype=np.float64)
    )
    if soil.ndim == 0:
        raise ParameterError("A flush needs a run of days.", "Give arrays with days as the last axis.")
    days = np.arange(soil.shape[-1])
    since = days > np.asarray(cleared_day)[..., None]
    gain = np.nan_to_num(np.where(since, np.maximum(soil - WEED_BASE_C, 0.0), 0.0))
    young = np.cumsum(np.where(wet >= DAMP_FROM_SHARE, gain, DRY_SHARE * gain), axis=-1)
    every = np.cumsum(gain, axis=-1)
    rooted = young >= FLUSH_SUMS_CDAY["two leaves"]
    # what each day after the second leaf adds, on top of what was there on its day
    first = np.argmax(rooted, axis=-1)[..., None]
    then = np.take_along_axis(young - every, first, axis=-1)
    total: Floats = np.where(rooted, every + then, young)
    return total


def flush_stage(warmth_cday: ArrayLike) -> Ints:
    """Position of a flush among `STAGES`.

    Parameters
    ----------
    warmth_cday : array  [degC d]
        From `flush_warmth_cday`.

    Returns
    -------
    array of int
        0 nothing to see, 1 white threads, 2 two leaves, 3 large.

    Source
    ------
    memory, within the range of FORCELLA1997. Checked: tests/unit/science/test_weeds.py
    """
    return np.searchsorted(_THRESHOLDS, np.asarray(warmth_cday, dtype=np.float64), side="right").astype(
        np.int64
    )


def flush_share(warmth_cday: ArrayLike) -> Floats:
    """Share of a flush that is up.

    Parameters
    ----------
    warmth_cday : array  [degC d]
        From `flush_warmth_cday`.

    Returns
    -------
    array  [-]
        Half of it stands between the white thread and two leaves.

    Source
    ------
    memory: a log-logistic rise. Checked: tests/unit/science/test_weeds.py
    """
    half = (FLUSH_SUMS_CDAY["thread"] + FLUSH_SUMS_CDAY["two leaves"]) / 2.0
    ratio = np.maximum(np.asarray(warmth_cday, dtype=np.float64), 0.0) / half
    share: Floats = ratio**_NARROW / (1.0 + ratio**_NARROW)
    return share


def weeding_minutes(area_m2: ArrayLike, warmth_cday: ArrayLike, crowd_factor: ArrayLike = 1.0) -> Floats:
    """Minutes to weed an area by hand.

    Parameters
    ----------
    area_m2 : array  [m2]
    warmth_cday : array  [degC d]
        From `flush_warmth_cday`.
    crowd_factor : array  [-]
        Weeds of this ground over an ordinary number: time grows in step with them.

    Returns
    -------
    array  [min]
        In step with the share of the flush that is up, half as long again once weeds are large.

    Raises
    ------
    ParameterError
        If an area or factor is below zero.

    Source
    ------
    MELANDER-2005, MELANDER-2001 and TIWARI-2022 (published).
    Checked: tests/unit/science/test_weeds.py
    """
    area, crowd = np.asarray(area_m2, dtype=np.float64), np.asarray(crowd_factor, dtype=np.float64)
    if np.any(area < 0.0) or np.any(crowd < 0.0):
        raise ParameterError("An area or factor is below zero.", "Use 0 or more.")
    warmth = np.asarray(warmth_cday, dtype=np.float64)
    late = np.interp(warmth, _THRESHOLDS[1:], [1.0, LATE_FACTOR])
    minutes: Floats = HAND_MIN_PER_M2 * area * crowd * flush_share(warmth) * late
    return minutes


def weedy_loss_share(
    weedy_weeks: ArrayLike,
    free_weeks: ArrayLike,
    most_loss_share: ArrayLike = 0.6,
    spared_weeks: ArrayLike = 0.0,
) -> Floats:
    """Share of a crop lost to weeds left standing in the weeks it must be free of them.

    Parameters
    ----------
    weedy_weeks : array
        Weeks with weeds beside the crop, counted within the weeks it must be free.
    free_weeks : array
        Weeks the crop must be free, from the sheet, above 0.
    most_loss_share : array  [-]
        Lost where weeds stand all through: about 0.6, onion and carrot 0.9.
    spared_weeks : array
        Weeks the first flush may stand without loss, less than free_weeks.

    Returns
    -------
    array  [-]
        0 to most_loss_share, in step with the weedy weeks beyond the spared.

    Raises
    ------
    ParameterError
        If the weeks or the share are out of range.

    Notes
    -----
    The published periods say only where losses begin to be felt; the straight line between, and the losses of
    a season without weeding, are recalled.

    Source
    ------
    WEAVER1984 for the kind of period (published); the line: memory. Checked: tests/unit/science/test_weeds.py
    """
    weeks, free = np.asarray(weedy_weeks, dtype=np.float64), np.asarray(free_weeks, dtype=np.float64)
    spared, most = np.asarray(spared_weeks, dtype=np.float64), np.asarray(most_loss_share, dtype=np.float64)
    if np.any(free <= spared) or np.any(spared < 0.0) or np.any((most < 0.0) | (most > 1.0)):
        raise ParameterError(
            "Weeks free of weeds or a loss are out of range.",
            "The weeks must be more than those spared, the loss 0 to 1.",
        )
    lost: Floats = most * np.clip((weeks - spared) / (free - spared), 0.0, 1.0)
    return lost


def hoed_die_chance(
    stage_index: ArrayLike,
    et0_mm: ArrayLike,
    rain_chance: ArrayLike = 0.0,
    surface_wet_share: ArrayLike = 0.0,
) -> Floats:
    """Chance that a weed hoed this morning is dead, not re-rooted, by tomorrow.

    Parameters
    ----------
    stage_index : array of int
        From `flush_stage`, 1 to 3; 0 counts as 1.
    et0_mm : array  [mm d-1]
        Reference evapotranspiration of today.
    rain_chance : array  [-]
        That rain falls within 24 hours; 1 or 0 where it is a year's own.
    surface_wet_share : array  [-]
        Fullness of the top layer, 0 to 1.

    Returns
    -------
    array  [-]

    Raises
    ------
    ParameterError
        If a share is not 0 to 1 or evapotranspiration below zero.

    Source
    ------
    common-practice: hoe small weeds on a dry, windy morning with no rain to come.
    Checked: tests/unit/science/test_weeds.py
    """
    et0, rain = np.asarray(et0_mm, dtype=np.float64), np.asarray(rain_chance, dtype=np.float64)
    wet = np.asarray(surface_wet_share, dtype=np.float64)
    if np.any((rain < 0.0) | (rain > 1.0)) or np.any((wet < 0.0) | (wet > 1.0)) or np.any(et0 < 0.0):
        raise ParameterError(
            "A share lies outside 0 to 1, or a loss is below zero.", "Use 0 to 1 and 0 mm or more."
        )
    table = np.array([DIE_BY_STAGE_SHARE[stage] for stage in (STAGES[1], *STAGES[1:])])
    base = table[np.clip(np.asarray(stage_index), 0, 3)]
    dry = np.minimum(et0 / DRYING_ET0_MM, 1.0)
    ground = 1.0 - (1.0 - WET_GROUND_FACTOR) * wet
    sky = 1.0 - (1.0 - RAIN_FACTOR) * rain
    chance: Floats = base * dry * ground * sky
    return chance


def hoeing_hours(sunrise_h: ArrayLike, sunset_h: ArrayLike, dew: ArrayLike = True) -> tuple[Floats, Floats]:
    """First and last hour of a day at which hoed weeds still have time to wither.

    Parameters
    ----------
    sunrise_h, sunset_h : array  [h, solar time]
    dew : array of bool
        Leaves and ground are wet at sunrise.

    Returns
    -------
    first, last : array  [h, solar time]
        From when the dew is off until four hours of drying are left; the last never before the first.

    Source
    ------
    common-practice. Checked: tests/unit/science/test_weeds.py
    """
    rise, fall = np.asarray(sunrise_h, dtype=np.float64), np.asarray(sunset_h, dtype=np.float64)
    first: Floats = rise + np.where(np.asarray(dew), 3.0, 1.0)
    last: Floats = np.maximum(fall - 4.0, first)
    return first, last
