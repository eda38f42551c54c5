"""Degree-day totals of bulletins: the days they sum are warmed or cooled until the years give the same."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date
from typing import cast

import numpy as np

from spadework.clock.applied import Applied, AppliedFact
from spadework.garden.phrases import day_text, degrees_text
from spadework.garden.told import Told, WarmthTotal
from spadework.science.degree_days import Cutoff, Method, degree_days
from spadework.types import Bools, Floats
from spadework.weather.years import Years

MOST_SHIFT_C = 12.0
"""No bulletin is believed beyond this many degrees from a year. Source: common-practice."""

_STEPS = 30
_NEAR_CDAY = 0.5


@dataclass(frozen=True, eq=False)
class WarmthShift:
    """What one total asks of the years.

    Parameters
    ----------
    shift_c : array, shape (year,)  [degC]
        To be added to both extremes on the free days.
    before_cday, after_cday : array, shape (year,)  [degC day]
        Total of each year without and with it.
    free : array of bool, shape (day,)
        Days of the window that no earlier total had fixed, up to today.
    """

    shift_c: Floats
    before_cday: Floats
    after_cday: Floats
    free: Bools


def totals_by_year(years: Years, fact: WarmthTotal, shift_c: Floats | float, free: Bools) -> Floats:
    """Total of each year over the days of a bulletin, with some days shifted [year] [degC day]."""
    first, last = _column(years, fact.since), _column(years, fact.until)
    days = slice(first, last + 1)
    shift = np.where(free[days], np.asarray(shift_c).reshape(-1, 1), 0.0)
    low, high = years.tmin_c[:, days] + shift, years.tmax_c[:, days] + shift
    later = None
    if fact.method.startswith("double"):
        # the minimum after the last day may lie beyond the window; then the last day's own stands in
        tail = years.tmin_c[:, last + 1 : last + 2] if last + 1 < years.tmin_c.shape[1] else low[:, -1:]
        later = np.concatenate([low[:, 1:], tail], axis=1)
    cutoff: Cutoff = "none" if fact.upper_c is None else "horizontal"
    sums: Floats = degree_days(
        low, high, fact.base_c, fact.upper_c, cast(Method, fact.method), cutoff, later
    ).sum(axis=1)
    return sums


def shift_for(years: Years, fact: WarmthTotal, fixed: Bools) -> WarmthShift | None:
    """The constant that makes each year's days sum to a told total; None where no day is free.

    Parameters
    ----------
    years : Years
        Reaching from the total's first day to its last.
    fact : WarmthTotal
    fixed : array of bool, shape (day,)
        Days that another total has set already.
    """
    first, last = _column(years, fact.since), _column(years, fact.until)
    if first < 0 or last >= years.tmin_c.shape[1]:
        return None
    free = np.zeros(years.tmin_c.shape[1], dtype=np.bool_)
    free[first : last + 1] = ~fixed[first : last + 1]
    if not free.any():
        return None
    rows = years.tmin_c.shape[0]
    before = totals_by_year(years, fact, 0.0, free)
    low, high = np.full(rows, -MOST_SHIFT_C), np.full(rows, MOST_SHIFT_C)
    for _ in range(_STEPS):
        middle = (low + high) / 2.0
        short = totals_by_year(years, fact, middle, free) < fact.total_cday
        low, high = np.where(short, middle, low), np.where(short, high, middle)
    shift = np.where(np.abs(before - fact.total_cday) < 1e-9, 0.0, (low + high) / 2.0)
    return WarmthShift(shift, before, totals_by_year(years, fact, shift, free), free)


def with_warmth(years: Years, told: Sequence[Told], today: date) -> tuple[Years, tuple[Applied, ...]]:
    """Make the years' days up to today sum to the told totals.

    Notes
    -----
    Totals are taken in order of their last day: of a later one only the days since the one before are free.
    Both extremes move by one constant a year; days after today are left alone.
    """
    facts = [
        entry.fact
        for entry in told
        if isinstance(entry.fact, WarmthTotal) and entry.told_on <= today and entry.fact.until <= today
    ]
    applied = []
    fixed = np.zeros(years.tmin_c.shape[1], dtype=np.bool_)
    for fact in sorted(facts, key=lambda fact: (fact.until, fact.since)):
        found = shift_for(years, fact, fixed)
        if found is None:
            applied.append(
                Applied(f"{_told_text(fact)}; not used, since its days are set or not run.", "warmth")
            )
            continue
        moved = np.where(found.free, found.shift_c[:, None], 0.0)
        years = replace(years, tmin_c=years.tmin_c + moved, tmax_c=years.tmax_c + moved)
        fixed |= found.free
        applied.append(_applied(years, fact, found))
    return years, tuple(applied)


def _told_text(fact: WarmthTotal) -> str:
    top = "" if fact.upper_c is None else f" and below {fact.upper_c:g} °C"
    return (
        f"Told {fact.total_cday:.4g} degree-days above {fact.base_c:g} °C{top} from {day_text(fact.since)} "
        f"to {day_text(fact.until)}"
    )


def _applied(years: Years, fact: WarmthTotal, found: WarmthShift) -> Applied:
    before, shift = float(found.before_cday.mean()), float(found.shift_c.mean())
    seen = int(np.flatnonzero(found.free)[-1]) < years.seen_days
    whose = "the record gives" if seen else "the years give on average"
    text = f"{_told_text(fact)}; {whose} {before:.0f} degree-days: those days are taken {degrees_text(shift)}"
    missed = np.abs(found.after_cday - fact.total_cday) > _NEAR_CDAY
    if missed.any():
        text += f"; {int(missed.sum())} of {missed.size} years cannot come to it"
    return Applied(
        text + ".",
        "warmth",
        (
            AppliedFact(f"degree-days, {fact.method}", round(before, 1), "degC day"),
            AppliedFact("shift that gives the told total", round(shift, 3), "degC"),
        ),
    )


def _column(years: Years, day: date) -> int:
    return int((np.datetime64(day, "D") - years.first_day).astype(int))
