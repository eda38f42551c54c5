"""Frost: survival against drawing the same nights one by one, and how many nodes are enough."""

from __future__ import annotations

from datetime import date

import numpy as np
import pytest

from grounds import champion_ground
from spadework.clock import fate
from spadework.clock.course import set_out, sow
from spadework.clock.sprout import Sowing
from spadework.crops.loader import all_sheets, load_sheet
from spadework.crops.sheet import Sheet
from spadework.science import frost

DRAWS = 20_000


def spreads(sheet: Sheet) -> tuple[float, float, float]:
    """Mean drop, season-long spread and night's spread [degC], written out anew from the model's words."""
    kill = sheet.frost.kill_c
    hardiness = 0.3
    if kill.low is not None and kill.high is not None:
        hardiness = max((kill.high - kill.low) / (2 * 1.645), 0.3)
    if sheet.frost.measured_at == "air":
        return 0.0, hardiness, 0.5
    return -2.05, float(np.sqrt(hardiness**2 + 1.28**2)), 1.55


def drawn_survival(sheet: Sheet, tmin_c: np.ndarray, way: np.ndarray, offset_c: float = 0.0) -> np.ndarray:
    """Share of drawn plants that live through every night, [day], of one year."""
    drop, season_sd, night_sd = spreads(sheet)
    rng = np.random.default_rng(20260501)
    season = rng.normal(0.0, season_sd, DRAWS)
    alive = np.ones(DRAWS, dtype=bool)
    shares = []
    for night, share in zip(tmin_c, way, strict=True):
        if share >= 0:
            kill = sheet.frost.young_kill_c if share < fate.YOUNG_UNTIL else sheet.frost.kill_c
            surface = night + drop + offset_c + season + rng.normal(0.0, night_sd, DRAWS)
            alive &= surface > kill.value
        shares.append(alive.mean())
    return np.array(shares)


@pytest.mark.parametrize("crop", ["tomato", "potato", "bush-bean", "cabbage", "kale", "leek", "arugula"])
def test_survival_is_that_of_nights_drawn_one_by_one(crop: str) -> None:
    sheet = load_sheet(crop)
    # falls through each crop's own killing temperature and on beyond it, so that all shares are met
    middle = sheet.frost.kill_c.value - spreads(sheet)[0]
    nights = middle + np.concatenate([np.linspace(9.0, -4.0, 30), np.linspace(3.0, -1.0, 20)])
    way = np.concatenate([np.full(5, -0.2), np.linspace(0.0, 1.0, 45)])
    alive, weights = fate.frost_survival(sheet, nights[None, :], way[None, :], site_nodes=99)
    found = np.tensordot(weights, alive, axes=1)[0]
    drawn = drawn_survival(sheet, nights, way)
    assert np.abs(found - drawn).max() < 0.015
    assert found[:5] == pytest.approx(1.0)
    assert drawn.min() < 0.2
    usual, weights = fate.frost_survival(sheet, nights[None, :], way[None, :])
    # one year alone; over the years the nodes' errors cancel (below)
    assert np.abs(np.tensordot(weights, usual, axes=1)[0] - drawn).max() < 0.08


def test_a_frost_hollow_and_a_wall_side_move_the_odds_as_drawn() -> None:
    sheet = load_sheet("potato")
    nights = np.linspace(6.0, 0.0, 20)
    way = np.full(20, 0.6)
    shares = []
    for offset_c in (-2.0, 0.0, 2.0):
        alive, weights = fate.frost_survival(
            sheet, nights[None, :], way[None, :], site_offset_c=offset_c, site_nodes=99
        )
        found = np.tensordot(weights, alive, axes=1)[0]
        assert np.abs(found - drawn_survival(sheet, nights, way, offset_c)).max() < 0.015
        shares.append(found[-1])
    assert shares[0] < shares[1] < shares[2]


def test_nights_far_above_the_killing_temperature_may_be_left_out() -> None:
    worst = 0.0
    for sheet in all_sheets().values():
        drop, season_sd, night_sd = spreads(sheet)
        edge = 4.0 * np.hypot(season_sd, night_sd)
        nights = np.full((1, 60), sheet.frost.kill_c.value - drop + edge + 1e-6)
        alive, weights = fate.frost_survival(sheet, nights, np.full((1, 60), 0.9), site_nodes=99)
        assert (alive == 1.0).all()
        within, weights = fate.frost_survival(sheet, nights - 2e-6, np.full((1, 60), 0.9), site_nodes=99)
        worst = max(worst, 1.0 - float(np.tensordot(weights, within, axes=1)[0, -1]))
    # what sixty such nights in a row would take
    assert 0.0 < worst < 0.003


@pytest.mark.slow
def test_few_nodes_give_the_seasons_odds_within_a_hundredth() -> None:
    ground = champion_ground(date(2018, 3, 1), 400)
    tmin_c = ground.years.tmin_c
    worst = 0.0
    for sheet in all_sheets().values():
        for day in (20, 60, 160):
            for course in (sow(sheet, ground, Sowing(day)), set_out(sheet, ground, day)):
                gain = np.diff(course.ready, axis=-1, prepend=0.0)
                picked = []
                for nodes in (None, 99):
                    alive, weights = fate.frost_survival(sheet, tmin_c, course.way, site_nodes=nodes)
                    picked.append((gain * np.tensordot(weights, alive, axes=1)).sum(axis=-1).mean())
                worst = max(worst, abs(picked[0] - picked[1]))
    assert 0.0 < worst < 0.01


def test_the_spreads_are_those_measured() -> None:
    assert (frost.SURFACE_OFFSET_C, frost.WITHIN_SITE_SD_C, frost.BETWEEN_SITES_SD_C) == (-2.05, 1.55, 1.28)
    assert fate.SHELTER_READING_SD_C == 0.5


def test_young_plants_die_at_their_own_temperature() -> None:
    sheet = load_sheet("carrot")
    assert sheet.frost.young_kill_c.value > sheet.frost.kill_c.value
    night = np.array([[-3.0]])
    young, old = (fate.frost_survival(sheet, night, np.array([[share]])) for share in (0.1, 0.6))
    assert np.tensordot(young[1], young[0], axes=1)[0, 0] < np.tensordot(old[1], old[0], axes=1)[0, 0]
