"""Air temperature within the day, from its two extremes.

The sine is good enough for sums of warmth. The lagged form follows the clock better and is for what happens
at an hour: a cover to open, the hours below freezing, a thermometer read before breakfast.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from spadework.errors import ParameterError
from spadework.types import Floats

HOUR_OF_MAXIMUM = 15.0
"""Hour of the day's maximum on the sine [h]. Source: common-practice."""


@dataclass(frozen=True)
class AirLags:
    """Lags and night decay of the day's wave at one kind of place.

    Parameters
    ----------
    maximum_lag_h : float  [h]
        From solar noon to the maximum.
    minimum_lag_h : float  [h]
        From sunrise to the minimum.
    night_decay : float  [-]
        Steepness of the fall from sunset.
    provenance, source : str
        Where the numbers come from.
    """

    maximum_lag_h: float
    minimum_lag_h: float
    night_decay: float
    provenance: str
    source: str


_WANN = (
    "S-TRENCHR (Wann, Yen and Gold 1985, Evaluation and calibration of three models for daily cycle of "
    "air temperature)"
)
_PARTON = "S-TRENCHR (Parton and Logan 1981, A model for diurnal variation in soil and air temperature)"

AIR_LAGS: dict[str, AirLags] = {
    "five-sites": AirLags(2.59, 1.55, 2.20, "published", _WANN),
    "high-plain": AirLags(1.86, -0.17, 2.20, "published", _PARTON),
    "high-plain-10-cm": AirLags(1.52, -0.18, 2.00, "published", _PARTON),
}
"""Parameter sets: the mean of five sites in North Carolina (default), Denver at 1.5 m, Denver at 10 cm."""


def require_ordered(tmin_c: Floats, tmax_c: Floats) -> None:
    """Refuse a day whose minimum is above its maximum; NaN passes.

    Parameters
    ----------
    tmin_c, tmax_c : array, shape (..., day)  [degC]
        Daily extremes. Shapes broadcast.

    Raises
    ------
    ParameterError
        With the first such day and both values. Swapping them silently would hide a fault in the record.

    Source
    ------
    computed: a check of the input. Checked: tests/unit/science/test_air.py
    """
    crossed = tmin_c > tmax_c
    if not np.any(crossed):
        return
    low, high, crossed = np.broadcast_arrays(tmin_c, tmax_c, crossed)
    first = tuple(int(i) for i in np.argwhere(crossed)[0]) if crossed.ndim else ()
    where = f" at position {', '.join(str(i) for i in first)}" if first else ""
    raise ParameterError(
        f"Minimum {low[first]:g} is above maximum {high[first]:g}{where}.",
        "Check the record for swapped or mistyped extremes.",
    )


def sine_temperature_c(
    tmin_c: ArrayLike, tmax_c: ArrayLike, hours: ArrayLike, *, hour_of_maximum: float = HOUR_OF_MAXIMUM
) -> Floats:
    """Temperature at given hours on one sine a day.

    Parameters
    ----------
    tmin_c, tmax_c : array, shape (..., day)  [degC]
        Daily extremes. NaN in either gives NaN.
    hours : array, shape (hour,)  [h, solar time]
        Hours of the day, 0 to 24.
    hour_of_maximum : float  [h]
        Hour at which tmax_c is reached.

    Returns
    -------
    array, shape (..., day, hour)  [degC]

    Raises
    ------
    ParameterError
        If a minimum is above its maximum.

    Notes
    -----
    Hourly RMSE 2.0 to 2.3 degC at four stations (measured); needs no sun times, so it also serves polar days.

    Source
    ------
    common-practice, one sine a day. Checked: tests/published/soil_stations/test_air_within_day.py
    """
    low, high = np.asarray(tmin_c, dtype=np.float64), np.asarray(tmax_c, dtype=np.float64)
    require_ordered(low, high)
    mean, half = (low + high)[..., None] / 2.0, (high - low)[..., None] / 2.0
    angle = 2.0 * np.pi * (np.asarray(hours, dtype=np.float64) - hour_of_maximum) / 24.0
    return mean + half * np.cos(angle)


def _shifted(values: Floats, step: int) -> Floats:
    """Values of the day before (-1) or after (+1); the edge day stands in for its missing neighbour."""
    if values.ndim == 0:
        return values
    edge = values[..., :1] if step < 0 else values[..., -1:]
    parts = (edge, values[..., :-1]) if step < 0 else (values[..., 1:], edge)
    return np.concatenate(parts, axis=-1)


