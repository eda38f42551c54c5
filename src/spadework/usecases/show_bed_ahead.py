"""What lies before a bed: the warmth of its soil as it was and as the years go on, and when it is ready."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta
from pathlib import Path
from typing import Final

import msgspec
import numpy as np

from spadework.advice.odds import DateOdds, as_date, date_odds
from spadework.advice.scene import Plot, Scene
from spadework.clock.cover import TUNNEL, under_cover
from spadework.clock.ground import Ground
from spadework.errors import RecordError
from spadework.garden.entries import ThermometerRead
from spadework.garden.told import SoilWarmth
from spadework.types import Floats
from spadework.usecases.bed_names import bed_called
from spadework.usecases.keep_book import open_state
from spadework.usecases.scene import build_scene
from spadework.usecases.setting import Setting, column_of, open_setting

BACK_DAYS: Final = 42
AHEAD_DAYS: Final = 28
"""Days of the trace before and after today. Our own rule."""

DEPTH_CM: Final = 5.0
"""Depth the soil is told for: where most seed lies or a little below."""

_MIDDLE: Final = 0.8
"""Share of the years whose spread is told."""


class SoilTrace(msgspec.Struct, frozen=True, kw_only=True):
    """The day's mean warmth of a bed's soil at 5 cm.

    Parameters
    ----------
    days : list of date
        Every day from the first to the last.
    past : list of float  [degC]
        Up to today, in the middle one of the years where it was not seen.
    seen : bool
        The weather of those days is in the record.
    reeds : list of list of float  [degC]
        From today on, a line a year.
    made : list of bool
        Which years are made and not measured.
    readings : list of (date, float)  [degC]
        What a thermometer showed in this bed.
    now_c : float  [degC]
    later_on : date
        The last day.
    later_low_c, later_high_c : float  [degC]
        Between these in `later_years` of the years.
    felt : str
        What over it is taken into account: "tunnel", "fleece" or nothing.
    """

    days: list[date]
    past: list[float]
    seen: bool
    reeds: list[list[float]]
    made: list[bool]
    readings: list[tuple[date, float]]
    now_c: float
    later_on: date
    later_low_c: float
    later_high_c: float
    later_years: int
    felt: str = ""


class BedAhead(msgspec.Struct, frozen=True, kw_only=True):
    """What lies before a bed.

    Parameters
    ----------
    soil : SoilTrace or None
        None where there is nothing to run years from, and of a shelf indoors.
    ready : dict of str to DateOdds
        By planting, of what stands and is not ready yet.
    not_up : list of str
        Plantings not above the ground yet in the middle one of the years.
    note : str
        What is to be said about the years.
    """

    question: str
    today: date
    bed: str
    soil: SoilTrace | None
    ready: dict[str, DateOdds]
    not_up: list[str]
    note: str


def show_bed_ahead(path: Path, today: date, bed: str) -> BedAhead:
    """What lies before a bed.

    Parameters
    ----------
    path : Path
    today : date
    bed : str
        By key or name.

    Raises
    ------
    UnknownName, GardenError, StoreError
    """
    setting = open_setting(path, today)
    garden = open_state(setting.folder, day=today).garden
    key = bed_called(garden, bed).key
    try:
        scene = build_scene(setting, garden)
    except RecordError:
        return BedAhead(question="bed ahead", today=today, bed=key, soil=None, ready={}, not_up=[], note="")
    plots = [plot for plot in scene.plots if plot.bed_key == key]
    ready, not_up = {}, []
    for plot in plots:
        if plot.planting.perennial:
            continue
        odds = date_odds(plot.course.picked, plot.course.ground.dates, plot.course.ground.years.made)
        if odds.q50 is not None and odds.q50 > today:
            ready[plot.key] = odds
        sown = plot.course.start == "sown" and not plot.planting.stages
        if sown and float(np.median(plot.course.way[:, plot.column])) <= 0.0:
            not_up.append(plot.key)
    return BedAhead(
        question="bed ahead",
        today=today,
        bed=key,
        soil=_soil(setting, scene, key, plots),
        ready=ready,
        not_up=not_up,
        note=scene.ground.years.note,
    )


def _soil(setting: Setting, scene: Scene, key: str, plots: list[Plot]) -> SoilTrace | None:
    if scene.beds[key].shape == "shelf":
        return None
    return soil_trace_of(setting, scene, [key], *ground_felt(setting, scene, key, plots))


def soil_trace_of(
    setting: Setting, scene: Scene, beds: Sequence[str], ground: Ground, felt: str
) -> SoilTrace:
    """The trace of beds whose soil is equally warm.

    Parameters
    ----------
    setting : Setting
    scene : Scene
    beds : sequence of str
        By key; their readings are told.
    ground, felt
        From `ground_felt`.
    """
    today = column_of(ground, scene.today)
    first, last = max(today - BACK_DAYS, 0), min(today + AHEAD_DAYS, ground.dates.size - 1)
    warmth: Floats = ground.soil_mean_c[:, first : last + 1]
    now = today - first
    low, high, within = _spread(warmth[:, -1])
    start, end = as_date(ground.dates[first]), as_date(ground.dates[last])
    return SoilTrace(
        days=[start + timedelta(days=day) for day in range(warmth.shape[1])],
        past=_tenths(np.median(warmth[:, : now + 1], axis=0)),
        seen=ground.years.seen_days >= today,
        reeds=[_tenths(year) for year in warmth[:, now:]],
        made=[bool(each) for each in ground.years.made],
        readings=sorted(each for key in beds for each in _readings(setting, scene, key, start, end)),
        now_c=round(float(np.median(warmth[:, now])), 1),
        later_on=end,
        later_low_c=low,
        later_high_c=high,
        later_years=within,
        felt=felt,
    )


def _readings(setting: Setting, scene: Scene, key: str, start: date, end: date) -> list[tuple[date, float]]:
    """What thermometers showed in this bed's soil, by the book or as told."""
    found = {
        entry.fact.first: entry.fact.temp_c
        for entry in setting.told
        if isinstance(entry.fact, SoilWarmth)
        and entry.fact.bed in ("", key)
        and entry.fact.first == entry.fact.last
    }
    for entry in scene.garden.entries:
        act = entry.act
        if (
            isinstance(act, ThermometerRead)
            and act.place == "soil"
            and entry.bed == key
            and act.now_c is not None
        ):
            found[entry.happened_on] = act.now_c
    return [(day, round(temp_c, 1)) for day, temp_c in sorted(found.items()) if start <= day <= end]


