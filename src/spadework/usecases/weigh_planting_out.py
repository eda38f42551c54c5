"""Plants are ready to go out: go, hold, or under cover?"""

from __future__ import annotations

from datetime import date, timedelta
from pathlib import Path

from spadework.advice.weigh_plant_out import COVER_DAYS, PlantAnswer, weigh_plant_out
from spadework.errors import ParameterError
from spadework.store.predictions import Subject
from spadework.usecases.ask_ready import RUN_DAYS
from spadework.usecases.keep_predictions import from_planting_out, keep_shown
from spadework.usecases.setting import check_ahead, column_of, open_setting

STEPS = (0, 3, 7, 10, 14, 21, 28)
"""Days after the first at which holding is compared."""

ACCEPTED = 0.5
"""Odds at which a bought plant still pays, where none are named."""

SEARCH_DAYS = 150


def weigh_planting_out(
    garden: Path, today: date, crop: str, *, on: date | None = None, accepted: float = ACCEPTED
) -> PlantAnswer:
    """Set out now, later, or under cover.

    Parameters
    ----------
    garden : Path
    today : date
    crop : str
    on : date or None
        First day to compare; today by default.
    accepted : float
        Odds at which a bought plant still pays, 0 to 1.

    Raises
    ------
    ParameterError, UnknownName, RecordError, GardenError
    """
    setting = open_setting(garden, today)
    sheet = setting.sheet(crop)
    if sheet.development.set_out_days is None:
        raise ParameterError(
            f"{sheet.word(setting.site.words).capitalize()} is not raised and set out.",
            "Ask instead with: spadework weigh sow",
        )
    first = today if on is None else on
    if first < today:
        raise ParameterError(
            f"--on {first.isoformat()} is before today ({today.isoformat()}).", "Give a day to come."
        )
    check_ahead(first, today, "--on")
    ground, notes = setting.ground(first, SEARCH_DAYS + RUN_DAYS)
    answer = weigh_plant_out(
        sheet,
        ground,
        [column_of(ground, first + timedelta(days=step)) for step in STEPS],
        crop=sheet.word(setting.site.words),
        today=today,
        accepted=accepted,
        site_offset_c=0.0,
        assumptions=[
            f"Under cover means fleece for {COVER_DAYS} days, lifted on hot days.",
            "Plants are hardened off before they go out.",
        ],
        notes=notes,
    )
    keep_shown(setting, from_planting_out(answer, Subject(crop=sheet.key)))
    return answer
