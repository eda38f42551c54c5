"""Frost dates of real places at Weibull positions."""

from __future__ import annotations

import numpy as np
import pytest

from long_records import by_year, clemson_tmin_c, climate
from spadework.science import frost

SPLIT = 196
PROBS = (0.1, 0.5, 0.9)


def _champion() -> np.ndarray:
    return by_year(climate("champion"), "tmin_c")


def test_champion_spring_and_autumn() -> None:
    minima = _champion()
    assert minima.shape == (37, 365)
    assert frost.complete_years(minima).all()
    last = frost.last_day_at_or_below(minima[:, :SPLIT], 0.0) + 1
    first = frost.first_day_at_or_below(minima[:, SPLIT:], 0.0) + SPLIT + 1
    assert frost.weibull_quantiles(last, PROBS) == pytest.approx([115.2, 129.0, 146.2], abs=0.05)
    assert frost.weibull_quantiles(first, PROBS) == pytest.approx([257.6, 271.0, 283.2], abs=0.05)


def test_champion_shares_by_date() -> None:
    last = frost.last_day_at_or_below(_champion()[:, :SPLIT], 0.0) + 1
    assert frost.share_on_or_after(last, [135, 120]) == pytest.approx([0.24, 0.81], abs=0.005)


def test_champion_interval_of_the_late_frost() -> None:
    last = frost.last_day_at_or_below(_champion()[:, :SPLIT], 0.0) + 1
    interval = frost.bootstrap_quantile_interval(last, 0.9, np.random.default_rng(0))
    # 16 May to 6 June is the interval of linear quantiles; at Weibull positions it lies about two days later.
    assert interval == pytest.approx((137.8, 158.8), abs=1.0)
    again = frost.bootstrap_quantile_interval(last, 0.9, np.random.default_rng(0))
    assert again == interval


def test_clemson_with_missing_days() -> None:
    minima = clemson_tmin_c()
    whole = frost.complete_years(minima)
    assert whole.sum() == 89
    last = frost.last_day_at_or_below(minima[whole][:, :SPLIT], 0.0) + 1
    assert frost.weibull_quantiles(last, PROBS) == pytest.approx([77.0, 95.0, 109.0], abs=0.3)
    assert frost.share_on_or_after(last, 105) == pytest.approx(0.16, abs=0.005)


def test_a_southern_year_runs_over_new_year() -> None:
    record = climate("cordoba")
    minima = by_year(record, "tmin_c")
    assert minima[:, :31].mean() > minima[:, 181:212].mean() + 13.0
    july_to_june = minima.reshape(-1)[181:-184].reshape(-1, 365)
    spring = frost.last_day_at_or_below(july_to_june[:, :183], 0.0)
    autumn = frost.first_day_at_or_below(july_to_june[:, 183:], 0.0) + 183
    early, late = frost.weibull_quantiles(spring, (0.1, 0.9))
    assert 20 < early < late < 110  # late July to mid-October
    assert frost.weibull_quantiles(autumn, 0.5) > 300  # May or later
