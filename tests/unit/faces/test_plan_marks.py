"""Short marks of beds: no two alike, read as the name is, and told beneath."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from spadework.faces.charts.plan_marks import bed_marks, marks_said

NAMES = ["Lake 1", "Lake 2", "Tub 1", "Tunnel", "Tunnel west", "Herb bed", "Hill 3"]


def _marks(names: list[str]) -> dict[str, str]:
    return bed_marks({name: name for name in names})


def test_marks_are_initials_and_numbers() -> None:
    marks = _marks(NAMES)
    assert (marks["Lake 2"], marks["Tub 1"], marks["Herb bed"]) == ("L2", "T1", "Hb")
    assert (marks["Tunnel"], marks["Tunnel west"]) == ("Tu", "Tw")


def test_a_word_with_numbers_is_told_once() -> None:
    said = marks_said({name: name for name in NAMES})
    assert ("L", "Lake") in said
    assert ("Tw", "Tunnel west") in said
    assert len(said) == 6
    assert marks_said({name: name for name in NAMES}, ["Hill 3"]) == [("H", "Hill")]


@given(st.lists(st.text("ab 12", min_size=1).filter(str.strip), unique_by=lambda name: name.strip()))
def test_no_two_marks_are_alike(names: list[str]) -> None:
    marks = list(_marks(names).values())
    assert len(set(marks)) == len(names)
    assert all(marks)
