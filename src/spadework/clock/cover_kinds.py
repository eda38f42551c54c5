"""Kinds of kit that lie over plants, and which of them a piece of kit is."""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import cache
from typing import Final

from spadework.clock.cover import Cover
from spadework.crops.protection import FILE, all_protection
from spadework.errors import Fault, InputFileError

KINDS: Final[Mapping[str, tuple[str, str]]] = {
    "fleece thin": ("fleece-thin", "thin fleece"),
    "fleece": ("fleece", "fleece"),
    "fleece thick": ("fleece-thick", "thick fleece"),
    "mesh": ("mesh-fine", "insect mesh"),
    "film": ("film", "low film tunnel"),
    "cloche": ("cloche", "cloche"),
    "shade 30": ("shade-30", "shade cloth, 30 %"),
    "shade 50": ("shade-50", "shade cloth, 50 %"),
}
"""Kinds of cover by key: its key in the sheet of protection, and what it is called where it lies. Mesh is
taken to be the fine one."""


@cache
def covers() -> Mapping[str, Cover]:
    """Kinds of cover by key, with the numbers of the sheet of protection.

    Raises
    ------
    InputFileError
    """
    return {key: _cover(sheet, name) for key, (sheet, name) in KINDS.items()}


def _cover(key: str, name: str) -> Cover:
    each = all_protection()[key]
    if each.night_c is None or each.day_c is None:
        missing = "night_c" if each.night_c is None else "day_c"
        fault = Fault(f"{key} {missing}", "nothing", "a number", "A cover gains something, or 0.")
        raise InputFileError(FILE.name, [fault])
    return Cover(
        name,
        each.night_c.value,
        each.day_c.value,
        each.night_c.provenance,
        each.night_c.source,
        light_share=1.0 if each.light_share is None else each.light_share.value,
        et0_share=1.0 if each.et0_share is None else each.et0_share.value,
        roof=each.roof,
    )


THIN_BELOW_G_M2: Final = 14.0
THICK_FROM_G_M2: Final = 28.0
"""Weights that part thin, common and thick fleece [g m-2]. Source: common-practice."""

DEEP_SHADE_PCT: Final = 40.0
"""Shade cloth that takes this much light or more counts as 50 %. Our own rule."""

_GRAMS = re.compile(r"(\d+(?:[.,]\d+)?)\s*(?:g|gsm|gram)")
_OUNCES = re.compile(r"(\d*[.,]?\d+)\s*oz")
_PERCENT = re.compile(r"(\d+)\s*(?:%|percent|per cent)")
_G_M2_PER_OZ_YD2: Final = 33.906


def cover_of(sort: str, grade: str = "", name: str = "") -> Cover | None:
    """The kind of cover a piece of kit is.

    Parameters
    ----------
    sort, grade : str
        As in the garden's kit.
    name : str
        What it is called, where sort and grade do not settle it.

    Returns
    -------
    Cover or None
        None for what changes no warmth and no light: nets against birds, hoops, scare devices.
    """
    words = f"{grade} {name}".lower()
    if "shade" in words:
        found = _PERCENT.search(words)
        return covers()["shade 50" if found and float(found[1]) >= DEEP_SHADE_PCT else "shade 30"]
    if "cloche" in words or "bell" in words.split():
        return covers()["cloche"]
    if sort == "fleece":
        return covers()[_fleece(words)]
    return covers().get(sort)


def _fleece(words: str) -> str:
    weight = None
    if found := _GRAMS.search(words):
        weight = float(found[1].replace(",", "."))
    elif found := _OUNCES.search(words):
        weight = float(found[1].replace(",", ".")) * _G_M2_PER_OZ_YD2
    if weight is None:
        thick = any(word in words for word in ("thick", "heavy", "winter"))
        thin = any(word in words for word in ("thin", "light", "summer"))
        return "fleece thick" if thick else "fleece thin" if thin else "fleece"
    if weight < THIN_BELOW_G_M2:
        return "fleece thin"
    return "fleece thick" if weight >= THICK_FROM_G_M2 else "fleece"
