"""What every question needs: the garden, its record, and the ground through the years."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np

from spadework.clock.conditioning import condition_ground, condition_years, fit_nights
from spadework.clock.conditioning_frost import NightFit
from spadework.clock.conditioning_soil import LONGEST_USE_DAYS
from spadework.clock.ground import SPIN_UP_DAYS, Ground
from spadework.clock.learning import Learned
from spadework.crops.forms import with_form
from spadework.crops.loader import load_sheet
from spadework.crops.names import find
from spadework.crops.overrides import apply_overrides
from spadework.crops.sheet import Sheet
from spadework.errors import GardenError, ParameterError, RecordError, UnknownName
from spadework.garden.phrases import degrees_text
from spadework.garden.site import Site
from spadework.garden.told import Event, FrostTable, SoilWarmth, Told, WarmthTotal
from spadework.store.garden_folder import GardenFolder, open_garden
from spadework.store.overrides_file import OVERRIDES_FILE
from spadework.usecases.told_climate import climate_told
from spadework.weather.series import Series
from spadework.weather.years import CalendarYears, Climate, Years, build_years, calendar_years

if TYPE_CHECKING:
    from spadework.usecases.packet import Packet

FARTHEST_AHEAD_DAYS = 400
"""How far ahead of today a date may lie: a season planned a year on."""

DEFAULT_LAST_YEARS = 30
"""Past years run by default: the last thirty, since older ones were colder (measured on long records)."""

LONGEST_TOTAL_DAYS = 366
"""A bulletin's total that began longer ago is not run any more."""


@dataclass(frozen=True)
class Setting:
    """A garden opened for one question.

    Parameters
    ----------
    folder : GardenFolder
    today : date
        The day of asking; nothing later than it is taken as seen.
    also : tuple of Told
        Taken as told beside what the garden keeps: facts on trial.
    instead : tuple of Told or None
        Taken as all that was told, in place of what the garden keeps.
    """

    folder: GardenFolder
    today: date
    also: tuple[Told, ...] = ()
    instead: tuple[Told, ...] | None = None

    @property
    def site(self) -> Site:
        """Where the garden is."""
        return self.folder.site

    def sheet(self, name: str, *, variety: str = "", bed: str = "", packet: Packet | None = None) -> Sheet:
        """A crop's sheet by any of its names, with the garden's own numbers, and what it learned, over it.

        Parameters
        ----------
        name : str
        variety, bed : str
            Those asked about, for what was learned of them; empty where none is named.
        packet : Packet or None
            Days printed on a packet, in place of the requirement and of what was learned of it.
        """
        from spadework.usecases.lessons import with_learned  # both ask settings of their own
        from spadework.usecases.packet import by_packet

        sheet = self.own(name, variety=variety)
        if packet is not None:
            sheet = by_packet(self, sheet, packet)
        variety = variety or sheet.variety
        return with_learned(self, sheet, variety=variety, bed=bed, requirement=packet is None)

    def own(self, name: str, *, variety: str = "") -> Sheet:
        """A crop's sheet with the garden's own numbers, and without what was learned."""
        from spadework.usecases.packet import by_own_packet

        return by_own_packet(self, own_sheet(self.folder, name, variety))

    @cached_property
    def learned(self) -> Learned:
        """What the garden's own events have taught by the day of asking."""
        from spadework.usecases.lessons import learned_by

        return learned_by(self)

    def bed_offset_c(self, bed: str) -> float:
        """How much warmer a bed is than the rest, as its events have taught; 0 where none has."""
        if not bed or not any(isinstance(entry.fact, Event) and entry.fact.bed == bed for entry in self.told):
            return 0.0
        belief = self.learned.beds.get(bed)
        return 0.0 if belief is None else belief.mean

    @cached_property
    def told(self) -> tuple[Told, ...]:
        """What was told up to the day of asking and stands."""
        kept = self.folder.told(self.today) if self.instead is None else self.instead
        return (*kept, *self.also)

    def weather(self) -> Series | None:
        """The record that questions are answered from; None where there is none."""
        return self._record

    @cached_property
    def _record(self) -> Series | None:
        return self.folder.weather() if self.folder.has_weather else None

    @cached_property
    def climate(self) -> Climate:
        """What made years may be drawn from where past years are few."""
        return climate_told(self.told, self.site)

    def ground(
        self,
        start: date,
        days: int,
        *,
        last: int | None = DEFAULT_LAST_YEARS,
        bed: str = "",
        need_seen: bool | None = None,
    ) -> tuple[Ground, list[str]]:
        """The place through the years, from well before a start to `days` after it.

        Parameters
        ----------
        start : date
            Sowing or setting out; weather before it warms the soil model up.
        days : int  [d]
            Days to run after the start.
        last : int or None
            How many past years at most.
        bed : str
            The bed asked about, for its own soil readings and what its events taught; empty for the garden.
        need_seen : bool or None
            As for `years`.

        Returns
        -------
        ground : Ground
        notes : list of str
            What is to be said about the years, and what was told and did to them.
        """
        years = self.years(start, days, last=last, need_seen=need_seen)
        notes = [years.note] if years.note else []
        if not self.told:
            return Ground(self.site, years, self.site.surface), notes
        offset_c = self.bed_offset_c(bed)
        if offset_c:
            notes.append(f"{bed} is taken as {degrees_text(offset_c)} than the rest, as its events taught.")
        conditioned = condition_years(years, self.told, self.site, self.today, self.nights(last))
        ground, applied = condition_ground(conditioned, self.told, self.site, self.today, bed, offset_c)
        return ground, [*notes, *(use.text for use in applied)]

    def years(
        self,
        start: date,
        days: int,
        *,
        last: int | None = DEFAULT_LAST_YEARS,
        need_seen: bool | None = None,
    ) -> Years:
        """The years round a start by the record alone, reaching back to what told facts are about.

        Parameters
        ----------
        start : date
        days : int  [d]
        last : int or None
        need_seen : bool or None
            Whether days before today must have been seen; None where a start before today says so itself.
        """
        series = self.weather()
        first = min(start, self.today) - timedelta(days=SPIN_UP_DAYS)
        end = start + timedelta(days=days)
        # what was told of this season stands in for a record that does not reach it
        if need_seen is None:
            need_seen = start < self.today and not tells_season(self.told, start)

        def built(first: date) -> Years:
            return build_years(
                series,
                first,
                (end - first).days,
                self.today,
                last=last,
                need_seen=need_seen,
                climate=self.climate,
            )

        usual = built(first)
        wanted = reach_back(self.told, first, self.today)
        if wanted == first:
            return usual
        try:
            longer = built(wanted)
        except (RecordError, ParameterError):
            return usual  # the record does not go back so far; those facts are then not used
        return longer if (longer.seen_days > 0) == (usual.seen_days > 0) else usual

    def calendar(self, last: int | None = DEFAULT_LAST_YEARS) -> CalendarYears:
        """Whole years by calendar day, made ones among them where past years are few."""
        return calendar_years(
            self.weather(), last=last, today=self.today, south=self.site.south, climate=self.climate
        )

    def nights(self, last: int | None = DEFAULT_LAST_YEARS) -> NightFit | None:
        """What told frost tables make of the nights here; None where none is told."""
        if not any(isinstance(entry.fact, FrostTable) for entry in self.told):
            return None
        whole = self.calendar(last)
        return fit_nights(whole, self.told, self.today)


