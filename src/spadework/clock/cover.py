"""Plants under a cover for their first weeks: warmer nights and days, no more than that."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from spadework.clock.ground import Ground
from spadework.science.soil import SURFACES


@dataclass(frozen=True)
class Cover:
    """What a cover does to the air round the plants.

    Parameters
    ----------
    name : str
    night_c, day_c : float  [degC]
        Gain of the minimum and of the maximum.
    provenance, source : str
        Of the gain by night.
    light_share, et0_share : float
        Light that passes, and evapotranspiration under it over that in the open.
    roof : bool
        Keeps the rain off.
    leaf_drop_c : float or None  [degC]
        Mean of a leaf's minimum less that of the air under it; None where it is as in the open.
    """

    name: str
    night_c: float
    day_c: float
    provenance: str
    source: str
    light_share: float = 1.0
    et0_share: float = 1.0
    roof: bool = False
    leaf_drop_c: float | None = None


FLEECE = Cover("fleece", 1.5, 3.0, "published", "FAO_FROST", light_share=0.85, et0_share=0.8)
"""A row cover: 1 to 5 degC by night from thin to thick (FAO_FROST, published); the lower part of that range,
since single clear nights gain nothing. The gain by day and evapotranspiration: memory; light:
common-practice."""


TUNNEL = Cover(
    "tunnel",
    1.3,
    4.2,
    "published",
    "SAVAGE1980",
    light_share=0.75,
    et0_share=0.75,
    roof=True,
    leaf_drop_c=-0.5,
)
"""An unheated walk-in tunnel, vented: means of minima and maxima over those outside. Its leaves face the film
and not the sky, so that they cool as under cloud: memory."""

ROOM_C: Final = (16.0, 20.0)
"""Night and day on a shelf in a lived-in room. Source: common-practice; a thermometer there knows better."""


def indoors(ground: Ground) -> Ground:
    """The same days on a shelf indoors: the warmth of a room, the day length of the window.

    Notes
    -----
    No sun warms the pots: the compost is as warm as the air.
    """
    years, surface = ground.years, SURFACES[ground.surface]
    night, day = (np.full_like(years.tmin_c, warmth) for warmth in ROOM_C)
    even = np.full_like(years.tmin_c, -surface.a_c / surface.b_c_per_mj)
    return replace(ground, years=replace(years, tmin_c=night, tmax_c=day, solar_mj=even), _kept={})


def under_cover(ground: Ground, cover: Cover, first: int, days: int) -> Ground:
    """The same ground with a cover on from a column for some days.

    Parameters
    ----------
    ground : Ground
    cover : Cover
    first : int
        Column from which it lies.
    days : int  [d]

    Returns
    -------
    Ground

    Notes
    -----
    The cover is taken off on hot days, so that the gain by day never lifts the maximum above 28 degC. Wind,
    light and soil under it are left as they are.
    """
    years = ground.years
    tmin, tmax = years.tmin_c.copy(), years.tmax_c.copy()
    span = slice(first, first + days)
    tmin[:, span] += cover.night_c
    room = (28.0 - tmax[:, span]).clip(0.0, cover.day_c)
    tmax[:, span] += room
    tmax[:, span] = tmax[:, span].clip(min=tmin[:, span])
    covered = replace(ground, years=replace(years, tmin_c=tmin, tmax_c=tmax), _kept={})
    if cover.leaf_drop_c is None:
        return covered
    drop = np.full_like(tmin, np.nan) if ground.leaf_drop_c is None else ground.leaf_drop_c.copy()
    drop[:, span] = cover.leaf_drop_c
    return replace(covered, leaf_drop_c=drop)
