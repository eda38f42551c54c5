"""Yield and density beside fits to published trials, grades, thinning and leaf cover."""

from __future__ import annotations

import numpy as np
import pytest

from spadework.errors import ParameterError
from spadework.science import crowding

# White Imperial Spanish onion at two sites of South Australia (Ratkowsky 1983): least squares on logarithms
# of 42 plots each; the yields are the fits' own, to the digits given.
ONION = {
    "Purnong Landing": (
        0.00188257,
        9.15921e-5,
        {25: 5.99, 40: 7.21, 60: 8.13, 80: 8.69, 100: 9.06, 150: 9.6},
        531,
        10.92,
    ),
    "Virginia": (
        0.00180881,
        1.41971e-4,
        {25: 4.67, 40: 5.34, 60: 5.81, 80: 6.08, 100: 6.25, 150: 6.49},
        553,
        7.04,
    ),
}
# Turnip seed rates, 60 plots (Mead 1988): pounds an acre, fitted and observed pounds a plot.
TURNIP = (
    0.164742,
    0.0647653,
    {0.5: (2.54, 2.48), 2: (6.80, 7.08), 8: (11.72, 11.33), 20: (13.70, 14.21), 32: (14.30, 13.97)},
)


@pytest.mark.parametrize("site", sorted(ONION))
def test_onion_yield_by_density(site: str) -> None:
    alpha, beta, yields, alone, most = ONION[site]
    for density, printed in yields.items():
        assert crowding.yield_kg_m2(density, alpha, beta) == pytest.approx(printed, abs=0.006)
    assert crowding.plant_mass_g(0.0, alpha, beta) == pytest.approx(alone, abs=0.6)
    assert crowding.yield_kg_m2(1e7, alpha, beta) == pytest.approx(most, rel=0.002)


def test_turnip_yield_by_seed_rate() -> None:
    # the same form in other units: a plot's yield over the seed rate
    alpha, beta, yields = TURNIP
    for rate, (fitted, observed) in yields.items():
        found = 1000.0 * crowding.yield_kg_m2(rate, alpha, beta)
        assert found == pytest.approx(fitted, abs=0.006)
        assert found == pytest.approx(observed, rel=0.05)


def test_a_yield_that_falls_again_at_high_density() -> None:
    # an illustration with theta 0.9: alpha 0.0035, beta 9.05e-5
    density = np.array([50.0, 100.0, 200.0, 400.0])
    assert crowding.plant_mass_g(density, 0.0035, 9.05e-5, 0.9) == pytest.approx([213, 130, 71, 36], rel=0.01)
    assert crowding.yield_kg_m2(density, 0.0035, 9.05e-5, 0.9) == pytest.approx(
        [10.7, 13.0, 14.2, 14.4], abs=0.06
    )
    many = np.geomspace(10.0, 1e5, 400)
    best = many[np.argmax(crowding.yield_kg_m2(many, 0.0035, 9.05e-5, 0.9))]
    assert 10.0 < best < 1e5
    back = crowding.plants_for_mass_m2(
        crowding.plant_mass_g(density, 0.0035, 9.05e-5, 0.9), 0.0035, 9.05e-5, 0.9
    )
    assert back == pytest.approx(density)
    assert crowding.plants_for_mass_m2(1e6, 0.0035, 9.05e-5, 0.9) == 0.0


def test_grades_beside_drawn_plants() -> None:
    rng = np.random.default_rng(11)
    sd = np.sqrt(np.log1p(0.7**2))
    drawn = rng.lognormal(np.log(120.0) - sd**2 / 2.0, sd, 400_000)
    assert drawn.mean() == pytest.approx(120.0, rel=0.01)
    for low, high in ((0.0, 60.0), (60.0, 200.0), (200.0, np.inf)):
        share = crowding.share_in_grade(120.0, low, high, crowding.UNTHINNED_CV_SHARE)
        assert share == pytest.approx(np.mean((drawn >= low) & (drawn < high)), abs=0.004)
    thin, thick = (crowding.share_in_grade(120.0, 60.0, 200.0, cv) for cv in (0.4, 0.7))
    assert thin > thick


def test_late_thinning() -> None:
    assert crowding.late_thinning_share([-5.0, 0.0, 15.0, 45.0]) == pytest.approx(
        [0.0, 0.0, 0.632, 0.950], abs=0.001
    )
    assert crowding.late_thinning_share(7.0) > crowding.late_thinning_share(7.0, crowding.LEAF_THINNING_DAYS)


@pytest.mark.parametrize("standing", [10.0, 40.0, 120.0])
def test_clumps_beside_a_row_drawn_by_chance(standing: float) -> None:
    rng = np.random.default_rng(4)
    length = 3000.0
    last, counted = -1.0, 0
    for place in np.sort(rng.uniform(0.0, length, rng.poisson(standing * length))):
        if place - last >= 0.03:
            last, counted = place, counted + 1
    assert crowding.sound_plants_per_m(standing) == pytest.approx(counted / length, rel=0.02)


def test_three_in_a_clump_come_to_one() -> None:
    # 100 a metre stand a centimetre apart on average: one of those in 3 cm comes to something, then a gap
    assert crowding.sound_plants_per_m(100.0) == pytest.approx(25.0)


def test_leaves_close_over_the_soil() -> None:
    assert crowding.leaf_cover_share(20.0, 25.0) == pytest.approx(np.pi / 4.0)
    assert crowding.leaf_cover_share(30.0, 25.0) == 1.0
    assert crowding.leaf_cover_share(20.0, 25.0, scattered=True) == pytest.approx(1.0 - np.exp(-np.pi / 4.0))
    way = np.array([-0.1, 0.0, 0.25, 0.5, 1.0])
    assert crowding.spread_on_way_cm(way, 24.0) == pytest.approx([0.0, 0.0, 12.0, 24.0, 24.0])


def test_what_cannot_be_is_refused() -> None:
    for wrong in (
        lambda: crowding.plant_mass_g(-1.0, 0.1, 0.1),
        lambda: crowding.plants_for_mass_m2(0.0, 0.1, 0.1),
        lambda: crowding.share_in_grade(100.0, 50.0, 20.0),
        lambda: crowding.late_thinning_share(1.0, 0.0),
        lambda: crowding.sound_plants_per_m(-1.0),
        lambda: crowding.leaf_cover_share(-1.0, 1.0),
        lambda: crowding.spread_on_way_cm(0.5, 10.0, 0.0),
    ):
        with pytest.raises(ParameterError):
            wrong()
