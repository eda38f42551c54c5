"""A planting that stands, said otherwise by its own sentence, or moved to another bed or place.

Said otherwise, the entry it began with is written anew in the old one's place: what hangs on it (places,
counts, the packet, jobs) follows. Moved, it is an act of its day: lifted and set anew.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path

import msgspec

from spadework.advice.moving import MovingCost, moving_cost
from spadework.crops.loader import load_sheet
from spadework.errors import ParameterError
from spadework.garden.entries import Entry, Payload, PlantedOut, RowsRun, Sown
from spadework.garden.fold import fold
from spadework.garden.planting import Planting
from spadework.garden.site import Words
from spadework.garden.state import Garden
from spadework.usecases.correct_entry import correct_entry
from spadework.usecases.crop_words import piece_word
from spadework.usecases.keep_book import Act, new_planting_key
from spadework.usecases.lock_lines import LockLine, lock_lines
from spadework.usecases.look import look_at
from spadework.usecases.plant_sentence import Blanks, ComesTo, Way, comes_to, in_trays
from spadework.usecases.show_planting import planting_called
from spadework.usecases.write_answer import WriteAnswer, Writing, open_for_writing, write

_ON_GROUND = ("bed", "rows", "number", "spacing_cm", "row_cm", "length_m", "across_m", "along_m")


@dataclass(frozen=True, slots=True, kw_only=True)
class Begun:
    """How a planting was put where it stands.

    Parameters
    ----------
    planting : Planting
    entry : Entry
        That it began with, or that set it out where it stands.
    blanks : Blanks
        What that entry says.
    garden : Garden
        As it is without that entry.
    locks : list of LockLine
        In force on it today.
    """

    planting: Planting
    entry: Entry
    blanks: Blanks
    garden: Garden
    locks: list[LockLine]


class MoveComesTo(msgspec.Struct, frozen=True, kw_only=True):
    """What a move comes to: the place it takes, how many go, and what it costs.

    Parameters
    ----------
    all_of_it : bool
        Whether none stays behind.
    """

    found: ComesTo
    all_of_it: bool
    cost: MovingCost


def begun(path: Path, today: date, name: str) -> Begun:
    """How a planting was put where it stands, by its key.

    Raises
    ------
    UnknownName, StoreError
    ParameterError
        If it is over, or nothing in the book says how it began.
    """
    look = look_at(path, today)
    planting = planting_called(look, name)
    if not planting.stands(today):
        raise ParameterError("It stands no more.", "What was wrong about it is corrected in its book.")
    entry = _beginning(planting)
    act = entry.act
    assert isinstance(act, (Sown, PlantedOut))
    garden = look.garden
    left = [each for each in garden.entries if each.key != entry.key]
    without = fold(left, day=today, picked_whole=garden.picked_whole)
    return Begun(
        planting=planting,
        entry=entry,
        blanks=_blanks(act, entry, without),
        garden=without,
        locks=lock_lines(garden, today, planting=planting.key, words=look.words),
    )


def change_comes_to(begin: Begun, blanks: Blanks, on: date, words: Words) -> ComesTo:
    """What the sentence comes to as it is said now.

    Raises
    ------
    UnknownName, ParameterError
    """
    return _locked(comes_to(begin.garden, blanks, on, words), begin.locks)


def change_planting(path: Path, name: str, blanks: Blanks, how: Writing) -> WriteAnswer:
    """Write the entry a planting began with as the sentence says it now.

    Parameters
    ----------
    path : Path
    name : str
        Key of the planting.
    blanks : Blanks
        The whole sentence; what is left blank is taken as usual.
    how : Writing
        Its day, where one is given, is the day it was really sown or planted.

    Raises
    ------
    UnknownName, StoreReadOnly, StoreError
    ParameterError
        If nothing would be different, or a number cannot be.
    """
    folder, _ = open_for_writing(path)
    begin = begun(path, how.today, name)
    on = how.on or begin.entry.happened_on
    found = change_comes_to(begin, blanks, on, folder.site.words)
    return correct_entry(
        path,
        how,
        begin.entry.key,
        anew=_anew(begin, blanks, found),
        bed=found.bed if found.bed != begin.entry.bed else "",
        question="change",
    )


def move_comes_to(path: Path, today: date, name: str, blanks: Blanks, on: date, words: Words) -> MoveComesTo:
    """What moving a planting comes to.

    Parameters
    ----------
    path : Path
    today : date
    name : str
        Key of the planting.
    blanks : Blanks
        Bed, place, rows and how many; what is left blank is as it stands, and of the place the nearest free.
    on : date
    words : {"british", "american"}

    Raises
    ------
    UnknownName, ParameterError, StoreError
    """
    look = look_at(path, today)
    planting = planting_called(look, name)
    if not planting.stands(on):
        raise ParameterError("It stands no more.", "What is over cannot be moved.")
    if planting.key in {each.key for each in in_trays(look.garden, on)}:
        raise ParameterError("They still wait in their tray.", "Plant them out: that is an act of its own.")
    if on < planting.started_on:
        raise ParameterError("It did not stand yet on that day.", "Give the day it was moved.")
    stood = planting.plants.number
    number = blanks.number if blanks.number is not None else None if stood is None else round(stood)
    if number is None:
        raise ParameterError("Nobody has counted them yet.", "Say how many are moved.")
    all_of_it = stood is None or number >= round(stood)
    # its own ground is free for what is set anew
    lifted = {**look.garden.plantings, planting.key: replace(planting, stays=())} if all_of_it else None
    garden = look.garden if lifted is None else replace(look.garden, plantings=lifted)
    asked = replace(
        blanks,
        way="out",
        source=planting.key,
        number=number,
        spacing_cm=blanks.spacing_cm or planting.spacing_cm,
        row_cm=blanks.row_cm or planting.row_cm,
        bed=blanks.bed or planting.bed,
        variety=planting.variety,
    )
    return MoveComesTo(
        found=_locked(
            comes_to(garden, asked, on, words),
            lock_lines(look.garden, today, planting=planting.key, words=words),
        ),
        all_of_it=all_of_it,
        cost=moving_cost(load_sheet(planting.crop), perennial=planting.perennial),
    )


def move_planting(path: Path, name: str, blanks: Blanks, how: Writing) -> WriteAnswer:
    """Lift a planting, or some of it, and set it anew: in another bed, or in another place of its own.

    Raises
    ------
    UnknownName, ParameterError, StoreReadOnly, StoreError
    """
    folder, state = open_for_writing(path)
    moved = move_comes_to(path, how.today, name, blanks, how.day, folder.site.words)
    found = moved.found
    planting = state.garden.plantings[planting_called(look_at(path, how.today), name).key]
    key = planting.key if moved.all_of_it else new_planting_key(state.garden, planting.crop, how.day)
    run: RowsRun = "across" if found.across else ""
    act = PlantedOut(
        planting=key,
        crop=planting.crop,
        variety=planting.variety,
        plants=found.plants,
        rows=found.rows,
        row_cm=found.row_cm,
        row_length_m=None if found.length_m is None else round(found.length_m, 2),
        rows_run=run,
        spacing_cm=found.spacing_cm,
        from_planting="" if moved.all_of_it else planting.key,
        block=found.block,
        perennial=planting.perennial,
        moved=moved.all_of_it,
    )
    return write(
        folder, state, [Act(payload=act, on=how.day, bed=found.bed, planting=key)], how, question="move"
    )


def _locked(found: ComesTo, locks: list[LockLine]) -> ComesTo:
    """With the locks on the planting itself before those of the bed."""
    known = {line.lock for line in locks}
    others = [line for line in found.locks if line.lock not in known]
    return msgspec.structs.replace(found, locks=[*locks, *others])


def _beginning(planting: Planting) -> Entry:
    """The entry that put it where it stands: the last move, else that it was set out, else sown."""
    own = [
        each
        for each in planting.history
        if isinstance(each.act, (Sown, PlantedOut)) and (each.act.planting or each.planting) == planting.key
    ]
    moved = [each for each in own if isinstance(each.act, PlantedOut) and each.act.moved]
    out = [
        each for each in own if isinstance(each.act, PlantedOut) and each.happened_on == planting.set_out_on
    ]
    for found in (moved[-1:], out[:1], own[:1]):
        if found:
            return found[0]
    raise ParameterError("The book does not say how it began.", "Say it in a line.")


def _blanks(act: Sown | PlantedOut, entry: Entry, without: Garden) -> Blanks:
    block = act.block
    length = act.row_length_m
    if length is None and block is not None:
        length = block.width_m if act.rows_run == "across" else block.length_m
    own = act.planting or entry.planting
    source = ""
    if isinstance(act, Sown):
        way: Way = "tray" if act.tray else "here"
    else:
        source = act.from_planting or (own if own in without.plantings else "")
        way = "out" if source in without.plantings else "bought"
    return Blanks(
        way=way,
        crop=act.crop,
        bed=entry.bed,
        variety=act.variety,
        lot=act.lot if isinstance(act, Sown) else "",
        source=source if way == "out" else "",
        rows=act.rows,
        number=_number(act),
        seeds=act.seeds if isinstance(act, Sown) and not _in_pieces(act) and not act.tray else None,
        spacing_cm=act.spacing_cm,
        row_cm=act.row_cm,
        length_m=length,
        depth_mm=act.depth_mm if isinstance(act, Sown) else None,
        across_m=None if block is None else block.across_m,
        along_m=None if block is None else block.along_m,
    )


def _number(act: Sown | PlantedOut) -> int | None:
    if isinstance(act, PlantedOut):
        return act.plants
    return act.seeds if act.tray or _in_pieces(act) else None


def _in_pieces(act: Sown) -> bool:
    """Set as cloves, sets or tubers, each of which is a plant."""
    return piece_word(act.crop, act.method) != "seeds"


def _anew(begin: Begun, blanks: Blanks, found: ComesTo) -> Payload:
    """The act as the sentence says it now; what the sentence does not hold stays as it was."""
    act, old = begin.entry.act, begin.blanks
    assert isinstance(act, (Sown, PlantedOut))
    said = {"variety": blanks.variety.strip()}
    act = msgspec.structs.replace(act, **said)
    if isinstance(act, Sown):
        depth = act.depth_mm if blanks.depth_mm == old.depth_mm else found.depth_mm
        act = msgspec.structs.replace(act, lot=blanks.lot, depth_mm=depth)
    other_ground = any(getattr(blanks, name) != getattr(old, name) for name in _ON_GROUND)
    if isinstance(act, Sown) and (other_ground or blanks.seeds != old.seeds):
        act = msgspec.structs.replace(act, seeds=found.pieces)
    if isinstance(act, PlantedOut) and other_ground:
        act = msgspec.structs.replace(act, plants=found.plants)
    if found.way == "tray" or not other_ground:
        return act
    return msgspec.structs.replace(
        act,
        rows=found.rows,
        row_cm=found.row_cm,
        row_length_m=None if found.length_m is None else round(found.length_m, 2),
        rows_run="across" if found.across else "",
        spacing_cm=found.spacing_cm,
        area_m2=None,
        block=found.block,
        spots=(),
    )
