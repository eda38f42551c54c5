"""Cloves set in autumn: when the soil has cooled enough, and how long they still root before it freezes."""

from __future__ import annotations

from datetime import date

import msgspec
import numpy as np

from spadework.advice.odds import DateOdds, date_odds
from spadework.clock.ground import Ground
from spadework.crops.sheet import Sheet
from spadework.types import Floats

COOL_ENOUGH_C = 13.0
"""Seven-day soil mean below which cloves root without rushing into leaf [degC]. Source: common-practice."""

FROZEN_C = 1.0
"""Seven-day soil mean at which roots stop [degC]. Source: common-practice."""

ROOTING_DAYS = 28
"""Days that cloves want in the ground before it freezes [d]. Source: common-practice (four to six weeks)."""

WEEK = 7


class AutumnWindow(msgspec.Struct, frozen=True, kw_only=True):
    """When to set cloves by falling soil warmth.

    Parameters
    ----------
    opens : DateOdds
        First day on which the week's soil mean is below `below_c`.
    closes : DateOdds
        Last day that leaves them time to root; never, where the soil does not freeze.
    """

    below_c: float
    opens: DateOdds
    closes: DateOdds


def is_set_in_autumn(sheet: Sheet) -> bool:
    """Whether the crop is grown from cloves, which stand over winter."""
    return "cloves" in sheet.propagation


def autumn_window(sheet: Sheet, ground: Ground, first: int) -> AutumnWindow | None:
    """Window for setting cloves from a day on; None for other crops, and where the soil is not cooling.

    Parameters
    ----------
    sheet : Sheet
    ground : Ground
    first : int
        Column of the first day asked about.
    """
    if not is_set_in_autumn(sheet):
        return None
    ahead = ground.soil_mean_c[:, first : first + 60].mean(axis=0)
    if float(ahead[-WEEK:].mean()) >= float(ahead[:WEEK].mean()):
        return None
    week = _trailing_mean(ground.soil_mean_c)[:, first : first + 180]
    dates, made = ground.dates[first : first + 180], ground.years.made
    frozen = np.maximum.accumulate(week <= FROZEN_C, axis=1)
    too_late = np.zeros_like(frozen)
    too_late[:, :-ROOTING_DAYS] = frozen[:, ROOTING_DAYS:]
    too_late[:, -ROOTING_DAYS:] = frozen[:, -1:]
    cool = np.maximum.accumulate(week < COOL_ENOUGH_C, axis=1)
    return AutumnWindow(
        below_c=COOL_ENOUGH_C,
        opens=date_odds(cool.astype(np.float64), dates, made),
        closes=date_odds(too_late.astype(np.float64), dates, made),
    )


def _trailing_mean(values: Floats) -> Floats:
    """Mean of the week up to each day, [year, day]; the first days take what there is."""
    running = np.cumsum(values, axis=1)
    found = running.copy()
    found[:, WEEK:] -= running[:, :-WEEK]
    found /= np.minimum(np.arange(1, values.shape[1] + 1), WEEK)
    return found


def open_day(window: AutumnWindow, today: date) -> date:
    """Middle of the years: day from which to set them; today where the soil is cool already."""
    return window.opens.q50 or today
