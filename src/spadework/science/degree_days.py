"""Degree-days of a day from its extremes: six methods, four ways to treat heat above an upper threshold.

A requirement belongs to the method and cut-off it was fitted with; totals of different methods must not
be mixed.
"""

from __future__ import annotations

from typing import Literal

import numpy as np
from numpy.typing import ArrayLike

from spadework.errors import ParameterError
from spadework.types import Floats

Method = Literal[
    "average", "modified-average", "single-sine", "double-sine", "single-triangle", "double-triangle"
]
Cutoff = Literal["none", "horizontal", "vertical", "intermediate"]

METHODS: tuple[Method, ...] = (
    "average",
    "modified-average",
    "single-sine",
    "double-sine",
    "single-triangle",
    "double-triangle",
)
CUTOFFS: tuple[Cutoff, ...] = ("none", "horizontal", "vertical", "intermediate")


def degree_days(
    tmin_c: ArrayLike,
    tmax_c: ArrayLike,
    lower_c: float,
    upper_c: float | None = None,
    method: Method = "single-sine",
    cutoff: Cutoff = "none",
    tmin_next_c: ArrayLike | None = None,
) -> Floats:
    """Warmth of each day above a lower threshold.

    Parameters
    ----------
    tmin_c, tmax_c : array, shape (..., day)  [degC]
        Daily extremes; shapes broadcast. NaN in either gives NaN.
    lower_c, upper_c : float  [degC]
        Thresholds; upper above lower. Without a cut-off the upper one is not used, except by the modified
        average, whose definition it is part of.
    method : str
        "average": mean minus lower, not below zero. "modified-average": both extremes clipped to the
        thresholds first. "single-": one wave through the day's extremes. "double-": half a day from
        minimum to maximum, half a day from maximum to the next minimum.
    cutoff : str
        What heat above the upper threshold does. "horizontal": counts as the threshold itself. "vertical":
        development stops while it lasts. "intermediate": it is taken off again. The averages know "none" and
        "horizontal" only.
    tmin_next_c : array broadcasting with tmin_c  [degC]
        Next day's minimum, for the double methods (see `next_minimum_c`). It may exceed the maximum.

    Returns
    -------
    array, broadcast shape  [degC day]
        Zero or more.

    Raises
    ------
    ParameterError
        For an unknown word, thresholds out of order, a cut-off without an upper threshold, a double
        method without the next minimum, or a minimum above its maximum (the message gives the first).

    Notes
    -----
    Near the threshold the methods differ most: base 10, day from 2 to 18 C: average 0, sine 2.5, modified
    average 4.0. From rounded whole degrees the bias is up to half a degree-day a day near the threshold.
    A horizontal cut-off flatters days so hot that development slows.

    Source
    ------
    ZALOM1983 (methods and cut-offs), BASKERVILLE_EMIN1969 (sine), ALLEN1976 (double sine): memory; the
    definitions published in UCIPM_DDGLOSS and SNYDER_DDSINE. Checked:
    tests/published/degree_days/test_examples.py
    """
    low, high = np.asarray(tmin_c, dtype=np.float64), np.asarray(tmax_c, dtype=np.float64)
    _check(low, high, lower_c, upper_c, method, cutoff)
    if method in ("average", "modified-average"):
        return _from_mean(low, high, lower_c, upper_c, method, cutoff)
    sine = method.endswith("sine")
    top = upper_c if cutoff != "none" else None
    if method.startswith("single"):
        above, over, hot = _parts(low, high, lower_c, top, sine)
    else:
        if tmin_next_c is None:
            raise ParameterError(
                f"The {method} method needs the next day's minimum and got none.",
                "Give tmin_next_c, or choose the single method.",
            )
        later = np.asarray(tmin_next_c, dtype=np.float64)
        first = _parts(low, high, lower_c, top, sine)
        second = _parts(np.minimum(later, high), np.maximum(later, high), lower_c, top, sine)
        above, over, hot = ((one + two) / 2.0 for one, two in zip(first, second, strict=True))
    if top is None:
        return above
    if cutoff == "horizontal":
        warmth: Floats = above - over
    elif cutoff == "vertical":
        warmth = np.maximum(above - over - (top - lower_c) * hot, 0.0)
    else:
        warmth = np.maximum(above - 2.0 * over, 0.0)
    return warmth


def next_minimum_c(tmin_c: ArrayLike) -> Floats:
    """Minimum of the following day along the last axis.

    Parameters
    ----------
    tmin_c : array, shape (..., day)  [degC]

    Returns
    -------
    array, shape (..., day)  [degC]
        NaN on the last day, whose next minimum is not known.

    Source
    ------
    computed: a shift by one day.
    """
    low = np.asarray(tmin_c, dtype=np.float64)
    later: Floats = np.full(low.shape, np.nan)
    later[..., :-1] = low[..., 1:]
    return later


