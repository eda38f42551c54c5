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
