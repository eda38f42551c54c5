"""Free places in open beds and tubs, and what may follow what stood there."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date
from typing import Final
from weakref import WeakKeyDictionary

import numpy as np

from spadework.advice.scene import Scene
from spadework.clock.bed_ground import mulch_kind
from spadework.crops.sheet import Sheet
from spadework.errors import UnknownName
from spadework.garden.blocks import area_m2
from spadework.garden.entries import Block
from spadework.garden.records import Bed

LEAST_M2: Final = 0.25
"""Ground below which nothing is sown. Our own rule."""

USUAL_M2: Final = 1.2
"""Ground of a sowing where the crop was never grown here. Our own rule."""

TUB_SPREAD_CM: Final = 45.0
"""Width of a full-grown plant that a tub can carry. Our own rule."""

GROUND_SHAPES: Final = ("framed", "ground", "tub", "sack", "")
"""Beds in the open; what grows under glass or film has air of its own."""


@dataclass(frozen=True, kw_only=True)
class Place:
    """Free ground of a bed.

    Parameters
    ----------
    bed : Bed
    block : Block
    stood : tuple of (int, str)
        Year and family of what stood in the bed, newest first.
    inside : bool
        In a tunnel or frame.
    """

    bed: Bed
    block: Block
    stood: tuple[tuple[int, str], ...]
    inside: bool = False

    @property
    def area_m2(self) -> float:
        """Its ground."""
        return area_m2(self.block)

    def suits(self, sheet: Sheet, today: date) -> bool:
        """Whether a crop may stand here: its kin long enough away, and room for a plant."""
        wait = sheet.next.rotation_years.value
        if any(family == sheet.family and today.year - year < wait for year, family in self.stood):
            return False
        spread_m = sheet.room.spread_cm.value / 100.0
        if self.bed.shape in ("tub", "sack") and sheet.room.spread_cm.value > TUB_SPREAD_CM:
            return False
        return min(self.block.width_m, self.block.length_m) >= min(spread_m, 0.6) - 1e-9


_FOUND: WeakKeyDictionary[Scene, tuple[Place, ...]] = WeakKeyDictionary()


def free_places(scene: Scene) -> tuple[Place, ...]:
    """Free ground that no lock keeps, the largest first."""
    found = _FOUND.get(scene)
    if found is None:
        found = _FOUND[scene] = tuple(_find(scene))
    return found


def _find(scene: Scene) -> list[Place]:
    garden, today = scene.garden, scene.today
    holders = {bed.inside for bed in garden.beds.values() if bed.inside}
    places = []
    for bed in garden.beds.values():
        if bed.shape == "shelf" or bed.key in holders or bed.gone_on is not None:
            continue
        inside = bed.shape not in GROUND_SHAPES or bool(bed.inside)
        if not bed.described or mulch_kind(bed.mulch) == "film":
            continue
        if bed.mulch and not garden.standing(today, bed=bed.key):
            continue  # mulched and never sown: a place for what is planted for years
        if garden.locks_on(today, bed=bed.key, stops="planting"):
            continue
        free = garden.free_ground(bed.key, today)
        if free is None or free.unsized:
            continue
        stood = _stood(scene, bed.key)
        places += [
            Place(bed=bed, block=block, stood=stood, inside=inside)
            for block in free.stretches
            if area_m2(block) >= LEAST_M2
        ]
    return sorted(places, key=lambda place: (-place.area_m2, place.bed.key, place.block.along_m))


def _stood(scene: Scene, bed: str) -> tuple[tuple[int, str], ...]:
    found = []
    for before in scene.garden.before(bed):
        family = before.family
        if not family:
            try:
                family = scene.sheet_of(before.crop).family
            except UnknownName:
                continue
        found.append((before.year, family))
    return tuple(found)


def cut_from(
    places: Sequence[Place], sheet: Sheet, wanted_m2: float, today: date, *, prefer_inside: bool = False
) -> tuple[Place, list[Place]]:
    """Ground for a crop from the first place that suits it best, and the places as they are left.

    Raises
    ------
    LookupError
        If none suits.
    """
    suits = [place for place in places if place.suits(sheet, today)]
    if not suits:
        raise LookupError
    if prefer_inside and any(place.inside for place in suits):
        suits = [place for place in suits if place.inside]
    # the smallest that holds it all, so that large places stay whole; else the largest
    holds = [place for place in suits if place.area_m2 >= wanted_m2]
    place = min(holds, key=lambda each: each.area_m2) if holds else max(suits, key=lambda each: each.area_m2)
    block = place.block
    length = min(block.length_m, max(wanted_m2 / block.width_m, 0.3))
    if block.length_m - length < 0.3:
        length = block.length_m
    taken = Block(
        across_m=block.across_m, along_m=block.along_m, width_m=block.width_m, length_m=round(length, 2)
    )
    rest = Block(
        across_m=block.across_m,
        along_m=round(block.along_m + taken.length_m, 2),
        width_m=block.width_m,
        length_m=round(block.length_m - taken.length_m, 2),
    )
    left = [each for each in places if each is not place]
    if rest.length_m > 0.0 and area_m2(rest) >= LEAST_M2:
        left.append(replace(place, block=rest))
    return replace(place, block=taken), left


def usual_m2(scene: Scene, crop: str) -> float:
    """Ground a crop usually gets here: as it last had; else a usual sowing's."""
    grown = [each for each in scene.garden.plantings.values() if each.crop == crop and each.area_m2]
    if not grown:
        return USUAL_M2
    last = max(grown, key=lambda each: (each.started_on, each.key))
    return float(np.clip(last.area_m2 or USUAL_M2, LEAST_M2, 12.0))


def new_key(scene: Scene, crop: str) -> str:
    """Key for the next planting of a crop this year."""
    number = 1
    while f"{crop}-{scene.today.year}-{number}" in scene.garden.plantings:
        number += 1
    return f"{crop}-{scene.today.year}-{number}"
