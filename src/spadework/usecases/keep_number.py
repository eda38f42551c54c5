"""Set one's own number for a crop, with the reason, and take it off again."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import msgspec

from spadework.crops.loader import load_sheet
from spadework.crops.names import find
from spadework.crops.overrides import apply_overrides
from spadework.errors import GardenError, InputFileError, ParameterError, UnknownName
from spadework.garden.lookup import nearest, plain
from spadework.store.garden_folder import open_garden
from spadework.store.overrides_file import (
    OVERRIDES_FILE,
    keep_overrides,
    overrides_text,
    reason_of,
    with_number,
    without_number,
)
from spadework.usecases.read_sheets import meaning_of, read_sheet
from spadework.usecases.setting import open_setting


class NumberKept(msgspec.Struct, frozen=True, kw_only=True):
    """A number set or taken off: None where the sheet's own holds again."""

    question: str
    today: date
    crop: str
    field: str
    meaning: str
    value: float | None
    why: str


def set_number(garden: Path, today: date, crop: str, field: str, value: float, why: str) -> NumberKept:
    """Set a number of a crop for this garden.

    Parameters
    ----------
    garden : Path
    today : date
    crop : str
        By any name.
    field : str
        "section.field", as `read_sheet` names it.
    value : float
        In the sheet's own unit.
    why : str
        The reason; one line.

    Raises
    ------
    ParameterError
        If no reason is given, or the number cannot be: the message says why.
    UnknownName, GardenError
    """
    if not why.strip():
        raise ParameterError("Why this number?", "Say where it comes from: a packet, your book.")
    folder = open_garden(garden)
    sheet = load_sheet(crop)
    try:
        apply_overrides(sheet, {**folder.overrides().get(sheet.key, {}), field: value}, "your own number")
    except InputFileError as error:
        said = " ".join(f"{fault.found}; allowed: {fault.allowed}. {fault.do}" for fault in error.faults)
        raise ParameterError(f"It cannot be {said}") from None
    keep_overrides(garden, with_number(overrides_text(garden), sheet.key, field, value, why))
    open_setting(garden, today).own(sheet.key)  # read back: what was written holds
    return NumberKept(
        question="own number",
        today=today,
        crop=sheet.key,
        field=field,
        meaning=meaning_of(field),
        value=value,
        why=why.strip(),
    )


def drop_number(garden: Path, today: date, crop: str, field: str) -> NumberKept:
    """Take an own number off: the sheet's holds again.

    Raises
    ------
    ParameterError
        If there is no own number.
    UnknownName
    GardenError
        If it stands in the file in a way that is not ours to change.
    """
    sheet = load_sheet(crop)
    own = open_garden(garden).overrides()
    if not any(field in own[key] for key in own if find(key.partition("/")[0]) == sheet.key):
        raise ParameterError("No own number is set there.", "The sheet's own holds already.")
    before = overrides_text(garden)
    why = reason_of(before, sheet.key, field)
    after = without_number(before, sheet.key, field)
    if after == before:
        raise GardenError(
            "That number stands elsewhere in the file of own numbers.",
            f"Take it out of {OVERRIDES_FILE} by hand.",
        )
    keep_overrides(garden, after)
    return NumberKept(
        question="own number",
        today=today,
        crop=sheet.key,
        field=field,
        meaning=meaning_of(field),
        value=None,
        why=why,
    )


def number_called(garden: Path, today: date, crop: str, words: str) -> str:
    """The field of a crop's sheet that some words name: all of it, or enough of its end.

    Parameters
    ----------
    words : str
        "sowing.depth_mm", "sowing depth mm", or "depth mm".

    Raises
    ------
    UnknownName
        If none is called so, or several are.
    """
    numbers = [
        each.field for each in read_sheet(crop, garden, today).values if isinstance(each.value, int | float)
    ]
    asked = plain(words)
    found = [field for field in numbers if asked in (plain(field), plain(field.partition(".")[2]))]
    found = found or [field for field in numbers if asked and f" {plain(field)}".endswith(f" {asked}")]
    if len(found) == 1:
        return found[0]
    told = [field.replace(".", " ").replace("_", " ") for field in found or numbers]
    if found:
        raise UnknownName(f"{words!r} could be several numbers.", f"Say which: {', '.join(told)}.")
    near = nearest(words, [*told, *(field.partition(".")[2].replace("_", " ") for field in numbers)])
    hint = f"Nearest: {', '.join(near)}." if near else f"See them with: spadework sheet {crop}"
    raise UnknownName(f"The sheet of {crop} has no number called {words!r}.", hint)


def own_reasons(garden: Path, crop: str, fields: list[str]) -> dict[str, str]:
    """The reason behind each of these numbers of a crop that were set here.

    Raises
    ------
    UnknownName, GardenError
    """
    text = overrides_text(garden)
    key = load_sheet(crop).key
    found = {field: reason_of(text, key, field) for field in fields}
    return {field: why for field, why in found.items() if why}
