"""What a crop is called in this garden's English, one or many of it."""

from __future__ import annotations

from typing import Final

from spadework.crops.loader import load_sheet
from spadework.crops.names import keys
from spadework.garden.site import Words

_NO_PLURAL: Final = frozenset(
    {"asparagus", "basil", "beetroot", "broccoli", "calabrese", "celeriac", "celery", "chard", "choi"}
    | {"chives", "choy", "coriander", "cilantro", "corn", "dill", "endive", "garlic", "greens", "kale"}
    | {"alyssum", "antirrhinum", "kohlrabi", "lettuce", "mustard", "okra", "parsley", "rhubarb", "rocket"}
    | {"arugula", "spinach", "squash", "sweetcorn", "thyme", "mint", "sage", "cress"}
)
_WITH_ES: Final = frozenset({"potato", "tomato", "radish"})

_PIECES: Final = ("sets", "cloves", "tubers", "crowns", "slips")


_FAMILIES: Final = {
    "Amaranthaceae": "Beet and spinach family",
    "Amaryllidaceae": "Onion family",
    "Apiaceae": "Carrot family",
    "Asteraceae": "Lettuce family",
    "Brassicaceae": "Cabbage family",
    "Cucurbitaceae": "Cucumber and squash family",
    "Fabaceae": "Pea and bean family",
    "Lamiaceae": "Mint and basil family",
    "Poaceae": "Sweetcorn",
    "Solanaceae": "Potato and tomato family",
}
"""Families with more than one crop in a kitchen garden, by what a gardener knows of them."""


def family_word(family: str) -> str:
    """A botanical family by its best known crops; "Others" for one with few."""
    return _FAMILIES.get(family, "Others")


def piece_word(crop: str, method: str = "") -> str:
    """What goes into the ground: "seeds", or "cloves", "tubers", "sets" where the method or the crop says so.

    Parameters
    ----------
    crop : str
        By key.
    method : str
        As the entry has it; empty where nothing was said.
    """
    if method in _PIECES:
        return method
    ways = load_sheet(crop).propagation if crop in keys() else ()
    if "direct" in ways or "raised" in ways:
        return "seeds"
    return next((way for way in ways if way in _PIECES), "seeds")


def crop_word(crop: str, words: Words = "british", *, many: bool = False) -> str:
    """A crop's name in British or American words; its key without hyphens where there is no sheet.

    Parameters
    ----------
    crop : str
        By key.
    words : {"british", "american"}
    many : bool
        Several plants of it, where the word has a plural.
    """
    name = crop.replace("-", " ")
    if crop in keys():
        sheet = load_sheet(crop)
        name = sheet.american if words == "american" else sheet.british
    return plural(name) if many else name


def plural(name: str) -> str:
    """Several of a thing, where the word has a plural."""
    last = name.rpartition(" ")[2]
    if not name or last in _NO_PLURAL or last.endswith("s"):
        return name
    if last.endswith("y") and last[-2:-1] not in "aeiou":
        return f"{name[:-1]}ies"
    return f"{name}es" if last in _WITH_ES else f"{name}s"
