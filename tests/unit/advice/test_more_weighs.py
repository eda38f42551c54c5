"""What still fits, planting out, ways of sowing in hot soil, cloves by falling warmth."""

from __future__ import annotations

from datetime import date

import numpy as np
import pytest

from grounds import champion_ground, soil_ground
from spadework.advice.autumn import autumn_window
from spadework.advice.last_day import last_day_at
from spadework.advice.sow_ways import sow_ways
from spadework.advice.weigh_fits import Place, chance_on, weigh_fits
from spadework.advice.weigh_plant_out import weigh_plant_out
from spadework.clock.cover import FLEECE, under_cover
from spadework.clock.ground import Ground
from spadework.clock.sprout import Sowing, sprout
from spadework.crops.loader import load_sheet

JULY = date(2018, 7, 1)
COLUMN = 45


def july_place(accepted: float = 0.6, clear_by: int | None = None) -> Place:
    ground = champion_ground(date(2018, 5, 17), 540, date(2018, 5, 17))
    return Place(ground=ground, on=COLUMN, clear_by=clear_by, accepted=accepted, watered=True)


@pytest.mark.parametrize(("true_until", "found"), [(100, 100), (57, 57), (3, 3), (181, 180)])
def test_the_last_day_is_the_last(true_until: int, found: int) -> None:
    assert last_day_at(lambda day: float(day <= true_until), 0, 180, 0.5, 28) == min(found, 180)


def test_no_day_is_said_where_none_is_good() -> None:
    assert last_day_at(lambda _: 0.4, 0, 180, 0.5) is None


def test_what_fits_is_good_on_its_last_day_and_not_a_week_later() -> None:
    place = july_place()
    sheets = [(crop, load_sheet(crop)) for crop in ("bush-bean", "kale", "summer-squash", "parsnip")]
    found = weigh_fits(place, sheets, today=JULY, assumptions=[], notes=[])
    assert found.crops
    for fit in found.crops:
        if fit.last_day is None:
            continue
        last = int((np.datetime64(fit.last_day, "D") - place.ground.years.first_day).astype(int))
        assert chance_on(load_sheet(fit.key), place, last)[1].mean() >= place.accepted
        assert chance_on(load_sheet(fit.key), place, last + 7)[1].mean() < place.accepted
    assert "parsnip" not in {fit.crop for fit in found.crops if fit.overall.chance >= 0.6}


def test_an_earlier_clearing_day_never_helps() -> None:
    bean = load_sheet("bush-bean")
    free = chance_on(bean, july_place(), COLUMN)[1]
    pressed = chance_on(bean, july_place(clear_by=COLUMN + 70), COLUMN)[1]
    assert (pressed <= free + 1e-12).all()
    assert pressed.mean() < free.mean()


def test_hardy_kale_outstands_the_first_frosts_and_beans_do_not() -> None:
    sheets = [(crop, load_sheet(crop)) for crop in ("kale", "bush-bean")]
    found = weigh_fits(july_place(0.3), sheets, today=JULY, assumptions=[], notes=[])
    stands = {fit.key: fit.stands_to for fit in found.crops}
    assert stands["kale"] is not None
    assert stands["bush-bean"] is not None
    assert stands["kale"] > stands["bush-bean"]


def test_tender_plants_are_held_in_early_may_and_go_in_june() -> None:
    tomato = load_sheet("tomato")
    ground = champion_ground(date(2018, 3, 20), 480, date(2018, 3, 20))
    early = int((np.datetime64("2018-05-01") - ground.years.first_day).astype(int))
    found = weigh_plant_out(
        tomato,
        ground,
        [early + step for step in (0, 7, 14, 28)],
        crop="tomato",
        today=date(2018, 5, 1),
        accepted=0.5,
        site_offset_c=0.0,
        assumptions=[],
        notes=[],
    )
    assert found.verdict == "hold"
    by_act = {(option.act, option.day): option for option in found.options}
    now, covered = (by_act[act, date(2018, 5, 1)] for act in ("go", "under cover"))
    assert covered.killed_young.chance < now.killed_young.chance
    later = [option.killed_young.chance for option in found.options if option.act != "under cover"]
    assert later == sorted(later, reverse=True)


