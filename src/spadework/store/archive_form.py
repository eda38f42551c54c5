"""What lies in a garden's archive: an ordinary zip whose parts any program can open."""

from __future__ import annotations

import re
from datetime import date, datetime
from typing import Final, Literal

import msgspec

from spadework.store.garden_folder import GARDEN_FILE, WEATHER_FILE
from spadework.store.overrides_file import OVERRIDES_FILE

FORMAT: Final = 1
"""Raised when an older program could no longer read what a newer one writes."""

ABOUT: Final = "about.json"
BOOK: Final = "book.jsonl"
PREDICTIONS: Final = "predictions.jsonl"
PLAN: Final = "plan.geojson"

TABLES: Final = ("locks", "beds", "plantings", "kit", "tin", "people", "chores", "harvest")
"""Made from the book for other programs to read, the locks first; not read on the way back."""

NAMES: Final = frozenset(
    {ABOUT, BOOK, PREDICTIONS, PLAN, GARDEN_FILE, OVERRIDES_FILE, WEATHER_FILE}
    | {f"{name}.csv" for name in TABLES}
)
"""Every name there can be, but for photos."""

PHOTO: Final = re.compile(r"photos/([0-9a-f]{64})\.(?:jpg|png|webp|heic)")


class Part(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """Size and SHA-256 of one part."""

    bytes: int
    sha256: str


class About(msgspec.Struct, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """What an archive says of itself.

    Parameters
    ----------
    what, format
        That it is one, and how it is laid out.
    program : str
        Version of the program that wrote it.
    made_at : datetime
    day : date
        The tables are as of this day.
    garden : str
    entries, predictions, photos, weather_days : int
    damage : str
        What was wrong with the book it was made from; then it holds what could be read.
    left_out : tuple of str
        Photos the book names that were missing or changed: one line for each.
    parts : dict of str to Part
        All others in the archive.
    """

    what: Literal["spadework garden"] = "spadework garden"
    format: int = FORMAT
    program: str
    made_at: datetime
    day: date
    garden: str
    entries: int
    predictions: int
    photos: int
    weather_days: int
    damage: str = ""
    left_out: tuple[str, ...] = ()
    parts: dict[str, Part]


def without_store(text: str) -> str:
    """garden.toml without the server of its book, whose address is no part of the garden.

    Raises
    ------
    ValueError
        If it is written so that it cannot be taken out line by line.
    """
    import tomllib

    before = tomllib.loads(text)
    if "store" not in before:
        return text
    kept, inside = [], False
    for line in text.splitlines(keepends=True):
        if line.lstrip().startswith("["):
            inside = re.match(r"\s*\[\s*store\s*\]", line) is not None
        if not inside:
            kept.append(line)
    found = "".join(kept)
    if tomllib.loads(found) != {key: value for key, value in before.items() if key != "store"}:
        raise ValueError("[store] is no table of its own lines")
    return found
