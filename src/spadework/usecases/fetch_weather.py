"""Fetch a forecast, or past days, for the garden's own coordinates."""

from __future__ import annotations

from collections.abc import Iterable
from contextlib import AbstractContextManager, nullcontext
from dataclasses import replace
from datetime import date, datetime, timedelta
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

import msgspec
import numpy as np

from spadework.advice.odds import as_date
from spadework.errors import FetchError, ParameterError
from spadework.garden.told import ForecastDay, Told
from spadework.store.fetch_settings import fetch_settings
from spadework.store.garden_folder import GardenFolder, open_garden
from spadework.store.told_file import new_key
from spadework.weather.fetch.answer import (
    DayAhead,
    fetched_at,
    read_archive,
    read_forecast,
    source_text,
)
from spadework.weather.fetch.service import CREDIT, SERVICE, FetchSettings, Kind, Question, ask
from spadework.weather.read.result import ReadResult
from spadework.weather.series import ELEMENTS, Series

if TYPE_CHECKING:
    import httpx2

ARCHIVE_LAG_DAYS: Final = 6
"""The archive's newest days come this much later. Class: memory."""

ARCHIVE_YEARS: Final = 30
"""Past years fetched where no first day is given: as many as odds are run through."""

ARCHIVE_FIRST: Final = date(1940, 1, 1)
"""The archive begins here. Class: memory."""

GRID_NOTE: Final = (
    "An archive is a model's grid and no thermometer: in hollows its nights come out too mild. Tell it nights"
    " of your own thermometer beside the archive's (spadework tell minimum)."
)


class ArchiveFetched(msgspec.Struct, frozen=True, kw_only=True):
    """Past days fetched: how many came, went into the record, and were left as the garden's own."""

    first_day: date
    last_day: date
    days: int
    added_days: int
    own_days_kept: int
    not_there_yet: int


class Fetched(msgspec.Struct, frozen=True, kw_only=True):
    """What fetching brought.

    Parameters
    ----------
    asked : list of str
        Hosts that were asked; empty where what the garden has is young enough.
    sent : str
        What they were told of the garden.
    fetched_at : datetime or None
    forecast_days : list of date
        Days the forecast now tells of.
    archive : ArchiveFetched or None
    skipped : list of str
        What was not asked for again, and why.
    credit : str
        The service's terms.
    """

    question: str
    today: date
    asked: list[str]
    sent: str
    fetched_at: datetime | None
    forecast_days: list[date]
    archive: ArchiveFetched | None
    skipped: list[str]
    notes: list[str]
    credit: str


class WhoIsAsked(msgspec.Struct, frozen=True, kw_only=True):
    """Who would be asked, and what they would be told; `on` is False where that is switched
    off."""

    service: str
    host: str
    sent: str
    credit: str
    on: bool


def who_is_asked(garden: Path, kind: Kind = "archive") -> WhoIsAsked:
    """Whom a fetch of past years, or of a forecast, would ask. Nobody is asked by this.

    Raises
    ------
    GardenError
    """
    settings = fetch_settings(garden)
    site = open_garden(garden).site
    lat, lon = round(site.lat_deg, settings.decimals), round(site.lon_deg, settings.decimals)
    return WhoIsAsked(
        service=SERVICE,
        host=settings.host(kind),
        sent=f"{lat:g}, {lon:g}",
        credit=CREDIT,
        on=settings.on,
    )


def fetch_weather(
    garden: Path,
    today: date,
    now: datetime,
    *,
    forecast: bool = True,
    archive: bool = False,
    first: date | None = None,
    last: date | None = None,
    if_older_h: float | None = None,
    transport: httpx2.BaseTransport | None = None,
    turn: AbstractContextManager[Any] | None = None,
) -> Fetched:
    """Ask the service and keep what it says; all of it or nothing.

    Parameters
    ----------
    garden : Path
    today : date
        First day of the forecast.
    now : datetime
        The time of asking, with its zone; kept with every number.
    forecast, archive : bool
        What to ask for.
    first, last : date or None
        Past days wanted; by default thirty years, up to the archive's newest day.
    if_older_h : float or None  [h]
        Ask only if what was fetched before is older.
    transport : httpx2 transport or None
        In place of the network.
    turn : context manager or None
        Held while what came is written, and not while it is waited for.

    Raises
    ------
    FetchError
        If nobody answered or the service refused; nothing is changed.
    InputFileError
        If the answer is not what was asked for; nothing is changed.
    ParameterError, GardenError

    Notes
    -----
    Days that the garden's own station has any value of are left as they are, whatever the archive says.
    """
    folder = open_garden(garden)
    settings = fetch_settings(garden)
    if not settings.on:
        raise FetchError("Fetching is switched off for this garden.", "Set on = true under [fetch].")
    wanted: list[Question] = []
    skipped: list[str] = []
    if forecast:
        end = today + timedelta(days=settings.days - 1)
        wanted.append(_question(folder, settings, "forecast", today, end))
    if archive:
        span = _past(today, first, last)
        wanted.append(_question(folder, settings, "archive", *span))
    for question in list(wanted):
        age_h = _age_h(folder, question.kind, today, now)
        if if_older_h is not None and age_h is not None and age_h < if_older_h:
            skipped.append(f"The {question.kind} was fetched {age_h:.1f} hours ago; it was not asked again.")
            wanted.remove(question)

    answers = [(question, ask(question, settings, transport)) for question in wanted]
    days: tuple[DayAhead, ...] = ()
    past: tuple[Question, Series] | None = None
    for question, content in answers:
        if question.kind == "forecast":
            days = read_forecast(content, question)
        else:
            past = question, read_archive(content, question, now)
    with turn or nullcontext():
        found = None if past is None else _keep_archive(folder, *past)
        if days:
            told = source_text("forecast", now)
            folder.tell(*(Told(key=new_key(), told_on=today, source=told, fact=_fact(day)) for day in days))
    return Fetched(
        question="weather fetch",
        today=today,
        asked=[settings.host(question.kind) for question in wanted],
        sent=_sent(wanted, settings),
        fetched_at=now if wanted else None,
        forecast_days=[day.day for day in days],
        archive=found,
        skipped=skipped,
        notes=[] if found is None else [GRID_NOTE],
        credit=CREDIT,
    )


