"""The first pages of the book: people, beds, kit, what stood before, and each year's seed."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from typing import Final

from spadework.crops.loader import load_sheet
from spadework.garden.entries import BedSet, KitSet, Note, PersonSet, PlantedOut, Stood
from spadework.garden.geometry import plants_at_spacing
from spadework.usecases.demo.deed import EARLY, EVENING, MORNING, Deed
from spadework.usecases.demo.room import area_m2, block_of
from spadework.usecases.demo.script import BLOCKS, ROTATION, BedRow, Perennial, place, plan

OPENED: Final = (9, 10)
"""The day, two years back, on which the book was begun."""

_MAIN: Final = {"L": "pea", "B": "cabbage", "R": "carrot", "P": "potato"}


def opened_on(season: int) -> date:
    """The day the book was begun, as the garden of a season has it."""
    return date(season - 2, *OPENED)


def beds() -> tuple[tuple[str, str, float], ...]:
    """Every bed: key, shape and area.  [m2]"""
    return tuple(
        (key, row.shape, row.size[0] * row.size[1]) for row in place().beds for key, _, _ in _each(row)
    )


def opening(season: int) -> list[Deed]:
    """People first, then the plan of the place, kit, and what stood in the years before."""
    on = opened_on(season)
    deeds = [
        Deed(
            on=on,
            when=EARLY,
            act=PersonSet(person=one.key, name=one.name, role=one.role, not_for=one.not_for),
        )
        for one in place().people
    ]
    shade = dict(place().shade)
    for row in place().beds:
        for key, name, (x_m, y_m) in _each(row):
            act = BedSet(
                name=name,
                shape=row.shape,
                is_round=row.shape == "tub",
                x_m=x_m,
                y_m=y_m,
                width_m=row.size[0],
                length_m=row.size[1],
                height_m=row.height_m,
                depth_m=row.depth_m,
                soil=row.soil,
                mulch=row.mulch,
                inside=row.inside,
                shaded_by=(shade[key],) if key in shade else (),
                water_by="emitters" if row.emitters else "hose" if row.flow_l_min else "can",
                emitters=row.emitters,
                emitter_l_h=row.emitter_l_h,
                flow_l_min=row.flow_l_min,
                measured_l_min=row.measured_l_min,
            )
            deeds.append(Deed(on=on, when=EARLY, bed=key, act=act))
    deeds += [
        Deed(
            on=on,
            when=MORNING,
            act=KitSet(
                item=one.item,
                sort=one.sort,
                length_m=one.length_m,
                width_m=one.width_m,
                pieces=one.pieces,
                grade=one.grade,
                kept="shed",
            ),
        )
        for one in place().kit
    ]
    for year in (season - 4, season - 3):
        deeds += _stood(year, on)
    deeds.append(
        Deed(on=on, when=EVENING, act=Note(text="Marrow Lane's book begins here. All of it is invented."))
    )
    deeds += [_perennial(row, season) for row in plan().perennials]
    deeds += _stood(season - 2, date(season - 1, 1, 5))
    return deeds


def _each(row: BedRow) -> Iterable[tuple[str, str, tuple[float, float]]]:
    for count in range(row.many):
        at = (round(row.at[0] + count * row.step, 2), round(row.at[1] + count * row.step_y, 2))
        if row.many == 1:
            yield row.key, row.name, at
        else:
            yield f"{row.key}-{count + 1}", f"{row.name} {count + 1}", at


def _stood(year: int, on: date) -> list[Deed]:
    """What the beds of the rotation bore in a year before the book."""
    found = []
    for letter, crop in _MAIN.items():
        block = BLOCKS[(ROTATION.index(letter) - year) % len(BLOCKS)]
        family = load_sheet(crop).family
        found += [
            Deed(on=on, when=MORNING, bed=f"{block}-{number}", act=Stood(crop=crop, year=year, family=family))
            for number in (1, 2, 3, 4)
        ]
    return found


def perennial_key(row: Perennial, season: int) -> str:
    """Name of a planting that stands for years: crop, year planted, number."""
    same = [one for one in plan().perennials if one.crop == row.crop and one.years == row.years]
    return f"{row.crop}-{season - row.years}-{same.index(row) + 1}"


def _perennial(row: Perennial, season: int) -> Deed:
    plants = plants_at_spacing(
        1.0, row.length_m, row_cm=row.row_cm, spacing_cm=row.spacing_cm, rows=row.rows
    ).plants
    act = PlantedOut(
        planting=perennial_key(row, season),
        crop=row.crop,
        plants=plants,
        rows=row.rows,
        row_cm=row.row_cm,
        row_length_m=row.length_m,
        spacing_cm=row.spacing_cm,
        area_m2=area_m2(row),
        bought=True,
        block=block_of(row),
        perennial=True,
    )
    return Deed(on=row.planted_on(season), who="maren", bed=row.bed, planting=act.planting, act=act)
