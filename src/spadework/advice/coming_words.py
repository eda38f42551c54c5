"""Why a trouble is looked for, in a sentence: by its clock, by the weather, by what was found."""

from __future__ import annotations

from datetime import date
from typing import Final

import numpy as np

from spadework.advice.scene import Scene
from spadework.advice.stakes import Stake, after_clean_look, chance_by_weather
from spadework.advice.watching import Coming
from spadework.garden.phrases import day_text

FEW: Final = 0.02
"""A chance below this is said as "hardly any". Our own rule."""


def come_text(scene: Scene, stake: Stake) -> str:
    """By an insect's clock, what comes and when, and what was found here."""
    each = stake.coming
    found = found_text(stake.seen_ago)
    event = event_text(scene, each)
    return " ".join(part for part in (found, event) if part) or each.trouble.about.text


def found_text(ago: int | None) -> str:
    """When it was last found here; empty where it was not."""
    if ago is None:
        return ""
    when = "today" if ago == 0 else "yesterday" if ago == 1 else f"{ago} days ago"
    return f"It was found here {when}."


def event_text(scene: Scene, each: Coming) -> str:
    """The event of its year that matters now, with its odds over the years."""
    found = each.next_event()
    if found is None:
        return ""
    event, window = found
    words = f"{event.words[0].upper()}{event.words[1:]}"
    been = float(np.mean(window.opens <= 0.0))
    years = window.opens.size
    if np.all(window.opens <= 0.0) and np.allclose(window.opens, window.opens[0]):
        on = day_text(scene.day(round(float(window.opens[0]))))
        return f"{words}: since {on}."
    if been >= 0.5:
        return f"{words}: by now in {round(been * years)} of {years} years."
    middle = scene.day(round(float(np.nanmedian(window.opens))))
    soon = float(np.mean(window.opens <= 7.0))
    return f"{words} about {day_text(middle)}; within a week in {round(soon * years)} of {years} years."


def weather_text(stake: Stake) -> str:
    """The days that let it infect, and what a clean look tomorrow would change."""
    each = stake.coming
    found = found_text(stake.seen_ago)
    if not each.alerts:
        return found or each.trouble.about.text
    before = chance_by_weather(each)
    after = after_clean_look(before, each.trouble.scout.plants.value)
    days = days_text(each.alerts)
    text = (
        f"The weather of {days} let it infect: about {in_hundred(before)} that it has come. "
        f"A clean look tomorrow would leave {in_hundred(after)}."
    )
    return f"{found} {text}".strip()


def in_hundred(chance: float) -> str:
    """A chance as a plain share: "1 in 8"."""
    if chance < FEW:
        return "hardly any chance"
    if chance > 0.45:
        return f"{round(10 * chance)} chances in 10"
    return f"1 chance in {round(1.0 / chance)}"


def days_text(days: tuple[date, ...]) -> str:
    """Days in words, runs drawn together: "12 to 14 June"."""
    first, last = day_text(days[0]), day_text(days[-1])
    if len(days) == 1:
        return first
    if (days[-1] - days[0]).days == len(days) - 1:
        return f"{first} to {last}"
    return f"{len(days)} days between {first} and {last}"
