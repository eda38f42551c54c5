"""What a reader hands back, and how day numbers and values become a series."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Final, Literal

import numpy as np
from numpy.typing import NDArray

from spadework.errors import Fault, InputFileError
from spadework.types import Floats
from spadework.weather.checks import Finding
from spadework.weather.series import ELEMENTS, Series

Layout = Literal["ghcn-dly", "ghcn-long", "ghcn-wide", "daily-csv", "table"]

FAULTS_KEPT: Final = 200
"""After so many faults a file is not read further; the rest are of the same kind."""

QUALITY_WORDS: Final[Mapping[str, str]] = {
    "D": "duplicate of other data",
    "G": "stands apart from the station's other values",
    "I": "contradicts another value of the day",
    "K": "same value too many days running",
    "L": "length of a multi-day total is wrong",
    "M": "beyond what the month allows",
    "N": "doubtful zero",
    "O": "far from the normal of that day",
    "R": "range between hours or days too wide",
    "S": "disagrees with the neighbours",
    "T": "disagrees with the days around it",
    "W": "too warm for the snow it reports",
    "X": "beyond any possible value",
    "Z": "found wrong by a person",
}
"""GHCN-Daily quality flags, in our words.

Source: Menne, Durre, Vose, Gleason, Houston 2012, An overview of the Global Historical Climatology
Network-Daily database (J. Atmos. Oceanic Technol. 29); the network's own format description. Class: memory.
"""


@dataclass(frozen=True)
class ReadResult:
    """A weather file, taken whole.

    Parameters
    ----------
    series : Series
        Checked, not filled: a value that was flagged, impossible or crossed is NaN.
    name : str
        The file's name as given.
    layout : str
        Which reader took it.
    station : str
        The station's identifier or name; empty when the file does not tell.
    lat_deg, lon_deg, elevation_m : float or None
        Where the file says the station is.
    missing : dict
        Element to number of days without a value, after checking.
    flagged : dict
        Quality flag to number of values set missing for it.
    findings : tuple of Finding
        What the checks found.
    notes : tuple of str
        What was decided or left out, one sentence each.
    """

    series: Series
    name: str
    layout: Layout
    station: str = ""
    lat_deg: float | None = None
    lon_deg: float | None = None
    elevation_m: float | None = None
    missing: Mapping[str, int] = field(default_factory=dict)
    flagged: Mapping[str, int] = field(default_factory=dict)
    findings: tuple[Finding, ...] = ()
    notes: tuple[str, ...] = ()

    @property
    def days(self) -> int:
        """Days from the first to the last with any value."""
        return self.series.days


@dataclass(frozen=True)
class Parsed:
    """What one reader made of the bytes, before any check of the weather itself."""

    series: Series
    station: str
    flagged: Mapping[str, int]
    notes: tuple[str, ...]
    lat_deg: float | None = None
    lon_deg: float | None = None
    elevation_m: float | None = None


def assemble(
    name: str, elements: Mapping[str, tuple[NDArray[np.int64], Floats]], source: str, station: str
) -> Series:
    """Put (day number since 1970-01-01, value) pairs on consecutive days; days without a value are NaN.

    Raises
    ------
    InputFileError
        If no element has any value.
    """
    known = {
        key: (days[~np.isnan(v)], v[~np.isnan(v)]) for key, (days, v) in elements.items() if key in ELEMENTS
    }
    spans = [days for days, _ in known.values() if days.size]
    if not spans:
        raise InputFileError(
            name,
            [
                Fault(
                    "whole file",
                    "no usable daily temperature or rain",
                    "at least one day with a minimum and a maximum",
                    "Check that this is a station's daily record.",
                )
            ],
        )
    first = min(int(days.min()) for days in spans)
    length = max(int(days.max()) for days in spans) - first + 1
    arrays: dict[str, Floats] = {}
    for key in ELEMENTS:
        days, values = known.get(key, (np.empty(0, np.int64), np.empty(0)))
        if days.size == 0 and key not in ("tmin_c", "tmax_c", "rain_mm"):
            continue
        arrays[key] = np.full(length, np.nan)
        arrays[key][days - first] = values
    return Series(
        start=np.datetime64(first, "D"),
        tmin_c=arrays["tmin_c"],
        tmax_c=arrays["tmax_c"],
        rain_mm=arrays["rain_mm"],
        solar_mj=arrays.get("solar_mj"),
        wind_m_s=arrays.get("wind_m_s"),
        rh_mean_pct=arrays.get("rh_mean_pct"),
        tdew_c=arrays.get("tdew_c"),
        source=source,
        station=station,
    )


def refuse(name: str, where: str, found: str, allowed: str, do: str) -> InputFileError:
    """One fault, whole file refused."""
    return InputFileError(name, [Fault(where, found, allowed, do)])
