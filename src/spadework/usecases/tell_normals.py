"""Tell twelve monthly normals: what a garden without a long record is answered from."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from pathlib import Path
from typing import Final

import msgspec
import numpy as np

from spadework.advice.frost_odds import FrostAnswer
from spadework.errors import GardenError, ParameterError
from spadework.garden.site import Site
from spadework.garden.told import MonthlyNormals, Told
from spadework.store.told_file import new_key
from spadework.types import Floats
from spadework.usecases.ask_frost import ask_frost
from spadework.usecases.setting import open_setting
from spadework.weather.climates import climate_kind
from spadework.weather.normals import told_normals
from spadework.weather.read.normals_table import read_normals_table, read_row
from spadework.weather.series import Series

HALVES_PART_DEG: Final = 20.0
"""From here on summer's side of the year is beyond doubt. Class: common-practice."""

SEASONS_PART_CDELTA: Final = 3.0
"""January and July this far apart tell which half of the earth a table is from. Class: common-practice."""

MONTH_APART_CDELTA, YEAR_APART_CDELTA = 4.0, 2.5
"""A month, or the mean of all, told this far from the garden's own record is asked about: a month of four
years strays by about 1 °C, so it is rather another place. Class: common-practice."""

MONTH_DAYS_COMPARED: Final = 110
"""Fewer days of a month in the record, about four years, are not held against what was told."""

_MONTHS: Final = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")


class FreezeShown(msgspec.Struct, frozen=True, kw_only=True):
    """Last or first night at or below 0 °C in the years questions are answered from."""

    which: str
    early: date | None
    middle: date | None
    late: date | None


class NormalsTold(msgspec.Struct, frozen=True, kw_only=True):
    """What was told, and what will be made of it.

    Parameters
    ----------
    stored : bool
        False while doubts stand and the person is not sure.
    doubts : list of str
        Where the garden's own record says something else, with both values.
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
    stored: bool
    doubts: list[str]
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


def tell_normals(
    garden: Path, today: date, fact: MonthlyNormals, source: str, *, sure: bool = False
) -> NormalsTold:
    """Keep normals; they take the place of those told before.

    Parameters
    ----------
    garden : Path
    today : date
    fact : MonthlyNormals
    source : str
        Who says it.
    sure : bool
        Keep them although the garden's own record says something else.

    Raises
    ------
    ParameterError
        If the numbers are not possible, or speak of the other half of the earth.
    GardenError
    """
    setting = open_setting(garden, today)
    site = setting.site
    normals = told_normals(
        site.name, fact.tmin_c, fact.tmax_c, fact.rain_mm, fact.wet_days, fact.climate, south=site.south
    )
    _check_half(site, (normals.tmin_c + normals.tmax_c) / 2.0)
    older = [entry for entry in setting.told if isinstance(entry.fact, MonthlyNormals)]
    same = [entry for entry in older if entry.fact == fact and entry.source == source]
    entry = same[-1] if same else Told(key=new_key(), told_on=today, source=source, fact=fact)
    doubts = [] if same else _apart(setting.weather(), normals.tmin_c, normals.tmax_c)
    stored = sure or not doubts
    replaced = [old.key for old in older if old.key != entry.key] if stored else []
    freezes: list[FreezeShown] = []
    years = made_years = 0
    note = ""
    if stored:
        setting.folder.tell(entry)
        for key in replaced:
            setting.folder.withdraw(key, today)
        frost = ask_frost(garden, today)
        freezes, years, made_years, note = _freezes(frost), frost.years, frost.made_years, frost.note
    return NormalsTold(
        question="tell normals",
        today=today,
        stored=stored,
        doubts=doubts,
        key=entry.key if stored else "",
        source=source,
        tmin_c=_shown(normals.tmin_c),
        tmax_c=_shown(normals.tmax_c),
        rain_mm=_shown(normals.rain_mm),
        wet_days=_shown(normals.wet_days),
        climate=fact.climate or climate_kind(normals.tmin_c, normals.tmax_c, normals.rain_mm),
        climate_named=bool(fact.climate),
        tmin_sd_c=_shown(normals.tmin_sd_c),
        tmax_sd_c=_shown(normals.tmax_sd_c),
        used=made_years > 0,
        years=years,
        made_years=made_years,
        replaced=len(replaced),
        freezes=freezes,
        notes=[note] if note else [],
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
    """Where the garden's own record and the told normals are far apart, with both values."""
    if record is None:
        return []
    month = record.dates.astype("datetime64[M]").astype(np.int64) % 12
    mean = (record.tmin_c + record.tmax_c) / 2.0
    seen, said, doubts = [], [], []
    for number, name in enumerate(_MONTHS):
        own = mean[(month == number) & record.measured_days()]
        if own.size < MONTH_DAYS_COMPARED:
            continue
        seen.append(float(own.mean()))
        said.append(float(tmin_c[number] + tmax_c[number]) / 2.0)
        if abs(seen[-1] - said[-1]) > MONTH_APART_CDELTA:
            doubts.append(f"{name}: told a mean of {said[-1]:.1f} °C, the record has {seen[-1]:.1f} °C.")
    if seen and not doubts and abs(float(np.mean(seen)) - float(np.mean(said))) > YEAR_APART_CDELTA:
        doubts.append(
            f"Over the year told a mean of {np.mean(said):.1f} °C, the record has {np.mean(seen):.1f} °C."
        )
    return doubts


def _freezes(found: FrostAnswer) -> list[FreezeShown]:
    """Early, middle and late day of the last spring and the first autumn freeze at the thermometer."""
    shelter = found.dates[0]
    return [
        FreezeShown(which=which, early=odds.q10, middle=odds.q50, late=odds.q90)
        for which, odds in (
            ("last in spring", shelter.last_spring),
            ("first in autumn", shelter.first_autumn),
        )
    ]


def _shown(values: Floats | Sequence[float]) -> list[float]:
    return [round(float(value), 1) for value in values]
