"""Opening bars: each planting's bar opens as leaves cover the soil, and fades where its end is uncertain."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final

from markupsafe import Markup

from spadework.faces.charts.svg import element, line_path, number, picture, text
from spadework.faces.voice import Voice, in_years
from spadework.usecases.show_season import SeasonAnswer, SeasonBar
from spadework.usecases.try_sowing import Trial

NAMES_WIDTH: Final = 104.0
WIDTH: Final = 1070.0
TOP: Final = 92.0
ROOM: Final = 9.0
"""Between a bed's bars and its line."""

HALF: Final = 14.0
LANE_HALF: Final = 8.5
"""Half the height of a bar that has its bed alone, and of one that shares it."""

TOUCHED: Final = 44.0
"""Height of what is taken hold of with a thumb."""

LETTER: Final = 6.6

HOLDS_A_WORD: Final = 6.0
"""A bar that nowhere opens further, to each side, is too thin for its name. Our own rule."""


@dataclass(frozen=True)
class Frame:
    """The year as a width."""

    first: date
    last: date

    @property
    def day_width(self) -> float:
        """Of one day."""
        return (WIDTH - 16.0) / ((self.last - self.first).days + 1)

    def x(self, day: date) -> float:
        """Where a day lies; what is beyond the year lies at its edge."""
        days = min(max((day - self.first).days, 0), (self.last - self.first).days + 1)
        return 2.0 + self.day_width * days


@dataclass(frozen=True)
class Row:
    """A bed's place in the picture."""

    key: str
    name: str
    top: float
    height: float
    lanes: tuple[int, ...]
    many: int

    def place(self, lane: int) -> tuple[float, float]:
        """Middle of a lane, and half the height of its bar."""
        half = HALF if self.many == 1 else LANE_HALF
        step = (self.height - 2 * ROOM) / self.many
        return self.top + ROOM + step * (lane + 0.5), half


def rows_of(season: SeasonAnswer, trials: Sequence[Trial]) -> list[Row]:
    """Beds one beneath the other, each as high as its bars need; those of a trial lie lowest in their bed."""
    rows = []
    top = TOP
    for bed in season.beds:
        lanes = _lanes(bed.bars)
        tried = sum(trial.bed == bed.bed for trial in trials)
        many = max(lanes, default=-1) + 1 + tried or 1
        height = 2 * ROOM + (2 * HALF if many == 1 else many * (2 * LANE_HALF + 2.0))
        rows.append(Row(bed.bed, bed.name, top, height, tuple(lanes), many))
        top += height
    return rows


def bed_names(season: SeasonAnswer, trials: Sequence[Trial] = ()) -> Markup:
    """The names of the beds, each at the height of its bars; they stay when the year is moved."""
    rows = rows_of(season, trials)
    height = _height(rows)
    parts = [text(0.0, row.top + row.height / 2 + 4.5, row.name, class_="bed-name") for row in rows]
    parts.append(text(0.0, 34.0, "soil", class_="level-word"))
    return picture(
        NAMES_WIDTH,
        height,
        parts,
        title="Beds:",
        about=", ".join(row.name for row in rows),
        class_="season-names",
        size=(NAMES_WIDTH, height),
    )


def opening_bars(season: SeasonAnswer, voice: Voice, trials: Sequence[Trial] = ()) -> Markup:
    """The year of the garden, a line for each bed; what is only tried out can be taken hold of."""
    frame = Frame(season.first, season.last)
    rows = rows_of(season, trials)
    height = _height(rows)
    parts = [_fades(), *_months(season, frame, height)]
    now = frame.x(season.today)
    # beneath the bars, so that their names stay readable
    parts.append(element("path", d=f"M{number(now)},20V{number(height - 16)}", class_="now"))
    parts += [*_soil(season, frame, voice), *_frost(season, frame, voice)]
    handles = []
    for place, (row, bed) in enumerate(zip(rows, season.beds, strict=True)):
        parts.append(element("path", d=f"M0,{number(row.top + row.height)}H{number(WIDTH)}", class_="row"))
        for bar, lane in zip(bed.bars, row.lanes, strict=True):
            parts += _bar(bar, frame, *row.place(lane), tone=(place + lane) % 3)
        lane = max(row.lanes, default=-1) + 1
        for at, trial in enumerate(trials):
            if trial.bed == bed.bed:
                handles.append(_handle(trial, at, frame, row.place(lane), voice))
                lane += 1
    parts += handles
    parts.append(text(now + 5.0, height - 3.0, "today", class_="now-word"))
    return picture(
        WIDTH,
        height,
        parts,
        title=f"The year bed by bed, {voice.day(season.first)} to {voice.day(season.last)}.",
        about="The table says the same.",
        class_="season",
        links=bool(trials),
        size=(WIDTH, height),
    )


