"""What every question needs: the garden, its record, and the ground through the years."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from pathlib import Path

import numpy as np

from spadework.clock.ground import SPIN_UP_DAYS, Ground
from spadework.crops.loader import load_sheet
from spadework.crops.names import find
from spadework.crops.overrides import apply_overrides
from spadework.crops.sheet import Sheet
from spadework.errors import GardenError, ParameterError, UnknownName
from spadework.garden.site import Site
from spadework.store.garden_folder import OVERRIDES_FILE, GardenFolder, open_garden
from spadework.weather.years import Years, build_years

FARTHEST_AHEAD_DAYS = 400
"""How far ahead of today a date may lie: a season planned a year on."""

DEFAULT_LAST_YEARS = 30
"""Past years run by default: the last thirty, since older ones were colder (measured on long records)."""


@dataclass(frozen=True)
class Setting:
    """A garden opened for one question.

    Parameters
    ----------
    folder : GardenFolder
    today : date
        The day of asking; nothing later than it is taken as seen.
    """

    folder: GardenFolder
    today: date

    @property
    def site(self) -> Site:
        """Where the garden is."""
        return self.folder.site

    def sheet(self, name: str) -> Sheet:
        """A crop's sheet by any of its names, with the garden's own numbers over it."""
        return own_sheet(self.folder, name)

    def ground(
        self, start: date, days: int, *, last: int | None = DEFAULT_LAST_YEARS
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

        Returns
        -------
        ground : Ground
        notes : list of str
            What is to be said about the years.
        """
        first = min(start, self.today) - timedelta(days=SPIN_UP_DAYS)
        length = (start - first).days + days
        years = build_years(
            self.folder.weather(), first, length, self.today, last=last, need_seen=start < self.today
        )
        return Ground(self.site, years, self.site.surface), _notes(years)


def _notes(years: Years) -> list[str]:
    return [years.note] if years.note else []


def open_setting(garden: Path, today: date) -> Setting:
    """Open a garden folder for a question asked on a day."""
    return Setting(open_garden(garden), today)


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


def own_sheet(folder: GardenFolder, name: str) -> Sheet:
    """A crop's sheet by any of its names, with the numbers of the garden's own overrides file over it.

    Raises
    ------
    UnknownName, InputFileError, GardenError
    """
    sheet = load_sheet(name)
    for crop, values in folder.overrides().items():
        try:
            meant = find(crop.partition("/")[0])
        except UnknownName as error:
            raise GardenError(f"{OVERRIDES_FILE}: {error.message}", error.hint) from None
        if "/" not in crop and meant == sheet.key:
            sheet = apply_overrides(sheet, values, f"{OVERRIDES_FILE}, {crop}")
    return sheet
