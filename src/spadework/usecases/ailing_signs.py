"""Which signs a crop may show, part by part: what a guided look begins with."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import date
from pathlib import Path
from typing import Final

import msgspec

from spadework.crops.names import find
from spadework.crops.sheet import Sheet
from spadework.crops.trouble import Part
from spadework.crops.troubles import all_signs, all_troubles, hosted_by
from spadework.errors import UnknownName
from spadework.usecases.ailing import sign_view
from spadework.usecases.ailing_answer import Asked, SignView
from spadework.usecases.crop_words import crop_word
from spadework.usecases.jobs_today import open_day
from spadework.usecases.setting import open_setting

FRUITING: Final = ("fruit", "pod", "seed", "grain", "berry")
"""Kinds of crop grown for what is a fruit."""

BITERS: Final = frozenset({"insect", "animal"})


class Ailable(msgspec.Struct, frozen=True, kw_only=True):
    """A planting that stands and may ail."""

    planting: str
    name: str
    where: str


class PartSigns(msgspec.Struct, frozen=True, kw_only=True):
    """What may be seen on one part of a plant, commonest first, those with a drawing before those without."""

    part: str
    signs: list[SignView]


def standing(garden: Path, today: date, crop: str = "") -> list[Ailable]:
    """What stands, in order of the beds: all of it, or that of one crop.

    Raises
    ------
    UnknownName, GardenError, RecordError, StoreError
    """
    scene = open_day(garden, today).scene
    only = find(crop) if crop else ""
    return [
        Ailable(planting=plot.key, name=plot.name, where=plot.where)
        for plot in scene.plots
        if only in ("", plot.planting.crop)
    ]


def called(garden: Path, today: date, *, planting: str = "", crop: str = "") -> tuple[str, str, str]:
    """A planting's crop by key, what it is called here, and where it stands; or a crop's that stands nowhere.

    Raises
    ------
    UnknownName, GardenError, RecordError, StoreError
    """
    if planting:
        scene = open_day(garden, today).scene
        one = scene.garden.planting(planting)
        where = next((plot.where for plot in scene.plots if plot.key == one.key), "")
        return one.crop, crop_word(one.crop, scene.site.words, many=True), where
    key = find(crop)
    return key, crop_word(key, open_setting(garden, today).site.words, many=True), ""


def sign_called(key: str) -> SignView:
    """A sign by its key.

    Raises
    ------
    UnknownName
    """
    sign = all_signs().get(key)
    if sign is None:
        raise UnknownName(f"No sign is called {key!r}.", "Begin the look anew.")
    return sign_view(key, sign)


def signs_by_part(garden: Path, today: date, crop: str, asked: Asked = "ailing") -> list[PartSigns]:
    """Signs of the troubles a crop is a host of, by the part that shows them.

    Parameters
    ----------
    garden : Path
    today : date
    crop : str
        By key.
    asked : {"ailing", "bitten"}
        "bitten" leaves out what only diseases and disorders show.

    Raises
    ------
    UnknownName, GardenError
    """
    sheet = open_setting(garden, today).own(crop)
    family = sheet.family
    weights: dict[str, float] = {}
    for each in all_troubles().values():
        share = hosted_by(each, crop, family) * each.usual.value
        if share and (asked == "ailing" or each.kind in BITERS):
            for shown in each.signs:
                weights[shown.sign] = weights.get(shown.sign, 0.0) + share * shown.often.value
    signs = all_signs()
    found: dict[str, list[SignView]] = {}
    for key in sorted(weights, key=lambda key: (not signs[key].picture, -weights[key])):
        found.setdefault(signs[key].part, []).append(sign_view(key, signs[key]))
    lacks = {part for part, has in _HAS.items() if not has(sheet)}
    return [PartSigns(part=part, signs=found[part]) for part in PARTS if part in found and part not in lacks]


PARTS: Final[tuple[Part, ...]] = (
    "leaf",
    "growing tip",
    "stem",
    "flower",
    "fruit",
    "root",
    "bulb",
    "tuber",
    "seedling",
    "seed",
    "whole plant",
)
"""Parts of a plant, as the drawn plant shows them from its leaves down."""

_HAS: Final[Mapping[str, Callable[[Sheet], bool]]] = {
    "tuber": lambda sheet: sheet.key in ("potato", "sweet-potato"),
    "bulb": lambda sheet: sheet.family == "Amaryllidaceae",
    "fruit": lambda sheet: sheet.kind in FRUITING,
}
"""Parts that only some crops have to look at."""
