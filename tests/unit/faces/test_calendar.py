"""The calendar of windows, read back by a reader that is not the one it is written with: vobject."""

from __future__ import annotations

from datetime import date, timedelta
from pathlib import Path

import pytest
import vobject

from locked_garden import LOCKED, TODAY, locked_garden
from spadework.faces.calendar.windows import windows_calendar
from spadework.usecases.demo_garden import make_demo
from spadework.usecases.jobs_today import jobs_today

DAY = date(2026, 6, 12)


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("demo") / "garden"
    make_demo(folder, DAY)
    return folder


def events(content: bytes) -> dict[str, object]:
    calendar = vobject.readOne(content.decode())
    found = {event.uid.value: event for event in calendar.vevent_list}
    assert len(found) == len(calendar.vevent_list)
    return found


def test_windows_are_the_jobs_windows(demo: Path) -> None:
    found = events(windows_calendar(demo, DAY))
    jobs = {job.id: job for job in jobs_today(demo, DAY).jobs}
    windows = {uid.rpartition(".")[0].rpartition(".")[0]: event for uid, event in found.items()}
    named = {uid: event for uid, event in windows.items() if not uid.startswith("lock-")}
    assert len(named) >= 10
    for uid, event in named.items():
        window = jobs[uid].window
        assert (event.dtstart.value, event.dtend.value) == (window.opens, window.closes + timedelta(days=1))
        assert event.summary.value == jobs[uid].act


def test_names_stay_and_the_same_day_gives_the_same_bytes(demo: Path) -> None:
    today = windows_calendar(demo, DAY)
    assert today == windows_calendar(demo, DAY)
    again = events(windows_calendar(demo, DAY + timedelta(days=1)))
    assert len(set(events(today)) & set(again)) >= 0.7 * len(again)


def test_lines_are_folded_as_the_standard_asks(demo: Path) -> None:
    """RFC 5545, 3.1: no line longer than 75 octets, ended by CRLF."""
    content = windows_calendar(demo, DAY)
    assert max(map(len, content.split(b"\r\n"))) <= 75
    assert b"\n" not in content.replace(b"\r\n", b"")


def test_every_lock_is_in_it(tmp_path: Path) -> None:
    said = " ".join(
        event.summary.value
        for event in events(windows_calendar(locked_garden(tmp_path / "g"), TODAY)).values()
    )
    assert [each.sort for each in LOCKED if each.word not in said] == []
