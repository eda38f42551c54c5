"""Response tables of the crops, built once each and kept by content."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache

import numpy as np

from spadework.crops.sheet import Value
from spadework.science import development
from spadework.science.emergence import EmergenceLaw, percent_normal, warmth_c
from spadework.science.response import ResponseTable, response_table
from spadework.types import Floats

_NEVER_C = 200.0
"""A temperature no soil reaches: takes one side of the percent law away [degC]."""


@lru_cache(maxsize=256)
def warmth_table(law: EmergenceLaw) -> ResponseTable:
    """Warmth for emergence [degC d a day] over the soil's daily wave."""
    return ResponseTable.build(lambda temp_c: warmth_c(temp_c, law))


def cold_side(law: EmergenceLaw, soil_c: Floats) -> Floats:
    """Share of seed that the cold of a day's mean lets up, 0 to 1."""
    heat_free = replace(law, best_pct=100.0, heat_half_c=_NEVER_C, ceiling_c=_NEVER_C)
    return percent_normal(soil_c, heat_free) / 100.0


@lru_cache(maxsize=256)
def heat_side_table(law: EmergenceLaw) -> ResponseTable:
    """Share of seed that heat lets up, averaged over the soil's daily wave."""
    cold_free = replace(law, best_pct=100.0, cold_half_c=-_NEVER_C)
    return ResponseTable.build(lambda temp_c: percent_normal(temp_c, cold_free) / 100.0)


def trapezoid_table(base_c: float, optimum_c: float, shoulder_c: float, ceiling_c: float) -> ResponseTable:
    """Development rate, 1 at the optimum, over the air's daily wave."""
    return response_table("trapezoid", base_c, optimum_c, shoulder_c, ceiling_c)


def triangle_table(base_c: float, optimum_c: float, ceiling_c: float) -> ResponseTable:
    """Vernalisation, 1 at the optimum, over the air's daily wave."""
    return response_table("triangle", base_c, optimum_c, ceiling_c)


def day_length_factor(
    kind: str, critical_h: Value | None, saturating_h: Value | None, photoperiod_h: Floats
) -> Floats:
    """How far the day length lets development go, 0 to 1, [day]."""
    if kind == "none" or critical_h is None or saturating_h is None:
        return np.ones_like(photoperiod_h)
    if kind == "long":
        return development.long_day_factor(photoperiod_h, critical_h.value, saturating_h.value)
    return development.short_day_factor(photoperiod_h, critical_h.value, saturating_h.value)
