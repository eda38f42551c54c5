"""A sheet's numbers in the order a grower asks, each on a line that shows its range."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from spadework.crops.names import keys
from spadework.faces.web.sheet_groups import FIRST, Group, grouped, scales
from spadework.usecases.read_sheets import read_sheet

DAY = date(2026, 6, 12)


@pytest.mark.parametrize("crop", sorted(keys()))
def test_every_number_stands_in_one_group_and_on_its_line(crop: str, tmp_path: Path) -> None:
    values = read_sheet(crop, tmp_path, DAY).values
    groups = grouped(values)
    fields = [each.field for group in groups for each in group.values]
    assert sorted(fields) == sorted(each.field for each in values)
    assert "Other" not in {group.name for group in groups}
    for group in groups:
        for field, (least, most) in scales(group.values).items():
            (value,) = [each for each in group.values if each.field == field]
            numbers = [number for number in (value.value, value.low, value.high) if number is not None]
            assert least <= min(map(float, numbers)) <= max(map(float, numbers)) <= most * (1 + 1e-9)


def test_no_meaning_names_a_field() -> None:
    for crop in sorted(keys()):
        for each in read_sheet(crop, Path("nowhere"), DAY).values:
            assert "_" not in each.meaning, each.meaning


def test_distances_stand_with_distances() -> None:
    groups = {group.name: [each.field for each in group.values] for group in grouped_carrot()}
    assert "sowing.in_row_cm" in groups["Spacing, thinning and support"]
    assert "sowing.depth_mm" in groups["Sowing and coming up"]
    assert set(FIRST) <= {field for fields in groups.values() for field in fields}


def grouped_carrot() -> list[Group]:
    return grouped(read_sheet("carrot", Path("nowhere"), DAY).values)
