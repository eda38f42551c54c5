"""What still fits a free place?"""

from __future__ import annotations

from datetime import date
from pathlib import Path

from spadework.advice.ready_odds import later_years
from spadework.advice.weigh_fits import SEARCH_DAYS, FitsAnswer, Place, weigh_fits
from spadework.crops.loader import all_sheets
from spadework.errors import ParameterError
from spadework.store.predictions import Subject
from spadework.usecases.ask_ready import RUN_DAYS
from spadework.usecases.keep_predictions import from_fits, keep_shown, means
from spadework.usecases.setting import check_ahead, column_of, open_setting

ACCEPTED = 0.6
"""Odds accepted where none are named: three years of five."""


def weigh_what_fits(
    garden: Path,
    today: date,
    *,
    on: date | None = None,
    clear_by: date | None = None,
    accepted: float = ACCEPTED,
    watered: bool = True,
) -> FitsAnswer:
    """Which crops still fit a place that is free on a day.

    Parameters
    ----------
    garden : Path
    today : date
    on : date or None
        Day the place is free; today by default.
    clear_by : date or None
        Day by which the place is wanted again.
    accepted : float
        Odds accepted, 0 to 1.
    watered : bool

    Raises
    ------
    ParameterError, RecordError, GardenError
    """
    setting = open_setting(garden, today)
    free = today if on is None else on
    if free < today:
        raise ParameterError(
            f"--on {free.isoformat()} is before today ({today.isoformat()}).", "Give a day to come."
        )
    check_ahead(free, today, "--on")
    if clear_by is not None and not 14 <= (clear_by - free).days <= RUN_DAYS:
        raise ParameterError(
            f"--until {clear_by.isoformat()} leaves no season after {free.isoformat()}.",
            f"Give a day 14 to {RUN_DAYS} days after the place is free.",
        )
    ground, notes = setting.ground(free, SEARCH_DAYS + RUN_DAYS)
    place = Place(
        ground=ground,
        on=column_of(ground, free),
        clear_by=None if clear_by is None else column_of(ground, clear_by),
        accepted=accepted,
        watered=watered,
    )
    sheets = [setting.sheet(key) for key in all_sheets()]
    answer = weigh_fits(
        place,
        [(sheet.word(setting.site.words), sheet) for sheet in sheets if not later_years(sheet)],
        today=today,
        assumptions=[
            "Rows are kept damp until they are up." if watered else "Rain alone wets the seed.",
            "No cover on frosty nights.",
        ],
        notes=notes,
    )
    keep_shown(setting, from_fits(answer, Subject(means=means(watered=watered))))
    return answer
