"""Take the whole garden out, as an open archive or as a spreadsheet."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import msgspec

from spadework.errors import ParameterError, StoreError
from spadework.garden.state import Garden
from spadework.store.copies import Step, unheard
from spadework.store.garden_folder import GardenFolder, open_garden
from spadework.store.predictions import Kept
from spadework.usecases.keep_book import open_state


class LockSaid(msgspec.Struct, frozen=True, kw_only=True):
    """A lock in force: what it is on, and what it stops, until when or until what test, and why."""

    on: str
    subject: str
    stops: str
    why: str
    until: date | None = None
    test: str = ""


class CarriedOut(msgspec.Struct, frozen=True, kw_only=True):
    """What was written.

    Parameters
    ----------
    file, form, garden, units : str
    entries, predictions, photos, weather_days, beds, plantings : int
    locks : list of LockSaid
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
    locks: list[LockSaid]
    left_out: list[str] = []
    damage: str = ""


def carry_out(folder: Path, to: Path, today: date, *, step: Step = unheard) -> CarriedOut:
    """Write the whole garden to a file: .zip for all of it, .xlsx to look at.

    Parameters
    ----------
    folder : Path
    to : Path
        It must not exist.
    today : date
        For locks in force.
    step : Step

    Raises
    ------
    ParameterError
        If the file's ending is neither.
    StoreError, GardenError
    """
    ending = to.suffix.lower()
    if ending != ".zip":
        raise ParameterError(f"{to.name} does not say what to write.", "Name a file that ends in .zip.")
    garden = open_garden(folder)
    state = open_state(garden)
    from spadework.store.archive import write_archive

    done = write_archive(
        garden,
        state.entries,
        _predictions(garden),
        state.garden,
        to,
        today,
        damage=state.damage,
        step=step,
    ).about
    return CarriedOut(
        file=str(to),
        form="archive",
        garden=garden.site.name,
        units=garden.site.units,
        entries=done.entries,
        predictions=done.predictions,
        photos=done.photos,
        weather_days=done.weather_days,
        beds=len(state.garden.beds),
        plantings=len(state.garden.plantings),
        locks=locks_said(state.garden, today),
        left_out=list(done.left_out),
        damage=done.damage,
    )


def locks_said(garden: Garden, today: date) -> list[LockSaid]:
    """Every lock in force, with the name of what it is on."""
    found = []
    for lock in garden.locks_on(today):
        name = garden.beds[lock.subject].name if lock.subject in garden.beds else lock.subject
        found.append(
            LockSaid(
                on=lock.on,
                subject=name or "everywhere",
                stops=lock.stops,
                why=lock.why,
                until=lock.until,
                test=lock.test,
            )
        )
    return found


def _predictions(folder: GardenFolder) -> list[Kept]:
    with folder.open_book() as book:
        try:
            return book.predictions()
        except StoreError:
            if book.damage:
                return []  # said with the book's damage
            raise
