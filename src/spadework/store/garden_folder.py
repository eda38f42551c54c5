"""The garden folder: the user's own files, written so that a crash leaves the old or the new one whole."""

from __future__ import annotations

import hashlib
import json
import logging
import os
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime
from pathlib import Path
from typing import Any, Final

from spadework.errors import GardenError, ParameterError, RecordError
from spadework.garden.site import SURFACE_KINDS, Site
from spadework.garden.told import Told
from spadework.store.open_book import has_book, open_book
from spadework.store.overrides_file import OVERRIDES_FILE, OVERRIDES_START, read_overrides
from spadework.store.photos import Photos
from spadework.store.sql_book import SqlBook
from spadework.store.told_book import entries_of_file, take_over, tell_book, told_in, withdraw_in
from spadework.store.told_file import TOLD_FILE, new_key
from spadework.store.toml_file import read_toml, with_value
from spadework.store.whole_file import replace_file
from spadework.weather.checks import Finding, check
from spadework.weather.daily_csv import read_daily_csv, write_daily_csv
from spadework.weather.fill import fill_gaps
from spadework.weather.read.plain import decoded
from spadework.weather.read.result import ReadResult
from spadework.weather.series import Merged, Series, merge

GARDEN_FILE: Final = "garden.toml"
WEATHER_FILE: Final = "weather/daily.csv"
FORMAT: Final = 1
DAMAGE_LOG: Final = "spadework.damage"
"""Name of the log that a damaged book is told to, for whoever shows an answer that rests on it."""

_SITE_KEYS = ("name", "lat_deg", "lon_deg", "elevation_m")
_SETTING_KEYS = ("units", "words", "surface", "zone")


@dataclass(frozen=True)
class WeatherAdded:
    """What adding a weather file did."""

    merged: Merged | None
    series: Series
    findings: tuple[Finding, ...]
    notes: tuple[str, ...]


