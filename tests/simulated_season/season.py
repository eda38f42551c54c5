"""One season of one grower in one true garden, day by day."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date, timedelta
from typing import Final, Literal

import numpy as np

import random_gardens
import scenes
from ghcn_fixture import climate_series
from simulated_season.growers import (
    BED_MIN,
    LOOK_MIN,
    Act,
    BedByBed,
    ByThePacket,
    Following,
    Grower,
    in_vain,
    served,
    truly,
    written,
)
from simulated_season.losses import TrueGarden
from simulated_season.nature import drawn
from simulated_season.places import PLACES
from simulated_season.plan import BED_M2, Start, plan
from spadework.advice.worth import worth_of
from spadework.crops.loader import load_sheet
from spadework.garden import entries as kinds
from spadework.garden.entries import Entry
from spadework.garden.fold import fold
from spadework.science.evapotranspiration import et0_hargreaves_mm
from spadework.science.sun import extraterrestrial_radiation_mj

Way = Literal["round", "bed order", "packet"]
WAYS: Final[tuple[Way, ...]] = ("round", "bed order", "packet")

KIT: Final = (
    scenes.said(kinds.KitSet(item="net", sort="netting", length_m=24.0, width_m=1.5), random_gardens.ALWAYS),
    scenes.said(
        kinds.KitSet(item="fleece", sort="fleece", length_m=12.0, width_m=1.5), random_gardens.ALWAYS
    ),
)

SLOWER: Final = 0.15
"""Spread of what a job really takes, as the standard deviation of its logarithm; the same for all growers."""


@dataclass(kw_only=True)
class Outcome:
    """What a season came to.

    Parameters
    ----------
    kept : float
        Share of the worth of all plantings that was brought in.
    lost : dict of str to float
        Share of the worth by cause.
    shown : list of int
        Jobs on each day's list.
    minutes : list of float  [min]
        Used each day.
    done : dict of str to int
        Jobs done by the first word of their id.
    """

    kept: float
    lost: dict[str, float]
    shown: list[int]
    minutes: list[float]
    done: dict[str, int] = field(default_factory=dict)


@dataclass(frozen=True, kw_only=True)
class Run:
    """One season to be run: everything but the way of working and the minutes is the same for all growers."""

    place: str
    year: int
    curves: Literal["near", "wrong"] = "near"
    seed: int = 1
    plantings: int = 40
    days: int = 170
    years: int = 12


def grower_of(way: Way, run: Run, minutes: float) -> Grower:
    """Someone who works that way."""
    place = PLACES[run.place]
    if way == "packet":
        return ByThePacket(place=place, minutes=minutes)
    sort = Following if way == "round" else BedByBed
    return sort(place=place, minutes=minutes, years=run.years, seed=run.seed)


def season(run: Run, way: Way, minutes: float) -> Outcome:
    """A season from the first usual day of sowing on.

    Parameters
    ----------
    run : Run
    way : Way
    minutes : float  [min]
        A day.
    """
    place, series = PLACES[run.place], climate_series(run.place)
    curves, natures = drawn(run.curves, np.random.default_rng([run.seed, run.year]))
    true = TrueGarden(curves, natures, served(), run.seed)
    grower = grower_of(way, run, minutes)
    starts = plan(place, run.year, run.plantings)
    book: list[Entry] = [*random_gardens.beds(max(run.plantings // 2, 1)), *KIT]
    first = date(run.year, *place.cool)
    pace = np.random.default_rng([run.seed, 7])
    slower = {kind: float(np.exp(pace.normal(0.0, SLOWER))) for kind in sorted(served())}
    used: list[float] = []
    done: dict[str, int] = {}
    for ahead in range(run.days):
        today = first + timedelta(days=ahead)
        _begin(true, book, [start for start in starts if start.day == today])
        acts = grower.choose(today, book, true)
        used.append(_work(acts, minutes, slower, true, book, today, grower, done))
        at = series.index_of(np.datetime64(today, "D")) + 1
        low, high = float(series.tmin_c[at]), float(series.tmax_c[at])
        ra = extraterrestrial_radiation_mj(place.site.lat_deg, today.timetuple().tm_yday)
        et0 = float(et0_hargreaves_mm(low, high, ra))
        true.pass_day(ahead, low, high, float(series.rain_mm[at]), et0)
    for plant in true.plants.values():
        plant.harvest(all_of_it=True)
    return Outcome(
        kept=true.brought_in / true.possible,
        lost={why: lost / true.possible for why, lost in true.lost_to().items()},
        shown=grower.shown,
        minutes=used,
        done=done,
    )


def _begin(true: TrueGarden, book: list[Entry], starts: list[Start]) -> None:
    for start in starts:
        act = start.entry.act
        assert isinstance(act, (kinds.Sown, kinds.PlantedOut))
        book.append(start.entry)
        planting = fold(book).plantings[act.planting]
        worth = worth_of(load_sheet(act.crop), planting, None).value
        true.start(act, start.entry.bed, worth, BED_M2)


def _work(
    acts: list[Act],
    minutes: float,
    slower: dict[str, float],
    true: TrueGarden,
    book: list[Entry],
    today: date,
    grower: Grower,
    done: dict[str, int],
) -> float:
    """Do what the minutes allow, in order; what does not fit any more is left."""
    used, here = 0.0, ""
    for act in acts:
        kind = next((kind for kind in slower if act.job.startswith(kind.replace(" ", "-"))), "")
        kind = kind or next((kind for kind in slower if act.job.startswith(kind)), "")
        spent = min(act.minutes, LOOK_MIN) if in_vain(act, true.plants.get(act.planting)) else act.minutes
        takes = spent * slower.get(kind, 1.0) + (BED_MIN if act.bed != here else 0.0)
        if used + takes > minutes:
            continue
        used, here = used + takes, act.bed
        grower.did(act, today)
        done[kind] = done.get(kind, 0) + 1
        for payload in act.payloads:
            _write(act, payload, true, book, today)
    return used


def _write(act: Act, payload: kinds.Payload, true: TrueGarden, book: list[Entry], today: date) -> None:
    """What is done to the true garden, and what the book says of it."""
    plant = true.plants.get(act.planting)
    for said in truly(payload, plant):
        got = true.apply(said, act.bed, act.planting, (today - date.min).days)
        if isinstance(said, (kinds.Picked, kinds.Lifted)) and plant is not None:
            kg = got * plant.worth / load_sheet(plant.crop).use.worth_kg.value
            said = kinds.Picked(kg=kg) if isinstance(said, kinds.Picked) else kinds.Lifted(kg=kg)
        book.append(written(act, said, today))
    if plant is not None and plant.gone and not isinstance(payload, kinds.Ended):
        book.append(written(act, kinds.Ended(how="cleared"), today))
