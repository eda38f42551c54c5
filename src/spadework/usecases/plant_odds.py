"""When a planting that is yet to be would be up and ready: run through the years the garden is open with."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from spadework.advice.ready_odds import ReadyAnswer, later_years, odds_ready
from spadework.clock.course import set_out, sow
from spadework.clock.cover import TUNNEL, indoors, under_cover
from spadework.clock.sprout import Sowing
from spadework.errors import RecordError
from spadework.usecases.jobs_today import open_day
from spadework.usecases.plant_sentence import ComesTo
from spadework.usecases.setting import column_of

NEAR_DAYS = 60
"""So many days before today, and to so many after it, a start may lie to be run here. Our own rule."""


def plant_odds(path: Path, today: date, found: ComesTo, on: date) -> ReadyAnswer | None:
    """Odds of what a sentence comes to; None where there is no weather, or the day is too far off.

    Parameters
    ----------
    path : Path
    today : date
    found : ComesTo
    on : date
        The day it is sown or planted.

    Notes
    -----
    Of what is sown in a tray only the coming up is to be believed: when it goes out is not known yet.

    Raises
    ------
    GardenError, StoreError
    """
    if abs((on - today).days) > NEAR_DAYS:
        return None
    try:
        day = open_day(path, today)
    except RecordError:
        return None
    scene = day.scene
    sheet = day.setting.sheet(found.crop, variety=found.variety, bed=found.bed)
    ground = scene.ground
    column = column_of(ground, on)
    if not 0 <= column < ground.dates.size:
        return None
    bed = scene.beds.get(found.bed)
    inside = scene.beds.get(bed.inside) if bed is not None else None
    shapes = {each.shape for each in (bed, inside) if each is not None}
    if found.way == "tray":
        ground = indoors(ground)
    elif shapes & {"tunnel", "frame"}:
        ground = under_cover(ground, TUNNEL, 0, ground.dates.size)
    if found.way in ("here", "tray"):
        course = sow(sheet, ground, Sowing(column, found.depth_mm, found.germination))
    else:
        course = set_out(sheet, ground, column)
    said = later_years(sheet)
    return odds_ready(
        course,
        crop=scene.name_of(sheet.key),
        today=today,
        by=None,
        assumptions=[said] if said else [],
        notes=[scene.ground.years.note],
    )
