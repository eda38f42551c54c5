"""Drawings of signs: each sign that names one has it, and each is plain SVG that says what it shows."""

from __future__ import annotations

from xml.etree import ElementTree

import pytest

from spadework.crops.troubles import all_signs
from spadework.faces.charts.sign_drawings import DRAWN, sign_drawing

DRAWINGS = sorted(DRAWN)


def test_every_picture_named_is_drawn() -> None:
    assert {sign.picture for sign in all_signs().values() if sign.picture} <= set(DRAWN)


def test_every_drawing_is_used() -> None:
    assert set(DRAWN) <= {sign.picture for sign in all_signs().values()}


def test_most_signs_are_drawn() -> None:
    signs = all_signs().values()
    assert sum(bool(sign.picture) for sign in signs) / len(signs) > 0.9


def test_no_two_drawings_are_the_same() -> None:
    assert len({sign_drawing(name, "") for name in DRAWINGS}) == len(DRAWINGS)


@pytest.mark.parametrize("name", DRAWINGS)
def test_a_drawing_is_plain_svg(name: str) -> None:
    drawn = str(sign_drawing(name, "round holes"))
    root = ElementTree.fromstring(drawn)
    assert root.get("role") == "img"
    assert root.get("aria-label") == "Drawing: round holes."
    assert not any("style" in each.attrib or each.tag in ("script", "style", "image") for each in root.iter())
    assert "nan" not in drawn.lower()
    assert len(drawn) < 48_000


def test_what_is_not_drawn_is_empty() -> None:
    assert not sign_drawing("", "nothing")
