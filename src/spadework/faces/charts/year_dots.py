"""The year dots: one dot a year, filled where it works out."""

from __future__ import annotations

from markupsafe import Markup

from spadework.advice.odds import Odds
from spadework.faces.charts.svg import element, picture
from spadework.faces.voice import in_years

ACROSS = 20


def year_dots(odds: Odds, *, about: str = "") -> Markup:
    """Odds as dots, twenty to a line."""
    rows = -(-odds.years // ACROSS)
    dots = [
        element(
            "circle",
            cx=9.0 + 18.0 * (year % ACROSS),
            cy=9.0 + 18.0 * (year // ACROSS),
            r=7.0,
            class_="dot on" if year < odds.years_yes else "dot",
        )
        for year in range(odds.years)
    ]
    made = f" {odds.made_years} of them made." if odds.made_years else ""
    return picture(
        18.0 * ACROSS,
        18.0 * max(rows, 1),
        dots,
        title=f"{about} {in_years(odds)}.{made}".strip(),
        class_="year-dots",
    )
