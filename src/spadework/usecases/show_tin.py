"""The seed tin: each lot, what is left of it, and what its test says."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import msgspec

from spadework.crops.loader import load_sheet
from spadework.crops.names import keys
from spadework.garden.records import SeedLot
from spadework.garden.site import Words
from spadework.usecases.crop_words import crop_word
from spadework.usecases.look import look_at
from spadework.usecases.show_plantings import crop_key


class GerminationShown(msgspec.Struct, frozen=True, kw_only=True):
    """A germination test: x of n, and between which shares the lot lies 8 times in 10."""

    sprouted: int
    tested: int
    on: date | None
    expected: float
    low: float
    high: float


class LotShown(msgspec.Struct, frozen=True, kw_only=True):
    """One lot.

    Parameters
    ----------
    left : float or None
        Seeds left; at most this where `uncounted` sowings were made from it; below zero where more was sown
        than there was.
    left_how : {"counted", "weighed", ""}
        By count, or by weight and the crop's usual seeds in a gram.
    usual_share : float or None
        Germination of a usual lot, from the crop's sheet, for one that was never tested.
    sowings_left : float or None
        How many more sowings like those made of it so far what is left is enough for; None where it was never
        sown from, or nobody knows what is left.
    family : str
        Botanical, of the crop's sheet; empty where there is none.
    """

    lot: str
    described: bool
    crop: str
    name: str
    variety: str
    year: int | None
    seeds: int | None
    grams: float | None
    sown: int
    uncounted: int
    left: float | None
    left_how: str
    germination: GerminationShown | None
    usual_share: float | None
    traits: list[str]
    plantings: list[str]
    sowings_left: float | None = None
    family: str = ""


class TinList(msgspec.Struct, frozen=True, kw_only=True):
    """The whole tin."""

    question: str
    today: date
    on: date
    known_on: date | None
    lots: list[LotShown]
    damage: str = ""


def list_tin(
    path: Path,
    today: date,
    *,
    crop: str = "",
    on: date | None = None,
    known_on: date | None = None,
) -> TinList:
    """All lots on a day, or those of one crop, by crop and year.

    Raises
    ------
    UnknownName, GardenError, StoreError
    """
    look = look_at(path, on or today, known_on=known_on)
    garden = look.garden
    wanted = crop_key(garden, crop) if crop else ""
    found = [
        _shown(lot, look.words) for lot in garden.tin.values() if not lot.gone and wanted in ("", lot.crop)
    ]
    found.sort(key=lambda lot: (lot.name.casefold(), lot.year or 0, lot.lot))
    return TinList(
        question="tin", today=today, on=look.day, known_on=known_on, lots=found, damage=look.damage
    )


def _shown(lot: SeedLot, words: Words) -> LotShown:
    sheet = load_sheet(lot.crop) if lot.crop in keys() else None
    per_gram = sheet.sowing.seeds_per_gram if sheet is not None else None
    test = lot.germination
    low, high = (0.0, 1.0) if test is None else test.likely
    left = lot.left(None if per_gram is None else per_gram.value)
    return LotShown(
        lot=lot.lot,
        described=lot.described,
        crop=lot.crop,
        name=f"{lot.variety} {crop_word(lot.crop, words)}".strip(),
        variety=lot.variety,
        year=lot.year,
        seeds=lot.seeds,
        grams=lot.grams,
        sown=lot.sown,
        uncounted=lot.uncounted,
        left=left,
        left_how="" if left is None else ("counted" if lot.seeds is not None else "weighed"),
        germination=None
        if test is None
        else GerminationShown(
            sprouted=test.sprouted,
            tested=test.tested,
            on=lot.tested_on,
            expected=test.share,
            low=low,
            high=high,
        ),
        usual_share=None if sheet is None else sheet.sowing.lot_germination_pct.value / 100,
        traits=list(lot.traits),
        plantings=list(lot.plantings),
        sowings_left=None
        if left is None or not lot.sown or not lot.plantings
        else round(max(left, 0.0) / (lot.sown / len(lot.plantings)), 1),
        family="" if sheet is None else sheet.family,
    )
