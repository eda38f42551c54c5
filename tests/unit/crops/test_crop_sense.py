"""Common practice, no single source: what any grower would object to if the sheets got it wrong."""

from __future__ import annotations

import pytest

from spadework.crops import load_sheet
from spadework.science.emergence import EmergenceLaw, emergence_at
from spadework.science.response import over_daily_wave, trapezoid


def law(crop: str) -> EmergenceLaw:
    return load_sheet(crop).emergence.law()


def days_up(crop: str, soil_c: float) -> float | None:
    depth = float(load_sheet(crop).sowing.depth_mm)
    return emergence_at(soil_c, law(crop), depth).median_days


def percent(crop: str, soil_c: float) -> float:
    return emergence_at(soil_c, law(crop)).normal_pct


def days_growing(crop: str, requirement: float, mean_c: float) -> float:
    """Days to ready at a steady mean with days and nights 6 C either side."""
    development = load_sheet(crop).development
    cardinals = [
        float(value)
        for value in (
            development.base_c,
            development.optimum_c,
            development.shoulder_c,
            development.ceiling_c,
        )
    ]
    rate = float(over_daily_wave(lambda temp: trapezoid(temp, *cardinals), mean_c, 6.0))
    return requirement / rate


@pytest.mark.parametrize(
    ("crop", "air_c", "soil_c", "least", "most"),
    [
        ("carrot", 17, 12, 75, 95),
        ("radish", 17, 14, 25, 35),
        ("beet", 17, 14, 55, 80),
        ("lettuce", 17, 14, 42, 65),
        ("spinach", 17, 14, 38, 52),
        ("pea", 17, 13, 60, 80),
        ("bush-bean", 21, 20, 50, 60),
        ("sweet-corn", 21, 20, 70, 90),
        ("parsnip", 17, 13, 110, 135),
        ("leek", 18, 14, 110, 150),
        ("onion", 18, 14, 100, 140),
        ("cucumber", 22, 21, 50, 70),
        ("summer-squash", 21, 20, 45, 62),
        ("potato", 17, 12, 60, 90),
        ("turnip", 17, 14, 42, 62),
        ("mustard-greens", 17, 14, 30, 48),
        ("endive", 17, 15, 70, 100),
        ("zinnia", 22, 20, 58, 78),
        ("calendula", 17, 14, 48, 64),
        ("nasturtium", 18, 17, 48, 68),
        ("sunflower", 21, 18, 55, 90),
    ],
)
def test_ready_after_sowing(crop: str, air_c: float, soil_c: float, least: float, most: float) -> None:
    sheet = load_sheet(crop)
    up = days_up(crop, soil_c)
    assert up is not None
    total = up + days_growing(crop, float(sheet.development.ready_days), air_c)
    assert least <= total <= most


@pytest.mark.parametrize(
    ("crop", "air_c", "least", "most"),
    [
        ("tomato", 22, 65, 80),
        ("pepper", 22.5, 65, 85),
        ("eggplant", 23, 70, 90),
        ("broccoli", 17, 50, 75),
        ("cabbage", 17, 65, 100),
        ("celery", 17, 90, 120),
        ("head-lettuce", 17, 45, 70),
        ("melon", 22, 60, 85),
        ("sweet-potato", 23.5, 85, 125),
        ("tomatillo", 22, 65, 90),
        ("artichoke", 17, 80, 105),
        ("napa-cabbage", 17, 42, 65),
        ("snapdragon", 17, 58, 82),
        ("marigold", 21, 30, 46),
    ],
)
def test_ready_after_setting_out(crop: str, air_c: float, least: float, most: float) -> None:
    sheet = load_sheet(crop)
    assert sheet.development.set_out_days is not None
    assert sheet.chill.set_out_check_days is not None
    days = days_growing(crop, float(sheet.development.set_out_days), air_c)
    assert least <= days + float(sheet.chill.set_out_check_days) <= most


def test_parsnip_comes_poorly_from_warm_soil() -> None:
    assert percent("parsnip", 30) < 0.75 * percent("parsnip", 15)
    assert percent("parsnip", 33) < 20


def test_carrot_takes_weeks_in_cold_soil() -> None:
    cold, mild = days_up("carrot", 6), days_up("carrot", 18)
    assert cold is not None
    assert mild is not None
    assert cold > 28
    assert mild < 12


@pytest.mark.parametrize("crop", ["bush-bean", "pole-bean", "lima-bean", "melon", "cucumber", "sweet-corn"])
def test_warm_seed_rots_in_cold_wet_soil(crop: str) -> None:
    rot = load_sheet(crop).emergence.rot_c
    assert rot is not None
    assert 8 <= float(rot) <= 17


def test_beans_fail_in_cold_soil() -> None:
    assert days_up("bush-bean", 9) is None
    assert load_sheet("carrot").emergence.rot_c is None


@pytest.mark.parametrize(("crop", "soil_c"), [("lettuce", 31), ("spinach", 30), ("celery", 30)])
def test_salads_fail_in_hot_soil(crop: str, soil_c: float) -> None:
    assert percent(crop, soil_c) < 0.4 * percent(crop, 15)


def test_hardiness_follows_the_garden_year() -> None:
    kill = {
        key: float(load_sheet(key).frost.kill_c) for key in ("tomato", "potato", "lettuce", "carrot", "kale")
    }
    assert kill["tomato"] > -2
    # potato shoots are cut at -2 C, but what counts is the cold that takes the planting: they shoot again
    assert kill["tomato"] > kill["potato"] > kill["lettuce"] > kill["carrot"] > kill["kale"]


def test_carrot_bolting_is_as_published() -> None:
    bolting = load_sheet("carrot").bolting
    assert bolting.kind == "cold"
    published = (bolting.base_c, bolting.optimum_c, bolting.ceiling_c, bolting.first_cday, bolting.most_cday)
    assert [value.value for value in published if value is not None] == [-1.0, 6.5, 16.0, 126.0, 336.0]
    assert all(value is not None and value.source == "ATHERTON1990" for value in published)


def test_usual_cautions_are_there() -> None:
    assert any("blister" in caution.text for caution in load_sheet("parsnip").cautions)
    assert any("green" in caution.text for caution in load_sheet("potato").cautions)
    assert any("G6PD" in caution.text for caution in load_sheet("fava-bean").cautions)
    assert any("leaves are poisonous" in caution.text for caution in load_sheet("rhubarb").cautions)
    assert any("berries are poisonous" in caution.text for caution in load_sheet("asparagus").cautions)
    for crop in ("bush-bean", "pole-bean", "runner-bean", "lima-bean"):
        assert any("boil" in caution.text for caution in load_sheet(crop).cautions)


def test_bulbs_that_winter_wait_for_long_days() -> None:
    for name in ("garlic", "autumn onion sets"):
        sheet = load_sheet(name)
        assert sheet.development.day_response == "long"
        assert float(sheet.development.critical_h or 0) >= 11
        assert float(sheet.frost.young_kill_c) <= -14


def test_heat_takes_salads_before_roots_and_fruit() -> None:
    def spared(crop: str) -> float:
        """Degrees over the limit in ten days of 34 C, as a share of what spoils the crop."""
        heat = load_sheet(crop).heat
        assert heat.limit_c is not None
        assert heat.dose_cday is not None
        return 10 * (34 - float(heat.limit_c)) / float(heat.dose_cday)

    salads = [spared(crop) for crop in ("spinach", "lettuce", "arugula", "radish", "pea")]
    others = [spared(crop) for crop in ("carrot", "beet", "onion", "potato", "sweet-corn", "pepper", "melon")]
    assert min(salads) > 1.5 * max(others)