def open_setting(garden: Path, today: date) -> Setting:
    """Open a garden folder for a question asked on a day."""
    return Setting(open_garden(garden), today)


def reach_back(told: Sequence[Told], first: date, today: date) -> date:
    """First day the years must hold for what was told of this season to bear on them."""
    for entry in told:
        fact = entry.fact
        if isinstance(fact, SoilWarmth) and 0 <= (today - fact.last).days <= LONGEST_USE_DAYS:
            first = min(first, fact.first - timedelta(days=SPIN_UP_DAYS))
        elif isinstance(fact, WarmthTotal) and 0 <= (today - fact.since).days <= LONGEST_TOTAL_DAYS:
            first = min(first, fact.since)
    return first


def tells_season(told: Sequence[Told], start: date) -> bool:
    """Whether something told speaks of the weather since a start, so that the record need not."""
    return any(
        (isinstance(entry.fact, WarmthTotal) and entry.fact.until >= start)
        or (isinstance(entry.fact, SoilWarmth) and entry.fact.last >= start)
        for entry in told
    )


def column_of(ground: Ground, day: date) -> int:
    """Column of a date on the ground's day axis."""
    return int((np.datetime64(day, "D") - ground.years.first_day).astype(int))


def check_ahead(day: date, today: date, name: str) -> None:
    """Refuse a date too far ahead to say anything of.

    Raises
    ------
    ParameterError
    """
    if (day - today).days > FARTHEST_AHEAD_DAYS:
        raise ParameterError(
            f"{name} {day.isoformat()} is more than {FARTHEST_AHEAD_DAYS} days after today "
            f"({today.isoformat()}).",
            "Give a nearer date, or set --today.",
        )


def own_sheet(folder: GardenFolder, name: str, variety: str = "") -> Sheet:
    """A crop's sheet by any of its names, with the numbers of the garden's own overrides file over it.

    Parameters
    ----------
    folder : GardenFolder
    name : str
    variety : str
        One the sheet knows, or one the overrides file has numbers for; any other changes nothing.

    Raises
    ------
    UnknownName, InputFileError, GardenError
    """
    sheet = load_sheet(name)
    if variety in sheet.varieties and not sheet.variety:
        sheet = with_form(sheet, "variety", variety)
    whole: list[str] = []
    own: list[str] = []
    overrides = folder.overrides()
    for crop in overrides:
        try:
            meant = find(crop.partition("/")[0])
        except UnknownName as error:
            raise GardenError(f"{OVERRIDES_FILE}: {error.message}", error.hint) from None
        if meant == sheet.key:
            named = crop.partition("/")[2].casefold()
            if not named:
                whole.append(crop)
            elif named == variety.casefold():
                own.append(crop)
    for crop in (*whole, *own):
        sheet = apply_overrides(sheet, overrides[crop], f"{OVERRIDES_FILE}, {crop}")
    return sheet
