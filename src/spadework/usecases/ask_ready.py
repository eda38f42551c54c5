"""When will it be ready?"""

from __future__ import annotations

from datetime import date, timedelta
from pathlib import Path

from spadework.advice.odds import as_date
from spadework.advice.ready_odds import ReadyAnswer, later_years, odds_ready, usual_way
from spadework.clock.course import set_out, sow
from spadework.clock.sprout import Sowing
from spadework.errors import ParameterError
from spadework.store.predictions import Subject
from spadework.usecases.keep_predictions import from_ready, keep_shown, means
from spadework.usecases.lessons import learned_said
from spadework.usecases.packet import Packet, packet_said
from spadework.usecases.setting import check_ahead, column_of, open_setting

RUN_DAYS = 300
"""Days a course is followed for."""


def ask_ready(
    garden: Path,
    today: date,
    crop: str,
    *,
    sown: date | None = None,
    set_out_on: date | None = None,
    depth_mm: float | None = None,
    germination_pct: float | None = None,
    watered: bool = True,
    by: date | None = None,
    packet: Packet | None = None,
    variety: str = "",
    bed: str = "",
) -> ReadyAnswer:
    """Odds of the day a planting is up and ready.

    Parameters
    ----------
    garden : Path
    today : date
    crop : str
        Any name of the crop.
    sown, set_out_on : date or None
        When it was or will be sown or set out. One of the two.
    depth_mm : float or None  [mm]
    germination_pct : float or None  [percent]
    watered : bool
        Whether the row is kept damp until it is up.
    by : date or None
        A day to give the odds at.
    packet : Packet or None
        Days printed on the packet, in place of the sheet's requirement.
    variety, bed : str
        Those asked about, for what the garden's events have taught of them.

    Raises
    ------
    ParameterError, UnknownName, RecordError, GardenError
    """
    setting = open_setting(garden, today)
    sheet = setting.sheet(crop, variety=variety, bed=bed, packet=packet)
    check_sowing_numbers(depth_mm, germination_pct)
    if (sown is None) == (set_out_on is None):
        raise ParameterError(
            "One start is needed: the day it was sown or the day it was set out.",
            "Give --sown DATE or --set-out DATE, not both.",
        )
    learned = learned_said(sheet, planted=set_out_on is not None)
    assumptions = [said for said in (packet_said(sheet), learned) if said]
    words = setting.site.words
    name = sheet.word(words)
    if sown is not None:
        check_ahead(sown, today, "--sown")
        ground, notes = setting.ground(sown, RUN_DAYS, bed=bed)
        if usual_way(sheet) != "sown":
            assumptions.append(
                f"Taken as sown where it grows. {name.capitalize()} is usually raised and set out: "
                "give --set-out for that."
            )
        assumptions.append("The row is kept damp until it is up." if watered else "Rain alone wets the seed.")
        germination = None if germination_pct is None else germination_pct / 100.0
        course = sow(sheet, ground, Sowing(column_of(ground, sown), depth_mm, germination, watered))
    else:
        assert set_out_on is not None
        check_ahead(set_out_on, today, "--set-out")
        ground, notes = setting.ground(set_out_on, RUN_DAYS, bed=bed)
        course = set_out(sheet, ground, column_of(ground, set_out_on))
    assumptions.append("No cover on frosty nights.")
    if later_years(sheet):
        assumptions.append(later_years(sheet))
    if by is not None:
        _check_by(by, as_date(ground.dates[course.start_day]))
    answer = odds_ready(course, crop=name, today=today, by=by, assumptions=assumptions, notes=notes)
    assumed = means(watered=watered, depth_mm=depth_mm, germination_pct=germination_pct, packet=packet)
    about = Subject(crop=sheet.key, variety=variety, bed=bed, means=assumed)
    keep_shown(setting, from_ready(answer, about))
    return answer


def _check_by(by: date, start: date) -> None:
    last = start + timedelta(days=RUN_DAYS - 1)
    if not start <= by <= last:
        raise ParameterError(
            f"--by {by.isoformat()} is not within {RUN_DAYS} days of the start ({start.isoformat()}).",
            f"Give a day from {start.isoformat()} to {last.isoformat()}.",
        )


def check_sowing_numbers(depth_mm: float | None, germination_pct: float | None) -> None:
    """Refuse depths and germinations that no packet or drill has.

    Raises
    ------
    ParameterError
    """
    if depth_mm is not None and not 0.0 <= depth_mm <= 250.0:
        raise ParameterError(f"--depth {depth_mm:g} mm is not a sowing depth.", "Give 0 to 250 mm.")
    if germination_pct is not None and not 0.0 < germination_pct <= 100.0:
        raise ParameterError(
            f"--germination {germination_pct:g} is not a percentage.", "Give more than 0 and at most 100."
        )