def hourly_temperature_c(
    tmin_c: ArrayLike,
    tmax_c: ArrayLike,
    *,
    sunrise_h: ArrayLike,
    sunset_h: ArrayLike,
    hours: ArrayLike,
    tmin_next_c: ArrayLike | None = None,
    tmin_prev_c: ArrayLike | None = None,
    tmax_prev_c: ArrayLike | None = None,
    lags: AirLags = AIR_LAGS["five-sites"],
) -> Floats:
    """Temperature at given hours: a lagged sine by day, a decay towards the next minimum by night.

    Parameters
    ----------
    tmin_c, tmax_c : array, shape (..., day)  [degC]
        Daily extremes. NaN in any value an hour rests on gives NaN in that hour.
    sunrise_h, sunset_h : array, broadcasts to (..., day)  [h, solar time]
        As from `sun.sunrise_sunset_solar_h`.
    hours : array, shape (hour,)  [h, solar time]
        Hours of the day, 0 to 24.
    tmin_next_c, tmin_prev_c, tmax_prev_c : array, optional  [degC]
        Neighbouring days' extremes. Left out, they are read along the day axis; the first and the last day
        then stand in for their missing neighbours.
    lags : AirLags
        Lags of the place.

    Returns
    -------
    array, shape (..., day, hour)  [degC]

    Raises
    ------
    ParameterError
        If a minimum is above its maximum.

    Notes
    -----
    Hourly RMSE 1.65 to 1.98 degC from the true extremes at four stations (measured). The decay does not quite
    reach the next minimum, so the wave steps by some tenths where the night hands over to the day. Where the
    day is so short that the maximum would fall after sunset, or there is no night, the sine is used instead.
    Fails on days when a front or cloud moves the maximum into the night, and at coasts.

    Source
    ------
    S-TRENCHR (Parton and Logan 1981, lag form; published).
    Checked: tests/published/soil_stations/test_air_within_day.py
    """
    low, high = np.asarray(tmin_c, dtype=np.float64), np.asarray(tmax_c, dtype=np.float64)
    require_ordered(low, high)
    next_low = _shifted(low, +1) if tmin_next_c is None else np.asarray(tmin_next_c, dtype=np.float64)
    prev_low = _shifted(low, -1) if tmin_prev_c is None else np.asarray(tmin_prev_c, dtype=np.float64)
    prev_high = _shifted(high, -1) if tmax_prev_c is None else np.asarray(tmax_prev_c, dtype=np.float64)
    require_ordered(prev_low, prev_high)

    rise, fall = np.asarray(sunrise_h, dtype=np.float64), np.asarray(sunset_h, dtype=np.float64)
    length = fall - rise
    no_wave = (length < 2.0 * lags.maximum_lag_h) | (length >= 24.0)
    length = np.where(no_wave, 12.0, length)
    rise, fall = np.where(no_wave, 6.0, rise), np.where(no_wave, 18.0, fall)

    period = length + 2.0 * (lags.maximum_lag_h - lags.minimum_lag_h)
    night = 24.0 - length + lags.minimum_lag_h
    at_sunset = np.sin(np.pi * (length - lags.minimum_lag_h) / period)
    sunset_c = low + (high - low) * at_sunset
    prev_sunset_c = prev_low + (prev_high - prev_low) * at_sunset

    clock = np.asarray(hours, dtype=np.float64)
    lowest = rise + lags.minimum_lag_h
    since = clock - lowest[..., None]
    by_day = low[..., None] + (high - low)[..., None] * np.sin(np.pi * since / period[..., None])

    def by_night(start_c: Floats, end_c: Floats, since_sunset_h: Floats) -> Floats:
        left = np.exp(-lags.night_decay * since_sunset_h / night[..., None])
        return end_c[..., None] + (start_c - end_c)[..., None] * left

    evening = by_night(sunset_c, next_low, clock - fall[..., None])
    morning = by_night(prev_sunset_c, low, clock + 24.0 - fall[..., None])
    wave = np.where(clock > fall[..., None], evening, np.where(since < 0.0, morning, by_day))
    return np.where(no_wave[..., None], sine_temperature_c(low, high, clock), wave)
