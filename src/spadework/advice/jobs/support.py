"""Support and tie: before plants are tall enough to fall over, and sooner where wind is coming."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

import numpy as np

from spadework.advice.job import AHEAD_DAYS, Job, Take
from spadework.advice.odds import Caution, Fact, odds_of
from spadework.advice.room import metres
from spadework.advice.scene import Plot, Scene
from spadework.advice.seedbed import net_of_giving_up
from spadework.advice.waiting import ahead, ramp, window_of
from spadework.garden.entries import Tended
from spadework.types import Floats

FALLS_LOSS: Final = 0.25
WITHIN_DAYS: Final = 14.0
"""Share of the crop lost where what needs support lies on the ground, and the days past its height in which
that comes about. Source: memory: rot, slugs, dirt and fruit out of reach."""

BLOWN_LOSS: Final = 0.2
"""Share of the crop broken or rocked loose by a storm without support. Source: memory."""

GUST_FACTOR: Final = 1.6
"""Gusts over the day's mean wind. Source: memory; it is between 1.5 and 2 over rough ground."""

STORM_M_S: Final = 14.0
"""Gust that breaks unsupported stems when they stand as high as their support is needed [m s-1]; wind
presses with the square of its speed, so taller plants break sooner. Source: memory."""

TIE_STEP_CM: Final = 25.0
"""Growth from one tying to the next. Source: common-practice."""

CHOICE_LOSS: Final = 0.05
"""Share of the crop lost where what may be held up trails or leans instead. Source: memory: fruit on the soil
rots or is bitten now and then, stems grow crooked."""

CHOICE_DAYS: Final = 14.0
"""Days past the height at which a support serves after which plants have sprawled too far to be put up. Our
own rule."""

TRAILS: Final = ("trellis",)
"""What is not broken by wind without its support: it lies on the ground then. Source: common-practice."""

TIED: Final = ("stakes", "trellis")
"""What plants do not hold on to by themselves for long. Source: common-practice."""

SOON_DAYS: Final = 7

TOPS = Caution(
    "Cap the tops of canes and stakes, and mind your eyes when bending over them.", "common-practice"
)

PUT: Final = {
    "sticks": "Push in pea sticks beside the",
    "stakes": "Stake the",
    "cage": "Set cages round the",
    "trellis": "Put up a trellis for the",
    "poles": "Put up poles for the",
    "net": "Put up a net for the",
}


RIPE_SHARE = 0.5
"""Share of the years in which a crop must be ripe for a first support to come too late. Our own rule."""


def jobs(scene: Scene) -> Iterator[Job]:
    """Plantings to support, or to tie in again."""
    for plot in scene.plots:
        section = plot.sheet.support
        if section.kind == "none" or section.height_cm is None or plot.bed is None or plot.indoors:
            continue
        if float(plot.course.emerged[:, plot.column].mean()) < 0.25:
            continue
        job = _support(scene, plot, section.height_cm.value)
        if job is not None:
            yield job


def _choice_said(kind: str) -> str:
    """Why a support that is not needed is worth having."""
    if kind in TRAILS:
        return "left to trail they take more room, and their fruit lies on the soil"
    return "held up their stems stay straight"


def _storms(scene: Scene, height: Floats, needed_cm: float) -> Floats:
    """Whether a gust breaks plants of a height on each of the coming days, [year, day]."""
    wind = scene.ground.years.wind_m_s
    if wind is None:
        return np.zeros_like(height)
    gust = GUST_FACTOR * np.nan_to_num(ahead(wind, scene.column))
    load = gust**2 * np.clip(height / needed_cm, 0.0, 3.0)
    found: Floats = (load >= STORM_M_S**2).astype(np.float64)
    return found


