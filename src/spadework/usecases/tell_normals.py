"""Tell twelve monthly normals: what a garden without a long record is answered from."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from pathlib import Path
from typing import Final

import msgspec
import numpy as np

from spadework.errors import GardenError, ParameterError
from spadework.garden.site import Site
from spadework.garden.told import MonthlyNormals, Told
from spadework.science import frost
from spadework.store.told_file import new_key
from spadework.types import Floats
from spadework.usecases.setting import open_setting
from spadework.weather.climates import climate_kind
from spadework.weather.normals import told_normals
from spadework.weather.read.normals_table import read_normals_table, read_row
from spadework.weather.series import Series
from spadework.weather.years import CalendarYears

HALVES_PART_DEG: Final = 20.0
"""From here on summer's side of the year is beyond doubt. Class: common-practice."""

SEASONS_PART_CDELTA: Final = 3.0
"""January and July this far apart tell which half of the earth a table is from. Class: common-practice."""

RECORD_APART_CDELTA: Final = 4.0
"""A month told this far from the garden's own record is pointed out. Class: common-practice."""

_SPRING_DAYS: Final = 196
_MONTHS: Final = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")


class FreezeShown(msgspec.Struct, frozen=True, kw_only=True):
    """Last or first night at or below 0 °C in the years questions are answered from."""

    which: str
    early: date
    middle: date
    late: date


class NormalsTold(msgspec.Struct, frozen=True, kw_only=True):
    """What was told, and what will be made of it.

    Parameters
    ----------
    climate : str
        Whose daily spread is borrowed.
    climate_named : bool
        Whether the person named it, or the numbers did.
    tmin_sd_c, tmax_sd_c : list of 12 float  [degC]
        The spread borrowed.
    used : bool
        False where the garden's own record is long enough to speak for itself.
    replaced : int
        How many normals told earlier this takes the place of.
    freezes : list of FreezeShown
    """

    question: str
    today: date
    key: str
    source: str
    tmin_c: list[float]
    tmax_c: list[float]
    rain_mm: list[float]
    wet_days: list[float]
    climate: str
    climate_named: bool
    tmin_sd_c: list[float]
    tmax_sd_c: list[float]
    used: bool
    years: int
    made_years: int
    replaced: int
    freezes: list[FreezeShown]
    notes: list[str]


def normals_from_rows(
    tmin: str | None, tmax: str | None, rain: str | None, wet_days: str | None, climate: str
) -> MonthlyNormals:
    """Normals from rows of twelve numbers.

    Raises
    ------
    ParameterError
        If a row is missing, is not twelve possible numbers, or the climate is not known.
    """
    if tmin is None or tmax is None or rain is None:
        raise ParameterError(
            "Normals need --tmin, --tmax and --rain.",
            "Give each twelve numbers, January to December, or a table: --file normals.csv.",
        )
    return MonthlyNormals(
        tmin_c=read_row(tmin, "--tmin", "temperature"),
        tmax_c=read_row(tmax, "--tmax", "temperature"),
        rain_mm=read_row(rain, "--rain", "rain"),
        wet_days=None if wet_days is None else read_row(wet_days, "--wet-days", "days"),
        climate=climate,
    )


def normals_from_file(path: Path, climate: str) -> MonthlyNormals:
    """Normals from a table of twelve rows.

    Raises
    ------
    InputFileError
        With every fault of the table.
    GardenError
        If it cannot be read.
    """
    try:
        content = path.read_bytes()
    except OSError as error:
        raise GardenError(
            f"{path} cannot be read ({error.strerror}).", "Give the path of a table of normals."
        ) from None
    read = read_normals_table(content, path.name)
    return MonthlyNormals(
        tmin_c=read.tmin_c,
        tmax_c=read.tmax_c,
        rain_mm=read.rain_mm,
        wet_days=read.wet_days,
        climate=climate,
    )