def _question(folder: GardenFolder, settings: FetchSettings, kind: Kind, first: date, last: date) -> Question:
    site = folder.site
    lat, lon = round(site.lat_deg, settings.decimals), round(site.lon_deg, settings.decimals)
    return Question(kind, lat, lon, first, last)


def _past(today: date, first: date | None, last: date | None) -> tuple[date, date]:
    """The past days to ask for."""
    newest = today - timedelta(days=1)
    end = last or today - timedelta(days=ARCHIVE_LAG_DAYS)
    start = first or max(date(end.year - ARCHIVE_YEARS, 1, 1), ARCHIVE_FIRST)
    if end > newest:
        raise ParameterError(
            f"--to {end} is not past on {today}.", f"Give a day up to {newest}; the archive lags some days."
        )
    if start < ARCHIVE_FIRST:
        raise ParameterError(f"--from {start} is before the archive.", f"It begins on {ARCHIVE_FIRST}.")
    if start > end:
        raise ParameterError(f"--from {start} is after --to {end}.", "Give them in order.")
    return start, end


def _age_h(folder: GardenFolder, kind: Kind, today: date, now: datetime) -> float | None:
    """Hours since this kind was last fetched."""
    sources: Iterable[str]
    if kind == "forecast":
        sources = {entry.source for entry in folder.told(today)}
    else:
        sources = folder.weather().source_names if folder.has_weather else ()
    times = [at for source in sources if (at := fetched_at(source, kind)) is not None]
    return (now - max(times)).total_seconds() / 3600.0 if times else None


def _fact(day: DayAhead) -> ForecastDay:
    return ForecastDay(
        day=day.day,
        high_c=day.high_c,
        low_c=day.low_c,
        mean_c=day.mean_c,
        rain_mm=day.rain_mm,
        rain_odds=day.rain_odds,
        wind_m_s=day.wind_m_s,
        cloud_share=day.cloud_share,
        dew_c=day.dew_c,
    )


def _keep_archive(folder: GardenFolder, question: Question, series: Series) -> ArchiveFetched:
    """Put archive days into the record where the garden has none of its own."""
    own = _own_days(folder, series)
    values = {
        name: np.where(own, np.nan, column)
        for name in ELEMENTS
        if (column := series.element(name)) is not None
    }
    new = replace(series.with_elements(values, {}), station="").trimmed()
    added = 0
    if new is not None:
        done = folder.add_weather(ReadResult(new, f"the archive of {SERVICE}", "daily-csv"))
        added = int(new.measured_days().sum()) if done.merged is None else done.merged.added_days
    return ArchiveFetched(
        first_day=as_date(series.start),
        last_day=as_date(series.end),
        days=series.days,
        added_days=added,
        own_days_kept=int(own.sum()),
        not_there_yet=(question.last - as_date(series.end)).days,
    )


def _own_days(folder: GardenFolder, series: Series) -> np.ndarray:
    """True on days of `series` of which the garden's own record has any value."""
    own = np.zeros(series.days, dtype=np.bool_)
    if not folder.has_weather:
        return own
    record = folder.weather().unfilled()
    names = record.source_names or (record.source,)
    fetched = np.array([fetched_at(name, "archive") is not None for name in names])
    index = np.zeros(record.days, np.int64) if record.source_index is None else record.source_index
    known = np.zeros(record.days, dtype=np.bool_)
    for name in ELEMENTS:
        column = record.element(name)
        if column is not None:
            known |= ~np.isnan(column)
    known &= ~fetched[index]
    at = record.index_of(series.start) + np.arange(series.days)
    inside = (at >= 0) & (at < record.days)
    own[inside] = known[at[inside]]
    return own


def _sent(wanted: list[Question], settings: FetchSettings) -> str:
    if not wanted:
        return ""
    words = wanted[0].words(settings)
    return f"{words['latitude']}, {words['longitude']}"
