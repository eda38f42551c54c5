"""Lift: roots, bulbs and tubers, before they stand too long, freeze, split or run to seed."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from spadework.advice.cautions import cautions_of
from spadework.advice.job import Job, Take
from spadework.advice.jobs.pick import CRATE_KG, HALF, SHOWN_DAYS, begins, far_off, gone
from spadework.advice.odds import Caution, Fact
from spadework.advice.ripe import Ripe, left_share
from spadework.advice.scene import Plot, Scene
from spadework.advice.storing import storing_facts
from spadework.advice.waiting import window_of
from spadework.garden.entries import Lifted

LIFT: Final = Caution("Fill crates half, bend the knees, and share what is heavy.")

HEAVY_KG: Final = 5.0
"""Load from which lifting is said to be hard on a back. Our own rule."""


def jobs(scene: Scene) -> Iterator[Job]:
    """Crops taken out of the ground once they are ready."""
    for plot in scene.plots:
        harvest = plot.sheet.harvest
        if harvest.repeat != "once" or harvest.lift not in ("lift", "pull"):
            continue
        if plot.indoors or plot.planting.picking_over or plot.locked("picking"):
            continue
        if plot.planting.last_picked_on == scene.today:
            continue
        ripe = Ripe(plot)
        if far_off(ripe) or gone(plot, ripe):
            continue
        job = _lift(scene, plot, ripe)
        if job.window.opens <= scene.day(SHOWN_DAYS):
            yield job


def _lift(scene: Scene, plot: Plot, ripe: Ripe) -> Job:
    sheet, left = plot.sheet, left_share(plot)
    kg = (plot.worth.kg or 0.0) * left
    load = min(kg, CRATE_KG)
    fork = sheet.harvest.lift == "lift"
    window = window_of(ripe.loss, ripe.ready >= HALF, scene.today, scene.made)
    ready = round(float(ripe.ready[:, 0].mean()) * scene.years)
    past = sheet.harvest.past_days
    cause, chance = ripe.main_cause
    threat = ""
    if chance >= 0.1:
        often = f"{round(chance * scene.years)} of {scene.years} years"
        threat = f"; {cause} spoils some of it within a week in {often}"
    how_ready = begins(scene, plot, ripe, window.opens)
    return Job(
        id=f"lift-{plot.key}",
        kind="lift",
        act=f"{'Lift' if fork else 'Pull'} {plot.name} in {plot.where}: about {kg:.1f} kg in all",
        bed=plot.bed_key,
        planting=plot.key,
        crop=sheet.key,
        minutes=scene.pace.minutes("lift", kg),
        worth=plot.worth.value * left,
        loss=ripe.loss,
        window=window,
        reason=f"{how_ready}; it keeps in the ground about {past.value:.0f} days{threat}.",
        facts=(
            Fact(
                name="ready by today, share of years",
                value=round(ready / scene.years, 2),
                law="warmth to ready",
                source=sheet.development.ready_days.receipt,
            ),
            Fact(
                name="days it keeps in the ground",
                value=past.value,
                unit="d",
                law="the sheet",
                source=past.receipt,
            ),
            *storing_facts(sheet),
        ),
        cautions=(
            *((LIFT,) if load >= HEAVY_KG else ()),
            *cautions_of(sheet),
        ),
        needs=("daylight", "soil not wet") if fork else ("daylight",),
        strains=("stooping",),
        load_kg=load,
        take=(Take(what="fork"),) if fork else (),
        test=f"Ready: {sheet.harvest.sign}.",
        done=(Lifted(),),
        settles=f"take:{plot.key}",
    )
