"""The plantings: where each stands, how old it is, what was seen and done, what is locked."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import Final

import msgspec

from spadework.crops.names import find, keys
from spadework.errors import UnknownName
from spadework.garden.acts import act_word
from spadework.garden.entries import Stage
from spadework.garden.lookup import key_of
from spadework.garden.phrases import day_text
from spadework.garden.planting import EXACT, Planting
from spadework.garden.site import Words
from spadework.garden.state import Garden
from spadework.usecases.amount_words import plain_number
from spadework.usecases.bed_names import bed_called
from spadework.usecases.crop_words import crop_word, piece_word
from spadework.usecases.lock_lines import LockLine, lock_lines
from spadework.usecases.look import Look, look_at

_SEASON_DAYS: Final = 250
"""Signs of one stage further apart than this are of different seasons. Class: common-practice."""

_STAGES: Final = ("up", "first flower", "first female flower", "bolting", "ready")


class PlantingShown(msgspec.Struct, frozen=True, kw_only=True):
    """One planting on a day.

    Parameters
    ----------
    key, crop : str
    name : str
        Variety and crop in the garden's English.
    bed, bed_name : str
        Empty where it stands in no bed.
    age_days : int
        Since it was sown, or else set out.
    stage : str
        The last stage seen; empty where none was.
    plants : float or None
        As counted or worked out.
    at_most : int or None
    plants_text : str
        How many there are and how that is known.
    last_act : str
    insisted : bool
        Something in its story was insisted on.
    """

    key: str
    crop: str
    name: str
    variety: str
    bed: str
    bed_name: str
    tray: str
    started_on: date
    sown_on: date | None
    set_out_on: date | None
    age_days: int
    stage: str
    stage_on: date | None
    plants: float | None
    at_most: int | None
    plants_text: str
    plants_on: date | None
    seeds: int | None
    lot: str
    rows: int | None
    row_cm: float | None
    spacing_cm: float | None
    area_m2: float | None
    area_assumed: bool
    height_cm: float | None
    leaves: float | None
    picked_kg: float
    picked_pieces: int
    lifted_kg: float
    lifted_pieces: int
    first_picked_on: date | None
    last_picked_on: date | None
    last_act: str
    last_on: date | None
    ended_on: date | None
    ended_how: str
    ended_why: str
    insisted: bool
    locks: list[LockLine]


class PlantingList(msgspec.Struct, frozen=True, kw_only=True):
    """Plantings that stand on a day."""

    question: str
    today: date
    on: date
    known_on: date | None
    plantings: list[PlantingShown]
    damage: str = ""


def list_plantings(
    path: Path,
    today: date,
    *,
    bed: str = "",
    crop: str = "",
    on: date | None = None,
    known_on: date | None = None,
) -> PlantingList:
    """What stands on a day, by bed.

    Parameters
    ----------
    path : Path
    today : date
    bed, crop : str
        Only there and of that; by any name.
    on : date or None
        None for today.
    known_on : date or None
        As known at the end of that day; None for as known now.

    Raises
    ------
    UnknownName, GardenError, StoreError
    """
    look = look_at(path, on or today, known_on=known_on)
    garden = look.garden
    key = bed_called(garden, bed).key if bed else ""
    wanted = crop_key(garden, crop) if crop else ""
    found = [each for each in garden.standing(look.day, bed=key) if not wanted or each.crop == wanted]
    order = {bed_key: place for place, bed_key in enumerate(garden.beds)}
    found.sort(key=lambda each: order.get(each.bed_on(look.day), len(order)))
    return PlantingList(
        question="standing",
        today=today,
        on=look.day,
        known_on=known_on,
        plantings=[planting_shown(look, each) for each in found],
        damage=look.damage,
    )


def crop_key(garden: Garden, name: str) -> str:
    """A crop by any of its names: of the sheets, or as the book has it.

    Raises
    ------
    UnknownName
    """
    own = {each.crop for each in garden.plantings.values()} | {each.crop for each in garden.tin.values()}
    own -= set(keys())
    if own:
        try:
            return key_of(name, {each: each for each in own}, "crop")
        except UnknownName:
            pass
    return find(name)


def planting_shown(look: Look, planting: Planting) -> PlantingShown:
    """A planting as it is on the day looked at."""
    garden, day = look.garden, look.day
    bed = planting.bed_on(day) or ("" if planting.stands(day) else planting.bed)
    stage, stage_on = _stage(planting)
    began = planting.sown_on or planting.set_out_on or planting.started_on
    last = planting.history[-1] if planting.history else None
    return PlantingShown(
        key=planting.key,
        crop=planting.crop,
        name=planting_name(planting, look.words),
        variety=planting.variety,
        bed=bed,
        bed_name=garden.beds[bed].name if bed in garden.beds else bed,
        tray=planting.tray,
        started_on=planting.started_on,
        sown_on=planting.sown_on,
        set_out_on=planting.set_out_on,
        age_days=(min(day, planting.ended_on or day) - began).days,
        stage=stage,
        stage_on=stage_on,
        plants=planting.plants.number,
        at_most=planting.plants.at_most,
        plants_text=_plants(planting, day),
        plants_on=planting.plants.on,
        seeds=planting.seeds,
        lot=planting.lot,
        rows=planting.rows,
        row_cm=planting.row_cm,
        spacing_cm=planting.spacing_cm,
        area_m2=planting.area_m2,
        area_assumed=planting.area_assumed,
        height_cm=planting.height_cm,
        leaves=planting.leaves,
        picked_kg=round(planting.picked_kg, 6),
        picked_pieces=planting.picked_pieces,
        lifted_kg=round(planting.lifted_kg, 6),
        lifted_pieces=planting.lifted_pieces,
        first_picked_on=planting.first_picked_on,
        last_picked_on=planting.last_picked_on,
        last_act="" if last is None else act_word(last.act),
        last_on=None if last is None else last.happened_on,
        ended_on=planting.ended_on,
        ended_how=planting.ended_how,
        ended_why=planting.ended_why,
        insisted=planting.insisted,
        locks=lock_lines(garden, day, planting=planting.key, words=look.words),
    )


def planting_name(planting: Planting, words: Words) -> str:
    """Variety and crop: "Nantaise carrots"."""
    return f"{planting.variety} {crop_word(planting.crop, words, many=True)}".strip()


def _stage(planting: Planting) -> tuple[str, date | None]:
    """The last stage seen, and its first day in that season, for one may stand over years."""
    seen = [
        (entry.happened_on, _STAGES.index(entry.act.what), entry.act.what)
        for entry in planting.history
        if isinstance(entry.act, Stage) and entry.act.reached
    ]
    if not seen:
        return "", None
    last, _, what = max(seen)
    season = [on for on, _, other in seen if other == what and (last - on).days < _SEASON_DAYS]
    return what, min(season)


def _plants(planting: Planting, day: date) -> str:
    """How many stand, and how that is known."""
    plants = planting.plants
    on = "" if plants.on is None else f" {day_text(plants.on, year=plants.on.year != day.year)}"
    since = f", {plants.taken} taken since" if plants.taken else ""
    if plants.number is None:
        if planting.seeds is None:
            return "number not known"
        piece = piece_word(planting.crop, planting.method)
        done = "sown" if piece == "seeds" else "planted"
        return f"not counted, {planting.seeds} {piece} {done}{since}"
    number = plain_number(round(plants.number))
    word = "plant" if number == "1" else "plants"
    if plants.basis in EXACT:
        return f"{number} {word}, {plants.basis}{on}{since}"
    if plants.basis == "":
        return f"{number} {word}{since}"
    return f"about {number} {word}, {plants.basis}{on}{since}"
