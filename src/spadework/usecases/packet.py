"""A packet's days, as the grower reads them, in place of the sheet's own requirement."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date

from spadework.advice.odds import as_date
from spadework.clock.ground import Ground
from spadework.clock.packet import packet_warmth, usual_start
from spadework.crops.overrides import apply_overrides
from spadework.crops.sheet import Sheet
from spadework.errors import ParameterError
from spadework.usecases.setting import Setting, column_of

LONGEST_PACKET_DAYS = 300


@dataclass(frozen=True)
class Packet:
    """What is printed.

    Parameters
    ----------
    days : float  [d]
    from_setting_out : bool
        Counted from setting out rather than from sowing.
    sown : date or None
        A day of any year that the packet's days are counted from; the place's usual day by default.
    """

    days: float
    from_setting_out: bool = False
    sown: date | None = None


def by_packet(setting: Setting, sheet: Sheet, packet: Packet) -> tuple[Sheet, str]:
    """The sheet with the packet's days as warmth, and the assumption in words.

    Raises
    ------
    ParameterError
        For a number that no packet prints, or a place or day where it cannot be counted.
    """
    if not 10.0 <= packet.days <= LONGEST_PACKET_DAYS:
        raise ParameterError(
            f"--packet-days {packet.days:g} is not printed on packets.",
            f"Give 10 to {LONGEST_PACKET_DAYS} days.",
        )
    if packet.from_setting_out and sheet.development.set_out_days is None:
        raise ParameterError(
            f"{sheet.name.capitalize()} is not set out as plants.", "Leave out --from-setting-out."
        )
    first = _next_midwinter(setting.today, south=setting.site.south)
    years = setting.years(first, 366 + LONGEST_PACKET_DAYS)
    ground = Ground(setting.site, years, setting.site.surface)
    midwinter = column_of(ground, first)
    if packet.sown is None:
        whole = _from_midwinter(ground, midwinter)
        start = midwinter + usual_start(sheet, whole, set_out_plants=packet.from_setting_out)
    else:
        start = column_of(ground, _in_season(packet.sown, first))
    found = packet_warmth(sheet, ground, packet.days, start, set_out_plants=packet.from_setting_out)
    day = as_date(ground.dates[found.start])
    what = "setting out" if packet.from_setting_out else "a sowing"
    text = (
        f"The packet's {packet.days:g} days are counted from {what} about {day.day} {day:%b}, this place's "
        f"{'named' if packet.sown else 'usual'} time: {found.best_days:.0f} days of best warmth."
    )
    section = sheet.development
    if packet.from_setting_out:
        assert section.set_out_days is not None
        head = section.ready_days.value - section.set_out_days.value
        values = {
            "development.set_out_days": found.best_days,
            "development.ready_days": found.best_days + head,
        }
    else:
        values = {"development.ready_days": found.best_days}
        if section.set_out_days is not None:
            share = section.set_out_days.value / section.ready_days.value
            values["development.set_out_days"] = found.best_days * share
    return apply_overrides(sheet, values, "the packet"), text


def packet_told(sheet: Sheet) -> Packet | None:
    """The packet's days where the garden's own numbers give them, as for a variety; else None."""
    days = sheet.development.packet_days
    if days is None or not days.origin:
        return None
    return Packet(days.value, sheet.development.packet_from == "setting out")


def _next_midwinter(today: date, *, south: bool) -> date:
    """First day of the coming year of growth, of which nothing has been seen."""
    if south:
        return date(today.year if today.month < 7 else today.year + 1, 7, 1)
    return date(today.year + 1, 1, 1)


def _from_midwinter(ground: Ground, column: int) -> Ground:
    """The same years without the days before midwinter."""
    years = ground.years
    cut = replace(
        years,
        first_day=years.dates[column],
        tmin_c=years.tmin_c[:, column:],
        tmax_c=years.tmax_c[:, column:],
        rain_mm=years.rain_mm[:, column:],
        solar_mj=None if years.solar_mj is None else years.solar_mj[:, column:],
        wind_m_s=None if years.wind_m_s is None else years.wind_m_s[:, column:],
        seen_days=0,
    )
    return replace(ground, years=cut, _kept={})


def _in_season(day: date, first: date) -> date:
    """A day of any year as the day of the season that begins at midwinter."""
    day = day.replace(year=first.year, day=min(day.day, 28) if day.month == 2 else day.day)
    return day if day >= first else day.replace(year=first.year + 1)
