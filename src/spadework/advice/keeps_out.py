"""Whether a piece of kit keeps a trouble out: its openings against what the trouble slips through."""

from __future__ import annotations

import re
from typing import Final

from spadework.crops.protection import Protection, all_protection
from spadework.crops.trouble import Trouble
from spadework.garden.records import KitItem

_MM: Final = re.compile(r"(\d+(?:[.,]\d+)?)\s*mm")

UNSAID: Final = {
    "mesh": ("mesh-fine", "mesh"),
    "netting": ("butterfly-net", "bird-net"),
    "fleece": ("fleece",),
}
"""What a piece may be whose openings nobody has told, by sort of kit."""

CLOSED: Final = ("fleece", "film")
"""Sorts without openings that an insect could pass."""


def opening_mm(item: KitItem) -> tuple[float, float] | None:
    """Narrowest and widest that the openings of a piece of kit may be.

    Parameters
    ----------
    item : KitItem

    Returns
    -------
    (float, float) or None  [mm]
        (0, 0) of what has none; None of what is no cover.
    """
    words = f"{item.grade} {item.item}".casefold()
    if item.sort in CLOSED:
        return 0.0, 0.0
    if found := _MM.search(words):
        width = float(found[1].replace(",", "."))
        return width, width
    named = [
        each for each in all_protection().values() if each.mesh_mm is not None and _is_called(each, words)
    ]
    kinds = named or [all_protection()[key] for key in UNSAID.get(item.sort, ())]
    widths = [each.mesh_mm for each in kinds if each.mesh_mm is not None]
    if not widths:
        return None
    return min(width.least for width in widths), max(width.most for width in widths)


def keeps_out(item: KitItem, trouble: Trouble) -> bool | None:
    """Whether a trouble is kept out by a piece of kit whose edges are closed.

    Parameters
    ----------
    item : KitItem
    trouble : Trouble

    Returns
    -------
    bool or None
        None where it cannot be said: the openings are not known closely enough, or no mesh stops it.

    Notes
    -----
    What lies in the soil already, or walks in beneath an edge, is not asked about here.
    """
    if trouble.mesh_mm is None:
        return None
    width = opening_mm(item)
    if width is None:
        return False
    narrow, wide = width
    if wide <= trouble.mesh_mm.value:
        return True
    return False if narrow > trouble.mesh_mm.most else None


def may_keep_out(item: KitItem, trouble: Trouble) -> bool:
    """Whether a piece of kit is trusted to keep a trouble out: it does, or its openings are just not told."""
    return trouble.mesh_mm is not None and keeps_out(item, trouble) is not False


def _is_called(each: Protection, words: str) -> bool:
    return any(name.casefold() in words for name in (each.name, *each.names))
