"""A law drawn over one of its blanks: the others stay as they are given."""

from __future__ import annotations

import math
from collections.abc import Mapping
from datetime import date, timedelta
from typing import Final

import msgspec

from spadework.errors import ParameterError
from spadework.garden.site import Site
from spadework.usecases.laws import Blank, Law, evaluate, find_law

POINTS: Final = 49
ROWS: Final = 20
YEAR_STEP_DAYS: Final = 7

SPANS: Final[Mapping[str, tuple[float, float]]] = {
    "apart_cm": (1.0, 20.0),
    "area_m2": (0.5, 20.0),
    "below_c": (-8.0, 8.0),
    "damp_below_share": (0.0, 1.0),
    "days_late": (0.0, 40.0),
    "depletion_share": (0.1, 0.8),
    "depth_mm": (0.0, 60.0),
    "dry_days": (0.0, 20.0),
    "elevation_m": (0.0, 2500.0),
    "et0_mm": (0.0, 8.0),
    "forecast_sd_c": (0.0, 5.0),
    "harm_c": (-8.0, 6.0),
    "high_g": (20.0, 400.0),
    "hour": (0.0, 24.0),
    "humid_first_h": (0.0, 24.0),
    "humid_second_h": (0.0, 24.0),
    "kc": (0.15, 1.2),
    "lat": (-66.0, 66.0),
    "limit_c": (15.0, 45.0),
    "low_g": (0.0, 300.0),
    "lower_c": (0.0, 20.0),
    "ozone_du": (200.0, 450.0),
    "plants_m2": (2.0, 300.0),
    "plants_per_m": (5.0, 200.0),
    "rh": (10.0, 100.0),
    "roots_m": (0.1, 1.2),
    "row_cm": (10.0, 80.0),
    "since_pick_cday": (0.0, 200.0),
    "soil_c": (0.0, 40.0),
    "solar_mj_m2": (1.0, 32.0),
    "stays_good_cday": (5.0, 200.0),
    "temp_c": (20.0, 45.0),
    "tmax_c": (0.0, 40.0),
    "tmin_c": (-10.0, 25.0),
    "tmin_first_c": (0.0, 20.0),
    "tmin_next_c": (-10.0, 25.0),
    "tmin_second_c": (0.0, 20.0),
    "upper_c": (15.0, 40.0),
    "wet_c": (5.0, 35.0),
    "wet_h": (0.0, 24.0),
    "which": (1.0, 6.0),
    "wind_m_s": (0.0, 12.0),
}
"""Between what a blank is drawn; others as far as they allow. What gardens see; our own choice."""

EXAMPLE: Final[Mapping[str, str]] = {
    "apart_cm": "5",
    "crop": "carrot",
    "dry_days": "6",
    "elevation_m": "100",
    "et0_mm": "4",
    "hour": "14",
    "humid_first_h": "7",
    "humid_second_h": "7",
    "insect": "cabbage-maggot",
    "lower_c": "10",
    "plants_m2": "60",
    "plants_per_m": "80",
    "rh": "60",
    "roots_m": "0.4",
    "since_pick_cday": "60",
    "soil_c": "12",
    "stays_good_cday": "40",
    "temp_c": "32",
    "tmax_c": "20",
    "tmin_c": "4",
    "tmin_first_c": "11",
    "tmin_second_c": "11",
    "wet_c": "19",
    "wet_h": "10",
}
"""What stands in the blanks at first."""


class CurvePoint(msgspec.Struct, frozen=True, kw_only=True):
    """What was put in, and what came out; None where the law says nothing."""

    value: float | date
    result: float | None


class LawCurve(msgspec.Struct, frozen=True, kw_only=True):
    """One number of a law's result over one of its blanks.

    Parameters
    ----------
    over, of : str
        The blank, and the number of the result.
    at : float or date or None
        What stands in the blank.
    """

    law: str
    over: str
    of: str
    at: float | date | None
    points: list[CurvePoint]


