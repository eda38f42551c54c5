"""Prepare ground for what is to go in next, on days it is fit to be worked; too wet, it says which."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

import numpy as np

from spadework.advice.free_places import Place
from spadework.advice.job import AHEAD_DAYS, Job, Take
from spadework.advice.odds import Fact
from spadework.advice.raising import days_until, hardened_share, out_size_days, out_value, tray_worth
from spadework.advice.scene import Scene
from spadework.advice.soil_fit import SQUEEZE, drains_mm_day, first_fit, fit_days, squeezed_today, to_drain_mm
from spadework.advice.tray_places import tray_places
from spadework.advice.waiting import lost_by_waiting, never_falling, window_of
from spadework.advice.wanted_crops import wanted
from spadework.garden.entries import Tended
from spadework.types import Bools, Floats

GOOD_FOR_DAYS: Final = 14
"""Ground prepared so long ago wants it again: weeds have come up. Our own rule."""

WANTED_DAYS: Final = 14
"""What goes in later than this is not prepared for yet. Our own rule."""


def jobs(scene: Scene) -> Iterator[Job]:
    """Ground to be prepared, for each bed once."""
    seen: set[str] = set()
    for place, name, loss, may, worth in _uses(scene):
        prepared = scene.garden.last_done("prepared", bed=place.bed.key)
        if place.bed.key in seen or (prepared is not None and (scene.today - prepared).days < GOOD_FOR_DAYS):
            continue
        fit = fit_days(scene, place.bed)
        goes_in = np.where(may.any(axis=1), np.argmax(may, axis=1), AHEAD_DAYS + 1)
        opens = float(np.median(goes_in))
        if opens > WANTED_DAYS or (opens < 1.0 and fit[:, 0].mean() >= 0.5):
            continue  # not yet, or sown at once: raking is part of that
        seen.add(place.bed.key)
        yield _prepare(scene, place, name, loss, fit, goes_in.astype(np.float64), worth)


def _uses(scene: Scene) -> Iterator[tuple[Place, str, Floats, Bools, float]]:
    """What goes in where: place, name, loss by day of going in, days it may, worth."""
    places, _ = tray_places(scene)
    plots = {plot.key: plot for plot in scene.plots}
    for key, place in places.items():
        plot = plots[key]
        size = out_size_days(plot.sheet)
        if size is not None:
            harden = plot.sheet.start.harden_days
            softly = 0.0 if harden is None else harden.value * (1.0 - hardened_share(scene, plot))
            goes = np.maximum(days_until(plot, size), softly)
            may = np.arange(AHEAD_DAYS + 1)[None, :] >= goes[:, None]
            loss = lost_by_waiting(out_value(scene, plot.sheet, scene.ground))
            yield place, plot.name, loss, may, tray_worth(plot)
    for one in wanted(scene):
        if one.place is not None:
            may = one.sowing.may(one.every_days)
            yield one.place, scene.name_of(one.sheet.key), one.sowing.loss, may, one.worth


def _prepare(
    scene: Scene, place: Place, name: str, going: Floats, fit: Bools, goes_in: Floats, worth: float
) -> Job:
    days = np.arange(AHEAD_DAYS + 1, dtype=np.float64)[None, :]
    # unprepared by the day it is to go in, it waits for the next day the ground is fit
    at = np.minimum(np.maximum(days, goes_in[:, None]), AHEAD_DAYS).astype(np.int64)
    ready = np.minimum(np.take_along_axis(first_fit(fit), at, axis=1), AHEAD_DAYS).astype(np.int64)
    due = np.minimum(goes_in, AHEAD_DAYS).astype(np.int64)[:, None]
    late = np.take_along_axis(going, ready, axis=1) - np.take_along_axis(going, due, axis=1)
    loss = never_falling(np.clip(np.where(days >= 1.0, late, 0.0), 0.0, 1.0))
    window = window_of(loss, fit, scene.today, scene.made)
    drains = float(to_drain_mm(scene, place.bed)[:, 0].mean())
    felt = squeezed_today(scene, place.bed)
    wet = fit[:, 0].mean() < 0.5
    first = window.opens
    when = scene.day(round(float(np.median(goes_in))))
    if wet:
        told = (
            f"a handful {felt} today"
            if felt in ("smears", "holds")
            else f"about {drains:.0f} mm have yet to drain"
        )
        reason = f"Too wet to work: {told}; the first fit day is about {first.day} {first:%b}."
    else:
        reason = f"It is fit to work today, and the {name} can go in from about {when.day} {when:%b}."
    act = f"Prepare {place.bed.name} for {name}: {place.block.width_m:.1f} by {place.block.length_m:.1f} m"
    return Job(
        id=f"prepare-{place.bed.key}",
        kind="prepare",
        act=act,
        bed=place.bed.key,
        minutes=scene.pace.minutes("seedbed", place.area_m2),
        worth=worth,
        loss=loss,
        window=window,
        reason=reason,
        facts=(
            Fact(name="water that has yet to drain", value=round(drains, 1), unit="mm", law="drained depth"),
            Fact(
                name=f"water this soil sheds in a day ({place.bed.soil or 'loam'})",
                value=drains_mm_day(place.bed.soil),
                unit="mm d-1",
                source="memory",
            ),
        ),
        needs=("daylight", "soil not wet"),
        strains=("stooping",),
        take=(Take(what="fork or hoe, and rake"),),
        test=SQUEEZE,
        done=(Tended(act="prepared"),),
        settles=f"ground:{place.bed.key}",
    )
