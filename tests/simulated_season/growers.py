"""Three growers with the same minutes: by the round, by the same jobs bed by bed, by the packet."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from functools import partial
from types import SimpleNamespace
from typing import Any, Final, cast
from unittest.mock import patch

import numpy as np

import scenes
from simulated_season.losses import ROW_CM, SEEDLINGS, Plant, TrueGarden
from simulated_season.places import Place, seen
from simulated_season.plan import BED_M2
from spadework.advice.job import Job
from spadework.advice.jobs import ALL
from spadework.advice.one_state import one_state
from spadework.advice.pace import Pace
from spadework.advice.scene import Plot, Scene
from spadework.crops.loader import load_sheet
from spadework.crops.sheet import Sheet
from spadework.garden import entries as kinds
from spadework.garden.entries import Entry, Payload
from spadework.garden.fold import fold
from spadework.garden.records import KitItem
from spadework.types import Floats
from spadework.usecases.jobs_today import Day, settled_on, worth_showing
from spadework.usecases.scene import build_scene
from spadework.usecases.walk_round import round_of

PLANNED_KINDS: Final = (
    "sow",
    "prepare",
    "start indoors",
    "prick out",
    "pot on",
    "harden off",
    "plant out",
    "look",
    "scout",
    "crush",
    "refuges",
    "guard flight",
)
"""Kinds nobody does here: sowings and plants set out are the plan's, on the plan's days, for every grower;
and no insect or disease lives in these gardens to be looked for."""

BED_MIN: Final = 0.3
"""Minutes from bed to bed, for every grower."""


@dataclass(frozen=True, kw_only=True)
class Act:
    """One job done: what it takes, what it writes, and which job of the program it was."""

    bed: str
    planting: str
    minutes: float
    payloads: tuple[Payload, ...]
    job: str = ""


class Grower:
    """Someone with a way of choosing; `shown` holds how many jobs each day's list had."""

    shown: list[int]

    def choose(self, today: date, book: Sequence[Entry], true: TrueGarden) -> list[Act]:
        """What to do today, in order; the season stops it when the minutes are gone."""
        raise NotImplementedError

    def did(self, act: Act, today: date) -> None:
        """Remember what was done."""


def served(kinds_served: Collection[str] | None = None) -> frozenset[str]:
    """Kinds of jobs that have a module, less those of the plan.

    Notes
    -----
    A module's name is its kind with bars for blanks.
    """
    names = {finder.__module__.rpartition(".")[2].replace("_", " ") for finder in ALL}
    found = frozenset(names) - frozenset(PLANNED_KINDS)
    return found if kinds_served is None else found & frozenset(kinds_served)


def day_on(place: Place, today: date, book: Sequence[Entry], *, years: int, seed: int) -> Day:
    """The garden as it is known on a day, and its jobs."""
    setting = seen(place.name, today, years=years, seed=seed)
    scene = build_scene(setting, fold(book, day=today))
    scene = replace(scene, start_anew=partial(_anew, scene, (place.name, seed, years)))
    wanted, settled = served(), settled_on(scene.garden, today)
    asked = (
        job
        for finder in ALL
        if finder.__module__.rpartition(".")[2].replace("_", " ") in wanted
        for job in finder(scene)
        if job.kind not in PLANNED_KINDS and job.id not in settled
    )
    with patch("spadework.advice.cover_state.flown_in", _nothing_flies):
        jobs = [job for job in one_state(scene, asked) if worth_showing(job)]
    jobs.sort(key=lambda job: (-job.saves(7), job.id))
    nothing = cast(Any, SimpleNamespace(damage=""))
    return Day(setting=setting, state=nothing, scene=scene, jobs=tuple(jobs))


def _nothing_flies(scene: Scene, _plot: Plot, _item: KitItem) -> tuple[Floats, tuple[str, ...]]:
    """No insect lives in these gardens: no cover stays on for one."""
    return np.zeros(scene.years), ()


