"""The water of each bed: what its roots can reach, what is gone of it, and what to give."""

from __future__ import annotations

from datetime import date, timedelta
from pathlib import Path

import msgspec
import numpy as np

from spadework.advice.allowance import allowance_of
from spadework.advice.jobs.water import SOON_DAYS, depth_to_give_mm, how_to_give, rain_fills
from spadework.advice.odds import Odds, odds_of
from spadework.advice.scene import Scene
from spadework.clock.dose import dose
from spadework.garden.lookup import key_of
from spadework.usecases.keep_book import open_state
from spadework.usecases.lock_lines import LockLine, lines_of_beds, lock_lines
from spadework.usecases.scene import build_scene
from spadework.usecases.setting import open_setting


class BedWaterView(msgspec.Struct, frozen=True, kw_only=True):
    """One bed's water today.

    Parameters
    ----------
    gone_mm, spare_mm, holds_mm : float  [mm]
        Gone from the soil its roots reach, what may be gone before plants go short, and what it holds.
    short : date or None
        When plants go short without more watering, at the middle of the years; None for not within three
        weeks.
    rain : Odds
        Rain does it within two days.
    give : str
        Litres that fill it, or as much as is given at a time, by this bed's own way; empty where its size is
        not known.
    litres : float or None  [l]
        To fill it, whatever its allowance.
    week_allowance_l, week_left_l : float or None  [l]
        Water it may get in seven days, and what is left of it today; None where it has no allowance.
    allowance : str
        The same in words, with what stays short of filling it.
    finger : list of str
        Finger tests beside the balance, and which is believed.
    assumed : list of str
    """

    bed: str
    name: str
    gone_mm: float
    spare_mm: float
    holds_mm: float
    short: date | None
    rain: Odds
    give: str
    litres: float | None
    week_allowance_l: float | None
    week_left_l: float | None
    allowance: str
    finger: list[str]
    assumed: list[str]


class WaterAnswer(msgspec.Struct, frozen=True, kw_only=True):
    """The water of the garden's beds."""

    question: str
    today: date
    beds: list[BedWaterView]
    locks: list[LockLine]
    note: str


def show_water(garden: Path, today: date, *, bed: str = "") -> WaterAnswer:
    """The water of the beds in which something grows.

    Parameters
    ----------
    garden : Path
    today : date
    bed : str
        Only that one; empty for all.

    Raises
    ------
    UnknownName, GardenError, RecordError, StoreError
    """
    setting = open_setting(garden, today)
    scene = build_scene(setting, open_state(setting.folder, day=today).garden)
    keys = [key_of(bed, {k: b.name for k, b in scene.beds.items()}, "bed")] if bed else list(scene.beds)
    found = []
    for key in keys:
        water, own = scene.water_of(key), scene.beds[key]
        if water is None:
            continue
        column = scene.column
        days = float(np.median(water.days_until_short(column)))
        give = dose(own, depth_to_give_mm(water, column))
        allowed = allowance_of(scene.garden, own, today)
        found.append(
            BedWaterView(
                bed=key,
                name=own.name,
                gone_mm=round(water.wanted_mm(column), 1),
                spare_mm=round(float(np.nanmean(water.readily_mm[:, column])), 1),
                holds_mm=round(float(np.nanmean(water.available_mm[:, column])), 1),
                short=today + timedelta(days=int(days)) if np.isfinite(days) else None,
                rain=odds_of(rain_fills(scene, water, SOON_DAYS).astype(np.float64), scene.made),
                give="" if give is None else how_to_give(own, give)[0],
                litres=None if give is None else round(give.litres, 1),
                week_allowance_l=own.week_allowance_l,
                week_left_l=None if allowed is None else round(allowed.left_l(), 1),
                allowance="" if allowed is None else allowed.words(0.0 if give is None else give.litres),
                finger=[f"{check.on}: {check.why}" for check in water.checks],
                assumed=list(water.assumed),
            )
        )
    return WaterAnswer(
        question="water",
        today=today,
        beds=found,
        locks=(
            lines_of_beds(scene.garden, today, keys, words=scene.site.words)
            if bed
            else lock_lines(scene.garden, today, words=scene.site.words)
        ),
        note=scene.ground.years.note,
    )


def short_of_water(scene: Scene) -> dict[str, date]:
    """The day plants go short without more water, by bed, at the middle of the years; without those that
    do not within three weeks."""
    found: dict[str, date] = {}
    for key in scene.beds:
        water = scene.water_of(key)
        days = float("inf") if water is None else float(np.median(water.days_until_short(scene.column)))
        if np.isfinite(days):
            found[key] = scene.today + timedelta(days=int(days))
    return found
