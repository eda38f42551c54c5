"""Chances that fold in the spread of the crop's own numbers, against seasons in which those are drawn."""

from __future__ import annotations

import pytest

from drawn_seasons import CROPS, STARTS, dates_held, groups, odds_of_place
from spadework.record.reliability import largest_miss

DRAWS = 20


@pytest.mark.parametrize(("place", "allowed"), [("champion", 0.04), ("brussels", 0.02), ("clemson", 0.015)])
def test_chances_said_are_chances_seen(place: str, allowed: float) -> None:
    """A group cut between two years' chances of one sowing shows their luck: most at Champion."""
    ready, picked = zip(*(odds_of_place(place, crop, DRAWS) for crop in CROPS), strict=True)
    assert largest_miss(groups(list(ready))) < 0.03
    assert largest_miss(groups(list(picked))) < allowed


@pytest.mark.parametrize("place", STARTS)
@pytest.mark.parametrize("crop", CROPS)
def test_the_programs_own_dates_hold(place: str, crop: str) -> None:
    cases, held = dates_held(place, crop, DRAWS)
    assert cases > 1500
    assert 0.78 <= held <= 0.88


def test_without_the_spread_they_would_not() -> None:
    _, held = dates_held("champion", "carrot", DRAWS, overrides={"development.cv": 0.02})
    assert held < 0.6