def ground_felt(setting: Setting, scene: Scene, key: str, plots: Sequence[Plot]) -> tuple[Ground, str]:
    """The ground of a bed as most of it feels it, and what over it is taken into account."""
    bed = scene.beds[key]
    host = scene.beds.get(bed.inside)
    around = bed.shape if host is None else host.shape
    open_plots = [plot for plot in plots if not plot.covers and not plot.indoors]
    chosen = (open_plots or [plot for plot in plots if not plot.indoors])[:1]
    if chosen:
        ground = chosen[0].course.ground
        under = "" if open_plots or ground is scene.ground else "what lies over it"
        return ground, "the tunnel or frame" if around in ("tunnel", "frame") else under
    ground = scene.ground
    if has_own_ground(setting, key):
        start = as_date(ground.dates[0])
        ground = setting.ground(start, ground.dates.size, bed=key, need_seen=False)[0]
    if around in ("tunnel", "frame"):
        return under_cover(ground, TUNNEL, 0, ground.dates.size), "the tunnel or frame"
    return ground, ""


def has_own_ground(setting: Setting, bed: str) -> bool:
    """Whether a bed's soil was read as told, or its events taught how warm it is."""
    read = any(isinstance(each.fact, SoilWarmth) and each.fact.bed == bed for each in setting.told)
    return read or bool(setting.bed_offset_c(bed))


def _spread(values: Floats) -> tuple[float, float, int]:
    """The lowest and highest of the middle years, and how many those are."""
    left = round(values.size * (1.0 - _MIDDLE) / 2)
    middle = np.sort(values)[left : values.size - left]
    return round(float(middle[0]), 1), round(float(middle[-1]), 1), int(middle.size)


def _tenths(values: Floats) -> list[float]:
    return [round(float(each), 1) for each in values]
