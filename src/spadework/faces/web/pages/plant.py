"""A planting by a sentence with blanks: sown, sown in a tray, planted out, with what it comes to beneath."""

from __future__ import annotations

from datetime import date
from functools import partial
from typing import Final
from urllib.parse import urlencode

from spadework.errors import SpadeworkError
from spadework.faces.voice import in_years
from spadework.faces.web.pages.plant_blanks import SIZES, Sizes, as_it_would_be, usual_of, whole
from spadework.faces.web.visit import Answer, Asks, Go, Page, Refused, Visit, Way
from spadework.usecases.crop_words import crop_word
from spadework.usecases.look import Look, look_at
from spadework.usecases.plant_ground import free_beds
from spadework.usecases.plant_odds import plant_odds
from spadework.usecases.plant_sentence import WAYS as KINDS
from spadework.usecases.plant_sentence import Blanks, comes_to, in_trays, write_sentence
from spadework.usecases.plant_sentence import Way as Kind
from spadework.usecases.show_plantings import planting_name
from spadework.usecases.show_tin import LotShown, list_tin

FIELDS: Final = (
    *("way", "crop", "bed", "variety", "lot", "source", "rows", "number"),
    *("spacing", "row", "length", "depth", "across", "along", "on", "meant"),
)
"""What the address keeps; "meant" is the day it was tried for on the season's page."""

LABELS: Final = {
    "here": "Sow where it grows",
    "tray": "Sow in a tray",
    "out": "Plant out from a tray",
    "bought": "Plant what was bought",
}


def show_sentence(visit: Visit) -> Page:
    """The sentence, and beneath it what it comes to as far as it is filled in."""
    look = look_at(visit.garden, visit.today)
    sizes = Sizes(visit.voice.us)
    kind: Kind = next((each for each in KINDS if each == visit.text("way")), "here")
    beds = [
        (key, bed.name)
        for key, bed in look.garden.beds.items()
        if bed.described and bed.gone_on is None and bed.shape != "shelf"
    ]
    waiting = [(each.key, _waits(look, each.key)) for each in in_trays(look.garden, visit.today)]
    wrong, found, odds = "", None, None
    lots: list[LotShown] = []
    try:
        blanks = _blanks(visit, kind, sizes)
        if blanks.crop and kind in ("here", "tray"):
            lots = _lots(visit, blanks.crop)
        if (blanks.source if kind == "out" else blanks.crop) and (blanks.bed or kind == "tray"):
            on = visit.day("on") or visit.today
            found = comes_to(look.garden, blanks, on, look.words)
            odds = plant_odds(visit.garden, visit.today, found, on)
    except SpadeworkError as error:
        wrong = f"{error.message} {error.hint}".strip()
    return Page(
        "plant.html",
        {
            "kind": kind,
            "kinds": [(each, LABELS[each], _address(visit, way=each)) for each in KINDS],
            "typed": {name: visit.text(name) for name in FIELDS},
            "beds": beds,
            "crops": _crops(look),
            "lots": lots,
            "waiting": waiting,
            "free": free_beds(look.garden, visit.today),
            "address": partial(_address, visit),
            "found": found,
            "odds": odds,
            "wrong": wrong,
            "ground": None if found is None or kind == "tray" else as_it_would_be(visit, found),
            "usual": usual_of(found, sizes),
            "unit": {name: sizes.word(sort) for name, sort in SIZES.items()} | {"place": sizes.word("long")},
            "years": in_years,
            "meant": visit.day("meant"),
            "name": "" if found is None else crop_word(found.crop, look.words, many=True),
            "bed_name": "" if found is None or not found.bed else look.garden.beds[found.bed].name,
        },
    )


def write(visit: Visit) -> Answer:
    """The planting goes into the book; without script the same form only works it out."""
    if visit.text("only"):
        return Go(_address(visit))
    kind: Kind = next((each for each in KINDS if each == visit.text("way")), "here")
    blanks = _blanks(visit, kind, Sizes(visit.voice.us))
    if kind != "out" and not blanks.crop:
        raise Refused("It is not said what.", "Choose a crop.", field="crop")
    found = write_sentence(visit.garden, blanks, visit.writing)
    if not found.stored:
        return Asks(found.questions, found.can_insist)
    words = [*(line.text for line in found.entries), *(lock.text for lock in found.locks)]
    planting = found.entries[0].planting
    said = " ".join(visit.voice.told(each) for each in words)
    if (meant := visit.day("meant")) is not None:
        said = f"{said} {_beside(meant, found.entries[0].on, visit)}"
    return Go(f"/planting/{planting}", f"In the book: {said}", undo=found.entries[-1].key)


def _beside(meant: date, done: date, visit: Visit) -> str:
    """What was meant beside what was done."""
    days = (done - meant).days
    how = "on the day" if not days else f"{abs(days)} days {'later' if days > 0 else 'earlier'}"
    return f"Tried for {visit.voice.day(meant)}, done {visit.voice.day(done)}: {how}."


def _blanks(visit: Visit, kind: Kind, sizes: Sizes) -> Blanks:
    return Blanks(
        way=kind,
        crop=visit.text("crop"),
        bed=visit.text("bed"),
        variety=visit.text("variety"),
        lot=visit.text("lot") if kind in ("here", "tray") else "",
        source=visit.text("source") if kind == "out" else "",
        rows=whole(visit, "rows"),
        number=whole(visit, "number"),
        spacing_cm=sizes.kept("small", visit.number("spacing")),
        row_cm=sizes.kept("small", visit.number("row")),
        length_m=sizes.kept("long", visit.number("length")),
        depth_mm=sizes.kept("fine", visit.number("depth")),
        across_m=sizes.kept("long", visit.number("across")),
        along_m=sizes.kept("long", visit.number("along")),
    )


def _address(visit: Visit, **other: str) -> str:
    asked = {name: visit.text(name) for name in FIELDS if visit.text(name)} | other
    return f"/plant?{urlencode(asked)}"


def _waits(look: Look, key: str) -> str:
    planting = look.garden.plantings[key]
    number = planting.plants.number
    return f"{planting_name(planting, look.words)}{'' if number is None else f' ({number:.0f})'}"


def _crops(look: Look) -> tuple[list[tuple[str, str]], list[tuple[str, str]]]:
    """Crops of the tin, and all others, by name."""
    from spadework.crops.names import keys

    tin = {lot.crop for lot in look.garden.tin.values()} & set(keys())
    named = sorted(((key, crop_word(key, look.words)) for key in keys()), key=lambda each: each[1])
    return [each for each in named if each[0] in tin], [each for each in named if each[0] not in tin]


def _lots(visit: Visit, crop: str) -> list[LotShown]:
    """Packets of a crop, the newest first; empty ones last."""
    lots = list_tin(visit.garden, visit.today, crop=crop).lots
    return sorted(lots, key=lambda each: (each.left is not None and each.left <= 0, -(each.year or 0)))


WAYS: Final[tuple[Way, ...]] = (
    Way("/plant", show_sentence),
    Way("/plant/write", write, post=True, least="helper"),
)