def test_where_frost_is_over_a_cover_is_said_to_gain_time_and_not_lives() -> None:
    tomato = load_sheet("tomato")
    ground = champion_ground(date(2018, 5, 1), 480, date(2018, 5, 1))
    start = int((np.datetime64("2018-07-01") - ground.years.first_day).astype(int))
    found = weigh_plant_out(
        tomato,
        ground,
        [start],
        crop="tomato",
        today=date(2018, 7, 1),
        accepted=0.01,
        site_offset_c=0.0,
        assumptions=[],
        notes=[],
    )
    assert all(option.killed_young.years_yes == 0 for option in found.options)
    assert found.verdict == "under cover"
    (best,) = (option for option in found.options if option.act == "under cover")
    assert "and no less often covered" in found.reason
    assert f"it gets there in {best.overall.years_yes} of {best.overall.years}" in found.reason


def test_a_cover_warms_its_days_and_no_others() -> None:
    ground = champion_ground(date(2018, 3, 20), 480, date(2018, 3, 20))
    covered = under_cover(ground, FLEECE, 40, 28)
    gain = covered.years.tmin_c - ground.years.tmin_c
    assert np.allclose(gain[:, 40:68], FLEECE.night_c)
    assert not gain[:, :40].any()
    assert not gain[:, 68:].any()
    assert (covered.years.tmax_c >= covered.years.tmin_c).all()


def hot() -> Ground:
    return soil_ground([29.0] * 4, half_range_c=8.0)


def test_in_hot_soil_evening_and_shade_help_lettuce() -> None:
    sheet, ground = load_sheet("lettuce"), champion_ground(date(2018, 6, 5), 400, date(2018, 6, 5))
    ways = sow_ways(sheet, ground, sprout(sheet, ground, Sowing(COLUMN)), COLUMN, 8.0, None)
    first = [way.first_hours_c for way in ways]
    stand = [way.full_stand.chance for way in ways]
    # the evening does most; damp soil swings less, so its night is hardly cooler
    assert min(first[0] - warmth for warmth in first[1:]) > 5.0
    assert first[-1] == min(first)
    assert min(stand[1:]) > 2.0 * stand[0]
    assert stand[-1] == max(stand)
    assert all(len(way.by_hour_c) == 36 for way in ways)


def test_only_large_seed_is_offered_deeper() -> None:
    ground = hot()
    for crop, deeper in (("lettuce", False), ("bush-bean", True)):
        sheet = load_sheet(crop)
        ways = sow_ways(sheet, ground, sprout(sheet, ground, Sowing(COLUMN)), COLUMN, 20.0, None)
        assert any(way.depth_mm > 20.0 for way in ways) is deeper


def test_cloves_go_in_as_the_soil_cools_and_before_it_freezes() -> None:
    falling = 24.0 - 0.2 * np.arange(300.0)
    ground = soil_ground(np.array([falling, falling - 1.0, falling + 1.0]), first_day="2021-08-01")
    found = autumn_window(load_sheet("garlic"), ground, 10)
    assert found is not None
    assert found.opens.q50 is not None
    assert found.closes.q50 is not None
    assert found.opens.q50 < found.closes.q50
    # cooling by a degree in five days: 13 degC is passed 55 days after 24, and 1 degC 115 days after
    assert abs((found.opens.q50 - date(2021, 8, 1)).days - 58) <= 12
    assert abs((found.closes.q50 - date(2021, 8, 1)).days - (118 - 28)) <= 12


def test_no_autumn_window_in_spring_or_for_seed() -> None:
    rising = soil_ground(np.array([4.0 + 0.1 * np.arange(300.0)]))
    assert autumn_window(load_sheet("garlic"), rising, 10) is None
    falling = soil_ground(np.array([24.0 - 0.2 * np.arange(300.0)]))
    assert autumn_window(load_sheet("carrot"), falling, 10) is None
