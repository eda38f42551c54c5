"""One planting as the differential needs it: its age, and what holds of it here and now."""

from __future__ import annotations

import numpy as np

from spadework.advice.ages import AGES, ages_ahead
from spadework.advice.circumstances import Here
from spadework.advice.circumstances_book import by_book, had_before
from spadework.advice.circumstances_weather import by_weather
from spadework.advice.scene import Plot, Scene
from spadework.crops.sheet import Sheet
from spadework.crops.trouble import Age


def here_without(scene: Scene, sheet: Sheet) -> Here:
    """What is known where none of a crop stands by the book: the weather alone."""
    return Here(
        crop=sheet.key,
        family=sheet.family,
        month=_month(scene),
        holds=dict(by_weather(scene.ground, scene.column, sheet.season)),
    )


def here_of(scene: Scene, plot: Plot) -> Here:
    """What is known of a planting, without what the clocks of the troubles say."""
    holds = dict(by_weather(plot.course.ground, plot.column, plot.sheet.season))
    if plot.indoors:
        holds = {}  # the weather outside is not its own
    holds |= dict(by_book(scene, plot))
    sorts = {scene.garden.kit[placed.item].sort for placed in plot.covers if placed.item in scene.garden.kit}
    return Here(
        crop=plot.sheet.key,
        family=plot.sheet.family,
        age=age_of(plot),
        month=_month(scene),
        holds=holds,
        had=had_before(plot),
        covers=tuple(sorted(sorts)),
    )


def _month(scene: Scene) -> int:
    """Of the northern season."""
    return scene.today.month if not scene.site.south else (scene.today.month + 5) % 12 + 1


def age_of(plot: Plot) -> Age:
    """How old a planting is today, in the middle year."""
    return AGES[int(np.median(ages_ahead(plot, 0)[:, 0]))]
