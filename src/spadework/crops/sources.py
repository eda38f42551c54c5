"""Where the crops' numbers come from: a key for each publication, spelled out in `sources.toml`."""

from __future__ import annotations

import difflib
import tomllib
from functools import cache
from pathlib import Path

from spadework.errors import UnknownName

_FILE = Path(__file__).parent / "sources.toml"


@cache
def citations() -> dict[str, str]:
    """Every source key with its citation: author or institution, year, title."""
    table = tomllib.loads(_FILE.read_text(encoding="utf-8"))
    return {str(key): str(text) for key, text in table.items()}


def citation(key: str) -> str:
    """The citation behind a source key.

    Raises
    ------
    UnknownName
        With the nearest keys in the hint.
    """
    try:
        return citations()[key]
    except KeyError:
        near = difflib.get_close_matches(key, citations(), n=3, cutoff=0.4)
        raise UnknownName(
            f"No source has the key {key!r}.", f"Nearest: {', '.join(near)}." if near else ""
        ) from None


def sources_markdown() -> str:
    """The crops' sources as a table for the documentation, with the number of values that rest on each."""
    from spadework.crops.loader import all_sheets
    from spadework.crops.parts import whole_receipts

    counts = dict.fromkeys(citations(), 0)
    for sheet in all_sheets().values():
        for value in whole_receipts(sheet).values():
            for key in value.sources:
                counts[key] += 1
        for caution in sheet.cautions:
            if caution.source:
                counts[caution.source] += 1
    lines = ["| key | source | values |", "| --- | --- | --- |"]
    lines += [f"| {key} | {citations()[key]} | {count} |" for key, count in sorted(counts.items())]
    return "\n".join(lines) + "\n"
