"""The garden folder: the user's own files, written so that a crash leaves the old or the new one whole."""

from __future__ import annotations

import hashlib
import json
import os
import tempfile
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Any, Final

from spadework.errors import GardenError, ParameterError, RecordError
from spadework.garden.site import SURFACE_KINDS, Site
from spadework.garden.told import Told
from spadework.store.told_file import TOLD_FILE, append_told, append_withdrawal, read_told
from spadework.weather.checks import Finding, check
from spadework.weather.daily_csv import read_daily_csv, write_daily_csv
from spadework.weather.fill import fill_gaps
from spadework.weather.read.plain import decoded
from spadework.weather.read.result import ReadResult
from spadework.weather.series import Merged, Series, merge

GARDEN_FILE: Final = "garden.toml"
WEATHER_FILE: Final = "weather/daily.csv"
OVERRIDES_FILE: Final = "overrides.toml"
FORMAT: Final = 1

_SITE_KEYS = ("name", "lat_deg", "lon_deg", "elevation_m")
_SETTING_KEYS = ("units", "words", "surface")

_OVERRIDES_START = """\
# Your own numbers for a crop or a variety; they win over the sheet's. Example, without the leading signs:
#
# [carrot.emergence]
# sum_cd = 160
#
# [carrot.variety."Early Nantes".development]
# ready_days = 62
"""


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
        _write(self.path / WEATHER_FILE, text)
        return WeatherAdded(merged, self.weather(), checked.findings, tuple(notes))

    def overrides(self) -> dict[str, dict[str, float | str]]:
        """The user's own numbers: crop (or "crop/variety") to "section.field" to value.

        Raises
        ------
        GardenError
            If overrides.toml is not TOML or holds something other than numbers and texts in tables.
        """
        path = self.path / OVERRIDES_FILE
        if not path.is_file():
            return {}
        found: dict[str, dict[str, float | str]] = {}
        for crop, table in _read_toml(path).items():
            if not isinstance(table, dict):
                raise GardenError(
                    f"{OVERRIDES_FILE}: {crop!r} is in no table.",
                    "Put it under the crop's name, [carrot].",
                )
            varieties = table.pop("variety", {})
            if not isinstance(varieties, dict):
                raise GardenError(
                    f"{OVERRIDES_FILE}: variety of {crop!r} is no table.",
                    'Write [carrot.variety."NAME".section].',
                )
            for key, part in [(crop, table), *((f"{crop}/{v}", own) for v, own in varieties.items())]:
                if not isinstance(part, dict):
                    raise GardenError(
                        f"{OVERRIDES_FILE}: {key!r} is no table.", "Write its fields in a table."
                    )
                values = _flat(part, key)
                if values:
                    found[key] = values
        return found

    def told(self, today: date) -> tuple[Told, ...]:
        """What was told on or before a day and stood then, in order of telling.

        Raises
        ------
        InputFileError
            If a line of the file cannot be read.
        """
        return read_told(self.path / TOLD_FILE, today)

    def tell(self, *told: Told) -> None:
        """Keep entries, all or none; one whose key is there already counts once.

        Raises
        ------
        InputFileError, GardenError
        """
        append_told(self.path / TOLD_FILE, told)

    def withdraw(self, key: str, on: date) -> None:
        """Withdraw an entry from a day on; answers for earlier days still know it.

        Raises
        ------
        ParameterError, InputFileError, GardenError
        """
        append_withdrawal(self.path / TOLD_FILE, key, on)

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
        _write(path / OVERRIDES_FILE, _OVERRIDES_START)
    # Last, because it is what makes the folder a garden.
    _write(path / GARDEN_FILE, _garden_toml(site))
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
    table = _read_toml(path / GARDEN_FILE)
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
"""


def _table(whole: Mapping[str, Any], key: str) -> dict[str, Any]:
    part = whole.get(key, {})
    if not isinstance(part, dict):
        raise GardenError(f"{GARDEN_FILE}: {key} is {part!r}.", f"Make it a table: [{key}].")
    return part


def _read_toml(path: Path) -> dict[str, Any]:
    try:
        return tomllib.loads(path.read_text(encoding="utf-8-sig"))
    except tomllib.TOMLDecodeError as error:
        raise GardenError(f"{path.name} is not TOML: {error}.", "Correct that line.") from None
    except UnicodeDecodeError:
        raise GardenError(f"{path.name} is not UTF-8 text.", "Save it as UTF-8.") from None
    except OSError as error:
        raise GardenError(f"{path} cannot be read: {error.strerror}.", "Check its permissions.") from None


def _flat(table: Mapping[str, Any], key: str, before: str = "") -> dict[str, float | str]:
    values: dict[str, float | str] = {}
    for name, value in table.items():
        if isinstance(value, dict):
            values |= _flat(value, key, f"{before}{name}.")
        elif isinstance(value, (int, float, str)) and not isinstance(value, bool):
            values[f"{before}{name}"] = value
        else:
            raise GardenError(
                f"{OVERRIDES_FILE}: {before}{name} of {key} is {value!r}.", "Give a number or a text."
            )
    return values


def _distance_km(site: Site, result: ReadResult) -> float | None:
    """Great-circle distance from the garden to the station, where the file says its place."""
    if result.lat_deg is None or result.lon_deg is None:
        return None
    from math import asin, cos, radians, sin, sqrt

    lat, other = radians(site.lat_deg), radians(result.lat_deg)
    half_lat, half_lon = (other - lat) / 2, radians(result.lon_deg - site.lon_deg) / 2
    return 2 * 6371.0 * asin(min(1.0, sqrt(sin(half_lat) ** 2 + cos(lat) * cos(other) * sin(half_lon) ** 2)))


def _write(path: Path, text: str) -> None:
    """Replace a file in one step: a crash leaves the old one or the new one, never half of either."""
    temporary = ""
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        handle, temporary = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.", suffix=".new")
        with os.fdopen(handle, "w", encoding="utf-8", newline="\n") as file:
            file.write(text)
            file.flush()
            os.fsync(file.fileno())
        os.replace(temporary, path)
    except OSError as error:
        if temporary and os.path.exists(temporary):
            os.unlink(temporary)
        raise GardenError(
            f"{path} cannot be written: {error.strerror}.", "Check the folder and the disk."
        ) from None
    if os.name == "posix":
        folder = os.open(path.parent, os.O_RDONLY)
        try:
            os.fsync(folder)
        finally:
            os.close(folder)
