"""The dew point of a record's days: as told, or from the mean humidity."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from spadework.science.leaf_wetness import dew_point_c
from spadework.types import Floats
from spadework.weather.series import Series

LEAST_HUMIDITY_PCT = 1.0


def gathered_dew_c(series: Series, at: NDArray[np.int64], rows: int) -> Floats | None:
    """Dew point of the days of past years; None where the record has neither it nor humidity.

    Parameters
    ----------
    series : Series
    at : array of int, shape (real year, day)
        Positions of the days in the record.
    rows : int
        Rows wanted; those beyond the real years are made, and NaN.
    """
    whole = series.tdew_c
    if series.rh_mean_pct is not None:
        humidity = np.clip(series.rh_mean_pct, LEAST_HUMIDITY_PCT, 100.0)
        by_humidity = dew_point_c((series.tmin_c + series.tmax_c) / 2.0, humidity)
        whole = by_humidity if whole is None else np.where(np.isnan(whole), by_humidity, whole)
    if whole is None or np.isnan(whole).all():
        return None
    found = np.full((rows, at.shape[1]), np.nan)
    found[: at.shape[0]] = whole[at]
    return found
