"""The user's own numbers for crops, in a file of the garden."""

from __future__ import annotations

import re
from collections.abc import Mapping
from pathlib import Path
from typing import Any, Final

from spadework.errors import GardenError
from spadework.store.toml_file import read_toml
from spadework.store.whole_file import replace_file

OVERRIDES_FILE: Final = "overrides.toml"

OVERRIDES_START: Final = """\
# Your own numbers for a crop or a variety; they win over the sheet's. Example, without the leading signs:
#
# [carrot.emergence]
# sum_cd = 160
#
# [carrot.variety."Early Nantes".development]
# ready_days = 62
"""


def read_overrides(path: Path) -> dict[str, dict[str, float | str]]:
    """Crop (or "crop/variety") to "section.field" to value; nothing where there is no such file.

    Raises
    ------
    GardenError
        If it is not TOML or holds something other than numbers and texts in tables.
    """
    if not path.is_file():
        return {}
    found: dict[str, dict[str, float | str]] = {}
    for crop, table in read_toml(path).items():
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
                raise GardenError(f"{OVERRIDES_FILE}: {key!r} is no table.", "Write its fields in a table.")
            values = _flat(part, key)
            if values:
                found[key] = values
    return found


def overrides_text(folder: Path) -> str:
    """A garden's file of own numbers as it stands; its beginning where there is none.

    Raises
    ------
    GardenError
        If it cannot be read.
    """
    path = folder / OVERRIDES_FILE
    try:
        return path.read_text(encoding="utf-8-sig") if path.is_file() else OVERRIDES_START
    except (OSError, UnicodeDecodeError):
        raise GardenError(f"{path} cannot be read.", "Save it as UTF-8 text.") from None


def keep_overrides(folder: Path, text: str) -> None:
    """Put a text in the place of a garden's file of own numbers.

    Raises
    ------
    GardenError
        If it cannot be written.
    """
    replace_file(folder / OVERRIDES_FILE, text)


def with_number(text: str, crop: str, path: str, value: float, why: str) -> str:
    """The file's text with one number of a crop set, its reason behind it; what else stands there stays.

    Parameters
    ----------
    text : str
    crop : str
        Key of its sheet.
    path : str
        "section.field".
    value : float
    why : str
        One line.
    """
    rest = without_number(text, crop, path)
    section, _, name = path.rpartition(".")
    line = f"{name} = {value:.6g}{f'  # {_one_line(why)}' if why.strip() else ''}\n"
    header = re.search(_header(f"{crop}.{section}"), rest, re.M)
    if header is None:
        return f"{rest.rstrip()}\n\n[{crop}.{section}]\n{line}"
    return f"{rest[: header.end()]}{line}{rest[header.end() :]}"


def without_number(text: str, crop: str, path: str) -> str:
    """The file's text without one number of a crop; unchanged where it stands there in no plain line."""
    section, _, name = path.rpartition(".")
    found = _line_of(text, crop, section, name)
    return text if found is None else f"{text[: found[0]]}{text[found[1] :]}"


def reason_of(text: str, crop: str, path: str) -> str:
    """What stands behind a number of a crop as its reason; empty where nothing does."""
    section, _, name = path.rpartition(".")
    found = _line_of(text, crop, section, name)
    return "" if found is None else text[found[0] : found[1]].partition("#")[2].strip()


def _header(table: str) -> str:
    return rf"^[ \t]*\[[ \t]*{re.escape(table)}[ \t]*\][^\n]*\n?"


def _line_of(text: str, crop: str, section: str, name: str) -> tuple[int, int] | None:
    header = re.search(_header(f"{crop}.{section}"), text, re.M)
    if header is None:
        return None
    following = re.compile(r"^[ \t]*\[", re.M).search(text, header.end())
    end = len(text) if following is None else following.start()
    line = re.compile(rf"^[ \t]*{re.escape(name)}[ \t]*=[^\n]*\n?", re.M).search(text, header.end(), end)
    return None if line is None else line.span()


def _one_line(why: str) -> str:
    return " ".join("".join(sign if sign.isprintable() else " " for sign in why).split())


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
