"""Open a tunnel or frame before it overheats: a house shut in the morning sun costs most of all to forget."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

import numpy as np

from spadework.advice.job import Job
from spadework.advice.odds import Caution, Fact
from spadework.advice.scene import Plot, Scene
from spadework.advice.waiting import ahead, never_falling, window_of
from spadework.garden.entries import Moved
from spadework.garden.records import Bed
from spadework.types import Floats

SHUT_GAIN_C_MJ: Final = (0.35, 0.15)
"""Inside maximum above the outside one for each MJ m-2 of the day's sun in a shut house, and its spread.
Source: memory; a thermometer inside knows better."""

TOO_HOT_C: Final = 32.0
"""Inside air that scorches leaves and fails fruit set. Source: memory."""

LOST_A_DAY: Final = 0.08
"""Share of the worth lost by a day shut above that. Source: memory."""

LEAST_CHANCE: Final = 0.2
OPEN_BY_H: Final = 9.0


def jobs(scene: Scene) -> Iterator[Job]:
    """Tunnels and frames that stand shut, or of which nobody said, on a day that may be too hot."""
    for key, bed in scene.beds.items():
        if bed.shape not in ("tunnel", "frame") or bed.gone_on is not None or bed.opened:
            continue
        inside = [key, *(k for k, other in scene.beds.items() if other.inside == key)]
        plots = [plot for name in inside for plot in scene.in_bed(name)]
        if plots:
            found = _vent(scene, bed, plots)
            if found is not None:
                yield found


def too_hot(scene: Scene) -> Floats:
    """Chance that a shut house gets too hot on each day from today, [year, AHEAD_DAYS + 1]."""
    from scipy.special import ndtr

    sun = ahead(scene.ground.solar_mj, scene.column)
    outside = ahead(scene.ground.years.tmax_c, scene.column)
    mean, sd = SHUT_GAIN_C_MJ
    found: Floats = ndtr((outside + mean * sun - TOO_HOT_C) / np.maximum(sd * sun, 0.5))
    return found


def _vent(scene: Scene, bed: Bed, plots: list[Plot]) -> Job | None:
    chance = too_hot(scene)
    today = float(chance[:, 0].mean())
    if today < LEAST_CHANCE:
        return None
    worth = sum(plot.worth.value for plot in plots)
    lost = 1.0 - np.cumprod(1.0 - LOST_A_DAY * chance, axis=-1)
    loss = never_falling(np.concatenate([np.zeros((lost.shape[0], 1)), lost[:, :-1]], axis=1))
    years = scene.years
    warm = float(ahead(scene.ground.years.tmax_c, scene.column)[:, 0].mean())
    sun = float(ahead(scene.ground.solar_mj, scene.column)[:, 0].mean())
    said = "It was shut when last told" if bed.opened is False else "Nobody said whether it stands open"
    return Job(
        id=f"vent-{bed.key}",
        kind="vent",
        act=f"Open {bed.name} by {OPEN_BY_H:.0f} o'clock, and shut it before sunset",
        bed=bed.key,
        minutes=2.0,
        worth=worth,
        loss=loss,
        window=window_of(loss, chance >= LEAST_CHANCE, scene.today, scene.made),
        reason=(
            f"{said}; shut, it passes {TOO_HOT_C:.0f} °C inside today in {round(today * years)} of "
            f"{years} years."
        ),
        facts=(
            Fact(name="warmest outside today", value=round(warm, 1), unit="degC", law="the years"),
            Fact(name="sun today", value=round(sun, 1), unit="MJ m-2", law="radiation by the day's range"),
            Fact(
                name="gain inside a shut house",
                value=SHUT_GAIN_C_MJ[0],
                unit="degC per MJ m-2",
                source="memory",
            ),
        ),
        cautions=(
            Caution("A shut house in sun is hot work: go in early, drink, and come out when you feel it."),
        ),
        needs=("morning",),
        until_hour=11.0,
        done=(Moved(act="opened"),),
        settles=f"cover:{bed.key}",
    )
