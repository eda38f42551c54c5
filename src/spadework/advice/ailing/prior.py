"""How likely each trouble is before anybody has looked: host, age, season, circumstances."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from math import prod
from typing import Final

from spadework.advice.circumstances import HAD, Here, age_weight, season_weight, times
from spadework.crops.trouble import Trouble
from spadework.crops.troubles import hosted_by

OTHER: Final = ""
"""Stands for something not in the list."""

OTHER_SHARE: Final = 0.06
"""Share of ailing plantings whose cause no sheet tells, before anything is known of place and season: the
sheets hold what is common. Our own rule, tuned on the open cases."""

FAVOUR_TRUST: Final = 0.8
"""Circumstances overlap (hot days, dry spell, short of water), so each counts for a little less than alone.
Our own rule, tuned on the open cases."""

LEAST_TOGETHER: Final = 0.1
"""Circumstances that are missing lower a trouble no further than this, all together. Our own rule."""


@dataclass(frozen=True, kw_only=True)
class Prior:
    """One trouble before the signs.

    Parameters
    ----------
    trouble : Trouble
    weight : float
        Not yet a share.
    """

    trouble: Trouble
    weight: float


def priors(here: Here, troubles: Iterable[Trouble]) -> tuple[Prior, ...]:
    """The troubles that can be here, each with its weight; those that do not harm the crop are left out."""
    found = []
    for each in troubles:
        host = hosted_by(each, here.crop, here.family)
        if host <= 0.0:
            continue
        weight = host * each.usual.value * age_weight(each, here.age) * season_weight(each, here)
        factors = [times(favour, here, each.key) ** FAVOUR_TRUST for favour in each.favours]
        more = prod(factor for factor in factors if factor > 1.0)
        weight *= more * max(prod(factor for factor in factors if factor <= 1.0), LEAST_TOGETHER)
        if each.key in here.had and all(favour.when != "trouble here before" for favour in each.favours):
            weight *= HAD
        found.append(Prior(trouble=each, weight=weight))
    return tuple(found)


def other_weight(here: Here, troubles: Iterable[Trouble]) -> float:
    """Weight of something not in the list: a share of what usually ails the crop, whatever holds here now."""
    usual = sum(
        hosted_by(each, here.crop, here.family) * each.usual.value
        for each in troubles
        if each.key not in here.away
    )
    return max(usual, 0.05) * OTHER_SHARE


def shares(here: Here, troubles: Iterable[Trouble]) -> Mapping[str, float]:
    """Share of each trouble by key before the signs, something else under `OTHER`; they sum to 1."""
    listed = tuple(troubles)
    weights = {each.trouble.key: each.weight for each in priors(here, listed)}
    weights[OTHER] = other_weight(here, listed)
    total = sum(weights.values())
    return {key: weight / total for key, weight in weights.items()}
