"""What waiting costs: from each year's loss by day to a window and a forfeit."""

from __future__ import annotations

from datetime import date, timedelta

import numpy as np

from spadework.advice.job import AHEAD_DAYS, Window
from spadework.advice.odds import as_date, date_odds
from spadework.types import Bools, Floats

HALF = 0.5
"""A job closes when it can no longer save half of what it could. Our own rule."""

LEAST_LOSS = 0.005
"""Losses below this share of the worth close nothing. Our own rule."""

ANEW_COST = 0.1
"""Share of a crop that starting anew costs even where a full one can still be had: work, seed, weeks without.
Our own rule."""

_DAYS = np.arange(AHEAD_DAYS + 1)


def ahead(by_day: Floats, column: int) -> Floats:
    """Today's column and those after it of an array [year, day], the last repeated where the days end."""
    columns = np.minimum(column + _DAYS, by_day.shape[-1] - 1)
    found: Floats = by_day[:, columns]
    return found


def ramp(start: Floats | float, days: float, most: Floats | float) -> Floats:
    """Loss that begins so many days from today and rises evenly to `most` within `days`, [year, day].

    Parameters
    ----------
    start : array, shape (year,), or float  [d]
        Days from today; below zero where it began before.
    days : float  [d]
        Above zero.
    most : array, shape (year,), or float
        Share of the worth.
    """
    begun = (_DAYS[None, :] - np.atleast_1d(np.asarray(start, dtype=np.float64))[:, None]) / days
    return np.clip(begun, 0.0, 1.0) * np.atleast_1d(np.asarray(most, dtype=np.float64))[:, None]


def fading(start: Floats | float, scale_days: float, most: Floats | float) -> Floats:
    """Loss that begins so many days from today and nears `most` as 1 - exp(-days / scale), [year, day]."""
    begun = np.maximum(_DAYS[None, :] - np.atleast_1d(np.asarray(start, dtype=np.float64))[:, None], 0.0)
    return (1.0 - np.exp(-begun / scale_days)) * np.atleast_1d(np.asarray(most, dtype=np.float64))[:, None]


def net_of(lost: Floats, replacement: Floats) -> Floats:
    """Loss less what starting anew on that day would still bring, both [year, day] as shares of the worth."""
    return lost * (1.0 - np.clip(replacement, 0.0, 1.0 - ANEW_COST))


def or_start_anew(lost: Floats, replacement: Floats) -> Floats:
    """A loss of size, not of plants: never more than giving the planting up for a new one would cost.

    Parameters
    ----------
    lost : array, shape (year, day)
        Share of the worth lost, of plants that go on growing.
    replacement : array, shape (year, day)
        Share of a full crop still to be had by starting anew on that day.

    Notes
    -----
    Starting anew may bring more on a later day; what waiting lost by then is lost all the same.
    """
    return never_falling(np.minimum(lost, 1.0 - np.clip(replacement, 0.0, 1.0 - ANEW_COST)))


def never_falling(loss: Floats) -> Floats:
    """The same with every day at least what the days before it were: waiting never wins back what is lost."""
    found: Floats = np.maximum.accumulate(loss, axis=-1)
    return found


def lost_by_waiting(value: Floats) -> Floats:
    """What is lost by first doing it on a day: what the best day before would have brought more, [year, day].

    Parameters
    ----------
    value : array, shape (year, day)
        Share of the worth it brings when done on that day.

    Notes
    -----
    The best day is that of the years together, since nobody knows which year comes; what single years lose is
    scaled to that. Doing it too early costs too: before the best day nothing is lost by waiting.
    """
    mean = value.mean(axis=0)
    best = np.maximum.accumulate(mean)
    day = np.maximum.accumulate(np.where(mean >= best, np.arange(mean.size), 0))
    lost = np.maximum(value[:, day] - value, 0.0)
    whole = np.maximum.accumulate(best - mean)
    found: Floats = lost * (whole / np.maximum(lost.mean(axis=0), 1e-9))
    return found


def window_of(loss: Floats, may: Bools, today: date, made: Bools) -> Window:
    """The window of a job.

    Parameters
    ----------
    loss : array, shape (year, AHEAD_DAYS + 1)
        Share of the worth lost if first done on that day.
    may : array of bool, shape (year, AHEAD_DAYS + 1)
        Days on which it makes sense at all.
    today : date
    made : array of bool, shape (year,)
        Which years are made.

    Notes
    -----
    It opens on the first day it makes sense and closes on the last from which at least half of what is at
    stake within the days looked at is still saved, at the middle of the years.
    """
    dates = np.datetime64(today, "D") + _DAYS
    opened = np.maximum.accumulate(may, axis=-1)
    opens_odds = date_odds(opened.astype(np.float64), dates, made)
    opens = _first(opened, today)
    at_stake = loss[:, -1:] - loss[:, :1]
    gone = (loss - loss[:, :1] >= HALF * at_stake) & (at_stake > LEAST_LOSS)
    past = ~may & opened
    shut = np.maximum.accumulate(gone | past, axis=-1)
    shut_chance = shut.astype(np.float64)
    closes_odds = date_odds(shut_chance, dates, made)
    first_shut = int(np.argmax(shut_chance.mean(axis=0) >= 0.5))
    open_ended = bool(shut_chance.mean(axis=0)[-1] < 0.5)
    last = AHEAD_DAYS if open_ended else max(first_shut - 1, 0)
    closes = max(today + timedelta(days=last), opens)
    value = np.where(opened.mean(axis=0) >= HALF, loss.mean(axis=0), np.inf)
    best_day = int(np.argmin(value)) if np.isfinite(value).any() else (opens - today).days
    best = min(max(as_date(dates[min(best_day, AHEAD_DAYS)]), opens), closes)
    return Window(
        opens=opens,
        best=best,
        closes=closes,
        open_ended=open_ended,
        opens_odds=opens_odds,
        closes_odds=closes_odds,
    )


def always(today: date, *, since: date | None = None) -> Window:
    """A window the weather does not move, open since a day and for as long as is looked ahead."""
    return Window(
        opens=since or today, best=today, closes=today + timedelta(days=AHEAD_DAYS), open_ended=True
    )


def _first(opened: Bools, today: date) -> date:
    chance = opened.mean(axis=0)
    if chance[-1] < HALF:
        return today + timedelta(days=AHEAD_DAYS)
    return today + timedelta(days=int(np.argmax(chance >= HALF)))