def tell_normals(garden: Path, today: date, fact: MonthlyNormals, source: str) -> NormalsTold:
    """Keep normals; they take the place of those told before.

    Parameters
    ----------
    garden : Path
    today : date
    fact : MonthlyNormals
    source : str
        Who says it.

    Raises
    ------
    ParameterError
        If the numbers are not possible, or speak of the other half of the earth.
    GardenError
    """
    setting = open_setting(garden, today)
    site = setting.site
    normals = told_normals(
        site.name,
        fact.tmin_c,
        fact.tmax_c,
        fact.rain_mm,
        fact.wet_days,
        fact.climate,
        south=site.south,
    )
    _check_half(site, (normals.tmin_c + normals.tmax_c) / 2.0)
    older = [entry for entry in setting.told if isinstance(entry.fact, MonthlyNormals)]
    same = [entry for entry in older if entry.fact == fact and entry.source == source]
    entry = same[-1] if same else Told(key=new_key(), told_on=today, source=source, fact=fact)
    setting.folder.tell(entry)
    replaced = [old.key for old in older if old.key != entry.key]
    for key in replaced:
        setting.folder.withdraw(key, today)
    setting = open_setting(garden, today)
    whole = setting.calendar()
    record = setting.weather()
    return NormalsTold(
        question="tell normals",
        today=today,
        key=entry.key,
        source=source,
        tmin_c=_shown(normals.tmin_c),
        tmax_c=_shown(normals.tmax_c),
        rain_mm=_shown(normals.rain_mm),
        wet_days=_shown(normals.wet_days),
        climate=fact.climate or climate_kind(normals.tmin_c, normals.tmax_c, normals.rain_mm),
        climate_named=bool(fact.climate),
        tmin_sd_c=_shown(normals.tmin_sd_c),
        tmax_sd_c=_shown(normals.tmax_sd_c),
        used=normals.basis in whole.note,
        years=whole.count,
        made_years=int(whole.made.sum()),
        replaced=len(replaced),
        freezes=_freezes(whole, today),
        notes=[*([whole.note] if whole.note else []), *_apart(record, normals.tmin_c, normals.tmax_c)],
    )


def _check_half(site: Site, mean_c: Floats) -> None:
    """Refuse a table whose summer is on the other side of the equator."""
    if abs(site.lat_deg) < HALVES_PART_DEG:
        return
    july_warmer = float(mean_c[6] - mean_c[0])
    if (july_warmer if site.south else -july_warmer) < SEASONS_PART_CDELTA:
        return
    warm, cold = ("July", "January") if site.south else ("January", "July")
    where = "south" if site.south else "north"
    raise ParameterError(
        f"By these normals {warm} is {abs(july_warmer):.0f} °C warmer than {cold}, but {site.name} lies "
        f"{where} of the equator (latitude {site.lat_deg:g}).",
        "Give January first in every row, and check the latitude in garden.toml.",
    )


def _apart(record: Series | None, tmin_c: Floats, tmax_c: Floats) -> list[str]:
    """Months in which the garden's own record and the told normals are far apart, with both values."""
    if record is None:
        return []
    month = record.dates.astype("datetime64[M]").astype(np.int64) % 12
    mean = (record.tmin_c + record.tmax_c) / 2.0
    notes = []
    for number, name in enumerate(_MONTHS):
        own = mean[(month == number) & record.measured_days()]
        told = float(tmin_c[number] + tmax_c[number]) / 2.0
        if own.size >= 28 and abs(float(own.mean()) - told) > RECORD_APART_CDELTA:
            notes.append(f"{name}: told a mean of {told:.1f} °C, the record has {float(own.mean()):.1f} °C.")
    return notes


def _freezes(whole: CalendarYears, today: date) -> list[FreezeShown]:
    """Early, middle and late tenth of the last spring and the first autumn freeze."""
    spring, autumn = whole.tmin_c[:, :_SPRING_DAYS], whole.tmin_c[:, _SPRING_DAYS:]
    shown = []
    for which, days, first in (
        ("last in spring", frost.last_day_at_or_below(spring, 0.0), 0),
        ("first in autumn", frost.first_day_at_or_below(autumn, 0.0), _SPRING_DAYS),
    ):
        known = days[days >= 0] + first
        if known.size <= whole.count / 2:
            continue
        columns = frost.weibull_quantiles(known.astype(np.float64), np.array([0.1, 0.5, 0.9]))
        early, middle, late = (_date(whole, round(float(column)), today) for column in columns)
        shown.append(FreezeShown(which=which, early=early, middle=middle, late=late))
    return shown


def _date(whole: CalendarYears, column: int, today: date) -> date:
    season = today.year - 1 if whole.south and today.month < 7 else today.year
    found = whole.day(column, season).astype("datetime64[D]").item()
    assert isinstance(found, date)
    return found


def _shown(values: Floats | Sequence[float]) -> list[float]:
    return [round(float(value), 1) for value in values]
