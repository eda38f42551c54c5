"""One planting as the differential needs it: its age, and what holds of it here and now."""

from __future__ import annotations

from spadework.advice.circumstances import Here
from spadework.advice.circumstances_book import by_book, had_before
from spadework.advice.circumstances_weather import by_weather
from spadework.advice.scene import Plot, Scene
from spadework.crops.sheet import Sheet
from spadework.crops.trouble import Age

SEEDLING_LEAVES = 2.0
YOUNG_LEAVES = 6.0
"""True leaves up to which a plant is a seedling, and young. As the sheets of troubles have it."""

SETTING_WAY = 0.6
"""Share of the way to ready from which a root, bulb or tuber swells, or a head closes. Our own rule."""

FRUITS = ("fruit", "pod", "grain")
SWELLS = ("root", "bulb", "tuber", "head", "stem", "flower")


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
    """How old a planting is today, by its course and by what was seen of it."""
    course, column, planting = plot.course, plot.column, plot.planting

    def now(name: str) -> float:
        return float(getattr(course, name)[:, column].mean())

    if "ready" in planting.stages or planting.first_picked_on is not None or now("ready") >= 0.5:
        return "ripe"
    if "up" not in planting.stages and now("emerged") < 0.1:
        return "seed"
    if plot.sheet.kind in FRUITS and now("flowering") >= 0.5:
        share = plot.sheet.development.flower_share
        flower = 0.6 if share is None else share.value
        return "fruiting" if now("way") >= flower + 0.4 * (1.0 - flower) else "flowering"
    leaves = planting.leaves if planting.leaves is not None else now("leaves")
    if leaves <= SEEDLING_LEAVES:
        return "seedling"
    if plot.sheet.kind in SWELLS and now("way") >= SETTING_WAY:
        return "fruiting"
    return "young" if leaves <= YOUNG_LEAVES else "leafy"