def example_of(law: Law, site: Site, today: date) -> dict[str, str]:
    """Something to begin with in every blank that must be filled: the garden's place, the day, numbers."""
    own = {"lat": f"{site.lat_deg:.1f}", "date": today.isoformat()}
    if site.elevation_m is not None:
        own["elevation_m"] = f"{site.elevation_m:.0f}"
    return {
        blank.name: {**EXAMPLE, **own}[blank.name]
        for blank in law.blanks
        if blank.name in {**EXAMPLE, **own} and (blank.needed or blank.name == "rh") and blank.default is None
    }


def drawn_over(law: Law) -> list[Blank]:
    """The blanks a law can be drawn over."""
    return [blank for blank in law.blanks if blank.kind in ("number", "date")]


def law_curve(
    laws: Mapping[str, Law],
    name: str,
    given: Mapping[str, str],
    *,
    over: str = "",
    of: str = "",
    round_steps: bool = False,
) -> LawCurve | None:
    """Evaluate a law along one blank.

    Parameters
    ----------
    laws : mapping
    name : str
    given : mapping of str to str
        Every blank as a person typed it, in metric names.
    over : str
        The blank to draw over; the first number where empty.
    of : str
        The number of the result; the first where empty.
    round_steps : bool
        At round values of the blank, about `ROWS` of them, for a table; else evenly at `POINTS`.

    Returns
    -------
    LawCurve or None
        None where the result holds no number.

    Raises
    ------
    UnknownName, ParameterError
        For the law itself, a blank or a result it does not have.
    """
    law = find_law(laws, name)
    here = evaluate(laws, name, given)
    numbers = [key for key, value in here.result.items() if isinstance(value, float | int)]
    blanks = {blank.name: blank for blank in drawn_over(law)}
    if (not numbers and not of) or not blanks:
        return None
    if over and over not in blanks:
        raise ParameterError(
            f"{law.name} has no blank {over!r} to draw over.", f"One of: {', '.join(blanks)}."
        )
    blank = blanks[over or next((key for key in blanks if key in given), next(iter(blanks)))]
    key = of if of in here.result else numbers[0]
    points = []
    grid = _grid(blank, given.get(blank.name, ""))
    for value in _rounded(grid) if round_steps else grid:
        put = value.isoformat() if isinstance(value, date) else f"{value:.4f}"
        try:
            found = evaluate(laws, name, {**given, blank.name: put}).result.get(key)
        except ParameterError:
            found = None
        points.append(CurvePoint(value=value, result=_number(found)))
    return LawCurve(law=law.name, over=blank.name, of=key, at=_at(blank, given), points=points)


def _number(found: float | str | None) -> float | None:
    return float(found) if isinstance(found, float | int) else None


def _rounded(grid: list[float] | list[date]) -> list[float] | list[date]:
    """The same span in fewer, rounder steps."""
    if isinstance(grid[0], date):
        return grid[:: max(1, round(len(grid) / ROWS))]
    first, last = float(grid[0]), float(grid[-1])
    wanted = (last - first) / ROWS
    if wanted <= 0.0:
        return [first]
    size = 10.0 ** math.floor(math.log10(wanted))
    step = next(each * size for each in (1.0, 2.0, 2.5, 5.0, 10.0) if each * size >= wanted * 0.999)
    low, high = math.ceil(first / step - 1e-9), math.floor(last / step + 1e-9)
    return [round(at * step, 9) for at in range(low, high + 1)]


def _at(blank: Blank, given: Mapping[str, str]) -> float | date | None:
    text = given.get(blank.name, "")
    if blank.kind == "date":
        return date.fromisoformat(text) if text else None
    if not text:
        return float(blank.default) if isinstance(blank.default, float | int) else None
    return float(text.replace(",", "."))


def _grid(blank: Blank, text: str) -> list[float] | list[date]:
    if blank.kind == "date":
        year = date.fromisoformat(text).year if text else 2025
        return [date(year, 1, 1) + timedelta(days=step) for step in range(0, 365, YEAR_STEP_DAYS)]
    low, high = SPANS.get(blank.name, (max(blank.low, 0.0), min(blank.high, 100.0)))
    if text:
        # what is asked about lies on the picture
        asked = float(text.replace(",", "."))
        low, high = min(low, asked), max(high, asked)
    low, high = max(low, blank.low), min(high, blank.high)
    return [low + (high - low) * step / (POINTS - 1) for step in range(POINTS)]
