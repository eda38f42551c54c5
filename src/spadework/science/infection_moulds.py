"""Weather that lets mildews, moulds and rots infect: one law for each, beside the blights of `infection`.

As there a law says what the weather allows, not that the disease is there.
"""

from __future__ import annotations

from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from spadework.science.infection import NEVER, known, trailing
from spadework.types import Bools, Floats

MILDEW_WET_ROWS: Final = ((2.0, 20.0, 25.0), (6.0, 10.0, 25.0), (12.0, 5.0, 25.0))
"""Downy mildew of cucurbits: wet hours, and the warmth between which they let it infect. Source: COHEN-1977,
published."""


NEAR_FULL_SHARE: Final = 0.8
"""Water left in the seed zone at a day's end, of what it holds, that counts as "near field capacity". Our own
rule."""


def onion_mildew_night(
    humid_night_h: ArrayLike, night_c: ArrayLike, tmax_before_c: ArrayLike, rain_mm: ArrayLike = 0.0
) -> Bools:
    """Whether downy mildew of onions could make spores in a night.

    Parameters
    ----------
    humid_night_h : array  [h]
        Hours at 92 percent humidity or more between dusk and dawn.
    night_c : array  [degC]
        Mean air temperature of those hours. NaN counts as out of range.
    tmax_before_c : array  [degC]
        Maximum of the day before.
    rain_mm : array  [mm]
        After midnight; 1 mm or more washes spores off.

    Notes
    -----
    At least four humid hours between 4 and 24 degC, after a day not above 27 degC, and no rain after
    midnight. Four hours stand for "humid from 2 to dawn" (Hildebrand). Publications saw spores on 38 of 45
    nights that a rule of this form named.

    Source
    ------
    DEVISSER-1998, HILDEBRAND-1982, GILLES-2004 (published). Checked:
    tests/published/infection/test_rule_cases.py
    """
    night = np.asarray(night_c, dtype=np.float64)
    found: Bools = (
        (known(humid_night_h) >= 4.0)
        & (night >= 4.0)
        & (night <= 24.0)
        & (np.asarray(tmax_before_c) <= 27.0)
        & (known(rain_mm) < 1.0)
    )
    return found


def cucurbit_mildew_infects(wet_h: ArrayLike, temp_c: ArrayLike) -> Bools:
    """Whether a wet spell lets downy mildew of cucurbits infect.

    Parameters
    ----------
    wet_h : array  [h]
    temp_c : array  [degC]
        Mean of those hours. NaN counts as out of range.

    Notes
    -----
    The lower limits at 6 and 12 h hang on how many spores there are; they come on the wind, often from far.

    Source
    ------
    COHEN-1977 (published). Checked: tests/published/infection/test_rule_cases.py
    """
    wet, temp = known(wet_h), np.asarray(temp_c, dtype=np.float64)
    rows = [(wet >= least) & (temp >= low) & (temp <= high) for least, low, high in MILDEW_WET_ROWS]
    found: Bools = np.any(rows, axis=0)
    return found


def lettuce_mildew_morning(wet_after_sunrise_h: ArrayLike, temp_c: ArrayLike) -> Bools:
    """Whether downy mildew of lettuce infects in a morning.

    Parameters
    ----------
    wet_after_sunrise_h : array  [h]
        Hours leaves stay wet from 6 on.
    temp_c : array  [degC]
        Mean of the first three of them. NaN counts as too warm.

    Notes
    -----
    Four hours or more, not warmer than 20 degC. Made for a foggy coast.

    Source
    ------
    SCHERM-1994, WU-2002 (published). Checked: tests/published/infection/test_rule_cases.py
    """
    found: Bools = (known(wet_after_sunrise_h) >= 4.0) & (known(temp_c, NEVER) <= 20.0)
    return found


def powdery_mildew_day(tmin_c: ArrayLike, tmax_c: ArrayLike) -> Floats:
    """How well a day suits powdery mildew of cucurbits, 0 to 1: it needs no wet leaves.

    Parameters
    ----------
    tmin_c, tmax_c : array  [degC]

    Returns
    -------
    array
        0 where the mean lies outside 10 to 32 degC or the maximum reaches 38; 1 from 20 to 27; on a line
        between (the line is our own).

    Source
    ------
    CORNELL-CPM (published). Checked: tests/published/infection/test_rule_cases.py
    """
    low, high = np.asarray(tmin_c, dtype=np.float64), np.asarray(tmax_c, dtype=np.float64)
    mean = (low + high) / 2.0
    fit: Floats = np.interp(mean, (10.0, 20.0, 27.0, 32.0), (0.0, 1.0, 1.0, 0.0))
    return np.where(high >= 38.0, 0.0, fit)


