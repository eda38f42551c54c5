"""The warmth of the soil, bed by bed: as it was, as it is, and as the years go on; and what that rests on."""

from __future__ import annotations

from collections.abc import Hashable
from datetime import date
from pathlib import Path

import msgspec

from spadework.advice.scene import Plot, Scene
from spadework.clock.conditioning_soil import bearing_readings
from spadework.clock.ground import Ground
from spadework.garden.entries import ThermometerRead
from spadework.garden.told import Event
from spadework.usecases.bed_names import bed_called
from spadework.usecases.jobs_today import open_day
from spadework.usecases.lock_lines import LockLine, lock_lines
from spadework.usecases.setting import Setting
from spadework.usecases.show_bed_ahead import (
    DEPTH_CM,
    SoilTrace,
    ground_felt,
    has_own_ground,
    soil_trace_of,
)


class SoilOfBeds(msgspec.Struct, frozen=True, kw_only=True):
    """Beds whose soil is equally warm.

    Parameters
    ----------
    beds : list of (str, str)
        Key and name.
    soil : SoilTrace
    told, told_elsewhere : int
        Readings told of these beds or of the garden as a whole that correct it, and those of other beds,
        which count for less.
    in_book : int
        Readings in the book: shown beside it, and correcting nothing.
    events : int
        Days told on which something came up or was ready in one of them.
    warmer_c : float  [degC]
        Than the rest of the garden, as those days have taught.
    """

    beds: list[tuple[str, str]]
    soil: SoilTrace
    told: int
    told_elsewhere: int
    in_book: int
    events: int
    warmer_c: float


class SoilAnswer(msgspec.Struct, frozen=True, kw_only=True):
    """The soil of all beds out of doors, those that are alike together; or of one.

    Parameters
    ----------
    depth_cm : float  [cm]
    note : str
        What is to be said about the years.
    """

    question: str
    today: date
    depth_cm: float
    groups: list[SoilOfBeds]
    locks: list[LockLine]
    note: str


def show_soil(path: Path, today: date, *, bed: str = "") -> SoilAnswer:
    """How warm the soil is, and will be.

    Parameters
    ----------
    path : Path
    today : date
    bed : str
        Only this one, by any name.

    Raises
    ------
    UnknownName, GardenError, RecordError, StoreError
    """
    day = open_day(path, today)
    scene, setting = day.scene, day.setting
    keys = [bed_called(day.garden, bed).key] if bed else list(scene.beds)
    holders = {each.inside for each in scene.beds.values() if each.inside}
    alike: dict[Hashable, tuple[Ground, str, list[str]]] = {}
    for key in keys:
        there = scene.beds[key]
        no_soil = there.shape == "shelf" or there.gone_on is not None or key in holders
        if no_soil or not (there.described or bed):
            continue
        plots = [plot for plot in scene.plots if plot.bed_key == key]
        name = _name(setting, scene, key, plots)
        if name not in alike:
            alike[name] = (*ground_felt(setting, scene, key, plots), [])
        alike[name][2].append(key)
    locks = [
        line
        for key in ([keys[0]] if bed else [""])
        for line in lock_lines(day.garden, today, bed=key, words=scene.site.words)
    ]
    groups = [_group(setting, scene, beds, ground, felt) for ground, felt, beds in alike.values()]
    return SoilAnswer(
        question="soil",
        today=today,
        depth_cm=DEPTH_CM,
        groups=sorted(groups, key=lambda each: -len(each.beds)),
        locks=locks,
        note=scene.ground.years.note,
    )


def _name(setting: Setting, scene: Scene, key: str, plots: list[Plot]) -> Hashable:
    """What tells one ground from another without making it."""
    bed = scene.beds[key]
    holder = scene.beds.get(bed.inside)
    around = bed.shape if holder is None else holder.shape
    under = around if around in ("tunnel", "frame") else ""
    own = key if has_own_ground(setting, key) else ""
    covered = bool(plots) and all(plot.covers for plot in plots)
    lies_over = covered and not under and plots[0].course.ground is not scene.ground
    return (own, bool(under), id(plots[0].course.ground) if lies_over else 0)


def _group(setting: Setting, scene: Scene, beds: list[str], ground: Ground, felt: str) -> SoilOfBeds:
    soil = soil_trace_of(setting, scene, beds, ground, felt)
    first = soil.days[0]
    read = bearing_readings(ground, setting.told, setting.today)
    told = sum(fact.bed in ("", *beds) for fact in read)
    return SoilOfBeds(
        beds=[(key, scene.beds[key].name) for key in beds],
        soil=soil,
        told=told,
        told_elsewhere=len(read) - told,
        in_book=sum(
            isinstance(each.act, ThermometerRead)
            and each.act.place == "soil"
            and each.bed in beds
            and each.happened_on >= first
            for each in scene.garden.entries
        ),
        events=sum(isinstance(each.fact, Event) and each.fact.bed in beds for each in setting.told),
        warmer_c=round(sum(setting.bed_offset_c(bed) for bed in beds) / len(beds), 1),
    )
