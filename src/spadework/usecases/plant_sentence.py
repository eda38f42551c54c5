"""A planting told as a sentence with blanks: what it comes to while it is filled in, and its writing.

What is left blank is filled as the crop's sheet and the bed have it: the sheet's distances, as many rows as
the largest free stretch holds, as long as that is.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Final, Literal, TypeAlias

import msgspec

from spadework.advice.stand_wanted import SPARE, germination_of, seeds_per_m, whole_seeds
from spadework.advice.wanted_crops import seeds_left
from spadework.crops.loader import load_sheet
from spadework.crops.names import find
from spadework.crops.sheet import Sheet
from spadework.errors import ParameterError, UnknownName
from spadework.garden.blocks import area_m2
from spadework.garden.entries import Block, PlantedOut, RowsRun, Sown
from spadework.garden.planting import Planting
from spadework.garden.records import Bed, SeedLot
from spadework.garden.state import Garden
from spadework.usecases.bed_names import bed_called
from spadework.usecases.crop_words import piece_word
from spadework.usecases.keep_book import Act, State, new_planting_key
from spadework.usecases.lock_lines import LockLine, lock_lines
from spadework.usecases.plant_ground import ground_for, places_in, usual_rooms
from spadework.usecases.write_answer import WriteAnswer, Writing, open_for_writing, write

Way: TypeAlias = Literal["here", "tray", "out", "bought"]

WAYS: Final[tuple[Way, ...]] = ("here", "tray", "out", "bought")

TRAY_SEEDS: Final = 24
"""Seeds in a tray where nobody says how many. Our own rule."""

_EVEN: Final = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class Blanks:
    """What was filled in; None or empty for what was left blank.

    Parameters
    ----------
    way : {"here", "tray", "out", "bought"}
        Sown where it grows, sown in a tray, planted out from a tray, or as bought plants.
    crop, bed, lot, source : str
        Crop and bed by any name; seed lot and the planting in the tray by key.
    variety : str
    rows, number, seeds : int or None
        Rows, and plants (of a tray, seeds); seeds of what is sown in place, None for as many as it takes.
    spacing_cm, row_cm, length_m, depth_mm : float or None
    across_m, along_m : float or None  [m]
        Where in the bed it begins, from its corner; None for the free place nearest to it.
    """

    way: Way = "here"
    crop: str = ""
    bed: str = ""
    variety: str = ""
    lot: str = ""
    source: str = ""
    rows: int | None = None
    number: int | None = None
    seeds: int | None = None
    spacing_cm: float | None = None
    row_cm: float | None = None
    length_m: float | None = None
    depth_mm: float | None = None
    across_m: float | None = None
    along_m: float | None = None


class ComesTo(msgspec.Struct, frozen=True, kw_only=True):
    """What a filled sentence comes to.

    Parameters
    ----------
    crop, bed : str
        By key.
    rows, row_cm, spacing_cm, length_m, depth_mm : number or None
        As they are taken where they were left blank.
    across : bool
        Rows run across the bed.
    plants : int
        At the spacing, or as said.
    piece : str
        What goes into the ground: "seeds", "cloves", "plants".
    pieces : int
        How many of them.
    per_m : float or None
        Seeds for a metre of row.
    row_m : float or None  [m]
        Of row in all.
    left, left_after : float or None
        In the packet, before and after.
    germination : float or None
        0 to 1, as tested.
    block : Block or None
        Ground it takes; None where no free place holds it, or it goes into a tray.
    fits : bool
    places : list of (float, float)  [m]
        Of the plants, across and along the bed.
    free_m2 : float or None  [m2]
        Left free in the bed afterwards.
    locks : list of LockLine
        On the bed.
    variety : str
    """

    way: Way
    crop: str
    bed: str
    variety: str
    rows: int | None
    row_cm: float | None
    spacing_cm: float | None
    length_m: float | None
    depth_mm: float | None
    across: bool
    plants: int
    piece: str
    pieces: int
    per_m: float | None
    row_m: float | None
    left: float | None
    left_after: float | None
    germination: float | None
    block: Block | None
    fits: bool
    places: list[tuple[float, float]]
    free_m2: float | None
    locks: list[LockLine]


def comes_to(garden: Garden, blanks: Blanks, on: date, words: Literal["british", "american"]) -> ComesTo:
    """What the blanks come to in the garden of a day.

    Raises
    ------
    UnknownName
        If no crop, bed, lot or planting is called that.
    ParameterError
        If a number cannot be.
    """
    source = _source(garden, blanks)
    crop = source.crop if source is not None else find(blanks.crop)
    sheet = load_sheet(crop)
    _check(blanks)
    lot = _lot(garden, blanks, crop)
    bed = bed_called(garden, blanks.bed) if blanks.bed else None
    if blanks.way == "tray":
        return _in_tray(garden, blanks, sheet, lot, bed, on)
    if bed is None:
        raise ParameterError("It is not said in which bed.", "Choose one.")
    return _in_bed(garden, blanks, sheet, lot, bed, source, on, words)


def write_sentence(path: Path, blanks: Blanks, how: Writing) -> WriteAnswer:
    """Write the planting a sentence tells of.

    Raises
    ------
    UnknownName, ParameterError
        As `comes_to`.
    StoreReadOnly, StoreError
    """
    folder, state = open_for_writing(path)
    garden = state.garden
    found = comes_to(garden, blanks, how.day, folder.site.words)
    act = _act(state, blanks, found, how.day)
    return write(folder, state, [act], how, question="plant")


def _act(state: State, blanks: Blanks, found: ComesTo, on: date) -> Act:
    garden = state.garden
    key = new_planting_key(garden, found.crop, on)
    run: RowsRun = "across" if found.across else ""
    length = None if found.length_m is None else round(found.length_m, 2)
    if found.way in ("here", "tray"):
        method = "raised" if found.way == "tray" else "" if found.piece == "seeds" else found.piece
        return Act(
            payload=Sown(
                planting=key,
                crop=found.crop,
                variety=found.variety,
                method=method,
                rows=found.rows,
                row_cm=found.row_cm,
                row_length_m=length,
                rows_run=run if found.rows else "",
                spacing_cm=found.spacing_cm,
                seeds=found.pieces,
                depth_mm=found.depth_mm,
                lot=blanks.lot,
                tray=_tray(garden) if found.way == "tray" else "",
                block=found.block,
            ),
            on=on,
            bed=found.bed,
            planting=key,
        )
    source = _source(garden, blanks)
    moves_all = source is not None and (source.plants.number or float("inf")) <= found.plants
    key = source.key if source is not None and moves_all else key
    return Act(
        payload=PlantedOut(
            planting=key,
            crop=found.crop,
            variety=found.variety,
            plants=found.plants,
            rows=found.rows,
            row_cm=found.row_cm,
            row_length_m=length,
            rows_run=run,
            spacing_cm=found.spacing_cm,
            from_planting="" if source is None or moves_all else source.key,
            bought=found.way == "bought",
            block=found.block,
        ),
        on=on,
        bed=found.bed,
        planting=key,
    )


def in_trays(garden: Garden, day: date) -> list[Planting]:
    """Plantings that wait in trays or on a shelf to be planted out."""
    shelves = {key for key, bed in garden.beds.items() if bed.shape == "shelf"}
    return [each for each in garden.standing(day) if not each.bed or each.bed in shelves]


def _tray(garden: Garden) -> str:
    trays = [key for key, item in garden.kit.items() if item.sort == "tray"]
    return trays[0] if trays else "tray"


def _source(garden: Garden, blanks: Blanks) -> Planting | None:
    if blanks.way != "out":
        return None
    if not blanks.source:
        raise ParameterError("It is not said which plants.", "Choose those that wait in a tray.")
    found = garden.plantings.get(blanks.source)
    if found is None:
        raise UnknownName("Those plants are not in the book.", "Choose some that wait in a tray.")
    return found


def _lot(garden: Garden, blanks: Blanks, crop: str) -> SeedLot | None:
    if not blanks.lot or blanks.way not in ("here", "tray"):
        return None
    lot = garden.tin.get(blanks.lot)
    if lot is None:
        raise UnknownName("No packet in the tin is called that.", "Choose one of the tin.")
    if lot.crop != crop:
        raise ParameterError("That packet is of another crop.", "Choose one of this crop, or none.")
    return lot


def _check(blanks: Blanks) -> None:
    for name, value, least, most in (
        ("rows", blanks.rows, 1, 200),
        ("plants or seeds", blanks.number, 1, 100_000),
        ("seeds", blanks.seeds, 1, 100_000),
        ("plants apart", blanks.spacing_cm, 0.5, 400.0),
        ("rows apart", blanks.row_cm, 0.5, 600.0),
        ("a row's length", blanks.length_m, 0.1, 200.0),
        ("depth", blanks.depth_mm, 0.0, 300.0),
        ("its place across", blanks.across_m, 0.0, 100.0),
        ("its place along", blanks.along_m, 0.0, 200.0),
    ):
        if value is not None and not least <= value <= most:
            raise ParameterError(f"{value:g} cannot be: {name}.", "Leave it blank for the usual.")


def _in_tray(
    garden: Garden, blanks: Blanks, sheet: Sheet, lot: SeedLot | None, bed: Bed | None, on: date
) -> ComesTo:
    shelves = [key for key, each in garden.beds.items() if each.shape == "shelf" and each.gone_on is None]
    where = bed.key if bed is not None and bed.shape == "shelf" else shelves[0] if shelves else ""
    germination = germination_of(lot)
    pieces = blanks.number or TRAY_SEEDS
    share = sheet.sowing.lot_germination_pct.value / 100.0 if germination is None else germination
    left = seeds_left(sheet, lot)
    return ComesTo(
        way="tray",
        crop=sheet.key,
        bed=where,
        variety=_variety(blanks, lot),
        rows=None,
        row_cm=None,
        spacing_cm=None,
        length_m=None,
        depth_mm=blanks.depth_mm if blanks.depth_mm is not None else min(sheet.sowing.depth_mm.value, 15.0),
        across=False,
        plants=max(round(pieces * share / SPARE), 1),
        piece="seeds",
        pieces=pieces,
        per_m=None,
        row_m=None,
        left=left,
        left_after=None if left is None else left - pieces,
        germination=germination,
        block=None,
        fits=True,
        places=[],
        free_m2=None,
        locks=lock_lines(garden, on, bed=where) if where else [],
    )


def _in_bed(
    garden: Garden,
    blanks: Blanks,
    sheet: Sheet,
    lot: SeedLot | None,
    bed: Bed,
    source: Planting | None,
    on: date,
    words: Literal["british", "american"],
) -> ComesTo:
    spacing_cm = blanks.spacing_cm or sheet.sowing.in_row_cm.value
    row_cm = blanks.row_cm or (
        sheet.sowing.row_cm.value if blanks.spacing_cm is None else max(sheet.sowing.row_cm.value, spacing_cm)
    )
    number = blanks.number
    if number is None and source is not None:
        if not source.plants.number:
            raise ParameterError("It is not known how many plants there are.", "Say how many are planted.")
        number = round(source.plants.number)
    rows, length_m, block, across = ground_for(
        garden,
        bed,
        on,
        row_cm,
        spacing_cm,
        said_rows=blanks.rows,
        number=number,
        length_m=blanks.length_m,
        at=(blanks.across_m, blanks.along_m),
    )
    in_row = max(1, int(length_m * 100.0 / spacing_cm + _EVEN))
    plants = number if number is not None else rows * in_row
    places = places_in(sheet.key, block, rows, row_cm, spacing_cm, plants, across=across)
    metres = rows * length_m
    per_m: float | None = None
    pieces, piece = plants, "plants"
    germination = germination_of(lot)
    if blanks.way == "here":
        piece = piece_word(sheet.key)
        if piece == "seeds":
            per_m = seeds_per_m(sheet, germination, spacing_cm=spacing_cm)
            pieces = blanks.seeds or whole_seeds(per_m * metres)
            per_m = pieces / metres if blanks.seeds and metres else per_m
    left = seeds_left(sheet, lot)
    free = garden.free_ground(bed.key, on, usual_rooms(garden))
    free_m2 = None if free is None or free.unsized else free.area_m2
    return ComesTo(
        way=blanks.way,
        crop=sheet.key,
        bed=bed.key,
        variety=_variety(blanks, lot, source),
        rows=rows,
        row_cm=row_cm,
        spacing_cm=spacing_cm,
        length_m=length_m,
        depth_mm=(blanks.depth_mm if blanks.depth_mm is not None else sheet.sowing.depth_mm.value)
        if blanks.way == "here"
        else None,
        across=across,
        plants=plants,
        piece=piece,
        pieces=pieces,
        per_m=per_m,
        row_m=round(metres, 2),
        left=left,
        left_after=None if left is None else left - pieces,
        germination=germination,
        block=block,
        fits=block is not None,
        places=places,
        free_m2=None if free_m2 is None or block is None else round(max(free_m2 - area_m2(block), 0.0), 2),
        locks=lock_lines(garden, on, bed=bed.key, words=words),
    )


def _variety(blanks: Blanks, lot: SeedLot | None, source: Planting | None = None) -> str:
    if blanks.variety.strip():
        return blanks.variety.strip()
    return lot.variety if lot is not None else source.variety if source is not None else ""
