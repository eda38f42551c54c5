"""Running to seed: cold in youth, long days, and what stops either."""

from __future__ import annotations

import numpy as np
import pytest

from grounds import EVEN, soil_ground
from spadework.clock.bolting import bolted_share
from spadework.clock.course import sow
from spadework.clock.ground import Ground
from spadework.clock.sprout import Sowing
from spadework.crops.loader import all_sheets, load_sheet
from spadework.garden.site import Site

DAYS = 220


def air_ground(*air_c: float, first_day: str = "2021-04-01", site: Site = EVEN) -> Ground:
    """One row for each even air temperature."""
    return soil_ground(np.array(air_c) - 1.25, days=DAYS, half_range_c=3.0, first_day=first_day, site=site)


def share(crop: str, ground: Ground, leaves: float, way: float = 0.5) -> np.ndarray:
    """Bolted by the end, [year], of plants that have had so many leaves from the first day."""
    shape = ground.air_mean_c.shape
    found = bolted_share(
        load_sheet(crop),
        ground,
        np.full(shape, leaves),
        np.full(shape, way),
        np.zeros(shape[0], dtype=np.int64),
    )
    assert (np.diff(found, axis=-1) >= -1e-12).all()
    assert found.min() >= 0.0
    assert found.max() <= 1.0
    return found[:, -1]


@pytest.mark.parametrize("crop", ["carrot", "beet", "onion", "leek", "celery", "cabbage"])
def test_cold_bolts_old_plants_and_warmth_does_not(crop: str) -> None:
    cold, warm = share(crop, air_ground(7.0, 22.0), leaves=40.0)
    assert cold > 0.85
    assert warm < 0.05


@pytest.mark.parametrize("crop", ["carrot", "beet", "onion", "leek", "celery"])
def test_young_plants_do_not_feel_the_cold(crop: str) -> None:
    juvenile = load_sheet(crop).bolting.juvenile_leaves
    assert juvenile is not None
    assert share(crop, air_ground(7.0), leaves=juvenile.value - 0.1)[0] == 0.0


def test_carrot_bolts_by_the_published_doses() -> None:
    sheet = load_sheet("carrot")
    ground = soil_ground(6.5 - 1.25, days=DAYS, half_range_c=0.0)
    shape = ground.air_mean_c.shape
    found = bolted_share(
        sheet, ground, np.full(shape, 12.0), np.full(shape, 0.5), np.zeros(1, dtype=np.int64)
    )[0]
    # an even 6.5 C gives 7.5 degree days a day: 126 of them by day 17, 336 by day 45 (Atherton 1990)
    assert found[15] < 0.05 < found[19]
    assert found[46] == pytest.approx(0.9, abs=0.03)


@pytest.mark.parametrize(
    "crop", ["lettuce", "head-lettuce", "spinach", "radish", "arugula", "cilantro", "dill"]
)
def test_long_days_bolt_and_short_ones_hold_back(crop: str) -> None:
    june = share(crop, air_ground(18.0, first_day="2021-05-01"), leaves=5.0)[0]
    autumn = share(crop, air_ground(18.0, first_day="2021-09-15"), leaves=5.0)[0]
    assert june > autumn


@pytest.mark.parametrize("crop", ["lettuce", "spinach", "radish"])
def test_warm_long_days_bolt_sooner_than_cool_ones(crop: str) -> None:
    ground = air_ground(10.0, 15.0, 20.0, first_day="2021-05-01")
    shape = ground.air_mean_c.shape
    found = bolted_share(
        load_sheet(crop), ground, np.full(shape, 5.0), np.full(shape, 0.5), np.zeros(3, dtype=np.int64)
    )
    assert (np.diff(found.sum(axis=-1)) > 0).all()


def test_spinach_sown_for_autumn_stands_where_spring_spinach_bolts() -> None:
    sheet = load_sheet("spinach")
    spring = sow(sheet, air_ground(16.0, first_day="2021-05-01"), Sowing(0))
    autumn = sow(sheet, air_ground(16.0, first_day="2021-08-25"), Sowing(0))
    assert spring.bolted[0, -1] > 0.9
    on = int(np.argmax(autumn.ready[0] > 0.5))
    assert autumn.bolted[0, on] < 0.2


def test_the_southern_december_bolts_as_the_northern_june() -> None:
    south = Site("South", -50.0, 0.0, 0.0)
    north_june = share("lettuce", air_ground(18.0, first_day="2021-05-01"), leaves=5.0)[0]
    south_december = share("lettuce", air_ground(18.0, first_day="2021-11-01", site=south), leaves=5.0)[0]
    south_june = share("lettuce", air_ground(18.0, first_day="2021-03-15", site=south), leaves=5.0)[0]
    assert south_december == pytest.approx(north_june, abs=0.05)
    assert south_june < south_december


@pytest.mark.parametrize("crop", [key for key, sheet in all_sheets().items() if sheet.bolting.kind == "none"])
def test_crops_that_do_not_bolt_never_do(crop: str) -> None:
    assert (share(crop, air_ground(5.0, 25.0), leaves=10.0) == 0).all()
