"""From emergence to ready: day length, winter cold, bolting, and the stage a planting has reached.

Warmth comes from `response`: the mean over the daily wave of a response that is 1 at the optimum, summed in
physiological days. This module holds what else moves or gates that sum.
"""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np
from numpy.typing import ArrayLike

from spadework.errors import ParameterError
from spadework.science.response import response_table
from spadework.types import Floats, Ints

COLD_WIND_BELOW_C, COLD_WIND_M_S, COLD_WIND_LOSS = 12.0, 5.0, 0.5
"""Cold wind: daily mean below [degC], wind above [m s-1], share of a day's growth lost. Source: memory."""

FULL_LIGHT_H, LEAST_LIGHT_H = 11.0, 9.0
"""Day lengths [h] at which short days begin to slow growth, and slow it most. Source: common-practice."""

LEAST_LIGHT_SHARE = 0.15
"""Share of the pace left on the shortest days. Source: common-practice."""

_FIRST_DEVIATE, _MOST_DEVIATE = -1.6448536269514722, 1.2815515655446004  # normal quantiles of 0.05 and 0.90


def long_day_factor(photoperiod_h: ArrayLike, critical_h: float, saturating_h: float) -> Floats:
    """How far day length lets a long-day plant develop.

    Parameters
    ----------
    photoperiod_h : array, any shape  [h]
        Say which day length the crop's numbers mean: civil twilight is about an hour longer than sunrise
        to sunset.
    critical_h, saturating_h : float  [h]
        No development at or below the first, full speed at or above the second. Critical below saturating.

    Returns
    -------
    array, shape of photoperiod_h
        0 to 1; NaN stays NaN.

    Raises
    ------
    ParameterError
        If the hours are out of order.

    Source
    ------
    memory: the straight ramp common to crop models.
    """
    if not critical_h < saturating_h:
        raise ParameterError(
            f"A long-day plant's critical day length is {critical_h:g} h, "
            f"its saturating one {saturating_h:g} h.",
            "The critical one must be the shorter.",
        )
    hours = np.asarray(photoperiod_h, dtype=np.float64)
    factor: Floats = np.clip((hours - critical_h) / (saturating_h - critical_h), 0.0, 1.0)
    return factor


def short_day_factor(photoperiod_h: ArrayLike, critical_h: float, saturating_h: float) -> Floats:
    """How far day length lets a short-day plant develop.

    Parameters
    ----------
    photoperiod_h : array, any shape  [h]
    critical_h, saturating_h : float  [h]
        No development at or above the first, full speed at or below the second. Saturating below critical.

    Returns
    -------
    array, shape of photoperiod_h
        0 to 1; NaN stays NaN.

    Raises
    ------
    ParameterError
        If the hours are out of order.

    Source
    ------
    memory: the straight ramp common to crop models.
    """
    if not saturating_h < critical_h:
        raise ParameterError(
            f"A short-day plant's critical day length is {critical_h:g} h, "
            f"its saturating one {saturating_h:g} h.",
            "The critical one must be the longer.",
        )
    hours = np.asarray(photoperiod_h, dtype=np.float64)
    factor: Floats = np.clip((critical_h - hours) / (critical_h - saturating_h), 0.0, 1.0)
    return factor


def light_factor(photoperiod_h: ArrayLike) -> Floats:
    """How far short days let leaves grow, whatever the warmth.

    Parameters
    ----------
    photoperiod_h : array, any shape  [h]
        Sunrise to sunset.

    Returns
    -------
    array, shape of photoperiod_h
        1 from `FULL_LIGHT_H` on, falling in a straight line to `LEAST_LIGHT_SHARE` at `LEAST_LIGHT_H`.

    Notes
    -----
    Stands for the light of dull short days, which a record of temperatures does not hold: the same day length
    gives less light at high latitudes and under cloud. Not fitted to any record.

    Source
    ------
    common-practice: growth all but stops when the day is shorter than ten hours.
    """
    hours = np.asarray(photoperiod_h, dtype=np.float64)
    rise = (hours - LEAST_LIGHT_H) / (FULL_LIGHT_H - LEAST_LIGHT_H)
    factor: Floats = LEAST_LIGHT_SHARE + (1.0 - LEAST_LIGHT_SHARE) * np.clip(rise, 0.0, 1.0)
    return factor


