"""The coming night by those just seen: on invented nights, and against long records."""

from __future__ import annotations

import numpy as np
import pytest

from long_records import by_year, clemson_tmin_c, climate
from spadework.advice.next_night import PERSISTS, next_night_c


def _nights(seen_c: float) -> np.ndarray:
    nights = np.tile(np.linspace(-4.0, 4.0, 9)[:, None], (1, 20)) + 5.0
    nights[:, :5] = seen_c
    return nights


def test_a_mild_night_seen_makes_the_next_mild_and_narrows_its_spread() -> None:
    usual = next_night_c(_nights(5.0), 4, forecast=False)
    mild = next_night_c(_nights(12.0), 4, forecast=False)
    assert usual.mean() == pytest.approx(5.0)
    assert mild.mean() == pytest.approx(5.0 + PERSISTS * 7.0)
    assert mild.std() == pytest.approx(np.sqrt(1.0 - PERSISTS**2) * _nights(5.0)[:, 5].std())


def test_what_is_foretold_or_never_seen_is_left_alone() -> None:
    nights = _nights(12.0)
    assert next_night_c(nights, 4, forecast=True) is not None
    assert (next_night_c(nights, 4, forecast=True) == nights[:, 5]).all()
    assert (next_night_c(nights, 12, forecast=False) == nights[:, 13]).all()


def test_a_night_seen_two_days_ago_says_less() -> None:
    nights = _nights(12.0)
    assert next_night_c(nights, 5, forecast=False).mean() == pytest.approx(5.0 + PERSISTS**2 * 7.0)


@pytest.mark.parametrize("place", ["brussels", "champion", "clemson"])
def test_how_much_of_a_night_is_left_by_the_next_is_as_measured(place: str) -> None:
    """Long records: daily minima as departures from the month's usual, one night against the next."""
    whole = clemson_tmin_c() if place == "clemson" else by_year(climate(place), "tmin_c")
    usual = np.nanmean(whole, axis=0)
    usual = np.convolve(np.r_[usual[-15:], usual, usual[:15]], np.ones(31) / 31.0, "valid")
    one, other = (whole - usual)[:, :-1].ravel(), (whole - usual)[:, 1:].ravel()
    known = np.isfinite(one) & np.isfinite(other)
    assert 0.6 <= np.corrcoef(one[known], other[known])[0, 1] <= 0.8


@pytest.mark.parametrize(("place", "most"), [("brussels", 0.87), ("champion", 0.82)])
def test_its_odds_of_frost_in_spring_are_nearer_than_those_of_the_season(place: str, most: float) -> None:
    """Brier score of a minimum at or below 0 degC, April and May, each year foretold from all the others."""
    whole = by_year(climate(place), "tmin_c")
    usual, drawn, came = [], [], []
    for year in range(whole.shape[0]):
        others = np.delete(whole, year, axis=0)
        for day in range(90, 151):
            nights = others[:, day - 3 : day + 10].copy()
            nights[:, :4] = whole[year, day - 3 : day + 1]
            usual.append((nights[:, 4] <= 0.0).mean())
            drawn.append((next_night_c(nights, 3, forecast=False) <= 0.0).mean())
            came.append(float(whole[year, day + 1] <= 0.0))
    seen = np.array(came)
    score = [float(((np.array(odds) - seen) ** 2).mean()) for odds in (usual, drawn)]
    assert score[1] <= most * score[0]