def trial_bar(season: SeasonAnswer, trials: Sequence[Trial], at: int, voice: Voice) -> str:
    """What is drawn of one trial: its bar, its odds beside it, and the room a thumb needs."""
    rows = rows_of(season, trials)
    trial = trials[at]
    row = next(row for row in rows if row.key == trial.bed)
    lane = max(row.lanes, default=-1) + 1 + sum(each.bed == trial.bed for each in trials[:at])
    return _trial(trial, Frame(season.first, season.last), row.place(lane), voice)


def _height(rows: Sequence[Row]) -> float:
    return (rows[-1].top + rows[-1].height if rows else TOP) + 24.0


def _lanes(bars: Sequence[SeasonBar]) -> list[int]:
    """Which of a bed's lanes each bar lies in: plantings that share it at a time share its height."""
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


def _shape(bar: SeasonBar, frame: Frame, middle: float, half: float) -> tuple[str, float, float]:
    """The outline, where it is open enough for its name, and where it ends."""
    upper = [(frame.x(day), middle - max(half * share, 0.7)) for day, share in bar.opens]
    end = max(frame.x(bar.ends), upper[-1][0] + 2.0)
    upper.append((end, middle - max(half * bar.opens[-1][1], 0.7)))
    lower = [(x, 2 * middle - y) for x, y in upper]
    begin = next((x for x, y in upper if middle - y >= HOLDS_A_WORD), upper[0][0])
    return line_path([*upper, *reversed(lower)], close=True), begin, end


def _bar(bar: SeasonBar, frame: Frame, middle: float, half: float, *, tone: int) -> list[str]:
    shape, begin, end = _shape(bar, frame, middle, half)
    parts = [element("path", d=shape, class_=f"bar tone-{tone}{' over' if bar.over else ''}")]
    if not bar.over:
        parts += _faded(bar, frame, middle, half, end)
    return [*parts, *_word(bar, begin, end, middle, half)]


def _word(bar: SeasonBar, begin: float, end: float, middle: float, half: float) -> list[str]:
    """A bar's name: in it where it has room, else across it in ink."""
    name, class_ = bar.name, "bar-word"
    long = LETTER * len(name)
    opens = half * max(share for _, share in bar.opens)
    if end - begin > long + 12.0 and opens >= HOLDS_A_WORD:
        return [text(begin + 6.0, middle + 4.0, name, class_=class_)]
    at = min(begin, WIDTH - long - 4.0)
    return [text(at, middle + 4.0, name, class_=f"{class_} across")]


def _faded(bar: SeasonBar, frame: Frame, middle: float, half: float, end: float) -> list[str]:
    ready = bar.ready.q50 if bar.ready is not None else None
    begin = frame.x(ready) if ready is not None else end - 30.0
    if begin >= end:
        return []
    size = {"width": max(end - begin + 1.0, 1.0), "height": 2 * half + 2.0}
    return [element("rect", x=begin, y=middle - half - 1.0, **size, fill="url(#fade)")]


def _handle(trial: Trial, at: int, frame: Frame, place: tuple[float, float], voice: Voice) -> str:
    """A trial as something to take hold of: by pointer, or by the arrow keys."""
    first = frame.first
    return element(
        "g",
        _trial(trial, frame, place, voice),
        class_="trial",
        id=f"trial-{at}",
        tabindex="0",
        role="slider",
        aria_label=f"{'Set out' if trial.set_out else 'Sow'} {trial.name} in {trial.bed_name}",
        aria_valuemin=str((trial.today - first).days),
        aria_valuemax=str((trial.latest - first).days),
        aria_valuenow=str((trial.on - first).days),
        aria_valuetext=f"{voice.day(trial.on)}: {in_years(trial.overall)}",
        data_at=str(at),
        data_day=number(frame.day_width),
        data_first=first.isoformat(),
    )


