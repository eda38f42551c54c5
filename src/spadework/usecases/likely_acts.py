"""What is likely to be told here and now: by the day's jobs, and by what is told again and again.

A habit is one act on one bed or planting, told on several days. It is due as the days since it was last told
come up to the days there usually are between. Ranking and limits are our own rule.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from datetime import date, timedelta
from itertools import pairwise
from pathlib import Path
from statistics import median
from typing import Any, Final, Literal, TypeAlias

import msgspec

from spadework import units
from spadework.advice.job import Job
from spadework.errors import ParameterError
from spadework.garden import entries as kinds
from spadework.garden.entries import Entry, Payload
from spadework.garden.phrases import day_text
from spadework.garden.state import Garden
from spadework.usecases.job_form import NumberAsked, numbers_asked
from spadework.usecases.jobs_today import Day, open_day
from spadework.usecases.keep_book import Act
from spadework.usecases.show_plantings import planting_name
from spadework.usecases.write_answer import WriteAnswer, Writing, open_for_writing, write

Sort: TypeAlias = Literal["job", "picked", "watered", "rain gauge", "thermometer", "soil felt", "seen"]

BACK_DAYS: Final = 45
"""Habits are read from as many days back."""
_NEAR_DAYS: Final = 21
"""What was seen within as many days of this one in an earlier year is looked for again."""
_LAPSED: Final = 4.0
"""After so many usual gaps without it, it is no habit any more."""
_RIPE: Final = 0.6
"""Share of the usual gap from which on it is offered."""
_MOST_JOBS: Final = 3
_JOBS_TOLD: Final = ("pick", "water", "keep damp", "count", "weed")
"""Kinds of job whose doing is one number, or none."""
_RAIN_BACK_DAYS: Final = 14
_WET: Final = 1.0
"""Rain that makes a gauge worth reading.  [mm]"""

FEELS: Final = ("dry", "damp", "wet")

NUMBERS: Final = ("kg", "pieces", "litres", "minutes", "rain_mm", "now_c", "min_c", "max_c", "plants")
"""Numbers that may be said with an act that is offered."""


class LikelyAct(msgspec.Struct, frozen=True, kw_only=True):
    """One act offered.

    Parameters
    ----------
    label : str
        "Watered Gate 4".
    because : str
        Why it is offered, in a sentence without a stop.
    bed, planting, job, what : str
        What it is about; `what` is the pest seen, or where a thermometer hangs.
    numbers : list of NumberAsked
        What only the person knows; `planned` is what was told last.
    choices : list of str
        Words to choose one of.
    due : float
        What it is ranked by.
    """

    sort: Sort
    label: str
    because: str
    bed: str
    planting: str
    job: str
    what: str
    numbers: list[NumberAsked]
    choices: list[str]
    due: float


def likely_acts(path: Path, today: date, *, most: int = 8) -> list[LikelyAct]:
    """The acts likeliest to be told now, likeliest first.

    Parameters
    ----------
    path : Path
    today : date
    most : int

    Raises
    ------
    GardenError, RecordError, StoreError
    """
    day = open_day(path, today)
    us = day.setting.site.units == "us"
    jobs = [job for job in day.jobs if job.kind in _JOBS_TOLD and not _asks_much(job, us)][:_MOST_JOBS]
    found = [_of_job(job, us) for job in jobs]
    taken = {("watered", job.bed) for job in jobs if job.kind in ("water", "keep damp")}
    taken |= {("picked", job.planting) for job in jobs if job.kind == "pick"}
    habits = sorted(_habits(day, us), key=lambda each: (-each.due, each.label))
    found += [
        each
        for each in habits
        if (each.sort, each.planting if each.sort == "picked" else each.bed) not in taken
    ]
    return found[:most]


def _asks_much(job: Job, us: bool) -> bool:
    return len(numbers_asked(job, us=us)) > 2 or any(
        isinstance(payload, (kinds.Sown, kinds.PlantedOut)) for payload in job.done
    )


def _of_job(job: Job, us: bool) -> LikelyAct:
    return LikelyAct(
        sort="job",
        label=job.act,
        because="on today's round",
        bed=job.bed,
        planting=job.planting,
        job=job.id,
        what="",
        numbers=numbers_asked(job, us=us),
        choices=[],
        due=2.0,
    )


def _habits(day: Day, us: bool) -> Iterator[LikelyAct]:
    garden, today = day.garden, day.scene.today
    first = today - timedelta(days=BACK_DAYS)
    told: dict[tuple[Sort, str, str], list[Entry]] = defaultdict(list)
    for entry in garden.entries:
        if first <= entry.happened_on <= today and (which := _which(garden, entry, today)):
            told[which].append(entry)
    rained = _rained(day)
    for (sort, about, what), entries in told.items():
        if (found := _habit(garden, today, sort, about, what, entries, rained, us)) is not None:
            yield found
    yield from _seen(garden, today)


def _which(garden: Garden, entry: Entry, today: date) -> tuple[Sort, str, str] | None:
    match entry.act:
        case kinds.Picked(last=False) if entry.planting in garden.plantings:
            planting = garden.plantings[entry.planting]
            over = planting.picking_over or not planting.stands(today)
            return None if over else ("picked", entry.planting, "")
        case kinds.Watered() if entry.bed in garden.beds:
            return ("watered", entry.bed, "")
        case kinds.RainGauge():
            return ("rain gauge", "", "")
        case kinds.ThermometerRead(place=place):
            return ("thermometer", entry.bed, place)
        case kinds.SoilFelt() if entry.bed in garden.beds:
            return ("soil felt", entry.bed, "")
        case _:
            return None


def _habit(
    garden: Garden,
    today: date,
    sort: Sort,
    about: str,
    what: str,
    entries: Sequence[Entry],
    rained: Mapping[date, float],
    us: bool,
) -> LikelyAct | None:
    days = sorted({entry.happened_on for entry in entries})
    since = (today - days[-1]).days
    gap = median((b - a).days for a, b in pairwise(days)) if len(days) > 1 else 7.0
    due = since / gap
    wet_mm = sum(rain for day, rain in rained.items() if day > days[-1])
    if sort == "rain gauge" and since > 0 and wet_mm >= _WET:
        due = max(due, 1.0) + 0.5
    if since == 0 or due < _RIPE or due > _LAPSED:
        return None
    planting = garden.plantings.get(about) if sort == "picked" else None
    bed = about if sort != "picked" else ("" if planting is None else planting.bed_on(today))
    place = garden.beds[bed].name if bed in garden.beds else ""
    last = entries[-1].act
    assert last is not None
    usual = f"last {day_text(days[-1])}"
    if len(days) > 2:
        usual += ", usually every day" if gap <= 1 else f", usually every {gap:.0f} days"
    if sort == "rain gauge" and wet_mm >= _WET:
        usual = f"about {wet_mm:.0f} mm since it was read {day_text(days[-1])}"
    name = "" if planting is None else planting_name(planting, "american" if us else "british")
    where = f" from {place}" if place and sort == "picked" else ""
    label = {
        "picked": f"Picked {name}{where}",
        "watered": f"Watered {place}",
        "rain gauge": "Read the rain gauge",
        "thermometer": f"Read the thermometer: {place or what}{' soil' if what == 'soil' else ''}",
        "soil felt": f"Felt the soil in {place}",
    }[sort]
    return LikelyAct(
        sort=sort,
        label=label,
        because=usual,
        bed=bed,
        planting="" if planting is None else planting.key,
        job="",
        what=what,
        numbers=_numbers(last, us),
        choices=list(FEELS) if sort == "soil felt" else [],
        due=round(min(due, 1.9), 3),
    )


def _numbers(last: Payload, us: bool) -> list[NumberAsked]:
    def asked(name: str, label: str, unit: str, planned: float | None = None) -> NumberAsked:
        shown = None if planned is None else float(f"{planned:.3g}")
        return NumberAsked(name=name, label=label, unit=unit, planned=shown, must=True)

    match last:
        case kinds.Picked(pieces=pieces, kg=kg) if kg is None and pieces is not None:
            return [asked("pieces", "Pieces", "")]
        case kinds.Picked():
            return [asked("kg", "Picked", "lb" if us else "kg")]
        case kinds.Watered(minutes=minutes) if minutes is not None:
            return [asked("minutes", "Water ran", "minutes", minutes)]
        case kinds.Watered(litres=litres):
            factor = units.L_PER_GALLON if us else 1.0
            unit = "gal" if us else "litres"
            return [asked("litres", "Water given", unit, None if litres is None else litres / factor)]
        case kinds.RainGauge():
            return [asked("rain_mm", "In the gauge", "in" if us else "mm")]
        case kinds.ThermometerRead(now_c=now_c) if now_c is not None:
            return [asked("now_c", "It reads", "°F" if us else "°C")]
        case kinds.ThermometerRead(max_c=max_c):
            both = [asked("min_c", "Lowest", "°F" if us else "°C")]
            return both if max_c is None else [*both, asked("max_c", "Highest", "°F" if us else "°C")]
        case _:
            return []


def _seen(garden: Garden, today: date) -> Iterator[LikelyAct]:
    """Pests seen lately, or about this time of an earlier year."""
    seen: dict[str, list[Entry]] = defaultdict(list)
    for entry in garden.entries:
        if isinstance(entry.act, kinds.Seen) and entry.act.sort == "pest" and entry.happened_on <= today:
            apart = (today - entry.happened_on).days
            if apart <= BACK_DAYS or min(apart % 365, 365 - apart % 365) <= _NEAR_DAYS:
                seen[entry.act.what].append(entry)
    for what, entries in seen.items():
        last = entries[-1]
        place = garden.beds[last.bed].name if last.bed in garden.beds else ""
        at = f" in {place}" if place else ""
        on = day_text(last.happened_on, year=last.happened_on.year != today.year)
        yield LikelyAct(
            sort="seen",
            label=f"Saw {what}",
            because=f"seen{at} on {on}",
            bed=last.bed,
            planting="",
            job="",
            what=what,
            numbers=[
                NumberAsked(name="plants", label="On how many plants", unit="", planned=None, must=False)
            ],
            choices=[],
            due=0.7 + 0.05 * len(entries),
        )


def _rained(day: Day) -> dict[date, float]:
    """Rain of the record on the days before today.  [mm]"""
    series = day.setting.weather()
    if series is None:
        return {}
    days = zip(series.dates.astype(object), series.rain_mm, strict=True)
    first = day.scene.today - timedelta(days=_RAIN_BACK_DAYS)
    return {on: float(rain) for on, rain in days if first <= on < day.scene.today and rain >= 0.0}


def tell_likely(
    path: Path,
    how: Writing,
    sort: str,
    *,
    bed: str = "",
    planting: str = "",
    what: str = "",
    numbers: Mapping[str, float] | None = None,
    choice: str = "",
) -> WriteAnswer:
    """Write one of the acts that were offered; a job is done with `do_jobs.do_job` instead.

    Parameters
    ----------
    path : Path
    how : Writing
    sort, bed, planting, what : str
        As offered.
    numbers : mapping of str to float or None
        In the garden's own units.
    choice : str

    Raises
    ------
    ParameterError
        If a number is missing, or the act is none of those offered.
    UnknownName, StoreReadOnly, StoreError
    """
    folder, state = open_for_writing(path)
    us = folder.site.units == "us"
    given = {name: _kept(name, value, us) for name, value in (numbers or {}).items()}
    payload = _payload(state.garden, how, sort, what, given, choice)
    act = Act(payload=payload, on=how.day, bed="" if planting else bed, planting=planting)
    return write(folder, state, [act], how, question="book")


def _kept(name: str, value: float, us: bool) -> float:
    """A number of the garden's units as it is kept."""
    if not us:
        return value
    if name.endswith("_c"):
        return units.c_from_f(value)
    factor = {"kg": units.KG_PER_POUND, "litres": units.L_PER_GALLON, "rain_mm": units.MM_PER_INCH}
    return value * factor.get(name, 1.0)


