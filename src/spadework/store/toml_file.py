"""Read a TOML file of the garden, or say what is wrong with it; change one value and leave the rest."""

from __future__ import annotations

import re
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


def with_value(text: str, part: str, key: str, value: str) -> str:
    """A TOML text with one value of a table changed, or added below its header."""
    header = re.search(rf"^\s*\[\s*{part}\s*\][^\n]*\n", text, re.M)
    if header is None:
        return f"{text.rstrip()}\n\n[{part}]\n{key} = {value}\n"
    following = re.compile(r"^\s*\[", re.M).search(text, header.end())
    end = len(text) if following is None else following.start()
    body = text[header.end() : end]
    line = rf"^(\s*{key}\s*=\s*)(\"(?:[^\"\\\n]|\\.)*\"|'[^'\n]*'|[^\s#]+)"
    found = re.search(line, body, re.M)
    if found is None:
        body = f"{key} = {value}\n{body}"
    else:
        body = f"{body[: found.start(2)]}{value}{body[found.end(2) :]}"
    return f"{text[: header.end()]}{body}{text[end:]}"
