"""Pick what there is today, or wait: size against what passes its best, freezes, splits or runs to seed."""

from __future__ import annotations

from datetime import date
from typing import Final, Literal

import msgspec
import numpy as np

from spadework.advice.cautions import cautions_of
from spadework.advice.jobs.pick import may_pick
from spadework.advice.odds import Caution, Fact, Odds, odds_of
from spadework.advice.ripe import Ripe, left_share
from spadework.advice.scene import Plot, Scene
from spadework.advice.storing import storing_facts
from spadework.types import Floats

DAYS: Final = (0, 1, 3, 7, 14)
"""Days of waiting set side by side."""

GAIN: Final = 0.05
"""Share of the whole harvest that waiting must gain to be worth it. Our own rule."""

LITTLE: Final = 0.02
"""Share lost within a week that is not worth hurrying for. Our own rule."""

PickVerdict = Literal["pick", "wait", "locked"]


class PickOption(msgspec.Struct, frozen=True, kw_only=True):
    """Picking first on one day.

    Parameters
    ----------
    there : Odds
        It is ready, or another picking has come to size.
    good_kg : float  [kg]
        Taken in good state on that day, mean of the years.
    past, spoilt : float
        Share of it past its best by then, and share of what is ripe today that cold, rain, heat or running
        to seed takes until then.
    keeps : float
        Share of the whole harvest still to be had by picking first on that day: what counts.
    """

    day: date
    there: Odds
    good_kg: float
    past: float
    spoilt: float
    keeps: float


class PickAnswer(msgspec.Struct, frozen=True, kw_only=True):
    """Picking today and later side by side."""

    question: str
    planting: str
    crop: str
    key: str
    where: str
    today: date
    verdict: PickVerdict
    day: date | None
    reason: str
    options: list[PickOption]
    sign: str
    facts: list[Fact]
    cautions: list[Caution]
    note: str


def weigh_pick(scene: Scene, plot: Plot) -> PickAnswer:
    """Pick now, or wait.

    Parameters
    ----------
    scene : Scene
    plot : Plot
        Where a lock stops picking the verdict is `locked`, whatever else speaks for picking.
    """
    ripe = Ripe(plot)
    options = [_option(scene, plot, ripe, days) for days in DAYS]
    now, best = options[0], max(options, key=lambda option: (option.keeps, -option.day.toordinal()))
    verdict: PickVerdict = "wait" if best.keeps - now.keeps > GAIN else "pick"
    if plot.locked("picking"):
        verdict = "locked"
    day = {"pick": scene.today, "wait": best.day, "locked": None}[verdict]
    return PickAnswer(
        question="pick now",
        planting=plot.key,
        crop=plot.name,
        key=plot.sheet.key,
        where=plot.where,
        today=scene.today,
        verdict=verdict,
        day=day,
        reason=_reason(now, best, ripe, verdict),
        options=options,
        sign=plot.sheet.harvest.sign,
        facts=[
            Fact(
                name="days it stays good",
                value=plot.sheet.harvest.past_days.value,
                unit="d",
                law="the sheet",
                source=plot.sheet.harvest.past_days.receipt,
            ),
            Fact(
                name="ready by today, share of years",
                value=round(float(ripe.ready[:, 0].mean()), 2),
                law="warmth to ready",
                source=plot.sheet.development.ready_days.receipt,
            ),
            *storing_facts(plot.sheet),
        ],
        cautions=cautions_of(plot.sheet),
        note=scene.ground.years.note,
    )


def _option(scene: Scene, plot: Plot, ripe: Ripe, days: int) -> PickOption:
    past = ripe.past[:, days]
    sound = (1.0 - past) * (1.0 - ripe.spoilt[:, days])
    there = _there(ripe)[:, days]
    share = ripe.share[:, days] if ripe.often else ripe.ready[:, days]
    kept = 1.0 - ripe.loss[:, days] if ripe.often else there * sound
    if ripe.often:
        # fruit not yet at size is no picking: only what is there counts against waiting
        kept = kept - GAIN * 2.0 * (1.0 - there)
    kg = (plot.worth.kg or 0.0) * left_share(plot) * share * sound
    return PickOption(
        day=scene.day(days),
        there=odds_of(_ready(ripe)[:, days], scene.made),
        good_kg=round(float(kg.mean()), 2),
        past=round(float(past.mean()), 3),
        spoilt=round(float(ripe.spoilt[:, days].mean()), 3),
        keeps=round(float(np.clip(kept, 0.0, 1.0).mean()), 4),
    )


def _ready(ripe: Ripe) -> Floats:
    """Chance that it is ready, or that a picking has come to size since the last."""
    return may_pick(ripe).astype(np.float64) if ripe.often else ripe.ready


def _there(ripe: Ripe) -> Floats:
    """Share of a picking that is there."""
    if not ripe.often or ripe.days_since is None:
        return ripe.ready
    found: Floats = np.clip(ripe.gap_cday / ripe.again_cday, 0.0, 1.0)
    return found


def _reason(now: PickOption, best: PickOption, ripe: Ripe, verdict: PickVerdict) -> str:
    years = now.there.years
    if verdict == "locked":
        return "A lock stops picking; what it says has to be met first."
    if verdict == "wait":
        return (
            f"It is there in {now.there.years_yes} of {years} years today and in {best.there.years_yes} "
            f"on the day named, and little is spoilt until then."
        )
    cause, chance = ripe.main_cause
    later = max(float(ripe.past[:, 7].mean() - ripe.past[:, 0].mean()), 0.0)
    part = now.there.years_yes == 0
    start = "Part of a picking is there" if part else f"It is there in {now.there.years_yes} of {years} years"
    if chance >= 0.1 and chance >= later:
        return f"{start}; {cause} takes some of it within a week in {round(chance * years)} of {years}."
    if later < LITTLE and chance < LITTLE:
        return f"{start}, and keeps where it is: little is lost within a week."
    return f"{start}, and waiting gains nothing."
