"""Sow again or fill gaps: the row was counted, and too few stand or are still to come."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

import numpy as np

from spadework.advice.again_answer import AgainAnswer, AgainOption
from spadework.advice.again_belief import Case
from spadework.advice.job import AHEAD_DAYS, Job, Take
from spadework.advice.odds import Fact
from spadework.advice.scene import Plot, Scene
from spadework.advice.seedbed import LONGEST_DAYS
from spadework.advice.stand_wanted import germination_of, plants_wanted, row_m, whole_seeds
from spadework.advice.waiting import never_falling, window_of
from spadework.advice.weigh_again import weigh_again
from spadework.clock.sprout import Sowing
from spadework.garden.entries import Counted, Sown
from spadework.garden.planting import Planting
from spadework.types import Floats

ENOUGH: Final = 0.9
"""Share of a full stand from which nothing is sown again. Our own rule."""


def jobs(scene: Scene) -> Iterator[Job]:
    """Rows counted too thin, where sowing again is the better course."""
    for plot in scene.plots:
        planting = plot.planting
        if (
            plot.course.sprout is None
            or planting.set_out_on is not None
            or planting.sown_on is None
            or planting.plants.basis not in ("counted", "counted in a stretch")
            or _sown_since(planting)
            or planting.first_picked_on is not None
            or not planting.seeds
            or plot.plants is None
            or (scene.today - planting.grows_since).days > LONGEST_DAYS
            or plot.locked("planting")
            or plot.course.start_day > plot.column
        ):
            continue
        germination = germination_of(scene.garden.tin.get(planting.lot))
        wanted = plants_wanted(planting, plot.sheet, germination)
        if wanted is None or plot.plants >= ENOUGH * wanted or wanted > planting.seeds:
            continue
        job = _again(scene, plot, wanted, germination)
        if job is not None:
            yield job


def _sown_since(planting: Planting) -> bool:
    """Whether seed went in after the last count."""
    counted = planting.plants.on
    return bool(planting.sown_again) and (counted is None or counted <= planting.sown_again[-1])


def counts_of(plot: Plot) -> list[tuple[int, int]]:
    """Column and seedlings standing of each count, a stretch taken for the whole."""
    planting, first = plot.planting, plot.course.ground.years.first_day
    metres = row_m(planting, plot.sheet)
    found: dict[int, int] = {}
    for entry in planting.history:
        act = entry.act
        if isinstance(act, Counted) and entry.happened_on >= planting.grows_since:
            standing = float(act.standing)
            if act.of_row_m:
                standing *= (metres or act.of_row_m) / act.of_row_m
            column = int((np.datetime64(entry.happened_on, "D") - first).astype(int))
            found[column] = min(round(standing), planting.seeds or round(standing))
    return sorted(found.items())


def _again(scene: Scene, plot: Plot, wanted: int, germination: float | None) -> Job | None:
    planting = plot.planting
    assert planting.sown_on is not None
    assert planting.seeds is not None
    counts = counts_of(plot)
    if not counts:
        return None
    # what was counted last still stands, as far as anybody knows
    counts = [
        *(each for each in counts if each[0] < plot.column),
        (plot.column, round(planting.plants.number or 0)),
    ]
    case = Case(
        sheet=plot.sheet,
        ground=plot.course.ground,
        sowing=Sowing(plot.course.start_day, planting.depth_mm, germination),
        today=plot.column,
        seeds=planting.seeds,
        counts=counts,
        dug=None,
        wanted=wanted,
    )
    answer = weigh_again(
        case, crop=plot.name, today=scene.today, sown=planting.sown_on, others=(), assumptions=[], notes=[]
    )
    best = answer.options[0]
    if best.act not in ("sow again", "fill gaps"):
        return None
    left = next(option for option in answer.options if option.act == "wait")
    return _job(scene, plot, answer, best, left)


def _job(
    scene: Scene,
    plot: Plot,
    answer: AgainAnswer,
    best: AgainOption,
    left: AgainOption,
) -> Job:
    planting = plot.planting
    # sown again some days later it wins as much less as a sowing anew has less left to win
    anew = scene.start_anew(plot.sheet)
    gain = np.maximum(np.asarray(best.by_year) - np.asarray(left.by_year), 0.0)
    kept: Floats = np.minimum(anew / np.maximum(anew[:, :1], 1e-6), 1.0)
    late = 0.004 * np.arange(AHEAD_DAYS + 1)[None, :]
    loss = never_falling(gain[:, None] * np.clip(1.0 - kept + late, 0.0, 1.0))
    seeds = whole_seeds(best.sow_seeds or planting.seeds or 1)
    lot = scene.garden.tin.get(planting.lot)
    has = None if lot is None else lot.left(None)
    gaps = best.act == "fill gaps"
    years = scene.years
    packet = "" if has is None else f" The packet holds about {max(has, 0):.0f}."
    stops = best.stops_same_loss[0] if best.stops_same_loss else ""
    redone = "filled" if gaps else "sown again"
    verb = f"Fill the gaps in the {plot.name}" if gaps else f"Sow the {plot.name} again"
    return Job(
        id=f"sow-again-{plot.key}",
        kind="sow again",
        act=f"{verb} in {plot.where}: {seeds} seeds",
        bed=plot.bed_key,
        planting=plot.key,
        crop=plot.sheet.key,
        minutes=scene.pace.minutes("sow", row_m(planting, plot.sheet) or 1.0),
        worth=plot.worth.value,
        loss=loss,
        window=window_of(loss, np.ones_like(loss, dtype=np.bool_), scene.today, scene.made),
        reason=(
            f"{answer.up} stand where {answer.wanted} make a full row; {redone} today it "
            f" comes right in {best.odds.years_yes} of {years} years, left alone in {left.odds.years_yes}."
            f"{packet}"
        ),
        facts=(
            Fact(name="plants standing", value=float(answer.up), law="the book", source="counted"),
            Fact(
                name="plants that make a full stand",
                value=float(answer.wanted),
                source=plot.sheet.sowing.in_row_cm.receipt,
            ),
            *answer.facts[:3],
        ),
        cautions=tuple(answer.cautions),
        needs=("daylight", "soil not wet"),
        strains=("stooping", "kneeling"),
        take=(Take(what=planting.lot or f"{plot.name} seed", seeds=seeds),),
        test=f"Only with this: {stops}." if stops else "Dig a hand's length first: firm seed may still come.",
        done=(
            Sown(
                planting=plot.key, crop=planting.crop, variety=planting.variety, seeds=seeds, lot=planting.lot
            ),
        ),
        settles=f"again:{plot.key}",
    )
