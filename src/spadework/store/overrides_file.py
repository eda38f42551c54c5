"""The user's own numbers for crops, in a file of the garden."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any, Final

from spadework.errors import GardenError
from spadework.store.toml_file import read_toml

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
