"""What still fits, and when to plant out."""

from __future__ import annotations

from typing import Annotated

from cyclopts import Parameter

from spadework.advice.weigh_fits import Fit, FitsAnswer
from spadework.advice.weigh_plant_out import PlantAnswer
from spadework.faces.cli.common import Common, answer, read_date, read_odds
from spadework.faces.cli.odds import tail, voice_of
from spadework.faces.cli.say import dots, table, wrapped
from spadework.faces.voice import Voice, in_years
from spadework.usecases.lock_lines import locks_about


def fits(
    *,
    on: Annotated[str | None, Parameter(help="Day the place is free; today by default.")] = None,
    until: Annotated[str | None, Parameter(help="Day by which the place is wanted again.")] = None,
    odds: Annotated[str, Parameter(help="Odds you accept, such as 3in5.")] = "3in5",
    rain_only: Annotated[bool, Parameter(negative="", help="Nobody waters the rows.")] = False,
    common: Common | None = None,
) -> None:
    """What still fits a free place: each crop with its odds, and its last sowing day."""
    from spadework.usecases.weigh_fits import weigh_what_fits

    common = common or Common()
    today = common.day
    words, accepted = read_odds(odds, "--odds")
    found = weigh_what_fits(
        common.garden,
        today,
        on=None if on is None else read_date(on, "--on", today),
        clear_by=None if until is None else read_date(until, "--until", today),
        accepted=accepted,
        watered=not rain_only,
    )
    answer(
        common,
        found,
        lambda: _tell_fits(found, words, voice_of(common)),
        locks=lambda: locks_about(common.garden, today, placing=True),
    )


def plant_out(
    crop: str,
    *,
    on: Annotated[str | None, Parameter(help="First day to compare; today by default.")] = None,
    odds: Annotated[str, Parameter(help="Odds at which a bought plant still pays.")] = "1in2",
    common: Common | None = None,
) -> None:
    """Plants are ready in their pots: out now, out under cover, or hold them?

    Parameters
    ----------
    crop : str
        Any name of the crop.
    """
    from spadework.usecases.weigh_planting_out import weigh_planting_out

    common = common or Common()
    today = common.day
    words, accepted = read_odds(odds, "--odds")
    found = weigh_planting_out(
        common.garden,
        today,
        crop,
        on=None if on is None else read_date(on, "--on", today),
        accepted=accepted,
    )
    answer(
        common,
        found,
        lambda: _tell_plant_out(found, words, voice_of(common)),
        locks=lambda: locks_about(common.garden, today, crop=crop, placing=True),
    )


def _plain(fit: Fit) -> str:
    """Odds in a word."""
    chance = fit.overall.chance
    for least, word in (
        (0.9, "nearly always"),
        (0.7, "mostly"),
        (0.5, "more than half"),
        (0.2, "seldom"),
    ):
        if chance >= least:
            return word
    return "hardly ever"


_ENDS = {"a season too short": "season", "running to seed": "bolting"}


def _fits_table(fits: list[Fit], voice: Voice) -> str:
    rows = [
        [
            fit.crop,
            {"sown": "sow", "planted": "plant", "raised": "raise"}[fit.way],
            _plain(fit),
            str(fit.overall.years_yes),
            voice.day(fit.ready.q50),
            voice.day(fit.last_day),
            _ENDS.get(fit.ends_by, fit.ends_by),
        ]
        for fit in fits
    ]
    many = fits[0].overall.years
    return table(["", "", "works out", f"of {many}", "ready", "last day", "then"], rows, frozenset({3}))


def _tell_fits(found: FitsAnswer, words: str, voice: Voice) -> None:
    when = "today" if found.on == found.today else f"on {voice.day(found.on, weekday=True)}"
    clear = f", cleared by {voice.day(found.clear_by)}" if found.clear_by else ""
    good = [fit for fit in found.crops if fit.overall.chance >= found.accepted]
    later = [fit for fit in found.crops if fit.overall.chance < found.accepted]
    print(f"Sown {when}{clear}: what still fits, at odds of {words} or better\n")
    print(_fits_table(good, voice) if good else "  nothing")
    if later:
        print(f"\nNot yet so likely {when}, but on a later day up to the last one\n")
        print(_fits_table(later, voice))
    if found.too_late:
        print()
        print(wrapped("Not from here on: " + ", ".join(found.too_late) + "."))
    tail(found.assumptions, [], found.note, voice)


_ACTS = {"go": "Plant out", "under cover": "Plant out under fleece", "hold": "Hold until"}


def _tell_plant_out(found: PlantAnswer, words: str, voice: Voice) -> None:
    first = found.options[0]
    when = "today" if first.day == found.today else f"on {voice.day(first.day, weekday=True)}"
    if found.verdict == "too late":
        head = "not worth planting any more."
    elif found.verdict == "hold":
        head = f"hold until {voice.day(found.day, weekday=True)}."
    else:
        head = f"{_ACTS[found.verdict].lower()} {when}."
    print(f"{found.crop.capitalize()}: {head}")
    print(wrapped(voice.told(found.reason[:1].upper() + found.reason[1:])))
    print()
    rows = [
        [
            f"{voice.day(option.day)}{', under fleece' if option.act == 'under cover' else ''}",
            voice.temp(option.coldest_night[1]),
            f"{option.killed_young.years_yes}",
            f"{option.checked_days:.0f}",
            voice.day(option.ready.q50),
            f"{option.overall.years_yes} of {option.overall.years}",
        ]
        for option in found.options
    ]
    head_row = ["out on", "coldest night", "killed", "days lost", "ready", "gets there"]
    print(table(head_row, rows, frozenset({1, 2, 3})))
    chosen = next((o for o in found.options if o.day == found.day and o.act == found.verdict), first)
    print()
    print(f"  {dots(chosen.overall)}")
    if found.last_day_that_pays is not None:
        day = voice.day(found.last_day_that_pays)
        print(wrapped(f"A bought plant pays at odds of {words} until {day}."))
    else:
        print(
            wrapped(
                f"At odds of {words} a bought plant does not pay from here on ({in_years(first.overall)})."
            )
        )
    tail(found.assumptions, [c.text for c in found.cautions], found.note, voice)
