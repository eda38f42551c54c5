"""A bed's water: roots that grow, water given, the garden's gauge, a finger in the soil. Weather is made."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import numpy as np
import pytest

from garden_book import Pen
from grounds import EVEN, years_of
from spadework.clock.bed_ground import BedGround, CropWater, Grown, bed_ground, gauge_readings, mulch_kind
from spadework.clock.bed_water import beds_water, with_gauge
from spadework.clock.cover_kinds import cover_of, covers
from spadework.clock.finger import Felt
from spadework.clock.garden_water import crop_water, garden_water
from spadework.clock.ground import Ground
from spadework.crops.loader import load_sheet
from spadework.garden import entries as kinds
from spadework.garden.fold import fold
from spadework.science.root_soils import ROOT_SOILS

DAYS = 60


def dry_ground(rain_mm: np.ndarray | float = 0.0) -> Ground:
    return Ground(
        EVEN, years_of(np.full((3, DAYS), 10.0), np.full((3, DAYS), 24.0), rain_mm=rain_mm), "bare-moist"
    )


def way(up: int = 5, ready: int = 65) -> np.ndarray:
    return np.tile((np.arange(DAYS) - up) / (ready - up), (3, 1))


def test_roots_grow_from_the_seed_to_their_depth() -> None:
    bed = BedGround(grown=[Grown(way=way(), water=CropWater(roots_m=0.6))])
    found = beds_water(dry_ground(), {"one": bed})["one"]
    assert found.available_mm[0, 0] == pytest.approx(19.5)
    assert found.available_mm[0, 35] == pytest.approx(130.0 * 0.6)
    assert np.all(np.diff(found.available_mm[0]) >= 0.0)
    tub = BedGround(most_roots_m=0.3, grown=bed.grown)
    assert beds_water(dry_ground(), {"tub": tub})["tub"].available_mm.max() == pytest.approx(39.0)


def test_a_bed_alone_is_as_it_is_among_others() -> None:
    beds = {
        "sand": BedGround(soil=ROOT_SOILS["sand"], grown=[Grown(way=way())]),
        "bare": BedGround(),
        "mulched": BedGround(mulch="organic", grown=[Grown(way=way())]),
    }
    together = beds_water(dry_ground(), beds)
    for key, bed in beds.items():
        alone = beds_water(dry_ground(), {key: bed})[key]
        assert np.array_equal(alone.depletion_mm, together[key].depletion_mm)
    assert beds_water(dry_ground(), {}) == {}


def test_two_plantings_share_the_ground_by_their_area() -> None:
    crop = CropWater(roots_m=0.5)
    whole = beds_water(dry_ground(), {"a": BedGround(grown=[Grown(way=way(), water=crop)])})["a"]
    halves = beds_water(
        dry_ground(), {"a": BedGround(grown=[Grown(way=way(), water=crop, area_m2=0.5)] * 2)}
    )["a"]
    assert halves.depletion_mm == pytest.approx(whole.depletion_mm)


def test_rain_before_and_after_a_day_is_not_seen_outside_the_run() -> None:
    found = beds_water(dry_ground(), {"a": BedGround(grown=[Grown(way=way())])}, from_column=10, until=30)[
        "a"
    ]
    assert np.isnan(found.depletion_mm[:, [9, 31]]).all()
    assert not np.isnan(found.depletion_mm[:, 10:31]).any()
    assert found.days_until_short(20).shape == (3,)


def test_plants_go_short_and_water_puts_it_right() -> None:
    plain = BedGround(grown=[Grown(way=way())])
    dry = beds_water(dry_ground(), {"a": plain})["a"]
    first = int(dry.days_until_short(0)[0])
    assert 5 <= first < 40
    assert dry.short(first).all()
    given = np.zeros(DAYS)
    given[first] = dry.wanted_mm(first)
    wet = beds_water(dry_ground(), {"a": BedGround(grown=plain.grown, watering_mm=given)})["a"]
    assert not wet.short(first).any()
    assert wet.days_until_short(first)[0] > 1
    # the same water under a roof without rain, where the sun does less
    roofed = BedGround(grown=plain.grown, rain_share=0.0, et0_share=0.75)
    rained = beds_water(dry_ground(6.0), {"open": plain, "roof": roofed})
    assert rained["open"].depletion_mm[0, 40] < rained["roof"].depletion_mm[0, 40]


@pytest.mark.parametrize("finger", ["dry", "damp", "wet"])
def test_a_finger_is_believed_over_the_balance_and_the_difference_told(finger: str) -> None:
    felt = [Felt(column=25, finger=finger)]  # type: ignore[arg-type]  # one of the three
    bed = BedGround(grown=[Grown(way=way())], felt=felt)
    found = beds_water(dry_ground(), {"a": bed})["a"]
    (check,) = found.checks
    assert check.on == date(2021, 4, 26)
    assert check.believed == "finger"
    low, high = {"dry": (1.0, 99.0), "damp": (0.2, 1.0), "wet": (0.0, 0.2)}[finger]
    assert low * check.readily_mm - 1e-9 <= check.kept_mm <= high * check.readily_mm + 1e-9
    # the day's own use comes on top: from nothing to the most a crop draws (FAO 56: 1.25 times the reference)
    assert 0.0 <= found.depletion_mm[0, 25] - check.kept_mm <= 1.25 * dry_ground().et0_mm[0, 25]
    assert check.agrees == (check.balance == finger)
    if not check.agrees:
        assert f"{check.balance_mm:.0f} mm" in check.why
        assert f"{check.kept_mm:.0f} mm" in check.why


def test_fingers_that_disagree_on_one_day_are_both_shown_and_the_later_believed() -> None:
    felt = [Felt(column=25, finger="dry"), Felt(column=25, finger="wet")]
    both = beds_water(dry_ground(), {"a": BedGround(grown=[Grown(way=way())], felt=felt)})["a"]
    last = beds_water(dry_ground(), {"a": BedGround(grown=[Grown(way=way())], felt=felt[1:])})["a"]
    assert np.array_equal(both.depletion_mm, last.depletion_mm)
    first, second = both.checks
    assert (first.finger, first.believed) == ("dry", "later finger")
    assert first.why == "The finger said dry, and wet later that day; the later is believed."
    assert first.kept_mm == second.kept_mm
    assert second == last.checks[0]


def test_a_shallow_finger_speaks_of_the_surface_alone() -> None:
    felt = [Felt(column=25, finger="wet", depth_cm=2.0)]
    grown = [Grown(way=way())]
    with_it = beds_water(dry_ground(), {"a": BedGround(grown=grown, felt=felt)})["a"]
    without = beds_water(dry_ground(), {"a": BedGround(grown=grown)})["a"]
    assert np.array_equal(with_it.depletion_mm, without.depletion_mm)
    assert with_it.checks[0].believed == "balance"
    assert not with_it.checks[0].agrees
    assert "2 cm" in with_it.checks[0].why


def test_days_seen_are_run_once_with_the_same_result() -> None:
    rng = np.random.default_rng(6)
    rain = np.broadcast_to(rng.gamma(0.4, 6.0, DAYS), (3, DAYS)).copy()
    rain[:, 30:] = rng.gamma(0.4, 6.0, (3, DAYS - 30))
    ground = dry_ground(rain)
    felt = [Felt(column=20, finger="dry"), Felt(column=29, finger="damp"), Felt(column=30, finger="wet")]
    beds = {"a": BedGround(grown=[Grown(way=way())], felt=felt), "b": BedGround(mulch="film")}
    each = beds_water(ground, beds)
    seen = replace(ground, years=replace(ground.years, seen_days=30), _kept={})
    once = beds_water(seen, beds)
    for key in beds:
        for part in ("depletion_mm", "stress", "readily_mm", "available_mm"):
            assert np.array_equal(getattr(each[key], part), getattr(once[key], part)), part
        assert each[key].checks == once[key].checks
    assert len(once["a"].checks) == 3
    whole = beds_water(replace(ground, years=replace(ground.years, seen_days=DAYS), _kept={}), beds)
    assert np.array_equal(whole["a"].depletion_mm, each["a"].depletion_mm)


def test_the_gardens_own_gauge_comes_before_record_and_forecast() -> None:
    rain = np.array([[0.0, 4.0, 0.0, 12.0, 0.0], [0.0, 0.0, 0.0, 0.0, 7.0]])
    found = with_gauge(rain, [(3, 8.0, 3)])
    assert found[0] == pytest.approx([0.0, 2.0, 0.0, 6.0, 0.0])
    assert found[1] == pytest.approx([0.0, 8 / 3, 8 / 3, 8 / 3, 7.0])
    assert with_gauge(rain, [(3, 0.0, 3)])[0, 1:4].sum() == 0.0


def test_a_garden_bed_brings_its_soil_water_covers_and_fingers() -> None:
    pen = Pen(first=date(2021, 4, 1))
    pen(
        kinds.BedSet(name="Long bed", width_m=1.2, length_m=2.5, soil="sandy loam", mulch="straw"), bed="long"
    )
    pen(
        kinds.BedSet(name="Tub", shape="tub", width_m=0.4, length_m=0.4, depth_m=0.35, soil="moon"), bed="tub"
    )
    pen(kinds.KitSet(item="roll", sort="fleece", length_m=20.0, grade="17 g"))
    pen(kinds.Moved(act="on", item="roll", length_m=2.5), 10, bed="long")
    pen(kinds.Watered(litres=30.0), 12, bed="long")
    pen(kinds.Watered(), 13, bed="long")
    pen(kinds.SoilFelt(finger="damp"), 14, bed="long")
    pen(kinds.RainGauge(rain_mm=9.0, days=3), 15)
    garden = fold(pen.written)
    ground = dry_ground()
    long = bed_ground(garden, garden.beds["long"], ground, 20, [])
    assert long.soil is ROOT_SOILS["sandy loam"]
    assert long.mulch == "organic"
    assert np.asarray(long.watering_mm)[12] == pytest.approx(30.0 / 3.0 * 0.85)
    assert np.asarray(long.watering_mm).sum() == pytest.approx(8.5)
    assert np.asarray(long.et0_share)[[9, 10, 27, 28]] == pytest.approx([1.0, 0.8, 0.8, 1.0])
    assert [felt.column for felt in long.felt] == [14]
    assert any("not counted" in each for each in long.assumed)
    tub = bed_ground(garden, garden.beds["tub"], ground, 20, [])
    assert (tub.most_roots_m, tub.most_depletion_share) == (0.35, 0.3)
    assert any("loam" in each for each in tub.assumed)
    assert gauge_readings(garden, ground) == [(15, 9.0, 3)]


def test_every_bed_in_which_something_grows() -> None:
    pen = Pen(first=date(2021, 4, 1))
    pen(kinds.BedSet(name="One"), bed="one")
    pen(kinds.BedSet(name="Two"), bed="two")
    pen(kinds.RainGauge(rain_mm=20.0, days=1), 12)
    garden = fold(pen.written)
    grown = {"one": [Grown(way=way())], "two": [], "gone": [Grown(way=way())]}
    found = garden_water(garden, dry_ground(), 20, grown, ahead_days=10)
    assert set(found) == {"one"}
    assert found["one"].depletion_mm[0, 12] < found["one"].depletion_mm[0, 11]
    assert not np.isnan(found["one"].depletion_mm[:, 30]).any()
    assert np.isnan(found["one"].depletion_mm[:, 31:]).all()


def test_a_sheets_water() -> None:
    carrot = crop_water(load_sheet("carrot"))
    # FAO-56, table 17: carrots 0.15, 0.95, 0.85
    assert (carrot.ini_kc, carrot.mid_kc) == (0.15, 0.95)
    assert carrot.end_kc == pytest.approx(0.85)
    for crop in ("tomato", "lettuce", "rhubarb", "sweet-corn", "onion"):
        water = crop_water(load_sheet(crop))
        assert 0.0 < water.ini_kc <= water.mid_kc <= 1.3
        assert 0.0 < water.end_kc <= water.mid_kc + 1e-9


@pytest.mark.parametrize(
    ("sort", "grade", "name", "kind"),
    [
        ("fleece", "17 g", "roll", "fleece"),
        ("fleece", "10 gsm", "", "fleece thin"),
        ("fleece", "1.25 oz", "", "fleece thick"),
        ("fleece", "heavy winter", "", "fleece thick"),
        ("fleece", "", "white", "fleece"),
        ("film", "", "", "film"),
        ("mesh", "0.8 mm", "", "mesh"),
        ("other", "", "glass cloche", "cloche"),
        ("other", "50 %", "shade cloth", "shade 50"),
        ("other", "", "shade cloth 30%", "shade 30"),
        ("netting", "", "pea net", None),
        ("hoops", "", "", None),
    ],
)
def test_which_cover_a_piece_of_kit_is(sort: str, grade: str, name: str, kind: str | None) -> None:
    assert cover_of(sort, grade, name) is (None if kind is None else covers()[kind])


def test_mulches_by_their_words() -> None:
    assert [mulch_kind(word) for word in ("", "straw", "black plastic", "leaf mould", "none")] == [
        "", "organic", "film", "organic", "",
    ]  # fmt: skip
