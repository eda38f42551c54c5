"""Tell what was seen, and see what the garden has taught."""

from __future__ import annotations

import sys
from typing import Annotated

from cyclopts import Parameter

from spadework.errors import ParameterError
from spadework.faces.cli.common import Common, answer, read_date
from spadework.faces.cli.say import wrapped
from spadework.garden.told import Event
from spadework.usecases.learn import LearnedAnswer, LearnedLine, list_learned, tell_event

Day = Annotated[str, Parameter(help="Day it was seen.")]
NotYet = Annotated[str | None, Parameter(help="Last day it was looked at and had not happened.")]
Bed = Annotated[str, Parameter(help="Bed, where they are told apart.")]
Variety = Annotated[str, Parameter(help="Variety, to be learned on its own.")]
Sure = Annotated[bool, Parameter(negative="", help="Keep it although it lies far from what is believed.")]


def came_up(
    crop: str,
    *,
    sown: Annotated[str, Parameter(help="Day it was sown.")],
    on: Day,
    not_yet_on: NotYet = None,
    bed: Bed = "",
    variety: Variety = "",
    sure: Sure = False,
    common: Common | None = None,
) -> None:
    """Half of what came up was up on a day: moves the warmth it takes to come up here.

    Parameters
    ----------
    crop : str
        Any name of the crop.
    """
    common = common or Common()
    today = common.day
    event = Event(
        crop=crop,
        what="came up",
        started=read_date(sown, "--sown", today),
        on=read_date(on, "--on", today),
        not_yet_on=None if not_yet_on is None else read_date(not_yet_on, "--not-yet-on", today),
        bed=bed,
        variety=variety,
    )
    _tell(event, common, sure)


def ready(
    crop: str,
    *,
    on: Day,
    sown: Annotated[str | None, Parameter(help="Day it was sown where it grew.")] = None,
    set_out: Annotated[str | None, Parameter(help="Day it was set out.")] = None,
    not_yet_on: NotYet = None,
    bed: Bed = "",
    variety: Variety = "",
    sure: Sure = False,
    common: Common | None = None,
) -> None:
    """It was first worth picking on a day: moves the warmth it needs here.

    Parameters
    ----------
    crop : str
        Any name of the crop.
    """
    common = common or Common()
    today = common.day
    if (sown is None) == (set_out is None):
        raise ParameterError(
            "One start is needed: the day it was sown or the day it was set out.",
            "Give --sown DATE or --set-out DATE.",
        )
    start = sown if sown is not None else set_out
    assert start is not None
    event = Event(
        crop=crop,
        what="ready",
        started=read_date(start, "--sown" if sown is not None else "--set-out", today),
        start="sown" if sown is not None else "set-out",
        on=read_date(on, "--on", today),
        not_yet_on=None if not_yet_on is None else read_date(not_yet_on, "--not-yet-on", today),
        bed=bed,
        variety=variety,
    )
    _tell(event, common, sure)


def learned(*, common: Common | None = None) -> None:
    """What this garden has taught so far, and from which events."""
    common = common or Common()
    found = list_learned(common.garden, common.day)

    def tell() -> None:
        if not found.crops:
            print("Nothing yet. Teach it with: spadework tell ready CROP --sown DATE --on DATE")
        for line in found.crops:
            print(wrapped(_said(line)))
            print(f"  from {', '.join(line.events)}")
        _tell_beds(found)

    answer(common, found, tell)


def _tell(event: Event, common: Common, sure: bool) -> None:
    found = tell_event(common.garden, common.day, event, sure=sure)

    def tell() -> None:
        if found.stored:
            for line in found.crops:
                print(wrapped(_said(line)))
            _tell_beds(found)
            print(f"Kept as {found.key}. Taken back with: spadework told forget {found.key}")

    answer(common, found, tell)
    if not found.stored:
        hint = "Nothing was kept. Correct the date, or tell it again with --sure."
        print(f"{' '.join(found.doubts)} {hint}", file=sys.stderr)
        sys.exit(2)


def _said(line: LearnedLine) -> str:
    name = f"{line.crop}{f' {line.variety}' if line.variety else ''}"
    what = "to ready" if line.what == "ready" else "to come up"
    return (
        f"{name.capitalize()}, {what}: {line.before:g} → {line.after:g} {line.unit}, "
        f"spread {line.spread_before:.0%} → {line.spread_after:.0%}."
    )


def _tell_beds(found: LearnedAnswer) -> None:
    for bed in found.beds:
        print(wrapped(f"Bed {bed.bed}: {bed.offset_c:+.1f} °C beside the rest, give or take {bed.sd_c:.1f}."))