def mean_excess_cdelta(tmin_c: ArrayLike, tmax_c: ArrayLike, threshold_c: float) -> Floats:
    """Mean height of a sine day above a threshold, zero while below it.

    Parameters
    ----------
    tmin_c, tmax_c : array, shape (..., day)  [degC]
        Daily extremes, the minimum not above the maximum. NaN gives NaN.
    threshold_c : float  [degC]

    Returns
    -------
    array, broadcast shape  [degC]

    Source
    ------
    BASKERVILLE_EMIN1969, memory; confirmed by numerical integration in tests/unit/science/test_degree_days.py
    """
    low, high = np.asarray(tmin_c, dtype=np.float64), np.asarray(tmax_c, dtype=np.float64)
    return _parts(low, high, threshold_c, None, sine=True)[0]


def _check(
    low: Floats, high: Floats, lower_c: float, upper_c: float | None, method: Method, cutoff: Cutoff
) -> None:
    if method not in METHODS:
        raise ParameterError(
            f"There is no degree-day method {method!r}.", f"Choose one of: {', '.join(METHODS)}."
        )
    if cutoff not in CUTOFFS:
        raise ParameterError(f"There is no cut-off {cutoff!r}.", f"Choose one of: {', '.join(CUTOFFS)}.")
    if not np.isfinite(lower_c):
        raise ParameterError("The lower threshold is not a number.", "Give it in degrees Celsius.")
    if cutoff != "none" and upper_c is None:
        raise ParameterError(f"A {cutoff} cut-off needs an upper threshold.", "Give upper_c, or cutoff none.")
    if upper_c is not None and not upper_c > lower_c:
        raise ParameterError(
            f"The upper threshold {upper_c:g} C is not above the lower one, {lower_c:g} C.",
            "Give them in order.",
        )
    if cutoff in ("vertical", "intermediate") and "average" in method:
        raise ParameterError(
            f"The {method} method has no {cutoff} cut-off.",
            "Use none or horizontal, or a sine or triangle method.",
        )
    wrong = low > high
    if np.any(wrong):
        both = np.broadcast_arrays(low, high)
        first = tuple(int(place) for place in np.argwhere(wrong)[0])
        where = f" at position {first[0] if len(first) == 1 else first}" if first else ""
        raise ParameterError(
            f"The minimum {both[0][first]:g} C is above the maximum {both[1][first]:g} C{where}.",
            "The minimum may not exceed the maximum.",
        )


def _from_mean(
    low: Floats, high: Floats, lower_c: float, upper_c: float | None, method: Method, cutoff: Cutoff
) -> Floats:
    if method == "modified-average":
        low, high = np.clip(low, lower_c, upper_c), np.clip(high, lower_c, upper_c)
    elif cutoff == "horizontal" and upper_c is not None:
        low, high = np.minimum(low, upper_c), np.minimum(high, upper_c)
    warmth: Floats = np.maximum((low + high) / 2.0 - lower_c, 0.0)
    return warmth


def _parts(
    low: Floats, high: Floats, lower_c: float, upper_c: float | None, sine: bool
) -> tuple[Floats, Floats, Floats]:
    """Mean excess over the lower and the upper threshold, and the fraction of the day above the upper."""
    above = _excess(low, high, lower_c, sine)[0]
    if upper_c is None:
        return above, np.zeros(1), np.zeros(1)
    over, hot = _excess(low, high, upper_c, sine)
    return above, over, hot


def _excess(low: Floats, high: Floats, threshold_c: float, sine: bool) -> tuple[Floats, Floats]:
    """Mean excess over a threshold, and the fraction of the day above it."""
    half = np.array((high - low) / 2.0)
    mean = low + half
    excess = np.array(np.maximum(mean - threshold_c, 0.0))
    part = np.array(mean > threshold_c, dtype=np.float64)
    crossing = (low < threshold_c) & (high > threshold_c)
    swing = half[crossing]
    # position of the threshold in the day's range: -1 at the minimum, +1 at the maximum
    place = np.clip((threshold_c - mean[crossing]) / swing, -1.0, 1.0)
    if sine:
        angle = np.arccos(place)
        excess[crossing] = swing * (np.sqrt(1.0 - place * place) - place * angle) / np.pi
        part[crossing] = angle / np.pi
    else:
        above = (1.0 - place) / 2.0
        excess[crossing] = swing * above * above
        part[crossing] = above
    return excess, part
