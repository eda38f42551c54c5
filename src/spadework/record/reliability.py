"""Whether chances hold: of all the times three in ten was said, how often it came true."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from spadework.types import Floats

EDGES = (0.0, 0.05, 0.2, 0.4, 0.6, 0.8, 0.95, 1.0)
"""Where one group of chances ends and the next begins."""


@dataclass(frozen=True)
class Group:
    """Chances said that lie close together, and what came of them.

    Parameters
    ----------
    low, high : float
        The chances lie from `low` up to `high`.
    weight : float
        How many cases, or their weight.
    said : float
        Mean chance said; NaN where there was none.
    seen : float
        Share that came true; NaN where there was none.
    """

    low: float
    high: float
    weight: float
    said: float
    seen: float


def reliability(
    chances: Floats, outcomes: Floats, weights: Floats | None = None, edges: Sequence[float] = EDGES
) -> list[Group]:
    """Chances said beside what was seen, in groups of like chances.

    Parameters
    ----------
    chances : array
        Said beforehand, 0 to 1.
    outcomes : array of the same shape
        1 where it came true, 0 where not, or the share of like cases in which it did.
    weights : array of the same shape, or None
        How much each case counts.
    edges : sequence of float
        From 0 to 1, rising. A chance on an edge belongs to the group above it, 1 to the last.
    """
    said, seen = np.ravel(chances), np.ravel(outcomes)
    count = np.ones(said.size) if weights is None else np.ravel(weights)
    group = np.clip(np.searchsorted(np.asarray(edges), said, side="right") - 1, 0, len(edges) - 2)
    found = []
    for at, (low, high) in enumerate(pairwise(edges)):
        chosen = group == at
        weight = float(count[chosen].sum())
        found.append(
            Group(
                low,
                high,
                weight,
                float((count * said)[chosen].sum() / weight) if weight else float("nan"),
                float((count * seen)[chosen].sum() / weight) if weight else float("nan"),
            )
        )
    return found


def largest_miss(groups: Sequence[Group], least_share: float = 0.01) -> float:
    """Largest difference between said and seen, over groups that hold at least a share of all cases."""
    total = sum(group.weight for group in groups)
    return max(abs(g.said - g.seen) for g in groups if g.weight and g.weight >= least_share * total)
