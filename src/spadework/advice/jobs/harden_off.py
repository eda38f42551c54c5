"""Harden off: remade each day from the hours outside so far, the day, the night and the sun."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

import numpy as np

from spadework.advice.job import AHEAD_DAYS, Condition, Job
from spadework.advice.odds import Fact
from spadework.advice.raising import (
    FIRST_HOURS,
    LAST_HOURS,
    days_until,
    hardened_share,
    hardening_hours,
    hours_outside,
    out_size_days,
    out_value,
    raised,
    standing_plants,
    tray_worth,
)
from spadework.advice.scene import Plot, Scene
from spadework.advice.waiting import lost_by_waiting, never_falling, window_of
from spadework.advice.weigh_plant_out import HELD_COST_PER_DAY
from spadework.garden.entries import Tended

LEAD_DAYS: Final = 3
"""Hardening off may begin so many days before it must. Our own rule."""

DAY_OVER_NIGHT_C: Final = 5.0
"""By how much a day must be warmer than the night plants are to bear, to stand outside. Source: memory."""

NIGHT_SHARE: Final = 0.6
"""Share of the hardening hours from which plants stay out on a night warm enough. Source: common-practice."""

SURE: Final = 0.9
"""Share of the years in which the night must be warm enough. Our own rule."""

WINDY_M_S: Final = 6.0
"""Wind of the day from which young plants stand in shelter. Source: memory."""

SHOCK: Final = 0.15
"""Share of its worth a plant loses that is set out from a room into sun and wind. Source: memory."""

TRAY_PLANTS: Final = 24
"""Plants carried at a time. Our own rule."""


def jobs(scene: Scene) -> Iterator[Job]:
    """Trays to be stood outside today."""
    for plot in raised(scene):
        size, whole = out_size_days(plot.sheet), hardening_hours(plot.sheet)
        if size is None or whole <= 0.0 or plot.sheet.start.night_out_c is None or done_today(scene, plot):
            continue
        share = hardened_share(scene, plot)
        days = plot.sheet.start.harden_days
        left = 0.0 if days is None else days.value * (1.0 - share)
        if share < 1.0 and float(np.median(days_until(plot, size))) <= left + LEAD_DAYS:
            yield _harden(scene, plot, share, left, size)


def done_today(scene: Scene, plot: Plot) -> bool:
    """Whether it stood outside today already."""
    entries = [*plot.planting.history, *(() if plot.bed is None else plot.bed.history)]
    return any(
        entry.happened_on == scene.today
        and isinstance(entry.act, Tended)
        and entry.act.act == "hardened off"
        and entry.planting in ("", plot.key)
        for entry in entries
    )


def _harden(scene: Scene, plot: Plot, share: float, left: float, size: float) -> Job:
    sheet, years = plot.sheet, scene.ground.years
    night = sheet.start.night_out_c
    assert night is not None
    columns = np.minimum(scene.column + np.arange(AHEAD_DAYS + 1), scene.ground.dates.size - 1)
    warm_enough = night.value + DAY_OVER_NIGHT_C
    may = years.tmax_c[:, columns] >= warm_enough
    slack = np.maximum(days_until(plot, size) - left, 0.0)
    late = np.maximum(np.arange(AHEAD_DAYS + 1)[None, :] - slack[:, None], 0.0)
    value = out_value(scene, sheet, scene.ground, round(float(np.median(slack)) + left))
    loss = never_falling(np.minimum(HELD_COST_PER_DAY * late + lost_by_waiting(value), SHOCK))
    hours = FIRST_HOURS + (LAST_HOURS - FIRST_HOURS) * share
    wind = 0.0 if years.wind_m_s is None else float(np.nan_to_num(years.wind_m_s[:, scene.column]).mean())
    windy = wind >= WINDY_M_S
    hours = round(hours / 2.0 if windy else hours)
    where = "in shade" if share < 1 / 3 else "in morning sun" if share < 2 / 3 else "in full sun"
    if windy:
        where += " out of the wind"
    lows = scene.tonight_c()
    safe = int(np.count_nonzero(lows >= night.value))
    out = share >= NIGHT_SHARE and safe >= SURE * lows.size
    low = float(np.median(lows)) + 0.0
    tonight = "they stay out tonight" if out else "in tonight"
    so_far = hours_outside(scene, plot)
    trays = float(np.ceil(standing_plants(plot) / TRAY_PLANTS))
    young: tuple[Condition, ...] = ("daylight", "no thunder", "not in heat")
    needs = young if share < 1 / 3 else young[:2]
    whole = hardening_hours(sheet)
    return Job(
        id=f"harden-off-{plot.key}",
        kind="harden off",
        act=f"Stand the {plot.name} from {plot.where} outside {where} for {hours} h; {tonight}",
        bed=plot.bed_key,
        planting=plot.key,
        crop=sheet.key,
        minutes=scene.pace.minutes("carry", 2.0 * trays),
        worth=tray_worth(plot),
        loss=loss,
        window=window_of(loss, may, scene.today, scene.made),
        reason=(
            f"They have had {so_far:.0f} of about {whole:.0f} hours outside; tonight's low is about "
            f"{round(low):d} °C, and no colder than the {night.value:.0f} °C they bear in {safe} of "
            f"{lows.size} years."
        ),
        facts=(
            Fact(name="hours outside so far", value=round(so_far, 1), unit="h", law="the book"),
            Fact(name="tonight's low, at the middle of the years", value=round(low, 1), unit="degC"),
            Fact(name="night they bear when hardened", value=night.value, unit="degC", source=night.receipt),
        ),
        needs=needs,
        strains=("lifting",),
        load_kg=5.0,
        test="Leaves that pale or curl had too much sun or wind: back into shade for a day.",
        done=(Tended(act="hardened off", material=f"{hours} h outside"),),
        settles=f"tray:{plot.key}",
    )
