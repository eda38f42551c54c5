"""How answers are built: odds over years, dates with spread, facts with receipts."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

import msgspec
import numpy as np

from spadework.types import Bools, Days, Floats


class Odds(msgspec.Struct, frozen=True):
    """A chance spoken as years.

    Parameters
    ----------
    chance : float
        0 to 1: the mean over the years of each year's own chance.
    years_yes : int
        The chance times the years, rounded: "in 24 of 30 years".
    years : int
        How many years were run.
    made_years : int
        How many of them were made, not measured.
    """

    chance: float
    years_yes: int
    years: int
    made_years: int


class DateOdds(msgspec.Struct, frozen=True):
    """When something happens, over the years.

    Parameters
    ----------
    q10, q50, q90 : date or None
        Days by which it has happened with 10, 50 and 90 % chance; None where that chance is never reached,
        or was reached before the first day looked at.
    never : float
        Share of chance left at the end of the days looked at.
    years, made_years : int
        As for `Odds`.
    """

    q10: date | None
    q50: date | None
    q90: date | None
    never: float
    years: int
    made_years: int


class Fact(msgspec.Struct, frozen=True, kw_only=True):
    """One thing a reason rests on: a value, and which law, entry or source it comes from."""

    name: str
    value: float | str | None
    unit: str = ""
    law: str = ""
    source: str = ""


class Caution(msgspec.Struct, frozen=True):
    """A usual caution where work can hurt someone."""

    text: str
    source: str = ""


def odds_of(chance_by_year: Floats, made: Bools) -> Odds:
    """Odds from each year's own chance.

    Parameters
    ----------
    chance_by_year : array, shape (year,)
        0 to 1.
    made : array of bool, shape (year,)
        Which years are made.
    """
    chance = float(np.clip(np.mean(chance_by_year), 0.0, 1.0))
    years = int(chance_by_year.size)
    return Odds(
        chance=round(chance, 4),
        years_yes=int(np.floor(chance * years + 0.5)),
        years=years,
        made_years=int(np.count_nonzero(made)),
    )


def date_odds(chance_by_day: Floats, dates: Days, made: Bools) -> DateOdds:
    """Dates with spread from the chance to have happened by each day.

    Parameters
    ----------
    chance_by_day : array, shape (year, day)
        Never falling along the days.
    dates : array of datetime64[D], shape (day,)
        Date of each column.
    made : array of bool, shape (year,)

    Notes
    -----
    The years' chances are pooled; the positions are widened as Weibull's plotting positions are,
    (n + 1) p - 1/2 of n, since past years never show the whole spread (measured on long records).
    """
    years = chance_by_day.shape[0]
    pooled = chance_by_day.mean(axis=0)
    return DateOdds(
        q10=_day_at(pooled, dates, _position(0.1, years)),
        q50=_day_at(pooled, dates, 0.5),
        q90=_day_at(pooled, dates, _position(0.9, years)),
        never=round(float(np.clip(1.0 - pooled[-1], 0.0, 1.0)), 4),
        years=years,
        made_years=int(np.count_nonzero(made)),
    )


def _position(chance: float, years: int) -> float:
    return float(np.clip(((years + 1) * chance - 0.5) / years, 0.02, 0.98))


def _day_at(pooled: Floats, dates: Days, level: float) -> date | None:
    if pooled[-1] < level or pooled[0] >= level:
        return None
    return as_date(dates[int(np.argmax(pooled >= level))])


def as_date(day: np.datetime64) -> date:
    """A calendar date from a datetime64[D]."""
    found = day.astype("datetime64[D]").item()
    assert isinstance(found, date)
    return found


def joined(notes: Sequence[str]) -> str:
    """Notes in one text, without empty ones and without saying a thing twice."""
    return " ".join(dict.fromkeys(note for note in notes if note))
