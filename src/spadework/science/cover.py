"""Covers and tunnels: how much warmer by day and by night, and the odds that it is enough, or too much."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from spadework.errors import ParameterError
from spadework.science import frost
from spadework.types import Floats

NIGHT_GAIN_SD_C = 1.0
LEAST_NIGHT_GAIN_CDELTA = -1.0
"""Spread of a cover's gain from night to night, and the least it comes to [degC]. Source: memory; OSU-RC88
saw nights when the air under a cover was 0.6 degC colder than over bare ground (published)."""

SHUT_HOUSE_C_PER_W = 0.034
"""Gain of a shut film house for each W m-2 of sun [degC]. Source: computed from `sun_gain_cdelta`, one change
of air an hour."""

SHUT_HOUSE_SPREAD_SHARE = 0.3
"""Spread of that gain between houses and days, as a share of it [-]. Source: memory."""

HOUR_MISS_SD_C = 1.8
"""Spread of the air at an hour about its estimate from the day's extremes [degC]. Source: measured (SCAN
2015; three airports 2013)."""

_NODES = 41


def sun_gain_cdelta(
    sun_w_m2: ArrayLike,
    *,
    passing_share: ArrayLike = 0.75,
    heating_share: ArrayLike = 0.5,
    loss_w_m2_k: ArrayLike = 6.5,
    skin_factor: ArrayLike = 1.6,
    height_m: ArrayLike = 2.0,
    air_changes_per_hour: ArrayLike = 1.0,
) -> Floats:
    """How much warmer the air under a cover is by day, at rest.

    Parameters
    ----------
    sun_w_m2 : array  [W m-2]
        Sun on level ground outside.
    passing_share : array  [-]
        Of the sun, through the cover: film 0.75, fleece 0.85.
    heating_share : array  [-]
        Of the sun inside, that heats air: 0.5 over a young crop or dry soil, 0.3 over a full crop or wet
        soil.
    loss_w_m2_k : array  [W m-2 K-1]
        Heat lost through each square metre of cover: film 6.5, fleece 9.
    skin_factor : array  [-]
        Cover over ground: walk-in house 1.6, low tunnel 1.3.
    height_m : array  [m]
        Mean height of the air under it.
    air_changes_per_hour : array  [h-1]
        Shut house about 1, open about 30, fleece on the crop about 150.

    Returns
    -------
    array  [degC]

    Raises
    ------
    ParameterError
        If sun is below zero or nothing carries heat away.

    Notes
    -----
    Wind raises the changes of air fourfold from calm to 5 m/s. Every number but the sun is recalled: anchors
    are a tunnel's mean gain of maxima of 4.2 degC (SAVAGE1980, vented as its growers did) and 2 degC on the
    mean, 8 at most, under one perforated film (ACTA187).

    Source
    ------
    computed: heat in equals heat out; parameters memory. Checked: tests/unit/science/test_cover.py
    """
    sun = np.asarray(sun_w_m2, dtype=np.float64)
    out = np.asarray(loss_w_m2_k, dtype=np.float64) * np.asarray(skin_factor, dtype=np.float64)
    out = out + 1200.0 / 3600.0 * np.asarray(height_m, dtype=np.float64) * np.asarray(
        air_changes_per_hour, dtype=np.float64
    )
    if np.any(sun < 0.0) or np.any(out <= 0.0):
        raise ParameterError(
            "Sun below zero, or nothing carries heat away.", "Use sun of 0 or more and losses above 0."
        )
    gain: Floats = sun * np.asarray(passing_share) * np.asarray(heating_share) / out
    return gain


def sun_at_hours_w_m2(
    solar_mj: ArrayLike, sunrise_h: ArrayLike, sunset_h: ArrayLike, hours: ArrayLike
) -> Floats:
    """Sun at hours of a day from its daily sum, as half a sine wave.

    Parameters
    ----------
    solar_mj : array, shape (..., day)  [MJ m-2 d-1]
    sunrise_h, sunset_h : array, shape (..., day)  [h, solar time]
    hours : array, shape (hour,)  [h, solar time]

    Returns
    -------
    array, shape (..., day, hour)  [W m-2]
        0 at night and in a polar night.

    Source
    ------
    computed: the half sine that holds the day's sum. Checked: tests/unit/science/test_cover.py
    """
    rise, fall = np.asarray(sunrise_h, dtype=np.float64), np.asarray(sunset_h, dtype=np.float64)
    length = np.maximum(fall - rise, 1e-9)
    peak = np.asarray(solar_mj, dtype=np.float64) * 1e6 / 3600.0 * np.pi / (2.0 * length)
    since = np.asarray(hours, dtype=np.float64) - rise[..., None]
    inside = (since > 0.0) & (since < length[..., None])
    sun: Floats = np.where(inside, peak[..., None] * np.sin(np.pi * since / length[..., None]), 0.0)
    return np.maximum(sun, 0.0)


def chance_too_hot(
    air_c: ArrayLike,
    sun_w_m2: ArrayLike,
    limit_c: ArrayLike = 30.0,
    *,
    gain_c_per_w: ArrayLike = SHUT_HOUSE_C_PER_W,
    spread_share: float = SHUT_HOUSE_SPREAD_SHARE,
    air_sd_c: ArrayLike = HOUR_MISS_SD_C,
) -> Floats:
    """Chance that the air in a shut house is above a limit at an hour.

    Parameters
    ----------
    air_c : array  [degC]
        Outside at the hour.
    sun_w_m2 : array  [W m-2]
        At the hour, as from `sun_at_hours_w_m2`.
    limit_c : array  [degC]
    gain_c_per_w : array  [degC per W m-2]
        This house's own, once a thermometer inside has taught it.
    spread_share : float  [-]
        What is not known of it, as a share.
    air_sd_c : array  [degC]
        What is not known of the air outside.

    Returns
    -------
    array  [-]
        0 to 1; falls with every door that opens.

    Raises
    ------
    ParameterError
        If a spread is below zero or the air is known exactly.

    Notes
    -----
    A shut house at 15 degC outside passes 30 degC at 440 W m-2: an ordinary May morning. A daily gain of the
    maximum of 0.35 degC for each MJ m-2, as recalled elsewhere for shut houses, is less than half of this:
    those are the houses somebody opened.

    Source
    ------
    computed from `sun_gain_cdelta`; spreads memory. Checked: tests/unit/science/test_cover.py
    """
    from scipy.special import ndtr

    outside, sun = np.asarray(air_c, dtype=np.float64), np.asarray(sun_w_m2, dtype=np.float64)
    sd = np.asarray(air_sd_c, dtype=np.float64)
    if spread_share < 0.0 or np.any(sd <= 0.0):
        raise ParameterError("A spread is below zero, or there is none.", "Use a spread of air above 0.")
    gain = np.asarray(gain_c_per_w, dtype=np.float64) * sun
    chance: Floats = ndtr((outside + gain - np.asarray(limit_c)) / np.hypot(sd, spread_share * gain))
    return chance


def night_gain_nodes_cdelta(mean_gain_c: float, count: int = _NODES) -> Floats:
    """Equally likely gains of a cover by night, from least to most.

    Parameters
    ----------
    mean_gain_c : float  [degC]
        Usual gain, before nights on which it fails are cut off at a degree below nothing.
    count : int
        How many.

    Returns
    -------
    array, shape (count,)  [degC]
        Middles of equal shares of a normal spread cut off below -1.

    Source
    ------
    memory, as the spread above. Checked: tests/unit/science/test_cover.py
    """
    from scipy.special import ndtr, ndtri

    cut = float(ndtr((LEAST_NIGHT_GAIN_CDELTA - mean_gain_c) / NIGHT_GAIN_SD_C))
    middles = (np.arange(count) + 0.5) / count
    nodes: Floats = mean_gain_c + NIGHT_GAIN_SD_C * ndtri(cut + (1.0 - cut) * middles)
    return nodes


def chance_harmed(
    tmin_c: ArrayLike,
    limit_c: ArrayLike,
    *,
    tmin_sd_c: ArrayLike = 0.0,
    night_gain_c: float | None = None,
    offset: frost.SurfaceOffset | None = None,
    site_offset_c: ArrayLike = 0.0,
) -> Floats:
    """Chance that leaves fall to a harmful temperature in a night, bare or under a cover.

    Parameters
    ----------
    tmin_c : array, shape (..., day)  [degC]
        Shelter minimum, seen or forecast.
    limit_c : array  [degC]
        At or below which the leaf is harmed.
    tmin_sd_c : array  [degC]
        Spread of the forecast; 0 for a minimum that was read, or where each year brings its own.
    night_gain_c : float or None  [degC]
        Usual gain of the cover; None for no cover.
    offset : SurfaceOffset or None
        From `frost.plant_surface_offset`, with cloud, wind and humidity as told; None for a night of which
        nothing is told.
    site_offset_c : array  [degC]
        This bed's own lasting offset.

    Returns
    -------
    array, shape (..., day)  [-]

    Raises
    ------
    ParameterError
        If a spread is below zero.

    Notes
    -----
    Under a cover the sky's pull on the leaf is taken as it is in the open, with the cover's gain on top, as
    the gains were measured beside open ground.

    Source
    ------
    USCRN for the open leaf (measured); the cover's spread memory. Checked: tests/unit/science/test_cover.py
    """
    from scipy.special import ndtr

    night = frost.plant_surface_offset() if offset is None else offset
    sd = np.asarray(tmin_sd_c, dtype=np.float64)
    if np.any(sd < 0.0) or night.within_sd_c < 0.0 or night.between_sd_c < 0.0:
        raise ParameterError("A spread is below zero.", "Use 0 degC or more.")
    spread = np.sqrt(night.within_sd_c**2 + night.between_sd_c**2 + sd**2)
    leaf = np.asarray(tmin_c, dtype=np.float64) + night.mean_c + np.asarray(site_offset_c, dtype=np.float64)
    short = np.asarray(limit_c, dtype=np.float64) - leaf
    if night_gain_c is None:
        bare: Floats = ndtr(short / spread)
        return bare
    gains = night_gain_nodes_cdelta(night_gain_c)
    covered: Floats = ndtr((short[..., None] - gains) / np.asarray(spread)[..., None]).mean(axis=-1)
    return covered
