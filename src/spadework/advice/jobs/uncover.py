"""Open a cover on a warm day or for the bees, and take it off for good once frost no longer asks for it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import timedelta
from typing import Final

import numpy as np

from spadework.advice.cover_state import BEES_LOSS, HEAT_LOSS, WORDS, Settled, hands_said, settle
from spadework.advice.guarding import named
from spadework.advice.job import AHEAD_DAYS, Job, Window
from spadework.advice.next_night import next_night_c
from spadework.advice.odds import Caution, Fact
from spadework.advice.scene import Plot, Scene
from spadework.advice.waiting import never_falling, or_start_anew, window_of
from spadework.clock.cover import Cover
from spadework.clock.cover_kinds import cover_of
from spadework.garden.entries import Minutes, Moved
from spadework.garden.records import Bed, Placed
from spadework.types import Floats

OPEN_MIN: Final = 1.0
OFF_START_MIN: Final = 1.0
OFF_M_MIN: Final = 0.5
"""Minutes to open a cover, to begin, and to take up and fold a metre. Source: common-practice."""

FROSTY_C: Final = 3.0
FROSTY: Final = 0.2
"""Shelter minimum down to which a clear night may freeze leaves, and the chance of such a night from which a
cover laid the evening before was laid against frost. Source: common-practice; the chance: our own rule."""

HOT_BY_H, BY_H = 9, 10
"""Hours by which a cover is opened: on a day too hot under it, and on any other. Source: common-practice."""

HOT: Final = 0.2
"""Share of years too hot under it from which a day counts as hot. Our own rule."""

LATEST_H: Final = 11.0
"""From then on a morning's job is late. Our own rule."""

HEAT = Caution("It is hottest under film: do not work long under it in the sun.", "common-practice")


def jobs(scene: Scene) -> Iterator[Job]:
    """Covers that lie shut over beds and would do better open or off."""
    for bed in scene.beds.values():
        plots = tuple(plot for plot in scene.in_bed(bed.key) if not plot.indoors)
        if not plots or bed.gone_on is not None or bed.inside or bed.shape in ("tunnel", "frame", "shelf"):
            continue
        for placed in scene.garden.covers(bed=bed.key):
            item = scene.garden.kit[placed.item]
            cover = cover_of(item.sort, item.grade, item.item)
            if cover is None or cover.night_c <= 0.0 or placed.opened or placed.since >= scene.today:
                continue
            under = tuple(plot for plot in plots if placed.planting in ("", plot.key))
            if not under:
                continue
            lies = item.sort in ("fleece", "film")
            settled = settle(scene, under, cover, lies=lies, item=item)
            night = _for_the_night(scene, bed, placed)
            if night and settled.state == "shut":
                settled = replace(settled, state=settled.second, second="shut")
            if settled.state != "shut":
                dark = _dark(under, cover) if night else np.zeros(scene.years)
                yield _job(scene, bed, placed, settled, dark, under, night=night)
                break


def _for_the_night(scene: Scene, bed: Bed, placed: Placed) -> bool:
    """Whether it was laid or shut yesterday against frost: then it is not meant to stay."""
    yesterday = scene.today - timedelta(days=1)
    of_the_day = [entry.act for entry in bed.history if entry.happened_on == yesterday]
    if any(isinstance(act, Minutes) and act.job == f"cover-{bed.key}" for act in of_the_day):
        return True
    shut = any(
        isinstance(act, Moved) and act.act == "shut" and act.item in ("", placed.item) for act in of_the_day
    )
    tmin_c, told = scene.ground.years.tmin_c, scene.forecast_days > 0
    night = next_night_c(tmin_c, scene.column - 1, forecast=told)
    return (shut or placed.since == yesterday) and float((night <= FROSTY_C).mean()) >= FROSTY


def _dark(plots: Sequence[Plot], cover: Cover) -> Floats:
    """Share of the crop a day without the light that the cover keeps off costs, [year]."""
    worths = np.array([max(plot.worth.value, 1e-9) for plot in plots])
    days = np.array([plot.sheet.development.ready_days.value for plot in plots])
    lost = float(((worths / worths.sum()) * (1.0 - cover.light_share) / days).sum())
    return np.full(plots[0].course.way.shape[0], lost)


