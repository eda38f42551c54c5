"""What the coming night does at the leaf: chances to be killed in the open and under a cover."""

from __future__ import annotations

from typing import Final

import numpy as np

from spadework.advice.next_night import next_night_c
from spadework.advice.scene import Plot
from spadework.clock import fate
from spadework.clock.cover import FLEECE, Cover
from spadework.types import Floats

GAIN_SPREAD: Final = (0.0, 1.0, 2.0)
"""A cover's gain in a single night over its mean, each as likely: it may be nothing at all. Source: memory of
measured nights under fleece."""

WEEK: Final = 7
"""Nights for which a cover that lies is thought to be wanted. Our own rule."""


def killed_tonight(plot: Plot, gain_c: float = 0.0, *, forecast: bool = False) -> Floats:
    """Chance that the coming night kills a planting as it stands, [year].

    Parameters
    ----------
    plot : Plot
    gain_c : float  [degC]
        Gained by a cover.
    forecast : bool
        Whether the night is foretold.
    """
    ground = plot.course.ground
    column = min(plot.column + 1, ground.years.tmin_c.shape[1] - 1)
    night = slice(column, column + 1)
    drop = None if ground.leaf_drop_c is None else ground.leaf_drop_c[:, night]
    on_leaf = plot.sheet.frost.measured_at == "leaf"
    alive, weights = fate.frost_survival(
        plot.sheet,
        next_night_c(ground.years.tmin_c, plot.column, forecast=forecast)[:, None] + gain_c,
        plot.course.way[:, night],
        site_offset_c=plot.course.site_offset_c + (ground.leaf_offset_c if on_leaf else 0.0),
        site_sd_c=ground.leaf_sd_c,
        leaf_drop_c=drop,
    )
    killed: Floats = 1.0 - np.tensordot(weights, alive[:, :, 0], axes=1)
    return killed


def killed_under(plot: Plot, cover: Cover, *, forecast: bool = False) -> Floats:
    """The same under a cover, whose gain is a spread that includes nothing, [year]."""
    gains = [share * cover.night_c for share in GAIN_SPREAD]
    found: Floats = np.mean([killed_tonight(plot, gain, forecast=forecast) for gain in gains], axis=0)
    return found


def killed_bare_soon(plot: Plot, *, lies: bool) -> Floats:
    """Chance that a night of the coming week kills a planting without a cover, [year].

    Parameters
    ----------
    plot : Plot
    lies : bool
        Whether its own weather has a cover in it, whose mean gain is taken off again.
    """
    ground = plot.course.ground
    last = ground.years.tmin_c.shape[1]
    nights = slice(min(plot.column + 1, last - 1), min(plot.column + 1 + WEEK, last))
    drop = None if ground.leaf_drop_c is None else ground.leaf_drop_c[:, nights]
    on_leaf = plot.sheet.frost.measured_at == "leaf"
    alive, weights = fate.frost_survival(
        plot.sheet,
        ground.years.tmin_c[:, nights] - (FLEECE.night_c if lies else 0.0),
        plot.course.way[:, nights],
        site_offset_c=plot.course.site_offset_c + (ground.leaf_offset_c if on_leaf else 0.0),
        site_sd_c=ground.leaf_sd_c,
        leaf_drop_c=drop,
    )
    killed: Floats = 1.0 - np.tensordot(weights, alive[:, :, -1], axes=1)
    return killed
