"""What may come to what stands: insects by their clocks, diseases by the weather, animals by tender stage.

Only what stands counts, and only on days on which it is at an age that is harmed. A cover that keeps a
trouble out takes it off the list, unless it was seen under it.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final
from weakref import WeakKeyDictionary

import numpy as np

from spadework.advice.ages import ages_ahead, at_age
from spadework.advice.guarding import KEEPS_OFF
from spadework.advice.keeps_out import may_keep_out
from spadework.advice.scene import Plot, Scene
from spadework.advice.sightings import Sighting, events_seen, last_looked, last_seen, sightings
from spadework.clock.ground import Ground
from spadework.clock.infection import risk_days
from spadework.clock.insects import Window, present, run_events, tells_time
from spadework.crops.trouble import Age, Event, Trouble, TroubleKind
from spadework.crops.troubles import POOR_HOST, at_home, hosted_by, troubles_of
from spadework.types import Bools, Floats

STILL_DAYS: Final = 14
"""Days for which what was seen is taken to be about still. Our own rule."""

LOOK_BACK_DAYS: Final = 14
"""Days of past infection weather that still count. Our own rule: most spots show within a fortnight."""

GOOD_HOST: Final = 1.0
"""Poor hosts are watched only where the trouble was seen this season."""

ROOFS: Final = ("tunnel", "frame", "shelf")
WITHOUT_RAIN: Final = ("powdery-mildew", "grey-mould", "damping-off")
"""Rules whose diseases come under a roof as well. Source: common-practice."""

NEWS_BACK_DAYS: Final = 14
NEWS_AHEAD_DAYS: Final = 7
"""What began so lately, or begins so soon, is news. Our own rule."""

MEETS: Final = 0.5
"""How far a day meets an infection rule from which it is called infection weather. Our own rule."""

ALERT_DAYS: Final = 3.0
"""Days of infection weather that make a disease as likely as it is in a usual season. Our own rule."""

LEAST: Final = 0.1
"""Chance to come within the days looked at below which nothing is listed. Our own rule."""

TENDER_DAYS: Final = 21
"""Days from coming up for which plants are tender, where a sheet of an animal does not say. Source:
common-practice."""

COMMON_ANIMAL: Final = 0.2
"""Share of plantings that an animal takes from in a usual season, from which it is watched for unseen. Our
own rule."""

WARM_SEASON: Final = "warm"
RIPE: Final[tuple[Age, ...]] = ("ripe",)


@dataclass(frozen=True, kw_only=True, eq=False)
class Coming:
    """One trouble that may come to one planting or more.

    Parameters
    ----------
    trouble : Trouble
    plots : tuple of Plot
        What it may harm, in order of the beds.
    meets : mapping of str to array, shape (year, day)
        Share in which it can harm each of them on today and the days after, by key of planting.
    windows : mapping of str to Window
        Of an insect's events, in days from today; below zero where they have been.
    alerts : tuple of date
        Past days of infection weather.
    seen_on, looked_on : date or None
        Last found anywhere in the garden; last looked for.
    """

    trouble: Trouble
    plots: tuple[Plot, ...]
    meets: Mapping[str, Floats]
    windows: Mapping[str, Window]
    alerts: tuple[date, ...] = ()
    seen_on: date | None = None
    looked_on: date | None = None

    @property
    def chance(self) -> Floats:
        """Share in which it can harm any of them, [year, day]."""
        found: Floats = np.max(np.stack(list(self.meets.values())), axis=0)
        return found

    def first_day(self) -> int | None:
        """Days from today until it can harm something in half of the years; None where it never does."""
        by_day = np.maximum.accumulate(self.chance, axis=1).mean(axis=0)
        return int(np.argmax(by_day >= MEETS)) if by_day[-1] >= MEETS else None

    def is_news(self, today: date) -> bool:
        """Whether it has just come or is about to, was seen lately, or its infection weather has been."""
        if self.alerts or (self.seen_on is not None and (today - self.seen_on).days <= STILL_DAYS):
            return True
        return any(
            -NEWS_BACK_DAYS <= float(np.nanmedian(self.windows[event.key].opens)) <= NEWS_AHEAD_DAYS
            for event in self.trouble.events
            if (event.harms or event.lays) and np.mean(~np.isnan(self.windows[event.key].opens)) >= MEETS
        )

    def flies_within(self, days: int) -> Floats:
        """Whether a stage that lays, or flies in to eat, begins from tomorrow to so many days on, [year]."""
        found = np.zeros(1, dtype=np.bool_)
        for event in self.trouble.events:
            if event.lays or (event.harms and event.stage == "adult"):
                opens = self.windows[event.key].opens if event.key in self.windows else np.full(1, np.nan)
                with np.errstate(invalid="ignore"):
                    found = found | ((opens > 0.0) & (opens <= days))
        return found.astype(np.float64)

    def next_event(self) -> tuple[Event, Window] | None:
        """The event to watch for: the first to come that harms or lays, else the last that has come."""
        told = [event for event in self.trouble.events if event.harms or event.lays]
        soon: list[tuple[float, Event]] = []
        been: list[tuple[float, Event]] = []
        for event in told:
            opens, closes = self.windows[event.key].opens, self.windows[event.key].closes
            if np.isnan(opens).all() or np.mean(~np.isnan(opens)) < LEAST:
                continue
            when = float(np.nanmedian(opens))
            if when > 0.0:
                soon.append((when, event))
            elif float(np.nanmedian(closes)) > 0.0:
                been.append((when, event))
        if been:
            event = max(been, key=lambda each: each[0])[1]
        elif soon:
            event = min(soon, key=lambda each: each[0])[1]
        else:
            return None
        return event, self.windows[event.key]


_FOUND: WeakKeyDictionary[Scene, dict[tuple[int, bool, bool], tuple[Coming, ...]]] = WeakKeyDictionary()


def coming(scene: Scene, days: int, *, animals: bool = False, bare: bool = False) -> tuple[Coming, ...]:
    """What may come to what stands on today and so many days after it, by key of trouble.

    Parameters
    ----------
    scene : Scene
    days : int
    animals : bool
        Birds and beasts too; the guards of the round have their own eyes for them.
    bare : bool
        As if no cover lay anywhere.
    """
    kept = _FOUND.setdefault(scene, {})
    asked = (days, animals, bare)
    if asked not in kept:
        kept[asked] = tuple(_Watch(scene, days, animals=animals, bare=bare).found())
    return kept[asked]


def seen_this_season(scene: Scene) -> tuple[Sighting, ...]:
    """Troubles seen or looked for since midwinter."""
    return sightings(scene.garden, season_start(scene), scene.today)


def season_start(scene: Scene) -> date:
    """The midwinter before today."""
    month = 7 if scene.site.south else 1
    start = date(scene.today.year, month, 1)
    return start if start <= scene.today else date(scene.today.year - 1, month, 1)


class _Watch:
    def __init__(self, scene: Scene, days: int, *, animals: bool, bare: bool) -> None:
        self.scene, self.days, self.bare = scene, days, bare
        self.kinds: tuple[TroubleKind, ...] = ("insect", "disease", *(("animal",) if animals else ()))
        self.seen = seen_this_season(scene)
        self.plots = [plot for plot in scene.plots if plot.bed is not None and not plot.indoors]
        self._ages = {plot.key: ages_ahead(plot, days) for plot in self.plots}

    def found(self) -> Iterator[Coming]:
        if not self.plots:
            return
        hosts_of = {name for plot in self.plots for name in (plot.sheet.key, f"family {plot.sheet.family}")}
        for each in troubles_of(self.kinds, hosts_of):
            seen = last_seen(self.seen, each.key)
            if not seen and not at_home(each, self.scene.site.land):
                continue
            least = POOR_HOST if seen else GOOD_HOST
            hosts = [
                plot
                for plot in self.plots
                if hosted_by(each, plot.sheet.key, plot.sheet.family) >= least and not self._dry(each, plot)
            ]
            if not hosts:
                continue
            found = self._one(each, hosts)
            if found is not None and _likely(found):
                yield found

    # -- days ----------------------------------------------------------------------------------------

    def _harmed(self, each: Trouble, plot: Plot) -> Bools:
        """Whether a planting is at an age the trouble harms, [year, day]."""
        return at_age(self._ages[plot.key], each.ages)

    def _one(self, each: Trouble, hosts: list[Plot]) -> Coming | None:
        seen_on = last_seen(self.seen, each.key)
        windows: Mapping[str, Window] = {}
        alerts: tuple[date, ...] = ()
        if each.kind == "animal":
            about = self._always()
        elif each.kind == "insect":
            clock = self._insect(each)
            if clock is None:
                return None
            about, windows = clock
        elif each.rule:
            about, alerts = self._weather(each, hosts)
        else:
            about = np.zeros_like(self._always())
        if seen_on is not None:
            left = STILL_DAYS - (self.scene.today - seen_on).days
            about = about.copy()
            about[:, : max(left + 1, 0)] = 1.0
        meets = {}
        for plot in hosts:
            if self._kept_out(each, plot):
                continue
            harmed = self._harmed(each, plot)
            if each.kind == "animal":
                harmed = harmed & self._tender(each, plot)
            if harmed.any():
                meets[plot.key] = about * harmed
        if not meets:
            return None
        return Coming(
            trouble=each,
            plots=tuple(plot for plot in hosts if plot.key in meets),
            meets=meets,
            windows=windows,
            alerts=alerts,
            seen_on=seen_on,
            looked_on=last_looked(self.seen, each.key, ""),
        )

    def _dry(self, each: Trouble, plot: Plot) -> bool:
        """Whether it stands under a roof, and the disease needs leaves wet with rain or dew."""
        bed = plot.bed
        holder = self.scene.beds.get(bed.inside) if bed is not None and bed.inside else bed
        roofed = holder is not None and holder.shape in ROOFS
        return each.kind == "disease" and roofed and each.rule not in ("", *WITHOUT_RAIN)

    def _always(self) -> Floats:
        return np.ones((self.scene.years, self.days + 1))

    def _insect(self, each: Trouble) -> tuple[Floats, Mapping[str, Window]] | None:
        """Where a stage that harms is about; None where nothing tells when, and none was seen."""
        south = self.scene.site.south
        events = events_seen(self.seen, each.key)
        if not tells_time(each, events):
            return (np.zeros_like(self._always()), {}) if last_seen(self.seen, each.key) else None
        ground = self.scene.season_ground()
        column = _column(ground, self.scene.today)
        about = _span(present(each, ground, south=south, seen=events), column, self.days)
        windows = {
            key: Window(window.opens - column, window.closes - column)
            for key, window in run_events(each, ground, south=south, seen=events).items()
        }
        return _like(about, self.scene.years), windows

    def _weather(self, each: Trouble, hosts: list[Plot]) -> tuple[Floats, tuple[date, ...]]:
        """Days of infection weather ahead, and those of the last fortnight."""
        ground, column = self.scene.ground, self.scene.column
        back = min(LOOK_BACK_DAYS, column)
        warm = any(plot.sheet.season == WARM_SEASON for plot in hosts)
        last = min(column + self.days + 1, ground.years.days)
        risk = risk_days(each.rule, ground, column - back, last, warm_crop=warm) >= MEETS
        past = np.flatnonzero(risk[:, :back].mean(axis=0) >= MEETS)
        alerts = tuple(self.scene.today - timedelta(days=back - int(day)) for day in past)
        return _span(risk.astype(np.float64), back, self.days), alerts

    def _tender(self, each: Trouble, plot: Plot) -> Bools:
        """Whether a planting is within an animal's tender days, or hangs ripe for it."""
        days = TENDER_DAYS if each.tender_days is None else each.tender_days.value
        age = plot.column + np.arange(self.days + 1)[None, :] - plot.course.begin_day[:, None]
        tender: Bools = age <= days
        if "ripe" in each.ages and "fruit" in each.parts:
            tender = tender | at_age(self._ages[plot.key], RIPE)
        return tender

    def _kept_out(self, each: Trouble, plot: Plot) -> bool:
        """Whether a cover lies over it that keeps the trouble out, and none was seen there since."""
        if each.kind == "disease" or self.bare:
            return False
        kit = self.scene.garden.kit
        shut = [
            placed
            for placed in plot.covers
            if not placed.opened
            and (
                may_keep_out(kit[placed.item], each)
                if each.kind == "insect"
                else kit[placed.item].sort in KEEPS_OFF
            )
        ]
        if not shut:
            return False
        seen_on = last_seen(self.seen, each.key, plot.bed_key)
        return seen_on is None or seen_on < max(placed.since for placed in shut)


def _likely(found: Coming) -> bool:
    """Whether it is worth a line: likely enough to come, or infection weather has been."""
    if found.trouble.kind == "animal" and found.seen_on is None:
        common = found.trouble.usual.value >= COMMON_ANIMAL
        return common and float(found.chance.max(axis=1).mean()) >= MEETS
    return bool(found.alerts) or float(found.chance.max(axis=1).mean()) >= LEAST


def _column(ground: Ground, day: date) -> int:
    return int((np.datetime64(day, "D") - ground.years.first_day).astype(int))


def _span(by_day: Floats, column: int, days: int) -> Floats:
    """Today's column and so many after it, the last repeated where the days end."""
    columns = np.clip(column + np.arange(days + 1), 0, by_day.shape[1] - 1)
    found: Floats = by_day[:, columns]
    return found


def _like(by_day: Floats, years: int) -> Floats:
    """The same for as many years as are run; the mean of all where another number was."""
    if by_day.shape[0] == years:
        return by_day
    return np.repeat(by_day.mean(axis=0, keepdims=True), years, axis=0)
