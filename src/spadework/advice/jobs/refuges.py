"""Clear refuges: boards, weeds and litter by tender plants, where slugs and others sit through the day."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Final

import numpy as np

from spadework.advice.coming_words import come_text
from spadework.advice.job import AHEAD_DAYS, Job
from spadework.advice.odds import Caution, Fact
from spadework.advice.scene import Scene
from spadework.advice.stakes import LATELY_DAYS, Stake, stakes
from spadework.advice.waiting import window_of
from spadework.advice.watching import coming, seen_this_season
from spadework.garden.entries import Note

CLEARS: Final = re.compile(
    r"\b(clear|lift|cut|mow|rake)\b.*\b(boards?|weeds?|litter|grass|pots|plant remains|mulch)\b",
    re.IGNORECASE,
)
"""What a sheet says of refuges, among its remedies."""

HELPS: Final = 0.3
"""Share of the harm that is kept away where its refuges are gone. Source: memory."""

MINUTES: Final = 10.0
"""For one bed and its edge. Source: memory."""

AGAIN_DAYS: Final = 14
"""Days until refuges have come back. Our own rule."""

CAUTION: Final = Caution("Wear gloves: what hides under boards may bite or sting.", "common-practice")


def jobs(scene: Scene) -> Iterator[Job]:
    """One for each trouble that has refuges, in the bed where it has most at stake."""
    seen = seen_this_season(scene)
    best: dict[str, Stake] = {}
    for stake in stakes(scene, coming(scene, AHEAD_DAYS), seen):
        key = stake.coming.trouble.key
        ago = stake.coming.seen_on
        if ago is None or (scene.today - ago).days > LATELY_DAYS or refuge_words(stake) is None:
            continue
        if key not in best or stake.at_stake > best[key].at_stake:
            best[key] = stake
    for stake in best.values():
        if not _done(scene, stake):
            yield _clear(scene, stake)


def refuge_words(stake: Stake) -> str | None:
    """What its sheet says is to be cleared; None where it says nothing of refuges."""
    if stake.coming.trouble.kind != "insect":
        return None
    return next((each.act for each in stake.coming.trouble.remedies if CLEARS.search(each.act)), None)


def _note(stake: Stake) -> str:
    return f"Cleared refuges of {stake.coming.trouble.name}"


def _done(scene: Scene, stake: Stake) -> bool:
    return any(
        isinstance(entry.act, Note)
        and entry.act.text == _note(stake)
        and (scene.today - entry.happened_on).days < AGAIN_DAYS
        for entry in stake.bed.history
    )


def _clear(scene: Scene, stake: Stake) -> Job:
    trouble = stake.coming.trouble
    loss = stake.loss * HELPS
    words = refuge_words(stake) or ""
    return Job(
        id=f"refuges-{stake.bed.key}-{trouble.key}",
        kind="refuges",
        act=f"Clear what {trouble.name} hides under by the {stake.crops} in {stake.bed.name}",
        bed=stake.bed.key,
        planting=stake.planting,
        crop=stake.crop,
        minutes=MINUTES,
        worth=stake.worth,
        loss=loss,
        window=window_of(loss, np.ones_like(loss, dtype=np.bool_), scene.today, scene.made),
        reason=f"{words}. {come_text(scene, stake)}",
        facts=(Fact(name="share of the harm it keeps away", value=HELPS, source="memory"),),
        cautions=(CAUTION,),
        strains=("stooping",),
        done=(Note(text=_note(stake)),),
    )