def _anew(scene: Scene, of: tuple[str, int, int], sheet: Sheet) -> Floats:
    """What starting anew still brings, worked out once a week: it is most of the time a season takes."""
    key = (*of, scene.today.toordinal() // 7, sheet.key)
    if key not in _ANEW:
        _ANEW[key] = scene.start_anew(sheet)
    return _ANEW[key]


_ANEW: dict[tuple[object, ...], Floats] = {}


def act_of(job: Job) -> Act:
    """A job as it is done."""
    return Act(bed=job.bed, planting=job.planting, minutes=job.minutes, payloads=tuple(job.done), job=job.id)


@dataclass(kw_only=True)
class Following(Grower):
    """Follows the round."""

    place: Place
    minutes: float
    years: int
    seed: int

    def __post_init__(self) -> None:
        self.shown: list[int] = []

    def choose(self, today: date, book: Sequence[Entry], true: TrueGarden) -> list[Act]:
        del true
        day = day_on(self.place, today, book, years=self.years, seed=self.seed)
        walk = round_of(day, minutes=self.minutes)
        by_id = {job.id: job for job in day.jobs}
        chosen = [by_id[view.id] for stop in walk.stops for view in stop.jobs]
        self.shown.append(len(chosen))
        return [act_of(job) for job in chosen]


@dataclass(kw_only=True)
class BedByBed(Grower):
    """Sees the same jobs, and does what is open bed by bed, going on tomorrow where today ended."""

    place: Place
    minutes: float
    years: int
    seed: int

    def __post_init__(self) -> None:
        self.shown: list[int] = []
        self.next_bed = ""

    def choose(self, today: date, book: Sequence[Entry], true: TrueGarden) -> list[Act]:
        del true
        day = day_on(self.place, today, book, years=self.years, seed=self.seed)
        open_jobs = [job for job in day.jobs if job.window.opens <= today <= job.window.closes]
        order = sorted(day.scene.beds, key=lambda key: (len(key), key))
        at = order.index(self.next_bed) if self.next_bed in order else 0
        turned = [*order[at:], *order[:at]]
        acts, settled, left, last = [], set[str](), self.minutes, ""
        for bed in ["", *turned]:
            here = [job for job in open_jobs if job.bed == bed]
            for job in here:
                if job.settles and job.settles in settled:
                    continue
                step = BED_MIN if bed != last else 0.0
                if job.minutes + step > left:
                    continue
                acts.append(act_of(job))
                settled.add(job.settles)
                left, last = left - job.minutes - step, bed
        if last:
            self.next_bed = order[(order.index(last) + 1) % len(order)]
        self.shown.append(len(open_jobs))
        return acts


@dataclass(kw_only=True)
class ByThePacket(Grower):
    """Goes by days since sowing, as packets and calendars say them, and looks at nothing."""

    place: Place
    minutes: float

    def __post_init__(self) -> None:
        self.shown: list[int] = []
        self.done: dict[str, date] = {}
        self.pace = Pace()
        self.kinds = served()

    def choose(self, today: date, book: Sequence[Entry], true: TrueGarden) -> list[Act]:
        due: list[tuple[int, Act]] = []
        for entry in book:
            if isinstance(entry.act, (kinds.Sown, kinds.PlantedOut)) and entry.happened_on <= today:
                plant = true.plants.get(entry.planting)
                if plant is not None and not plant.gone:
                    due += self._for_planting(plant, entry.happened_on, today)
        due += self._for_beds(true, today)
        due.sort(key=lambda each: (-each[0], each[1].job))
        self.shown.append(len(due))
        return [act for _, act in due]

    def did(self, act: Act, today: date) -> None:
        """Remember it."""
        self.done[act.job] = today

    def _each(self, name: str, since: date, first: int, every: int | None, today: date) -> int | None:
        """Days a task is overdue; None where it is not due."""
        last = self.done.get(name)
        if last is not None and every is None:
            return None
        when = since + timedelta(days=first) if last is None else last + timedelta(days=every or 0)
        return (today - when).days if when <= today else None

    def _task(
        self,
        found: list[tuple[int, Act]],
        kind: str,
        name: str,
        due: int | None,
        minutes: float,
        where: tuple[str, str],
        *payloads: Payload,
    ) -> None:
        if due is not None and kind in self.kinds:
            act = Act(bed=where[0], planting=where[1], minutes=minutes, payloads=payloads, job=name)
            found.append((due, act))

    def _for_planting(self, plant: Plant, since: date, today: date) -> list[tuple[int, Act]]:
        found: list[tuple[int, Act]] = []
        key, where, row_m = plant.key, (plant.bed, plant.key), 3.6
        sheet, age = load_sheet(plant.crop), (today - since).days
        packet = sheet.development.packet_days
        ready = int(75 if packet is None else packet.value)
        kg = plant.worth / sheet.use.worth_kg.value

        def task(kind: str, first: int, every: int | None, minutes: float, *payloads: Payload) -> None:
            name = f"{kind} {key} {first}"
            self._task(
                found, kind, name, self._each(name, since, first, every, today), minutes, where, *payloads
            )

        def took(work: str, amount: float) -> float:
            return self.pace.minutes(work, amount)

        if plant.sown:
            if age <= 14:
                task("keep damp", 1, 2, took("damp", 5.0), kinds.Watered(litres=5.0))
            if age <= 30 and plant.stand < 0.3:
                again = kinds.Sown(planting=key, crop=plant.crop)
                task("sow again", 21, None, took("sow", row_m), again)
            if plant.nature.crowded:
                room = round(ROW_CM / plant.nature.room_cm)
                for first, left in ((28, 2 * room), (50, room)):
                    out = max(plant.plants - left, 0.0)
                    task("thin", first, None, took("thin", out), kinds.Thinned(left=left))
        if plant.nature.greens:
            for first in (35, 56):
                task(
                    "earth up",
                    first,
                    None,
                    _took(self.pace, "earth up", row_m),
                    kinds.Tended(act="earthed up"),
                )
        if plant.nature.falls:
            task("support", 28, None, _took(self.pace, "support", row_m), kinds.Tended(act="supported"))
        if plant.nature.birds:
            net = kinds.Moved(act="on", item="net", length_m=1.2)
            task("guard", 7, None, _took(self.pace, "guard", 1.2), net)
        if plant.repeats:
            every = {"bush-bean": 4, "summer-squash": 3, "pea": 4, "tomato": 5, "sweet-corn": 4}.get(
                plant.crop, 10
            )
            amount = kg / max(plant.nature.bears_d / every, 1.0)
            task("pick", ready, every, took("pick fruit", amount), kinds.Picked())
        elif sheet.harvest.lift in ("pick", "cut"):
            task("pick", ready + 3, None, took("cut heads", kg), kinds.Picked())
        else:
            wait = 0 if ready < 45 else 14
            task("lift", ready + wait, None, took("lift", kg), kinds.Lifted())
        return found

    def _for_beds(self, true: TrueGarden, today: date) -> list[tuple[int, Act]]:
        found: list[tuple[int, Act]] = []
        for bed, ground in true.beds.items():
            if all(plant.gone for plant in true.plants.values() if plant.bed == bed):
                continue
            first = self.done.setdefault(f"began {bed}", today)
            due = self._each(f"weed {bed}", first, 21, 14, today)
            work = (
                "weed thread" if ground.weeds < 0.1 else "weed small" if ground.weeds < 0.4 else "weed large"
            )
            minutes = _took(self.pace, work, BED_M2)
            self._task(found, "weed", f"weed {bed}", due, minutes, (bed, ""), kinds.Tended(act="hoed"))
            due = self._each(f"water {bed}", first, 4, 4, today)
            water = kinds.Watered(litres=10.0 * BED_M2)
            self._task(found, "water", f"water {bed}", due, _water_min(self.pace), (bed, ""), water)
        return found


def _rates() -> Collection[str]:
    from spadework.advice.pace import RATES

    return RATES


def _took(pace: Pace, work: str, amount: float) -> float:
    return pace.minutes(work, amount) if work in _rates() else 5.0


def _water_min(pace: Pace) -> float:
    """A can of nine litres a minute and a half, as for seed rows."""
    return pace.minutes("damp", 10.0 * BED_M2) / 1.5


def truly(payload: Payload, plant: Plant | None) -> tuple[Payload, ...]:
    """What is written of a job: what was really found there."""
    if plant is None:
        return (payload,)
    match payload:
        case kinds.Counted() if not plant.up:
            return (kinds.Stage(what="up", reached=False),)
        case kinds.Counted():
            share = plant.stand * min(0.5 + 0.1 * plant.up_days, 1.0)
            return (kinds.Counted(standing=round(SEEDLINGS * share)),)
        case kinds.Stage(what="up") if plant.up and plant.lidded:
            off = kinds.Moved(act="off", item="board or sacking")
            return (kinds.Stage(what="up"), off)
        case kinds.Stage(what="up") if plant.up:
            return (kinds.Stage(what="up"),)
        case kinds.Picked() | kinds.Lifted() if not plant.ready:
            # whoever goes to pick sees whether there is anything, and leaves what is not ready
            return (kinds.Stage(what="ready", reached=False),)
        case kinds.Ended() if plant.good:
            # and whoever goes to clear, whether it still bears
            return (kinds.Skipped(job=f"clear-{plant.key}", why="it is still good"),)
    return (payload,)


LOOK_MIN: Final = 1.0
"""Minutes to see that something is not ready, or not over, for every grower."""


def in_vain(act: Act, plant: Plant | None) -> bool:
    """Whether there is nothing to do when one gets there but to look."""
    return any(
        isinstance(said, kinds.Skipped) or (isinstance(said, kinds.Stage) and not said.reached)
        for payload in act.payloads
        for said in truly(payload, plant)
    )


def written(act: Act, payload: Payload, today: date) -> Entry:
    """An entry of the book."""
    key = payload.planting if isinstance(payload, (kinds.Sown, kinds.PlantedOut)) else act.planting
    return scenes.said(payload, today, bed=act.bed, planting=key)
