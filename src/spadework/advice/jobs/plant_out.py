"""Plant out: plants are large and hard enough, the ground is warm, and frost is unlikely or kept off."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

import numpy as np

from spadework.advice.cautions import cautions_of
from spadework.advice.free_places import Place
from spadework.advice.job import AHEAD_DAYS, Job, Take
from spadework.advice.odds import Fact
from spadework.advice.raising import (
    HARDENED,
    days_until,
    hardened_share,
    out_size_days,
    out_value,
    raised,
    standing_plants,
    tray_worth,
)
from spadework.advice.scene import Plot, Scene
from spadework.advice.soil_fit import fit_days
from spadework.advice.tray_places import tray_places
from spadework.advice.waiting import lost_by_waiting, window_of
from spadework.advice.weigh_plant_out import COVER_COST, COVER_DAYS, HELD_COST_PER_DAY, STANDING_DAYS
from spadework.clock.course import set_out
from spadework.clock.cover import FLEECE, TUNNEL, under_cover
from spadework.clock.ground import Ground
from spadework.garden.entries import Moved, PlantedOut
from spadework.garden.records import KitItem
from spadework.types import Bools, Floats

NIGHTS: Final = 5
"""Nights after setting out that must not be too cold. Our own rule."""

LITRES_A_PLANT: Final = 0.5
"""Water for settling a plant in  [l]. Source: common-practice."""

SOON_DAYS: Final = 7
"""Plants that are fit to go out later than this are not spoken of yet. Our own rule."""


@dataclass(frozen=True, kw_only=True, eq=False)
class Way:
    """Setting out in the open, under a cover, or in a tunnel."""

    ground: Ground
    value: Floats
    may: Bools
    cover: KitItem | None = None


def jobs(scene: Scene) -> Iterator[Job]:
    """Trays whose plants may go into their ground within days."""
    places, _ = tray_places(scene)
    for plot in raised(scene):
        size, place = out_size_days(plot.sheet), places.get(plot.key)
        if size is None or place is None or standing_plants(plot) < 1:
            continue
        grown = days_until(plot, size)
        if float(np.median(grown)) > SOON_DAYS or hardened_share(scene, plot) < HARDENED:
            continue
        way = _best(scene, plot, place, grown)
        if way.may.mean(axis=0).max() >= 0.5:
            yield _plant(scene, plot, place, way)


def _best(scene: Scene, plot: Plot, place: Place, grown: Floats) -> Way:
    days = np.arange(AHEAD_DAYS + 1)[None, :]
    fit = fit_days(scene, place.bed) & (days >= np.floor(grown)[:, None])
    held = HELD_COST_PER_DAY * days
    if place.inside:
        ground = under_cover(scene.ground, TUNNEL, 0, scene.ground.dates.size)
        value = out_value(scene, plot.sheet, ground) - held
        return Way(ground=ground, value=value, may=fit & _warm(scene, plot, ground, TUNNEL.night_c))
    bare = Way(
        ground=scene.ground,
        value=out_value(scene, plot.sheet, scene.ground) - held,
        may=fit & _warm(scene, plot, scene.ground, 0.0),
    )
    cover = _cover(scene, place)
    if cover is None:
        return bare
    ground = under_cover(scene.ground, FLEECE, scene.column, COVER_DAYS + AHEAD_DAYS)
    under = Way(
        ground=ground,
        value=out_value(scene, plot.sheet, ground) - held - COVER_COST,
        may=fit & _warm(scene, plot, scene.ground, FLEECE.night_c),
        cover=cover,
    )
    return max((bare, under), key=lambda way: float((way.value * way.may).mean(axis=0).max()))


def _warm(scene: Scene, plot: Plot, ground: Ground, gain_c: float) -> Bools:
    """Days whose soil and coming nights are warm enough, [year, day]."""
    columns = np.minimum(scene.column + np.arange(AHEAD_DAYS + 1), ground.dates.size - 1)
    good: Bools = np.ones((scene.years, AHEAD_DAYS + 1), dtype=np.bool_)
    soil, night = plot.sheet.start.soil_out_c, plot.sheet.start.night_out_c
    if soil is not None:
        good &= ground.soil_mean_c[:, columns] >= soil.value
    if night is not None:
        low = scene.ground.years.tmin_c
        nights = np.lib.stride_tricks.sliding_window_view(low, NIGHTS, axis=-1).min(axis=-1)
        after = np.minimum(columns + 1, nights.shape[1] - 1)
        good &= nights[:, after] + gain_c >= night.value
    return good


def _cover(scene: Scene, place: Place) -> KitItem | None:
    """Fleece with enough metres free."""
    fit = [
        item
        for item in scene.garden.kit.values()
        if item.sort == "fleece" and item.free_m is not None and item.free_m >= place.block.length_m
    ]
    return min(fit, key=lambda item: (item.free_m or 0.0, item.item)) if fit else None


def _plant(scene: Scene, plot: Plot, place: Place, way: Way) -> Job:
    sheet, sowing, block = plot.sheet, plot.sheet.sowing, place.block
    spacing = plot.planting.spacing_cm or sowing.in_row_cm.value
    rows = max(int(block.width_m * 100.0 / sowing.row_cm.value + 1e-9), 1)
    room = rows * max(int(block.length_m * 100.0 / spacing + 1e-9), 1)
    plants = min(standing_plants(plot), room)
    loss = lost_by_waiting(way.value)
    course = set_out(sheet, way.ground, scene.column)
    last = min(scene.column + STANDING_DAYS, scene.ground.dates.size - 1)
    killed = round(float(course.lost_frost[:, last].mean()) * scene.years)
    soil = float(way.ground.soil_mean_c[:, scene.column].mean())
    wants = sheet.start.soil_out_c
    litres = round(plants * LITRES_A_PLANT, 1)
    covered = "" if way.cover is None else f", under {way.cover.item}"
    take = [Take(what="trowel and line"), Take(what="can", litres=litres)]
    done: list[PlantedOut | Moved] = [
        PlantedOut(
            planting=plot.key,
            crop=plot.planting.crop,
            variety=plot.planting.variety,
            plants=plants,
            rows=rows,
            row_cm=sowing.row_cm.value,
            spacing_cm=spacing,
            row_length_m=round(block.length_m, 2),
            block=block,
        )
    ]
    if way.cover is not None:
        take.append(Take(what=way.cover.item, length_m=round(block.length_m, 1)))
        done.append(Moved(act="on", item=way.cover.item, length_m=round(block.length_m, 1)))
    warmth = "" if wants is None else f"The soil is {soil:.0f} °C and it wants {wants.value:.0f} °C; "
    return Job(
        id=f"plant-out-{plot.key}",
        kind="plant out",
        act=f"Plant out {plants} {plot.name} in {place.bed.name}, {spacing:.0f} cm apart{covered}",
        bed=place.bed.key,
        planting=plot.key,
        crop=sheet.key,
        minutes=scene.pace.minutes("plant", plants)
        + (0.0 if way.cover is None else scene.pace.minutes("lid", block.length_m)),
        worth=tray_worth(plot),
        loss=loss,
        window=window_of(loss, way.may, scene.today, scene.made),
        reason=(
            f"{warmth}set out today frost would take it young in {killed} of {scene.years} years, "
            f"and it gets there in {round(float(course.picked[:, -1].mean()) * scene.years)}."
        ),
        facts=(
            Fact(
                name="killed young by frost, set out today, share of years",
                value=round(killed / scene.years, 2),
                law="frost by plant-surface temperature",
                source=sheet.frost.young_kill_c.receipt,
            ),
            Fact(
                name="soil at 5 cm today",
                value=round(soil, 1),
                unit="degC",
                law="two-store seed-zone temperature",
                source="" if wants is None else wants.receipt,
            ),
            Fact(
                name="share of its worth a day that a plant loses in its pot past its time",
                value=HELD_COST_PER_DAY,
                source="memory",
            ),
        ),
        cautions=tuple(cautions_of(sheet)),
        needs=("daylight", "not in heat", "not in strong sun", "soil not wet"),
        strains=("stooping", "kneeling"),
        load_kg=min(litres, 10.0),
        take=tuple(take),
        test="The root ball holds together when it is tipped out, and white roots show round it.",
        done=tuple(done),
        settles=f"tray:{plot.key}",
    )
