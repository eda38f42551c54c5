"""A planting said otherwise by its own sentence, and a planting moved, each with what it comes to beneath."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any, Final
from urllib.parse import quote, urlencode

from spadework.errors import SpadeworkError, UnknownName
from spadework.faces.voice import in_years
from spadework.faces.web.page_words import on_page
from spadework.faces.web.pages.plant_blanks import SIZES, Sizes, as_it_would_be, usual_of, whole
from spadework.faces.web.visit import Answer, Asks, Go, Page, Visit, Way
from spadework.usecases.change_planting import (
    Begun,
    begun,
    change_comes_to,
    change_planting,
    move_comes_to,
    move_planting,
)
from spadework.usecases.crop_words import crop_word
from spadework.usecases.look import Look, look_at
from spadework.usecases.plant_ground import free_beds
from spadework.usecases.plant_odds import plant_odds
from spadework.usecases.plant_sentence import Blanks
from spadework.usecases.show_plantings import planting_name
from spadework.usecases.show_tin import list_tin
from spadework.usecases.write_answer import WriteAnswer

_MEASURED: Final = {
    "spacing": ("spacing_cm", "small"),
    "row": ("row_cm", "small"),
    "length": ("length_m", "long"),
    "depth": ("depth_mm", "fine"),
    "across": ("across_m", "long"),
    "along": ("along_m", "long"),
}
"""Blanks that are lengths, what they are kept as, and how they are measured."""

_COUNTED: Final = ("rows", "number", "seeds")


def show_change(visit: Visit) -> Page:
    """The sentence it began with, filled in, and beneath it what it comes to as it is said now."""
    look = look_at(visit.garden, visit.today)
    begin = begun(visit.garden, visit.today, visit.names["planting"])
    sizes = Sizes(visit.voice.us)
    was = _typed(begin.blanks, sizes) | {"on": begin.entry.happened_on.isoformat()}
    typed = {name: visit.text(name) for name in was} if visit.text("asked") else was
    wrong, found, odds = "", None, None
    try:
        blanks = _read(visit, begin.blanks, typed, sizes)
        on = visit.day("on") or begin.entry.happened_on
        found = change_comes_to(begin, blanks, on, look.words)
        odds = plant_odds(visit.garden, visit.today, found, on)
    except SpadeworkError as error:
        wrong = f"{error.message} {error.hint}".strip()
    key = begin.planting.key
    kind = begin.blanks.way
    ground = None if found is None or kind == "tray" else as_it_would_be(visit, found, without=key)
    return Page(
        "planting_change.html",
        _common(visit, look, begin)
        | {
            "typed": typed,
            "lots": list_tin(visit.garden, visit.today, crop=begin.blanks.crop).lots
            if kind in ("here", "tray")
            else [],
            "kind": kind,
            "by_seed": begin.blanks.number is None,
            "found": found,
            "odds": odds,
            "wrong": wrong,
            "ground": ground,
            "usual": usual_of(found, sizes)
            | {"seeds": "" if found is None else str(found.pieces), "across": "", "along": ""},
            "bed_name": "" if found is None or not found.bed else look.garden.beds[found.bed].name,
        },
    )


def write_change(visit: Visit) -> Answer:
    """Its beginning is written anew as the sentence says it now."""
    if visit.text("only"):
        return Go(f"{_own(visit)}/change?{_asked(visit)}")
    begin = begun(visit.garden, visit.today, visit.names["planting"])
    sizes = Sizes(visit.voice.us)
    typed = {name: visit.text(name) for name in _typed(begin.blanks, sizes)}
    blanks = _read(visit, begin.blanks, typed, sizes)
    return _written(visit, change_planting(visit.garden, begin.planting.key, blanks, visit.writing))


def show_move(visit: Visit) -> Page:
    """Where it goes, how many of it, and what that comes to and costs."""
    look = look_at(visit.garden, visit.today)
    begin = begun(visit.garden, visit.today, visit.names["planting"])
    sizes = Sizes(visit.voice.us)
    names = ("bed", "on", *_COUNTED, *_MEASURED)
    typed = {name: visit.text(name) for name in names}
    wrong, moved = "", None
    try:
        if typed["bed"]:
            blanks = _read(visit, Blanks(), typed, sizes)
            on = visit.day("on") or visit.today
            moved = move_comes_to(visit.garden, visit.today, begin.planting.key, blanks, on, look.words)
    except SpadeworkError as error:
        wrong = f"{error.message} {error.hint}".strip()
    found = None if moved is None else moved.found
    gone = begin.planting.key if moved is not None and moved.all_of_it else ""
    stood = begin.planting.plants.number
    usual = usual_of(found, sizes)
    if found is None:
        usual["number"] = "" if stood is None else f"{stood:.0f}"
    return Page(
        "planting_move.html",
        _common(visit, look, begin)
        | {
            "typed": typed,
            "kind": "out",
            "found": found,
            "moved": moved,
            "odds": None,
            "wrong": wrong,
            "ground": None if found is None else as_it_would_be(visit, found, without=gone),
            "usual": usual | {"seeds": "", "across": "", "along": ""},
            "bed_name": "" if found is None else look.garden.beds[found.bed].name,
        },
    )


def write_move(visit: Visit) -> Answer:
    """It is lifted and set anew, as an act of its day."""
    if visit.text("only"):
        return Go(f"{_own(visit)}/move?{_asked(visit)}")
    sizes = Sizes(visit.voice.us)
    typed = {name: visit.text(name) for name in ("bed", *_COUNTED, *_MEASURED)}
    if not typed["bed"]:
        raise UnknownName("It is not said where to.", "Choose a bed; it may be its own.")
    blanks = _read(visit, Blanks(), typed, sizes)
    return _written(visit, move_planting(visit.garden, visit.names["planting"], blanks, visit.writing))


def _common(visit: Visit, look: Look, begin: Begun) -> dict[str, object]:
    """What both pages are given."""
    sizes = Sizes(visit.voice.us)
    crop = crop_word(begin.blanks.crop, look.words, many=True)
    return {
        "key": begin.planting.key,
        "crop": crop,
        "name": planting_name(begin.planting, look.words),
        "here": "" if not begin.planting.bed else look.garden.beds[begin.planting.bed].name,
        "own_bed": begin.planting.bed,
        "beds": [
            (key, bed.name)
            for key, bed in look.garden.beds.items()
            if bed.described and bed.gone_on is None and bed.shape != "shelf"
        ],
        "free": free_beds(look.garden, visit.today),
        "address": lambda **other: f"{visit.path}?{_asked(visit, **other)}",
        "unit": {name: sizes.word(sort) for name, sort in SIZES.items()} | {"place": sizes.word("long")},
        "years": in_years,
    }


def _typed(blanks: Blanks, sizes: Sizes) -> dict[str, str]:
    """Blanks as they stand in the form."""
    counted = {name: getattr(blanks, name) for name in _COUNTED}
    return {
        "bed": blanks.bed,
        "variety": blanks.variety,
        "lot": blanks.lot,
        **{name: "" if value is None else str(value) for name, value in counted.items()},
        **{name: sizes.shown(sort, getattr(blanks, kept)) for name, (kept, sort) in _MEASURED.items()},
    }


def _read(visit: Visit, was: Blanks, typed: Mapping[str, str], sizes: Sizes) -> Blanks:
    """Blanks as they were typed; one that was not touched is what it was, to the last figure."""
    shown = _typed(was, sizes)
    said: dict[str, Any] = {"bed": typed["bed"] or was.bed}
    if "lot" in typed:
        said |= {"lot": typed["lot"], "variety": typed["variety"]}
    for name in _COUNTED:
        if typed[name] != shown[name]:
            said[name] = whole(visit, name)
    for name, (kept, sort) in _MEASURED.items():
        if typed[name] != shown[name]:
            said[kept] = sizes.kept(sort, visit.number(name))
    return replace(was, **said)


def _written(visit: Visit, found: WriteAnswer) -> Answer:
    if not found.stored:
        return Asks(found.questions, found.can_insist)
    words = [*(line.text for line in found.entries), *(lock.text for lock in found.locks)]
    said = " ".join(visit.voice.told(on_page(each)) for each in words)
    planting = found.entries[0].planting or visit.names["planting"]
    return Go(f"/planting/{quote(planting)}", f"In the book: {said}", undo=found.entries[-1].key)


def _own(visit: Visit) -> str:
    return f"/planting/{quote(visit.names['planting'])}"


def _asked(visit: Visit, **other: str) -> str:
    names = ("bed", "on", "variety", "lot", *_COUNTED, *_MEASURED)
    said = {name: visit.text(name) for name in names if visit.text(name)}
    return urlencode(said | {"asked": "1"} | other)


WAYS: Final = (
    Way("/planting/{planting}/change", show_change),
    Way("/planting/{planting}/change/write", write_change, post=True, least="helper"),
    Way("/planting/{planting}/move", show_move),
    Way("/planting/{planting}/move/write", write_move, post=True, least="helper"),
)
