"""What counts as a full stand, and the odds of one."""

from __future__ import annotations

import numpy as np

from spadework.clock.normal import log_normal_share
from spadework.clock.sprout import Sprout, able_share
from spadework.crops.sheet import Sheet
from spadework.science.counts import FAIL_SHARE, FAILED_BETA, PRIOR_STRENGTH
from spadework.types import Floats

FULL_SHARE = 0.6
"""A stand is full at this share of what the seed gives in good soil. common-practice: above it gaps close."""

UP_WITHIN_DAYS = 42
"""And when half of it is up within this many days: seed that lies longer is mostly lost to weeds, crust and
animals. Source: common-practice."""

SLEEPING_PARTS_DAYS = {"tubers": 70, "cloves": 300, "sets": 300, "crowns": 300}
"""The same for parts that lie safely for longer; cloves and sets of autumn often show only in spring."""


def full_stand_chance(sheet: Sheet, sprout: Sprout, sow_day: int, germination: float | None) -> Floats:
    """Chance of a full stand from one sowing, [year].

    Parameters
    ----------
    sheet : Sheet
    sprout : Sprout
        The sowing run through the years.
    sow_day : int
        Column of sowing.
    germination : float or None
        Tested share of the lot.

    Notes
    -----
    The able share of a sowing varies round its mean as a beta, and some sowings simply fail (the
    beta's strength and the failing share are memory). Soil temperature moves the mean by the percent table.
    """
    from scipy.special import betainc

    wanted = FULL_SHARE * able_share(sheet, germination)
    mean = np.clip(sprout.able, 1e-3, 0.995)
    sound = 1.0 - betainc(mean * PRIOR_STRENGTH, (1.0 - mean) * PRIOR_STRENGTH, wanted)
    failed = 1.0 - betainc(*FAILED_BETA, wanted)
    enough = (1.0 - FAIL_SHARE) * sound + FAIL_SHARE * failed * (mean > 0.05)
    within = SLEEPING_PARTS_DAYS.get(sheet.propagation[0], UP_WITHIN_DAYS)
    last = min(sow_day + within, sprout.progress.shape[1] - 1)
    in_time = log_normal_share(sprout.progress[:, last], 1.0, sprout.tau)
    chance: Floats = enough * in_time
    return chance
