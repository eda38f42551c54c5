"""How the rate of development answers to temperature, and its mean over a day that swings.

All responses run from 0 to 1, where 1 is the rate at the best temperature: the sum over days is in
physiological days, days at the optimum.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING, Literal

import numpy as np
from numpy.typing import ArrayLike

from spadework.errors import ParameterError
from spadework.types import Floats

if TYPE_CHECKING:
    from scipy.sparse import csr_matrix

Response = Callable[[Floats], Floats]

MEAN_FROM_C, MEAN_TO_C, HALF_TO_CDELTA, STEP_CDELTA = -40.0, 60.0, 25.0, 0.5
"""Grid of the tables: daily mean, half of the daily range, and step. Beyond it the edge is taken."""

_BLOCK = 16384  # cells worked at a time, so that the workspace stays in the cache


def triangle(temp_c: ArrayLike, base_c: float, optimum_c: float, ceiling_c: float) -> Floats:
    """Straight up from base to optimum, straight down to the ceiling.

    Parameters
    ----------
    temp_c : array, any shape  [degC]
        NaN gives NaN.
    base_c, optimum_c, ceiling_c : float  [degC]
        Rising.

    Returns
    -------
    array, shape of temp_c
        0 to 1.

    Raises
    ------
    ParameterError
        If the cardinal temperatures do not rise.

    Source
    ------
    computed from its definition; used for vernalisation of carrot by ATHERTON1990, published.
    """
    return trapezoid(temp_c, base_c, optimum_c, optimum_c, ceiling_c)


def trapezoid(
    temp_c: ArrayLike, base_c: float, optimum_low_c: float, optimum_high_c: float, ceiling_c: float
) -> Floats:
    """Straight up from base, level between two optima, straight down to the ceiling.

    Parameters
    ----------
    temp_c : array, any shape  [degC]
        NaN gives NaN.
    base_c, optimum_low_c, optimum_high_c, ceiling_c : float  [degC]
        Rising; the two optima may be equal.

    Returns
    -------
    array, shape of temp_c
        0 to 1.

    Raises
    ------
    ParameterError
        If the cardinal temperatures do not rise.

    Source
    ------
    computed from its definition; the four-point form of the crop models of DSSAT, published.
    """
    if not base_c < optimum_low_c <= optimum_high_c < ceiling_c:
        raise ParameterError(
            f"Cardinal temperatures {base_c:g}, {optimum_low_c:g}, {optimum_high_c:g}, {ceiling_c:g} C "
            "do not rise.",
            "Base below the optimum, optimum below the ceiling.",
        )
    temp = np.asarray(temp_c, dtype=np.float64)
    rise = (temp - base_c) / (optimum_low_c - base_c)
    fall = (ceiling_c - temp) / (ceiling_c - optimum_high_c)
    rate: Floats = np.clip(np.minimum(rise, fall), 0.0, 1.0)
    return rate


def beta(temp_c: ArrayLike, base_c: float, optimum_c: float, ceiling_c: float) -> Floats:
    """Smooth rise from base to optimum and steeper fall to the ceiling.

    Parameters
    ----------
    temp_c : array, any shape  [degC]
        NaN gives NaN.
    base_c, optimum_c, ceiling_c : float  [degC]
        Rising.

    Returns
    -------
    array, shape of temp_c
        0 to 1; zero at and outside base and ceiling.

    Raises
    ------
    ParameterError
        If the cardinal temperatures do not rise.

    Source
    ------
    S-DEVRATE, equation beta_16 (Yan and Hunt, 1999, An equation for modelling the temperature response of
    plants). Checked: tests/unit/science/test_response.py
    """
    if not base_c < optimum_c < ceiling_c:
        raise ParameterError(
            f"Cardinal temperatures {base_c:g}, {optimum_c:g}, {ceiling_c:g} C do not rise.",
            "Base below the optimum, optimum below the ceiling.",
        )
    temp = np.clip(np.asarray(temp_c, dtype=np.float64), base_c, ceiling_c)
    fall = (ceiling_c - temp) / (ceiling_c - optimum_c)
    rise = (temp - base_c) / (optimum_c - base_c)
    rate: Floats = fall * rise ** ((optimum_c - base_c) / (ceiling_c - optimum_c))
    return rate


def over_daily_wave(
    response: Response, mean_c: ArrayLike, half_range_c: ArrayLike, steps: int = 48
) -> Floats:
    """Mean of a response over a sine day.

    Parameters
    ----------
    response : function of an array of temperatures [degC]
    mean_c, half_range_c : array, shapes broadcast  [degC]
        Daily mean and half of the daily range, zero or more. NaN gives NaN.
    steps : int
        Even number of evenly spaced moments of the day; at least 2.

    Returns
    -------
    array, broadcast shape
        In the unit of the response.

    Raises
    ------
    ParameterError
        If steps is odd or below 2.

    Notes
    -----
    A curved response must never be taken at the daily mean: over April to September in Nebraska that lost
    6 in 100 of the progress (measured). A real day is not a sine: its shape matters less than its range.

    Source
    ------
    computed: midpoint rule. The falling half of the wave repeats the rising one, so only one is worked out.
    """
    if steps < 2 or steps % 2:
        raise ParameterError(f"A day was to be cut into {steps} steps.", "Use an even number, 2 or more.")
    mean, half = np.asarray(mean_c, dtype=np.float64), np.asarray(half_range_c, dtype=np.float64)
    count = steps // 2
    total: Floats = np.zeros(np.broadcast_shapes(mean.shape, half.shape))
    for wave in -np.cos(np.pi * (np.arange(count) + 0.5) / count):
        total = total + response(mean + wave * half)
    return total / count


@dataclass(frozen=True, eq=False)
class ResponseTable:
    """A response averaged over the daily wave, tabulated once on a grid of mean and half-range.

    Parameters
    ----------
    values : array, shape (mean, half)
        Node values on the grid of this module.

    Notes
    -----
    Between nodes it is linear in both directions. Against the integral itself, over seven months in
    Nebraska: largest daily error below 0.02, sum over the season within 3 in 10,000
    (tests/unit/science/test_response.py).
    """

    values: Floats

    @classmethod
    def build(cls, response: Response, steps: int = 48) -> ResponseTable:
        """Tabulate a response; about 2 to 6 ms."""
        means = np.arange(MEAN_FROM_C, MEAN_TO_C + STEP_CDELTA / 2, STEP_CDELTA)
        halves = np.arange(0.0, HALF_TO_CDELTA + STEP_CDELTA / 2, STEP_CDELTA)
        values = over_daily_wave(response, means[:, None], halves[None, :], steps)
        values.setflags(write=False)
        return cls(values)

    def __call__(self, mean_c: ArrayLike, half_range_c: ArrayLike) -> Floats:
        """Mean response of days, by their mean and half-range [degC], shapes broadcast.

        Outside the grid (-40 to 60 C mean, 25 C half-range) the value at its edge is taken. NaN gives NaN.
        """
        mean, half = np.broadcast_arrays(
            np.asarray(mean_c, dtype=np.float64), np.asarray(half_range_c, dtype=np.float64)
        )
        out: Floats = np.empty(mean.shape)
        flat_mean, flat_half, flat_out = np.ravel(mean), np.ravel(half), out.reshape(-1)
        for start in range(0, flat_out.size, _BLOCK):
            part = slice(start, start + _BLOCK)
            flat_out[part] = self._look_up(flat_mean[part], flat_half[part])
        return out

    def _look_up(self, mean: Floats, half: Floats) -> Floats:
        width, nodes = self.values.shape[1], self.values.reshape(-1)
        node, along, across = _cells(self.values.shape, mean, half)
        low = nodes.take(node)
        low += (nodes.take(node + 1) - low) * across
        node += width
        high = nodes.take(node)
        high += (nodes.take(node + 1) - high) * across
        high -= low
        high *= along
        low += high
        if np.isnan(mean.sum() + half.sum()):
            low[np.isnan(mean) | np.isnan(half)] = np.nan
        return low

    def weights(self, mean_c: Floats, half_range_c: Floats) -> csr_matrix:
        """Weights of the nodes for each day, to read many tables of the same grid in one product.

        Returns a sparse matrix, shape (day, mean x half): `weights @ values.ravel()` is what a call
        gives. Rows of NaN days hold NaN.
        """
        from scipy.sparse import csr_matrix

        width = self.values.shape[1]
        node, along, across = _cells(self.values.shape, mean_c, half_range_c)
        gone = np.isnan(mean_c) | np.isnan(half_range_c)
        along[gone] = np.nan
        data = np.empty((node.size, 4))
        data[:, 0] = (1.0 - along) * (1.0 - across)
        data[:, 1] = (1.0 - along) * across
        data[:, 2] = along * (1.0 - across)
        data[:, 3] = along * across
        places = node[:, None] + np.array([0, 1, width, width + 1])
        rows = np.arange(0, 4 * node.size + 1, 4)
        return csr_matrix((data.ravel(), places.ravel(), rows), shape=(node.size, self.values.size))


def _cells(shape: tuple[int, ...], mean: Floats, half: Floats) -> tuple[np.ndarray, Floats, Floats]:
    """Lower node of each day's cell in the flattened grid, and its place in the cell, 0 to 1 both ways."""
    along = mean - MEAN_FROM_C
    along *= 1.0 / STEP_CDELTA
    np.fmax(along, 0.0, out=along)  # fmax and fmin let no NaN through to the cast
    np.fmin(along, shape[0] - 1.0, out=along)
    across = half * (1.0 / STEP_CDELTA)
    np.fmax(across, 0.0, out=across)
    np.fmin(across, shape[1] - 1.0, out=across)
    row = np.minimum(along.astype(np.int64), shape[0] - 2)
    column = np.minimum(across.astype(np.int64), shape[1] - 2)
    along -= row
    across -= column
    row *= shape[1]
    row += column
    return row, along, across


