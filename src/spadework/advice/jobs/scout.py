"""Look closely for one trouble in one bed: where, on how many plants, and what is too many."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from typing import Final

import numpy as np

from spadework.advice.coming_words import come_text, weather_text
from spadework.advice.job import AHEAD_DAYS, Job
from spadework.advice.odds import Fact
from spadework.advice.scene import Scene
from spadework.advice.stakes import LATELY_DAYS, Stake, chance_by_weather, stakes
from spadework.advice.waiting import window_of
from spadework.advice.watching import coming, seen_this_season
from spadework.garden.entries import Seen

WITHIN_DAYS: Final = 7
LIKELY: Final = 0.3
"""Chance to be about within a week from which a look is asked for. Our own rule."""

LIKELY_BY_WEATHER: Final = 0.08
"""The same for a disease, by the infection weather that has been. Our own rule."""

MOST_IN_A_BED: Final = 2
MOST_FOR_ONE: Final = 3
MOST: Final = 8
"""Looks asked for in one bed, for one trouble, and in the garden: those with most at stake. The daily look
sees the rest. Our own rule."""


def jobs(scene: Scene) -> Iterator[Job]:
    """Looks that are worth their minutes, the most at stake of each bed first."""
    seen = seen_this_season(scene)
    by_bed: dict[str, list[Stake]] = {}
    for stake in stakes(scene, coming(scene, AHEAD_DAYS), seen):
        if worth_a_look(stake) and stake.coming.is_news(scene.today):
            by_bed.setdefault(stake.bed.key, []).append(stake)
    chosen: list[Stake] = []
    for found in by_bed.values():
        found.sort(key=_order)
        chosen += found[:MOST_IN_A_BED]
    times: Counter[str] = Counter()
    for stake in sorted(chosen, key=_order):
        times[stake.coming.trouble.key] += 1
        if times[stake.coming.trouble.key] <= MOST_FOR_ONE and times.total() <= MOST:
            yield _look(scene, stake)


def _order(stake: Stake) -> tuple[float, str, str]:
    return -stake.at_stake, stake.coming.trouble.key, stake.bed.key


def worth_a_look(stake: Stake) -> bool:
    """Whether it may be about soon, or was found here lately, or its weather has been."""
    if stake.due_in > WITHIN_DAYS or stake.coming.trouble.kind == "animal":
        return False
    if stake.seen_ago is not None and stake.seen_ago <= LATELY_DAYS:
        return True
    if stake.coming.trouble.kind == "disease":
        return chance_by_weather(stake.coming) >= LIKELY_BY_WEATHER
    return stake.years_by(WITHIN_DAYS) >= LIKELY


def _look(scene: Scene, stake: Stake) -> Job:
    trouble = stake.coming.trouble
    scout = trouble.scout
    plants = round(scout.plants.value)
    may = stake.meets > 0.0 if trouble.kind == "insect" else np.ones_like(stake.meets, dtype=np.bool_)
    may = may & (np.arange(AHEAD_DAYS + 1)[None, :] >= stake.due_in)
    why = come_text(scene, stake) if trouble.kind == "insect" else weather_text(stake)
    return Job(
        id=f"scout-{stake.bed.key}-{trouble.key}",
        kind="scout",
        act=f"Look for {trouble.name} on the {stake.crops} in {stake.bed.name}",
        bed=stake.bed.key,
        planting=stake.planting,
        crop=stake.crop,
        minutes=scout.minutes.value * scene.pace.factor.get("looking", 1.0),
        worth=stake.worth,
        loss=stake.loss,
        window=window_of(stake.loss, may, scene.today, scene.made),
        reason=why,
        facts=(
            Fact(
                name="chance that it is about within a week",
                value=round(stake.years_by(WITHIN_DAYS), 2),
                law="the clock of its sheet, through the years",
                source="computed",
            ),
            Fact(
                name="share of plantings that ail from it in a season",
                value=trouble.usual.value,
                source=trouble.usual.source or trouble.usual.provenance,
            ),
        ),
        test=f"{plants} plants, {scout.where}, {scout.when}. Too many: {scout.too_many}.",
        strains=("stooping",),
        done=(Seen(what=f"no {trouble.name}", trouble=trouble.key, plants=0, of_plants=plants),),
        settles=f"scout:{stake.bed.key}:{trouble.key}",
    )
