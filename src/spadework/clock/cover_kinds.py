"""Kinds of kit that lie over plants, and which of them a piece of kit is."""

from __future__ import annotations

import re
from typing import Final

from spadework.clock.cover import FLEECE, Cover

COVERS: Final[dict[str, Cover]] = {
    "fleece thin": Cover("thin fleece", 0.5, 2.0, "common-practice", "", light_share=0.93, et0_share=0.9),
    "fleece": FLEECE,
    "fleece thick": Cover("thick fleece", 2.8, 4.0, "common-practice", "", light_share=0.6, et0_share=0.75),
    "mesh": Cover("insect mesh", 0.0, 0.5, "published", "RHS_MESH", light_share=0.83, et0_share=0.9),
    "film": Cover(
        "low film tunnel", 1.6, 5.6, "published", "CSU722", light_share=0.85, et0_share=0.75, roof=True
    ),
    "cloche": Cover("cloche", 1.5, 10.0, "common-practice", "", light_share=0.85, et0_share=0.75, roof=True),
    "shade 30": Cover("shade cloth, 30 %", 0.0, -1.0, "memory", "", light_share=0.7, et0_share=0.75),
    "shade 50": Cover("shade cloth, 50 %", 0.0, -1.5, "memory", "", light_share=0.5, et0_share=0.6),
}
"""Kinds of cover by key. Gains by night of fleece by weight: trade figures without a single source, about 10,
17 and 42 g a square metre; of film 1.1 to 2.2 degC; of mesh little or none. Gains by day under a closed film
or cloche in sun: 5 to 20 degC, so they are opened. Gains by day, light under film and shade,
evapotranspiration: memory."""

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
        return COVERS["shade 50" if found and float(found[1]) >= DEEP_SHADE_PCT else "shade 30"]
    if "cloche" in words or "bell" in words.split():
        return COVERS["cloche"]
    if sort == "fleece":
        return COVERS[_fleece(words)]
    return COVERS.get(sort)


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
