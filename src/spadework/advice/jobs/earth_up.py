"""Earth up: by height, before tubers see light, and again after rain that washed the ridge down."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import Final

import numpy as np

from spadework.advice.job import AHEAD_DAYS, Job, Take
from spadework.advice.odds import Caution, Fact, odds_of
from spadework.advice.scene import Plot, Scene
from spadework.advice.seedbed import net_of_giving_up
from spadework.advice.stand_wanted import row_m
from spadework.advice.waiting import ahead, ramp, window_of
from spadework.garden.entries import Tended

MOST: Final = {"light": 0.25, "blanch": 0.3, "hold": 0.15, "trench": 0.15}
"""Share of the crop lost where soil is never drawn up, by what it is for. Source: memory."""

CLOSED_TIMES = 2.5
"""Times the height for it at which the tops have closed over the row and no soil can be drawn up. memory."""

WITHIN_DAYS: Final = 14.0
"""Days past the height in which that is lost. Source: memory."""

RIDGE_CM: Final = 40.0
"""Width of the ridge drawn up; its section is a triangle. Source: common-practice."""

WASHING_MM: Final = 25.0
"""Rain within three days that washes a ridge down. Source: memory."""

WASHED_LOSS: Final = 0.1
"""Share of the tubers bared by that and greened. Source: memory."""

SOON_DAYS: Final = 7

GREEN = Caution(
    "Do not eat green potatoes or their sprouts: light that greens them also makes bitter, poisonous "
    "glycoalkaloids, which cooking does not destroy. Cut green parts away deeply, "
    "and leave what tastes bitter.",
    "common-practice",
)
CLIPPINGS = Caution(
    "If you heap up grass clippings instead of soil, take clean ones only: none from a lawn treated with "
    "weedkiller, whose residues deform and kill the crop. The label says how long to wait.",
    "common-practice",
)


def jobs(scene: Scene) -> Iterator[Job]:
    """Rows to draw soil up to."""
    for plot in scene.plots:
        section = plot.sheet.earth
        if section.first_height_cm is None or section.depth_cm is None or plot.bed is None or plot.indoors:
            continue
        job = _earth_up(scene, plot, section.first_height_cm.value, section.depth_cm.value)
        if job is not None:
            yield job


def _done(scene: Scene, plot: Plot) -> int:
    """How many times it was earthed up, by itself or with its whole bed."""
    history = scene.garden.history(plot.key)
    own = [entry for entry in history if isinstance(entry.act, Tended)]
    whole = (
        []
        if plot.bed is None
        else [
            entry
            for entry in plot.bed.history
            if isinstance(entry.act, Tended)
            and not entry.planting
            and entry.happened_on >= plot.planting.started_on
        ]
    )
    days = {e.happened_on for e in (*own, *whole) if isinstance(e.act, Tended) and e.act.act == "earthed up"}
    return len(days)


def _earth_up(scene: Scene, plot: Plot, first_cm: float, depth_cm: float) -> Job | None:
    section = plot.sheet.earth
    done = _done(scene, plot)
    last = scene.garden.last_done("earthed up", planting=plot.key)
    if last == scene.today or float(np.mean(plot.course.ready[:, plot.column])) >= 0.5:
        return None
    passes = 2 if section.passes is None else round(section.passes.value)
    step = first_cm if section.step_cm is None else section.step_cm.value
    wanted_cm = first_cm + done * step
    height = ahead(plot.course.height_cm, plot.column)
    length = row_m(plot.planting, plot.sheet) or (plot.planting.area_m2 or 1.0) / 0.7
    litres = length * depth_cm / 100.0 * RIDGE_CM / 100.0 / 2.0 * 1000.0
    most = MOST.get(section.why, 0.15)
    walled = plot.bed is not None and plot.bed.shape in ("tub", "sack")
    washed = _washed_mm(scene, last) if done and section.why == "light" and not walled else 0.0
    if washed >= WASHING_MM:
        may = np.ones_like(height, dtype=np.bool_)
        lost = np.broadcast_to(ramp(0.0, WITHIN_DAYS, WASHED_LOSS), height.shape)
        litres *= 0.5
        why = (
            f"{washed:.0f} mm of rain fell within three days and may have washed the ridge down; "
            "tubers that see light turn green."
        )
    else:
        if done >= passes:
            return None
        may = height >= wanted_cm
        if float(may[:, SOON_DAYS].mean()) < 0.5:
            return None
        if float(np.median(height[:, 0])) > CLOSED_TIMES * wanted_cm:
            return None
        reached = np.where(may.any(axis=1), np.argmax(may, axis=1), AHEAD_DAYS + 1).astype(np.float64)
        lost = ramp(reached, WITHIN_DAYS, most / max(passes, 1))
        now = float(np.median(height[:, 0]))
        soon = odds_of((reached <= SOON_DAYS).astype(np.float64), scene.made)
        purpose = {
            "light": "before tubers see light and turn green",
            "blanch": "so that the shanks stay pale",
            "hold": "so that they stand firm in wind",
            "trench": "to fill the trench by and by",
        }.get(section.why, "")
        already = now >= wanted_cm
        height_said = (
            f"They are about {now:.0f} cm tall, past the {wanted_cm:.0f} cm for this"
            if already
            else f"They reach {wanted_cm:.0f} cm within a week in {soon.years_yes} of {soon.years} years"
        )
        why = f"{height_said}; draw up {depth_cm:.0f} cm {purpose}."
    loss = net_of_giving_up(scene, plot, np.array(lost))
    cautions = (GREEN, CLIPPINGS) if section.why == "light" else (CLIPPINGS,)
    return Job(
        id=f"earth-up-{plot.key}-{done + 1}",
        kind="earth up",
        act=f"Earth up {plot.name} in {plot.where}",
        bed=plot.bed_key,
        planting=plot.key,
        crop=plot.sheet.key,
        minutes=scene.pace.minutes("earth up", length),
        worth=plot.worth.value,
        loss=loss,
        window=window_of(loss, may, scene.today, scene.made),
        reason=f"{why} That is about {litres:.0f} l of soil or mulch.",
        facts=(
            Fact(
                name="height now",
                value=round(float(np.median(height[:, 0])), 1),
                unit="cm",
                law="growth of the course",
                source=plot.sheet.growth.height_cm.receipt,
            ),
            Fact(
                name="height at which soil is drawn up",
                value=wanted_cm,
                unit="cm",
                source=section.first_height_cm.receipt if section.first_height_cm else "",
            ),
            Fact(name="soil drawn up", value=round(litres), unit="l", law="a ridge of its width and depth"),
        ),
        cautions=cautions,
        needs=("daylight", "soil not wet"),
        strains=("stooping", "lifting"),
        load_kg=10.0,
        take=(Take(what="hoe or rake", litres=round(litres)),),
        test="Look for tubers at the surface and cover them first." if section.why == "light" else "",
        done=(Tended(act="earthed up", depth_cm=depth_cm),),
    )


def _washed_mm(scene: Scene, last: date | None) -> float:
    """Rain of the last three days, yesterday's last, since it was earthed up [mm]."""
    days = 3 if last is None else min(3, (scene.today - last).days)
    rain = np.nan_to_num(scene.ground.years.rain_mm[0, max(scene.column - days, 0) : scene.column])
    return float(rain.sum())
