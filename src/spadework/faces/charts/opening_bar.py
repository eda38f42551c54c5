"""Opening bars: each planting's bar opens as leaves cover the soil, and fades where its end is uncertain."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date, timedelta
from typing import Final, TypeAlias

from markupsafe import Markup

from spadework.faces.charts.svg import element, line_path, number, picture, text
from spadework.faces.voice import Voice
from spadework.usecases.show_season import SeasonAnswer, SeasonBar

WIDTH: Final = 1180.0
LEFT: Final = 110.0
TOP: Final = 74.0
ROW: Final = 40.0
HALF: Final = 13.0

_X: TypeAlias = Callable[[date], float]


def opening_bars(season: SeasonAnswer, voice: Voice) -> Markup:
    """The year of the garden, a line for each bed."""
    days = (season.last - season.first).days + 1

    def x(day: date) -> float:
        return LEFT + (WIDTH - LEFT - 14.0) * min(max((day - season.first).days / days, 0.0), 1.0)

    height = TOP + ROW * len(season.beds) + 20.0
    parts = [_fades(), *_months(season, x, height), *_soil(season, x, voice), *_frost(season, x, voice)]
    for place, bed in enumerate(season.beds):
        middle = TOP + ROW * (place + 0.5)
        parts.append(text(6.0, middle + 4.0, bed.name, class_="bed-name"))
        parts.append(
            element("path", d=f"M{number(LEFT)},{number(middle + ROW / 2)}H{number(WIDTH)}", class_="row")
        )
        # plantings that share the bed at a time share its height
        lanes = _lanes(bed.bars)
        many = max(lanes, default=0) + 1
        for bar, lane in zip(bed.bars, lanes, strict=True):
            part = 2 * HALF / many
            at = middle - HALF + part * (lane + 0.5)
            parts += _bar(bar, x, at, part / 2 - 0.5, place + lane)
    now = x(season.today)
    # beneath the bars, so that their names stay readable
    line = element("path", d=f"M{number(now)},{number(TOP - 10)}V{number(height - 14)}", class_="now")
    parts.insert(1, line)
    parts.append(text(now + 4.0, height - 4.0, "today", class_="now-word"))
    return picture(
        WIDTH,
        height,
        parts,
        title=f"The year bed by bed, {voice.day(season.first)} to {voice.day(season.last)}.",
        about="The table says the same.",
        class_="season",
    )


def _lanes(bars: Sequence[SeasonBar]) -> list[int]:
    free: list[date] = []
    lanes = []
    for bar in bars:
        began = bar.opens[0][0]
        lane = next((at for at, until in enumerate(free) if until <= began), len(free))
        if lane == len(free):
            free.append(bar.ends)
        else:
            free[lane] = bar.ends
        lanes.append(lane)
    return lanes


def _bar(bar: SeasonBar, x: _X, middle: float, half: float, place: int) -> list[str]:
    upper = [(x(day), middle - max(half * share, 0.6)) for day, share in bar.opens]
    lower = [(x(day), middle + max(half * share, 0.6)) for day, share in bar.opens]
    last = bar.opens[-1][1]
    end = max(x(bar.ends), upper[-1][0] + 2.0)
    upper.append((end, middle - max(half * last, 0.6)))
    lower.append((end, middle + max(half * last, 0.6)))
    shape = line_path([*upper, *reversed(lower)], close=True)
    tone = place % 3
    parts = [element("path", d=shape, class_=f"bar tone-{tone}{' over' if bar.over else ''}")]
    if not bar.over:
        fade = x(bar.ready.q50) if bar.ready is not None and bar.ready.q50 is not None else end - 24.0
        if fade < end:
            parts.append(
                element(
                    "rect",
                    x=fade,
                    y=middle - half - 1,
                    width=max(end - fade + 1.0, 1.0),
                    height=2 * half + 2,
                    fill="url(#fade)",
                )
            )
    begin = next((px for px, py in upper if middle - py > 0.45 * half), upper[0][0])
    if half >= 5.5 and end - begin > 7.0 * len(bar.name):
        parts.append(text(begin + 6.0, middle + 4.0, bar.name, class_="bar-word"))
    return parts


def _fades() -> str:
    """The ground comes through where an end is uncertain."""
    stops = element("stop", offset="0", stop_color="#eef1ea", stop_opacity="0") + element(
        "stop", offset="1", stop_color="#eef1ea", stop_opacity="0.85"
    )
    return element("defs", element("linearGradient", stops, id="fade"))


def _months(season: SeasonAnswer, x: _X, height: float) -> list[str]:
    parts = []
    day = season.first
    while day <= season.last:
        at = x(day)
        parts.append(element("path", d=f"M{number(at)},18V{number(height - 14)}", class_="month"))
        parts.append(text(at + 4.0, 14.0, f"{day:%b}", class_="month-word"))
        day = (day + timedelta(days=32)).replace(day=1)
    return parts


def _soil(season: SeasonAnswer, x: _X, voice: Voice) -> list[str]:
    if not season.soil:
        return []

    def y(soil_c: float) -> float:
        return 50.0 - min(max(soil_c, 0.0), 25.0) * 1.1

    points = [(x(day), y(soil_c)) for day, soil_c in season.soil]
    parts = [
        element("path", d=f"M{number(LEFT)},{number(y(level))}H{number(WIDTH)}", class_="level")
        for level in (5.0, 10.0, 15.0)
    ]
    parts += [
        text(LEFT - 44.0, y(level) + 3.0, voice.temp(level), class_="level-word") for level in (5.0, 15.0)
    ]
    return [*parts, element("path", d=line_path(points), class_="soil")]


def _frost(season: SeasonAnswer, x: _X, voice: Voice) -> list[str]:
    parts = []
    behind, ahead = season.frost_behind, season.frost_ahead
    for odds, spring in ((behind, True), (ahead, False)):
        day = None if odds is None else (odds.q90 if spring else odds.q10)
        if odds is None or day is None:
            continue
        moved = next(
            (day.replace(year=year) for year in (season.first.year, season.last.year)
             if season.first <= day.replace(year=year) <= season.last),
            None,
        )  # fmt: skip
        if moved is None:
            continue
        first, last = (season.first, moved) if spring else (moved, season.last)
        if x(last) > x(first):
            parts.append(element("path", d=f"M{number(x(first))},60H{number(x(last))}", class_="frost"))
        if spring:
            years = round(0.9 * odds.years)
            word = f"frost behind us in {years} of {odds.years} years from {voice.calendar_day(moved)}"
            parts.append(text(x(moved) + 6.0, 64.0, word, class_="frost-word"))
    return parts
