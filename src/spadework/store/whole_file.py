"""Replace a text file of the garden in one step."""

from __future__ import annotations

import os
import tempfile
from pathlib import Path

from spadework.errors import GardenError


def replace_file(path: Path, text: str) -> None:
    """Replace a file in one step: a crash leaves the old one or the new one, never half of either.

    Raises
    ------
    GardenError
        If it cannot be written.
    """
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
