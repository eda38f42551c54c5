"""The season: every bed through the year, as opening bars with a table behind them."""

from __future__ import annotations

from typing import Final

from spadework.faces.charts.opening_bar import opening_bars
from spadework.faces.web.visit import Page, Visit, Way
from spadework.usecases.show_season import show_season


def season_page(visit: Visit) -> Page:
    """The year bed by bed."""
    found = show_season(visit.garden, visit.today)
    return Page("season.html", {"season": found, "picture": opening_bars(found, visit.voice)})


WAYS: Final = (Way("/season", season_page),)
