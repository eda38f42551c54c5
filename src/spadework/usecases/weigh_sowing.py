"""May I sow this now?"""

from __future__ import annotations

from datetime import date
from pathlib import Path

import msgspec

from spadework.advice.odds import Odds
from spadework.advice.ready_odds import later_years, usual_way
from spadework.advice.weigh_sow import SowAnswer, SowOption, usual_days, weigh_day, weigh_sow
from spadework.clock.sprout import Sowing
from spadework.crops.forms import with_form
from spadework.crops.loader import all_sheets
from spadework.errors import ParameterError
from spadework.store.predictions import Subject
from spadework.usecases.ask_ready import RUN_DAYS, check_sowing_numbers
from spadework.usecases.keep_predictions import from_ranking, from_sowing, keep_shown, means
from spadework.usecases.lessons import learned_said
from spadework.usecases.packet import Packet, packet_said
from spadework.usecases.setting import check_ahead, column_of, open_setting


class Ranked(msgspec.Struct, frozen=True, kw_only=True):
    """One crop of the ranking: how a sowing today goes."""

    crop: str
    key: str
    way: str
    option: SowOption
    overall: Odds


class RankAnswer(msgspec.Struct, frozen=True, kw_only=True):
    """All crops ranked for one sowing day."""

    question: str
    today: date
    on: date
    crops: list[Ranked]
    note: str


def weigh_sowing(
    garden: Path,
    today: date,
    crop: str,
    *,
    on: date | None = None,
    depth_mm: float | None = None,
    germination_pct: float | None = None,
    watered: bool = True,
    raised: bool | None = None,
    packet: Packet | None = None,
    variety: str = "",
    bed: str = "",
) -> SowAnswer:
    """Set sowing days of one crop side by side, from today (or `on`) on.

    Parameters
    ----------
    garden : Path
    today : date
    crop : str
    on : date or None
        First sowing day to compare; today by default.
    depth_mm : float or None  [mm]
    germination_pct : float or None  [percent]
    watered : bool
    raised : bool or None
        Raised and set out rather than sown in place; the crop's usual way by default.
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
    first = today if on is None else on
    if first < today:
        raise ParameterError(
            f"--on {first.isoformat()} is before today ({today.isoformat()}).",
            "A day that is past cannot be sown on; set --today to ask as of then.",
        )
    check_ahead(first, today, "--on")
    way: str = usual_way(sheet) if raised is None else ("raised" if raised else "sown")
    if way == "raised" and "raised" in sheet.methods:
        sheet = with_form(sheet, "method", "raised")
    days = usual_days(first)
    ground, notes = setting.ground(first, RUN_DAYS + (days[-1] - first).days, bed=bed)
    germination = None if germination_pct is None else germination_pct / 100.0
    columns = [column_of(ground, day) for day in days]
    learned = learned_said(sheet, planted=way != "sown")
    assumptions = ["No cover on frosty nights.", *(said for said in (packet_said(sheet), learned) if said)]
    if later_years(sheet):
        assumptions.append(later_years(sheet))
    if way == "planted":
        assumptions.insert(0, "Set as plants or slips, hardened off.")
    elif way == "sown":
        assumptions.insert(
            0, "The row is kept damp until it is up." if watered else "Rain alone wets the seed."
        )
    else:
        weeks = sheet.sowing.weeks_to_set_out
        assumptions.insert(
            0,
            f"Sown in warmth under cover and set out {6 if weeks is None else weeks.value:.0f} weeks later.",
        )
    answer = weigh_sow(
        sheet,
        ground,
        columns,
        crop=sheet.word(setting.site.words),
        today=today,
        way=way,
        sowing=Sowing(columns[0], depth_mm, germination, watered),
        assumptions=assumptions,
        notes=notes,
    )
    assumed = means(watered=watered, depth_mm=depth_mm, germination_pct=germination_pct, packet=packet)
    about = Subject(crop=sheet.key, variety=variety, bed=bed, means=assumed)
    keep_shown(setting, from_sowing(answer, about))
    return answer


def rank_sowings(garden: Path, today: date, *, on: date | None = None, watered: bool = True) -> RankAnswer:
    """Rank every crop for a sowing today (or `on`).

    Raises
    ------
    ParameterError, RecordError, GardenError
    """
    setting = open_setting(garden, today)
    first = today if on is None else on
    if first < today:
        raise ParameterError(
            f"--on {first.isoformat()} is before today ({today.isoformat()}).", "Set --today."
        )
    check_ahead(first, today, "--on")
    ground, notes = setting.ground(first, RUN_DAYS + 60)
    column = column_of(ground, first)
    ranked = []
    for key in all_sheets():
        sheet = setting.sheet(key)
        if later_years(sheet):
            continue
        way = usual_way(sheet)
        option, _ = weigh_day(sheet, ground, column, way, Sowing(column, watered=watered))
        ranked.append(
            Ranked(
                crop=sheet.word(setting.site.words), key=key, way=way, option=option, overall=option.overall
            )
        )
    ranked.sort(key=lambda entry: (-entry.overall.chance, entry.crop))
    keep_shown(setting, from_ranking(ranked, Subject(means=means(watered=watered)), today))
    return RankAnswer(question="rank", today=today, on=first, crops=ranked, note=" ".join(notes))
