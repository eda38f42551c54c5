"""A bed's cover weighed, on the demo garden."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from spadework.errors import ParameterError, UnknownName
from spadework.usecases.demo_garden import make_demo
from spadework.usecases.keep_book import garden_state
from spadework.usecases.setting import open_setting
from spadework.usecases.weigh_covering import weigh_covering

SPRING, SUMMER = date(2026, 5, 2), date(2026, 7, 10)


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("demo") / "garden"
    make_demo(path, SUMMER)
    return path


def test_the_cheapest_state_comes_first_and_heat_speaks_against_fleece(demo: Path) -> None:
    garden = garden_state(open_setting(demo, SUMMER).folder)
    bed = next(p.bed for p in garden.standing(SUMMER) if p.crop == "carrot")
    found = weigh_covering(demo, SUMMER, bed, item="fleece")
    assert [option.state for option in found.options][:2] == [found.verdict, found.second]
    costs = [option.costs for option in found.options]
    assert costs == sorted(costs)
    assert found.verdict != "shut"
    assert all(len(option.by_year) == len(found.options[0].by_year) for option in found.options)


def test_what_cannot_be_weighed_is_said(demo: Path) -> None:
    with pytest.raises(UnknownName):
        weigh_covering(demo, SUMMER, "Nowhere")
    garden = garden_state(open_setting(demo, SUMMER).folder)
    grown = {p.bed for p in garden.standing(SUMMER)}
    empty = next(key for key in garden.beds if key not in grown)
    with pytest.raises(ParameterError, match="Nothing stands"):
        weigh_covering(demo, SUMMER, empty)
    bed = next(p.bed for p in garden.standing(SUMMER) if p.crop == "carrot")
    with pytest.raises(ParameterError, match="changes no warmth"):
        weigh_covering(demo, SUMMER, bed, item="bird netting")
