"""Receipts in words: what kind of word a number rests on, and whose."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

CLASSES: Final[Mapping[str, str]] = {
    "published": "published",
    "memory": "recalled from a publication",
    "common-practice": "common practice",
    "measured": "measured by us",
    "computed": "computed",
    "grower": "your own number",
    "learned": "learned here",
    "sown": "the sowing",
    "estimate": "our estimate",
}


def receipt_said(receipt: str) -> str:
    """A receipt such as "published AH66-T202; FAO56" with its kind and its sources in words.

    What is no kind and no known source is left as it was said.
    """
    from spadework.crops.sources import citations

    known = citations()
    kind, _, rest = receipt.strip().partition(" ")
    kind = kind.rstrip(";")
    if kind not in CLASSES:
        kind, rest = "", receipt.strip()
    sources = [known.get(part.strip(), part.strip()) for part in rest.split(";") if part.strip()]
    said = CLASSES.get(kind, "")
    return ": ".join(part for part in (said, "; ".join(sources)) if part)
