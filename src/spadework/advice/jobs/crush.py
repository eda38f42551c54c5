"""Crush eggs: while they lie, where the insect was seen."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta
from typing import Final

import numpy as np

from spadework.advice.coming_words import event_text, found_text
from spadework.advice.job import AHEAD_DAYS, Job
from spadework.advice.odds import Fact
from spadework.advice.scene import Scene
from spadework.advice.sightings import Sighting
from spadework.advice.stakes import LATELY_DAYS, Stake, stakes
from spadework.advice.waiting import window_of
from spadework.advice.watching import coming, seen_this_season
from spadework.clock.insects import Window
from spadework.crops.trouble import Event
from spadework.garden.entries import Seen

LIKELY: Final = 0.5
"""Share of years in which eggs lie now, from which they are crushed. Our own rule."""

TIMES_A_LOOK: Final = 2.0
"""Minutes beside those of a look: every plant is turned, not ten. Source: memory."""


def jobs(scene: Scene) -> Iterator[Job]:
    """Eggs to crush, bed by bed."""
    seen = seen_this_season(scene)
    for stake in stakes(scene, coming(scene, AHEAD_DAYS), seen):
        lying = eggs_now(stake)
        if lying is None or not _seen_lately(scene, stake):
            continue
        if not _crushed_lately(scene, stake, lying[0], seen):
            yield _crush(scene, stake, *lying)


def eggs_now(stake: Stake) -> tuple[Event, Window] | None:
    """The event with which the eggs that lie now were laid; None where none are to be found."""
    for event in stake.coming.trouble.events:
        window = stake.coming.windows.get(event.key)
        if event.stage != "egg" or window is None:
            continue
        with np.errstate(invalid="ignore"):
            lie = (window.opens <= 0.0) & (window.closes > 0.0)
        if float(lie.mean()) >= LIKELY:
            return event, window
    return None


def _seen_lately(scene: Scene, stake: Stake) -> bool:
    seen_on = stake.coming.seen_on
    return seen_on is not None and (scene.today - seen_on).days <= LATELY_DAYS


def _crushed_lately(scene: Scene, stake: Stake, event: Event, seen: tuple[Sighting, ...]) -> bool:
    """Whether somebody went over them within the days from look to look."""
    every = timedelta(days=round(stake.coming.trouble.scout.every_days.value))
    return any(
        each.trouble == stake.coming.trouble.key
        and each.bed == stake.bed.key
        and (each.event == event.key or each.clean)
        and scene.today - each.on < every
        for each in seen
    )


def _crush(scene: Scene, stake: Stake, event: Event, window: Window) -> Job:
    trouble = stake.coming.trouble
    left = np.nan_to_num(window.closes, nan=0.0)[:, None] > np.arange(AHEAD_DAYS + 1)[None, :]
    may = np.broadcast_to(left, (scene.years, AHEAD_DAYS + 1)) if left.shape[0] == scene.years else None
    whole = np.ones((scene.years, AHEAD_DAYS + 1), dtype=np.bool_)
    return Job(
        id=f"crush-{stake.bed.key}-{trouble.key}",
        kind="crush",
        act=f"Crush the eggs of {trouble.name} on the {stake.crops} in {stake.bed.name}",
        bed=stake.bed.key,
        planting=stake.planting,
        crop=stake.crop,
        minutes=TIMES_A_LOOK * trouble.scout.minutes.value * scene.pace.factor.get("looking", 1.0),
        worth=stake.worth,
        loss=stake.loss,
        window=window_of(stake.loss, whole if may is None else may, scene.today, scene.made),
        reason=f"{found_text(stake.seen_ago)} {event_text(scene, stake.coming)}".strip(),
        facts=(
            Fact(
                name=event.words,
                value=round(float(np.mean(window.opens <= 0.0)), 2),
                unit="share of years by today",
                law="the clock of its sheet",
                source=event.source or event.provenance,
            ),
        ),
        test=f"Look at {trouble.scout.where}.",
        strains=("stooping",),
        done=(Seen(what=f"{trouble.name}, eggs crushed", trouble=trouble.key, event=event.key),),
        settles=f"scout:{stake.bed.key}:{trouble.key}",
    )
