"""Read a TOML file of the garden, or say what is wrong with it."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

from spadework.errors import GardenError


def read_toml(path: Path) -> dict[str, Any]:
    """A file as tables.

    Raises
    ------
    GardenError
        If it is no TOML, no UTF-8, or cannot be read.
    """
    try:
        return tomllib.loads(path.read_text(encoding="utf-8-sig"))
    except tomllib.TOMLDecodeError as error:
        raise GardenError(f"{path.name} is not TOML: {error}.", "Correct that line.") from None
    except UnicodeDecodeError:
        raise GardenError(f"{path.name} is not UTF-8 text.", "Save it as UTF-8.") from None
    except OSError as error:
        raise GardenError(f"{path} cannot be read: {error.strerror}.", "Check its permissions.") from None
