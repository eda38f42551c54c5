"""A daily weather series: what was measured, what was filled, and from where."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from typing import Final

import numpy as np
from numpy.typing import NDArray

from spadework.errors import ParameterError, RecordError
from spadework.types import Bools, Days, Floats

NEEDED: Final = ("tmin_c", "tmax_c", "rain_mm")
OPTIONAL: Final = ("solar_mj", "wind_m_s", "rh_mean_pct", "tdew_c")
ELEMENTS: Final = NEEDED + OPTIONAL

MADE_SOURCE: Final = "made from"
"""A source text that starts so marks days that nobody measured."""

_A_DAY = np.timedelta64(1, "D")


def as_day(day: date | np.datetime64) -> np.datetime64:
    """A day as datetime64[D], from a date or any datetime64."""
    return np.datetime64(str(day)[:10], "D")


@dataclass(frozen=True, eq=False)
class Series:
    """Daily weather on consecutive days.

    Parameters
    ----------
    start : datetime64[D] or date
        First day.
    tmin_c, tmax_c : array, shape (day,)  [degC]
        Daily extremes at shelter height. NaN where not known.
    rain_mm : array, shape (day,)  [mm]
        Rain and melted snow of the day. NaN where not known.
    solar_mj : array or None  [MJ m-2 d-1]
        Global radiation.
    wind_m_s : array or None  [m s-1]
        Mean wind at the height the station measures it.
    rh_mean_pct : array or None  [%]
        Mean relative humidity.
    tdew_c : array or None  [degC]
        Mean dew point.
    filled : mapping of element name to bool array
        True where a number was put in by gap filling. An element without an entry has none filled.
    source : str
        Where the numbers come from, in words a person can check.
    station : str
        The station's own identifier, or empty.
    source_names, source_index :
        Which source each day is from, when there are several: `source_names[source_index[day]]`.

    Raises
    ------
    ParameterError
        If the arrays differ in length, have more than one axis, or hold no day.

    Notes
    -----
    The arrays are kept as read-only views, so a series can be shared without copies.
    """

    start: np.datetime64
    tmin_c: Floats
    tmax_c: Floats
    rain_mm: Floats
    solar_mj: Floats | None = None
    wind_m_s: Floats | None = None
    rh_mean_pct: Floats | None = None
    tdew_c: Floats | None = None
    filled: Mapping[str, Bools] = field(default_factory=dict)
    source: str = ""
    station: str = ""
    source_names: tuple[str, ...] = ()
    source_index: NDArray[np.int64] | None = None

    def __post_init__(self) -> None:
        object.__setattr__(self, "start", as_day(self.start))
        length = np.shape(self.tmin_c)
        if len(length) != 1 or length[0] == 0:
            raise ParameterError(f"A weather series needs one axis of days, this has shape {length}.")
        for name in ELEMENTS:
            values = getattr(self, name)
            if values is not None:
                object.__setattr__(self, name, _locked(values, np.float64, length, name))
        flags = {
            name: _locked(value, np.bool_, length, f"filled {name}") for name, value in self.filled.items()
        }
        unknown = set(flags) - set(ELEMENTS)
        if unknown:
            raise ParameterError(
                f"A series has no element {sorted(unknown)[0]!r}.", f"Known: {', '.join(ELEMENTS)}."
            )
        object.__setattr__(self, "filled", flags)
        if self.source_index is not None:
            index = _locked(self.source_index, np.int64, length, "source index")
            object.__setattr__(self, "source_index", index)

    @property
    def days(self) -> int:
        """Number of days."""
        return int(self.tmin_c.shape[0])

    @property
    def end(self) -> np.datetime64:
        """Last day, itself included."""
        return self.start + (self.days - 1) * _A_DAY

    @property
    def dates(self) -> Days:
        """Every day, datetime64[D]."""
        return np.arange(self.start, self.start + self.days * _A_DAY)

    @property
    def made(self) -> Bools:
        """True on days that were made from monthly normals and not measured."""
        if self.source_index is None:
            return np.full(self.days, self.source.startswith(MADE_SOURCE))
        made = np.array([name.startswith(MADE_SOURCE) for name in self.source_names], dtype=np.bool_)
        return np.asarray(made[self.source_index], dtype=np.bool_)

    def element(self, name: str) -> Floats | None:
        """One element by name, or None where the series does not have it."""
        if name not in ELEMENTS:
            raise ParameterError(f"A series has no element {name!r}.", f"Known: {', '.join(ELEMENTS)}.")
        values: Floats | None = getattr(self, name)
        return values

    def filled_days(self, *names: str) -> Bools:
        """True on days where any of the named elements was filled."""
        out = np.zeros(self.days, dtype=np.bool_)
        for name in names or ELEMENTS:
            if name in self.filled:
                out |= self.filled[name]
        return out

    def measured_days(self) -> Bools:
        """True on days whose minimum and maximum are both known and neither was filled."""
        known = ~(np.isnan(self.tmin_c) | np.isnan(self.tmax_c))
        return known & ~self.filled_days("tmin_c", "tmax_c")

    def unfilled(self) -> Series:
        """The series with every filled number taken out again."""
        taken_out = {
            name: np.where(flags, np.nan, values)
            for name, flags in self.filled.items()
            if (values := self.element(name)) is not None
        }
        return self.with_elements(taken_out, {})

    def with_elements(self, values: Mapping[str, Floats], filled: Mapping[str, Bools]) -> Series:
        """The same days with some elements put in place of the old, and these filled flags."""

        def chosen(name: str) -> Floats | None:
            return values[name] if name in values else self.element(name)

        return replace(
            self,
            tmin_c=values.get("tmin_c", self.tmin_c),
            tmax_c=values.get("tmax_c", self.tmax_c),
            rain_mm=values.get("rain_mm", self.rain_mm),
            solar_mj=chosen("solar_mj"),
            wind_m_s=chosen("wind_m_s"),
            rh_mean_pct=chosen("rh_mean_pct"),
            tdew_c=chosen("tdew_c"),
            filled=filled,
        )

    def index_of(self, day: date | np.datetime64) -> int:
        """Position of a day; may lie outside the series."""
        return int((as_day(day) - self.start) / _A_DAY)

    def between(self, first: date | np.datetime64, last: date | np.datetime64) -> Series:
        """The part from `first` to `last`, both included, cut to what the series has.

        Raises
        ------
        RecordError
            If no day of the series lies in between.
        """
        low, high = max(self.index_of(first), 0), min(self.index_of(last) + 1, self.days)
        if low >= high:
            raise RecordError(
                f"No weather between {first} and {last}.", f"The record runs from {self.start} to {self.end}."
            )

        def cut(values: Floats | None) -> Floats | None:
            return None if values is None else values[low:high]

        return replace(
            self,
            start=self.start + low * _A_DAY,
            tmin_c=self.tmin_c[low:high],
            tmax_c=self.tmax_c[low:high],
            rain_mm=self.rain_mm[low:high],
            solar_mj=cut(self.solar_mj),
            wind_m_s=cut(self.wind_m_s),
            rh_mean_pct=cut(self.rh_mean_pct),
            tdew_c=cut(self.tdew_c),
            filled={name: flags[low:high] for name, flags in self.filled.items()},
            source_index=None if self.source_index is None else self.source_index[low:high],
        )

    def trimmed(self) -> Series | None:
        """Without the days at either end on which nothing is known; None when nothing is left."""
        known = np.zeros(self.days, dtype=np.bool_)
        for name in ELEMENTS:
            values = self.element(name)
            if values is not None:
                known |= ~np.isnan(values)
        where = np.flatnonzero(known)
        if where.size == 0:
            return None
        if where[0] == 0 and where[-1] == self.days - 1:
            return self
        return self.between(self.start + int(where[0]) * _A_DAY, self.start + int(where[-1]) * _A_DAY)


@dataclass(frozen=True)
class Merged:
    """Two series made one, and what the newer one did.

    `added_days` were not in the older series; `changed_days` were, and differ now; `same_days` were and
    agree; `kept_values` are numbers of the older one where the newer one has none; `withdrawn_values` are
    numbers the same station no longer gives.
    """

    series: Series
    added_days: int
    changed_days: int
    same_days: int
    kept_values: int
    withdrawn_values: int

    @property
    def text(self) -> str:
        """One sentence for the person who added the file."""
        parts = [f"{self.added_days} days added", f"{self.changed_days} days changed to the newer numbers"]
        if self.same_days:
            parts.append(f"{self.same_days} days were there already and agree")
        if self.kept_values:
            parts.append(f"{self.kept_values} numbers kept from before, the newer file has none for them")
        if self.withdrawn_values:
            parts.append(f"{self.withdrawn_values} numbers taken out, the station no longer gives them")
        return "; ".join(parts) + "."


def merge(older: Series, newer: Series) -> Merged:
    """Join two series; on days in both the newer one's numbers win.

    Parameters
    ----------
    older, newer : Series
        May overlap, touch, or leave a gap (which becomes missing days).

    Returns
    -------
    Merged
        The joined series and counts of what happened.

    Notes
    -----
    Element by element: a number in `newer` replaces the one in `older`. Where `newer` has none, the older
    number is kept, except on days from the same station: a station file is its whole record, so a number
    that it no longer gives was withdrawn (flagged since). A filled number never replaces a measured one.
    """
    start = min(older.start, newer.start)
    days = int((max(older.end, newer.end) - start) / _A_DAY) + 1
    old_part = slice(older.index_of(start) * -1, older.index_of(start) * -1 + older.days)
    new_part = slice(newer.index_of(start) * -1, newer.index_of(start) * -1 + newer.days)
    same_station = np.zeros(days, dtype=np.bool_)
    same_station[old_part] = _from_station(older, newer.station)
    outside = np.ones(days, dtype=np.bool_)
    outside[new_part] = False

    in_old = np.zeros(days, dtype=np.bool_)
    in_new = np.zeros(days, dtype=np.bool_)
    in_old[old_part] = older.measured_days() | ~np.isnan(older.rain_mm)
    in_new[new_part] = newer.measured_days() | ~np.isnan(newer.rain_mm)
    differs = np.zeros(days, dtype=np.bool_)
    taken = np.zeros(days, dtype=np.bool_)
    values: dict[str, Floats] = {}
    filled: dict[str, Bools] = {}
    kept = withdrawn = 0
    for name in ELEMENTS:
        old, new = older.element(name), newer.element(name)
        if old is None and new is None:
            continue
        a, b = np.full(days, np.nan), np.full(days, np.nan)
        if old is not None:
            a[old_part] = old
        if new is not None:
            b[new_part] = new
        a_filled, b_filled = _spread(older, name, old_part, days), _spread(newer, name, new_part, days)
        wins = ~np.isnan(b) & ~(b_filled & ~np.isnan(a) & ~a_filled)
        left = ~wins & ~np.isnan(a)
        if new is not None and not np.isnan(new).all():
            gone = left & same_station & ~outside
            a[gone] = np.nan
            withdrawn += int(gone.sum())
            differs |= gone
            left &= ~gone
        kept += int((left & in_new).sum())
        differs |= wins & ~(np.abs(a - b) <= 0.005)
        taken |= wins
        values[name] = np.where(wins, b, a)
        filled[name] = np.where(wins, b_filled, a_filled & ~np.isnan(values[name]))
    both = in_old & in_new
    names, index = _sources(older, newer, old_part, new_part, taken)
    series = Series(
        start=start,
        tmin_c=values["tmin_c"],
        tmax_c=values["tmax_c"],
        rain_mm=values["rain_mm"],
        solar_mj=values.get("solar_mj"),
        wind_m_s=values.get("wind_m_s"),
        rh_mean_pct=values.get("rh_mean_pct"),
        tdew_c=values.get("tdew_c"),
        filled={name: flags for name, flags in filled.items() if flags.any()},
        source="; ".join(names),
        station=newer.station if newer.station == older.station else "",
        source_names=names,
        source_index=index,
    )
    return Merged(
        series,
        added_days=int((in_new & ~in_old).sum()),
        changed_days=int((differs & in_old).sum()),
        same_days=int((both & ~differs).sum()),
        kept_values=kept,
        withdrawn_values=withdrawn,
    )


def _sources(
    older: Series, newer: Series, old_part: slice, new_part: slice, taken: Bools
) -> tuple[tuple[str, ...], NDArray[np.int64]]:
    """Every source once, and each day's; a day with any newer number counts as the newer source's."""
    names: list[str] = []
    index = np.zeros(taken.shape, dtype=np.int64)
    for series, part, where in ((older, old_part, None), (newer, new_part, taken)):
        own = series.source_names or (series.source,)
        places = []
        for name in own:
            if name not in names:
                names.append(name)
            places.append(names.index(name))
        of_day = np.asarray(places)[
            series.source_index if series.source_index is not None else np.zeros(series.days, int)
        ]
        index[part] = of_day if where is None else np.where(where[part], of_day, index[part])
    return tuple(names), index


def _from_station(series: Series, station: str) -> Bools:
    """True on days that are from this station, by the series' station or the day's source text."""
    if not station:
        return np.zeros(series.days, dtype=np.bool_)
    if series.source_index is None:
        return np.full(series.days, series.station == station or station in series.source.split())
    names = np.array([station in name.split() for name in series.source_names], dtype=np.bool_)
    return np.asarray(names[series.source_index], dtype=np.bool_)


def _spread(series: Series, name: str, part: slice, days: int) -> Bools:
    out = np.zeros(days, dtype=np.bool_)
    if name in series.filled:
        out[part] = series.filled[name]
    return out


def _locked(values: object, kind: type, length: tuple[int, ...], name: str) -> NDArray[np.generic]:
    """A read-only view; the caller's own array stays writable."""
    array: NDArray[np.generic] = np.asarray(values, dtype=kind).view()
    if array.shape != length:
        raise ParameterError(f"{name} has shape {array.shape}, the minimum temperature has {length}.")
    array.flags.writeable = False
    return array
