"""Crop sheets: what is known of each crop, with a receipt for every number."""

from spadework.crops.loader import all_sheets, load_sheet
from spadework.crops.names import find, find_whole, keys
from spadework.crops.overrides import apply_overrides
from spadework.crops.parts import receipts, unpublished, whole_receipts
from spadework.crops.sheet import Caution, Form, Sheet, Value
from spadework.crops.sources import citation, sources_markdown

__all__ = [
    "Caution",
    "Form",
    "Sheet",
    "Value",
    "all_sheets",
    "apply_overrides",
    "citation",
    "find",
    "find_whole",
    "keys",
    "load_sheet",
    "receipts",
    "sources_markdown",
    "unpublished",
    "whole_receipts",
]
