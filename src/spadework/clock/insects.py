"""The clocks of insects through the years: when each event of their year comes, and whether the harm is
about.

One season is run, from the midwinter before the last day seen. A ground that begins later has not felt all
the warmth, and its events come out too late; whoever builds it sees to that.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from functools import cached_property
from types import MappingProxyType
from typing import Final

import numpy as np

from spadework.clock.ground import Ground
from spadework.crops.trouble import Event, Told, Trouble
from spadework.science.degree_days import degree_days, next_minimum_c
from spadework.types import Floats

NOTHING_SEEN: Final[Mapping[str, date]] = MappingProxyType({})

GOLDEN: Final = 0.6180339887498949
"""Steps by this share fill 0 to 1 evenly however many years there are."""

STARTS: Final = {"01-01": 1, "03-01": 3, "04-01": 4}
"""Months on whose first day a clock may start, in the north."""

HALF_YEAR: Final = 6

SHORTLY_DAYS: Final = 100
"""A midwinter so near the beginning of days of which none is seen begins the season. Our own rule."""

WARM_SEASON_END: Final = 11
"""Month, in the north, at whose end the last stage without an end of its own is over. Our own rule."""


@dataclass(frozen=True, eq=False)
class Window:
    """When a stage begins and ends.

    Parameters
    ----------
    opens, closes : array, shape (year,)
        Columns of the day axis, with parts of days left out; NaN where it never comes within the days. Where
        it opens and does not close within them, `closes` is the column behind the last.
    """

    opens: Floats
    closes: Floats


def run_events(
    each: Trouble, ground: Ground, *, south: bool, seen: Mapping[str, date] = NOTHING_SEEN
) -> Mapping[str, Window]:
    """When each event of a trouble comes in each year, by the event's key.

    Parameters
    ----------
    each : Trouble
    ground : Ground
        From midwinter on, or a little before.
    south : bool
        Seasons begin half a year on.
    seen : mapping of str to date
        Events seen this season, by key: the clock starts anew from the day it was seen, with what warmth lies
        between the two published totals.

    Notes
    -----
    Where published totals disagree each year draws one of them, evenly over low to high, and the same place
    in the spread for all events of the trouble: early ones stay early. A total belongs to its method, so each
    event is summed as its sheet says.
    """
    run = _Run(each, ground, south, seen)
    return {event.key: run.window(event) for event in each.events}


def present(each: Trouble, ground: Ground, *, south: bool, seen: Mapping[str, date] = NOTHING_SEEN) -> Floats:
    """Share in which a stage that harms is about, [year, day]; 1 where no clock says anything of it.

    Parameters
    ----------
    each, ground, south, seen :
        As for `run_events`.
    """
    shape = ground.years.tmin_c.shape
    if not tells_time(each, seen):
        return np.ones(shape)
    windows = run_events(each, ground, south=south, seen=seen)
    days = np.arange(shape[1], dtype=np.float64)[None, :]
    found = np.zeros(shape)
    for event in each.events:
        if event.harms:
            window = windows[event.key]
            with np.errstate(invalid="ignore"):
                about = (days >= window.opens[:, None]) & (days < window.closes[:, None])
            found = np.maximum(found, about)
    return found


def tells_time(each: Trouble, seen: Mapping[str, date] = NOTHING_SEEN) -> bool:
    """Whether a stage that harms has a clock that runs: one that does not wait for something to be seen."""
    events = {event.key: event for event in each.events}

    def runs(event: Event, depth: int = 0) -> bool:
        if event.key in seen or event.clock in ("season", "trigger"):
            return True
        if event.start == "seen" or depth > len(events):
            return False
        return event.start in STARTS or (event.start in events and runs(events[event.start], depth + 1))

    return any(event.harms and runs(event) for event in each.events)


class _Run:
    """One trouble on one ground."""

    def __init__(self, each: Trouble, ground: Ground, south: bool, seen: Mapping[str, date]) -> None:
        self.ground, self.south = ground, south
        self.events = {event.key: event for event in each.events}
        self.order = tuple(each.events)
        self.rows, self.days = ground.years.tmin_c.shape
        self.place = np.mod((np.arange(self.rows) + 1.0) * GOLDEN, 1.0)
        self.seen = {key: self._column(day) for key, day in seen.items() if key in self.events}
        self._opens: dict[str, Floats] = {}

    # -- days ----------------------------------------------------------------------------------------

    def _column(self, day: date) -> float:
        return float((np.datetime64(day, "D") - self.ground.years.first_day).astype(int))

    def _month(self, northern: int) -> int:
        return (northern - 1 + (HALF_YEAR if self.south else 0)) % 12 + 1

    @cached_property
    def _season(self) -> int:
        """Column of the midwinter before the last day seen; 0 where the axis begins after it."""
        dates = self.ground.dates
        months = dates.astype("datetime64[M]")
        begins = (months.astype(np.int64) % 12 + 1 == self._month(1)) & (
            dates == months.astype("datetime64[D]")
        )
        found = np.flatnonzero(begins)
        # where nothing is seen the axis itself begins shortly before the season
        last = self.ground.years.seen_days or SHORTLY_DAYS
        found = found[found <= last]
        return int(found[-1]) if found.size else 0

    def _first_of(self, month: int, since: int) -> int:
        """Column of the first day of a month at or after a column; the column itself where there is none."""
        dates = self.ground.dates[since:]
        months = dates.astype("datetime64[M]")
        wanted = (months.astype(np.int64) % 12 + 1 == month) & (dates == months.astype("datetime64[D]"))
        return since + int(np.argmax(wanted)) if wanted.any() else since

    def _anchor(self, start: str) -> int:
        month = STARTS[start]
        season = self._season
        # a ground that begins after the start has only what is left of the season
        return season if month == 1 else max(self._first_of(self._month(month), season), season)

    # -- warmth --------------------------------------------------------------------------------------

    def _sum(self, event: Event, start: int) -> Floats:
        """Warmth summed from a column to the end of each day, [year, day]; 0 before."""
        key = (
            "insects",
            event.base_c,
            event.upper_c,
            event.method,
            event.cutoff,
            event.warmth,
            start,
        )

        def run() -> Floats:
            assert event.base_c is not None
            ground = self.ground
            if event.warmth == "soil":
                low = high = ground.soil_mean_c
            else:
                low = ground.years.tmin_c + ground.bed_offset_c
                high = ground.years.tmax_c + ground.bed_offset_c
            later = next_minimum_c(low) if event.method.startswith("double") else None
            if later is not None:
                later[:, -1] = low[:, -1]
            daily = degree_days(low, high, event.base_c, event.upper_c, event.method, event.cutoff, later)
            daily = np.nan_to_num(daily)
            daily[:, :start] = 0.0
            return np.cumsum(daily, axis=-1)

        return self.ground.keep(key, run)

    def _drawn(self, told: Told) -> Floats:
        """One of the published totals for each year."""
        drawn: Floats = told.least + (told.most - told.least) * self.place
        return drawn

    def _reached(self, event: Event, since: Floats, need: Floats) -> Floats:
        """Column on which so much warmth, or so many days, have passed since a column, [year]."""
        if event.clock == "days":
            return since + need
        total = self._sum(event, self._season)
        with np.errstate(invalid="ignore"):
            begin = np.clip(np.nan_to_num(since, nan=0.0), 0, self.days).astype(np.int64)
        before = np.where(begin > 0, total[np.arange(self.rows), np.maximum(begin - 1, 0)], 0.0)
        done = total >= (before + need)[:, None] - 1e-9
        done &= np.arange(self.days)[None, :] >= begin[:, None]
        found = np.where(done.any(axis=1), done.argmax(axis=1), np.nan)
        return np.where(np.isnan(since), np.nan, found)

    # -- events --------------------------------------------------------------------------------------

    def opens(self, event: Event) -> Floats:
        found = self._opens.get(event.key)
        if found is None:
            # a chain that bites its tail never opens
            self._opens[event.key] = np.full(self.rows, np.nan)
            found = self._opens[event.key] = self._open(event)
        return found

    def _open(self, event: Event) -> Floats:
        if event.key in self.seen:
            return np.full(self.rows, max(self.seen[event.key], 0.0))
        if event.clock == "season":
            return np.full(self.rows, float(self._first_of(self._month(event.months[0]), self._season)))
        if event.clock == "trigger":
            return self._triggered(event)
        assert event.total is not None
        own = self._by_own_clock(event)
        before, after = self._neighbours(event)
        if before is not None:
            assert before.total is not None
            more = np.maximum(self._drawn(event.total) - self._drawn(before.total), 0.0)
            own = self._reached(event, np.full(self.rows, self.seen[before.key]), more)
        if after is not None:
            # what comes before something seen has been
            own = np.fmin(own, self.seen[after.key])
        return own

    def _by_own_clock(self, event: Event) -> Floats:
        assert event.total is not None
        if event.start in STARTS:
            since = np.full(self.rows, float(self._anchor(event.start)))
        elif event.start in self.events:
            since = self.opens(self.events[event.start]) + (event.clock == "warmth")
        else:
            return np.full(self.rows, np.nan)  # only a seen event starts it
        return self._reached(event, since, self._drawn(event.total))

    def _neighbours(self, event: Event) -> tuple[Event | None, Event | None]:
        """The last seen event before it and the first after it on the same clock."""
        assert event.total is not None
        same = [
            other
            for key in self.seen
            if (other := self.events[key]).clock == event.clock
            and other.total is not None
            and (other.start, other.base_c, other.method) == (event.start, event.base_c, event.method)
        ]
        total = event.total.value
        before = [each for each in same if each.total is not None and each.total.value <= total]
        after = [each for each in same if each.total is not None and each.total.value > total]
        return (
            max(before, key=lambda each: (self.seen[each.key], each.key), default=None),
            min(after, key=lambda each: (self.seen[each.key], each.key), default=None),
        )

    def _triggered(self, event: Event) -> Floats:
        assert event.base_c is not None
        ground, over = self.ground, max(event.over_days, 1)
        mean = ground.soil_mean_c if event.warmth == "soil" else ground.air_mean_c
        start = self._anchor(event.start) if event.start in STARTS else self._season
        total = np.cumsum(np.nan_to_num(mean), axis=-1)
        trailing = total.copy()
        trailing[:, over:] -= total[:, :-over]
        warm = trailing / np.minimum(np.arange(1, self.days + 1), over) >= event.base_c
        warm[:, : min(start + over - 1, self.days)] = False
        if event.start in self.events:
            since = self.opens(self.events[event.start])
            with np.errstate(invalid="ignore"):
                warm &= np.arange(self.days)[None, :] >= since[:, None]
        return np.where(warm.any(axis=1), warm.argmax(axis=1).astype(np.float64), np.nan)

    def window(self, event: Event) -> Window:
        opens = self.opens(event)
        opened = np.where(opens >= self.days, np.nan, opens)
        return Window(opened, np.where(np.isnan(opened), np.nan, np.fmax(self._closes(event, opens), opened)))

    def _closes(self, event: Event, opens: Floats) -> Floats:
        end = np.full(self.rows, float(self.days))
        if event.clock == "season":
            last = self._month(event.months[1] % 12 + 1)
            after = self._first_of(last, int(opens[0]) + 1)
            return end if after == int(opens[0]) + 1 else np.full(self.rows, float(after))
        if event.lasts is not None:
            found = self._lasted(event, opens, event.lasts)
        else:
            later = [self.opens(other) for other in self._after(event)]
            if later:
                with np.errstate(invalid="ignore"):
                    comes = np.stack([np.where(each > opens, each, np.nan) for each in later])
                found = np.fmin.reduce(comes, axis=0)
            else:
                found = end
            after = self._first_of(self._month(WARM_SEASON_END + 1), self._season)
            if after > self._season:
                found = np.fmin(found, float(after))
        return np.where(np.isnan(found), end, np.fmin(found, end))

    def _lasted(self, event: Event, opens: Floats, lasts: Told) -> Floats:
        """When a stage that lasts so much warmth, or so many days where it has no base, is over."""
        if event.base_c is None or event.clock in ("days", "trigger"):
            return opens + self._drawn(lasts)
        return self._reached(event, opens + 1.0, self._drawn(lasts))

    def _after(self, event: Event) -> list[Event]:
        """The events behind it in the sheet."""
        at = self.order.index(event)
        return list(self.order[at + 1 :])
