"""Blanks of a planting's sentence: measured as the garden measures, and drawn in the bed as it would be."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import msgspec

from spadework import units
from spadework.faces.web.visit import Refused, Visit
from spadework.usecases.plant_sentence import ComesTo
from spadework.usecases.show_ground import Ground, PlantsDrawn, show_ground

SIZES: Final = {"spacing": "small", "row": "small", "depth": "fine", "length": "long"}
"""What a blank is measured in: cm or inches, mm or inches, metres or feet."""

_NEW: Final = "new"


@dataclass(frozen=True)
class Sizes:
    """How a garden measures what is asked here: into what is kept, and what it is called."""

    us: bool

    def kept(self, sort: str, value: float | None) -> float | None:
        return None if value is None else value * self._factor(sort)

    def shown(self, sort: str, kept: float | None) -> str:
        return "" if kept is None else f"{kept / self._factor(sort):.3g}"

    def word(self, sort: str) -> str:
        if self.us:
            return "ft" if sort == "long" else "in"
        return {"small": "cm", "fine": "mm", "long": "m"}[sort]

    def _factor(self, sort: str) -> float:
        if not self.us:
            return 1.0
        inch = {"small": units.MM_PER_INCH / 10.0, "fine": units.MM_PER_INCH}
        return inch.get(sort, units.M_PER_FOOT)


def whole(visit: Visit, name: str) -> int | None:
    """A whole number of a field; None where it is empty.

    Raises
    ------
    Refused
    """
    value = visit.number(name)
    if value is not None and value != int(value):
        raise Refused(f"{value:g} is not a whole number.", "Give a whole one.", field=name)
    return None if value is None else int(value)


def usual_of(found: ComesTo | None, sizes: Sizes) -> dict[str, str]:
    """What a blank is taken as where it is left so."""
    if found is None:
        return dict.fromkeys(("rows", "number", *SIZES), "")
    return {
        "rows": "" if found.rows is None else str(found.rows),
        "number": str(found.pieces if found.way == "tray" else found.plants),
        "spacing": sizes.shown("small", found.spacing_cm),
        "row": sizes.shown("small", found.row_cm),
        "length": sizes.shown("long", found.length_m),
        "depth": sizes.shown("fine", found.depth_mm),
    }


def as_it_would_be(visit: Visit, found: ComesTo, *, without: str = "") -> Ground:
    """The bed with what a sentence tells of, without a planting it lifts or tells otherwise."""
    ground = show_ground(visit.garden, visit.today, bed=found.bed)
    if found.block is None:
        return ground
    drawn = PlantsDrawn(
        key=_NEW,
        crop=found.crop,
        name="what the sentence tells of",
        places=found.places,
        room_m=min(found.spacing_cm or 30.0, found.row_cm or 30.0) / 100.0,
        stretches=[],
        assumed=False,
        started_on=visit.today,
        grown=1.0,
    )
    beds = [
        msgspec.structs.replace(
            bed, plantings=[*(each for each in bed.plantings if each.key != without), drawn]
        )
        for bed in ground.beds
    ]
    return msgspec.structs.replace(ground, beds=beds)
