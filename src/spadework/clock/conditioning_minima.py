"""Own thermometer against the station's: colder nights at the garden, or colder leaves, never both twice.

A sheltered thermometer reads the air, as the station does: what it shows is the garden's own air. An open
one reads like a leaf: what it shows beyond the usual drop from air to leaf is the site's own.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date

import numpy as np

from spadework.clock.applied import Applied, AppliedFact
from spadework.garden.phrases import degrees_text
from spadework.garden.told import PairedMinima, Told
from spadework.science import frost
from spadework.weather.years import Years

READING_SD_C = 0.5
"""Error of one reading of a minimum thermometer [degC]. Source: memory."""

SHELTER_NIGHT_SD_C = 1.0
"""Scatter of the difference of two sheltered thermometers from night to night, where it is not told [degC].
Source: memory."""

LOW_HEIGHT_M = 0.5
LOW_SD_C = 1.0
"""A sheltered thermometer nearer to the ground than this is not quite like the station's: extra error [degC].
Source: memory."""


@dataclass(frozen=True)
class SiteMinima:
    """What paired minima say of a site.

    Parameters
    ----------
    air_c : float  [degC]
        Garden's air less the station's on nights.
    leaf_c, leaf_sd_c : float  [degC]
        Leaf surface less the usual for the garden's air, and what is not known of it.
    applied : tuple of Applied
    """

    air_c: float = 0.0
    leaf_c: float = 0.0
    leaf_sd_c: float = frost.BETWEEN_SITES_SD_C
    applied: tuple[Applied, ...] = ()


def site_minima(told: Sequence[Told], today: date) -> SiteMinima:
    """Garden against station from all told pairs.

    Notes
    -----
    Normal prior of spread 1.28 degC for either offset (measured between sites on grass surfaces, USCRN); each
    night has its scatter and the reading's error. Where both kinds of thermometer are told, the open one's
    difference is first cleared of the air's.
    """
    pairs = [e.fact for e in told if isinstance(e.fact, PairedMinima) and e.told_on <= today]
    sheltered = [pair for pair in pairs if pair.own.shelter == "sheltered"]
    opened = [pair for pair in pairs if pair.own.shelter == "open"]
    air, air_sd = _posterior([(pair.difference_c, _error_sd_c(pair)) for pair in sheltered])
    applied = []
    if sheltered:
        applied.append(_air_applied(sheltered, air, air_sd))
    else:
        air, air_sd = 0.0, 0.0
    own = [
        (
            pair.difference_c - air - frost.SURFACE_OFFSET_C,
            float(np.hypot(_error_sd_c(pair), air_sd)),
        )
        for pair in opened
    ]
    leaf, leaf_sd = _posterior(own)
    if opened:
        whose = "the garden's own" if sheltered else "the record's"
        applied.append(_leaf_applied(opened, leaf, leaf_sd, whose))
    return SiteMinima(air, leaf, leaf_sd, tuple(applied))


def with_air_offset(years: Years, air_c: float) -> Years:
    """Years with the garden's own nights; a day's maximum is never below its minimum."""
    tmin = years.tmin_c + air_c
    return replace(years, tmin_c=tmin, tmax_c=np.maximum(years.tmax_c, tmin))


def _error_sd_c(pair: PairedMinima) -> float:
    usual = SHELTER_NIGHT_SD_C if pair.own.shelter == "sheltered" else frost.WITHIN_SITE_SD_C
    night = usual if pair.spread_c is None or pair.nights < 2 else pair.spread_c
    error = float(np.hypot(night, READING_SD_C)) / float(np.sqrt(pair.nights))
    low = pair.own.shelter == "sheltered" and pair.own.height_m < LOW_HEIGHT_M
    return float(np.hypot(error, LOW_SD_C)) if low else error


def _posterior(observed: list[tuple[float, float]]) -> tuple[float, float]:
    """Mean and spread of an offset with the sites' prior, from values and their errors."""
    precision = 1.0 / frost.BETWEEN_SITES_SD_C**2
    weighed = 0.0
    for value, error in observed:
        precision += 1.0 / error**2
        weighed += value / error**2
    return weighed / precision, float(precision**-0.5)


def _nights_text(pairs: list[PairedMinima]) -> str:
    nights = sum(pair.nights for pair in pairs)
    mean = sum(pair.difference_c * pair.nights for pair in pairs) / nights
    where = next((pair.own.surroundings for pair in pairs if pair.own.surroundings), "")
    counted = "1 night" if nights == 1 else f"{nights} nights"
    return f"{f' {where}' if where else ''} read {degrees_text(mean)} than the station on {counted}"


def _air_applied(pairs: list[PairedMinima], air_c: float, sd_c: float) -> Applied:
    text = (
        f"Told that a sheltered thermometer{_nights_text(pairs)}: the garden's nights are taken "
        f"{degrees_text(air_c)} than the record's, known to within {sd_c:.1f} degrees."
    )
    law = "paired minima, sheltered"
    return Applied(
        text,
        "minimum",
        (
            AppliedFact(law, round(air_c, 3), "degC"),
            AppliedFact(law + ", standard deviation", round(sd_c, 3), "degC"),
        ),
    )


def _leaf_applied(pairs: list[PairedMinima], leaf_c: float, sd_c: float, air: str) -> Applied:
    text = (
        f"Told that an open thermometer{_nights_text(pairs)}. Open ones read like a leaf, usually "
        f"{abs(frost.SURFACE_OFFSET_C):.0f} degrees colder than {air} air: leaves here are taken "
        f"{'as usual' if abs(leaf_c) < 0.05 else f'{degrees_text(leaf_c)} than usual'}, known to within "
        f"{sd_c:.1f} degrees; the air is left as it is."
    )
    law = "paired minima, open"
    return Applied(
        text,
        "minimum",
        (
            AppliedFact(law, round(leaf_c, 3), "degC"),
            AppliedFact(law + ", standard deviation", round(sd_c, 3), "degC"),
        ),
    )
