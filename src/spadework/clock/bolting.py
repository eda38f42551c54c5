"""Running to seed: by cold in youth, or by long warm days."""

from __future__ import annotations

import numpy as np

from spadework.clock.ground import Ground
from spadework.clock.normal import log_normal_share
from spadework.clock.tables import day_length_factor, trapezoid_table, triangle_table
from spadework.crops.sheet import Sheet
from spadework.science import development
from spadework.types import Floats, Ints


def bolted_share(sheet: Sheet, ground: Ground, leaves: Floats, way: Floats, begin_day: Ints) -> Floats:
    """Chance that a plant has run to seed by each day, [year, day].

    Parameters
    ----------
    sheet : Sheet
        Its `bolting` section says what makes it bolt.
    ground : Ground
        Air and day length.
    leaves, way : array, shape (year, day)
        True leaves and share of the way to ready of the median plant; way negative before emergence.
    begin_day : array of int, shape (year,)
        Column from which development counts.
    """
    if sheet.bolting.kind == "cold":
        return _by_cold(sheet, ground, leaves, way)
    if sheet.bolting.kind == "long-day":
        return _by_long_days(sheet, ground, way, begin_day)
    return np.zeros_like(way)


def _by_cold(sheet: Sheet, ground: Ground, leaves: Floats, way: Floats) -> Floats:
    section = sheet.bolting
    # the loader requires all of these for this kind
    assert section.base_c is not None
    assert section.optimum_c is not None
    assert section.ceiling_c is not None
    assert section.juvenile_leaves is not None
    assert section.first_cday is not None
    assert section.most_cday is not None
    cardinals = (section.base_c.value, section.optimum_c.value, section.ceiling_c.value)

    def cold_units() -> Floats:
        # a day at the optimum gives the degrees between base and optimum, as the doses are published
        return triangle_table(*cardinals)(ground.air_mean_c, ground.air_half_c) * (
            cardinals[1] - cardinals[0]
        )

    units = ground.keep(("cold units", cardinals), cold_units)
    old_enough = (leaves >= section.juvenile_leaves.value) & (way >= 0.0)
    if not old_enough.any():
        return np.zeros_like(leaves)
    state = development.vernalisation_state(
        np.where(old_enough, units, 0.0),
        ground.air_mean_c,
        removal_above_c=None if section.removal_above_c is None else section.removal_above_c.value,
        removal_per_day=0.0 if section.removal_per_day is None else section.removal_per_day.value,
    )
    median, spread = development.bolting_dose(section.first_cday.value, section.most_cday.value)
    return log_normal_share(np.maximum.accumulate(state, axis=-1), median, spread)


def _by_long_days(sheet: Sheet, ground: Ground, way: Floats, begin_day: Ints) -> Floats:
    section, pace = sheet.bolting, sheet.development
    # the loader requires all of these for this kind
    assert section.base_c is not None
    assert section.optimum_c is not None
    assert section.days is not None
    assert section.cv is not None
    cardinals = (
        section.base_c.value,
        section.optimum_c.value,
        max(section.optimum_c.value, pace.shoulder_c.value),  # flowering may be hastened past the shoulder
        pace.ceiling_c.value,
    )
    lengths = (section.critical_h, section.saturating_h)

    def run() -> Floats:
        rate = trapezoid_table(*cardinals)(ground.air_mean_c, ground.air_half_c)
        return np.cumsum(rate * day_length_factor("long", *lengths, ground.photoperiod_h), axis=-1)

    hours = tuple(None if length is None else length.value for length in lengths)
    running = ground.keep(("bolting", cardinals, hours), run)
    begun = np.minimum(begin_day, running.shape[1] - 1)
    gained = np.where(way >= 0.0, running - running[np.arange(begun.size), begun][:, None], 0.0)
    return log_normal_share(gained, section.days.value, section.cv.value)
