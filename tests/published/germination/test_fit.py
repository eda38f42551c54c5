"""One law with few parameters must reach the published tables, and refuse where they refuse."""

from __future__ import annotations

import importlib.util
import sys
from pathlib import Path
from statistics import median
from types import ModuleType

import pytest

from spadework.science import emergence
from spadework.science.emergence import EmergenceLaw

TOOLS = Path(__file__).parents[3] / "tools"


def _load(name: str) -> ModuleType:
    spec = importlib.util.spec_from_file_location(name, TOOLS / f"{name}.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    sys.modules[name] = module
    spec.loader.exec_module(module)
    return module


tool = _load("fit_emergence")


@pytest.fixture(scope="module")
def cells() -> dict[str, object]:
    found: dict[str, object] = {
        c: k for c, k in tool.read_cells().items() if k.days_source == tool.HARRINGTON
    }
    return found


@pytest.fixture(scope="module")
def laws(cells: dict[str, object]) -> dict[str, EmergenceLaw]:
    fitted: dict[str, EmergenceLaw] = tool.fit_all(cells)
    return fitted


def test_all_eighteen_crops(laws: dict[str, EmergenceLaw]) -> None:
    assert len(laws) == 18


def test_days_at_and_below_the_optimum(laws: dict[str, EmergenceLaw], cells: dict[str, object]) -> None:
    misses = []
    for crop, law in laws.items():
        for temp, days in cells[crop].days.items():  # type: ignore[attr-defined]
            answer = emergence.emergence_at(temp, law)
            assert answer.median_days is not None, f"{crop} at {temp} C: {answer.reason}"
            if temp <= law.optimum_c:
                misses.append(abs(answer.median_days / days - 1))
    assert len(misses) > 70
    assert median(misses) < 0.12


def test_percent(laws: dict[str, EmergenceLaw], cells: dict[str, object]) -> None:
    misses = [
        abs(float(emergence.percent_normal(temp, law)) - percent)
        for crop, law in laws.items()
        for temp, percent in cells[crop].percent.items()  # type: ignore[attr-defined]
    ]
    assert len(misses) == 127
    assert median(misses) < 6


def test_nothing_emerges_where_the_table_says_none(
    laws: dict[str, EmergenceLaw], cells: dict[str, object]
) -> None:
    said = [
        (crop, temp)
        for crop, law in laws.items()
        for temp in cells[crop].never  # type: ignore[attr-defined]
        if emergence.emergence_at(temp, law).median_days is not None
    ]
    assert said == []


def test_parameters_mean_something(laws: dict[str, EmergenceLaw]) -> None:
    for crop, law in laws.items():
        assert -1 <= law.base_c <= 16, crop
        assert 30 <= law.sum_cd <= 300, crop
        assert 20 <= law.optimum_c <= law.shoulder_c < law.ceiling_c <= 45, crop
    cool, warm = ("spinach", "pea", "lettuce", "parsnip"), ("melon", "cucumber", "watermelon", "eggplant")
    assert max(laws[c].base_c for c in cool) < min(laws[w].base_c for w in warm)


def test_the_toe_is_where_the_fit_is_best(cells: dict[str, object], monkeypatch: pytest.MonkeyPatch) -> None:
    studies, ranges = tool.independent(), {row["crop"]: row for row in tool.rows("ranges.csv")}

    def cost(toe: float) -> float:
        monkeypatch.setattr(emergence, "TOE_CDELTA", toe)
        return sum(
            tool.fit(crop, cells[crop], tool.prior_for(crop, studies.get(crop, []), ranges))[1]
            for crop in ("onion", "lettuce", "spinach", "parsnip", "carrot", "tomato")
        )

    here = cost(emergence.TOE_CDELTA)
    assert here < cost(1.0)
    assert here < cost(5.0)
