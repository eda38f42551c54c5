"""Chances spoken as years, and dates with their spread."""

from __future__ import annotations

from datetime import date

import numpy as np
import pytest

from spadework.advice.odds import date_odds, joined, odds_of
from spadework.science.frost import weibull_quantiles


def known(days: list[int], length: int = 60) -> np.ndarray:
    """Rows that have happened from a day on for certain; -1 never."""
    columns = np.arange(length)
    return np.array([(columns >= day) & (day >= 0) for day in days], dtype=np.float64)


DATES = np.arange("2026-05-01", "2026-06-30", dtype="datetime64[D]")


def made(years: int, count: int = 0) -> np.ndarray:
    return np.arange(years) < count


def test_a_chance_is_the_mean_and_its_years_are_rounded() -> None:
    found = odds_of(np.array([1.0, 1.0, 0.6, 0.0]), made(4, 1))
    assert (found.chance, found.years_yes, found.years, found.made_years) == (0.65, 3, 4, 1)


@pytest.mark.parametrize(("chance", "years_yes"), [(0.0, 0), (1.0, 30), (0.5, 15), (0.016, 0), (0.017, 1)])
def test_years_are_rounded_to_the_nearest(chance: float, years_yes: int) -> None:
    assert odds_of(np.full(30, chance), made(30)).years_yes == years_yes


def test_a_chance_never_leaves_its_bounds() -> None:
    assert odds_of(np.full(3, 1.0 + 1e-12), made(3)).chance == 1.0
    assert odds_of(np.full(3, -1e-12), made(3)).chance == 0.0


@pytest.mark.parametrize("years", [9, 19, 29, 37, 39])
def test_dates_stand_at_weibulls_positions(years: int) -> None:
    rng = np.random.default_rng(years)
    days = np.sort(rng.choice(np.arange(2, 58), size=years, replace=False))
    found = date_odds(known(list(days)), DATES, made(years))
    for day, chance in ((found.q10, 0.1), (found.q50, 0.5), (found.q90, 0.9)):
        assert day is not None
        place = (years + 1) * chance
        column = (day - date(2026, 5, 1)).days
        # the k-th of n stands at k/(n+1): at a whole k it is that year itself, else one of the two round it
        assert column in days[[int(np.floor(place)) - 1, int(np.ceil(place)) - 1]]
        if abs(place - round(place)) < 1e-9:
            assert column == weibull_quantiles(days.astype(float), [chance])[0]


def test_the_tails_are_wider_than_the_plain_shares() -> None:
    days = list(range(3, 40))
    found = date_odds(known(days), DATES, made(len(days)))
    pooled = known(days).mean(axis=0)
    assert found.q10 is not None
    assert found.q90 is not None
    assert (found.q10 - date(2026, 5, 1)).days <= int(np.argmax(pooled >= 0.1))
    assert (found.q90 - date(2026, 5, 1)).days >= int(np.argmax(pooled >= 0.9))


def test_what_never_happens_has_no_date_and_says_so() -> None:
    found = date_odds(known([-1, -1, -1]), DATES, made(3))
    assert (found.q10, found.q50, found.q90, found.never) == (None, None, None, 1.0)


def test_a_share_that_never_happens_is_an_outcome_of_its_own() -> None:
    found = date_odds(known([5, 6, 7, 8, 9, 10, -1, -1]), DATES, made(8, 8))
    assert found.never == 0.25
    assert found.q50 == date(2026, 5, 9)
    assert found.q90 is None
    assert found.made_years == 8


def test_what_had_happened_before_the_first_day_has_no_date() -> None:
    found = date_odds(known([0, 0, 0, 0, 12, 20]), DATES, made(6))
    assert found.q10 is None
    assert found.q50 is None
    assert found.q90 == date(2026, 5, 21)


def test_chances_within_a_year_are_pooled() -> None:
    half = np.vstack([np.linspace(0.0, 1.0, 60), np.linspace(0.0, 1.0, 60)])
    found = date_odds(half, DATES, made(2))
    assert found.q50 == date(2026, 5, 31)


def test_notes_are_joined_once_each() -> None:
    assert joined(["a", "", "b", "a"]) == "a b"
