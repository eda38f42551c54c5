"""The demo's whole book: last season and this one up to yesterday, entry by entry."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from datetime import UTC, date, datetime, time, timedelta
from typing import Final

from spadework.garden.entries import Entry
from spadework.garden.keys import LUCK_BYTES, new_keys
from spadework.garden.site import Site
from spadework.usecases.demo import events, perennial, setup, slips, upkeep
from spadework.usecases.demo.deed import Deed
from spadework.usecases.demo.grow import grow
from spadework.usecases.demo.life import Life
from spadework.usecases.demo.luck import Luck
from spadework.usecases.demo.room import tray_day
from spadework.usecases.demo.script import Row, plan
from spadework.usecases.demo.seen import Seen, seen_days
from spadework.usecases.demo.take import take
from spadework.usecases.demo.tin import lot_of, tin
from spadework.usecases.demo.trouble import go_wrong
from spadework.weather.series import Series

WRITTEN_AT: Final = time(18, 30, tzinfo=UTC)
"""When the day's book is written up."""


def book_of(site: Site, series: Series, today: date) -> list[Entry]:
    """Every entry of the demo's book up to the evening before a day.

    Parameters
    ----------
    site : Site
    series : Series
        The made weather, up to today.
    today : date

    Returns
    -------
    list of Entry
        In the order they were written. The same day gives the same entries, and a later day of the same year
        the same ones and more.
    """
    season = today.year
    seen = seen_days(series, site, date(season - 2, 7, 1), today)
    opened = setup.opened_on(season)
    lives = _lives(season, seen, opened)
    deeds = setup.opening(season) + events.chores(opened, seen)
    deeds += tin(season, opened, {life.lot for life in lives if life.lot}, seen)
    beds = setup.beds()
    for life in lives:
        deeds += life.deeds
    deeds += upkeep.nights(lives, seen)
    deeds += upkeep.watering(beds, lives, seen, opened)
    deeds += upkeep.weeding(beds, lives, seen)
    deeds += upkeep.readings(seen, opened)
    deeds += events.kept_watch(lives, seen)
    for year in (season - 2, season - 1, season):
        deeds += events.events(year, seen, whole=year > season - 2)
        for row in plan().perennials:
            if year > season - 2:
                deeds += perennial.perennial_year(row, setup.perennial_key(row, season), year, seen)
    for year in (season - 1, season):
        deeds = slips.with_slips(deeds, year)
    old = {setup.perennial_key(row, season) for row in plan().perennials}
    kept = [deed for deed in deeds if deed.on < today and (deed.on >= opened or deed.planting in old)]
    return entries_of(kept, opened, today)


def _lives(season: int, seen: Seen, opened: date) -> list[Life]:
    lives: list[Life] = []
    for year in (season - 2, season - 1, season):
        keys: dict[str, int] = defaultdict(int)
        for row in sorted(plan().plantings, key=lambda row: (_begun(row, year), row.id)):
            keys[row.crop] += 1
            begun = _begun(row, year)
            if begun < opened or begun > seen.last:
                continue
            life = grow(row, year, f"{row.crop}-{year}-{keys[row.crop]}", seen, lot_of(row, year))
            go_wrong(life, year, seen)
            take(life, year, seen)
            lives.append(life)
    return lives


def _begun(row: Row, year: int) -> date:
    """The first day it may be sown, in a tray or in place."""
    return tray_day(row, year) if row.raised else row.first_day(year)


def entries_of(deeds: Iterable[Deed], opened: date, today: date) -> list[Entry]:
    """Deeds as entries, with keys, written up in the evening of their day or of a later one.

    Parameters
    ----------
    deeds : iterable of Deed
    opened : date
        What happened earlier was written then.
    today : date
        Nothing written later than the evening before is there yet.
    """
    by_evening: dict[date, list[Deed]] = defaultdict(list)
    for deed in deeds:
        by_evening[max(deed.on, opened) + timedelta(days=deed.late_days)].append(deed)
    entries: list[Entry] = []
    named: dict[str, str] = {}
    for evening in sorted(by_evening):
        if evening >= today:
            continue
        written = sorted(by_evening[evening], key=lambda deed: (deed.on < opened, deed.on, deed.when))
        at = datetime.combine(evening, WRITTEN_AT)
        keys = new_keys(at, Luck(evening).at("keys").randbytes(LUCK_BYTES), len(written))
        entries += [_entry(deed, key, at, named) for deed, key in zip(written, keys, strict=True)]
    return entries


def _entry(deed: Deed, key: str, at: datetime, named: dict[str, str]) -> Entry:
    if deed.name:
        named[deed.name] = key
    return Entry(
        key=key,
        happened_on=deed.on,
        recorded_at=at,
        author=deed.who,
        act=deed.act,
        bed=deed.bed,
        planting=deed.planting,
        batch=deed.batch,
        replaces=named.get(deed.replaces, ""),
        withdraws=named.get(deed.withdraws, ""),
        insisted=deed.insisted,
    )
