"""Take the whole garden out, as an open archive or as a spreadsheet."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

import msgspec

from spadework.errors import ParameterError, StoreError
from spadework.store import tables
from spadework.store.copies import Step, unheard
from spadework.store.garden_folder import GardenFolder, open_garden
from spadework.store.predictions import Kept
from spadework.usecases.crop_words import crop_word
from spadework.usecases.entry_words import sentence
from spadework.usecases.keep_book import State, open_state
from spadework.usecases.lock_lines import LockLine, lock_lines

if TYPE_CHECKING:
    from spadework.store.archive_form import About


class CarriedOut(msgspec.Struct, frozen=True, kw_only=True):
    """What was written.

    Parameters
    ----------
    file, form, garden, units : str
    entries, predictions, photos, weather_days, beds, plantings : int
    locks : list of LockLine
        In force today.
    left_out : list of str
        Photos that are missing or changed: one line for each.
    damage : str
        What is wrong with the book; then only what could be read is there.
    """

    file: str
    form: str
    garden: str
    units: str
    entries: int
    predictions: int
    photos: int
    weather_days: int
    beds: int
    plantings: int
    locks: list[LockLine]
    left_out: list[str] = []
    damage: str = ""


def carry_out(
    garden: Path,
    to: Path,
    today: date,
    *,
    told: Callable[[str], str] = str,
    step: Step = unheard,
) -> CarriedOut:
    """Write the whole garden to a file: .zip for all of it, .xlsx to look at.

    Parameters
    ----------
    garden : Path
    to : Path
        It must not exist.
    today : date
        For locks in force.
    told : callable
        Puts a sentence in metric into the garden's own units, for the spreadsheet.
    step : Step

    Raises
    ------
    ParameterError
        If the file's ending is neither.
    StoreError, GardenError
    """
    ending = to.suffix.lower()
    if ending not in (".zip", ".xlsx"):
        raise ParameterError(
            f"{to.name} does not say what to write.",
            "End its name in .zip for all of the garden, or in .xlsx for a spreadsheet.",
        )
    folder = open_garden(garden)
    state = open_state(folder)
    predictions = weather_days = photos = 0
    left_out: tuple[str, ...] = ()
    if ending == ".zip":
        done = _archive(folder, state, to, today, step)
        predictions, photos, weather_days = done.predictions, done.photos, done.weather_days
        left_out = done.left_out
    else:
        _spreadsheet(folder, state, to, today, told, step)
    return CarriedOut(
        file=str(to),
        form="archive" if ending == ".zip" else "spreadsheet",
        garden=folder.site.name,
        units=folder.site.units,
        entries=len(state.entries),
        predictions=predictions,
        photos=photos,
        weather_days=weather_days,
        beds=len(state.garden.beds),
        plantings=len(state.garden.plantings),
        locks=lock_lines(state.garden, today, words=folder.site.words),
        left_out=list(left_out),
        damage=state.damage,
    )


def _archive(folder: GardenFolder, state: State, to: Path, today: date, step: Step) -> About:
    from spadework.store.archive import write_archive

    return write_archive(
        folder,
        state.entries,
        _predictions(folder),
        state.garden,
        to,
        today,
        damage=state.damage,
        step=step,
    ).about


def _spreadsheet(
    folder: GardenFolder, state: State, to: Path, today: date, told: Callable[[str], str], step: Step
) -> None:
    from spadework.store.spreadsheet import write_spreadsheet

    garden, words = state.garden, folder.site.words

    def called(crop: str) -> str:
        return crop_word(crop, words)

    made = (
        tables.locks_table(garden, today),
        tables.beds_table(garden, today, called),
        tables.plantings_table(garden, today, called),
        tables.harvest_table(garden, called),
        tables.kit_table(garden),
        tables.tin_table(garden, called),
        tables.people_table(garden),
        tables.chores_table(garden),
        tables.book_table(state.entries, garden, lambda entry: told(sentence(entry, garden, words=words))),
    )
    write_spreadsheet(to, made, us=folder.site.units == "us", step=step)


def _predictions(folder: GardenFolder) -> list[Kept]:
    with folder.open_book() as book:
        try:
            return book.predictions()
        except StoreError:
            if book.damage:
                return []  # said with the book's damage
            raise
