"""The next sowing of what stands: today, some days on, or in two steps, against the picking wanted."""

from __future__ import annotations

from datetime import date
from typing import Final, Literal

import msgspec
import numpy as np

from spadework.advice.cautions import cautions_of
from spadework.advice.job import AHEAD_DAYS
from spadework.advice.odds import Caution, DateOdds, Fact, Odds, date_odds, odds_of
from spadework.advice.scene import Plot, Scene
from spadework.advice.succession import USUAL_EVERY, NextSowing, feeds_days, last_ready, next_sowing
from spadework.crops.sheet import Sheet
from spadework.types import Floats

SMALL_GAIN_DAYS: Final = 0.5
"""A later or second sowing must feed so much longer to be worth remembering. Our own rule."""

FOLLOWED_DAYS: Final = 200
"""Ready dates are told within so many days from today."""

NextAct = Literal["sow today", "wait", "two steps"]


class NextOption(msgspec.Struct, frozen=True, kw_only=True):
    """One way of sowing next.

    Parameters
    ----------
    act : NextAct
    days : list of date
        On which it is sown; two of them, half each, in two steps.
    ready : list of DateOdds
        Of each.
    fed_days : float  [d]
        Days with something to pick, of those wanted, mean of the years.
    fed_by_year : list of float  [d]
    gap_days : float  [d]
        Days without a picking before it, middle of the years; 0 where it comes in time.
    overall : Odds
        Years in which it gets there.
    """

    act: NextAct
    days: list[date]
    ready: list[DateOdds]
    fed_days: float
    fed_by_year: list[float]
    gap_days: float
    overall: Odds


class NextAnswer(msgspec.Struct, frozen=True, kw_only=True):
    """Ways of sowing next, side by side, the best first in `verdict` and `best`."""

    question: str
    crop: str
    today: date
    way: str
    standing: int
    before: DateOdds | None
    wanted_days: float
    verdict: NextAct
    best: int
    reason: str
    options: list[NextOption]
    facts: list[Fact]
    assumptions: list[str]
    cautions: list[Caution]
    note: str


def weigh_sow_next(scene: Scene, sheet: Sheet, plots: list[Plot], *, crop: str, way: str) -> NextAnswer:
    """Sow the next today, some days on, or half now and half later.

    Parameters
    ----------
    scene : Scene
    sheet : Sheet
    plots : list of Plot
        What stands of it; may be empty.
    crop : str
        Its name in the garden's words.
    way : str
        "sown", or "raised" for what is started inside and set out.

    Notes
    -----
    A sowing feeds for the days between sowings. It is begun when what stands before it is over, however early
    it is ready, as long as it still stands good; half a sowing feeds half as long.
    """
    weeks = sheet.sowing.weeks_to_set_out if way == "raised" else None
    before = last_ready(scene, plots) if plots else None
    run = next_sowing(
        sheet, scene.ground, scene.column, before=before, weeks_inside=0.0 if weeks is None else weeks.value
    )
    every = feeds_days(sheet) or USUAL_EVERY
    over = run.ready[:, 0] if before is None else before + every
    stands = max(sheet.harvest.days.value, every)
    fed = np.stack([_fed(run, [day], over, every, stands) for day in range(AHEAD_DAYS + 1)])
    best_day = _first_best(fed.mean(axis=1))
    days = sorted({best_day, 7, 14} - {0})
    options = [_option(scene, run, "sow today", [0], over, every, stands)]
    options += [_option(scene, run, "wait", [day], over, every, stands) for day in days]
    halves = np.array([_fed(run, [0, day], over, every, stands).mean() for day in range(1, AHEAD_DAYS + 1)])
    alike = 1 + np.flatnonzero(halves >= halves.max() - 1e-6)
    second = int(alike[np.argmin(np.abs(alike - every / 2.0))])
    options.append(_option(scene, run, "two steps", [0, second], over, every, stands))
    best = _chosen(options)
    found = options[best]
    return NextAnswer(
        question="sow next",
        crop=crop,
        today=scene.today,
        way=way,
        standing=len(plots),
        before=None if before is None else _dates(scene, before),
        wanted_days=every,
        verdict=found.act,
        best=best,
        reason=_reason(options, found, every, before is None),
        options=options,
        facts=_facts(sheet, every),
        assumptions=[
            f"One sowing is picked for about {every:.0f} days, and what stands is picked until it is over.",
            "The row is kept damp until it is up." if way == "sown" else "Raised in warmth, then set out.",
        ],
        cautions=cautions_of(sheet),
        note=scene.ground.years.note,
    )


