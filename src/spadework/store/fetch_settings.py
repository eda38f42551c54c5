"""What garden.toml says about fetching weather."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any, Final

from spadework.errors import GardenError, ParameterError
from spadework.store.garden_folder import GARDEN_FILE
from spadework.weather.fetch.service import FetchSettings

_KINDS: Final[dict[str, type | tuple[type, ...]]] = {
    "on": bool,
    "forecast": str,
    "archive": str,
    "decimals": int,
    "days": int,
    "timeout_s": (int, float),
    "parameters": dict,
}


def fetch_settings(garden: Path) -> FetchSettings:
    """The table [fetch] of an opened garden; its defaults where there is none.

    Raises
    ------
    GardenError
        If a key or a value is not known.
    """
    table: Any = tomllib.loads((garden / GARDEN_FILE).read_text(encoding="utf-8-sig")).get("fetch", {})
    if not isinstance(table, dict):
        raise GardenError(f"{GARDEN_FILE}: fetch is {table!r}.", "Make it a table: [fetch].")
    for key, value in table.items():
        if key not in _KINDS:
            raise GardenError(
                f"{GARDEN_FILE} has {key!r} under [fetch], which is not known.",
                f"Known: {', '.join(_KINDS)}.",
            )
        if not isinstance(value, _KINDS[key]) or (isinstance(value, bool) and key != "on"):
            raise GardenError(f"{GARDEN_FILE}: {key} under [fetch] is {value!r}.", "See docs/how-to.")
    parameters = {str(name): str(value) for name, value in table.get("parameters", {}).items()}
    try:
        return FetchSettings(**(table | {"parameters": parameters}))
    except ParameterError as error:
        raise GardenError(f"{GARDEN_FILE}: {error.message}", error.hint) from None
