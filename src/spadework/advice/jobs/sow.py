"""Sow: the next of what stands, by the picking wanted, and what the tin holds while its window is open."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

import numpy as np

from spadework.advice.cautions import cautions_of
from spadework.advice.free_places import new_key
from spadework.advice.job import Job, Take
from spadework.advice.odds import Fact
from spadework.advice.scene import Scene
from spadework.advice.soil_fit import SQUEEZE, fit_days
from spadework.advice.stand_wanted import germination_of, seeds_per_m, whole_seeds
from spadework.advice.succession import NEVER
from spadework.advice.waiting import window_of
from spadework.advice.wanted_crops import Wanted, seeds_left, wanted
from spadework.garden.entries import Sown
from spadework.types import Bools, Floats

PREPARE_SHARE: Final = 0.5
"""Share of a seedbed's minutes that a place cleared this season still takes. Our own rule."""


def jobs(scene: Scene) -> Iterator[Job]:
    """Sowings whose days have come or come within three weeks."""
    for one in wanted(scene):
        if one.way != "sown" or one.place is None:
            continue
        may = one.sowing.may(one.every_days) & fit_days(scene, one.place.bed)
        if may.mean(axis=0).max() >= 0.5:
            yield _sow(scene, one, may)


def _sow(scene: Scene, one: Wanted, may: Bools) -> Job:
    sheet, place = one.sheet, one.place
    assert place is not None
    name = scene.name_of(sheet.key)
    block = place.block
    across = block.length_m < block.width_m and place.bed.shape != "tub"
    side_m, run_m = (block.length_m, block.width_m) if across else (block.width_m, block.length_m)
    rows = max(int(side_m * 100.0 / sheet.sowing.row_cm.value + 1e-9), 1)
    metres = rows * run_m
    germination = germination_of(one.lot)
    per_m = seeds_per_m(sheet, germination)
    left = seeds_left(sheet, one.lot)
    seeds = whole_seeds(per_m * metres)
    if left is not None:
        seeds = min(seeds, max(int(left), 1))
    key = new_key(scene, sheet.key)
    depth = sheet.sowing.depth_mm.value
    loss = one.sowing.loss
    prepare = scene.pace.minutes("seedbed", place.area_m2 * PREPARE_SHARE)
    lot_words = "" if one.lot is None else one.lot.lot
    return Job(
        id=f"sow-{key}",
        kind="sow",
        act=(
            f"Sow {name} in {place.bed.name}: {rows} row{'s' if rows > 1 else ''} of {run_m:.1f} m, "
            f"{seeds} seeds, {depth:.0f} mm deep"
        ),
        bed=place.bed.key,
        crop=sheet.key,
        minutes=prepare + scene.pace.minutes("sow", metres),
        worth=one.worth,
        loss=loss,
        window=window_of(loss, may, scene.today, scene.made),
        reason=f"{why(scene, one)} {packet_words(one, per_m, left)}".strip(),
        facts=facts(one, per_m),
        cautions=tuple(cautions_of(sheet)),
        needs=("daylight", "soil not wet"),
        strains=("stooping", "kneeling"),
        take=(Take(what=lot_words or f"{name} seed", seeds=seeds), Take(what="rake, line and rule")),
        test=SQUEEZE,
        done=(
            Sown(
                planting=key,
                crop=sheet.key,
                variety="" if one.lot is None else one.lot.variety,
                rows=rows,
                row_cm=sheet.sowing.row_cm.value,
                row_length_m=round(run_m, 2),
                rows_run="across" if across else "",
                seeds=seeds,
                depth_mm=depth,
                lot=lot_words,
                block=block,
            ),
        ),
        settles=f"sow:{sheet.key}",
    )


def why(scene: Scene, one: Wanted) -> str:
    """The one or two numbers that decide, in a sentence."""
    sowing, years = one.sowing, scene.years
    ready = _day(scene, sowing.ready[:, 0])
    now, later = float(sowing.arrives[:, 0].mean()), float(sowing.arrives[:, -1].mean())
    odds = f"in {round(now * years)} of {years} years"
    begun = "Sown" if one.way == "sown" else "Started"
    if one.before is None:
        then = f"in three weeks in {round(later * years)}"
        return f"{begun} today it gets there {odds}, ready about {ready}; {then}."
    gap = float(np.median(sowing.gap[:, 0]))
    if abs(gap) < 1.5:
        fits = "just as that is over"
    else:
        fits = f"{abs(gap):.0f} days {'after' if gap > 0 else 'before'} that is over"
    return (
        f"What stands is ready about {_day(scene, one.before)} and feeds you some {one.every_days:.0f} days; "
        f"{begun.casefold()} today this one is ready about {ready}, {fits}. It gets there {odds}."
    )


def packet_words(one: Wanted, per_m: float, left: float | None) -> str:
    """Seeds a metre, what is left and how it germinates."""
    if one.lot is None:
        return f"{per_m:.0f} seeds a metre; no packet is in the tin."
    germination = germination_of(one.lot)
    good = (
        f"usual for it {one.sheet.sowing.lot_germination_pct.value:.0f} in 100 germinate"
        if germination is None
        else f"about {germination * 100:.0f} in 100 germinate"
    )
    has = "" if left is None else f"; about {left:.0f} are left"
    return f"{per_m:.0f} seeds a metre, as {good}{has}."


def packet_left(left: float | None) -> str:
    """What is left in the packet, in a sentence."""
    return "" if left is None else f" About {left:.0f} seeds are left."


def facts(one: Wanted, per_m: float | None) -> tuple[Fact, ...]:
    """The two that decide first."""
    sheet = one.sheet
    ready = Fact(
        name="days until one sown today is ready, at the middle of the years",
        value=_number(one.sowing.ready[:, 0]),
        unit="d",
        law="development by warmth and day length",
        source=sheet.development.ready_days.receipt,
    )
    found = [ready]
    if one.before is not None and sheet.next.every_days is not None:
        found.append(
            Fact(
                name="days without a picking before it, at the middle of the years",
                value=_number(one.sowing.gap[:, 0]),
                unit="d",
                law="days one sowing is picked for",
                source=sheet.next.every_days.receipt,
            )
        )
    found.append(
        Fact(
            name="share of a full crop, sown today",
            value=round(float(one.sowing.arrives[:, 0].mean()), 2),
            law="ready before frost, heat or bolting takes it",
        )
    )
    if per_m is not None:
        room = sheet.sowing.in_row_cm
        found.append(Fact(name="seeds for a metre of row", value=round(per_m, 1), source=room.receipt))
    return tuple(found)


def _number(days: Floats) -> float | None:
    middle = float(np.median(days))
    return None if not np.isfinite(middle) or middle >= NEVER / 2 else round(middle)


def _day(scene: Scene, days: Floats) -> str:
    middle = float(np.median(days))
    if middle >= NEVER / 2:
        return "no day this season"
    if middle < 0.5:
        return "now"
    day = scene.day(round(middle))
    return f"{day.day} {day:%b}"
