"""A place on the globe as maps and people write it: 52.1 N 0.1 W, 52°06'N 0°06'W, -33.9, 151.2."""

from __future__ import annotations

import re
from typing import Final, Literal, TypeAlias

from spadework.errors import ParameterError

Axis: TypeAlias = Literal["latitude", "longitude"]

_LETTERS: Final[dict[Axis, str]] = {"latitude": "NS", "longitude": "EW"}
_WORDS: Final = re.compile(r"\b(north|south|east|west)\b", re.I)
_ANGLE: Final = re.compile(
    r"([NSEW])?\s*([+-]?)(\d+(?:[.,]\d+)?)\s*(?:°|º|D(?:EG(?:REES)?)?\.?)?"
    r"(?:\s*(\d+(?:[.,]\d+)?)\s*(?:'|M(?:IN)?\b)?(?:\s*(\d+(?:[.,]\d+)?)\s*(?:\"|''|S(?:EC)\b)?)?)?\s*([NSEW])?"
)
_NS, _EW = r"(?<![A-Z])[NS](?![A-Z])", r"(?<![A-Z])[EW](?![A-Z])"
_NORTH_FIRST: Final = re.compile(rf"(.*?{_NS})[\s,;]*(.*?{_EW})")
_EAST_FIRST: Final = re.compile(rf"(.*?{_EW})[\s,;]*(.*?{_NS})")
_LETTERS_FIRST: Final = re.compile(r"([NS]\s*\d.*?)[\s,;]*([EW]\s*\d.*)")
_HOW: Final = "Write it as 52.1 N 0.1 W, as 52°06'N 0°06'W, or as 52.1, -0.1 (north and east positive)."


def read_place(text: str) -> tuple[float, float]:
    """Latitude and longitude in degrees, north and east positive.

    Raises
    ------
    ParameterError
        If the text does not hold both, or one cannot be; ranges are the site's to check.
    """
    plain = _plain(text)
    halves: list[str] = []
    if found := _NORTH_FIRST.fullmatch(plain) or _LETTERS_FIRST.fullmatch(plain):
        halves = [found[1], found[2]]
    elif found := _EAST_FIRST.fullmatch(plain):
        halves = [found[2], found[1]]
    else:
        for between in (r"\s*;\s*", r",\s+", r"\s*,\s*", r"\s+"):
            halves = re.split(between, plain)
            if len(halves) == 2:
                break
    if len(halves) != 2:
        raise ParameterError(f"{text!r} is not a place.", _HOW)
    return read_angle(halves[0], "latitude"), read_angle(halves[1], "longitude")


def read_angle(text: str, axis: Axis) -> float:
    """One coordinate in degrees: decimal, or degrees, minutes and seconds; south and west negative.

    Raises
    ------
    ParameterError
    """
    found = _ANGLE.fullmatch(_plain(text))
    if found is None:
        raise ParameterError(f"{text!r} is not a {axis}.", _HOW)
    before, sign, degrees, minutes, seconds, after = found.groups()
    letter = before or after or ""
    if before and after:
        raise ParameterError(f"{text!r} names two directions.", _HOW)
    if letter and letter not in _LETTERS[axis]:
        raise ParameterError(f"{text!r} is not a {axis}.", f"A {axis} is {' or '.join(_LETTERS[axis])}.")
    if letter and sign == "-":
        raise ParameterError(f"{text!r} has both a minus and {letter}.", "Leave one of them out.")
    parts = [_number(part) for part in (degrees, minutes or "0", seconds or "0")]
    if minutes and (parts[0] % 1 or max(parts[1:]) >= 60):
        raise ParameterError(f"{text!r} is not a {axis}.", "Minutes and seconds run from 0 to 59.")
    value = parts[0] + parts[1] / 60 + parts[2] / 3600
    return round(-value if sign == "-" or letter in ("S", "W") else value, 6) + 0.0


def place_text(lat_deg: float, lon_deg: float) -> str:
    """A place in a sentence: 52.1 N 0.1 W."""
    north, east = "N" if lat_deg >= 0 else "S", "E" if lon_deg >= 0 else "W"
    return f"{abs(lat_deg):g} {north} {abs(lon_deg):g} {east}"


def _plain(text: str) -> str:
    signs = str.maketrans({"−": "-", "–": "-", "′": "'", "’": "'", "″": '"', "”": '"', "\u00a0": " "})
    words = _WORDS.sub(lambda found: found[1][0], text.translate(signs))
    return re.sub(r"\s+", " ", words).strip().upper()


def _number(text: str) -> float:
    return float(text.replace(",", "."))
