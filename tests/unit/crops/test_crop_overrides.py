"""A grower's numbers replace a sheet's under the same rules, and the sheet's own stay beside them."""

from __future__ import annotations

from typing import Any

import pytest

from spadework.crops import apply_overrides, load_sheet, receipts
from spadework.errors import Fault, InputFileError

ORIGIN = "overrides.toml, carrot Nantes"


def faults_of(overrides: dict[str, Any], crop: str = "carrot") -> dict[str, Fault]:
    with pytest.raises(InputFileError) as caught:
        apply_overrides(load_sheet(crop), overrides, ORIGIN)
    assert caught.value.name == ORIGIN
    return {fault.where: fault for fault in caught.value.faults}


def test_a_number_is_replaced_and_the_sheet_is_not() -> None:
    sheet = load_sheet("carrot")
    mine = apply_overrides(sheet, {"development.ready_days": 52}, ORIGIN)
    value = mine.development.ready_days
    assert (value.value, value.provenance, value.origin, value.unit) == (52.0, "grower", ORIGIN, "day")
    assert value.own == sheet.development.ready_days
    assert "46" in value.note
    assert load_sheet("carrot").development.ready_days.provenance == "computed"
    others = {path: value for path, value in receipts(mine).items() if path != "development.ready_days"}
    assert others == {path: receipts(sheet)[path] for path in others}


def test_limits_and_nested_tables_are_taken() -> None:
    nested = {
        "development": {"ready_days": {"value": 50, "low": 45, "high": 56}},
        "growth": {"height_cm": 30},
    }
    mine = apply_overrides(load_sheet("carrot"), nested, ORIGIN)
    assert (mine.development.ready_days.low, mine.development.ready_days.high) == (45.0, 56.0)
    assert float(mine.growth.height_cm) == 30.0


def test_the_first_value_stays_beside_a_second_override() -> None:
    sheet = load_sheet("carrot")
    once = apply_overrides(sheet, {"growth.height_cm": 30}, "variety")
    twice = apply_overrides(once, {"growth.height_cm": 28}, "garden")
    assert twice.growth.height_cm.own == sheet.growth.height_cm
    assert twice.growth.height_cm.origin == "garden"


def test_a_number_the_sheet_lacks_can_be_given() -> None:
    sheet = load_sheet("carrot")
    assert sheet.emergence.rot_c is None
    mine = apply_overrides(sheet, {"emergence.rot_c": 2, "development.stages.4": 0.4}, ORIGIN)
    assert mine.emergence.rot_c is not None
    assert mine.emergence.rot_c.own is None
    assert float(mine.development.stages[4]) == 0.4
    assert mine.development.stages[4].own == sheet.development.stages[4]


def test_nothing_to_replace_gives_the_sheet_back() -> None:
    assert apply_overrides(load_sheet("carrot"), {}, ORIGIN) is load_sheet("carrot")


@pytest.mark.parametrize(
    ("path", "raw", "where", "said"),
    [
        ("development.redy_days", 50, "development.redy_days", "development.ready_days"),
        ("growth.ready_days", 50, "growth.ready_days", "development.ready_days"),
        ("ready_days", 50, "ready_days", "development.ready_days"),
        ("development.ready_days", "soon", "development.ready_days", "'soon'"),
        ("development.ready_days", 5000, "development.ready_days", "5 to 400 day"),
        ("development.ready_days", {"low": 40}, "development.ready_days", "without a value"),
        ("development.ready_days", {"value": 50, "low": 60}, "development.ready_days", "low 60"),
        ("development.optimum_c", 30, "development.optimum_c", "shoulder_c"),
        ("bolting.days", 30, "bolting.days", "long days"),
        ("frost.class", "hardy", "frost.class", "Words"),
        ("development.stages.4", 7, "development.stages.4", "0 to 1"),
        ("development.stages.x", 0.5, "development.stages.x", "unknown"),
    ],
)
def test_each_fault_is_named(path: str, raw: object, where: str, said: str) -> None:
    faults = faults_of({path: raw})
    assert where in faults
    assert said in str(faults[where])


def test_all_faults_come_together() -> None:
    faults = faults_of({"growth.height_cm": -1, "nothing.here": 2, "frost.kill_c": "cold"})
    assert set(faults) == {"growth.height_cm", "nothing.here", "frost.kill_c"}


def test_a_heat_limit_needs_its_dose() -> None:
    bare = load_sheet("carrot")
    assert bare.heat.limit_c is not None
    for key in ("carrot", "okra"):
        mine = apply_overrides(load_sheet(key), {"heat.limit_c": 33}, ORIGIN)
        assert mine.heat.limit_c is not None
