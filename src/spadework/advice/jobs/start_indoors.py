"""Start indoors: sown in warmth so many weeks before the ground is fit for it, and no earlier."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

import numpy as np

from spadework.advice.cautions import cautions_of
from spadework.advice.free_places import LEAST_M2, free_places, new_key, usual_m2
from spadework.advice.job import Job, Take
from spadework.advice.jobs.sow import facts, packet_left, why
from spadework.advice.scene import Scene
from spadework.advice.stand_wanted import SPARE, germination_of, whole_seeds
from spadework.advice.succession import ready_day
from spadework.advice.waiting import window_of
from spadework.advice.wanted_crops import Wanted, seeds_left, wanted
from spadework.clock.sprout import able_share
from spadework.crops.sheet import Sheet
from spadework.garden.entries import Sown
from spadework.garden.records import Bed, KitItem

MOST_PLANTS: Final = 48
"""More of a crop are not raised at a time. Our own rule."""


def jobs(scene: Scene) -> Iterator[Job]:
    """Sowings under cover whose days have come."""
    shelf = next((bed for bed in scene.beds.values() if bed.shape == "shelf" and bed.gone_on is None), None)
    trays = next(
        (item for item in scene.garden.kit.values() if item.sort == "tray" and item.free_pieces != 0), None
    )
    if shelf is None and trays is None:
        return
    for one in wanted(scene):
        if one.way == "raised" and room_later(scene, one.sheet):
            may = one.sowing.may(one.every_days)
            if may.mean(axis=0).max() >= 0.5:
                yield _start(scene, one, shelf, trays)


def room_later(scene: Scene, sheet: Sheet) -> bool:
    """Whether ground that suits it is free now, or will be when it is set out."""
    if any(place.suits(sheet, scene.today) for place in free_places(scene)):
        return True
    weeks = sheet.sowing.weeks_to_set_out
    days = 0.0 if weeks is None else 7.0 * weeks.value
    for plot in scene.plots:
        if plot.bed is None or plot.indoors or plot.sheet.family == sheet.family:
            continue
        over = float(np.median(ready_day(plot.course, plot.column))) + plot.sheet.harvest.days.value
        if over <= days and (plot.planting.area_m2 or 0.0) >= LEAST_M2:
            return True
    return False


def _start(scene: Scene, one: Wanted, shelf: Bed | None, trays: KitItem | None) -> Job:
    sheet, weeks = one.sheet, one.sheet.sowing.weeks_to_set_out
    assert weeks is not None
    name = scene.name_of(sheet.key)
    each_m2 = sheet.sowing.row_cm.value * sheet.sowing.in_row_cm.value / 1e4
    plants = int(np.clip(round(usual_m2(scene, sheet.key) / each_m2), 1, MOST_PLANTS))
    germination = germination_of(one.lot)
    # in a warm tray nothing is lost to the field: the germination alone decides
    comes = max(able_share(sheet, germination) / sheet.sowing.field_factor.value, 0.05)
    left = seeds_left(sheet, one.lot)
    seeds = whole_seeds(plants * SPARE / comes)
    if left is not None:
        seeds = min(seeds, max(int(left), 1))
    key = new_key(scene, sheet.key)
    loss = one.sowing.loss
    out = scene.day(round(7.0 * weeks.value))
    where = "" if shelf is None else f" on {shelf.name}"
    lot_words = "" if one.lot is None else one.lot.lot
    return Job(
        id=f"start-{key}",
        kind="start indoors",
        act=f"Start {name} in a tray{where}: {seeds} seeds for {plants} plants",
        bed="" if shelf is None else shelf.key,
        crop=sheet.key,
        minutes=scene.pace.minutes("prick", seeds / 3.0),
        worth=one.worth,
        loss=loss,
        window=window_of(loss, one.sowing.may(one.every_days), scene.today, scene.made),
        reason=(
            f"{why(scene, one)} Raised {weeks.value:.0f} weeks it would go out about {out.day} {out:%b}; "
            f"earlier it would wait in its pot.{packet_left(left)}"
        ),
        facts=facts(one, None),
        cautions=tuple(cautions_of(sheet)),
        take=(
            Take(what=lot_words or f"{name} seed", seeds=seeds),
            Take(what="tray" if trays is None else trays.item),
        ),
        done=(
            Sown(
                planting=key,
                crop=sheet.key,
                variety="" if one.lot is None else one.lot.variety,
                method="raised",
                seeds=seeds,
                depth_mm=min(sheet.sowing.depth_mm.value, 15.0),
                lot=lot_words,
                tray="tray" if trays is None else trays.item,
            ),
        ),
        settles=f"sow:{sheet.key}",
    )
