"""Tell the book what an own instrument read, or that frost was seen."""

from __future__ import annotations

from pathlib import Path
from typing import Literal

from spadework.errors import ParameterError
from spadework.garden import entries as kinds
from spadework.usecases.bed_names import bed_called
from spadework.usecases.keep_book import Act
from spadework.usecases.write_answer import WriteAnswer, Writing, open_for_writing, write

COLDEST_C, WARMEST_C = -60.0, 70.0
MOST_RAIN_MM = 2000.0


def keep_rain(path: Path, how: Writing, rain_mm: float, days: int = 1) -> WriteAnswer:
    """Rain in the garden's own gauge since it was last emptied.

    Raises
    ------
    ParameterError, StoreReadOnly, StoreError
    """
    if not 0.0 <= rain_mm <= MOST_RAIN_MM:
        raise ParameterError(f"{rain_mm:g} mm is not what a gauge holds.", f"Give 0 to {MOST_RAIN_MM:g}.")
    if not 1 <= days <= 366:
        raise ParameterError(f"{days} days is not how long a gauge stands.", "Give 1 to 366.")
    folder, state = open_for_writing(path)
    act = Act(payload=kinds.RainGauge(rain_mm=rain_mm, days=days), on=how.day)
    return write(folder, state, [act], how, question="reading")


def keep_thermometer(
    path: Path,
    how: Writing,
    place: Literal["air", "soil", "leaf", "tunnel", "frame"],
    *,
    min_c: float | None = None,
    max_c: float | None = None,
    now_c: float | None = None,
    depth_cm: float | None = None,
    bed: str = "",
) -> WriteAnswer:
    """An own thermometer read: extremes since the last time, or what it says now.

    Raises
    ------
    ParameterError
        If nothing was read, or no thermometer reads so.
    UnknownName, StoreReadOnly, StoreError
    """
    read = [value for value in (min_c, max_c, now_c) if value is not None]
    if not read:
        raise ParameterError("What did it read?", "Give the lowest, the highest, or what it reads now.")
    for value in read:
        if not COLDEST_C <= value <= WARMEST_C:
            raise ParameterError(
                f"{value:g} °C is not what a thermometer reads.", f"Give {COLDEST_C:g} to {WARMEST_C:g}."
            )
    if min_c is not None and max_c is not None and min_c > max_c:
        raise ParameterError("The lowest is above the highest.", "Perhaps they are the wrong way round.")
    folder, state = open_for_writing(path)
    payload = kinds.ThermometerRead(place=place, min_c=min_c, max_c=max_c, now_c=now_c, depth_cm=depth_cm)
    key = bed_called(state.garden, bed).key if bed else ""
    return write(folder, state, [Act(payload=payload, on=how.day, bed=key)], how, question="reading")


def keep_frost_seen(path: Path, how: Writing, bed: str = "") -> WriteAnswer:
    """White frost seen on leaves, in a bed or anywhere.

    Raises
    ------
    UnknownName, StoreReadOnly, StoreError
    """
    folder, state = open_for_writing(path)
    key = bed_called(state.garden, bed).key if bed else ""
    act = Act(payload=kinds.Seen(what="frost on the leaves"), on=how.day, bed=key)
    return write(folder, state, [act], how, question="reading")