class GardenFolder:
    """An opened garden.

    Parameters
    ----------
    path : Path
        The folder.
    site : Site
        From its garden.toml.
    """

    def __init__(self, path: Path, site: Site) -> None:
        self.path = path
        self.site = site

    @property
    def has_weather(self) -> bool:
        """True when weather was ever added."""
        return (self.path / WEATHER_FILE).is_file()

    @property
    def has_book(self) -> bool:
        """True when anything was ever written, or there is a server for it."""
        return (self.path / TOLD_FILE).is_file() or has_book(self.path)

    def weather(self) -> Series:
        """The garden's record, with gaps filled and flagged.

        Raises
        ------
        RecordError
            If no weather was added yet.
        InputFileError
            If the file was edited into something that cannot be read.
        """
        series = self._stored()[0]
        if series is None:
            raise RecordError(
                f"{self.site.name} has no weather yet.",
                "Add a record: spadework weather add FILE (CSV or .dly).",
            )
        return series

    def add_weather(self, result: ReadResult) -> WeatherAdded:
        """Join a weather file to the record, check and fill the whole again, and keep it.

        Parameters
        ----------
        result : ReadResult
            From `read_weather`.

        Returns
        -------
        WeatherAdded
            What changed; `merged` is None when it is the first record.

        Raises
        ------
        GardenError
            If the folder cannot be written, or the record was changed by someone else meanwhile.

        Notes
        -----
        Adding the same file twice changes nothing. Either all of the file is kept or nothing.
        """
        before, digest = self._stored()
        merged = None if before is None else merge(before.unfilled(), result.series)
        checked = check(result.series if merged is None else merged.series)
        filled = fill_gaps(checked.series)
        notes = [*result.notes, *filled.notes]
        away_km = _distance_km(self.site, result)
        if away_km is not None and away_km > 100:
            notes.append(
                f"The station lies {away_km:.0f} km from the garden; check that it is the right one."
            )
        if result.elevation_m is not None and abs(result.elevation_m - self.site.elevation_m) > 200:
            notes.append(
                f"The station lies at {result.elevation_m:.0f} m, the garden at"
                f" {self.site.elevation_m:.0f} m; its temperatures are used as they are."
            )
        text = write_daily_csv(filled.series)
        if self._stored_digest() != digest:
            raise GardenError(
                "The weather record was changed while this file was added.", "Add the file again."
            )
        replace_file(self.path / WEATHER_FILE, text)
        return WeatherAdded(merged, self.weather(), checked.findings, tuple(notes))

    def keep_weather(self, series: Series) -> None:
        """Put a whole record in the place of the garden's own.

        Raises
        ------
        GardenError
            If the folder cannot be written.
        """
        replace_file(self.path / WEATHER_FILE, write_daily_csv(series))

    def keep_site(self, site: Site) -> None:
        """Change place and settings in garden.toml; the rest of the file stays as it is."""
        text = (self.path / GARDEN_FILE).read_text(encoding="utf-8-sig")
        for part, keys in (("site", _SITE_KEYS), ("settings", _SETTING_KEYS)):
            for key in keys:
                if (value := getattr(site, key)) != getattr(self.site, key):
                    text = with_value(text, part, key, json.dumps(value, ensure_ascii=False))
        replace_file(self.path / GARDEN_FILE, text)
        self.site = site

    def overrides(self) -> dict[str, dict[str, float | str]]:
        """The user's own numbers: crop (or "crop/variety") to "section.field" to value.

        Raises
        ------
        GardenError
            If overrides.toml is not TOML or holds something other than numbers and texts in tables.
        """
        return read_overrides(self.path / OVERRIDES_FILE)

    def open_book(self) -> SqlBook:
        """The garden's book, for use in a `with`; made where there is none.

        Raises
        ------
        StoreError
            If it cannot be opened. One that is damaged opens for reading and says so in `damage`.
        InputFileError
            If told facts were kept in a file before, and it cannot be read.
        """
        book = open_book(self.path)
        try:
            if (self.path / TOLD_FILE).is_file() and not book.read_only:
                take_over(book, self.path / TOLD_FILE)
            if book.damage:
                logging.getLogger(DAMAGE_LOG).warning("%s", book.damage)
        except BaseException:
            book.close()
            raise
        return book

    @property
    def photos(self) -> Photos:
        """The garden's photos."""
        return Photos(self.path)

    def told(self, today: date) -> tuple[Told, ...]:
        """What was told on or before a day and stood then, in order of telling.

        Raises
        ------
        StoreError
            If the book cannot be read.
        InputFileError
            If told facts were kept in a file before, and it cannot be read.
        """
        if not self.has_book:
            return ()
        with self.open_book() as book:
            return told_in(book, today, entries_of_file(self.path / TOLD_FILE))

    def tell(self, *told: Told, author: str = "") -> None:
        """Keep told facts, all or none; one whose key is there already counts once.

        Raises
        ------
        EntryConflict, StoreReadOnly, StoreError, InputFileError
        """
        if told:
            with self.open_book() as book:
                tell_book(book, told, datetime.now(UTC), author)

    def withdraw(self, key: str, on: date, author: str = "") -> None:
        """Withdraw a told fact from a day on; answers for earlier days still know it.

        Raises
        ------
        ParameterError
            If there is no such fact, or it was told later.
        StoreReadOnly, StoreError, InputFileError
        """
        with self.open_book() as book:
            withdraw_in(book, key, on, new_key(), datetime.now(UTC), author)

    def digest(self, told: Sequence[Told]) -> str:
        """One number for everything an answer is computed from: the garden's files and what was told."""
        found = hashlib.blake2b(digest_size=16)
        for name in (GARDEN_FILE, OVERRIDES_FILE, WEATHER_FILE):
            path = self.path / name
            found.update(path.read_bytes() if path.is_file() else b"")
            found.update(b"\0")
        found.update(repr(told).encode())
        return found.hexdigest()

    def _stored(self) -> tuple[Series | None, str]:
        path = self.path / WEATHER_FILE
        try:
            data = path.read_bytes()
        except FileNotFoundError:
            return None, ""
        except OSError as error:
            raise GardenError(f"{path} cannot be read: {error.strerror}.", "Check its permissions.") from None
        text, _ = decoded(data, WEATHER_FILE)
        return read_daily_csv(text, WEATHER_FILE), hashlib.sha256(data).hexdigest()

    def _stored_digest(self) -> str:
        path = self.path / WEATHER_FILE
        return hashlib.sha256(path.read_bytes()).hexdigest() if path.is_file() else ""


