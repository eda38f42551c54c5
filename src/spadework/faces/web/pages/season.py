"""The season bed by bed, and sowings tried out in it: in the address alone, written nowhere."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final
from urllib.parse import urlencode

import msgspec

from spadework.faces.charts.opening_bar import bed_names, opening_bars, trial_bar
from spadework.faces.charts.year_dots import year_dots
from spadework.faces.voice import Voice, in_years
from spadework.faces.web.visit import Answer, Go, Page, Refused, Visit, Way
from spadework.usecases.read_sheets import list_sheets
from spadework.usecases.show_season import show_season
from spadework.usecases.try_sowing import Trial, try_sowing, worth_trying

MOST: Final = 6
"""Sowings tried at a time."""

STEPS: Final = ((-7, "a week earlier"), (-1, "a day earlier"), (1, "a day later"), (7, "a week later"))


@dataclass(frozen=True)
class Card:
    """One trial in words: what it comes to, and the addresses of its neighbours."""

    trial: Trial
    act: str
    said: str
    steps: list[tuple[str, str]]
    without: str
    others: str
    begin: str


class Moved(msgspec.Struct, frozen=True, kw_only=True):
    """A trial on another day, for the open page."""

    bar: str
    dots: str
    act: str
    said: str
    value: int
    value_text: str
    address: str


def show(visit: Visit) -> Answer:
    """The year as a picture and as a table, with what is tried out."""
    tried = _asked(visit)
    if visit.text("crop"):
        on = visit.day("on") or visit.today
        new = (visit.text("crop"), visit.text("bed"), on)
        return Go(_address([*(_key(each) for each in _run(visit, tried)), _key(_run(visit, [new])[0])]))
    trials = _run(visit, tried)
    found = show_season(visit.garden, visit.today)
    keys = [_key(each) for each in trials]
    return Page(
        "season.html",
        {
            "season": found,
            "names": bed_names(found, trials),
            "picture": opening_bars(found, visit.voice, trials),
            "cards": [_card(each, at, keys, visit.voice) for at, each in enumerate(trials)],
            "tried": ",".join(keys),
            "full": len(trials) >= MOST,
            "crops": _crops(visit),
            "begin_with": worth_trying(visit.garden, visit.today),
        },
    )


def move(visit: Visit) -> Answer:
    """One trial on the day it was moved to; nothing is written."""
    tried = _asked(visit)
    at = visit.number("at", 0.0) or 0.0
    if not 0 <= at < len(tried):
        raise Refused("There is no such trial.", field="at")
    trials = _run(visit, tried)
    found = show_season(visit.garden, visit.today)
    trial, voice = trials[int(at)], visit.voice
    return Moved(
        bar=trial_bar(found, trials, int(at), voice),
        dots=str(year_dots(trial.overall, about=f"{trial.name} on {voice.day(trial.on)}")),
        act=_act(trial, voice),
        said=_said(trial, voice),
        value=(trial.on - found.first).days,
        value_text=f"{voice.day(trial.on)}: {in_years(trial.overall)}",
        address=_address([_key(each) for each in trials]),
    )


def _asked(visit: Visit) -> list[tuple[str, str, date]]:
    """What the address says is tried: "carrot.lake-1.2026-07-10", several after commas."""
    found = []
    for part in [part for part in visit.text("try").split(",") if part]:
        crop, _, rest = part.partition(".")
        bed, _, day = rest.rpartition(".")
        try:
            on = date.fromisoformat(day)
        except ValueError:
            raise Refused(f"{day!r} in the address is not a date.", "Start from the season anew.") from None
        # an address that was kept shows what can still be tried of it
        found.append((crop, bed, max(on, visit.today)))
    if len(found) > MOST:
        raise Refused(f"At most {MOST} sowings are tried at a time.", "Take one off first.")
    return found


def _run(visit: Visit, tried: Sequence[tuple[str, str, date]]) -> list[Trial]:
    return [try_sowing(visit.garden, visit.today, crop, bed, on) for crop, bed, on in tried]


def _key(trial: Trial) -> str:
    return f"{trial.crop}.{trial.bed}.{trial.on.isoformat()}"


def _address(keys: Sequence[str]) -> str:
    return f"/season?{urlencode({'try': ','.join(keys)}, safe=',')}" if keys else "/season"


def _card(trial: Trial, at: int, keys: Sequence[str], voice: Voice) -> Card:
    steps = []
    for days, name in STEPS:
        on = trial.on + timedelta(days=days)
        if trial.today <= on <= trial.latest:
            moved = f"{trial.crop}.{trial.bed}.{on.isoformat()}"
            steps.append((name, _address([*keys[:at], moved, *keys[at + 1 :]])))
    rest = [*keys[:at], *keys[at + 1 :]]
    return Card(
        trial, _act(trial, voice), _said(trial, voice), steps, _address(rest), ",".join(rest), _begin(trial)
    )


def _begin(trial: Trial) -> str:
    """Where it goes into the book, filled in as it was tried."""
    way = "bought" if trial.set_out else "here"
    said = {"way": way, "crop": trial.crop, "bed": trial.bed, "meant": trial.on.isoformat()}
    return f"/plant?{urlencode(said)}"


def _act(trial: Trial, voice: Voice) -> str:
    verb = "Set out" if trial.set_out else "Sow"
    return f"{verb} {trial.name} in {trial.bed_name} on {voice.day(trial.on, weekday=True)}"


def _said(trial: Trial, voice: Voice) -> str:
    """What it comes to, in a few sentences."""
    gets = "Ready" if trial.set_out else "A full stand that is ready"
    parts = [f"{gets} before anything takes it {in_years(trial.overall)}."]
    if trial.ready.q50 is not None:
        parts.append(f"Ready about {voice.day(trial.ready.q50)}.")
    parts.append(f"Before the first frost of autumn {in_years(trial.before_frost)}.")
    if trial.raised_from is not None:
        sown = voice.day(trial.raised_from)
        parts.append(
            f"Plants for it are sown under cover on {sown}."
            if trial.raised_from >= trial.today
            else f"Plants for it had to be sown under cover by {sown}; else they are bought."
        )
    for name, until in trial.until_there:
        parts.append(f"Until about {voice.day(until)} {name} stand in this bed too.")
    return " ".join(parts)


def _crops(visit: Visit) -> list[tuple[str, str]]:
    american = visit.site.words == "american"
    return sorted((each.american if american else each.british, each.key) for each in list_sheets())


WAYS: Final = (
    Way("/season", show),
    Way("/season/move", move),
)
