"""Where plantings stand in their bed, where each plant is, and what is free.

A planting of which nobody said where it stands is put side by side with the others from the bed's corner, in
the order they came, and the answer says that this is assumed.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Final, TypeAlias

from spadework.garden.blocks import area_m2, free_stretches, openings, spot_ground
from spadework.garden.entries import Block, Spot
from spadework.garden.geometry import Outline
from spadework.garden.planting import Planting

Room: TypeAlias = tuple[float, float]
"""Usual distances of a crop: between rows, and between plants in a row.  [cm]"""

SPOT_ROOM_CM: Final = 30.0
"""Room of a single plant of which no spacing is known. Class: common-practice."""

_EVEN: Final = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class Laid:
    """A planting on the ground of its bed.

    Parameters
    ----------
    planting : str
    blocks : tuple of Block
        Ground it takes; none where it stands in single places, or where no room was left for it.
    spots : tuple of Spot
        Places of single plants.
    assumed : bool
        Nobody said where it stands.
    sized : bool
        Whether it is known how much room it takes; where it is not, it shares with its like what is left.
    fits : bool
        False where the bed has less room left than it takes.
    """

    planting: str
    blocks: tuple[Block, ...] = ()
    spots: tuple[Spot, ...] = ()
    assumed: bool = False
    sized: bool = True
    fits: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class Free:
    """What a bed leaves free on a day.

    Parameters
    ----------
    stretches : tuple of Block
        The largest rectangle first; they share no ground.
    assumed : tuple of str
        Plantings of which nobody said where they stand.
    unsized : tuple of str
        Plantings of which it is not known how much room they take; what they take is not taken off.
    """

    stretches: tuple[Block, ...]
    assumed: tuple[str, ...] = ()
    unsized: tuple[str, ...] = ()

    @property
    def area_m2(self) -> float:
        """All of it together; at most this where a planting is `unsized`."""
        return sum(map(area_m2, self.stretches))


def laid_out(
    outline: Outline, plantings: Sequence[Planting], day: date, usual: Mapping[str, Room] | None = None
) -> tuple[Laid, ...]:
    """Every planting on the ground of a bed.

    Parameters
    ----------
    outline : Outline
        Of the bed.
    plantings : sequence of Planting
        That stand in it on the day, in the order they came.
    day : date
    usual : mapping of str to Room or None
        Usual distances by crop, for what nobody said.

    Returns
    -------
    tuple of Laid
        In the order of the plantings.
    """
    return tuple(_lay(outline, plantings, day, usual or {}, share_rest=True).values())


def free_ground(
    outline: Outline, plantings: Sequence[Planting], day: date, usual: Mapping[str, Room] | None = None
) -> Free:
    """What a bed leaves free on a day; parameters as for `laid_out`."""
    laid = _lay(outline, plantings, day, usual or {}, share_rest=False)
    of = {planting.key: planting for planting in plantings}
    taken = [block for each in laid.values() for block in _ground(each, of[each.planting], usual or {})]
    return Free(
        stretches=free_stretches(outline.width_m, outline.length_m, taken),
        assumed=tuple(key for key, each in laid.items() if each.assumed and each.sized),
        unsized=tuple(key for key, each in laid.items() if not each.sized),
    )


def place_for(
    outline: Outline,
    plantings: Sequence[Planting],
    day: date,
    width_m: float,
    length_m: float,
    usual: Mapping[str, Room] | None = None,
) -> Block | None:
    """The free place of this size nearest the bed's corner; None where there is none that holds it whole.

    Parameters
    ----------
    outline, plantings, day, usual
        As for `laid_out`.
    width_m, length_m : float  [m]
        Across the bed and along it.
    """
    laid = _lay(outline, plantings, day, usual or {}, share_rest=False)
    of = {planting.key: planting for planting in plantings}
    taken = [block for each in laid.values() for block in _ground(each, of[each.planting], usual or {})]
    block, fits = _put(outline, taken, (width_m, length_m))
    return block if fits else None


def plant_places(
    laid: Laid, planting: Planting, *, count: int | None = None, usual: Room | None = None
) -> tuple[Spot, ...]:
    """Where each plant stands in the bed, rows along its length unless the planting's run across.

    Parameters
    ----------
    laid : Laid
    planting : Planting
    count : int or None
        Plants to place; None for as many as stand, or as fit where that is not known.
    usual : Room or None
        Usual distances of the crop, for what nobody said.

    Returns
    -------
    tuple of Spot
        Empty where no distance is known. Told spots come as told, and `count` does not change them.

    Notes
    -----
    Plants stand in the middle of their cells, rows in the middle of the block. Fewer plants than fit fill it
    from its corner; more stand closer in the row, as seedlings do before they are thinned.
    """
    row_cm, spacing_cm = _distances(planting, usual)
    if not laid.blocks or row_cm is None or spacing_cm is None:
        return laid.spots
    if count is None and planting.plants.number is not None:
        count = round(planting.plants.number)
    rows = [_rows_in(block, planting, row_cm, alone=len(laid.blocks) == 1) for block in laid.blocks]
    fit = [
        number * max(1, math.floor(_run_m(block, planting) * 100 / spacing_cm + _EVEN))
        for number, block in zip(rows, laid.blocks, strict=True)
    ]
    places: list[Spot] = list(laid.spots)
    left = sum(fit) if count is None else max(0, count - len(laid.spots))
    room_left = sum(fit)
    for block, number, most in zip(laid.blocks, rows, fit, strict=True):
        here = min(most, left) if left <= room_left else math.ceil(left * most / room_left)
        places += _in_rows(
            block, planting, (row_cm, spacing_cm), number, max(most // number, math.ceil(here / number)), here
        )
        left, room_left = left - here, room_left - most
    return tuple(places)


def _lay(
    outline: Outline,
    plantings: Sequence[Planting],
    day: date,
    usual: Mapping[str, Room],
    *,
    share_rest: bool,
) -> dict[str, Laid]:
    found: dict[str, Laid | None] = {}
    taken: list[Block] = []
    for planting in plantings:
        stay = planting.stay_on(day)
        told = stay is not None and bool(stay.blocks or stay.spots)
        found[planting.key] = None
        if told and stay is not None:
            laid = Laid(planting=planting.key, blocks=stay.blocks, spots=stay.spots)
            found[planting.key] = laid
            taken += _ground(laid, planting, usual)
    unsized: list[str] = []
    for planting in plantings:
        if found[planting.key] is not None:
            continue
        wanted = _wanted(planting, outline, usual.get(planting.crop))
        if wanted is None:
            unsized.append(planting.key)
            continue
        block, fits = _put(outline, taken, wanted)
        taken += [block] if block is not None else []
        found[planting.key] = Laid(
            planting=planting.key, blocks=(block,) if block is not None else (), assumed=True, fits=fits
        )
    for place, key in enumerate(unsized):
        here: Block | None = None
        if share_rest:
            free_m2 = sum(map(area_m2, free_stretches(outline.width_m, outline.length_m, taken)))
            here, _ = _put(outline, taken, free_m2 / (len(unsized) - place))
            taken += [here] if here is not None else []
        found[key] = Laid(
            planting=key,
            blocks=(here,) if here is not None else (),
            assumed=True,
            sized=False,
            fits=here is not None or not share_rest,
        )
    return {key: laid for key, laid in found.items() if laid is not None}


def _ground(laid: Laid, planting: Planting, usual: Mapping[str, Room]) -> Iterable[Block]:
    row_cm, spacing_cm = _distances(planting, usual.get(planting.crop))
    room_m = (spacing_cm or row_cm or SPOT_ROOM_CM) / 100
    return (*laid.blocks, *(spot_ground(across, along, room_m) for across, along in laid.spots))


def _wanted(planting: Planting, outline: Outline, usual: Room | None) -> tuple[float, float] | float | None:
    """Width and length its rows take, or an area of any shape; None where neither is known."""
    if planting.rows is not None and planting.rows > 0 and planting.row_cm is not None:
        deep_m = planting.rows * planting.row_cm / 100
        across = planting.rows_run == "across"
        side_m = outline.length_m if across else outline.width_m
        if not planting.rows_run and deep_m > side_m * (1 + _EVEN):
            across, side_m = True, outline.length_m
        run_m = planting.row_length_m or (outline.width_m if across else outline.length_m)
        deep_m = min(deep_m, side_m)
        return (min(run_m, outline.width_m), deep_m) if across else (deep_m, min(run_m, outline.length_m))
    if planting.area_m2 is not None:
        return planting.area_m2 or None
    row_cm, spacing_cm = _distances(planting, usual)
    number = planting.plants.number if planting.planted is None else float(planting.planted)
    if row_cm is None or spacing_cm is None or not number:
        return None
    return min(number * row_cm * spacing_cm / 1e4, outline.area_m2)


def _put(
    outline: Outline, taken: Sequence[Block], wanted: tuple[float, float] | float
) -> tuple[Block | None, bool]:
    """The free place nearest the corner that holds it; else the largest, as far as that goes."""
    free = list(openings(outline.width_m, outline.length_m, taken))
    if not free:
        return None, False
    if isinstance(wanted, tuple):
        width_m, length_m = wanted
        hold = [b for b in free if b.width_m >= width_m - _EVEN and b.length_m >= length_m - _EVEN]
        if hold:
            block = min(hold, key=lambda b: (b.along_m, b.across_m))
            return _cut(block, width_m, length_m), True
        ground_m2 = width_m * length_m
    else:
        ground_m2 = wanted
        hold = [b for b in free if area_m2(b) >= ground_m2 * (1 - _EVEN)]
        if hold:
            # The widest of those nearest the corner, so that a bed is taken up from its end.
            block = min(hold, key=lambda b: (b.along_m, b.across_m, -b.width_m))
            return _cut(block, block.width_m, ground_m2 / block.width_m), True
    block = max(free, key=area_m2)
    length_m = min(block.length_m, ground_m2 / block.width_m)
    return _cut(block, block.width_m, length_m), area_m2(block) >= ground_m2 * (1 - _EVEN)


def _cut(block: Block, width_m: float, length_m: float) -> Block:
    return Block(
        across_m=block.across_m,
        along_m=block.along_m,
        width_m=min(width_m, block.width_m),
        length_m=min(length_m, block.length_m),
    )


def _distances(planting: Planting, usual: Room | None) -> tuple[float | None, float | None]:
    """Between rows and between plants, as told; else as usual, and one for the other where only one is."""
    row_cm, spacing_cm = planting.row_cm or None, planting.spacing_cm or None
    if usual is not None:
        row_cm, spacing_cm = row_cm or usual[0], spacing_cm or usual[1]
    return row_cm or spacing_cm, spacing_cm or row_cm


def _run_m(block: Block, planting: Planting) -> float:
    return block.width_m if planting.rows_run == "across" else block.length_m


def _rows_in(block: Block, planting: Planting, row_cm: float, *, alone: bool) -> int:
    """Rows in a block: those told, where it is the only one; else as many as fit."""
    if alone and planting.rows:
        return planting.rows
    side_m = block.length_m if planting.rows_run == "across" else block.width_m
    return max(1, math.floor(side_m * 100 / row_cm + _EVEN))


def _in_rows(block: Block, planting: Planting, room: Room, rows: int, in_row: int, count: int) -> list[Spot]:
    across = planting.rows_run == "across"
    side_m, run_m = (block.length_m, block.width_m) if across else (block.width_m, block.length_m)
    apart_m = min(room[0] / 100, side_m / rows)
    step_m = min(room[1] / 100, run_m / in_row)
    first_side = (side_m - apart_m * (rows - 1)) / 2
    first_run = (run_m - step_m * (in_row - 1)) / 2
    places: list[Spot] = []
    for number in range(count):
        row, place = divmod(number, in_row)
        side, run = first_side + row * apart_m, first_run + place * step_m
        here = (run, side) if across else (side, run)
        places.append((block.across_m + here[0], block.along_m + here[1]))
    return places
