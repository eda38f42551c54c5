"""The made weather as the demo's growers lived through it: days that were, and the clock run on them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date, timedelta
from typing import Final

import numpy as np

from spadework.clock.course import Course, set_out, sow
from spadework.clock.ground import Ground
from spadework.clock.sprout import Sowing
from spadework.crops.sheet import Sheet
from spadework.garden.site import Site
from spadework.types import Floats, Ints
from spadework.usecases.demo.luck import Luck
from spadework.weather.series import Series
from spadework.weather.years import build_years

ONE_DAY: Final = timedelta(days=1)
WARMER_C: Final = {"tunnel-west": 4.0, "tunnel-east": 4.0, "frame": 3.0}
"""How much warmer the days are under this garden's glass and film [degC]. Invented, as the garden is."""

FLEECE_NIGHT_C: Final = 1.5
"""Gain of a night under fleece, as `clock.cover.FLEECE` has it [degC]."""

_SATURDAY = 5
_WEDNESDAY = 2
WET_MM: Final = 8.0
"""A day with more rain than this is no day for garden work."""


@dataclass(frozen=True, eq=False)
class Seen:
    """The days that were, from a first to the last known.

    Parameters
    ----------
    ground : Ground
        One row: the weather as it was.
    first, last : date
    """

    ground: Ground
    first: date
    last: date

    def column(self, day: date) -> int:
        """Column of a day."""
        return (day - self.first).days

    def day(self, column: int) -> date | None:
        """The day of a column; None where it has not come yet."""
        return self.first + timedelta(days=column) if 0 <= column < self.ground.years.days else None

    def tmin_c(self, day: date) -> float:
        """The night's minimum.  [degC]"""
        return float(self.ground.years.tmin_c[0, self.column(day)])

    def tmax_c(self, day: date) -> float:
        """The day's maximum.  [degC]"""
        return float(self.ground.years.tmax_c[0, self.column(day)])

    def rain_mm(self, day: date) -> float:
        """The day's rain.  [mm]"""
        return float(self.ground.years.rain_mm[0, self.column(day)])

    def soil_c(self, day: date) -> float:
        """The day's mean at 5 cm.  [degC]"""
        return float(self.ground.soil_mean_c[0, self.column(day)])

    def et0_mm(self, day: date) -> float:
        """Water a green field would have used.  [mm]"""
        return float(self.ground.et0_mm[0, self.column(day)])

    def has(self, day: date) -> bool:
        """Whether a day lies within what was seen."""
        return self.first <= day <= self.last

    def days(self, first: date, last: date) -> Iterator[date]:
        """Days from one to another, as far as they were seen."""
        day, last = max(first, self.first), min(last, self.last)
        while day <= last:
            yield day
            day += ONE_DAY

    def working_day(self, first: date, spread: int, luck: Luck) -> date | None:
        """A day on which somebody is in the garden: a dry weekend or class day, else the last of the spread.

        None where that has not come yet: what is decided never hangs on a day not yet seen.
        """
        for day in self.days(first, first + timedelta(days=spread)):
            if (day - first).days == spread:
                return day
            usual = day.weekday() >= _SATURDAY or (
                day.weekday() == _WEDNESDAY and luck.at("class", day).random() < 0.7
            )
            if usual and self.rain_mm(day) <= WET_MM:
                return day
        return None

    def warm_enough(self, bed: str, day: date, soil_c: float | None, nights_c: float | None) -> bool:
        """Whether the last three days were warm enough in a bed to sow or set out."""
        if not self.has(day - 3 * ONE_DAY) or not self.has(day):
            return False
        last = [day - count * ONE_DAY for count in (1, 2, 3)]
        warmer_c = WARMER_C.get(bed, 0.0)
        return (soil_c is None or min(map(self.soil_c, last)) + warmer_c >= soil_c) and (
            nights_c is None or min(map(self.tmin_c, last)) + warmer_c >= nights_c
        )

    def under(self, bed: str) -> Ground:
        """The ground of a bed: under glass and film it is warmer."""
        warmer_c = WARMER_C.get(bed, 0.0)
        if not warmer_c:
            return self.ground
        years = self.ground.years
        return replace(
            self.ground,
            years=replace(years, tmin_c=years.tmin_c + warmer_c, tmax_c=years.tmax_c + warmer_c),
            _kept={},
        )

    def run(self, sheet: Sheet, bed: str, day: date, *, planted: bool, shelter_c: float) -> Course:
        """A planting's course through the days that were, with what keeps frost off it."""
        ground = self.under(bed)
        if planted:
            return set_out(sheet, ground, self.column(day), site_offset_c=shelter_c)
        return sow(sheet, ground, Sowing(self.column(day)), site_offset_c=shelter_c)


def first_above(values: Floats, level: float, since: int = 0) -> int:
    """First column from one on at which a row of values reaches a level; past the end where it never does."""
    reached: Ints = np.flatnonzero(values[0, since:] >= level)
    return since + int(reached[0]) if reached.size else int(values.shape[1])


def seen_days(series: Series, site: Site, first: date, last: date) -> Seen:
    """The days of a record from a first to a last one."""
    years = build_years(series, first, (last - first).days + 1, last)
    return Seen(Ground(site, years, site.surface), first, last)