def _job(
    scene: Scene,
    bed: Bed,
    placed: Placed,
    settled: Settled,
    dark: Floats,
    under: Sequence[Plot],
    *,
    night: bool,
) -> Job:
    names = [plot.name for plot in under]
    off = settled.state == "off"
    # every day it stays shut costs what today does more than the better state
    daily = np.maximum(settled.cost["shut"] - settled.cost[settled.state], 0.0) + dark
    days = np.arange(AHEAD_DAYS + 1)
    loss = never_falling(np.clip(daily[:, None] * days[None, :], 0.0, 1.0))
    plots = [plot for plot in scene.in_bed(bed.key) if not plot.indoors]
    whole = sum(plot.worth.value for plot in plots)
    if len(plots) == 1:
        loss = or_start_anew(loss, scene.start_anew(plots[0].sheet))
    metres = placed.length_m or (bed.outline.length_m if bed.outline is not None else 1.0)
    frost = (
        f"bare, frost of the coming week takes {settled.frost * 100:.0f} in 100 of the bed's worth, "
        "mean of the years"
        if settled.frost >= 0.005
        else "bare, frost of the coming week takes next to nothing"
    )
    why = [
        f"Shut, it passes the {settled.limit_c:.0f} °C its crop bears under it today in "
        f"{round(settled.hot * scene.years)} of {scene.years} years"
        if settled.hot > 0.0
        else f"Shut, it gets to about {settled.under_c:.0f} °C under it today, which its crop bears"
    ]
    if settled.bees > 0.0:
        why.insert(0, f"Bees cannot reach the flowers of the {' and '.join(dict.fromkeys(names))}")
        why[1] = f"s{why[1][1:]}"
    if by_hand := hands_said(tuple(under), settled):
        why.append(by_hand)
    why.append(frost)
    if settled.insects:
        why.append(f"{named(settled.insects[:2])} could fly in")
    if night:
        first = f"{why[0][0].lower()}{why[0][1:]}"
        why[0] = f"It was laid against last night's frost, and keeps off light by day; {first}"
    when = f" by {HOT_BY_H if settled.hot >= HOT else BY_H} o'clock"
    fold = ", and shake it dry before you fold it"
    return Job(
        id=f"{'uncover' if off else 'vent'}-{bed.key}",
        kind="uncover" if off else "vent",
        act=(
            f"Take the {placed.item} off {bed.name}{when if night else ''}"
            if off
            else f"Open the {placed.item} over {bed.name}{when}, and shut it before sunset"
        ),
        bed=bed.key,
        minutes=OFF_START_MIN + OFF_M_MIN * metres if off else OPEN_MIN,
        worth=whole,
        loss=loss,
        window=(
            Window(opens=scene.today, best=scene.today, closes=scene.today)
            if night
            else window_of(loss, np.ones(loss.shape, dtype=np.bool_), scene.today, scene.made)
        ),
        reason=f"{'; '.join(why)}. Next best is {WORDS[settled.second]}.",
        facts=(
            Fact(
                name="warmest under it today, shut",
                value=round(settled.under_c, 1),
                unit="degC",
                law="gain of a cover by day",
                source="memory",
            ),
            Fact(
                name="share of the worth frost takes in the coming week without it",
                value=round(settled.frost, 3),
                law="frost at the leaf",
                source="computed",
            ),
            Fact(
                name="share lost for each degree above the limit in a day", value=HEAT_LOSS, source="memory"
            ),
            Fact(name="share lost for each day without bees", value=BEES_LOSS, source="memory"),
        ),
        cautions=(HEAT,) if settled.hot >= HOT else (),
        needs=("daylight",) if off and not night else ("morning",),
        until_hour=LATEST_H if night or not off else None,
        strains=("stooping",),
        test=(
            f"Wait until the frost has gone off the leaves{fold if off else ''}."
            if night
            else "Put a hand under it at midday: stuffy and hot means it should be open."
        ),
        done=(Moved(act="off" if off else "opened", item=placed.item),),
        settles=f"cover:{bed.key}",
    )
