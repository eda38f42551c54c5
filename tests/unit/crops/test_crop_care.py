"""What the jobs need to know: whole where it applies, absent where it does not, and as growers know it."""

from __future__ import annotations

from collections import Counter
from pathlib import Path

import pytest

from spadework.crops import all_sheets, apply_overrides, keys, load_sheet, receipts
from spadework.crops.care_fields import CARE_FIELDS
from spadework.crops.loader import FOLDER, read_sheet
from spadework.crops.sheet import Sheet
from spadework.errors import Fault, InputFileError


def numbers(sheet: Sheet, section: str) -> set[str]:
    return {path.partition(".")[2] for path in receipts(sheet) if path.startswith(f"{section}.")}


@pytest.mark.parametrize("key", keys())
def test_each_kind_has_what_it_needs(key: str) -> None:
    sheet = load_sheet(key)
    harvest, bees, thin = sheet.harvest, sheet.bees, sheet.thin
    assert (harvest.again_cday is not None) == (harvest.repeat != "once")
    assert (harvest.again_base_c is not None) == (harvest.repeat != "once")
    if harvest.whole == "yes":
        assert harvest.repeat == "once"
    if sheet.kind in ("fruit", "pod", "grain"):
        assert bees.needs != "none"
    if sheet.kind in ("root", "leaf", "head", "bulb", "tuber", "stem", "herb"):
        assert bees.needs == "none"
    if bees.needs == "bees":
        assert bees.uncover == "yes"
    if sheet.kind in ("root", "bulb", "tuber"):
        assert harvest.lift in ("lift", "pull")
    assert (sheet.support.kind != "none") == (sheet.support.height_cm is not None)
    raised = "raised" in sheet.propagation or "slips" in sheet.propagation
    assert ({"harden_days", "soil_out_c", "night_out_c"} <= numbers(sheet, "start")) == raised
    if thin.first_leaves is not None:
        assert "direct" in sheet.propagation
        assert {"final_leaves", "in_row_small_cm", "in_row_large_cm"} <= numbers(sheet, "thin")
        assert "" not in (thin.tap, thin.cluster, thin.edible)
        small, large = float(thin.in_row_small_cm or 0), float(thin.in_row_large_cm or 0)
        assert small <= float(sheet.sowing.in_row_cm) <= large
    else:
        assert not numbers(sheet, "thin")
    if "direct" in sheet.propagation and thin.first_leaves is None:
        assert sheet.family == "Fabaceae", "only peas and beans are sown at their final distance"
    if sheet.earth.passes is not None:
        assert sheet.earth.why
        assert float(sheet.earth.first_height_cm or 0) < float(sheet.growth.height_cm)
    if sheet.support.height_cm is not None:
        assert float(sheet.support.height_cm) < float(sheet.growth.height_cm.high or sheet.growth.height_cm)
    if sheet.season == "warm" and raised:
        assert float(sheet.start.night_out_c or 0) > float(sheet.frost.kill_c)
    assert (float(sheet.guard.tender_days) > 0) == bool(sheet.guard.eaten_by)


def test_pickings_come_as_often_as_growers_pick() -> None:
    """Common practice: days between pickings in ordinary summer weather."""

    def days(key: str, mean_c: float) -> float:
        harvest = load_sheet(key).harvest
        return float(harvest.again_cday or 0) / (mean_c - float(harvest.again_base_c or 0))

    assert 1 <= days("summer-squash", 21) <= 3
    assert 2 <= days("cucumber", 21) <= 4
    assert 2 <= days("bush-bean", 20) <= 5
    assert 2 <= days("runner-bean", 18) <= 5
    assert 2 <= days("pea", 17) <= 4
    assert 1 <= days("okra", 25) <= 3
    assert 1 <= days("strawberry", 18) <= 3
    assert 1.5 <= days("asparagus", 13) <= 5
    assert 7 <= days("chard", 17) <= 15
    assert days("summer-squash", 16) > 1.4 * days("summer-squash", 21)


def test_worth_is_of_the_same_order_for_each_metre() -> None:
    worths = {
        key: float(sheet.use.worth_kg) * float(sheet.harvest.yield_kg_m)
        for key, sheet in all_sheets().items()
    }
    assert float(load_sheet("carrot").use.worth_kg) == 1
    assert all(0.1 < worth < 8 for worth in worths.values())
    assert worths["tomato"] > worths["carrot"] > worths["turnip"]


def test_the_page_on_accuracy_counts_them_rightly() -> None:
    paths = {field.path for field in CARE_FIELDS}
    values = [
        value for sheet in all_sheets().values() for path, value in receipts(sheet).items() if path in paths
    ]
    of = Counter[str](value.provenance for value in values)
    judged = sum("ESTIMATE" in value.sources for value in values)
    page = " ".join((Path(__file__).parents[3] / "docs" / "accuracy.md").read_text(encoding="utf-8").split())
    assert f"of {len(values)} numbers for water" in page
    assert f"{of['published']} are published and {of['computed']} computed" in page
    assert (
        f"{of['common-practice']} are common practice and {of['memory']} recalled ({judged} of them" in page
    )