def vernalisation_units_cday(
    mean_c: ArrayLike, half_range_c: ArrayLike, base_c: float, optimum_c: float, ceiling_c: float
) -> Floats:
    """Cold that counts towards flowering in a day.

    Parameters
    ----------
    mean_c, half_range_c : array, shape (..., day)  [degC]
        Daily mean and half of the daily range of the air.
    base_c, optimum_c, ceiling_c : float  [degC]
        Triangle of the response; most at the optimum.

    Returns
    -------
    array, broadcast shape  [degC day]
        Up to optimum less base each day; NaN stays NaN.

    Notes
    -----
    Cool nights in summer count here. Without removal by warm days, carrots in northern England would
    gather enough to bolt in most summers, which does not happen: use `vernalisation_state`.

    Source
    ------
    ATHERTON1990, published: carrot -1.0, 6.5, 16.0 C and sums in degree-days. Averaging over the wave:
    computed.
    """
    table = response_table("triangle", base_c, optimum_c, ceiling_c)
    units: Floats = table(mean_c, half_range_c) * (optimum_c - base_c)
    return units


def vernalisation_state(
    units_cday: ArrayLike,
    mean_c: ArrayLike,
    removal_above_c: float | None = None,
    removal_per_day: float = 0.0,
) -> Floats:
    """Cold gathered so far, less what warm days have undone.

    Parameters
    ----------
    units_cday : array, shape (..., day)  [degC day]
        From `vernalisation_units_cday`, zero on days before the plant can feel cold.
    mean_c : array broadcasting with units_cday  [degC]
        Daily mean of the air.
    removal_above_c : float  [degC]
        Days with a mean above this remove units. None: nothing is removed.
    removal_per_day : float  [degC day per day]
        How much such a day removes, zero or more.

    Returns
    -------
    array, shape (..., day)  [degC day]
        Zero or more at the end of each day; NaN from the first missing day on.

    Raises
    ------
    ParameterError
        If removal_per_day is below zero.

    Notes
    -----
    The state cannot fall below zero, which feeds back day by day; it equals the running sum less its
    running minimum, so no loop over days is needed. Removal stops mattering once a plant has begun to
    bolt: take the running maximum for that.

    Source
    ------
    memory: that warmth soon after cold undoes it; common advice is 0.5 units a day above 18 C for carrot.
    """
    if removal_per_day < 0:
        raise ParameterError(f"Removal by warm days is {removal_per_day:g} a day.", "It must be 0 or more.")
    change = np.asarray(units_cday, dtype=np.float64)
    mean = np.asarray(mean_c, dtype=np.float64)
    if removal_above_c is not None:
        change = change - removal_per_day * (mean > removal_above_c)
    change = change + 0.0 * mean
    total = np.cumsum(change, axis=-1)
    state: Floats = total - np.minimum(np.minimum.accumulate(total, axis=-1), 0.0)
    return state


def bolting_dose(first_cday: float, most_cday: float) -> tuple[float, float]:
    """Median and log spread of the dose of cold that makes a plant run to seed.

    Parameters
    ----------
    first_cday, most_cday : float  [degC day]
        Doses at which 5 and 90 in 100 plants bolt. First below most, both above zero.

    Returns
    -------
    median_cday, log_sd : float

    Raises
    ------
    ParameterError
        If the doses are out of order or not above zero.

    Source
    ------
    Log-normal through the two points: computed. The points for carrot, 126 for the first and 336 for 90
    in 100: ATHERTON1990, published; that the first are 5 in 100: memory.
    """
    if not 0 < first_cday < most_cday:
        raise ParameterError(
            f"Doses of cold for the first and for most bolters are {first_cday:g} and {most_cday:g}.",
            "Both must be above 0 and the first the smaller.",
        )
    spread = float(np.log(most_cday / first_cday)) / (_MOST_DEVIATE - _FIRST_DEVIATE)
    return first_cday * float(np.exp(-_FIRST_DEVIATE * spread)), spread


