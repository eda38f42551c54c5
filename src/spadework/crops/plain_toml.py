"""TOML of the sheets, read quickly: most of a sheet is one kind of line, a number with its receipt.

The library's parser spends most of its time on those inline tables. Here each that is written in the usual
order on one line is lifted out by one pattern, the rest is parsed by the library, and the tables are put
back. What does not fit the pattern, and every fault of syntax, is the library's as before.
"""

from __future__ import annotations

import re
import tomllib
from typing import cast

_NUMBER = r"-?(?:0|[1-9]\d*)(?:\.\d+)?"
_STRING = r'"([^"\\\x00-\x1f\x7f]*)"'
_RECEIPT = re.compile(
    rf"(?<= = )\{{ value = ({_NUMBER})(?:, low = ({_NUMBER}))?(?:, high = ({_NUMBER}))?"
    rf", class = {_STRING}(?:, source = {_STRING})?(?:, note = {_STRING})? \}}$",
    re.M,
)
_NAMES = ("value", "low", "high", "class", "source", "note")
_MARK = "\ue000"  # of the private plane: no sheet holds it


def loads(text: str) -> dict[str, object]:
    """The tables of a sheet, as the library would parse them.

    Raises
    ------
    tomllib.TOMLDecodeError
        If the text is not TOML.
    """
    if _MARK in text or '"""' in text or "'''" in text or "\\u" in text:
        return tomllib.loads(text)
    found: list[dict[str, object]] = []

    def lift(match: re.Match[str]) -> str:
        parts = zip(_NAMES, match.groups(), strict=True)
        found.append(
            {
                name: part if at > 2 else _number(part)
                for at, (name, part) in enumerate(parts)
                if part is not None
            }
        )
        return f"'{_MARK}{len(found) - 1}'"

    try:
        lifted = tomllib.loads(_RECEIPT.sub(lift, text))
    except tomllib.TOMLDecodeError:
        return tomllib.loads(text)  # to name the place in the text as it was written
    return cast(dict[str, object], _put_back(lifted, found))


def _number(text: str) -> int | float:
    return float(text) if "." in text else int(text)


def _put_back(table: object, found: list[dict[str, object]]) -> object:
    if isinstance(table, dict):
        return {name: _put_back(held, found) for name, held in table.items()}
    if isinstance(table, list):
        return [_put_back(held, found) for held in table]
    if isinstance(table, str) and table.startswith(_MARK):
        return found[int(table[1:])]
    return table
