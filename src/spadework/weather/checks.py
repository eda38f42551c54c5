"""Is this weather possible? Crossed, impossible, stuck and jumping values, and gaps."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final, Literal

import numpy as np
from numpy.typing import NDArray

from spadework.types import Bools, Floats
from spadework.weather.series import ELEMENTS, Series

Kind = Literal["crossed", "impossible", "stuck", "jump", "gap"]

HOTTEST_C: Final = 56.7
COLDEST_C: Final = -89.2
WETTEST_MM: Final = 1825.0
"""World extremes: Death Valley 1913, Vostok 1983, Foc-Foc (La Reunion) 1966.

Source: World Meteorological Organization, archive of weather and climate extremes. Class: memory.
"""

_POSSIBLE: Final = {
    "tmin_c": (COLDEST_C, HOTTEST_C),
    "tmax_c": (COLDEST_C, HOTTEST_C),
    "rain_mm": (0.0, WETTEST_MM),
    "solar_mj": (0.0, 50.0),  # above the radiation at the top of the atmosphere anywhere on earth
    "wind_m_s": (
        0.0,
        103.0,
    ),  # highest three-second gust of a cyclone; no daily mean comes near it (memory: WMO)
    "rh_mean_pct": (0.0, 100.5),
    "tdew_c": (COLDEST_C, 40.0),
}

STUCK_PAIR_DAYS: Final = 5
STUCK_VALUE_DAYS: Final = 10
JUMP_CDELTA: Final = 25.0

_SAME: Final = 0.005  # degC; files give tenths or whole Fahrenheit degrees


@dataclass(frozen=True)
class Finding:
    """One thing the checks saw: what, where, for how long, and what was done about it."""

    kind: Kind
    element: str
    first_day: np.datetime64
    days: int
    seen: str
    done: str

    def __str__(self) -> str:
        length = "" if self.days == 1 else f", {self.days} days"
        return f"{self.first_day}{length}: {self.seen}; {self.done}."


@dataclass(frozen=True)
class Checked:
    """The series after the checks, and everything they found, in order of kind and day."""

    series: Series
    findings: tuple[Finding, ...]

    def count(self, kind: Kind) -> int:
        """Days under findings of one kind."""
        return sum(finding.days for finding in self.findings if finding.kind == kind)


def check(series: Series) -> Checked:
    """Look a series over; set missing what cannot be, report what is odd.

    Parameters
    ----------
    series : Series
        As read. Filled numbers are looked at like any other.

    Returns
    -------
    Checked
        Nothing is clamped, swapped or smoothed: an impossible value, and both values of a day whose
        minimum lies above its maximum, become missing. Temperatures that repeat as a pair for
        `STUCK_PAIR_DAYS` or more are missing from the second day on: the thermometer was not being read or
        reset. Single values that repeat for `STUCK_VALUE_DAYS`, jumps of more than `JUMP_CDELTA` from one
        day to the next, and gaps are reported and left as they are.

    Notes
    -----
    Thresholds are common practice, no source. A stuck rain gauge that reads zero cannot be told from drought.
    """
    findings: list[Finding] = []
    values = {name: value.copy() for name in ELEMENTS if (value := series.element(name)) is not None}
    for name, array in values.items():
        low, high = _POSSIBLE[name]
        bad = (array < low) | (array > high)
        for first, days in runs(bad):
            seen = f"{name} {_range(array[first : first + days])}, beyond {low:g} to {high:g}"
            findings.append(Finding("impossible", name, _day(series, first), days, seen, "set missing"))
        array[bad] = np.nan

    tmin, tmax = values["tmin_c"], values["tmax_c"]
    crossed = tmin > tmax + _SAME
    for first, days in runs(crossed):
        seen = f"minimum {tmin[first]:.1f} above maximum {tmax[first]:.1f} C"
        findings.append(Finding("crossed", "tmin_c", _day(series, first), days, seen, "both set missing"))
    tmin[crossed] = np.nan
    tmax[crossed] = np.nan

    repeats = _repeats(tmin) & _repeats(tmax)
    stuck = np.zeros(series.days, dtype=np.bool_)
    for first, days in runs(repeats):
        if days + 1 >= STUCK_PAIR_DAYS:
            seen = f"{tmin[first]:.1f} and {tmax[first]:.1f} C on {days + 1} days running"
            done = f"the {days} repeats set missing"
            findings.append(Finding("stuck", "tmin_c", _day(series, first - 1), days + 1, seen, done))
            stuck[first : first + days] = True
    tmin[stuck] = np.nan
    tmax[stuck] = np.nan
    for name, array in (("tmin_c", tmin), ("tmax_c", tmax)):
        for first, days in runs(_repeats(array)):
            if days + 1 >= STUCK_VALUE_DAYS:
                seen = f"{name} {array[first]:.1f} C on {days + 1} days running"
                findings.append(Finding("stuck", name, _day(series, first - 1), days + 1, seen, "kept"))
        step = np.abs(np.diff(array))
        for at in np.flatnonzero(step > JUMP_CDELTA):
            seen = f"{name} went from {array[at]:.1f} to {array[at + 1]:.1f} C in a day"
            findings.append(Finding("jump", name, _day(series, int(at) + 1), 1, seen, "kept"))

    for name in ("tmin_c", "tmax_c", "rain_mm"):
        missing = np.isnan(values[name])
        if missing.all():
            findings.append(
                Finding("gap", name, series.start, series.days, f"no {name} at all", "left missing")
            )
            continue
        for first, days in runs(missing):
            findings.append(Finding("gap", name, _day(series, first), days, f"no {name}", "left missing"))
    filled = {name: flags & ~np.isnan(values[name]) for name, flags in series.filled.items()}
    return Checked(series.with_elements(values, filled), tuple(findings))


def runs(flags: Bools) -> Iterator[tuple[int, int]]:
    """First position and length of every unbroken run of True."""
    edges: NDArray[np.int64] = np.flatnonzero(
        np.diff(np.concatenate(([False], flags, [False])).astype(np.int8))
    )
    for first, stop in zip(edges[::2].tolist(), edges[1::2].tolist(), strict=True):
        yield first, stop - first


def _repeats(array: Floats) -> Bools:
    """True where a value is the same as the day before."""
    out = np.zeros(array.shape, dtype=np.bool_)
    out[1:] = np.abs(np.diff(array)) < _SAME
    return out


def _day(series: Series, at: int) -> np.datetime64:
    return series.start + np.timedelta64(at, "D")


def _range(array: Floats) -> str:
    low, high = float(array.min()), float(array.max())
    return f"{low:g}" if low == high else f"{low:g} to {high:g}"