def _fed(run: NextSowing, days: list[int], over: Floats, every: float, stands: float) -> Floats:
    """Days with something to pick, of the `every` days after what stands is over, [year]."""
    end = over + every
    eaten, total = over, np.zeros_like(over)
    for day in days:
        ready = run.ready[:, day]
        begins = np.maximum(ready, eaten)
        ends = np.minimum(np.minimum(begins + every / len(days), ready + stands), end)
        part = np.maximum(ends - begins, 0.0)
        total = total + part * run.arrives[:, day]
        eaten = np.where(part > 0.0, np.maximum(ends, eaten), eaten)
    return np.asarray(total)


def _first_best(fed: Floats) -> int:
    """The first day that feeds, within little, as long as the best."""
    return int(np.argmax(fed >= fed.max() - 1e-6))


def _option(
    scene: Scene, run: NextSowing, act: NextAct, days: list[int], over: Floats, every: float, stands: float
) -> NextOption:
    fed = _fed(run, days, over, every, stands)
    gap = np.maximum(run.ready[:, days[0]] - over, 0.0)
    return NextOption(
        act=act,
        days=[scene.day(day) for day in days],
        ready=[_dates(scene, run.ready[:, day]) for day in days],
        fed_days=round(float(fed.mean()), 1),
        fed_by_year=[round(float(one), 1) for one in fed],
        gap_days=round(float(np.median(gap)), 1),
        overall=odds_of(np.mean([run.arrives[:, day] for day in days], axis=0), scene.made),
    )


def _chosen(options: list[NextOption]) -> int:
    """The one that feeds longest; what is simpler stands unless another feeds clearly longer."""
    best = 0
    for index, option in enumerate(options):
        if option.fed_days > options[best].fed_days + SMALL_GAIN_DAYS:
            best = index
    return best


def _dates(scene: Scene, days: Floats) -> DateOdds:
    """Dates with spread of something some days from today, by year."""
    along = np.arange(FOLLOWED_DAYS, dtype=np.float64)
    reached = (days[:, None] <= along[None, :]).astype(np.float64)
    dates = np.datetime64(scene.today, "D") + np.arange(FOLLOWED_DAYS)
    return date_odds(reached, dates, scene.made)


def _reason(options: list[NextOption], best: NextOption, every: float, alone: bool) -> str:
    """The one or two numbers that decide."""
    now = options[0]
    if alone:
        return f"nothing of it stands: sown today it feeds you about {now.fed_days:.0f} of {every:.0f} days."
    late = f" and {now.gap_days:.0f} days are without any before it" if now.gap_days >= 1.0 else ""
    told = (
        f"sown today it feeds you {now.fed_days:.0f} of the {every:.0f} days after what stands is over{late}"
    )
    if best is now and now.fed_days < 1.0:
        return (
            f"sown today it comes {now.gap_days:.0f} days after what stands is over, and each day of waiting "
            "adds to that."
        )
    if best is now:
        return f"{told}; no other day does clearly better."
    what = "half now and half later" if best.act == "two steps" else "later"
    return f"{told}; {what} {best.fed_days:.0f}."


def _facts(sheet: Sheet, every: float) -> list[Fact]:
    own = sheet.next.every_days
    longer = own is not None and every > own.value
    source = "our own rule" if own is None else sheet.harvest.days.receipt if longer else own.receipt
    return [
        Fact(
            name="days one sowing is picked for",
            value=every,
            unit="d",
            source=source,
        ),
        Fact(
            name="days of best growth from emergence to ready",
            value=sheet.development.ready_days.value,
            unit="d",
            law="development by warmth and day length",
            source=sheet.development.ready_days.receipt,
        ),
        Fact(
            name="days it stands good once ready",
            value=sheet.harvest.days.value,
            unit="d",
            source=sheet.harvest.days.receipt,
        ),
    ]
