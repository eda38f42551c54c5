"""How old a planting is on the days ahead, in the words of the sheets of troubles."""

from __future__ import annotations

from collections.abc import Collection
from typing import Final, get_args

import numpy as np

from spadework.advice.scene import Plot
from spadework.crops.trouble import Age
from spadework.types import Bools, Floats, Ints

AGES: Final[tuple[Age, ...]] = get_args(Age)

UP_SHARE: Final = 0.1
"""Share of the seed that is up from which a row is no longer seed. Our own rule."""

SEEDLING_LEAVES: Final = 2.0
YOUNG_LEAVES: Final = 6.0
"""True leaves up to which a plant is a seedling, and young: as the sheets of troubles have it."""

SETTING_WAY: Final = 0.6
"""Share of the way to ready from which a root, bulb, tuber or head swells. Our own rule."""

PAST_FLOWER: Final = 0.4
"""Share of the way from flower to ready after which a fruiting crop is taken as setting. Our own rule."""

LIKELY: Final = 0.5

_FRUITS: Final = ("fruit", "pod", "grain")
_SWELLS: Final = ("root", "bulb", "tuber", "head", "stem", "flower")


def ages_ahead(plot: Plot, days: int) -> Ints:
    """Place in `AGES` of a planting on today and so many days after it, [year, day].

    Parameters
    ----------
    plot : Plot
        As its course has it, and as it was counted, measured and seen.
    days : int
        After today; the last column of the course stands for days beyond it.
    """
    course, sheet = plot.course, plot.sheet
    columns = np.minimum(plot.column + np.arange(days + 1), course.way.shape[1] - 1)

    def ahead(values: Floats) -> Floats:
        found: Floats = values[:, columns]
        return found

    way, leaves = ahead(course.way), ahead(course.leaves)
    found = np.where(leaves <= SEEDLING_LEAVES, 1, np.where(leaves <= YOUNG_LEAVES, 2, 3))
    if sheet.kind in _SWELLS:
        found = np.where((leaves > SEEDLING_LEAVES) & (way >= SETTING_WAY), 5, found)
    if sheet.kind in _FRUITS and sheet.development.flower_share is not None:
        flower = sheet.development.flower_share.value
        setting = way >= flower + PAST_FLOWER * (1.0 - flower)
        found = np.where(ahead(course.flowering) >= LIKELY, np.where(setting, 5, 4), found)
    if "up" not in plot.planting.stages:
        found = np.where(ahead(course.emerged) < UP_SHARE, 0, found)
    ripe = ahead(course.ready) >= LIKELY
    if plot.planting.first_picked_on is not None or "ready" in plot.planting.stages:
        ripe = np.ones_like(ripe)
    return np.where(ripe, 6, found).astype(np.int64)


def at_age(ages: Ints, wanted: Collection[Age]) -> Bools:
    """Whether a planting is at one of these ages, [year, day]."""
    return np.isin(ages, [AGES.index(age) for age in wanted])
