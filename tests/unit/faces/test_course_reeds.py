"""Reeds of a course: a line a year that ends where it is ready, in words for who cannot see it."""

from __future__ import annotations

from datetime import date, timedelta
from xml.etree import ElementTree

from spadework.faces.charts.course_reeds import course_reeds
from spadework.faces.voice import Voice
from spadework.usecases.show_planting import Reeds

FIRST = date(2026, 5, 1)
DAYS = [FIRST + timedelta(days=10 * step) for step in range(6)]
REEDS = Reeds(
    days=DAYS,
    ways=[[0.0, 0.3, 0.7, 1.0, 1.0, 1.0], [0.0, 0.1, 0.2, 0.3, 0.4, 0.5]],
    lost=[False, True],
)


def _paths(us: bool = False) -> list[ElementTree.Element]:
    drawn = course_reeds(REEDS, DAYS[1], Voice(us=us, today=DAYS[1]), title="The way to ready.")
    return list(ElementTree.fromstring(drawn).iter("path"))


def test_a_year_is_a_line_up_to_the_day_it_is_ready() -> None:
    sound = next(each for each in _paths() if each.get("class") == "reed")
    lost = next(each for each in _paths() if each.get("class") == "reed lost")
    assert len((sound.get("d") or "").split()) == 4
    assert len((lost.get("d") or "").split()) == 6


def test_the_days_are_said_in_the_gardens_way() -> None:
    drawn = course_reeds(REEDS, DAYS[1], Voice(us=True, today=DAYS[1]), title="The way to ready.")
    words = [each.text for each in ElementTree.fromstring(drawn).iter("text")]
    assert "May 1" in words
    assert "today" in words
    assert "ready" in words
    assert ElementTree.fromstring(drawn).get("aria-label") == "The way to ready."
