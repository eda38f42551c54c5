"""Tell what was seen, and see what the garden has taught."""

from __future__ import annotations

from typing import Annotated

from cyclopts import Parameter

from spadework.errors import ParameterError
from spadework.faces.cli.common import Common, answer, read_date
from spadework.faces.cli.odds import voice_of
from spadework.faces.cli.say import wrapped
from spadework.faces.voice import Voice
from spadework.garden.told import Event
from spadework.usecases.learn import BedLine, LearnedAnswer, LearnedLine, list_learned, tell_event
from spadework.usecases.lock_lines import locks_about

Day = Annotated[str, Parameter(help="Day it was seen.")]
NotYet = Annotated[str | None, Parameter(help="Last day it was looked at and had not happened.")]
Bed = Annotated[str, Parameter(help="Bed, where they are told apart.")]
Variety = Annotated[str, Parameter(help="Variety, to be learned on its own.")]
Sure = Annotated[bool, Parameter(negative="", help="Keep it although something speaks against it.")]


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
        voice = voice_of(common)
        if not found.crops and not found.unused:
            print("Nothing yet. Teach it with: spadework tell ready CROP --sown DATE --on DATE")
            return
        for line in found.crops:
            print(wrapped(f"{_said(line)}.", 2, ""))
            _tell_events(line, voice)
        for bed in found.beds:
            print(wrapped(voice.told(f"{_bed(bed)}."), 2, ""))
            _tell_events(bed, voice)
        for event in found.unused:
            text = f"{_short(event.key)}  {voice.told(event.text)}: not used, its weather is not known"
            print(wrapped(text, 10, "  "))
        print(wrapped("Take one back with: spadework told forget KEY"))

    answer(common, found, tell)


def _tell(event: Event, common: Common, sure: bool) -> None:
    found = tell_event(common.garden, common.day, event, sure=sure)
    voice = voice_of(common)
    if found.doubts:
        raise ParameterError(
            voice.told(" ".join(["Not kept.", *found.doubts])),
            "If it is right all the same, tell it again with --sure.",
        )
    answer(
        common,
        found,
        lambda: _tell_answer(found, voice),
        locks=lambda: locks_about(common.garden, common.day, bed=event.bed, crop=event.crop),
    )


def _tell_answer(found: LearnedAnswer, voice: Voice) -> None:
    kept = f"Kept {_short(found.key)}" if found.stored else f"Known already ({_short(found.key)})"
    print(wrapped(f"{kept}: {voice.told(found.text)}.", 2, ""))
    for key in found.withdrawn:
        print(f"Taken back for it: {_short(key)}.")
    beds = "".join(f"; {_bed(bed)}" for bed in found.beds)
    for line in found.crops:
        print(wrapped(voice.told(f"{_said(line)}{beds}."), 2, "· "))
    for move in found.moves:
        what = "half up" if move.what == "came up" else "ready"
        before, after = voice.day(move.before), voice.day(move.after)
        change = f"{before} before, {after} now" if before != after else f"{after}, as before"
        print(wrapped(f"Started today, {what}: {change}.", 2, "· "))


def _said(line: LearnedLine) -> str:
    name = f"{line.crop}{f' {line.variety}' if line.variety else ''}"
    what = "to ready" if line.what == "ready" else "to half up"
    return (
        f"{name.capitalize()}, {what}: {line.before:g} -> {line.after:g} {line.unit}, "
        f"spread {line.spread_before:.0%} -> {line.spread_after:.0%}"
    )


def _bed(bed: BedLine) -> str:
    way = "warmer" if bed.offset_c >= 0 else "colder"
    return f"bed {bed.bed}: {abs(bed.offset_c):.1f} degrees {way}, give or take {bed.sd_c:.1f} degrees"


def _tell_events(line: LearnedLine | BedLine, voice: Voice) -> None:
    for event in line.events:
        print(wrapped(f"{_short(event.key)}  {voice.told(event.text)}", 10, "  "))


def _short(key: str) -> str:
    """The end of a key, enough to tell a garden's entries apart."""
    return key[-6:].lower()
