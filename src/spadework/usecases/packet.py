"""Days on a seed packet in place of a sheet's requirement, with what they take for granted."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from typing import TYPE_CHECKING

from spadework.advice.autumn import is_set_in_autumn
from spadework.advice.odds import as_date
from spadework.clock.conditioning import condition_ground, condition_years
from spadework.clock.ground import SPIN_UP_DAYS, Ground
from spadework.clock.packet import SPRING_DAYS, Since, convert, raised_only, raising_days, usual_start
from spadework.crops.fields import by_path
from spadework.crops.overrides import apply_overrides
from spadework.crops.sheet import Sheet
from spadework.errors import GardenError, ParameterError
from spadework.garden.phrases import day_text
from spadework.garden.told import FrostTable, PairedMinima
from spadework.store.overrides_file import OVERRIDES_FILE
from spadework.weather.years import build_years

if TYPE_CHECKING:
    from spadework.usecases.setting import Setting

FEWEST_DAYS, MOST_DAYS = 10.0, 400.0
"""Days to ready that a packet may print."""

_COUNTED = "packet days counted from"


@dataclass(frozen=True)
class Packet:
    """What is printed.

    Parameters
    ----------
    days : float  [d]
    from_setting_out : bool or None
        Counted from setting out rather than from sowing; None takes the crop's usual way of counting.
    sown : date or None
        Day of any year that the days are counted from; the place's usual day by default.
    """

    days: float
    from_setting_out: bool | None = None
    sown: date | None = None


def by_packet(setting: Setting, sheet: Sheet, packet: Packet) -> Sheet:
    """The sheet with the packet's days as warmth in place of its own requirement.

    Parameters
    ----------
    setting : Setting
        Whose past years say what the days give.
    sheet : Sheet
    packet : Packet

    Returns
    -------
    Sheet
        Its ready_days and set_out_days in one proportion; their origin says what was taken for granted.

    Raises
    ------
    ParameterError
        Days no packet prints, a way of counting that does not fit the crop, or no usual day to count from.
    """
    days, since = packet.days, _since(sheet, packet.from_setting_out)
    if not FEWEST_DAYS <= days <= MOST_DAYS:
        raise ParameterError(
            f"{days:g} packet days are not possible.", f"Allowed: {FEWEST_DAYS:g} to {MOST_DAYS:g}."
        )
    if since == "sowing" and raised_only(sheet) and days <= raising_days(sheet):
        raise ParameterError(
            f"{days:g} days from sowing are over before {sheet.name} is set out.",
            "Packets of such crops count from setting out: give --from-setting-out.",
        )
    start = _usual_day(setting, sheet, since) if packet.sown is None else _next(setting.today, packet.sown)
    found = convert(sheet, _plain_ground(setting, start, int(days) + 2), SPIN_UP_DAYS, days, since)
    field = by_path()["development.ready_days"]
    ready = sheet.development.ready_days.value * found.ratio
    counted = "a sowing about" if since == "sowing" else "setting out about"
    origin = f"{days:g} {_COUNTED} {counted} {day_text(start)}"
    if not field.lowest <= ready <= field.highest:
        raise ParameterError(
            f"{origin} come to {found.best_days:.1f} days of best warmth, which is no {sheet.name}.",
            "Check the days, or give the day they are counted from with --packet-sown.",
        )
    numbers: dict[str, object] = {"development.ready_days": ready}
    if sheet.development.set_out_days is not None:
        numbers["development.set_out_days"] = sheet.development.set_out_days.value * found.ratio
    return apply_overrides(sheet, numbers, origin)


def by_own_packet(setting: Setting, sheet: Sheet) -> Sheet:
    """A sheet whose packet days are set in the garden's overrides file, brought to warmth; else as it is.

    Raises
    ------
    GardenError
        Where the file gives packet days and the requirement itself.
    """
    section = sheet.development
    days = section.packet_days
    if days is None or days.provenance != "grower":
        return sheet
    if section.ready_days.provenance == "grower":
        raise GardenError(
            f"{OVERRIDES_FILE}: {sheet.key} has packet_days and ready_days.", "Take one of them out."
        )
    return by_packet(setting, sheet, Packet(days.value))


def packet_said(sheet: Sheet) -> str:
    """What packet days take for granted, as a sentence; empty for other sheets."""
    section = sheet.development
    ready, planted = section.ready_days, section.set_out_days
    if _COUNTED not in ready.origin:
        return ""
    out = "setting out" in ready.origin and planted is not None
    need = planted if out and planted is not None else ready
    own = "" if need.own is None else f" (the sheet has {need.own.value:.1f})"
    return f"{ready.origin}: {need.value:.1f} days of best warmth{own}; change the day with --packet-sown."


def _since(sheet: Sheet, from_setting_out: bool | None) -> Since:
    if from_setting_out and sheet.development.set_out_days is None and not raised_only(sheet):
        raise ParameterError(
            f"{sheet.name.capitalize()} is not set out as plants.", "Leave --from-setting-out out."
        )
    if from_setting_out is not None:
        return "setting out" if from_setting_out else "sowing"
    if sheet.development.packet_from:
        return sheet.development.packet_from
    return "setting out" if raised_only(sheet) else "sowing"


def _usual_day(setting: Setting, sheet: Sheet, since: Since) -> date:
    """The crop's usual day at this place, in the next spring whose weather nobody has seen."""
    if is_set_in_autumn(sheet) or "crowns" in sheet.propagation:
        raise ParameterError(
            f"{sheet.name.capitalize()} has no usual spring sowing to count packet days from.",
            "Give the day they are counted from with --packet-sown DATE.",
        )
    midwinter = _next(setting.today, date(2001, 7 if setting.site.south else 1, 1))
    ground = _plain_ground(setting, midwinter, SPRING_DAYS)
    raised = since == "sowing" and raised_only(sheet)
    column = usual_start(sheet, ground, SPIN_UP_DAYS, "setting out" if raised else since)
    if column is None:
        raise ParameterError(
            f"Most springs here have no day that is usual for {sheet.name}.",
            "Give the day the packet's days are counted from with --packet-sown DATE.",
        )
    day = as_date(ground.dates[column])
    if raised:
        day -= timedelta(days=raising_days(sheet))
    return _next(setting.today, day)


def _next(today: date, day: date) -> date:
    """The next such day of the year whose weather, and that of the weeks before it, nobody has seen."""
    month, number = (2, 28) if (day.month, day.day) == (2, 29) else (day.month, day.day)
    found = date(today.year, month, number)
    while found - timedelta(days=SPIN_UP_DAYS) <= today:
        found = date(found.year + 1, month, number)
    return found


def _plain_ground(setting: Setting, start: date, days: int) -> Ground:
    """The place in past years alone, with only what was told of the place itself and not of this season."""
    lasting = [entry for entry in setting.told if isinstance(entry.fact, FrostTable | PairedMinima)]
    years = build_years(
        setting.weather(),
        start - timedelta(days=SPIN_UP_DAYS),
        SPIN_UP_DAYS + days,
        setting.today,
        need_seen=False,
        climate=setting.climate,
    )
    if not lasting:
        return Ground(setting.site, years, setting.site.surface)
    conditioned = condition_years(years, lasting, setting.site, setting.today, setting.nights())
    return condition_ground(conditioned, lasting, setting.site, setting.today)[0]