def test_names_that_growers_would_object_to() -> None:
    assert {key for key, sheet in all_sheets().items() if sheet.thin.fly} == {"carrot", "parsnip"}
    assert {key for key, sheet in all_sheets().items() if sheet.thin.cluster == "yes"} == {"beet", "chard"}
    assert {key for key, sheet in all_sheets().items() if sheet.earth.why == "light"} == {"potato"}
    assert {key for key, sheet in all_sheets().items() if sheet.bees.needs == "wind"} == {"sweet-corn"}
    insects = {key for key, sheet in all_sheets().items() if sheet.bees.needs == "bees"}
    assert insects == {
        "cucumber",
        "melon",
        "pumpkin",
        "runner-bean",
        "summer-squash",
        "tomatillo",
        "watermelon",
        "winter-squash",
    }
    standing = {"leek", "parsnip", "kale", "brussels-sprouts", "rutabaga"}
    assert all(load_sheet(key).harvest.standing_frost == "yes" for key in standing)
    tender = {key for key, sheet in all_sheets().items() if sheet.season == "warm"}
    assert all(load_sheet(key).harvest.standing_frost == "no" for key in tender)


def test_a_self_setting_variety_needs_no_bees() -> None:
    plain, setting = load_sheet("cucumber"), load_sheet("parthenocarpic cucumber")
    assert (plain.bees.needs, plain.bees.uncover) == ("bees", "yes")
    assert setting.traits == ("self-setting",)
    assert (setting.bees.needs, setting.bees.uncover, setting.bees.hand) == ("self", "no", "no")
    assert receipts(setting) == receipts(plain)
    assert load_sheet("cucumber", variety="self-setting", method="raised").bees.needs == "self"


def test_a_method_drops_what_is_not_done_with_it() -> None:
    raised, direct = (load_sheet("beet", method=way) for way in ("raised", "direct"))
    assert not numbers(raised, "thin")
    assert numbers(direct, "thin")
    assert not numbers(direct, "start")
    assert numbers(raised, "start")


def test_a_growers_own_care_numbers() -> None:
    mine = apply_overrides(
        load_sheet("carrot"), {"thin.in_row_large_cm": 10, "use.worth_kg": 2}, "this garden"
    )
    assert mine.thin.in_row_large_cm is not None
    assert mine.thin.in_row_large_cm.own == load_sheet("carrot").thin.in_row_large_cm
    assert float(mine.use.worth_kg) == 2
    assert mine.thin.fly == "carrot fly"


@pytest.mark.parametrize(
    ("crop", "overrides", "where", "said"),
    [
        ("carrot", {"thin.in_row_large_cm": 1}, "thin.in_row_small_cm", "in_row_large_cm"),
        ("pea", {"thin.first_leaves": 2}, "thin.final_leaves", "nothing"),
        ("carrot", {"earth.passes": 1}, "earth.depth_cm", "nothing"),
        ("pea", {"thin.final_leaves": 2}, "thin.final_leaves", "thinned"),
        ("carrot", {"support.height_cm": 20}, "support.height_cm", "support"),
        ("carrot", {"harvest.again_cday": 20}, "harvest.again_cday", "more than once"),
        ("carrot", {"start.soil_out_c": 8}, "start.soil_out_c", "set out"),
        ("carrot", {"water.kc_mid": 0.5}, "water.kc_ini", "kc_mid"),
        ("carrot", {"bees.needs": 1}, "bees.needs", "Words"),
    ],
)
def test_faults_of_care_numbers(crop: str, overrides: dict[str, object], where: str, said: str) -> None:
    with pytest.raises(InputFileError) as caught:
        apply_overrides(load_sheet(crop), overrides, "this garden")
    faults = {fault.where: str(fault) for fault in caught.value.faults}
    assert said in faults[where]


def faults_of(text: str, crop: str) -> dict[str, Fault]:
    with pytest.raises(InputFileError) as caught:
        read_sheet(text, f"{crop}.toml")
    return {fault.where: fault for fault in caught.value.faults}


@pytest.mark.parametrize(
    ("crop", "old", "new", "where", "said"),
    [
        ("carrot", 'repeat = "once"', 'repeat = "many"', "harvest.again_cday", "nothing"),
        ("carrot", 'repeat = "once"', 'repeat = "weekly"', "harvest.repeat", "once, many, cut again"),
        ("carrot", 'tap = "yes"\n', "", "thin.tap", "nothing"),
        ("carrot", 'eaten_by = ["slugs"', 'eaten_by = ["snails"', "guard.eaten_by", "slugs"),
        ("carrot", '[support]\nkind = "none"\n', "", "support.kind", "nothing"),
        ("potato", 'why = "light"\n', "", "earth.why", "nothing"),
        ("tomato", 'need = "always"\n', "", "support.need", "nothing"),
        ("tomato", "soil_out_c = ", "sol_out_c = ", "start.soil_out_c", "nothing"),
        (
            "cucumber",
            'traits = ["self-setting"]',
            'traits = ["tasty"]',
            "variety.self-setting.traits",
            "self-setting",
        ),
        ("pea", "[weeds]", '[thin]\ntap = "yes"\n\n[weeds]', "thin.tap", "thinned"),
    ],
)
def test_faults_of_care_sections(crop: str, old: str, new: str, where: str, said: str) -> None:
    text = (FOLDER / f"{crop}.toml").read_text(encoding="utf-8")
    assert old in text
    assert said in str(faults_of(text.replace(old, new, 1), crop)[where])
