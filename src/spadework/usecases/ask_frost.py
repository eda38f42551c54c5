"""What are the frost odds here?"""

from __future__ import annotations

from datetime import date
from pathlib import Path

import numpy as np

from spadework.advice.frost_odds import FrostAnswer, FrostYears, odds_frost
from spadework.clock.conditioning import condition_calendar
from spadework.errors import ParameterError
from spadework.store.predictions import Subject
from spadework.usecases.keep_predictions import from_frost, keep_shown, means
from spadework.usecases.setting import DEFAULT_LAST_YEARS, open_setting

COLDEST_ASKED_C, WARMEST_ASKED_C = -30.0, 20.0


def ask_frost(
    garden: Path,
    today: date,
    *,
    below_c: float = 0.0,
    by: date | None = None,
    at_odds: tuple[str, float] | None = None,
    last: int | None = DEFAULT_LAST_YEARS,
) -> FrostAnswer:
    """Frost odds from the record's whole years before today.

    Parameters
    ----------
    garden : Path
        Garden folder.
    today : date
    below_c : float  [degC]
        A night at or below this counts as frost.
    by : date or None
        A day to give the odds at.
    at_odds : (str, float) or None
        Odds as spoken, and as a chance.
    last : int or None
        Past years at most; None takes all.

    Raises
    ------
    ParameterError, RecordError, GardenError
    """
    if not COLDEST_ASKED_C <= below_c <= WARMEST_ASKED_C:
        raise ParameterError(
            f"--below {below_c:g} °C is not a frost limit.",
            f"Give a temperature from {COLDEST_ASKED_C:g} to {WARMEST_ASKED_C:g} °C.",
        )
    setting = open_setting(garden, today)
    south = setting.site.south
    record_alone = setting.calendar(last)
    whole, minima, applied = condition_calendar(record_alone, setting.told, today)
    season = today.year - 1 if south and today.month < 7 else today.year
    dates = np.array([whole.day(column, season) for column in range(whole.tmin_c.shape[1])])
    record = FrostYears(
        tmin_c=whole.tmin_c,
        dates=dates,
        labels=whole.labels,
        made=whole.made,
        leaf_offset_c=minima.leaf_c,
        leaf_sd_c=minima.leaf_sd_c,
    )
    answer = odds_frost(
        record,
        today=today,
        below_c=below_c,
        by=None if by is None else (by, whole.column(by)),
        at_odds=at_odds,
        notes=[whole.note, *(use.text for use in applied)],
    )
    assumed = means(last=None if last == DEFAULT_LAST_YEARS else last)
    keep_shown(setting, from_frost(answer, Subject(means=assumed)))
    return answer
