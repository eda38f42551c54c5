"""The demo at the command line: made anew, on any day of the year, and never over anything else."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

DAYS = ("2027-01-20", "2027-04-18", "2027-07-05", "2027-10-08", "2028-02-29")


@pytest.mark.parametrize("day", DAYS)
def test_it_makes_sense_on_any_day(do: Any, tmp_path: Path, day: str) -> None:
    said = do("demo", "--tour", "--garden", str(tmp_path / "there"), "--today", day)
    assert (said.code, said.err) == (0, "")
    assert "invented" in said.out
    for words in ("odds frost", "odds ready", "law emergence-days"):
        assert f"$ spadework {words}" in said.out
    if day[5:7] in ("04", "07"):
        assert "$ spadework weigh sow" in said.out
    assert "30 years" in said.out


def test_new_demo_makes_only_the_garden(do: Any, tmp_path: Path) -> None:
    there = tmp_path / "there"
    said = do("new", "--demo", "--garden", str(there), "--today", "2027-06-09", "--json")
    assert said.code == 0
    assert said.json["entries"] > 2000
    assert said.json["standing"] >= 40
    assert said.json["locks"] >= 1
    assert said.json["predictions"] >= 30
    assert do("odds", "frost", "--garden", str(there), "--today", "2027-06-09").code == 0


def test_new_demo_keeps_off_a_garden_that_is_there(do: Any, tmp_path: Path) -> None:
    there = str(tmp_path / "there")
    own = ("--name", "Own", "--lat", "50", "--lon", "8", "--elevation", "100")
    assert do("new", *own, "--garden", there).code == 0
    for command in (("new", "--demo"), ("demo", "--tour")):
        said = do(*command, "--garden", there, "--today", "2027-06-09")
        assert said.code == 2
        assert "nothing was changed" in said.err


def test_new_needs_a_place_or_the_demo(do: Any, tmp_path: Path) -> None:
    said = do("new", "--name", "Own", "--garden", str(tmp_path / "there"))
    assert said.code == 2
    assert "--lat and --lon" in said.err
    said = do("new", "--demo", "--name", "Own", "--garden", str(tmp_path / "there"))
    assert said.code == 2
    assert not (tmp_path / "there").exists()