def _trial(trial: Trial, frame: Frame, place: tuple[float, float], voice: Voice) -> str:
    middle, half = place
    shape, begin, end = _shape(trial.bar, frame, middle, half)
    start = frame.x(trial.on)
    parts = [
        element(
            "rect",
            x=start - 14.0,
            y=middle - TOUCHED / 2,
            width=max(end - start, 44.0) + 14.0,
            height=TOUCHED,
            class_="hold",
        ),
        element("path", d=shape, class_="bar"),
        *_faded(trial.bar, frame, middle, half, end),
        element("path", d=f"M{number(start)},{number(middle - half)}v{number(2 * half)}", class_="grip"),
        element("circle", cx=start, cy=middle, r=7.0, class_="grip-head"),
        *_word(trial.bar, begin, end, middle, half),
        text(
            start - 12.0,
            middle + 4.0,
            voice.calendar_day(trial.on),
            class_="trial-day",
        ),
    ]
    odds = in_years(trial.overall)
    if end + LETTER * len(odds) < WIDTH:
        parts.append(text(end + 6.0, middle + 4.0, odds, class_="trial-odds"))
    else:
        parts.append(text(WIDTH - 2.0, middle - half - 3.0, odds, class_="trial-odds last"))
    return "".join(parts)


def _fades() -> str:
    """The ground comes through where an end is uncertain."""
    stops = element("stop", offset="0", stop_color="#eef1ea", stop_opacity="0") + element(
        "stop", offset="1", stop_color="#eef1ea", stop_opacity="0.85"
    )
    return element("defs", element("linearGradient", stops, id="fade"))


def _months(season: SeasonAnswer, frame: Frame, height: float) -> list[str]:
    parts = []
    day = season.first
    while day <= season.last:
        at = frame.x(day)
        parts.append(element("path", d=f"M{number(at)},20V{number(height - 16)}", class_="month"))
        parts.append(text(at + 5.0, 14.0, f"{day:%b}", class_="month-word"))
        day = (day + timedelta(days=32)).replace(day=1)
    return parts


def _soil(season: SeasonAnswer, frame: Frame, voice: Voice) -> list[str]:
    if not season.soil:
        return []

    def y(soil_c: float) -> float:
        return 62.0 - min(max(soil_c, 0.0), 28.0) * 1.35

    parts = []
    for level in (5.0, 20.0):
        parts.append(element("path", d=f"M0,{number(y(level))}H{number(WIDTH)}", class_="level"))
        parts.append(text(4.0, y(level) - 2.0, voice.temp(level), class_="level-word"))
    return [
        *parts,
        element(
            "path", d=line_path([(frame.x(day), y(soil_c)) for day, soil_c in season.soil]), class_="soil"
        ),
    ]


def _frost(season: SeasonAnswer, frame: Frame, voice: Voice) -> list[str]:
    parts = []
    behind, ahead = season.frost_behind, season.frost_ahead
    for odds, spring in ((behind, True), (ahead, False)):
        day = None if odds is None else (odds.q90 if spring else odds.q10)
        if odds is None or day is None:
            continue
        moved = next(
            (
                there
                for year in (season.first.year, season.last.year)
                if season.first <= (there := day.replace(year=year)) <= season.last
            ),
            None,
        )
        if moved is None:
            continue
        first, last = (season.first, moved) if spring else (moved, season.last)
        if frame.x(last) > frame.x(first):
            bar = f"M{number(frame.x(first))},76H{number(frame.x(last))}"
            parts.append(element("path", d=bar, class_="frost"))
        if spring:
            years = round(0.9 * odds.years)
            word = f"frost behind us in {years} of {odds.years} years from {voice.calendar_day(moved)}"
            parts.append(text(frame.x(moved) + 7.0, 80.0, word, class_="frost-word"))
    return parts
