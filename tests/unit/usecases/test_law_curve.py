"""Curves of laws: each point is the law itself, and every law can be drawn."""

from __future__ import annotations

from datetime import date

import pytest

from spadework.errors import ParameterError
from spadework.faces.web.law_words import SAID, blank_here
from spadework.garden.site import Site
from spadework.usecases.law_book import LAWS
from spadework.usecases.law_curve import drawn_over, example_of, law_curve
from spadework.usecases.laws import evaluate

SITE = Site(name="Invented", lat_deg=45.0, lon_deg=9.0, elevation_m=120.0)


@pytest.mark.parametrize("name", sorted(LAWS))
def test_every_law_is_drawn_from_its_example_and_has_words(name: str) -> None:
    given = example_of(LAWS[name], SITE, date(2026, 6, 12))
    drawn = law_curve(LAWS, name, given)
    assert drawn is not None
    known = [point for point in drawn.points if point.result is not None]
    assert len(known) > len(drawn.points) / 2
    middle = known[len(known) // 2]
    put = middle.value.isoformat() if isinstance(middle.value, date) else f"{middle.value:.4f}"
    again = evaluate(LAWS, name, {**given, drawn.over: put}).result[drawn.of]
    assert middle.result == again
    numbers = [key for key, value in evaluate(LAWS, name, given).result.items() if isinstance(value, float)]
    assert set(numbers) <= set(SAID)


def test_a_curve_goes_over_what_is_asked() -> None:
    drawn = law_curve(LAWS, "day-length", {"lat": "60", "date": "2026-06-21"}, over="date", of="geometric_h")
    assert drawn is not None
    longest = max(drawn.points, key=lambda point: point.result or 0.0)
    assert isinstance(longest.value, date)
    # Northern midsummer
    assert abs((longest.value - date(2026, 6, 21)).days) <= 7
    with pytest.raises(ParameterError, match="no blank"):
        law_curve(LAWS, "day-length", {"lat": "60", "date": "2026-06-21"}, over="soil_c")


def test_blanks_are_asked_in_the_garden_s_own_units() -> None:
    soil = next(blank for blank in LAWS["emergence-days"].blanks if blank.name == "soil_c")
    there = blank_here(soil, us=True)
    assert (there.name, there.here(10.0)) == ("soil_f", 50.0)
    assert "°F" in there.words
    assert blank_here(soil, us=False).name == "soil_c"
    # the name it is asked by is one the law takes
    assert evaluate(LAWS, "emergence-days", {"crop": "carrot", "soil_f": "50"}).inputs["soil_c"] == 10.0
    assert all(blank.kind in ("number", "date") for blank in drawn_over(LAWS["et0"]))
