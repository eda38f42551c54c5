"""What this season has given, crop by crop, and the minutes it took, week by week."""

from __future__ import annotations

from collections import defaultdict
from datetime import date, timedelta
from pathlib import Path
from typing import Final

import msgspec

from spadework.advice.job import KINDS
from spadework.garden import entries as kinds
from spadework.usecases.crop_words import crop_word
from spadework.usecases.look import look_at

WEEKS: Final = 8
_OTHER: Final = "other work"


class CropTaken(msgspec.Struct, frozen=True, kw_only=True):
    """What was picked and lifted of a crop since the year began.

    Parameters
    ----------
    pieces : int
        Of those takings that were counted and not weighed.
    times : int
        Takings.
    """

    crop: str
    name: str
    kg: float
    pieces: int
    times: int
    last_on: date


class WeekWorked(msgspec.Struct, frozen=True, kw_only=True):
    """Minutes of a week, Monday to Sunday, by kind of work, most first."""

    first: date
    minutes: float
    kinds: dict[str, float]


class SeasonWork(msgspec.Struct, frozen=True, kw_only=True):
    """What came in and what it took.

    Parameters
    ----------
    since : date
        First day counted for the crops.
    unmeasured : int
        Jobs done in these weeks of which nobody said how long they took.
    """

    question: str
    today: date
    since: date
    crops: list[CropTaken]
    weeks: list[WeekWorked]
    unmeasured: int


def season_work(path: Path, today: date, *, weeks: int = WEEKS) -> SeasonWork:
    """Weights of this calendar year and minutes of the last weeks, as the book has them.

    Notes
    -----
    South of the equator a season runs from July to June, so that a summer is not cut in two.

    Raises
    ------
    GardenError, StoreError
    """
    look = look_at(path, today)
    since = date(today.year, 1, 1)
    if look.folder.site.south:
        since = date(today.year if today.month >= 7 else today.year - 1, 7, 1)
    monday = today - timedelta(days=today.weekday())
    first = monday - timedelta(weeks=weeks - 1)
    crops: dict[str, list[kinds.Picked | kinds.Lifted]] = defaultdict(list)
    last: dict[str, date] = {}
    minutes: dict[date, dict[str, float]] = {
        first + timedelta(weeks=week): defaultdict(float) for week in range(weeks)
    }
    unmeasured = 0
    for entry in look.garden.entries:
        act, on = entry.act, entry.happened_on
        planting = look.garden.plantings.get(entry.planting)
        if isinstance(act, (kinds.Picked, kinds.Lifted)) and planting is not None and since <= on <= today:
            crops[planting.crop].append(act)
            last[planting.crop] = max(on, last.get(planting.crop, on))
        elif isinstance(act, kinds.Minutes) and first <= on <= today:
            if act.minutes:
                week = on - timedelta(days=on.weekday())
                minutes[week][kind_of_work(act.job)] += act.minutes * max(1, act.people)
            else:
                unmeasured += 1
    taken = [
        CropTaken(
            crop=crop,
            name=crop_word(crop, look.words, many=True),
            kg=round(sum(act.kg or 0.0 for act in acts), 3),
            pieces=sum(act.pieces or 0 for act in acts if not act.kg),
            times=len(acts),
            last_on=last[crop],
        )
        for crop, acts in crops.items()
    ]
    return SeasonWork(
        question="season work",
        today=today,
        since=since,
        crops=sorted(taken, key=lambda each: (-each.kg, -each.pieces, each.name)),
        weeks=[
            WeekWorked(
                first=week,
                minutes=round(sum(of.values()), 1),
                kinds={name: round(each, 1) for name, each in sorted(of.items(), key=lambda pair: -pair[1])},
            )
            for week, of in minutes.items()
        ],
        unmeasured=unmeasured,
    )


def kind_of_work(job: str) -> str:
    """What kind of work a job was: by the job's own kind where it is one of the round's, else its words."""
    plain = job.strip().casefold()
    for kind in sorted(KINDS, key=len, reverse=True):
        if plain == kind or plain.startswith(f"{kind.replace(' ', '-')}-"):
            return _DOING.get(kind, kind)
    return _DOING.get(plain, plain or _OTHER)


_DOING: Final = {
    "weed": "weeding",
    "weeded": "weeding",
    "hoed": "hoeing",
    "pick": "picking",
    "water": "watering",
    "keep damp": "watering",
    "sow": "sowing",
    "start indoors": "sowing in trays",
    "plant out": "planting out",
    "thin": "thinning",
    "count": "counting",
    "earth up": "earthing up",
    "support": "tying and staking",
    "mulch": "mulching",
    "guard": "nets and guards",
    "cover": "covering",
    "uncover": "uncovering",
    "clear": "clearing",
    "lift": "lifting",
    "look": "looking round",
    "scout": "looking closely",
    "crush": "crushing eggs",
    "refuges": "clearing refuges",
    "feed": "feeding",
    "prick out": "pricking out",
    "harden off": "hardening off",
    "pruned": "pruning",
}
"""Kinds of job and words of the book as the work is called."""
