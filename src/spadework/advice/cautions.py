"""The usual cautions of a crop, where they apply."""

from __future__ import annotations

from spadework.advice.odds import Caution
from spadework.crops.sheet import Sheet


def cautions_of(sheet: Sheet) -> list[Caution]:
    """The crop's own cautions, each with its source."""
    return [Caution(caution.text, caution.source) for caution in sheet.cautions]