def bolting_share(v_cday: ArrayLike, first_cday: float, most_cday: float) -> Floats:
    """Share of plants that run to seed after a dose of cold.

    Parameters
    ----------
    v_cday : array, any shape  [degC day]
        Cold gathered, zero or more.
    first_cday, most_cday : float  [degC day]
        As in `bolting_dose`.

    Returns
    -------
    array, shape of v_cday
        0 to 1; NaN stays NaN.

    Raises
    ------
    ParameterError
        If the doses are out of order or not above zero.

    Source
    ------
    As in `bolting_dose`: computed.
    """
    from scipy.special import ndtr

    median, spread = bolting_dose(first_cday, most_cday)
    dose = np.maximum(np.asarray(v_cday, dtype=np.float64), 0.0)
    with np.errstate(divide="ignore"):
        share: Floats = ndtr(np.log(dose / median) / spread)
    return share


def stage_of(progress_share: ArrayLike, stage_shares: Mapping[int, float]) -> Ints:
    """BBCH principal growth stage, 0 to 9, that a share of the way to ready has reached.

    Parameters
    ----------
    progress_share : array, any shape
        Share of the way to ready; below zero before emergence, above 1 past ready.
    stage_shares : mapping of stage to share
        Share of the way at which each stage begins; rises with the stage.

    Returns
    -------
    array of int, shape of progress_share
        0 (germination) before the first stage of the mapping begins.

    Raises
    ------
    ParameterError
        If the shares do not rise with the stage, or a progress is NaN: a stage is a whole number and
        cannot be missing.

    Source
    ------
    computed from the sheet's own shares; the scale of stages is the open BBCH standard.
    """
    way = np.asarray(progress_share, dtype=np.float64)
    stages = sorted(stage_shares)
    begins = np.array([stage_shares[stage] for stage in stages], dtype=np.float64)
    if np.any(np.diff(begins) < 0):
        raise ParameterError(
            "Growth stages begin out of order: "
            + ", ".join(f"{stage} at {stage_shares[stage]:g}" for stage in stages)
            + ".",
            "A later stage may not begin before an earlier one.",
        )
    if np.isnan(way).any():
        raise ParameterError("Progress is not a number on some day.", "Fill the gap in the weather first.")
    reached: Ints = np.array([0, *stages], dtype=np.int64)[np.searchsorted(begins, way, side="right")]
    return reached


def chilled_share_of_day(tmin_c: ArrayLike, tmax_c: ArrayLike, limit_c: float) -> Floats:
    """Share of a sine day spent below a limit.

    Parameters
    ----------
    tmin_c, tmax_c : array, shape (..., day)  [degC]
        Daily extremes, shapes broadcast. NaN gives NaN.
    limit_c : float  [degC]

    Returns
    -------
    array, broadcast shape
        0 to 1.

    Notes
    -----
    Growth checked for a share of a day counts as that share of a day lost: warm hours of the same day are
    whole.

    Source
    ------
    computed from the sine wave; that chill stops growth while it lasts: memory.
    """
    low, high = np.broadcast_arrays(
        np.asarray(tmin_c, dtype=np.float64), np.asarray(tmax_c, dtype=np.float64)
    )
    half = (high - low) / 2.0
    with np.errstate(invalid="ignore", divide="ignore"):
        place = np.clip((limit_c - low - half) / half, -1.0, 1.0)
    share = np.where(half == 0.0, (low < limit_c).astype(np.float64), 1.0 - np.arccos(place) / np.pi)
    known: Floats = np.where(np.isnan(half), np.nan, share)
    return known


def cold_wind_check(mean_c: ArrayLike, wind_m_s: ArrayLike) -> Floats:
    """Share of a day's growth that cold wind takes from a plant newly set out.

    Parameters
    ----------
    mean_c : array, shape (..., day)  [degC]
        Daily mean of the air.
    wind_m_s : array, shape (..., day)  [m s-1]
        Daily mean wind at 2 m. NaN where it is not known.

    Returns
    -------
    array, broadcast shape
        `COLD_WIND_LOSS` on cold windy days, else 0; 0 where the wind is not known.

    Notes
    -----
    Says nothing of plants once they have rooted, nor of beds behind a hedge.

    Source
    ------
    common-practice: new plants stand still in cold wind; its limits and size: memory.
    """
    cold = np.asarray(mean_c, dtype=np.float64) < COLD_WIND_BELOW_C
    windy = np.nan_to_num(np.asarray(wind_m_s, dtype=np.float64), nan=0.0) > COLD_WIND_M_S
    lost: Floats = np.where(cold & windy, COLD_WIND_LOSS, 0.0)
    return lost
