"""Small gardens on a day, for tests of the kinds of jobs: an invented book, invented weather, real clocks."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from datetime import date, timedelta
from pathlib import Path
from types import SimpleNamespace
from typing import Any, cast

import numpy as np

from book_entries import entry
from grounds import years_of
from spadework.advice.job import Job
from spadework.advice.scene import Scene
from spadework.clock.ground import SPIN_UP_DAYS, Ground
from spadework.crops.forms import with_form
from spadework.crops.loader import load_sheet
from spadework.crops.sheet import Sheet
from spadework.garden import entries as kinds
from spadework.garden.entries import Entry, Payload
from spadework.garden.fold import fold
from spadework.garden.site import Site
from spadework.usecases.scene import build_scene
from spadework.usecases.setting import Setting

PLACE = Site("Invented plot", 50.0, 10.0, 100.0)
YEARS = 12


@dataclass
class Weather:
    """Invented weather: the seasons' wave, a spread of years after today, rain every so many days.

    Days up to today are the same in every year; what is put into `low_c`, `high_c` and `rain_mm` by date goes
    before the rest in all years.
    """

    mean_c: float = 9.0
    swing_c: float = 10.0
    half_range_c: float = 6.0
    spread_c: float = 2.0
    rain_every: int = 6
    rain_of_mm: float = 6.0
    low_c: dict[date, float] = field(default_factory=dict)
    high_c: dict[date, float] = field(default_factory=dict)
    rain_mm: dict[date, float] = field(default_factory=dict)
    wind_m_s: dict[date, float] = field(default_factory=dict)

    def ground(self, first: date, days: int, today: date, site: Site) -> Ground:
        """The place from a day on."""
        dates = [first + timedelta(days=day) for day in range(days)]
        doy = np.array([each.timetuple().tm_yday for each in dates], dtype=np.float64)
        mean = self.mean_c - self.swing_c * np.cos(2.0 * np.pi * (doy - 20.0) / 365.25)
        chance = np.random.default_rng(1)
        own = chance.normal(0.0, self.spread_c, (YEARS, 1)) + chance.normal(0.0, self.spread_c, (YEARS, days))
        wet = (np.arange(days)[None, :] + np.arange(YEARS)[:, None]) % max(self.rain_every, 1) == 0
        seen = np.array([each <= today for each in dates])
        own[:, seen] = 0.0
        wet[:, seen] = wet[0, seen]
        if self.rain_every == 0:
            wet[:] = False
        low, high = mean + own - self.half_range_c, mean + own + self.half_range_c
        rain = np.where(wet, self.rain_of_mm, 0.0)
        for row, told in ((low, self.low_c), (high, self.high_c), (rain, self.rain_mm)):
            for day, value in told.items():
                if first <= day <= dates[-1]:
                    row[:, (day - first).days] = value
        years = years_of(np.minimum(low, high), high, rain_mm=rain, first_day=first.isoformat())
        if self.wind_m_s:
            wind = np.array([self.wind_m_s.get(each, 3.0) for each in dates])
            years = replace(years, wind_m_s=np.broadcast_to(wind, low.shape).copy())
        return Ground(site, years, "bare-moist")


class _Place:
    """Stands where a garden folder's setting stands."""

    told = ()

    def __init__(self, today: date, weather: Weather, site: Site) -> None:
        self.today, self.weather, self.site = today, weather, site
        # a folder of its own for every scene: nothing is kept from one to the next
        self.folder = SimpleNamespace(
            path=Path(str(id(weather))), digest=lambda _: (repr(weather), repr(site))
        )

    def bed_offset_c(self, _: str) -> float:
        return 0.0

    def sheet(self, name: str, *, variety: str = "", bed: str = "") -> Sheet:
        del bed
        sheet = load_sheet(name)
        return with_form(sheet, "variety", variety) if variety in sheet.varieties else sheet

    def ground(
        self, start: date, days: int, *, bed: str = "", need_seen: bool = True
    ) -> tuple[Ground, list[str]]:
        del bed, need_seen
        first = min(start, self.today) - timedelta(days=SPIN_UP_DAYS)
        span = (start - first).days + days
        return self.weather.ground(first, span, self.today, self.site), []


def said(act: Payload, on: str | date, *, bed: str = "", planting: str = "", **more: Any) -> Entry:
    """An entry on a day."""
    day = date.fromisoformat(on) if isinstance(on, str) else on
    named = planting or getattr(act, "planting", "")
    return entry(act, happened_on=day, bed=bed, planting=named, **more)


def bed(key: str = "bed-1", name: str = "Bed 1", **more: Any) -> Entry:
    """A bed that was always there."""
    return said(kinds.BedSet(name=name, **more), "2020-01-01", bed=key)


def scene_of(
    entries: list[Entry], today: str | date, weather: Weather | None = None, site: Site = PLACE
) -> Scene:
    """The garden these entries tell, on a day."""
    day = date.fromisoformat(today) if isinstance(today, str) else today
    place = cast(Setting, _Place(day, weather or Weather(), site))
    return build_scene(place, fold(entries, day=day))


def only(jobs: Any) -> Job:
    """The one job there is."""
    found = list(jobs)
    assert len(found) == 1, [job.id for job in found]
    return cast(Job, found[0])
