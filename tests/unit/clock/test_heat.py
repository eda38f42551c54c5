"""Heat that spoils: degrees above a limit, from a crop's own share of the way on."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest

from spadework.clock.fate import HEAT_LOG_SD, heat_loss
from spadework.clock.normal import log_normal_share
from spadework.crops.loader import all_sheets, load_sheet

WAY = np.linspace(0.0, 1.2, 60)[None, :]


@pytest.mark.parametrize("crop", [key for key, sheet in all_sheets().items() if sheet.heat.limit_c])
def test_hotter_days_never_spoil_less(crop: str) -> None:
    sheet = load_sheet(crop)
    assert sheet.heat.limit_c is not None
    limit = sheet.heat.limit_c.value
    losses = [heat_loss(sheet, np.full((1, 60), limit + excess), WAY) for excess in (-5.0, 0.0, 2.0, 10.0)]
    assert (losses[0] == 0).all()
    assert (losses[1] == 0).all()
    for cooler, hotter in pairwise(losses):
        assert (hotter >= cooler).all()
    assert losses[3][0, -1] > losses[2][0, -1]
    for loss in losses:
        assert (np.diff(loss) >= 0).all()


def test_heat_before_the_sheets_share_of_the_way_does_not_count() -> None:
    sheet = load_sheet("tomato")
    assert sheet.heat.limit_c is not None
    assert sheet.heat.from_share is not None
    early = np.where(sheet.heat.from_share.value > WAY, sheet.heat.limit_c.value + 8.0, 20.0)
    late = np.where(sheet.heat.from_share.value <= WAY, sheet.heat.limit_c.value + 8.0, 20.0)
    assert (heat_loss(sheet, early, WAY) == 0).all()
    assert heat_loss(sheet, late, WAY)[0, -1] > 0.9


def test_half_are_spoiled_at_the_dose() -> None:
    sheet = load_sheet("lettuce")
    assert sheet.heat.limit_c is not None
    assert sheet.heat.dose_cday is not None
    way = np.full((1, 11), 0.9)
    loss = heat_loss(
        sheet, np.full((1, 11), sheet.heat.limit_c.value + sheet.heat.dose_cday.value / 10.0), way
    )
    assert loss[0, 9] == pytest.approx(0.5, abs=0.002)
    assert loss[0, 4] == pytest.approx(
        float(log_normal_share(np.array([0.5]), 1.0, HEAT_LOG_SD)[0]), abs=0.002
    )


def test_nothing_is_spoiled_before_it_is_up() -> None:
    assert (heat_loss(load_sheet("spinach"), np.full((1, 20), 45.0), np.full((1, 20), -1.0)) == 0).all()
