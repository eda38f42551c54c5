"""Guesses for a new garden: a rough place from this computer's clock, units and words from the place."""

from __future__ import annotations

import os
import re
import zoneinfo
from datetime import datetime
from pathlib import Path
from typing import Final, Literal, NamedTuple

from spadework.garden.site import Units, Words

WIDEST_H: Final = 2.0

ELEVATION_M: Final = 100.0
"""Where no elevation is told; it moves water use by little. Class: common-practice."""

_PLACE = re.compile(r"([+-]\d{4,6})([+-]\d{5,7})")


class RoughPlace(NamedTuple):
    """The town a time zone is named for."""

    lat_deg: float
    lon_deg: float
    zone: str


def rough_place() -> RoughPlace | None:
    """Where this computer's clock says it is, to a tenth of a degree; None where it does not say.

    Notes
    -----
    The time zone database lists the main town of every zone with its coordinates. It can be far off; it is
    a default to be corrected, and nothing is looked up elsewhere.
    """
    zone = _zone()
    if not zone:
        return None
    for folder in zoneinfo.TZPATH:
        for name in ("zone1970.tab", "zone.tab"):
            try:
                text = (Path(folder) / name).read_text(encoding="utf-8")
            except OSError:
                continue
            for line in text.splitlines():
                fields = line.split("\t")
                if len(fields) > 2 and fields[2] == zone and (found := _PLACE.fullmatch(fields[1])):
                    return RoughPlace(_degrees(found[1], 2), _degrees(found[2], 3), zone)
    return None


def likely_zone(lon_deg: float) -> str:
    """This computer's time zone where the garden can lie in it; empty where it cannot, or names no place.

    Notes
    -----
    Clocks run up to two hours off the sun within a zone: our own limit.
    """
    zone = _zone()
    if "/" not in zone or zone.startswith("Etc/"):
        return ""
    try:
        offset = datetime(2001, 1, 1, tzinfo=zoneinfo.ZoneInfo(zone)).utcoffset()
    except (zoneinfo.ZoneInfoNotFoundError, ValueError, OSError):
        return ""
    if offset is None or abs(offset.total_seconds() / 3600.0 - lon_deg / 15.0) > WIDEST_H:
        return ""
    return zone


def likely_units(lat_deg: float, lon_deg: float) -> Units:
    """Feet and Fahrenheit in the United States, as far as a box tells; metric elsewhere."""
    mainland = 24.5 <= lat_deg <= 49.0 and -124.8 <= lon_deg <= -66.9
    # The corner east of the Great Lakes is Canada's.
    ontario = lat_deg > 43.0 and -83.0 < lon_deg < -76.5 and lat_deg > 42.0 + (lon_deg + 83.0) * 0.2
    north = 54.0 <= lat_deg <= 71.5 and -170.0 <= lon_deg <= -141.0
    islands = 18.9 <= lat_deg <= 22.3 and -160.3 <= lon_deg <= -154.7
    return "us" if (mainland and not ontario) or north or islands else "metric"


def likely_words(units: Units) -> Words:
    """American words where units are American."""
    return "american" if units == "us" else "british"


def likely_name(login: Literal[""] | str = "") -> str:
    """What the person at this computer may be called; empty where the login says nothing."""
    name = login or os.environ.get("USER", "") or os.environ.get("USERNAME", "")
    return name.capitalize() if name.isalpha() and name not in ("root", "user", "admin", "ubuntu") else ""


def _zone() -> str:
    named = os.environ.get("TZ", "").lstrip(":")
    if named:
        return named
    try:
        return Path("/etc/timezone").read_text(encoding="utf-8").strip()
    except OSError:
        pass
    try:
        return str(Path("/etc/localtime").resolve()).partition("zoneinfo/")[2]
    except OSError:
        return ""


def _degrees(text: str, width: int) -> float:
    """Degrees of "+5130" or "-0000731": sign, degrees, minutes and perhaps seconds."""
    digits = text[1:]
    value = int(digits[:width]) + int(digits[width : width + 2]) / 60
    return round(-value if text[0] == "-" else value, 1)
