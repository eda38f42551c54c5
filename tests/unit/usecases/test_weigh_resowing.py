"""Sowing again: crops that cannot be among the best are not run to the end, and that changes nothing."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from locked_garden import TODAY, locked_garden
from spadework.usecases import weigh_resowing
from spadework.usecases.setting import column_of, open_setting


@pytest.fixture(scope="module")
def garden(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return locked_garden(tmp_path_factory.mktemp("again"))


@pytest.mark.parametrize("day", [TODAY, date(2018, 8, 20)])
def test_other_crops_are_the_same_as_when_all_are_run(
    garden: Path, day: date, monkeypatch: pytest.MonkeyPatch
) -> None:
    setting = open_setting(garden, day)
    sheet = setting.sheet("beet")
    ground, _ = setting.ground(day, weigh_resowing.RUN_DAYS, need_seen=False)
    runs: list[str] = []
    weighed = weigh_resowing.weigh_day
    monkeypatch.setattr(
        weigh_resowing, "weigh_day", lambda sheet, *more: (runs.append(sheet.key), weighed(sheet, *more))[1]
    )

    def others() -> tuple[int, object]:
        runs.clear()
        found = weigh_resowing._others(setting, ground, sheet, column_of(ground, day))
        return len(runs), found

    fewer, found = others()
    monkeypatch.setattr(weigh_resowing, "_CLOSE", 2.0)
    every, all_run = others()
    assert found == all_run
    assert fewer < every
