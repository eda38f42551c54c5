"""Odds of frost and of ready days."""

from __future__ import annotations

from typing import Annotated

from cyclopts import Parameter

from spadework.advice.frost_odds import FrostAnswer
from spadework.advice.odds import DateOdds, Odds
from spadework.advice.ready_odds import ReadyAnswer
from spadework.faces.cli.common import Common, answer, read_date, read_odds, read_packet, read_temp
from spadework.faces.cli.say import dots, table, wrapped
from spadework.faces.voice import Voice, in_years


def frost(
    *,
    below: Annotated[str, Parameter(help="A night at or below this counts (°C, or 28F).")] = "0",
    by: Annotated[str | None, Parameter(help="Odds at this day.")] = None,
    at_odds: Annotated[
        str | None, Parameter(help="Days past which frost comes no oftener than 1in5.")
    ] = None,
    years: Annotated[str, Parameter(help="How many past years at most, or all.")] = "30",
    common: Common | None = None,
) -> None:
    """When frost ends and returns here, at the thermometer and at the leaf."""
    from spadework.usecases.ask_frost import ask_frost

    common = common or Common()
    today = common.day
    found = ask_frost(
        common.garden,
        today,
        below_c=read_temp(below, "--below"),
        by=None if by is None else read_date(by, "--by", today),
        at_odds=None if at_odds is None else read_odds(at_odds, "--at-odds"),
        last=_years(years),
    )
    answer(common, found, lambda: _tell_frost(found, common))


def ready(
    crop: str,
    *,
    sown: Annotated[str | None, Parameter(help="Day it was or will be sown where it grows.")] = None,
    set_out: Annotated[str | None, Parameter(help="Day it was or will be set out as plants.")] = None,
    by: Annotated[str | None, Parameter(help="Odds that it is ready by this day.")] = None,
    germination: Annotated[float | None, Parameter(help="Tested germination of the lot, %.")] = None,
    depth: Annotated[float | None, Parameter(help="Sowing depth, mm.")] = None,
    packet_days: Annotated[float | None, Parameter(help="Days printed on the packet.")] = None,
    from_setting_out: Annotated[
        bool | None, Parameter(negative="--from-sowing", help="What they count from; else the usual.")
    ] = None,
    packet_sown: Annotated[str | None, Parameter(help="Day they count from; else the usual one.")] = None,
    variety: Annotated[str, Parameter(help="Variety, where one was learned or has own numbers.")] = "",
    bed: Annotated[str, Parameter(help="Bed, where beds are told apart.")] = "",
    rain_only: Annotated[bool, Parameter(negative="", help="Nobody waters the row.")] = False,
    common: Common | None = None,
) -> None:
    """When a planting is up and ready, and whether it gets there.

    Parameters
    ----------
    crop : str
        Any name of the crop.
    """
    from spadework.usecases.ask_ready import ask_ready
    from spadework.usecases.lock_lines import locks_about

    common = common or Common()
    today = common.day
    found = ask_ready(
        common.garden,
        today,
        crop,
        sown=None if sown is None else read_date(sown, "--sown", today),
        set_out_on=None if set_out is None else read_date(set_out, "--set-out", today),
        by=None if by is None else read_date(by, "--by", today),
        germination_pct=germination,
        depth_mm=depth,
        watered=not rain_only,
        packet=read_packet(packet_days, from_setting_out, packet_sown, today),
        variety=variety.strip(),
        bed=bed.strip(),
    )
    answer(
        common,
        found,
        lambda: _tell_ready(found, common),
        locks=lambda: locks_about(common.garden, today, bed=bed, crop=crop),
    )


def _years(text: str) -> int | None:
    from spadework.errors import ParameterError

    if text.strip().lower() == "all":
        return None
    if not text.strip().isdigit() or int(text) < 4:
        raise ParameterError(f"--years {text!r} is not a number of years.", "Give 4 or more, or all.")
    return int(text)


def voice_of(common: Common) -> Voice:
    """How this garden writes dates and temperatures."""
    from spadework.usecases.setting import open_setting

    return Voice(us=open_setting(common.garden, common.day).site.units == "us", today=common.day)


