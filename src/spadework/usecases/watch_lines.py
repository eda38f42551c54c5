"""What may come, told line by line: when, where, how to look, what is too many, what to do first."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Final

import msgspec
import numpy as np

from spadework.advice.coming_words import days_text, event_text, in_hundred
from spadework.advice.scene import Scene
from spadework.advice.stakes import after_clean_look, chance_by_weather, stakes
from spadework.advice.watching import Coming, coming, seen_this_season

WEEK: Final = 7
MEETS: Final = 0.5

SPOKEN_OF: Final = 0.05
"""Chance that a disease has come from which its infection weather is news. Our own rule."""

_ORDER: Final = {"insect": 0, "disease": 0, "animal": 1, "disorder": 2}


class Week(msgspec.Struct, frozen=True, kw_only=True, rename={"since": "from"}):
    """A week, and in how many of the years it may harm what stands then: [years, of years]."""

    since: date
    odds: tuple[int, int]


class ComingLine(msgspec.Struct, frozen=True, kw_only=True):
    """One trouble that may come.

    Parameters
    ----------
    trouble, name, kind : str
        Key of its sheet, its name, "insect", "disease" or "animal".
    stage : str
        Where it is in its year, with odds: "The first flies lay at the stems about 3 Jun; ...". Of a disease
        the weather that let it infect; of an animal what is tender.
    beds, crops : list of str
        Names of the beds it may harm something in, and of the crops.
    weeks : list of Week
        Of an insect: years in which a stage that harms meets an age that is harmed. Of a disease: years with
        infection weather. Of an animal: years in which plants are tender.
    chance : float or None
        Of a disease: that it has come by the weather of the last fortnight.
    alerts : list of date
        Past days of infection weather.
    look, too_many : str
        Where, when and at how many plants; what is too many.
    minutes : float
    act : str
        What to do first; of an animal the best barrier the kit holds.
    note : str
        What is to be said beside it: law, neighbours, what a clean look would change.
    news : bool
        It has just come or is about to, was seen lately, or its weather has been.
    at_stake_kg : float
        What a week of not looking costs, in kilograms of carrots.
    """

    trouble: str
    name: str
    kind: str
    stage: str
    beds: list[str]
    crops: list[str]
    weeks: list[Week]
    look: str
    too_many: str
    minutes: float
    act: str
    note: str
    news: bool
    at_stake_kg: float
    chance: float | None = None
    alerts: list[date] = []
    seen_on: date | None = None
    looked_on: date | None = None


def coming_lines(scene: Scene, days: int, *, bed: str = "", crop: str = "") -> list[ComingLine]:
    """What may come within so many days, what is new and has most at stake first.

    Parameters
    ----------
    scene : Scene
    days : int
    bed, crop : str
        Keys; empty for all.
    """
    seen = seen_this_season(scene)
    found = coming(scene, days, animals=True)
    at_stake: dict[str, float] = {}
    for stake in stakes(scene, found, seen):
        key = stake.coming.trouble.key
        at_stake[key] = at_stake.get(key, 0.0) + stake.at_stake
    lines = []
    for each in found:
        plots = [
            plot
            for plot in each.plots
            if (not bed or plot.bed_key == bed) and (not crop or plot.sheet.key == crop)
        ]
        if plots:
            lines.append(_line(scene, each, [plot.key for plot in plots], at_stake))
    lines.sort(key=lambda each: (not each.news, _ORDER[each.kind], -each.at_stake_kg, each.trouble))
    return lines


def _line(scene: Scene, each: Coming, keys: list[str], at_stake: dict[str, float]) -> ComingLine:
    trouble = each.trouble
    plots = [plot for plot in each.plots if plot.key in keys]
    scout = trouble.scout
    plants = round(scout.plants.value)
    chance = chance_by_weather(each) if trouble.kind == "disease" and each.alerts else None
    return ComingLine(
        trouble=trouble.key,
        name=trouble.name,
        kind=trouble.kind,
        stage=_stage(scene, each, len(plots)),
        beds=list(dict.fromkeys(plot.where for plot in plots)),
        crops=list(dict.fromkeys(plot.name for plot in plots)),
        weeks=_weeks(scene, each, keys),
        look=f"{plants} plants: {scout.where}, {scout.when}",
        too_many=scout.too_many,
        minutes=scout.minutes.value,
        act=_act(scene, each),
        note=_note(each, chance),
        news=each.is_news(scene.today)
        and (chance is None or chance >= SPOKEN_OF or each.seen_on is not None),
        at_stake_kg=round(at_stake.get(trouble.key, 0.0), 3),
        chance=None if chance is None else round(chance, 3),
        alerts=list(each.alerts),
        seen_on=each.seen_on,
        looked_on=each.looked_on,
    )


def _weeks(scene: Scene, each: Coming, keys: list[str]) -> list[Week]:
    meets = np.max(np.stack([each.meets[key] for key in keys]), axis=0)
    return [
        Week(
            since=scene.today + timedelta(days=first),
            odds=(
                round(float((meets[:, first : first + WEEK].max(axis=1) >= MEETS).mean()) * scene.years),
                scene.years,
            ),
        )
        for first in range(0, meets.shape[1] - 1, WEEK)
    ]


def _stage(scene: Scene, each: Coming, plots: int) -> str:
    if each.trouble.kind == "insect":
        return event_text(scene, each) or each.trouble.about.text
    if each.trouble.kind == "animal":
        return f"{plots} planting{'' if plots == 1 else 's'} tender or ripe for it."
    if each.alerts:
        return f"The weather of {days_text(each.alerts)} let it infect."
    return "No infection weather in the last fortnight."


def _act(scene: Scene, each: Coming) -> str:
    owned = {item.sort for item in scene.garden.kit.values() if not item.gone}
    trouble = each.trouble
    ways = trouble.barrier if trouble.kind == "animal" and trouble.barrier else trouble.remedies
    best = [way for way in ways if way.kit in owned] or [way for way in ways if not way.kit] or list(ways)
    if trouble.kind != "animal":
        best = list(ways)
    return best[0].act if best else ""


def _note(each: Coming, chance: float | None) -> str:
    trouble = each.trouble
    parts = []
    if chance is not None:
        after = after_clean_look(chance, trouble.scout.plants.value)
        parts.append(
            f"By that weather about {in_hundred(chance)} that it has come; a clean look tomorrow would leave "
            f"{in_hundred(after)}."
        )
    if trouble.kind == "animal":
        parts += [said.text for said in trouble.legal[:1]]
    elif each.seen_on is not None and trouble.neighbours:
        parts.append(trouble.neighbours)
    return " ".join(parts)