def create(directory: str | os.PathLike[str], site: Site) -> GardenFolder:
    """Make a bare garden folder.

    Parameters
    ----------
    directory : path
        Made if it does not exist. May hold other files, but no garden.
    site : Site
        Its place and settings.

    Raises
    ------
    GardenError
        If there is a garden already, the path is a file, or it cannot be written.
    """
    path = Path(directory)
    if (path / GARDEN_FILE).exists():
        raise GardenError(
            f"There is a garden in {path} already.", "Choose another folder; nothing was changed."
        )
    if path.exists() and not path.is_dir():
        raise GardenError(f"{path} is a file.", "Name a folder.")
    try:
        (path / "weather").mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise GardenError(
            f"{path} cannot be made: {error.strerror}.", "Choose a folder you may write."
        ) from None
    if not (path / OVERRIDES_FILE).exists():
        replace_file(path / OVERRIDES_FILE, OVERRIDES_START)
    # Last, because it is what makes the folder a garden.
    replace_file(path / GARDEN_FILE, _garden_toml(site))
    return GardenFolder(path, site)


def open_garden(directory: str | os.PathLike[str]) -> GardenFolder:
    """Open a garden folder.

    Raises
    ------
    GardenError
        If there is none, or garden.toml cannot be used; the message names the key.
    """
    path = Path(directory)
    if not (path / GARDEN_FILE).is_file():
        raise GardenError(
            f"No garden in {path}.",
            'Make one with: spadework new --name "My garden" --lat 52.1 --lon 0.1 --elevation 30',
        )
    table = read_toml(path / GARDEN_FILE)
    stated = table.get("format", FORMAT)
    if stated != FORMAT:
        raise GardenError(
            f"{path / GARDEN_FILE} has format {stated!r}; this version knows {FORMAT}.",
            "Use a newer version.",
        )
    site_part, settings = _table(table, "site"), _table(table, "settings")
    missing = [key for key in _SITE_KEYS if key not in site_part]
    if missing:
        raise GardenError(
            f"{GARDEN_FILE} does not say {', '.join(missing)} in [site].",
            "A garden needs its coordinates: they decide the sun and the season.",
        )
    unknown = [key for key in site_part if key not in _SITE_KEYS] + [
        k for k in settings if k not in _SETTING_KEYS
    ]
    if unknown:
        known = ", ".join((*_SITE_KEYS, *_SETTING_KEYS))
        raise GardenError(f"{GARDEN_FILE} has {unknown[0]!r}, which is not known.", f"Known: {known}.")
    if not isinstance(site_part["name"], str):
        raise GardenError(f"{GARDEN_FILE}: the name is {site_part['name']!r}.", "Write it in quotes.")
    try:
        site = Site(**site_part, **settings)
    except ParameterError as error:
        raise GardenError(f"{GARDEN_FILE}: {error.message}", error.hint) from None
    return GardenFolder(path, site)


def _garden_toml(site: Site) -> str:
    return f"""\
# The garden's place and settings. Edit with any text editor.
format = {FORMAT}

[site]
name = {json.dumps(site.name, ensure_ascii=False)}
lat_deg = {site.lat_deg!r}        # degrees, north positive
lon_deg = {site.lon_deg!r}        # degrees, east positive
elevation_m = {site.elevation_m!r}    # metres above the sea

[settings]
units = "{site.units}"        # "metric" or "us": what is shown; files inside are metric
words = "{site.words}"       # "british" or "american"
surface = "{site.surface}"  # usual surface of the beds: {", ".join(SURFACE_KINDS)}
zone = {json.dumps(site.zone)}        # clock of its hours, as "Europe/Vienna"; "": by longitude
"""


def _table(whole: Mapping[str, Any], key: str) -> dict[str, Any]:
    part = whole.get(key, {})
    if not isinstance(part, dict):
        raise GardenError(f"{GARDEN_FILE}: {key} is {part!r}.", f"Make it a table: [{key}].")
    return part


def _distance_km(site: Site, result: ReadResult) -> float | None:
    """Great-circle distance from the garden to the station, where the file says its place."""
    if result.lat_deg is None or result.lon_deg is None:
        return None
    from math import asin, cos, radians, sin, sqrt

    lat, other = radians(site.lat_deg), radians(result.lat_deg)
    half_lat, half_lon = (other - lat) / 2, radians(result.lon_deg - site.lon_deg) / 2
    return 2 * 6371.0 * asin(min(1.0, sqrt(sin(half_lat) ** 2 + cos(lat) * cos(other) * sin(half_lon) ** 2)))
