"""The garden to scale: every bed's outline, where each plant stands, what lies over it, what is locked."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date
from pathlib import Path
from typing import Final, TypeAlias

import msgspec
import numpy as np

from spadework.advice.scene import Plot
from spadework.errors import RecordError
from spadework.garden.entries import BedSet
from spadework.garden.geometry import Outline, Point
from spadework.garden.places import Laid, Room, laid_out, plant_places
from spadework.garden.planting import Planting
from spadework.garden.state import Bed
from spadework.usecases.look import Look, look_at
from spadework.usecases.plant_ground import usual_rooms
from spadework.usecases.setting import Setting
from spadework.usecases.show_plantings import planting_name

MOST_PLANTS: Final = 400
"""Plants drawn of one planting; of more, every second or third is. Our own rule."""

WIDE_AT: Final = 0.6
"""Share of the way to ready at which a plant is as wide as it gets, where the sheet does not say. Class:
memory."""

NOT_RUN: Final = 0.6
"""Share of its full width a plant is drawn at where no course of it can be run. Our own rule."""

Drill: TypeAlias = tuple[Point, Point]


class PlantsDrawn(msgspec.Struct, frozen=True, kw_only=True):
    """A planting on the ground of its bed.

    Parameters
    ----------
    key, crop, name : str
    places : list of (float, float)  [m]
        Where plants stand, across and along the bed from its corner; of very many only some.
    room_m : float  [m]
        Distance to the nearest neighbour as it was meant.
    stretches : list of (float, float, float, float)  [m]
        Ground it takes: across, along, width, length.
    assumed : bool
        Nobody said where it stands.
    started_on : date
    up : bool
        It is above the ground, as was seen or in most years.
    grown : float
        Share of its full width that a plant has by today, in the middle one of the years.
    drills : list of ((float, float), (float, float))  [m]
        Rows from end to end, across and along.
    """

    key: str
    crop: str
    name: str
    places: list[tuple[float, float]]
    room_m: float
    stretches: list[tuple[float, float, float, float]]
    assumed: bool
    started_on: date
    up: bool = True
    grown: float = NOT_RUN
    drills: list[Drill] = []


class BedDrawn(msgspec.Struct, frozen=True, kw_only=True):
    """A bed on the plan.

    Parameters
    ----------
    corners : list of (float, float)  [m]
        East and north on the plot, anticlockwise from the corner the bed is measured from.
    covers : list of str
        Names of kit over all of it or part of it.
    opened : bool or None
        Of a tunnel or frame.
    """

    key: str
    name: str
    shape: str
    is_round: bool
    inside: str
    x_m: float
    y_m: float
    width_m: float
    length_m: float
    turn_deg: float
    corners: list[Point]
    plantings: list[PlantsDrawn]
    covers: list[str]
    opened: bool | None
    locked: bool


class Ground(msgspec.Struct, frozen=True, kw_only=True):
    """The plan to scale.

    Parameters
    ----------
    indoors : list of str
        Keys of beds that are not on the plot, such as a seed shelf.
    last : str
        Key of the last entry of the book it was drawn from.
    """

    question: str
    today: date
    name: str
    units: str
    beds: list[BedDrawn]
    indoors: list[str]
    last: str
    damage: str = ""


def show_ground(path: Path, today: date, *, bed: str = "") -> Ground:
    """The plan of the whole garden, or of one bed by key.

    Raises
    ------
    GardenError, StoreError
    """
    look = look_at(path, today)
    garden = look.garden
    wanted = [
        each
        for each in garden.beds.values()
        if each.outline is not None and each.gone_on is None and (not bed or each.key == bed)
    ]
    plots = _plots(look)
    return Ground(
        question="ground",
        today=today,
        name=look.folder.site.name,
        units=look.folder.site.units,
        beds=[_drawn(look, each, plots) for each in wanted],
        indoors=[each.key for each in wanted if each.shape == "shelf"],
        last=max(garden.keys, default=""),
        damage=look.damage,
    )


def bed_as_told(key: str, told: BedSet) -> BedDrawn:
    """A bed that is told and not in the book yet, with nothing in it."""
    sides = Outline(
        x_m=told.x_m, y_m=told.y_m, width_m=told.width_m, length_m=told.length_m, turn_deg=told.turn_deg
    )
    return BedDrawn(
        key=key,
        name=told.name,
        shape=told.shape,
        is_round=told.is_round,
        inside=told.inside,
        x_m=told.x_m,
        y_m=told.y_m,
        width_m=told.width_m,
        length_m=told.length_m,
        turn_deg=told.turn_deg,
        corners=list(sides.corners),
        plantings=[],
        covers=[],
        opened=None,
        locked=False,
    )


def _plots(look: Look) -> dict[str, Plot]:
    """What stands, run through the years; nothing where there is no weather to run it on."""
    from spadework.usecases.scene import build_scene

    try:
        scene = build_scene(Setting(look.folder, look.day), look.garden)
    except RecordError:
        return {}
    return {plot.key: plot for plot in scene.plots}


def _drawn(look: Look, bed: Bed, plots: Mapping[str, Plot]) -> BedDrawn:
    garden, outline = look.garden, bed.outline
    assert outline is not None
    standing = garden.standing(look.day, bed=bed.key)
    usual = usual_rooms(garden)
    laid = laid_out(outline, standing, look.day, usual)
    return BedDrawn(
        key=bed.key,
        name=bed.name,
        shape=bed.shape,
        is_round=bed.is_round,
        inside=bed.inside,
        x_m=outline.x_m,
        y_m=outline.y_m,
        width_m=outline.width_m,
        length_m=outline.length_m,
        turn_deg=outline.turn_deg,
        corners=list(outline.corners),
        plantings=[
            _plants(each, where, usual.get(each.crop), look, plots.get(each.key))
            for each, where in zip(standing, laid, strict=True)
        ],
        covers=sorted({placed.item for placed in garden.covers(bed=bed.key)}),
        opened=bed.opened,
        locked=bool(garden.locks_on(look.day, bed=bed.key)),
    )


def _plants(planting: Planting, laid: Laid, usual: Room | None, look: Look, plot: Plot | None) -> PlantsDrawn:
    spots = plant_places(laid, planting, usual=usual)
    step = -(-len(spots) // MOST_PLANTS) if spots else 1
    row_cm, spacing_cm = usual or (None, None)
    apart = planting.spacing_cm or spacing_cm or planting.row_cm or row_cm or 30.0
    return PlantsDrawn(
        key=planting.key,
        crop=planting.crop,
        name=planting_name(planting, look.words),
        places=[(round(across, 3), round(along, 3)) for across, along in spots[::step]],
        room_m=apart / 100.0,
        stretches=[(block.across_m, block.along_m, block.width_m, block.length_m) for block in laid.blocks],
        assumed=laid.assumed,
        started_on=planting.started_on,
        up=_is_up(planting, plot),
        grown=_grown(planting, plot),
        drills=_drills(spots, apart / 200.0),
    )


def _is_up(planting: Planting, plot: Plot | None) -> bool:
    if planting.perennial or planting.stages or plot is None or plot.course.start != "sown":
        return True
    return float(np.median(plot.course.way[:, plot.column])) > 0.0


def _grown(planting: Planting, plot: Plot | None) -> float:
    if plot is None:
        return NOT_RUN
    if planting.perennial:
        return 1.0
    wide_at = plot.sheet.room.cover_from
    way = float(np.median(plot.course.way[:, plot.column]))
    return round(min(max(way / (WIDE_AT if wide_at is None else wide_at.value), 0.0), 1.0), 2)


def _drills(spots: Sequence[Point], half_m: float) -> list[Drill]:
    """Rows through the places of plants, from half a spacing before the first to half behind the last."""
    by_across = {round(across, 2) for across, _ in spots}
    by_along = {round(along, 2) for _, along in spots}
    side, run = (0, 1) if len(by_across) <= len(by_along) else (1, 0)
    rows: dict[float, list[float]] = {}
    for spot in spots:
        rows.setdefault(round(spot[side], 2), []).append(spot[run])
    found = []
    for at, places in sorted(rows.items()):
        first, last = round(max(min(places) - half_m, 0.0), 3), round(max(places) + half_m, 3)
        found.append(((at, first), (at, last)) if side == 0 else ((first, at), (last, at)))
    return found
