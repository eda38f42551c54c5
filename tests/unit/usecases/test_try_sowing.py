"""A sowing tried out is the same sowing as the weigh's, and nobody's book knows of it."""

from __future__ import annotations

from datetime import date, timedelta
from pathlib import Path

import pytest

from spadework.errors import ParameterError, UnknownName
from spadework.usecases.keep_things import keep_bed
from spadework.usecases.try_sowing import try_sowing
from spadework.usecases.weigh_sowing import weigh_sowing
from spadework.usecases.write_answer import Writing

TODAY = date(2024, 6, 12)


@pytest.fixture
def garden(own_garden: Path) -> Path:
    how = Writing(today=TODAY, on=None, by="", insist=False, key="")
    for name, said in (("Try bed", {}), ("Hoops", {"shape": "tunnel", "width_m": 3.0, "length_m": 6.0})):
        assert keep_bed(own_garden, how, name, said, new=True).stored
    return own_garden


def test_a_trial_has_the_odds_of_the_weigh(garden: Path) -> None:
    tried = try_sowing(garden, TODAY, "carrot", "Try bed", TODAY + timedelta(days=28))
    weighed = weigh_sowing(garden, TODAY, "carrot", bed="try-bed")
    same = next(each for each in weighed.options if each.day == tried.on)
    assert tried.overall == same.overall
    assert tried.by_year == same.by_year
    assert tried.before_frost.chance <= tried.overall.chance
    assert tried.bar.opens[0][0] >= tried.on
    assert tried.bar.opens[-1][1] == 1.0


def test_later_is_worse_in_the_open_and_a_tunnel_helps(garden: Path) -> None:
    by_day = [
        try_sowing(garden, TODAY, "carrot", "try-bed", date(2024, 7, day)).before_frost.chance
        for day in (1, 15, 29)
    ]
    assert by_day[0] >= by_day[1] > by_day[2]
    late = date(2024, 8, 5)
    assert (
        try_sowing(garden, TODAY, "dwarf french bean", "hoops", late).overall.chance
        > try_sowing(garden, TODAY, "dwarf french bean", "try-bed", late).overall.chance
    )


def test_what_is_raised_says_when_it_is_begun(garden: Path) -> None:
    tried = try_sowing(garden, TODAY, "tomato", "hoops", TODAY + timedelta(days=5))
    assert tried.set_out
    assert tried.raised_from is not None
    assert tried.raised_from < TODAY


def test_nothing_is_tried_in_the_past_or_where_no_bed_is(garden: Path) -> None:
    with pytest.raises(ParameterError, match="is past"):
        try_sowing(garden, TODAY, "carrot", "try-bed", TODAY - timedelta(days=1))
    with pytest.raises(UnknownName):
        try_sowing(garden, TODAY, "carrot", "nowhere at all", TODAY)
