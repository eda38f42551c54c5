"""The season bed by bed: what stood, what stands and when it is ready, with the soil's warmth and frost."""

from __future__ import annotations

from datetime import date, timedelta
from pathlib import Path
from typing import Final

import msgspec
import numpy as np

from spadework.advice.odds import DateOdds, as_date, date_odds
from spadework.advice.ripe import UNDERGROUND
from spadework.advice.scene import Plot, Scene
from spadework.clock.course import Course
from spadework.garden.planting import Planting
from spadework.garden.site import Site
from spadework.usecases.ask_frost import ask_frost
from spadework.usecases.jobs_today import open_day
from spadework.usecases.show_plantings import planting_name

STEP_DAYS: Final = 7
"""Days between points of a bar. Our own rule."""

OPEN_FROM: Final = 0.6
"""Share of the way to ready at which leaves cover the soil, where the sheet does not say. Class: memory."""

GONE_SHARE: Final = 0.5
"""Share of the years in which frost or seed stalks have ended it, at which a bar ends. Our own rule."""


class SeasonBar(msgspec.Struct, frozen=True, kw_only=True):
    """One planting through the year.

    Parameters
    ----------
    opens : list of (date, float)
        How far leaves cover the soil, 0 to 1, from the day it began.
    ready : DateOdds or None
        None for one that is over.
    ends : date
        Cleared, or the end of what can be said.
    over : bool
        It stands no more.
    """

    planting: str
    name: str
    opens: list[tuple[date, float]]
    ready: DateOdds | None
    ends: date
    over: bool


class SeasonBed(msgspec.Struct, frozen=True, kw_only=True):
    """A bed's year."""

    bed: str
    name: str
    bars: list[SeasonBar]


class SeasonAnswer(msgspec.Struct, frozen=True, kw_only=True):
    """The year of the garden.

    Parameters
    ----------
    first, last : date
        January to December in the north, July to June in the south.
    soil : list of (date, float)  [degC]
        At seed depth in the usual surface: as it was, then the mean of the years.
    frost_behind, frost_ahead : DateOdds or None
        Last frost of spring and first of autumn at the thermometer.
    """

    question: str
    today: date
    first: date
    last: date
    beds: list[SeasonBed]
    soil: list[tuple[date, float]]
    frost_behind: DateOdds | None
    frost_ahead: DateOdds | None
    note: str


def show_season(garden: Path, today: date) -> SeasonAnswer:
    """Every bed through the year that today lies in.

    Raises
    ------
    GardenError, RecordError, StoreError
    """
    day = open_day(garden, today)
    scene = day.scene
    first, last = year_of(scene.site, today)
    standing = {plot.key: plot for plot in scene.plots}
    holders = {bed.inside for bed in scene.beds.values() if bed.inside and bed.gone_on is None}
    beds = []
    for key, bed in scene.beds.items():
        if bed.gone_on is not None or bed.shape == "shelf" or key in holders:
            continue
        bars = [
            _ahead(standing[each.key], first, last)
            if each.key in standing
            else _past(each, first, today, planting_name(each, scene.site.words))
            for each in sorted(scene.garden.plantings.values(), key=lambda each: each.started_on)
            if each.bed == key and (each.key in standing or (each.ended_on or first) > first)
        ]
        beds.append(SeasonBed(bed=key, name=bed.name, bars=bars))
    frost = ask_frost(garden, today).dates
    shelter = next((each for each in frost if each.place == "shelter"), None)
    return SeasonAnswer(
        question="season",
        today=today,
        first=first,
        last=last,
        beds=beds,
        soil=_soil(scene, first, last),
        frost_behind=None if shelter is None else shelter.last_spring,
        frost_ahead=None if shelter is None else shelter.first_autumn,
        note=scene.ground.years.note,
    )


def year_of(site: Site, today: date) -> tuple[date, date]:
    """The year a day lies in: January to December in the north, July to June in the south."""
    first = date(today.year, 1, 1)
    if site.south:
        first = date(today.year if today.month >= 7 else today.year - 1, 7, 1)
    return first, date(first.year + 1, first.month, 1) - timedelta(days=1)


def stands_until(course: Course, last: date) -> date:
    """Until about when a planting stands: while it is picked or keeps in the ground, within the year.

    Frost or a seed stalk ends it on the day it has done so in half of the years.
    """
    dates = course.ground.dates
    ready = date_odds(course.picked, dates, course.ground.years.made)
    until = last
    if ready.q50 is not None:
        stands = ready.q50 + timedelta(days=round(course.sheet.harvest.days.value))
        until = min(max(stands, ready.q90 or stands), last)
    ends = [course.bolted] if course.sheet.kind in UNDERGROUND else [course.bolted, course.lost_frost]
    for lost in ends:
        gone = lost.mean(axis=0) >= GONE_SHARE
        if gone.any():
            until = min(until, as_date(dates[int(np.argmax(gone))]))
    return until


def bar_opens(course: Course, began: date, ends: date) -> list[tuple[date, float]]:
    """How far leaves cover the soil, week by week, over the middle of the years."""
    dates = course.ground.dates
    share = course.sheet.room.cover_from
    opens = np.clip(np.median(course.way, axis=0) / (OPEN_FROM if share is None else share.value), 0.0, 1.0)
    points = []
    for column in range(0, dates.size, STEP_DAYS):
        day = as_date(dates[column])
        if began <= day <= ends:
            points.append((day, round(float(opens[column]), 2)))
    return points


def _ahead(plot: Plot, first: date, last: date) -> SeasonBar:
    """A planting that stands, by its course."""
    course = plot.course
    lasting = plot.planting.perennial
    began = max(plot.planting.started_on, first)
    ends = last if lasting else stands_until(course, last)
    return SeasonBar(
        planting=plot.key,
        name=plot.name,
        opens=bar_opens(course, began, ends) or [(began, 1.0 if lasting else 0.1)],
        ready=date_odds(course.picked, course.ground.dates, course.ground.years.made),
        ends=max(ends, began),
        over=False,
    )


def _past(planting: Planting, first: date, today: date, name: str) -> SeasonBar:
    """A planting that is over: how its leaves stood nobody computes any more, so it opens in a few weeks."""
    began = max(planting.started_on, first)
    ends = min(planting.ended_on or today, today)
    return SeasonBar(
        planting=planting.key,
        name=name,
        opens=[(began, 0.1), (min(began + timedelta(days=35), ends), 1.0), (ends, 1.0)],
        ready=None,
        ends=ends,
        over=True,
    )


def _soil(scene: Scene, first: date, last: date) -> list[tuple[date, float]]:
    warmth = scene.ground.soil_mean_c.mean(axis=0)
    dates = scene.ground.dates
    days = [(as_date(dates[column]), column) for column in range(0, dates.size, STEP_DAYS)]
    return [(day, round(float(warmth[column]), 1)) for day, column in days if first <= day <= last]
