"""Pick: fruit, pods, leaves and heads, before they pass their size or weather spoils them."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import Final

import numpy as np

from spadework.advice.cautions import cautions_of
from spadework.advice.conditions import WET_RAIN_MM
from spadework.advice.job import AHEAD_DAYS, Condition, Job, Strain, Take
from spadework.advice.odds import Caution, Fact
from spadework.advice.ripe import Ripe, left_share, lost_by
from spadework.advice.scene import Plot, Scene
from spadework.advice.storing import storing_cautions, storing_facts
from spadework.advice.waiting import ahead, window_of
from spadework.garden.entries import Picked
from spadework.types import Bools

NEARLY: Final = 0.8
"""Share of the warmth between pickings from which going again is worth it. Our own rule."""

HALF: Final = 0.5

SHOWN_DAYS: Final = 7
"""A picking that opens later than this is not spoken of yet. Our own rule."""

SPOILS: Final = 0.25
"""Chance to be spoilt by the next day from which less than a full picking is taken. Our own rule."""

LITTLE: Final = 0.2
"""Share of the warmth between pickings below which there is nothing to take, spoilt or not. Our own rule."""

CRATE_KG: Final = 8.0
"""Most in one crate: what is carried at once. Source: common-practice."""

LOW_CM, HIGH_CM = 60.0, 150.0
"""Crops lower than this are picked stooping, higher than that reaching. Our own rule."""

WET_LOSS: Final = 0.01
"""Share of the harvest lost by waiting for dry leaves from which it is picked wet. Our own rule."""

WAIT_DAYS: Final = 1
"""Days for which any picking waits for dry leaves. Our own rule."""

WET: Final = Caution(
    "Wet leaves pass disease from plant to plant: take the sound plants first, and wash hands and blade "
    "before the next bed."
)

KNIFE: Final = Caution(
    "Cut away from the hand that holds, and keep the knife or secateurs shut between cuts."
)


def jobs(scene: Scene) -> Iterator[Job]:
    """Pickings to be made of what is picked again and again, and of heads and fruit cut once."""
    for plot in scene.plots:
        if not is_picked(plot) or plot.indoors or plot.planting.picking_over or plot.locked("picking"):
            continue
        if plot.planting.last_picked_on == scene.today:
            continue
        ripe = Ripe(plot)
        if far_off(ripe) or gone(plot, ripe):
            continue
        job = _pick(scene, plot, ripe)
        if job.window.opens <= scene.day(SHOWN_DAYS):
            yield job


def is_picked(plot: Plot) -> bool:
    """Whether a crop is picked or cut, rather than lifted; and at all: some are grown for their insects."""
    harvest = plot.sheet.harvest
    if plot.sheet.kind == "flower" and harvest.keeps_days is None and harvest.repeat == "cut again":
        return False
    return harvest.repeat != "once" or harvest.lift in ("pick", "cut")


def far_off(ripe: Ripe) -> bool:
    """Whether it was never picked and is not ready in half of the years within the days spoken of."""
    return ripe.days_since is None and float(ripe.ready[:, SHOWN_DAYS].mean()) < HALF


def gone(plot: Plot, ripe: Ripe) -> bool:
    """Whether there is probably nothing left to pick: killed, run to seed, stood too long, or over."""
    since = ripe.days_since
    if since is not None and since <= 7:
        return False  # somebody was still picking
    if any(float(chance.mean()) >= HALF for chance in lost_by(plot, plot.column).values()):
        return True
    return not ripe.often and float(ripe.over[:, 0].mean()) >= HALF


def may_pick(ripe: Ripe) -> Bools:
    """Days on which there is a picking, or something that would be spoilt by the next day, [year, day]."""
    tomorrow = np.concatenate([ripe.spoilt[:, 1:], ripe.spoilt[:, -1:]], axis=1)
    soon = (tomorrow - ripe.spoilt) >= SPOILS
    if not ripe.often:
        return ripe.ready >= HALF
    first = ripe.days_since is None
    enough = ripe.ready >= HALF if first else ripe.gap_cday >= NEARLY * ripe.again_cday
    found: Bools = enough | (soon & (ripe.gap_cday >= LITTLE * ripe.again_cday))
    return found


def _pick(scene: Scene, plot: Plot, ripe: Ripe) -> Job:
    sheet, left = plot.sheet, left_share(plot)
    whole_kg = (plot.worth.kg or 0.0) * left
    kg = whole_kg * (float(ripe.share[:, 0].mean()) if ripe.often else float(ripe.ready[:, 0].mean()))
    cut = sheet.harvest.lift == "cut"
    work = "cut heads" if not ripe.often else "pick leaves" if _leafy(plot) else "pick fruit"
    window = window_of(ripe.loss, may_pick(ripe), scene.today, scene.made)
    wet = _picked_wet(scene, plot, ripe)
    reason, facts = _reason(scene, plot, ripe, window.opens)
    much = f": about {kg:.1f} kg" if kg >= 0.1 else ""
    return Job(
        id=f"pick-{plot.key}",
        kind="pick",
        act=f"{'Cut' if cut else 'Pick'} {plot.name} in {plot.where}{much}",
        bed=plot.bed_key,
        planting=plot.key,
        crop=sheet.key,
        minutes=scene.pace.minutes(work, kg),
        worth=plot.worth.value * left,
        loss=ripe.loss,
        window=window,
        reason=reason,
        facts=(*facts, *storing_facts(sheet)),
        cautions=(
            *((KNIFE,) if cut else ()),
            *((WET,) if wet else ()),
            *cautions_of(sheet),
            *storing_cautions(sheet, kg),
        ),
        needs=("daylight",) if wet else _needs(plot),
        strains=_strains(plot, cut),
        load_kg=min(kg, CRATE_KG),
        take=(Take(what="knife or secateurs"),) if cut else (),
        test=f"Ready: {sheet.harvest.sign}.",
        done=(Picked(),),
        settles=f"take:{plot.key}",
    )


def begins(scene: Scene, plot: Plot, ripe: Ripe, opens: date) -> str:
    """How ready it is, as the beginning of a sentence."""
    if "ready" in plot.planting.stages:
        return "It was seen to be ready"
    ready = round(float(ripe.ready[:, 0].mean()) * scene.years)
    if opens > scene.today:
        days = (opens - scene.today).days
        return (
            f"Ready in about {days} day{'s' if days > 1 else ''}, by today in {ready} of {scene.years} years"
        )
    return f"Ready by today in {ready} of {scene.years} years"


def _reason(scene: Scene, plot: Plot, ripe: Ripe, opens: date) -> tuple[str, tuple[Fact, ...]]:
    cause, chance = ripe.main_cause
    years, sheet = scene.years, plot.sheet
    threat = ""
    if chance >= 0.1:
        threat = f"; {cause} spoils some of it within a week in {round(chance * years)} of {years} years"
    since = ripe.days_since
    if ripe.often and since is not None:
        again = sheet.harvest.again_cday
        receipt = "" if again is None else again.receipt
        said = "yesterday" if since == 1 else f"{since} days ago"
        between = max(round(ripe.between_days), 1)
        days = "every day" if between == 1 else f"every {between} days"
        text = f"Picked {said}; in this warmth it wants picking {days}{threat}."
        return text, (
            Fact(name="days since it was picked", value=float(since), unit="d", law="the book"),
            Fact(
                name="days between pickings in this warmth",
                value=round(ripe.between_days, 1),
                unit="d",
                law="warmth between pickings",
                source=receipt,
            ),
        )
    ready = round(float(ripe.ready[:, 0].mean()) * years)
    past = sheet.harvest.past_days
    what = "what is ripe" if ripe.often else "it"
    text = f"{begins(scene, plot, ripe, opens)}; {what} stays good about {past.value:.0f} days{threat}."
    return text, (
        Fact(
            name="ready by today, share of years",
            value=round(ready / years, 2),
            law="warmth to ready",
            source=sheet.development.ready_days.receipt,
        ),
        Fact(name="days it stays good", value=past.value, unit="d", law="the sheet", source=past.receipt),
        *(
            (Fact(name=f"{cause} within a week, share of years", value=round(chance, 2), law="the years"),)
            if threat
            else ()
        ),
    )


def _leafy(plot: Plot) -> bool:
    return plot.sheet.kind in ("leaf", "herb", "stem", "flower")


def _needs(plot: Plot) -> tuple[Condition, ...]:
    if _leafy(plot):
        return ("daylight", "not in heat")  # leaves wilt at once in the heat
    if plot.sheet.kind in ("pod", "fruit"):
        return ("daylight", "dry leaves")  # wet leaves pass disease from plant to plant
    return ("daylight",)


def _picked_wet(scene: Scene, plot: Plot, ripe: Ripe) -> bool:
    """Whether it is wet today, and too much would be past its size by the next dry day."""
    if "dry leaves" not in _needs(plot):
        return False
    rain = np.nan_to_num(ahead(scene.ground.years.rain_mm, scene.column))
    wet = (rain >= WET_RAIN_MM).mean(axis=0) >= HALF
    if not wet[0]:
        return False
    dry = AHEAD_DAYS if wet.all() else int(np.argmin(wet))
    lost = ripe.loss.mean(axis=0)
    return dry > WAIT_DAYS and float(lost[dry] - lost[0]) >= WET_LOSS


def _strains(plot: Plot, cut: bool) -> tuple[Strain, ...]:
    height = float(plot.course.height_cm[:, plot.column].mean())
    strains: list[Strain] = ["stooping"] if height < LOW_CM else ["reaching"] if height > HIGH_CM else []
    return (*strains, "blades") if cut else tuple(strains)
