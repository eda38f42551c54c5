"""What crops really do in the simulated seasons, kept apart from all the program knows of them.

Nothing here reads the program's sheets or its advice. The numbers are round figures of common practice;
each run draws its own from them, so that the program's thresholds and curves are never the true ones.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Final, Literal

import numpy as np

Shape = Literal["ramp", "step", "late"]


@dataclass(frozen=True, kw_only=True)
class Nature:
    """One crop. Warmth is the day's plain mean above `base_c`, summed.  [degC d]

    Parameters
    ----------
    up_cd, ready_cd : float  [degC d]
        From sowing to half up; from there, or from setting out, to ready.
    frost_c : float  [degC]
        Leaf temperature that begins to kill; 2 degC lower kills all.
    holds_d : float  [d]
        How long it stays good once ready, or fruit past its size costs those to come.
    bears_d : float  [d]
        How long it goes on bearing; zero where it is taken once.
    weeds : float
        Share of a crop that weeds take where they are never touched.
    room_cm : float  [cm]
        Row that a plant wants in the end.
    crowded : float
        Share that crowding takes where it is never thinned.
    birds : float
        Share that birds take from seedlings nobody guards.
    falls : float
        Share lost when it stands unsupported in a gale.
    greens : float
        Share of tubers that turn green where no soil is drawn up.
    """

    base_c: float
    up_cd: float
    ready_cd: float
    frost_c: float = -6.0
    holds_d: float = 20.0
    bears_d: float = 0.0
    weeds: float = 0.6
    room_cm: float = 8.0
    crowded: float = 0.0
    birds: float = 0.0
    falls: float = 0.0
    greens: float = 0.0


NATURES: Final = {
    "carrot": Nature(room_cm=5, base_c=4, up_cd=130, ready_cd=900, holds_d=45, weeds=0.9, crowded=0.7),
    "beet": Nature(base_c=4, up_cd=90, ready_cd=850, holds_d=30, crowded=0.5, birds=0.3),
    "radish": Nature(room_cm=4, base_c=4, up_cd=50, ready_cd=380, holds_d=9, weeds=0.3, crowded=0.4),
    "lettuce": Nature(
        room_cm=20, base_c=4, up_cd=60, ready_cd=650, holds_d=12, bears_d=30, crowded=0.3, birds=0.3
    ),
    "spinach": Nature(base_c=3, up_cd=90, ready_cd=550, holds_d=10, bears_d=30, crowded=0.2),
    "onion": Nature(base_c=5, up_cd=140, ready_cd=1300, holds_d=25, weeds=0.9, crowded=0.4),
    "bush-bean": Nature(base_c=10, up_cd=60, ready_cd=500, frost_c=-0.5, holds_d=5, bears_d=30, weeds=0.4),
    "summer-squash": Nature(
        base_c=10, up_cd=60, ready_cd=480, frost_c=-0.5, holds_d=4, bears_d=50, weeds=0.3
    ),
    "potato": Nature(base_c=6, up_cd=180, ready_cd=1050, frost_c=-1.5, holds_d=35, weeds=0.4, greens=0.25),
    "tomato": Nature(base_c=10, up_cd=0, ready_cd=700, frost_c=-0.5, holds_d=7, bears_d=45, falls=0.4),
    "pea": Nature(base_c=4, up_cd=110, ready_cd=850, holds_d=5, bears_d=18, birds=0.4, falls=0.3),
    "cabbage": Nature(base_c=4, up_cd=0, ready_cd=1100, holds_d=20, weeds=0.4, birds=0.5),
    "kale": Nature(
        base_c=4, up_cd=70, ready_cd=800, holds_d=25, bears_d=80, weeds=0.4, crowded=0.3, birds=0.4
    ),
    "chard": Nature(
        room_cm=20, base_c=5, up_cd=90, ready_cd=750, holds_d=15, bears_d=60, crowded=0.3, birds=0.2
    ),
    "turnip": Nature(room_cm=10, base_c=4, up_cd=60, ready_cd=700, holds_d=20, crowded=0.5),
    "sweet-corn": Nature(base_c=10, up_cd=70, ready_cd=850, frost_c=-1.5, holds_d=6, bears_d=10, weeds=0.6),
}
"""Common practice, in round figures, without a source: they stand for a garden nobody measured."""

SPREAD: Final = {"near": 0.15, "wrong": 0.5}
"""Spread of a factor drawn for every number, as the standard deviation of its logarithm."""

SHARES: Final = ("weeds", "crowded", "birds", "falls", "greens")


@dataclass(frozen=True, kw_only=True)
class Curves:
    """How the ground and all crops of one run react; drawn at random.

    Parameters
    ----------
    weed_cday : float  [degC d]
        Warmth in which weeds from a clean bed cover half of it.
    critical_cday : float  [degC d]
        Warmth from emergence to the end of the time in which weeds cost most.
    water_mm : float  [mm]
        Water a bed holds within reach of roots.
    suffers_at : float
        Share of it below which growth is lost.
    thirst_share : float
        Share of the crop that a dry day costs at worst.
    damp_days : float  [d]
        Days the top of a seedbed stays damp.
    dies_dry : float
        Share of the seed that a dry day kills.
    fails : float
        Chance that a sowing comes up too thin.
    crowds_at, roots_free_at : float
        Shares of the way to ready at which crowding begins and is complete.
    green_at : float
        Share of the way at which tubers reach the light.
    tender_d : float  [d]
        Days after emergence until birds leave seedlings.
    strike, gale : float
        Chance a day of birds, of a gale.
    shape : Shape
        Of losses that build up: evenly, all at once, or late.
    """

    weed_cday: float = 260.0
    critical_cday: float = 450.0
    water_mm: float = 45.0
    suffers_at: float = 0.45
    thirst_share: float = 0.02
    damp_days: float = 1.5
    dies_dry: float = 0.08
    fails: float = 0.12
    crowds_at: float = 0.2
    roots_free_at: float = 0.7
    green_at: float = 0.45
    tender_d: float = 18.0
    strike: float = 0.06
    gale: float = 0.02
    shape: Shape = "ramp"


def drawn(sort: str, chance: np.random.Generator) -> tuple[Curves, dict[str, Nature]]:
    """Curves and crops of a run: every number times a factor of its own.

    Parameters
    ----------
    sort : {"near", "wrong"}
        "wrong" draws far off, and lets losses build up by another shape.
    chance : Generator
    """
    spread = SPREAD[sort]

    def off(value: float, most: float = np.inf) -> float:
        return float(min(value * np.exp(chance.normal(0.0, spread)), most))

    usual = Curves()
    shapes: tuple[Shape, ...] = ("ramp", "step", "late")
    shares = ("suffers_at", "crowds_at", "roots_free_at", "green_at", "fails", "dies_dry")
    numbers = {
        name: off(value, 0.9 if name in shares else np.inf)
        for name, value in vars(usual).items()
        if isinstance(value, float)
    }
    shape = shapes[int(chance.integers(3))] if sort == "wrong" else "ramp"
    crops = {}
    for key, crop in NATURES.items():
        # how long a crop takes is known far better than what neglect costs it
        warmth = {
            name: getattr(crop, name) * float(np.exp(chance.normal(0.0, spread / 3.0)))
            for name in ("up_cd", "ready_cd")
        }
        rest = {name: off(getattr(crop, name), 0.95) for name in SHARES}
        crops[key] = replace(crop, holds_d=off(crop.holds_d), bears_d=off(crop.bears_d), **warmth, **rest)
    return Curves(shape=shape, **numbers), crops


def built_up(share: float, shape: Shape) -> float:
    """How much of a loss is there when so much of the time for it is over; both 0 to 1."""
    part = min(max(share, 0.0), 1.0)
    if shape == "step":
        return float(part >= 0.5)
    return part if shape == "ramp" else part**3
