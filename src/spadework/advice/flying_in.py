"""What insects that fly in take of a bed on a day that its cover is off or open."""

from __future__ import annotations

from datetime import timedelta
from typing import Final

import numpy as np

from spadework.advice.keeps_out import may_keep_out
from spadework.advice.scene import Plot, Scene
from spadework.advice.sightings import last_seen
from spadework.advice.stakes import HARM_DAYS
from spadework.advice.watching import coming, seen_this_season
from spadework.crops.trouble import Trouble
from spadework.crops.troubles import hosted_by
from spadework.garden.records import Bed, KitItem
from spadework.types import Floats

HARM: Final = 0.4
"""Share of its worth a planting loses that ails from an insect. Source: memory."""

FORGOTTEN_DAYS: Final = 365
"""Days after which a host that stood in the bed has left nothing in the soil that still comes out. Source:
memory."""

COMMON: Final = 0.25
"""Share of plantings that ail from an insect in a season, from which a cover is kept for it unseen. Our own
rule."""

AHEAD: Final = 1
"""Days looked at: today and the next."""


def flown_in(scene: Scene, plot: Plot, item: KitItem) -> tuple[Floats, tuple[str, ...]]:
    """What insects that a piece of kit keeps out take of a planting in a day without it.

    Parameters
    ----------
    scene : Scene
    plot : Plot
    item : KitItem

    Returns
    -------
    share : array, shape (year,)
        Of the planting's worth.
    names : tuple of str
        Of the insects, the worst first.

    Notes
    -----
    What is in the soil of its bed, or was seen on it this season, is under the cover too and does not count.
    """
    lost = np.zeros(scene.years)
    if plot.bed is None:
        return lost, ()
    seen = seen_this_season(scene)
    by_name: dict[str, float] = {}
    for each in coming(scene, AHEAD, bare=True):
        trouble = each.trouble
        if (
            trouble.kind != "insect"
            or trouble.usual.value < COMMON
            or plot.key not in each.meets
            or not may_keep_out(item, trouble)
        ):
            continue
        if last_seen(seen, trouble.key, plot.bed_key) or left_in_soil(scene, trouble, plot.bed, {plot.key}):
            continue
        own = trouble.usual.value * HARM / HARM_DAYS * each.meets[plot.key][:, 0]
        if own.mean() > 0.0:
            by_name[trouble.name] = float(own.mean())
            lost = lost + own
    return lost, tuple(sorted(by_name, key=lambda name: (-by_name[name], name)))


def left_in_soil(scene: Scene, trouble: Trouble, bed: Bed, but: set[str]) -> bool:
    """Whether an earlier host in the bed may have left it in the soil, to come out under the cover."""
    if not trouble.stays_in_soil:
        return False
    since = scene.today - timedelta(days=FORGOTTEN_DAYS)
    return any(
        planting.key not in but
        and any(stay.bed == bed.key for stay in planting.stays)
        and (planting.ended_on is None or planting.ended_on >= since)
        and hosted_by(trouble, planting.crop, scene.sheet_of(planting.crop).family) > 0.0
        for planting in scene.garden.plantings.values()
    )
