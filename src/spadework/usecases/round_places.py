"""Where a walk goes, and the minutes between its places."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from spadework.garden.state import Garden
from spadework.garden.walk import walks
from spadework.types import Floats

METRES_A_MINUTE: Final = 60.0
"""Walking pace with tools in hand. Source: METHODS of the round, common-practice."""

CHANGE_MIN: Final = 0.15
"""Minutes lost at each change of bed. Source: common-practice."""

INDOORS_MIN: Final = 1.0
"""Minutes to a place the plan does not show, such as a shelf indoors. Our own rule."""


@dataclass(frozen=True, kw_only=True)
class WalkPlan:
    """Places of the walk and the minutes between them."""

    keys: tuple[str, ...]
    minutes: Floats
    start: int


def places_of(garden: Garden, beds: Sequence[str]) -> WalkPlan:
    """Where the walk goes, the first being where it begins: at the bed nearest the plot's corner."""
    ways = walks(garden.beds)
    named = tuple(dict.fromkeys(beds))
    shown = [key for key in named if key in ways.keys]
    keys = ("", *(key for key in named if key))
    minutes = np.full((len(keys), len(keys)), INDOORS_MIN)
    if shown:
        at = [ways.keys.index(key) for key in shown]
        gate = int(np.argmin([x * x + y * y for x, y in ways.stands]))
        rows = [keys.index(key) for key in shown]
        metres = ways.metres[np.ix_(at, at)] / METRES_A_MINUTE + CHANGE_MIN
        minutes[np.ix_(rows, rows)] = metres
        minutes[0, rows] = minutes[rows, 0] = ways.metres[gate, at] / METRES_A_MINUTE + CHANGE_MIN
    np.fill_diagonal(minutes, 0.0)
    return WalkPlan(keys=keys, minutes=minutes, start=0)
