"""Keys in a question put into the garden's own names: "the carrots in Lake 2" for the key of a planting."""

from __future__ import annotations

import re
from collections.abc import Callable

from spadework.crops.names import keys
from spadework.garden.planting import Planting
from spadework.garden.records import SeedLot
from spadework.garden.site import Words
from spadework.garden.state import Garden
from spadework.usecases.crop_words import crop_word


def names_for_keys(garden: Garden, words: Words) -> Callable[[str], str]:
    """A function that puts the keys of plantings, packets and crops in a text into names.

    Only keys that look like keys are put into names: those with a figure in them, and of crops those of
    several words. A planting somebody named "tomatoes" is called so.
    """
    named = {key: crop_word(key, words) for key in keys() if "-" in key}
    named |= {key: _packet(lot, words) for key, lot in garden.tin.items() if _made(key)}
    named |= {key: _planting(garden, one, words) for key, one in garden.plantings.items() if _made(key)}
    if not named:
        return str
    longest_first = sorted(named, key=len, reverse=True)
    any_key = "|".join(map(re.escape, longest_first))
    pattern = re.compile(rf"(?<![\w-])(?:seed lot |lot )?({any_key})(?![\w-])", re.IGNORECASE)

    def put(text: str) -> str:
        found = pattern.sub(lambda hit: named.get(hit[1], hit[0]), text)
        return text if found == text else found[:1].upper() + found[1:]

    return put


def _made(key: str) -> bool:
    return any(letter.isdigit() for letter in key)


def _planting(garden: Garden, planting: Planting, words: Words) -> str:
    """The carrots in Lake 2."""
    crop = f"{planting.variety} {crop_word(planting.crop, words, many=True)}".strip()
    if planting.bed in garden.beds:
        return f"the {crop} in {garden.beds[planting.bed].name}"
    return f"the {crop} in {planting.tray or 'their tray'}"


def _packet(lot: SeedLot, words: Words) -> str:
    """The packet of Nantaise carrot of 2025."""
    crop = f"{lot.variety} {crop_word(lot.crop, words)}".strip() if lot.crop else "seed"
    return f"the packet of {crop}{f' of {lot.year}' if lot.year else ''}"