def _tell_frost(found: FrostAnswer, common: Common) -> None:
    voice = voice_of(common)
    limit = voice.temp(found.below_c)
    span = "" if found.first_year is None else f" ({found.first_year} to {found.last_year})"
    some = found.first_year is not None and 0 < found.made_years < found.years
    made = f", {found.made_years} of them made" if some else ""
    print(f"Nights at or below {limit}, from {found.years}{_made_alone(found)} years{span}{made}\n")
    names = {"shelter": "at the thermometer", "leaf": "at the leaf, in the open"}
    rows = []
    for entry in found.dates:
        last, first = entry.last_spring, entry.first_autumn
        rows.append(
            [
                names[entry.place],
                voice.calendar_day(last.q10),
                voice.calendar_day(last.q50),
                voice.calendar_day(last.q90),
                voice.calendar_day(first.q10),
                voice.calendar_day(first.q50),
                voice.calendar_day(first.q90),
            ]
        )
    print(table(["", "last: early", "middle", "late", "first: early", "middle", "late"], rows))
    print()
    shelter = found.dates[0]
    if shelter.last_spring_q90_range:
        low, high = shelter.last_spring_q90_range
        print(
            wrapped(
                f"One year in ten the last one at the thermometer is later than "
                f"{voice.calendar_day(shelter.last_spring.q90)}; with {found.years} years that day is known "
                f"only to within {voice.calendar_day(low)} to {voice.calendar_day(high)}."
            )
        )
    middle = shelter.frost_free_days.get("q50")
    if middle is not None:
        print(wrapped(f"Half of the years have {middle:.0f} days or more between."))
    for by in found.by:
        print(
            wrapped(
                f"A night at or below {limit} {by.side} {voice.calendar_day(by.on)}, {names[by.place]}: "
                f"{in_years(by.frost)}."
            )
        )
        print(f"  {dots(by.frost)}")
    for at in found.at_odds:
        print(
            wrapped(
                f"No oftener than {at.odds}, {names[at.place]}: "
                f"from {voice.calendar_day(at.spring_after)} on, "
                f"and until {voice.calendar_day(at.autumn_before)}."
            )
        )
    degrees = "four" if voice.us else "two"
    print(
        wrapped(
            f"On still clear nights the leaf is about {degrees} degrees colder than the thermometer in its "
            "shelter; that is what the second line is for."
        )
    )
    if found.note:
        print(wrapped(voice.told(found.note)))


def _made_alone(found: FrostAnswer) -> str:
    return " made" if found.made_years == found.years else ""


def _tell_ready(found: ReadyAnswer, common: Common) -> None:
    voice = voice_of(common)
    verb = "set out" if found.start == "set-out" else "sown"
    start = voice.day(found.started_on, weekday=True)
    print(f"{found.crop.capitalize()}, {verb} {start}\n")
    rows = []
    if found.emergence is not None:
        rows.append(["half of it up", *_span(found.emergence, voice)])
    if found.flowering is not None:
        rows.append(["half in flower", *_span(found.flowering, voice)])
    rows.append(["ready", *_span(found.ready, voice)])
    print(table(["", "early", "middle", "late"], rows))
    print()
    print(wrapped(f"Ready before anything takes it {in_years(found.ready_before_loss)}."))
    print(f"  {dots(found.ready_before_loss)}")
    if found.ready_by is not None and found.by is not None:
        print(wrapped(f"By {voice.day(found.by)} {in_years(found.ready_by)}."))
    for cause, share in (
        ("frost", found.lost_to_frost_first),
        ("heat", found.lost_to_heat_first),
        ("running to seed", found.bolted_first),
    ):
        if share.chance >= 0.03:
            print(wrapped(f"Lost to {cause} first {in_years(share)}."))
    if found.ready.never >= 0.03:
        unready = Odds(
            chance=found.ready.never,
            years_yes=round(found.ready.never * found.ready.years),
            years=found.ready.years,
            made_years=found.ready.made_years,
        )
        print(wrapped(f"Not ready at all within 300 days {in_years(unready)}."))
    if found.now is not None:
        now = found.now
        grown = (
            f", {_leaves(now.leaves)}, {_height(now.height_cm, voice)} high, "
            f"{now.way_to_ready * 100:.0f} % of the way"
        )
        up = "" if found.planted == "plants" else f"{now.emerged * 100:.0f} % of the {found.planted} up"
        standing = grown if now.way_to_ready > 0.0 else ""
        print(wrapped(f"Today, by the weather so far: {up}{standing}.".replace(": , ", ": ")))
    if found.checked_days >= 1:
        print(wrapped(f"Cold and moving cost it about {found.checked_days:.0f} days of growth."))
    tail(
        [voice.told(said) for said in found.assumptions], [c.text for c in found.cautions], found.note, voice
    )


def _leaves(leaves: float) -> str:
    return "1 true leaf" if round(leaves) == 1 else f"{leaves:.0f} true leaves"


def _height(height_cm: float, voice: Voice) -> str:
    return f"{height_cm / 2.54:.0f} in" if voice.us else f"{height_cm:.0f} cm"


def _span(found: DateOdds, voice: Voice) -> list[str]:
    return [voice.day(found.q10), voice.day(found.q50), voice.day(found.q90)]


def span_said(found: DateOdds, voice: Voice) -> str:
    """The middle day with the early and the late one."""
    if found.q50 is None:
        return "not in most years"
    if found.q10 is None or found.q90 is None:
        return voice.day(found.q50)
    return f"{voice.day(found.q50)} ({voice.day(found.q10)} to {voice.day(found.q90)})"


def tail(assumptions: list[str], cautions: list[str], note: str, voice: Voice) -> None:
    print()
    if assumptions:
        print(wrapped("Taken as given: " + " ".join(assumptions)))
    for caution in cautions:
        print(wrapped(caution, 2, "! "))
    if note:
        print(wrapped(voice.told(note)))
