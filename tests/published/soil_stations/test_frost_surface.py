"""How much colder than the shelter a surface gets under a spring or autumn sky."""

from __future__ import annotations

import numpy as np
import pandas as pd
import pytest

from measured_stations import uscrn
from spadework.science import frost


def _nights() -> pd.DataFrame:
    table = uscrn()
    spring, autumn = table["doy"].between(60, 181), table["doy"].between(244, 334)
    nights = table[(spring | autumn) & table["t_daily_min"].between(-4.0, 8.0)]
    return nights.dropna(subset=["sur_temp_daily_min", "t_daily_min"])


def test_offset_of_the_surface() -> None:
    nights = _nights()
    offset = (nights["sur_temp_daily_min"] - nights["t_daily_min"]).to_numpy()
    # The study behind the constants found -2.05 with a spread of 2.01 on 11,873 nights; this cut of it
    # gives -2.11 and 2.10.
    assert offset.size == 9_315
    assert offset.mean() == pytest.approx(frost.SURFACE_OFFSET_C, abs=0.06)
    assert offset.std() == pytest.approx(np.hypot(frost.WITHIN_SITE_SD_C, frost.BETWEEN_SITES_SD_C), abs=0.1)


@pytest.mark.parametrize(("low", "high", "kind"), [(0, 70, 60.0), (70, 90, 80.0), (90, 101, 95.0)])
def test_dry_nights_cool_more(low: int, high: int, kind: float) -> None:
    nights = _nights()
    chosen = nights[(nights["rh_daily_max"] >= low) & (nights["rh_daily_max"] < high)]
    seen = (chosen["sur_temp_daily_min"] - chosen["t_daily_min"]).mean()
    assert frost.plant_surface_offset(kind).mean_c == pytest.approx(seen, abs=0.1)


CLASSES = [(-1, 0), (0, 1), (1, 2), (2, 3), (3, 4), (4, 6), (6, 8)]


@pytest.mark.parametrize(
    ("threshold_c", "printed"),
    [
        (0.0, [0.94, 0.82, 0.59, 0.37, 0.26, 0.09, 0.02]),
        (-2.0, [0.54, 0.33, 0.20, 0.10, 0.06, 0.02, 0.01]),
    ],
)
def test_chances_by_shelter_minimum(threshold_c: float, printed: list[float]) -> None:
    nights = _nights()
    for (low, high), book in zip(CLASSES, printed, strict=True):
        chosen = nights[(nights["t_daily_min"] >= low) & (nights["t_daily_min"] < high)]
        seen = float((chosen["sur_temp_daily_min"] <= threshold_c).mean())
        model = float(frost.chance_surface_below(chosen["t_daily_min"].to_numpy(), threshold_c).mean())
        assert seen == pytest.approx(book, abs=0.05), (low, high)
        assert model == pytest.approx(seen, abs=0.075), (low, high)
