"""How every face speaks."""

from __future__ import annotations

from datetime import date

import pytest

from spadework.faces.voice import Voice

TODAY = date(2026, 6, 12)


@pytest.mark.parametrize(
    ("said", "metric", "us"),
    [
        ("2026-06-10: the finger says dry", "10 Jun: the finger says dry", "Jun 10: the finger says dry"),
        ("since 2025-02-03", "since 3 Feb 2025", "since Feb 3, 2025"),
        ("carrot-2026-02-1", "carrot-2026-02-1", "carrot-2026-02-1"),
        ("on 2026-02-30", "on 2026-02-30", "on 2026-02-30"),
    ],
)
def test_days_come_in_the_gardens_own_form(said: str, metric: str, us: str) -> None:
    assert Voice(us=False, today=TODAY).told(said) == metric
    assert Voice(us=True, today=TODAY).told(said) == us


@pytest.mark.parametrize(
    ("said", "us"),
    [
        ("Water Hill 4: 176 l, 17.5 cans of 10 l", "Water Hill 4: 46.5 gal, 17.5 cans of 2.64 gal"),
        ("22 seeds a metre, as usual", "6.7 seeds a foot, as usual"),
        ("about 99 to a metre", "about 30 to a foot"),
        ("usual yield of a metre of row", "usual yield of a foot of row"),
        ("on a square metre", "on a square metre"),
    ],
)
def test_american_gardens_hear_gallons_and_feet(said: str, us: str) -> None:
    assert Voice(us=True, today=TODAY).told(said) == us
    assert Voice(us=False, today=TODAY).told(said) == said


def test_cloth_is_weighed_by_the_square_yard_where_feet_are() -> None:
    # 17 g/m² is half an ounce to the square yard: 28.35 g to 0.8361 m²
    assert Voice(us=True, today=TODAY).grade("17 g") == "0.5 oz/yd²"
    assert Voice(us=False, today=TODAY).grade("17 g") == "17 g/m²"
    assert Voice(us=False, today=TODAY).grade("half shade") == "half shade"
    assert Voice(us=True, today=TODAY).grade_kept("0.5 oz/yd²") == "17 g/m²"
    assert Voice(us=True, today=TODAY).grade_kept("0.8 mm holes") == "0.8 mm holes"
    assert Voice(us=True, today=TODAY).length(0.12) == "4.72 in"
    assert Voice(us=True, today=TODAY).number(1.49, "kg/m") == "1 lb/ft"