def white_mould_days(mean_c: ArrayLike, tmax_c: ArrayLike, rain_mm: ArrayLike, wet_h: ArrayLike) -> Bools:
    """Whether white mould could infect petals and tissue on a day.

    Parameters
    ----------
    mean_c, tmax_c : array, shape (..., day)  [degC]
    rain_mm, wet_h : array, shape (..., day)  [mm], [h]
        Rain and hours of wet leaves of each day.

    Notes
    -----
    25 mm of rain in the two weeks before at means of 11 to 20 degC let fruiting bodies stand; then 39 h of
    wet leaves within three days at 15 to 25 degC, with no day above 29 degC among them. The publication asks
    for 39 h in a row; on days they are summed, which is easier met.

    Source
    ------
    ONVEG-WM2011, NDSU-WM2018, BOLAND-1987 (published). Checked: tests/published/infection/test_rule_cases.py
    """
    mean, high = np.asarray(mean_c, dtype=np.float64), np.asarray(tmax_c, dtype=np.float64)
    fortnight = trailing(mean, 14) / np.minimum(np.arange(1, mean.shape[-1] + 1), 14)
    bodies = (trailing(known(rain_mm), 14) >= 25.0) & (fortnight >= 11.0) & (fortnight <= 20.0)
    three = trailing(mean, 3) / np.minimum(np.arange(1, mean.shape[-1] + 1), 3)
    hot = trailing((high > 29.0).astype(np.float64), 3) > 0.0
    found: Bools = bodies & (trailing(known(wet_h), 3) >= 39.0) & (three >= 15.0) & (three <= 25.0) & ~hot
    return found


def grey_mould_share(wet_h: ArrayLike, temp_c: ArrayLike) -> Floats:
    """Share of flowers or soft fruit that grey mould infects in one wet spell.

    Parameters
    ----------
    wet_h : array  [h]
        Hours wet in a row, up to 48.
    temp_c : array  [degC]
        Mean of those hours. NaN gives 0.

    Notes
    -----
    Logistic in hours and warmth, fitted by its authors on strawberry in growth chambers. Above 0.5 is
    moderate, above 0.7 high.

    Source
    ------
    BULGER-1987 (memory). Checked: tests/published/infection/test_severity_cells.py
    """
    wet = np.clip(known(wet_h), 0.0, 48.0)
    temp = np.clip(known(temp_c, 0.0), 0.0, 35.0)
    score = -4.268 - 0.0901 * wet + 0.0294 * wet * temp - 0.0000235 * wet * temp**3
    share: Floats = 1.0 / (1.0 + np.exp(-score))
    return np.where((wet > 0.0) & (temp > 0.0), share, 0.0)


def damping_off_day(soil_c: ArrayLike, wet_share: ArrayLike, cold_below_c: float = 13.0) -> Bools:
    """Whether seed and seedlings stand in ground cold and wet enough to rot, for the third day in a row.

    Parameters
    ----------
    soil_c : array, shape (..., day)  [degC]
        Mean at 5 cm.
    wet_share : array, shape (..., day)
        Water in the seed zone, as a share of what it holds.
    cold_below_c : float  [degC]
        13 for crops of the cool season; 16 for beans, sweet corn and cucurbits.

    Source
    ------
    common-practice. Checked: tests/published/infection/test_rule_cases.py
    """
    bad = (np.asarray(soil_c) < cold_below_c) & (np.asarray(wet_share) >= NEAR_FULL_SHARE)
    found: Bools = trailing(bad.astype(np.float64), 3) >= 3.0
    return found


def beet_spot_pair(wet_h: ArrayLike, temp_c: ArrayLike) -> Bools:
    """Whether a day and the one before favour leaf spot of beet and chard together.

    Parameters
    ----------
    wet_h, temp_c : array, shape (..., day)  [h], [degC]
        Humid hours of each day, and their mean warmth. NaN warmth counts as cold.

    Notes
    -----
    The published rule looks a daily value of 0 to 7 up by humid hours and warmth; its table was not at hand.
    Our own stand-in: a day counts from 9 humid hours at a mean of 15 to 32 degC, and two in a row favour it.

    Source
    ------
    common-practice; the form after WINDELS-1998 (memory). Checked:
    tests/published/infection/test_rule_cases.py
    """
    temp = known(temp_c, -NEVER)
    day = (known(wet_h) >= 9.0) & (temp >= 15.0) & (temp <= 32.0)
    found: Bools = trailing(day.astype(np.float64), 2) >= 2.0
    return found
