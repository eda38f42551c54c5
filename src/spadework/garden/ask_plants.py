"""Acts on plants that cannot be: thinning what was never sown, more taken than stood, after it was over."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from spadework.garden import entries as kinds
from spadework.garden.ask_where import where_questions
from spadework.garden.entries import Entry
from spadework.garden.geometry import plants_at_spacing
from spadework.garden.lookup import nearest
from spadework.garden.phrases import day_text
from spadework.garden.planting import EXACT, Planting
from spadework.garden.question import Question
from spadework.garden.state import Garden

_OF_A_PLANTING: Final = (
    kinds.PrickedOut,
    kinds.Counted,
    kinds.Measured,
    kinds.Thinned,
    kinds.Picked,
    kinds.Lifted,
    kinds.Ended,
    kinds.Stage,
)
_AFTERWARDS: Final = (
    kinds.Kept,
    kinds.Note,
    kinds.Photo,
    kinds.Minutes,
    kinds.Skipped,
    kinds.Seen,
    kinds.Locked,
    kinds.Unlocked,
    kinds.Sown,
    kinds.PlantedOut,
)
_SLACK: Final = 1.02
"""Lengths and areas are paced out as often as taped. Class: common-practice."""


def plant_questions(garden: Garden, entry: Entry) -> Iterator[Question]:
    """What is odd about an act on plants."""
    act = entry.act
    if isinstance(act, kinds.Sown):
        yield from _start(garden, entry, act)
        yield from _lot(garden, act)
        return
    if isinstance(act, kinds.PlantedOut):
        yield from _start(garden, entry, act)
        yield from _source(garden, act)
        return
    planting = garden.plantings.get(entry.planting)
    if planting is None:
        yield from _which(garden, entry)
        return
    when = list(_when(entry, planting))
    yield from when
    yield from _where(garden, entry, planting)
    if not when:
        yield from _how_many(garden, entry, planting)


def _which(garden: Garden, entry: Entry) -> Iterator[Question]:
    if entry.planting:
        known = {each.key: each.key for each in garden.plantings.values()}
        yield Question(
            about="planting",
            found=f"No planting {entry.planting} is known.",
            why="It was never sown or planted, as far as the book knows.",
            nearest=nearest(entry.planting, known),
        )
    elif isinstance(entry.act, _OF_A_PLANTING):
        there = tuple(each.key for each in garden.standing(entry.happened_on, bed=entry.bed)[:12])
        yield Question(
            about="planting",
            found="No planting is named.",
            why="Which plants it was about decides what it means."
            if there
            else "Nothing is known to stand there.",
            nearest=there,
        )


def _when(entry: Entry, planting: Planting) -> Iterator[Question]:
    if entry.happened_on < planting.started_on:
        began = "planted" if planting.sown_on is None else "sown"
        yield Question(
            about="day",
            found=f"{planting.key}: {began} only on {day_text(planting.started_on, year=True)}.",
            why=f"Nothing can have been done to it on {day_text(entry.happened_on, year=True)}.",
        )
    elif (
        isinstance(entry.act, kinds.Stage)
        and entry.act.what == "up"
        and entry.happened_on == planting.started_on
        and planting.sown_on == planting.started_on
    ):
        yield Question(
            about="day",
            found=f"{planting.key}: sown on that very day.",
            why="No seed comes up the day it is sown.",
        )
    if (
        planting.ended_on is not None
        and entry.happened_on >= planting.ended_on
        and not isinstance(entry.act, _AFTERWARDS)
        # A count shows that some still stand; clearing is the usual end of what has run out.
        and not (isinstance(entry.act, kinds.Ended) and planting.ended_how in ("lifted", "picked", "moved"))
    ):
        yield Question(
            about="planting",
            found=f"{planting.key}: over since {day_text(planting.ended_on, year=True)}"
            f" ({planting.ended_how}).",
            why="Nothing of it stands, as far as the book knows.",
        )


def _where(garden: Garden, entry: Entry, planting: Planting) -> Iterator[Question]:
    beds = {stay.bed for stay in planting.stays}
    if entry.bed and entry.bed in garden.beds and beds and entry.bed not in beds:
        yield Question(
            about="bed",
            found=f"{planting.key}: none of it stands in {garden.beds[entry.bed].name}.",
            why="Either the bed or the planting is another.",
            nearest=tuple(garden.beds[bed].name for bed in sorted(beds) if bed in garden.beds),
        )


def _how_many(garden: Garden, entry: Entry, planting: Planting) -> Iterator[Question]:
    match entry.act:
        case kinds.Thinned(removed=int(removed)):
            yield from _taken(planting, removed, "taken out")
        case kinds.Thinned(left=int(left)):
            yield from _left(planting, left)
        case kinds.Lifted(pieces=int(pieces)):
            yield from _taken(planting, pieces, "lifted")
        case kinds.Picked(pieces=int(pieces)) if planting.crop in garden.picked_whole:
            yield from _taken(planting, pieces, "picked whole")
        case kinds.Ended(plants=int(plants)):
            yield from _taken(planting, plants, "ended")
        case kinds.PrickedOut(plants=plants):
            yield from _left(planting, plants)
        case kinds.Counted(standing=standing, of_row_m=None):
            most = planting.plants.at_most
            if most is not None and standing > most:
                put = "sown or planted" if planting.plants.taken == 0 else "left of what was sown or planted"
                yield Question(
                    about="number",
                    found=f"The count is {standing}, but {most} were {put}.",
                    why="More cannot have come of it.",
                )
        case kinds.Counted(of_row_m=float(of_row_m)):
            length_m = planting.row_length_m
            if length_m is not None and of_row_m > length_m * (planting.rows or 1) * _SLACK:
                yield Question(
                    about="number",
                    found=f"{of_row_m:g} m of row were counted, but there are"
                    f" {length_m * (planting.rows or 1):g} m.",
                    why="The stretch counted is part of the rows.",
                )
        case _:
            pass


def _stood(planting: Planting) -> float | None:
    """The most that can stand, of what is known."""
    plants = planting.plants
    if plants.number is None or (plants.basis not in EXACT and plants.at_most is not None):
        return None if plants.at_most is None else float(plants.at_most)
    return plants.number


def _taken(planting: Planting, count: int, how: str) -> Iterator[Question]:
    stood = _stood(planting)
    if stood is not None and count > stood:
        since = f" ({planting.plants.basis})" if planting.plants.basis else ""
        yield Question(
            about="number",
            found=f"The number {how} is {count}, but at most {stood:g} stood{since}.",
            why="More cannot have gone than there were.",
        )


def _left(planting: Planting, left: int) -> Iterator[Question]:
    stood = _stood(planting)
    if stood is not None and left > stood:
        yield Question(
            about="number",
            found=f"The number left is {left}, but at most {stood:g} stood.",
            why="Plants cannot have been added by that.",
        )


def _start(garden: Garden, entry: Entry, act: kinds.Sown | kinds.PlantedOut) -> Iterator[Question]:
    there = garden.plantings.get(act.planting)
    moved = isinstance(act, kinds.PlantedOut) and act.moved
    if there is not None and not moved and (isinstance(act, kinds.Sown) or there.set_out_on is not None):
        yield Question(
            about="planting",
            found=f"{act.planting}: there already, since {day_text(there.started_on, year=True)}.",
            why="It counts as more of the same planting; a new sowing has a name of its own.",
        )
    if there is not None and act.crop and there.crop != act.crop:
        yield Question(
            about="planting",
            found=f"{act.planting}: it is {there.crop}, not {act.crop}.",
            why="One planting is one crop.",
        )
    if not entry.bed and not (isinstance(act, kinds.Sown) and act.tray) and there is None:
        yield Question(about="bed", found="No bed is named.", why="Without a place it stands nowhere.")
    bed = garden.beds.get(entry.bed)
    outline = None if bed is None else bed.outline
    if bed is None or outline is None:
        return
    yield from where_questions(garden, entry, act, bed, outline)
    if act.area_m2 is not None and act.area_m2 > outline.area_m2 * _SLACK:
        yield Question(
            about="number",
            found=f"{act.area_m2:g} m² do not fit in {bed.name}, which has {outline.area_m2:.3g} m².",
            why="A planting has no more room than its bed.",
        )
    longest_m = max(outline.width_m, outline.length_m)
    if act.rows is not None and act.row_cm is not None and act.rows * act.row_cm / 100 > longest_m * _SLACK:
        yield Question(
            about="number",
            found=f"{act.rows} rows of {act.row_cm:g} cm take {act.rows * act.row_cm / 100:.3g} m,"
            f" and {bed.name} is {outline.width_m:g} by {outline.length_m:g} m.",
            why="They do not fit.",
        )
    if act.row_length_m is not None and act.row_length_m > longest_m * _SLACK:
        yield Question(
            about="number",
            found=f"Rows of {act.row_length_m:g} m do not fit in {bed.name}, which is {longest_m:g} m long.",
            why="One row is no longer than the bed.",
        )
    if isinstance(act, kinds.Sown):
        return
    if act.plants is not None and act.spacing_cm is not None and act.spacing_cm > 0:
        row_cm = act.row_cm if act.row_cm is not None and act.row_cm > 0 else act.spacing_cm
        most = plants_at_spacing(
            outline.width_m, outline.length_m, row_cm=row_cm, spacing_cm=act.spacing_cm
        ).plants
        other = plants_at_spacing(
            outline.length_m, outline.width_m, row_cm=row_cm, spacing_cm=act.spacing_cm
        ).plants
        if act.plants > max(most, other):
            yield Question(
                about="number",
                found=f"{act.plants} plants at {act.spacing_cm:g} cm do not fit in {bed.name}:"
                f" {max(most, other)} do.",
                why="Either the number or the spacing is another.",
            )


def _lot(garden: Garden, act: kinds.Sown) -> Iterator[Question]:
    if not act.lot:
        return
    lot = garden.tin.get(act.lot)
    if lot is None or not lot.described:
        yield Question(
            about="tin",
            found=f"No seed lot {act.lot} is in the tin.",
            why="Nothing is known of its seed.",
            nearest=nearest(act.lot, [key for key, each in garden.tin.items() if each.described])
            or tuple(key for key, each in garden.tin.items() if each.described and each.crop == act.crop),
        )
        return
    if lot.crop and act.crop and lot.crop != act.crop:
        yield Question(
            about="tin",
            found=f"Seed lot {act.lot} is {lot.crop}, not {act.crop}.",
            why="Either the lot or the crop is another.",
            nearest=tuple(key for key, each in garden.tin.items() if each.crop == act.crop),
        )
    left = lot.left()
    if left is not None and act.seeds is not None and act.seeds > left:
        yield Question(
            about="tin",
            found=f"{act.seeds} seeds were sown, but {max(0.0, left):g} were left of lot {act.lot}.",
            why="More cannot be sown than there is.",
        )


def _source(garden: Garden, act: kinds.PlantedOut) -> Iterator[Question]:
    if not act.from_planting or act.from_planting == act.planting:
        return
    source = garden.plantings.get(act.from_planting)
    if source is None:
        yield Question(
            about="planting",
            found=f"No planting {act.from_planting} is known.",
            why="The plants have to come from somewhere.",
            nearest=nearest(act.from_planting, garden.plantings),
        )
        return
    if source.crop != act.crop:
        yield Question(
            about="planting",
            found=f"{act.from_planting}: it is {source.crop}, not {act.crop}.",
            why="Either the crop or the tray is another.",
        )
    if source.ended_on is not None:
        yield Question(
            about="planting",
            found=f"{act.from_planting}: over since {day_text(source.ended_on, year=True)}"
            f" ({source.ended_how}).",
            why="Nothing of it is left to plant.",
        )
    elif act.plants is not None:
        yield from _taken(source, act.plants, "planted out")
