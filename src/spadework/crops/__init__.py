"""Crop sheets: what is known of each crop, with a receipt for every number."""

from spadework.crops.loader import all_sheets, load_sheet, receipts
from spadework.crops.names import find, keys
from spadework.crops.overrides import apply_overrides
from spadework.crops.sheet import Caution, Sheet, Value
from spadework.crops.sources import citation, sources_markdown

__all__ = [
    "Caution",
    "Sheet",
    "Value",
    "all_sheets",
    "apply_overrides",
    "citation",
    "find",
    "keys",
    "load_sheet",
    "receipts",
    "sources_markdown",
]
