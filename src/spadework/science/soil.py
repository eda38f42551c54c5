"""Temperature of the seed zone: its daily mean from air and sun, and its daily wave at a depth.

The mean follows two stores that lag behind an equilibrium set by air and sun, one by a day or two, one by
nine. The kind of surface changes how strongly the sun counts and how fast the stores answer. What is left
after that is half "this bed is not the average bed", which no equation removes: that is what `thermometer`
is for.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from spadework.errors import ParameterError
from spadework.science.air import require_ordered
from spadework.types import Floats

WARM_UP_DAYS = 7
"""Days of equilibrium whose mean starts both stores [d]. Source: measured (USCRN 2020)."""

REFERENCE_DEPTH_CM = 5.0
"""Depth the mean and the size of the wave were measured at [cm]. Source: measured (USCRN 2020)."""

DAMPING_DEPTH_CM = 10.0
"""Depth over which the daily wave falls to 1/e in mineral soil [cm]; 8 in a peaty mix. Source:
memory; measured in one dry soil: 12.1 between 5 and 10 cm, 7.6 between 10 and 20 cm."""

WAVE_PER_AIR_HALF_RANGE = 0.79
WAVE_C_PER_MJ = 0.24
"""Half-range at 5 cm in open dry ground per half-range of the air [-] and per MJ m-2 d-1 of sun [degC].
Source: measured (SCAN station 2184)."""


@dataclass(frozen=True)
class Surface:
    """How one kind of ground takes up sun and follows the air.

    Parameters
    ----------
    name : str
        In plain words.
    a_c : float  [degC]
        Equilibrium above or below the air without sun.
    b_c_per_mj : float  [degC per MJ m-2 d-1]
        Warming by the sun.
    kf, ks : float  [d-1]
        Rates of the fast and the slow store, 0 to 1.
    w : float  [-]
        Weight of the slow store, 0 to 1.
    wave_factor : float  [-]
        Size of the daily wave as a share of that in open dry ground.
    offset_sd_c : float  [degC]
        Standard deviation between beds of this kind, before any thermometer reading.
    provenance : str
        Class of b, kf, ks and w; the wave factor's class is given in source.
    source : str
        What the numbers rest on.
    """

    name: str
    a_c: float
    b_c_per_mj: float
    kf: float
    ks: float
    w: float
    wave_factor: float
    offset_sd_c: float
    provenance: str
    source: str


_A, _KF, _KS, _W = -1.25, 0.635, 0.1135, 0.5675
_B_MOIST = 0.20

SURFACES: dict[str, Surface] = {
    "grass": Surface(
        "short grass or other low cover", _A, 0.176, _KF, _KS, _W, 0.6, 1.55, "measured",
        "fitted to USCRN 2020 (50 stations). Wave factor: memory; a bound of 0.8 was measured "
        "on the radiant surface of such cover (USCRN 2020)",
    ),
    "bare-dry": Surface(
        "bare, dry ground", _A, 0.25, _KF, _KS, _W, 1.0, 2.0, "measured",
        "b and wave fitted to SCAN station 2184, a desert",
    ),
    "bare-moist": Surface(
        "bare, moist, dark ground", _A, _B_MOIST, _KF, _KS, _W, 0.75, 2.0, "memory",
        "between grass and dry ground",
    ),
    "mulch": Surface(
        "organic mulch of 5 cm or more", _A, _B_MOIST * 0.5, _KF * 0.6, _KS, _W, 0.75 * 0.4, 2.0, "memory",
        "a guess (AVRDC397 found straw about equal to bare ground in spring)",
    ),
    "black-film": Surface(
        "black film lying close", _A, _B_MOIST + 0.12, _KF, _KS, _W, 0.8, 2.0, "memory",
        "set to the published gain of 2 to 3 degC at 5 cm; wears off once the crop shades it "
        "(HORTTECH25)",
    ),
    "clear-film": Surface(
        "clear film", _A, _B_MOIST + 0.30, _KF, _KS, _W, 1.1, 2.0, "memory",
        "set to a gain of 4 to 6 degC",
    ),
    "raised-bed": Surface(
        "framed raised bed of 20 to 40 cm", _A, _B_MOIST + 0.02, _KF * 1.2, _KS * 1.5, _W, 0.8, 2.0, "memory",
        "a guess; no measured data found",
    ),
    "pot-black": Surface(
        "black pot or grow bag", _A, _B_MOIST + 0.06, 0.8, _KS, 0.2, 1.1, 2.0, "memory",
        "a guess (WITCHER2020 gives only the ranking)",
    ),
    "pot-light": Surface(
        "light-coloured pot or grow bag", _A, _B_MOIST + 0.02, 0.8, _KS, 0.2, 0.9, 2.0, "memory",
        "a guess (WITCHER2020 gives only the ranking)",
    ),
}  # fmt: skip
"""Kinds of surface by key. Wave factors other than those of bare-dry ground are memory throughout."""

_BLOCK_DAYS = 32


def _lagged(forcing: Floats, rate: float, start: Floats) -> Floats:
    """First-order lag along the last axis: y(d) = y(d-1) + rate (forcing(d) - y(d-1)).

    Whole blocks of days are worked as one matrix product, some twenty times faster than a loop over days.
    """
    keep = 1.0 - rate
    day = np.arange(_BLOCK_DAYS)
    ago = day[None, :] - day[:, None]
    weights = np.where(ago >= 0, rate * keep ** np.maximum(ago, 0), 0.0)
    fading = keep ** (day + 1.0)
    out = np.empty_like(forcing)
    before = start[..., None]
    for first in range(0, forcing.shape[-1], _BLOCK_DAYS):
        block = forcing[..., first : first + _BLOCK_DAYS]
        n = block.shape[-1]
        out[..., first : first + n] = block @ weights[:n, :n] + before * fading[:n]
        before = out[..., first + n - 1, None]
    return out


def _bridged(forcing: Floats) -> tuple[Floats, Floats]:
    """Bridge missing days in a straight line, and give the mean of the first known days of each row."""
    missing = np.isnan(forcing)
    if not np.any(missing):
        return forcing, forcing[..., :WARM_UP_DAYS].mean(axis=-1)
    rows = forcing.reshape(-1, forcing.shape[-1]).copy()
    start = np.full(rows.shape[0], np.nan)
    days = np.arange(rows.shape[1])
    for i, row in enumerate(rows):
        known = ~np.isnan(row)
        if np.any(known):
            start[i] = row[known][:WARM_UP_DAYS].mean()
            row[~known] = np.interp(days[~known], days[known], row[known])
    return rows.reshape(forcing.shape), start.reshape(forcing.shape[:-1])


def seed_zone_mean_c(tmean_c: ArrayLike, solar_mj: ArrayLike, surface: Surface) -> Floats:
    """Daily mean soil temperature at 5 cm from air temperature and radiation.

    Parameters
    ----------
    tmean_c : array, shape (..., day)  [degC]
        Mean of the day's extremes at shelter height.
    solar_mj : array, shape (..., day)  [MJ m-2 d-1]
        Global radiation, measured or estimated. Broadcasts with tmean_c.
    surface : Surface
        Kind of ground, from `SURFACES`.

    Returns
    -------
    array, shape (..., day)  [degC]
        NaN on days with a missing input. Across a gap the stores follow a straight line between the days
        known.

    Raises
    ------
    ParameterError
        If there is no day axis.

    Notes
    -----
    Measured on 50 stations held back (USCRN 2020, short cover, 26 to 61 degrees north): RMSE 2.20, bias
    -0.04 degC, of which 1.57 is a constant difference between stations. Oklahoma 2009 to 2012: RMSE 1.74,
    bias +0.54. Give it four weeks of weather before the first day asked about: the slow store remembers
    nine days. Not for snow cover, frozen ground, or ground shaded by a crop; only grass and dry bare ground
    were measured.

    Source
    ------
    USCRN (measured: fitted to 50 of its stations). Checked: tests/published/soil_stations/test_soil_mean.py
    """
    air = np.asarray(tmean_c, dtype=np.float64)
    equilibrium = air + surface.a_c + surface.b_c_per_mj * np.asarray(solar_mj, dtype=np.float64)
    if equilibrium.ndim == 0:
        raise ParameterError(
            "Soil temperature needs a run of days, not a single value.",
            "Give arrays with days as the last axis.",
        )
    if equilibrium.shape[-1] == 0:
        return equilibrium
    bridged, start = _bridged(equilibrium)
    fast = _lagged(bridged, surface.kf, start)
    slow = _lagged(bridged, surface.ks, start)
    mean = (1.0 - surface.w) * fast + surface.w * slow
    mean[np.isnan(equilibrium)] = np.nan
    return mean


def _depth(depth_cm: ArrayLike, damping_cm: float) -> Floats:
    depth = np.asarray(depth_cm, dtype=np.float64)
    if np.any(depth < 0.0):
        raise ParameterError(f"A depth of {np.nanmin(depth):g} cm lies above ground.", "Use 0 or more.")
    if not damping_cm > 0.0:
        raise ParameterError(f"A damping depth of {damping_cm:g} cm damps nothing.", "Use about 8 to 13 cm.")
    return depth


def daily_amplitude_c(
    tmin_c: ArrayLike,
    tmax_c: ArrayLike,
    solar_mj: ArrayLike,
    depth_cm: ArrayLike,
    surface: Surface,
    damping_cm: float = DAMPING_DEPTH_CM,
) -> Floats:
    """Half-range of the soil's daily wave at a depth.

    Parameters
    ----------
    tmin_c, tmax_c : array, shape (..., day)  [degC]
        Daily extremes of the air. NaN in any input gives NaN.
    solar_mj : array, shape (..., day)  [MJ m-2 d-1]
        Global radiation.
    depth_cm : float or array  [cm]
        Zero or more. Broadcasts.
    surface : Surface
        Kind of ground; its wave factor scales the wave of open dry ground.
    damping_cm : float  [cm]
        Depth over which the wave falls to 1/e.

    Returns
    -------
    array, shape (..., day)  [degC]
        Zero or more.

    Raises
    ------
    ParameterError
        If a minimum is above its maximum, a depth is below zero or the damping depth is not above zero.

    Notes
    -----
    Measured at 5 cm in a desert soil only: RMSE 1.0 degC, bias -0.4, r 0.94. One damping depth is a
    simplification, and within 2 cm of the surface the wave is steeper and less like a sine than this.

    Source
    ------
    SCAN (measured; wave factors memory).
    Checked: tests/published/soil_stations/test_soil_wave.py
    """
    low, high = np.asarray(tmin_c, dtype=np.float64), np.asarray(tmax_c, dtype=np.float64)
    require_ordered(low, high)
    depth = _depth(depth_cm, damping_cm)
    sun = WAVE_C_PER_MJ * np.asarray(solar_mj, dtype=np.float64)
    at_reference = surface.wave_factor * (WAVE_PER_AIR_HALF_RANGE * (high - low) / 2.0 + sun)
    return at_reference * np.exp((REFERENCE_DEPTH_CM - depth) / damping_cm)


def wave_lag_h(depth_cm: ArrayLike, damping_cm: float = DAMPING_DEPTH_CM) -> Floats:
    """Delay of the daily wave at a depth, behind the surface.

    Parameters
    ----------
    depth_cm : array  [cm]
        Zero or more.
    damping_cm : float  [cm]
        Depth over which the wave falls to 1/e.

    Returns
    -------
    array  [h]

    Raises
    ------
    ParameterError
        If a depth is below zero or the damping depth is not above zero.

    Source
    ------
    computed: a sine wave in uniform ground. Checked: tests/published/soil_stations/test_soil_wave.py
    """
    return _depth(depth_cm, damping_cm) / damping_cm * 24.0 / (2.0 * np.pi)
