"""What may have taken a sowing, and what stops the same from happening twice."""

from __future__ import annotations

import msgspec
import numpy as np

from spadework.advice.again_belief import Weighing
from spadework.advice.risks import POOR_SHARE, WASHING_RAIN_MM, crust_by_year
from spadework.science.emergence import percent_normal


class Cause(msgspec.Struct, frozen=True, kw_only=True):
    """One likely cause: what speaks for it, and what stops it."""

    name: str
    sign: str
    stops: str


def likely_causes(weighing: Weighing) -> list[Cause]:
    """Causes that this season's weather, the counts and the digging speak for; never empty."""
    case = weighing.case
    sheet, ground, start, end = case.sheet, case.ground, case.sowing.day, case.today + 1
    found: list[Cause] = []
    if weighing.belief.real_loss or case.dug == "gone":
        sign = (
            f"{weighing.belief.lost} seedlings that were up are gone"
            if weighing.belief.real_loss
            else "seed is gone from the drill"
        )
        found.append(
            Cause(
                name="eaten",
                sign=sign,
                stops="net or fleece the row from the day of sowing, and look for slugs by torchlight",
            )
        )
    law = sheet.emergence.law()
    soil = float(ground.soil_mean_c[:, start:end].mean())
    if float(percent_normal(soil, law)) < POOR_SHARE * law.best_pct:
        cold = soil < (law.cold_half_c + law.heat_half_c) / 2.0
        found.append(
            Cause(
                name="cold soil" if cold else "hot soil",
                sign=f"the soil has averaged {soil:.0f} °C",
                stops="wait for warmer soil, or warm the bed under clear cover first"
                if cold
                else "sow towards evening into watered soil and shade the row until it is up",
            )
        )
    rain = ground.years.rain_mm[:, start:end]
    up = np.full(rain.shape[0], end, dtype=np.int64)
    if float(crust_by_year(ground, start, up).mean()) > 0.5:
        found.append(
            Cause(
                name="crust",
                sign="hard rain and then drying days since it was sown",
                stops="cover the drill with sieved compost, and keep the surface damp until it is up",
            )
        )
    if float((rain >= WASHING_RAIN_MM).any(axis=1).mean()) > 0.5:
        found.append(
            Cause(
                name="washed",
                sign=f"a day of {WASHING_RAIN_MM:.0f} mm of rain or more since it was sown",
                stops="lay fleece over the drill until it is up",
            )
        )
    if not case.sowing.watered and float(ground.seedbed_wet_share[:, start:end].min(axis=1).mean()) < 0.2:
        found.append(
            Cause(
                name="dry",
                sign="the top of the soil has dried out since it was sown",
                stops="water the drill before sowing, and keep it damp until it is up",
            )
        )
    if case.dug == "soft":
        found.append(
            Cause(
                name="rotten",
                sign="the seed dug up is soft",
                stops="sow shallower into warmer, better drained soil",
            )
        )
    if not found:
        found.append(
            Cause(
                name="not known",
                sign="nothing in the weather explains it",
                stops="try ten seeds on damp paper first, and keep the drill damp until it is up",
            )
        )
    return found