def _payload(
    garden: Garden, how: Writing, sort: str, what: str, given: Mapping[str, float], choice: str
) -> Payload:
    def need(*names: str) -> dict[str, Any]:
        found = {name: given[name] for name in names if name in given}
        if not found:
            raise ParameterError("How much was it?", "Give the number.")
        return found

    match sort:
        case "picked":
            return kinds.Picked(**_whole(need("kg", "pieces"), "pieces"))
        case "watered":
            return kinds.Watered(**need("litres", "minutes"))
        case "rain gauge":
            last = [
                each.happened_on
                for each in garden.entries
                if isinstance(each.act, kinds.RainGauge) and each.happened_on < how.day
            ]
            days = max(1, (how.day - max(last)).days) if last else 1
            return kinds.RainGauge(**need("rain_mm"), days=min(days, 31))
        case "thermometer" if what in ("air", "soil", "leaf", "tunnel", "frame"):
            place: Any = what
            return kinds.ThermometerRead(place=place, **need("now_c", "min_c", "max_c"))
        case "soil felt" if choice in FEELS:
            finger: Any = choice
            return kinds.SoilFelt(finger=finger)
        case "seen" if what:
            return kinds.Seen(what=what, sort="pest", **_whole(dict(given), "plants"))
        case _:
            raise ParameterError("That is none of the acts offered.", "Say it in the line instead.")


def _whole(given: dict[str, Any], name: str) -> dict[str, Any]:
    if name in given:
        if given[name] != int(given[name]) or given[name] < 0:
            raise ParameterError(f"{given[name]:g} is not a whole number.", "Count them.")
        given[name] = int(given[name])
    return given