Kind = Literal["triangle", "trapezoid", "beta"]


@lru_cache(maxsize=512)
def response_table(kind: Kind, *cardinals_c: float) -> ResponseTable:
    """Table of a response with given cardinal temperatures, built once and kept.

    Parameters
    ----------
    kind : str
        "triangle" and "beta" take three temperatures, "trapezoid" four.
    cardinals_c : float  [degC]
        Base, optimum or optima, ceiling.

    Returns
    -------
    ResponseTable

    Raises
    ------
    ParameterError
        For an unknown kind, a wrong number of temperatures, or temperatures that do not rise.

    Source
    ------
    computed from the responses of this module.
    """
    if kind == "trapezoid" and len(cardinals_c) == 4:
        base_c, low_c, high_c, ceiling_c = cardinals_c
        return ResponseTable.build(lambda temp_c: trapezoid(temp_c, base_c, low_c, high_c, ceiling_c))
    if kind in ("triangle", "beta") and len(cardinals_c) == 3:
        base_c, optimum_c, ceiling_c = cardinals_c
        curve = triangle if kind == "triangle" else beta
        return ResponseTable.build(lambda temp_c: curve(temp_c, base_c, optimum_c, ceiling_c))
    raise ParameterError(
        f"There is no response {kind!r} with {len(cardinals_c)} temperatures.",
        "Use triangle or beta with three, trapezoid with four.",
    )