def _support(scene: Scene, plot: Plot, needed_cm: float) -> Job | None:
    sheet, section = plot.sheet, plot.sheet.support
    height = ahead(plot.course.height_cm, plot.column)
    last = scene.garden.last_done("supported", planting=plot.key)
    if last is None and float(plot.course.ready[:, plot.column].mean()) > RIPE_SHARE:
        return None  # it came to be ripe without: what lies over now stays so
    if last == scene.today:
        return None
    if last is None:
        from_cm, most, first, then = needed_cm, FALLS_LOSS, True, 0.0
        if float(np.median(height[:, 0])) > 3.0 * needed_cm and plot.planting.first_picked_on is not None:
            return None  # it is being picked and stands: it was supported, and nobody wrote it down
    else:
        if section.kind not in TIED:
            return None
        column = plot.column - (scene.today - last).days
        then = float(np.median(plot.course.height_cm[:, max(column, 0)]))
        from_cm, most, first = max(then, needed_cm) + TIE_STEP_CM, FALLS_LOSS / 2.0, False
    choice = first and section.need == "choice"
    sprawled = ahead(np.cumsum(plot.course.height_cm >= needed_cm, axis=-1), plot.column) > CHOICE_DAYS
    if choice and float(np.median(sprawled[:, 0])) > 0.0:
        return None
    reached_by = height >= from_cm
    may = height >= (0.7 * from_cm if first else from_cm)
    gusts = _storms(scene, height, needed_cm)
    if choice:
        may, most = may & ~sprawled, CHOICE_LOSS
        gusts = gusts * (section.kind not in TRAILS)
    storms = np.cumsum(gusts, axis=-1)
    before = np.concatenate([np.zeros((storms.shape[0], 1)), storms[:, :-1]], axis=1)
    blows = before >= 1.0
    if section.need == "wind":
        may = may & (np.max(storms, axis=1, keepdims=True) >= 1.0)
        most = 0.0
    if float((may[:, : SOON_DAYS + 1].any(axis=1) if choice else may[:, SOON_DAYS]).mean()) < 0.5:
        return None
    reached = np.where(reached_by.any(axis=1), np.argmax(reached_by, axis=1), AHEAD_DAYS + 1).astype(float)
    lost = np.minimum(
        ramp(reached, WITHIN_DAYS, most) + BLOWN_LOSS * (0.5 if not first else 1.0) * blows, 1.0
    )
    loss = net_of_giving_up(scene, plot, lost)
    now = float(np.median(height[:, 0]))
    length = metres(plot) or 1.0
    plants = plot.plants or 1.0
    if first:
        minutes = scene.pace.minutes("support", length)
        act = f"{PUT[section.kind]} {plot.name} in {plot.where}{', if you wish' if choice else ''}"
    else:
        minutes = scene.pace.minutes("tie", plants)
        act = f"Tie in the {plot.name} in {plot.where}"
    stormy = odds_of((storms[:, SOON_DAYS] >= 1.0).astype(np.float64), scene.made)
    wind = (
        f"; gusts strong enough to break them come within a week in {stormy.years_yes} of "
        f"{stormy.years} years"
        if stormy.years_yes
        else ""
    )
    soon = odds_of((reached <= SOON_DAYS).astype(np.float64), scene.made)
    stands = (
        f"They are about {now:.0f} cm tall and want it from {from_cm:.0f} cm"
        if now >= from_cm and first
        else f"They are about {now:.0f} cm tall, and were about {then:.0f} cm when they were tied last"
        if now >= from_cm
        else f"They are about {now:.0f} cm tall and reach {from_cm:.0f} cm within a week "
        f"in {soon.years_yes} of {soon.years} years"
    )
    number = 1 + sum(
        1
        for entry in scene.garden.history(plot.key)
        if isinstance(entry.act, Tended) and entry.act.act == "supported"
    )
    return Job(
        id=f"support-{plot.key}-{number}",
        kind="support",
        act=act,
        bed=plot.bed_key,
        planting=plot.key,
        crop=sheet.key,
        minutes=minutes,
        worth=plot.worth.value,
        loss=loss,
        window=window_of(loss, may, scene.today, scene.made),
        reason=f"{stands}{wind}{f'; by choice: {_choice_said(section.kind)}' if choice else ''}.",
        facts=(
            Fact(
                name="height now",
                value=round(now, 1),
                unit="cm",
                law="growth of the course",
                source=sheet.growth.height_cm.receipt,
            ),
            Fact(
                name="height at which it must be held",
                value=round(from_cm, 1),
                unit="cm",
                source=section.height_cm.receipt if section.height_cm else "",
            ),
            Fact(
                name="a breaking gust within a week, share of years",
                value=None if scene.ground.years.wind_m_s is None else round(stormy.chance, 2),
                law="wind pressure on a stem",
                source="memory",
            ),
        ),
        cautions=(TOPS,) if section.kind in ("stakes", "poles", "trellis") else (),
        needs=("daylight", "dry leaves"),
        strains=("reaching",) if now > 120.0 else ("stooping",),
        take=(Take(what="string" if not first else f"{section.kind} and string"),),
        test="Leave a finger's room in every loop." if not first or section.kind in TIED else "",
        done=(Tended(act="supported"),),
    )
