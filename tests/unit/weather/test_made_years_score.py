"""How near made years come to the records: the figures docs/accuracy.md gives.

Bounds stand a little beyond what was measured, so that they fail when an answer gets worse.
"""

from __future__ import annotations

from datetime import date, timedelta

import numpy as np
import pytest

from ghcn_fixture import climate_series
from spadework.garden.told import FrostTable
from spadework.weather.frost_fit import fit_to_frost_table
from spadework.weather.made import MadeDays, made_days
from spadework.weather.normals import Normals, month_of, normals_of, told_normals
from spadework.weather.years import calendar_years

RECORD = {
    "champion": ((115.2, 129.0, 146.2), (257.6, 271.0, 283.2)),
    "norfolk": ((81.4, 102.0, 120.4), (301.2, 322.0, 347.2)),
    "brussels": ((69.1, 100.5, 122.6), (301.2, 317.5, 339.6)),
}
"""Day of the year of the last and first night at or below 0 C: early, middle, late tenth of the records."""

Quantiles = tuple[float, float, float]


def told(place: str) -> Normals:
    own = normals_of(climate_series(place), place)
    return told_normals(place, own.tmin_c, own.tmax_c, own.rain_mm)


def freezes(tmin_c: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """Quantiles of the last spring and first autumn freeze, day of the year."""
    frost = tmin_c <= 0
    spring = frost[:, :196]
    autumn = frost[:, 196:]
    last = 196 - spring[spring.any(axis=1)][:, ::-1].argmax(axis=1)
    first = 197 + autumn[autumn.any(axis=1)].argmax(axis=1)
    tenths = [0.1, 0.5, 0.9]
    return np.quantile(last, tenths, method="weibull"), np.quantile(first, tenths, method="weibull")


def spread(tmin_c: np.ndarray) -> np.ndarray:
    month = month_of(np.datetime64("2001-01-01", "D") + np.arange(365))
    about = tmin_c - tmin_c.mean(axis=0)
    return np.array([about[:, month == m].std() for m in range(12)])


@pytest.mark.parametrize("place", RECORD)
def test_the_records_own_quantiles(place: str) -> None:
    """What the others are compared with."""
    whole = calendar_years(climate_series(place), last=None)
    for found, wanted in zip(freezes(whole.tmin_c), RECORD[place], strict=True):
        assert found.round(1).tolist() == list(wanted)


@pytest.mark.parametrize(
    ("place", "spring_miss", "autumn_miss", "tmin_ratio", "tmax_ratio"),
    [
        ("champion", (4, 5, 9), (6, 6, 6), (0.88, 1.17), (0.6, 0.95)),
        ("norfolk", (4, 2, 5), (3, 4, 9), (1.0, 1.2), (1.0, 1.2)),
        ("brussels", (3, 13, 14), (3, 4, 3), (0.75, 0.95), (0.7, 0.95)),
    ],
)
def test_from_told_normals_alone(
    place: str,
    spring_miss: tuple[int, int, int],
    autumn_miss: tuple[int, int, int],
    tmin_ratio: tuple[float, float],
    tmax_ratio: tuple[float, float],
) -> None:
    whole = calendar_years(climate_series(place), last=None)
    made = made_days(told(place), 500, 1)
    for found, wanted, allowed in zip(
        freezes(made.tmin_c), RECORD[place], (spring_miss, autumn_miss), strict=True
    ):
        assert (np.abs(found - np.array(wanted)) <= np.array(allowed)).all(), (found, wanted)
    for ours, theirs, (low, high) in (
        (made.tmin_c, whole.tmin_c, tmin_ratio),
        (made.tmax_c, whole.tmax_c, tmax_ratio),
    ):
        assert low < float(np.mean(spread(ours) / spread(theirs))) < high


def table(season: str, quantiles: tuple[float, float, float]) -> FrostTable:
    days = [date(2001, 1, 1) + timedelta(days=round(day) - 1) for day in quantiles]
    chances = (0.9, 0.5, 0.1) if season == "spring" else (0.1, 0.5, 0.9)
    return FrostTable(
        below_c=0.0,
        season="spring" if season == "spring" else "autumn",
        dates=tuple(zip(chances, days, strict=True)),
    )


def fitted(place: str, *tables: FrostTable) -> MadeDays:
    """Made years of another draw than the fit was tried on."""
    return made_days(fit_to_frost_table(told(place), tables), 500, 7)


@pytest.mark.parametrize(("place", "days"), [("champion", 2), ("norfolk", 3), ("brussels", 6)])
def test_made_years_meet_a_told_frost_table(place: str, days: int) -> None:
    spring, autumn = RECORD[place]
    made = fitted(place, table("spring", spring), table("autumn", autumn))
    for found, wanted in zip(freezes(made.tmin_c), RECORD[place], strict=True):
        assert np.abs(found - np.array(wanted)).max() <= days, (found, wanted)


def test_a_lone_date_moves_the_middle_and_a_spread_the_tails() -> None:
    median = date(2001, 5, 9)
    lone = fitted("champion", FrostTable(below_c=0.0, season="spring", median=median))
    assert freezes(lone.tmin_c)[0][1] == pytest.approx(129, abs=1.5)
    wide = fitted("champion", FrostTable(below_c=0.0, season="spring", median=median, spread_days=16.0))
    narrow = fitted("champion", FrostTable(below_c=0.0, season="spring", median=median, spread_days=8.0))
    reach = [float(np.ptp(freezes(made.tmin_c)[0])) for made in (wide, narrow)]
    assert reach[0] == pytest.approx(2 * 1.2816 * 16.0, abs=6)
    assert reach[1] == pytest.approx(2 * 1.2816 * 8.0, abs=6)


def test_a_southern_table_is_met() -> None:
    own = normals_of(climate_series("cordoba"), "cordoba")
    normals = told_normals("cordoba", own.tmin_c, own.tmax_c, own.rain_mm, south=True)
    day = date(2001, 9, 10)
    tables = [FrostTable(below_c=0.0, season="spring", dates=((0.5, day),))]
    made = made_days(fit_to_frost_table(normals, tables, south=True), 500, 7)
    rolled = np.roll(made.tmin_c, -181, axis=1)
    column = (day - date(2001, 7, 1)).days
    assert (rolled[:, column:196] <= 0).any(axis=1).mean() == pytest.approx(0.5, abs=0.06)
