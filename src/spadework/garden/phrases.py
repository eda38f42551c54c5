"""Small parts of sentences: days, temperatures and differences, in metric and day before month.

A face in other units rewrites them; so temperatures are said in "°C" and their differences in "degrees".
"""

from __future__ import annotations

from datetime import date

MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")


def day_text(day: date, year: bool = False) -> str:
    """A day in a sentence: 5 May."""
    return f"{day.day} {MONTHS[day.month - 1]}{f' {day.year}' if year else ''}"


def temp_text(temp_c: float, places: int = 1) -> str:
    """A temperature in a sentence."""
    text = f"{temp_c:.{places}f}"
    return f"{'0' if float(text) == 0 and places == 0 else text} °C".replace("-", "−")


def degrees_text(difference_c: float, more: str = "warmer", less: str = "colder") -> str:
    """A difference in a sentence: 1.2 degrees warmer."""
    return f"{abs(difference_c):.1f} degrees {more if difference_c >= 0 else less}"
