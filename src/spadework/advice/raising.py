"""Plants raised in trays: how far they are by their own warmth, and what going out on a day brings."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from typing import Final
from weakref import WeakKeyDictionary

import numpy as np

from spadework.advice.job import AHEAD_DAYS
from spadework.advice.scene import Plot, Scene
from spadework.advice.waiting import never_falling
from spadework.advice.worth import value_kg_m2
from spadework.clock.course import RAISED_PACE, set_out
from spadework.clock.ground import Ground
from spadework.crops.sheet import Sheet
from spadework.garden.entries import Tended
from spadework.types import Floats

BOUGHT_SHARE: Final = 0.8
"""Share of its worth left to a planting started anew from bought plants: they cost, and are not always to be
had. Our own rule."""

STEPS: Final = (0, 7, 14, 21)
"""Days from today on which setting out is run; those between are on a line between them."""


_VALUES: WeakKeyDictionary[Scene, dict[tuple[int, int, int], tuple[Floats, Sheet, Ground]]] = (
    WeakKeyDictionary()
)


def in_tray(plot: Plot) -> bool:
    """Whether it is raised to be set out, and has not been."""
    planting = plot.planting
    return planting.set_out_on is None and (
        plot.indoors or bool(planting.tray) or planting.method == "raised"
    )


def raised(scene: Scene) -> Iterator[Plot]:
    """Plants in trays that are up."""
    for plot in scene.plots:
        if in_tray(plot) and plot.course.sprout is not None and is_up(plot):
            yield plot


def is_up(plot: Plot) -> bool:
    """Whether seedlings stand, as seen or as is to be expected."""
    return "up" in plot.planting.stages or float(plot.course.grown_days[:, plot.column].mean()) > 0.0


def own_days(weeks: float) -> float:
    """Days of growth at a plant's best that raising gives in so many weeks."""
    return 7.0 * weeks * RAISED_PACE


def out_size_days(sheet: Sheet) -> float | None:
    """Days of growth behind a plant when it is fit to be set out; None for what is not raised."""
    weeks = sheet.sowing.weeks_to_set_out
    section = sheet.development
    head = None if section.set_out_days is None else section.ready_days.value - section.set_out_days.value
    own = None if weeks is None else own_days(weeks.value)
    both = [each for each in (head, own) if each is not None]
    return min(both) if both else None


def days_until(plot: Plot, grown_days: float) -> Floats:
    """Days from today until a plant has so much growth behind it, [year]; below zero where it has."""
    reached = np.count_nonzero(plot.course.grown_days < grown_days, axis=-1)
    found: Floats = reached.astype(np.float64) - plot.column
    return found


def out_value(scene: Scene, sheet: Sheet, ground: Ground, from_days: int = 0) -> Floats:
    """Chance that plants set out on each of the coming days get there, [year, AHEAD_DAYS + 1].

    Parameters
    ----------
    scene : Scene
    sheet : Sheet
    ground : Ground
        As they will feel it: in the open or under a cover.
    from_days : int  [d]
        Days from today on which the first of these days lies.
    """
    kept = _VALUES.setdefault(scene, {})
    key = (id(sheet), id(ground), from_days)
    if key not in kept:
        last = ground.dates.size - 1
        columns = [min(scene.column + from_days + step, last) for step in STEPS]
        found = between([set_out(sheet, ground, column).picked[:, -1] for column in columns])
        # what the key names by its place in memory is held with it, so that no other takes that place
        kept[key] = (found, sheet, ground)
    return kept[key][0]


def between(values: Sequence[Floats]) -> Floats:
    """From the days of `STEPS` to every day, [year, AHEAD_DAYS + 1]."""
    shares, at = np.stack(values, axis=-1), np.asarray(STEPS, dtype=np.float64)
    days = np.arange(AHEAD_DAYS + 1, dtype=np.float64)
    above = np.clip(np.searchsorted(at, days, side="right"), 1, at.size - 1)
    part = (days - at[above - 1]) / (at[above] - at[above - 1])
    found: Floats = shares[:, above - 1] * (1.0 - part) + shares[:, above] * part
    return found


def net_of_buying(scene: Scene, plot: Plot, lost: Floats) -> Floats:
    """A tray's loss less what bought plants, set out when these would be, would still bring."""
    size = out_size_days(plot.sheet)
    if size is None:
        return never_falling(lost)
    ahead = float(np.clip(np.median(days_until(plot, size)), 0.0, 150.0))
    column = min(scene.column + round(ahead), scene.ground.dates.size - 1)
    bought = BOUGHT_SHARE * set_out(plot.sheet, scene.ground, column).picked[:, -1]
    return never_falling(lost * (1.0 - np.clip(bought, 0.0, 1.0))[:, None])


HARDENED: Final = 0.7
"""Share of the hardening hours from which plants may go out. Our own rule."""

FIRST_HOURS, LAST_HOURS = 2.0, 10.0
"""Hours outside on the first and on the last day of hardening off. Source: common-practice."""

_HOURS = re.compile(r"(\d+(?:\.\d+)?) ?h")


def hardening_hours(sheet: Sheet) -> float:
    """Hours outside that hardening off takes in all  [h]; 0 for what needs none."""
    days = sheet.start.harden_days
    return 0.0 if days is None else days.value * (FIRST_HOURS + LAST_HOURS) / 2.0


def hours_outside(scene: Scene, plot: Plot) -> float:
    """Hours it has stood outside so far, by the book  [h].

    Notes
    -----
    An entry that says no hours is taken as the beginning of hardening off as usual, day by day since.
    """
    days = plot.sheet.start.harden_days
    length = 7.0 if days is None else days.value
    entries = [*plot.planting.history, *(() if plot.bed is None else plot.bed.history)]
    said: dict[str, float] = {}
    begun = None
    for entry in entries:
        act = entry.act
        if not isinstance(act, Tended) or act.act != "hardened off" or entry.planting not in ("", plot.key):
            continue
        if plot.planting.sown_on is None or entry.happened_on < plot.planting.sown_on:
            continue
        found = _HOURS.search(act.material)
        if found is not None:
            said[entry.key] = float(found.group(1))
        elif begun is None or entry.happened_on < begun:
            begun = entry.happened_on
    if begun is None:
        return sum(said.values())
    since = min((scene.today - begun).days, round(length))
    step = (LAST_HOURS - FIRST_HOURS) / max(length - 1.0, 1.0)
    return max(sum(said.values()), sum(FIRST_HOURS + step * day for day in range(since)))


def hardened_share(scene: Scene, plot: Plot) -> float:
    """How far hardening off has come, 0 to 1."""
    whole = hardening_hours(plot.sheet)
    return 1.0 if whole <= 0.0 else min(hours_outside(scene, plot) / whole, 1.0)


def standing_plants(plot: Plot) -> int:
    """Plants in the tray to reckon with; 0 where nothing is known."""
    return 0 if plot.plants is None else max(round(plot.plants), 0)


def tray_worth(plot: Plot) -> float:
    """What the plants of a tray are worth once they stand, in kilograms of carrots."""
    sowing = plot.sheet.sowing
    each_m2 = sowing.row_cm.value * (plot.planting.spacing_cm or sowing.in_row_cm.value) / 1e4
    return max(standing_plants(plot), 1) * each_m2 * value_kg_m2(plot.sheet)
