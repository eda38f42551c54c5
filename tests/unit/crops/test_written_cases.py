"""The open written cases speak the words of the records."""

from __future__ import annotations

import tomllib
from datetime import date
from pathlib import Path
from typing import get_args

import pytest

from spadework.crops.names import keys
from spadework.crops.trouble import CIRCUMSTANCES, Age
from spadework.crops.troubles import trouble

OPEN = Path(__file__).parents[2] / "cases" / "open.toml"
CASES = tomllib.loads(OPEN.read_text(encoding="utf-8"))["case"]


@pytest.mark.parametrize(
    "case", CASES, ids=lambda case: f"{case['crop']}-{case['day']}-{case['accepted'][0]}"
)
def test_case_is_of_the_form(case: dict[str, list[str]]) -> None:
    assert case["crop"] in keys()
    assert case["age"] in get_args(Age)
    assert date.fromisoformat(str(case["day"]))
    assert set(case["holds"]) <= set(CIRCUMSTANCES)
    assert case["tells"]
    assert case["shows"]
    assert all(trouble(name) for name in case["accepted"])
    assert case["source"]
