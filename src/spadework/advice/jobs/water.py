"""Water a bed: when its roots run short, how much, and whether rain may do it instead."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

import numpy as np

from spadework.advice.allowance import Allowance, allowance_of
from spadework.advice.conditions import under_roof
from spadework.advice.job import AHEAD_DAYS, Job, Take
from spadework.advice.odds import Fact, odds_of
from spadework.advice.scene import Plot, Scene
from spadework.advice.waiting import ahead, never_falling, or_start_anew, window_of
from spadework.clock.bed_water import BedWater
from spadework.clock.dose import CAN_L, Dose, at_most, dose
from spadework.garden.entries import Watered
from spadework.garden.phrases import day_text
from spadework.garden.records import Bed
from spadework.science.root_zone import SOAKING_RAIN_MM
from spadework.types import Bools, Floats

SOON_DAYS: Final = 2
"""Water is offered when a bed will probably run short within so many days. Our own rule."""

MOST_MM: Final = 25.0
"""Most given at one time [mm]: more runs off or through. Source: common-practice."""

LEAST_MM: Final = 3.0
"""Less than this only wets the top and is not worth the walk [mm]. Source: common-practice."""

ENOUGH_TIMES: Final = 2
"""Waterings of a day after which a third is asked about and not offered. Our own rule."""

OFF_PEAK: Final = 0.5
"""Cost of thirst outside the part of its life in which drought costs a crop most, over that within it.
Source: memory."""

SEASON_DAYS: Final = 120.0
"""Days over which what is already ripe is taken to go on bearing [d]. Our own rule."""

WILTED: Final = 0.1
"""Share of full water use below which plants wilt and begin to die. Our own rule."""

WILT_LOSS: Final = 0.05
"""Share of a crop that dies on a day of wilting. Source: memory."""

DEAD_DAYS: Final = 7
"""Days of wilting in a row after which plants are dead [d]. Source: memory."""

CROWN_SLOWER: Final = 3.0
"""How many times slower what stands over years dies of drought: its crown comes back. Source: memory."""

UNHARMED_DAYS: Final = 3
"""Days for which plants go short without lasting harm [d]. Our own rule."""

HARMED: Final = 0.5
"""Share of full water use below which another day does lasting harm. Our own rule."""

TAP_MIN: Final = 2.0
"""Minutes to turn emitters on and off again. Source: common-practice."""

STANDS: Final = "It stands under a roof: no rain reaches it"


def jobs(scene: Scene) -> Iterator[Job]:
    """Beds to water, one job for each."""
    for bed in scene.beds.values():
        water = scene.water_of(bed.key)
        plots = tuple(plot for plot in scene.in_bed(bed.key) if not plot.indoors)
        if water is None or not plots or bed.gone_on is not None:
            continue
        if watered_today(scene, bed):
            continue
        until = water.days_until_short(scene.column)
        if float(np.mean(until <= SOON_DAYS)) < 0.5:
            continue
        whole = dose(bed, depth_to_give_mm(water, scene.column))
        if whole is None or whole.depth_mm < LEAST_MM:
            continue
        allowed = allowance_of(scene.garden, bed, scene.today)
        opens = 0 if allowed is None else allowed.free_in(whole.litres * LEAST_MM / whole.depth_mm)
        if opens is not None:
            yield _water(scene, bed, plots, water, whole, allowed, opens)


def watered_today(scene: Scene, bed: Bed) -> bool:
    """Whether it got a proper watering today, or as many small ones as are usual."""
    given = scene.garden.waterings(bed.key, since=scene.today)
    deep = any(not each.planting and (each.depth_mm is None or each.depth_mm >= LEAST_MM) for each in given)
    return deep or len(given) >= ENOUGH_TIMES


def depth_to_give_mm(water: BedWater, column: int) -> float:
    """Depth that fills the root zone, or as much of it as is given at one time  [mm]."""
    return min(water.wanted_mm(column), MOST_MM)


def thirst_loss(scene: Scene, plot: Plot, water: BedWater) -> Floats:
    """Share of a planting lost if its bed is first watered so many days from today, [year, day].

    Parameters
    ----------
    scene : Scene
    plot : Plot
    water : BedWater
        Without any watering from today on.

    Notes
    -----
    The sheet's cost of thirst is for each share of a season's water that is missed; a day's share of the
    season is what it adds to the way to ready. Plants that wilt for `DEAD_DAYS` in a row from today on are
    lost whole; what wilted before is taken to live, since it stands by the book. What stands over years
    cannot be had anew within a season.

    Source
    ------
    The form is that of FAO irrigation paper 33 (memory); costs are the sheet's.
    """
    section = plot.sheet.water
    lasting = plot.planting.perennial or plot.sheet.harvest.first_year is not None
    slower = CROWN_SLOWER if lasting else 1.0
    way = ahead(plot.course.way, plot.column)
    fed = np.nan_to_num(ahead(water.stress, scene.column), nan=1.0)
    share = np.where(way < 1.0, np.diff(way, axis=-1, append=way[:, -1:]), 1.0 / SEASON_DAYS)
    peak = (way >= section.thirst_from.value) & (way <= section.thirst_until.value)
    cost = section.thirst_cost.value * np.where(peak, 1.0, OFF_PEAK)
    daily = (1.0 - fed) * cost * np.clip(share, 0.0, None) + WILT_LOSS / slower * (fed < WILTED)
    daily = np.where(way >= 0.0, daily, 0.0)
    lost = np.zeros_like(daily)
    lost[:, 1:] = np.cumsum(daily, axis=-1)[:, :-1]
    lost = np.where((_days_wilted(fed) >= DEAD_DAYS * slower) & (way >= 0.0), 1.0, lost)
    anew = np.zeros_like(lost) if lasting else scene.start_anew(plot.sheet)
    return or_start_anew(never_falling(np.clip(lost, 0.0, 1.0)), anew)


def _days_wilted(fed: Floats) -> Floats:
    """Days of wilting in a row up to the morning of each day, [year, day]."""
    wilted = fed < WILTED
    day = np.arange(1, wilted.shape[-1] + 1)
    in_a_row = day - np.maximum.accumulate(np.where(wilted, 0, day), axis=-1)
    found = np.zeros(wilted.shape)
    found[:, 1:] = in_a_row[:, :-1]
    return found


def days_unharmed(scene: Scene, water: BedWater) -> Floats:
    """Days from today on the last of which watering still comes before lasting harm, [year]; 0 where harm is
    being done.

    Notes
    -----
    Plants may go short for `UNHARMED_DAYS`, but not on into a day below `HARMED`. Our own rule.
    """
    fed = np.nan_to_num(ahead(water.stress, scene.column), nan=1.0)
    harmed = fed < HARMED
    before = np.where(harmed.any(axis=1), np.argmax(harmed, axis=1) - 1.0, np.inf)
    found: Floats = np.maximum(np.minimum(water.days_until_short(scene.column) + UNHARMED_DAYS, before), 0.0)
    return found


def rain_fills(scene: Scene, water: BedWater, days: int) -> Bools:
    """Years in which rain within so many days keeps the bed from going short in that time, [year]."""
    span = slice(scene.column + 1, scene.column + 1 + days)
    rain = np.nan_to_num(scene.ground.years.rain_mm[:, span])
    short = water.short(min(scene.column + days, water.depletion_mm.shape[1] - 1))
    wet: Bools = (rain.max(axis=1, initial=0.0) >= SOAKING_RAIN_MM) & ~short
    return wet


def how_to_give(bed: Bed, give: Dose) -> tuple[str, str]:
    """The amount in words, with the way this bed is watered, and what is taken along."""
    litres = f"{give.litres:.0f} l"
    if bed.emitters or bed.water_by == "emitters":
        guess = "" if give.flow_known else ", at a guess of its flow"
        return f"{litres}, {give.minutes:.0f} min of its emitters{guess}", "nothing: open its tap"
    if bed.water_by == "can" or (not bed.water_by and give.litres <= 2.0 * CAN_L):
        cans = max(round(give.cans * 2.0) / 2.0, 0.5)
        return f"{litres}, {cans:g} can{'' if cans <= 1.0 else 's'} of {CAN_L:.0f} l", "can"
    guess = "" if give.flow_known else f" at {give.litres / max(give.minutes, 1e-9):.0f} l a minute"
    return f"{litres}, {max(give.minutes, 1.0):.0f} min of hose{guess}", "hose with a rose"


def _minutes(scene: Scene, give: Dose, tool: str) -> float:
    if tool.startswith("nothing"):
        return TAP_MIN
    if tool == "can":
        return scene.pace.minutes("damp", give.litres)
    return give.minutes + 1.0


def _water(
    scene: Scene,
    bed: Bed,
    plots: tuple[Plot, ...],
    water: BedWater,
    whole_dose: Dose,
    allowed: Allowance | None,
    opens: int,
) -> Job:
    give = whole_dose if allowed is None else at_most(whole_dose, allowed.left_l(opens))
    worths = np.array([plot.worth.value for plot in plots])
    whole = float(worths.sum())
    lost = np.stack([thirst_loss(scene, plot, water) for plot in plots])
    weights = worths / whole if whole > 0.0 else np.full(len(plots), 1.0 / len(plots))
    # a part of the water saves that part of the loss: our own rule
    loss: Floats = np.tensordot(weights, lost, axes=1) * (give.litres / whole_dose.litres)
    column = scene.column
    gone = float(np.nanmean(water.depletion_mm[:, column]))
    readily = float(np.nanmean(water.readily_mm[:, column]))
    until = water.days_until_short(column)
    amount, tool = how_to_give(bed, give)
    may = np.nan_to_num(ahead(water.depletion_mm, column)) >= LEAST_MM
    may[:, 0] = True
    may &= np.arange(AHEAD_DAYS + 1) <= np.maximum(days_unharmed(scene, water), opens)[:, None]
    may[:, :opens] = False
    may[:, opens] = True
    crops = ", ".join(dict.fromkeys(plot.name for plot in plots))
    checks = [check for check in water.checks if not check.agrees]
    return Job(
        id=f"water-{bed.key}",
        kind="water",
        act=f"Water {bed.name} ({crops}): {amount}",
        bed=bed.key,
        minutes=_minutes(scene, give, tool),
        worth=whole,
        loss=loss,
        window=window_of(loss, may, scene.today, scene.made),
        reason=_reason(scene, bed, water, gone, readily, until)
        + _rationed(scene, allowed, whole_dose.litres, give.litres, opens),
        facts=(
            Fact(
                name="water gone from the root zone",
                value=round(gone, 1),
                unit="mm",
                law="water of the root zone",
                source="computed; FAO56",
            ),
            Fact(
                name="may be gone before plants go short",
                value=round(readily, 1),
                unit="mm",
                law="water of the root zone",
                source="computed; FAO56",
            ),
            Fact(
                name="days until it is short without water, at the middle of the years",
                value=float(np.median(np.minimum(until, AHEAD_DAYS))),
                unit="day",
                law="water of the root zone",
                source="computed",
            ),
            *(
                Fact(name=f"finger test of {day_text(check.on)}", value=check.why, source="book")
                for check in checks
            ),
            *(Fact(name="assumed", value=each, source="our own rule") for each in water.assumed),
        ),
        needs=("daylight", "not in strong sun", "not freezing"),
        strains=("lifting",) if tool == "can" else (),
        load_kg=min(give.litres, CAN_L) if tool == "can" else 0.0,
        take=() if tool.startswith("nothing") else (Take(what=tool, litres=round(give.litres, 1)),),
        test="Push a finger in to its length: water only where it comes out dry.",
        done=(Watered(litres=round(give.litres, 1)),),
        settles=f"water:{bed.key}",
    )


def _reason(scene: Scene, bed: Bed, water: BedWater, gone: float, readily: float, until: Floats) -> str:
    state = f"{gone:.0f} mm are gone from the soil its roots reach; they can easily spare {readily:.0f} mm"
    soon = odds_of((until <= SOON_DAYS).astype(np.float64), scene.made)
    if under_roof(scene.garden, bed):
        return f"{state}. {STANDS}."
    fills = odds_of(rain_fills(scene, water, SOON_DAYS).astype(np.float64), scene.made)
    rain = f"rain does it within {SOON_DAYS} days in {fills.years_yes} of {fills.years} years"
    if float(np.mean(until < 1.0)) >= 0.5:
        return f"{state}, so they go short now; {rain}."
    dry = float(np.quantile(np.minimum(until, AHEAD_DAYS), 0.1))
    return (
        f"{state}; they go short within {SOON_DAYS} days in {soon.years_yes} of {soon.years} years. "
        f"{rain[:1].upper()}{rain[1:]}; if it fails, they go short from "
        f"{'today' if dry < 1.0 else 'tomorrow' if dry < 2.0 else 'the day after tomorrow'}."
    )


def _rationed(scene: Scene, allowed: Allowance | None, wanted_l: float, given_l: float, opens: int) -> str:
    """What its allowance leaves, and what stays short; empty where it has none."""
    if allowed is None:
        return ""
    said = f" {allowed.words()}"
    if opens > 0:
        on = scene.day(opens)
        said += f" From {on.day} {on:%b} {given_l:.0f} l are free again."
    if wanted_l - given_l >= 0.5:
        said += f" {wanted_l - given_l:.0f} l stay short of the {wanted_l:.0f} l it wants."
    return said
