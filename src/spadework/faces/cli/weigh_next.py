"""When to sow the next of what stands."""

from __future__ import annotations

from spadework.advice.weigh_sow_next import NextAnswer, NextOption
from spadework.faces.cli.common import Common, answer
from spadework.faces.cli.odds import tail, voice_of
from spadework.faces.cli.say import dots, table, wrapped
from spadework.faces.voice import Voice, in_years
from spadework.usecases.lock_lines import locks_about

SEASON_DAYS = 150
"""A gap longer than this is no gap but the end of the season."""


def sow_next(crop: str, *, common: Common | None = None) -> None:
    """The next sowing, so that picking goes on: today, later, or half now and half later?

    Parameters
    ----------
    crop : str
        Any name of the crop.
    """
    from spadework.usecases.weigh_sowing_next import weigh_sowing_next

    common = common or Common()
    today = common.day
    found = weigh_sowing_next(common.garden, today, crop)
    answer(
        common,
        found,
        lambda: _tell(found, voice_of(common)),
        locks=lambda: locks_about(common.garden, today, crop=crop, placing=True),
    )


def _tell(found: NextAnswer, voice: Voice) -> None:
    best = found.options[found.best]
    what = "sow" if found.way == "sown" else "start"
    if best.act == "sow today":
        head = f"{what} today."
    elif best.act == "wait":
        head = f"{what} on {voice.day(best.days[0], weekday=True)}."
    else:
        head = f"{what} half today and half on {voice.day(best.days[1], weekday=True)}."
    print(f"{found.crop.capitalize()}: {head}")
    print(wrapped(voice.told(found.reason[:1].upper() + found.reason[1:])))
    if found.before is not None and found.before.q50 is not None:
        print(wrapped(f"The last that stands is ready about {voice.day(found.before.q50)}."))
    print()
    print(f"  It gets there {in_years(best.overall)}\n  {dots(best.overall)}")
    print()
    rows = [[_words(option, found, voice), *_figures(option, voice)] for option in found.options]
    print(f"Days of {found.wanted_days:.0f} that it feeds you, and days without before it\n")
    many = f"of {best.overall.years}"
    print(table([what, "ready", "feeds", "without", many], rows, frozenset({2, 3, 4})))
    tail(
        [voice.told(said) for said in found.assumptions], [c.text for c in found.cautions], found.note, voice
    )


def _words(option: NextOption, found: NextAnswer, voice: Voice) -> str:
    days = ["today" if day == found.today else voice.day(day) for day in option.days]
    return days[0] if len(days) == 1 else f"half {days[0]}, half {days[1]}"


def _figures(option: NextOption, voice: Voice) -> list[str]:
    ready = " and ".join(voice.day(each.q50) for each in option.ready)
    gap = f"{option.gap_days:.0f}" if option.gap_days < SEASON_DAYS else "–"
    return [ready, f"{option.fed_days:.0f}", gap, str(option.overall.years_yes)]
