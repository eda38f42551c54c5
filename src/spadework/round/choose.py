"""Which tasks to do in the minutes there are, and in which order to walk past their beds.

The walk begins and ends at one place. Tasks are put in one by one where they bring most for the minutes they
take, the walk is shortened by turning stretches of it round, and parts of it are taken out and put in anew a
fixed number of times. The same tasks always give the same walk.

Source: METHODS of orienteering; measured against an exact solver in tests/unit/round/test_choose_oracle.py.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from random import Random
from typing import Final

import numpy as np

from spadework.types import Bools, Floats

RUINS: Final = 60
"""Times a part of the walk is taken out and put in anew. Measured on 48 drawn cases: four times as many gain
0.1 % in the mean and 2 % at most."""

RUIN_SHARE: Final = 0.4
"""Share of the beds that go each time."""

_SLACK: Final = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class Task:
    """Something to do at a place.

    Parameters
    ----------
    id : str
    place : int
        Row of the distance table.
    minutes : float  [min]
        For who does it alone.
    value : float
        What doing it today saves; zero or more.
    hours : tuple of (float, float)  [min]
        Stretches of time from the start of the walk within which it must be begun and ended; empty for any.
    settles : str
        Of tasks that settle the same thing at most one is done; empty for none.
    people : tuple of int or None
        Who may do it, by number; None for all.
    own_minutes : tuple of float  [min]
        For each person, where they differ; empty where everybody takes `minutes`.
    """

    id: str
    place: int
    minutes: float
    value: float
    hours: tuple[tuple[float, float], ...] = ()
    settles: str = ""
    people: tuple[int, ...] | None = None
    own_minutes: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Stop:
    """A stay at a place: tasks in order, each with the minute it is begun."""

    place: int
    tasks: tuple[str, ...]
    begins: tuple[float, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Walk:
    """The walk of one person."""

    stops: tuple[Stop, ...]
    minutes: float
    walking: float
    value: float


def choose(
    tasks: Sequence[Task],
    distance_min: Floats,
    budgets: Sequence[float],
    *,
    start: int = 0,
    ruins: int = RUINS,
    seed: int = 1,
) -> tuple[Walk, ...]:
    """The walks that save most, one for each person.

    Parameters
    ----------
    tasks : sequence of Task
    distance_min : array, shape (place, place)  [min]
        Walking between places, changing beds included; zero on the diagonal, symmetric.
    budgets : sequence of float  [min]
        Minutes of each person, walking and waiting included.
    start : int
        Place where walks begin and end.
    ruins : int
    seed : int

    Returns
    -------
    tuple of Walk
        In the order of `budgets`. No walk takes more minutes than its budget.
    """
    luck = Random(seed)
    best = _Plan(tasks, distance_min, budgets, start)
    best.fill()
    best.shorten()
    best.fill()
    for _ in range(ruins if best.partial else 0):
        plan = best.copy()
        plan.ruin(luck)
        plan.shorten()
        plan.fill(luck)
        plan.shorten()
        plan.fill()
        if plan.worth > best.worth + _SLACK or (
            plan.worth > best.worth - _SLACK and plan.minutes < best.minutes - _SLACK
        ):
            best = plan
    return best.walks()


class _Plan:
    """Walks in the making: for each person the places in order, and what is done at each."""

    def __init__(self, tasks: Sequence[Task], distance: Floats, budgets: Sequence[float], start: int) -> None:
        self.tasks, self.distance, self.budgets, self.start = tuple(tasks), distance, tuple(budgets), start
        self.place = np.array([task.place for task in tasks], dtype=np.int64)
        self.service = np.array(
            [
                [task.own_minutes[who] if task.own_minutes else task.minutes for task in tasks]
                for who in range(len(budgets))
            ],
            dtype=np.float64,
        ).reshape(len(budgets), len(tasks))
        self.value = np.array([task.value for task in tasks], dtype=np.float64)
        self.tours: list[list[int]] = [[] for _ in budgets]
        self.done: list[dict[int, list[int]]] = [{} for _ in budgets]
        self.used = np.zeros(len(tasks), dtype=np.bool_)
        self.timed = any(task.hours for task in tasks)
        self.may = np.array(
            [[task.people is None or who in task.people for task in tasks] for who in range(len(budgets))],
            dtype=np.bool_,
        ).reshape(len(budgets), len(tasks))
        self.settled: set[str] = set()

    def copy(self) -> _Plan:
        other = _Plan.__new__(_Plan)
        other.__dict__.update(self.__dict__)
        other.tours = [list(tour) for tour in self.tours]
        other.done = [{place: list(tasks) for place, tasks in done.items()} for done in self.done]
        other.used = self.used.copy()
        other.settled = set(self.settled)
        return other

    @property
    def worth(self) -> float:
        return float(self.value[self.used].sum())

    @property
    def minutes(self) -> float:
        return sum(self.taken(who) for who in range(len(self.budgets)))

    @property
    def partial(self) -> bool:
        """Whether something that is worth doing is left out."""
        return bool((~self.used & (self.value > 0.0)).any())

    def walking(self, tour: Sequence[int]) -> float:
        if not tour:
            return 0.0
        path = [self.start, *tour, self.start]
        return float(self.distance[path[:-1], path[1:]].sum())

    def taken(self, who: int) -> float:
        """Minutes of one person, waiting for the right hour included."""
        if self.timed:
            times = self.schedule(who, self.tours[who], self.done[who])
            assert times is not None
            return times[1]
        here = [task for tasks in self.done[who].values() for task in tasks]
        return self.walking(self.tours[who]) + float(self.service[who, here].sum())

    # -- filling -------------------------------------------------------------------------------------

    def fill(self, luck: Random | None = None) -> None:
        """Put in what brings most for its minutes until nothing more fits."""
        noise = (
            np.ones(len(self.tasks))
            if luck is None
            else np.array([luck.uniform(0.7, 1.3) for _ in self.tasks])
        )
        shut = np.zeros((len(self.budgets), len(self.tasks)), dtype=np.bool_)
        while True:
            best = self._best(noise, shut)
            if best is None:
                return
            who, task, at = best
            if not self._put(who, task, at):
                shut[who, task] = True

    def _open(self) -> Bools:
        free = ~self.used & (self.value > 0.0)
        if self.settled:
            free &= np.array([task.settles not in self.settled for task in self.tasks])
        return free

    def _best(self, noise: Floats, shut: Bools) -> tuple[int, int, int] | None:
        found: tuple[float, int, int, int] | None = None
        free = self._open()
        for who, budget in enumerate(self.budgets):
            extra, at = self._detours(who)
            cost = self.service[who] + extra[self.place]
            left = budget - self.taken(who)
            fits = free & self.may[who] & ~shut[who] & (cost <= left + _SLACK)
            if not fits.any():
                continue
            gain = np.where(fits, self.value * noise / np.maximum(cost, 1e-6), -np.inf)
            task = int(np.argmax(gain))
            if found is None or gain[task] > found[0]:
                found = (float(gain[task]), who, task, int(at[self.place[task]]))
        return None if found is None else found[1:]

    def _detours(self, who: int) -> tuple[Floats, Floats]:
        """Minutes more to pass by each place, and where in the walk it goes in; -1 where it is passed."""
        tour = self.tours[who]
        if not tour:
            there: Floats = 2.0 * self.distance[self.start]
            return there, np.zeros(there.size)
        path = np.array([self.start, *tour, self.start])
        before, after = path[:-1], path[1:]
        more = self.distance[:, before] + self.distance[:, after] - self.distance[before, after]
        at = more.argmin(axis=1).astype(np.float64)
        extra = more.min(axis=1)
        extra[tour], at[tour] = 0.0, -1.0
        return extra, at

    def _put(self, who: int, task: int, at: int) -> bool:
        place = int(self.place[task])
        tour, done = self.tours[who], self.done[who]
        if not self.timed:
            if at >= 0:
                tour.insert(at, place)
            done.setdefault(place, []).append(task)
        elif not self._put_timed(who, task, place):
            return False
        self.used[task] = True
        if self.tasks[task].settles:
            self.settled.add(self.tasks[task].settles)
        return True

    def _put_timed(self, who: int, task: int, place: int) -> bool:
        """Try every place in the walk and keep the one that ends soonest."""
        tour, done = self.tours[who], self.done[who]
        tried = [tour] if place in tour else [[*tour[:k], place, *tour[k:]] for k in range(len(tour) + 1)]
        here = {**done, place: [*done.get(place, []), task]}
        best: tuple[float, list[int]] | None = None
        for candidate in tried:
            times = self.schedule(who, candidate, here)
            if times is None or times[1] > self.budgets[who] + _SLACK:
                continue
            if best is None or times[1] < best[0]:
                best = (times[1], candidate)
        if best is None:
            return False
        self.tours[who], self.done[who] = list(best[1]), here
        return True

    def schedule(
        self, who: int, tour: Sequence[int], done: dict[int, list[int]]
    ) -> tuple[dict[int, float], float] | None:
        """When each task begins, and when the walk ends; None where an hour cannot be kept."""
        clock, here = 0.0, self.start
        begins: dict[int, float] = {}
        for place in tour:
            clock += float(self.distance[here, place])
            here = place
            # what must be done soonest comes first; the rest keeps its order
            for task in sorted(done[place], key=self._latest):
                start = self._begin(who, task, clock)
                if start is None:
                    return None
                begins[task] = start
                clock = start + float(self.service[who, task])
        return begins, clock + (float(self.distance[here, self.start]) if tour else 0.0)

    def _latest(self, task: int) -> float:
        hours = self.tasks[task].hours
        return hours[-1][1] if hours else np.inf

    def _begin(self, who: int, task: int, clock: float) -> float | None:
        hours = self.tasks[task].hours
        if not hours:
            return clock
        for first, last in hours:
            start = max(clock, first)
            if start + float(self.service[who, task]) <= last + _SLACK:
                return start
        return None

    # -- mending -------------------------------------------------------------------------------------

    def shorten(self) -> None:
        """Turn stretches of each walk round while that shortens it (2-opt)."""
        for who, tour in enumerate(self.tours):
            improved = len(tour) > 2
            while improved:
                improved = self._turn(who)

    def _turn(self, who: int) -> bool:
        tour = self.tours[who]
        path = np.array([self.start, *tour, self.start])
        d = self.distance
        a, b = path[:-2], path[1:-1]
        gain = (
            d[a, b][:, None]
            + d[path[1:-1], path[2:]][None, :]
            - d[np.ix_(a, path[1:-1])]
            - d[np.ix_(b, path[2:])]
        )
        gain[np.tril_indices_from(gain)] = 0.0
        if not (gain > 1e-7).any():
            return False
        for flat in np.argsort(-gain, axis=None)[: 8 if self.timed else 1]:
            first, last = divmod(int(flat), gain.shape[1])
            if gain[first, last] <= 1e-7:
                return False
            turned = [*tour[:first], *reversed(tour[first : last + 1]), *tour[last + 1 :]]
            if not self.timed or self._still_fits(who, turned):
                self.tours[who] = turned
                return True
        return False

    def _still_fits(self, who: int, tour: list[int]) -> bool:
        times = self.schedule(who, tour, self.done[who])
        return times is not None and times[1] <= self.taken(who) - 1e-7

    def ruin(self, luck: Random) -> None:
        """Take a stretch or a handful of beds out of each walk."""
        for who, tour in enumerate(self.tours):
            if not tour:
                continue
            count = max(1, round(RUIN_SHARE * len(tour) * luck.uniform(0.4, 1.6)))
            if luck.random() < 0.5:
                first = luck.randrange(len(tour))
                gone = {tour[(first + step) % len(tour)] for step in range(min(count, len(tour)))}
            else:
                gone = set(luck.sample(tour, min(count, len(tour))))
            self.tours[who] = [place for place in tour if place not in gone]
            for place in sorted(gone):
                for task in self.done[who].pop(place):
                    self.used[task] = False
                    self.settled.discard(self.tasks[task].settles)

    def walks(self) -> tuple[Walk, ...]:
        return tuple(self._walk(who) for who in range(len(self.budgets)))

    def _best_first(self, who: int) -> tuple[list[int], tuple[dict[int, float], float]]:
        """The way round on which what saves most comes first: somebody may be called away."""
        found: list[tuple[float, list[int], tuple[dict[int, float], float]]] = []
        for tour in (self.tours[who], self.tours[who][::-1]):
            times = self.schedule(who, tour, self.done[who])
            if times is not None and times[1] <= self.budgets[who] + _SLACK:
                late = sum(self.value[task] * begin for task, begin in times[0].items())
                found.append((float(late), tour, times))
        late, tour, times = min(found, key=lambda each: each[0])
        return tour, times

    def _walk(self, who: int) -> Walk:
        tour, times = self._best_first(who)
        begins, end = times
        stops = []
        for place in tour:
            order = sorted(self.done[who][place], key=lambda task: begins[task])
            stops.append(
                Stop(
                    place=place,
                    tasks=tuple(self.tasks[task].id for task in order),
                    begins=tuple(begins[task] for task in order),
                )
            )
        chosen = [task for tasks in self.done[who].values() for task in tasks]
        return Walk(
            stops=tuple(stops),
            minutes=end,
            walking=self.walking(self.tours[who]),
            value=float(self.value[chosen].sum()),
        )
