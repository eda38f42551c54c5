"""A planting told as a sentence, looked at before it is written: count, place, and when it is ready."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import msgspec

from spadework.advice.ready_odds import ReadyAnswer
from spadework.usecases.crop_words import crop_word
from spadework.usecases.look import look_at
from spadework.usecases.plant_odds import plant_odds
from spadework.usecases.plant_sentence import Blanks, ComesTo, comes_to


class SentenceLook(msgspec.Struct, frozen=True, kw_only=True):
    """What a sentence comes to; nothing is written.

    Parameters
    ----------
    on : date
        The day it is sown or planted.
    name, bed_name : str
        As they are called here.
    odds : ReadyAnswer or None
        None where there is no weather to run it through, or the day is too far off.
    """

    question: str
    today: date
    on: date
    name: str
    bed_name: str
    comes_to: ComesTo
    odds: ReadyAnswer | None
    damage: str = ""


def look_sentence(path: Path, today: date, blanks: Blanks, on: date | None = None) -> SentenceLook:
    """What a filled sentence comes to, and when it would be ready.

    Raises
    ------
    UnknownName, ParameterError
        As `comes_to`.
    GardenError, StoreError
    """
    look, on = look_at(path, today), on or today
    found = comes_to(look.garden, blanks, on, look.words)
    return SentenceLook(
        question="plant",
        today=today,
        on=on,
        name=crop_word(found.crop, look.words, many=True),
        bed_name=look.garden.beds[found.bed].name if found.bed in look.garden.beds else "",
        comes_to=found,
        odds=plant_odds(path, today, found, on),
        damage=look.damage,
    )
