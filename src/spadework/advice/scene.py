"""What every kind of job looks at: the garden on a day, its plantings run through the years."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from datetime import date, timedelta
from typing import TYPE_CHECKING

import numpy as np

from spadework.advice.next_night import next_night_c
from spadework.advice.pace import Pace
from spadework.clock.course import Course
from spadework.clock.ground import Ground
from spadework.crops.sheet import Sheet
from spadework.garden.locks import Lock, Stops
from spadework.garden.planting import Planting
from spadework.garden.records import Bed, Placed
from spadework.garden.site import Site
from spadework.garden.state import Garden
from spadework.types import Bools, Floats

if TYPE_CHECKING:
    from spadework.clock.bed_water import BedWater


@dataclass(frozen=True, slots=True, kw_only=True)
class Worth:
    """What a planting is worth when all goes well.

    Parameters
    ----------
    value : float
        Kilograms of carrots that would be worth as much to a kitchen.
    kg : float or None  [kg]
        Expected harvest of the whole planting.
    provenance, source : str
        Of the yield; `grower` where the garden set it.
    """

    value: float
    kg: float | None = None
    provenance: str = "common-practice"
    source: str = ""


@dataclass(frozen=True, kw_only=True, eq=False)
class Plot:
    """One planting that stands today, with its course.

    Parameters
    ----------
    planting : Planting
    sheet : Sheet
        With the garden's own numbers and what it learned.
    course : Course
        Run through the years, with what was seen of it (up, counted, measured).
    column : int
        Today's column on the course's own day axis.
    bed : Bed or None
        None for a tray that stands in no bed.
    plants : float or None
        Plants that stand, as counted or to be expected; None where nothing is known.
    worth : Worth
    locks : tuple of Lock
        In force today on it or its place.
    covers : tuple of Placed
        Kit over it now.
    indoors : bool
        In a tray on a shelf, or in a bed of that shape.
    """

    planting: Planting
    sheet: Sheet
    course: Course
    column: int
    bed: Bed | None
    plants: float | None
    worth: Worth
    locks: tuple[Lock, ...] = ()
    covers: tuple[Placed, ...] = ()
    indoors: bool = False
    name: str = ""

    @property
    def key(self) -> str:
        """Key of the planting."""
        return self.planting.key

    @property
    def bed_key(self) -> str:
        """Key of its bed; empty where it stands in none."""
        return self.planting.bed

    @property
    def where(self) -> str:
        """Its place in words."""
        return self.bed.name if self.bed is not None else self.planting.tray or "its tray"

    def locked(self, stops: Stops) -> bool:
        """Whether a lock in force stops this."""
        return any(lock.stops == stops for lock in self.locks)


@dataclass(frozen=True, kw_only=True, eq=False)
class Scene:
    """The garden on a day.

    Parameters
    ----------
    garden : Garden
        Folded from the book as of today.
    site : Site
    today : date
    ground : Ground
        The garden's usual ground through the years: the forecast first, then each past year.
    column : int
        Today's column on its day axis.
    plots : tuple of Plot
        All that stands today, by bed.
    sheet_of : callable
        A crop's sheet by key, with the garden's own numbers.
    name_of : callable
        A crop's name in the garden's words, by key.
    forecast_days : int
        Days from today for which a forecast is told.
    pace : Pace
        Minutes at this garden's pace.
    water_of : callable
        A bed's water through the years, by bed key; None where nothing grows in it.
    start_anew : callable
        Share of a full crop still to be had by starting it anew so many days from today, shape
        (year, AHEAD_DAYS + 1), by sheet.
    ground_since_midwinter : callable or None
        The usual ground from before midwinter on, for the clocks of insects; None where `ground` reaches back
        so far.
    """

    garden: Garden
    site: Site
    today: date
    ground: Ground
    column: int
    plots: tuple[Plot, ...]
    sheet_of: Callable[[str], Sheet]
    name_of: Callable[[str], str]
    forecast_days: int
    pace: Pace
    water_of: Callable[[str], BedWater | None]
    start_anew: Callable[[Sheet], Floats]
    ground_since_midwinter: Callable[[], Ground] | None = None
    _by_bed: dict[str, tuple[Plot, ...]] = field(default_factory=dict, repr=False)

    def season_ground(self) -> Ground:
        """The garden's usual ground with all the warmth of the season in it."""
        return self.ground if self.ground_since_midwinter is None else self.ground_since_midwinter()

    @property
    def made(self) -> Bools:
        """Which years are made, [year]."""
        return self.ground.years.made

    @property
    def years(self) -> int:
        """How many years are run."""
        return self.ground.years.count

    @property
    def beds(self) -> Mapping[str, Bed]:
        """Beds by key."""
        return self.garden.beds

    def in_bed(self, bed: str) -> tuple[Plot, ...]:
        """What stands in a bed today."""
        if not self._by_bed:
            for plot in self.plots:
                self._by_bed[plot.bed_key] = (*self._by_bed.get(plot.bed_key, ()), plot)
        return self._by_bed.get(bed, ())

    def day(self, ahead: int) -> date:
        """The date so many days from today."""
        return self.today + timedelta(days=ahead)

    def tonight_c(self) -> Floats:
        """Shelter minimum of the coming night, [year]  [degC]."""
        return next_night_c(self.ground.years.tmin_c, self.column, forecast=self.forecast_days > 0)

    def dry_for_days(self, less_than_mm: float = 1.0) -> int:
        """Days up to yesterday with less rain than this, by the record."""
        rain = self.ground.years.rain_mm[0, : self.column]
        wet = np.flatnonzero(rain >= less_than_mm)
        return self.column if wet.size == 0 else self.column - int(wet[-1]) - 1
