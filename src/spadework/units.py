"""Conversions at the edges. Inside, everything is degC, mm, m, MJ, SI.

A temperature and a temperature difference convert by different functions.
"""

from __future__ import annotations

from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

Number = TypeVar("Number", float, NDArray[np.float64])

MM_PER_INCH = 25.4  # exact, international inch
M_S_PER_MPH = 0.44704  # exact
M_S_PER_KMH = 1 / 3.6  # exact
M_PER_FOOT = 0.3048  # exact
KG_PER_POUND = 0.45359237  # exact, international avoirdupois pound
L_PER_GALLON = 3.785411784  # exact, US liquid gallon
MJ_PER_W_DAY = 0.0864  # exact: MJ m-2 d-1 in one W m-2


def c_from_f(temp_f: Number) -> Number:
    """Temperature: Fahrenheit to Celsius."""
    return (temp_f - 32.0) / 1.8


def f_from_c(temp_c: Number) -> Number:
    """Temperature: Celsius to Fahrenheit."""
    return temp_c * 1.8 + 32.0


def cdelta_from_f(delta_f: Number) -> Number:
    """Temperature difference: Fahrenheit degrees to Celsius degrees."""
    return delta_f / 1.8


def fdelta_from_c(delta_c: Number) -> Number:
    """Temperature difference: Celsius degrees to Fahrenheit degrees."""
    return delta_c * 1.8
