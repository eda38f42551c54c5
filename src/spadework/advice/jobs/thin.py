"""Thin a sown row: a first pass while roots are free, a last one by the size that is wanted."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

import numpy as np

from spadework.advice.job import AHEAD_DAYS, Condition, Job, Take
from spadework.advice.odds import Fact, odds_of
from spadework.advice.room import (
    crowded_from,
    final_cm,
    gain_share,
    metres,
    per_m,
    slack_days,
)
from spadework.advice.scene import Plot, Scene
from spadework.advice.seedbed import net_of_giving_up
from spadework.advice.waiting import ahead, window_of
from spadework.garden.entries import Thinned
from spadework.science import crowding

FIRST_SHARE: Final = 0.5
"""The first pass leaves plants at this share of the final distance: some are still to be lost. Source:
common-practice."""

ENOUGH: Final = 1.25
"""A row with up to so many times the plants wanted is left as it is. Our own rule."""

RIPE: Final = 0.5
"""Chance to be ready from which a row is thinned by picking it. Our own rule."""

FIRST_LEAVES: Final = 1.5
"""True leaves at the first pass where the sheet gives none. Source: common-practice."""

FLY_C: Final = 12.0
"""A day's high from which root flies are about. Source: memory."""

SNIP_CM: Final = 2.0
"""Nearer than this plants are snipped, so that the roots of those that stay are left alone. Source:
common-practice."""


def jobs(scene: Scene) -> Iterator[Job]:
    """Rows to thin."""
    for plot in scene.plots:
        section = plot.sheet.thin
        if (
            section.final_leaves is None
            or section.in_row_small_cm is None
            or section.in_row_large_cm is None
            or plot.course.sprout is None
            or plot.planting.set_out_on is not None
            or plot.bed is None
            or plot.indoors
            or plot.planting.first_picked_on is not None
            or plot.planting.last.get("thinned") == scene.today
        ):
            continue
        job = _thin(scene, plot)
        if job is not None:
            yield job


def _thin(scene: Scene, plot: Plot) -> Job | None:
    sheet, section = plot.sheet, plot.sheet.thin
    assert section.final_leaves is not None
    length, standing = metres(plot), per_m(plot)
    if length is None or standing is None:
        return None
    last_cm = final_cm(sheet, plot.planting)
    passes = sum(1 for entry in scene.garden.history(plot.key) if isinstance(entry.act, Thinned))
    first_cm = max(last_cm * FIRST_SHARE, 1.0)
    first = passes == 0 and standing > ENOUGH * 100.0 / first_cm
    if not first and standing <= ENOUGH * 100.0 / last_cm:
        return None
    to_cm = first_cm if first else last_cm
    stays = max(round(length * 100.0 / to_cm), 1)
    stand = round(standing * length)
    if stand <= stays:
        return None
    if float(plot.course.ready[:, plot.column].mean()) >= RIPE:
        return None
    opens_at = FIRST_LEAVES if section.first_leaves is None else section.first_leaves.value
    due = section.final_leaves.value
    leaves = ahead(plot.course.leaves, plot.column)
    may = leaves >= (opens_at if first else max(due - 1.0, opens_at))
    if float(may[:, min(7, AHEAD_DAYS)].mean()) < 0.5:
        return None
    start = crowded_from(plot, standing)
    slack = slack_days(sheet)
    gain = gain_share(sheet, standing, 100.0 / to_cm)
    days = np.arange(AHEAD_DAYS + 1)
    late = crowding.late_thinning_share(days[None, :] - start[:, None], slack)
    loss = net_of_giving_up(scene, plot, gain * late)
    high = float(np.nan_to_num(scene.ground.years.tmax_c[:, scene.column]).mean())
    fly = section.fly if high >= FLY_C else ""
    now = float(np.median(leaves[:, 0]))
    soon = odds_of((start <= 7.0).astype(np.float64), scene.made)
    crowd = (
        "they crowd each other already"
        if float(np.median(start)) <= 0.0
        else f"they crowd each other within a week in {soon.years_yes} of {soon.years} years"
    )
    counted = "" if plot.planting.plants.basis in ("counted", "thinned") else "about "
    how = _how(plot, standing, fly)
    needs: tuple[Condition, ...] = ("daylight", "not in heat", "not in strong sun", "soil not wet")
    if fly:
        needs = ("evening", "still air", "not in heat")
    take = [Take(what="scissors")] if 100.0 / standing < SNIP_CM else []
    if fly:
        take += [Take(what="bucket for the thinnings"), Take(what="can", litres=round(length * 1.0, 1))]
    return Job(
        id=f"thin-{plot.key}-{1 if first else 2}",
        kind="thin",
        act=f"Thin {plot.name} in {plot.where} to {to_cm:g} cm",
        bed=plot.bed_key,
        planting=plot.key,
        crop=sheet.key,
        minutes=scene.pace.minutes("thin", float(stand - stays)),
        worth=plot.worth.value,
        loss=loss,
        window=window_of(loss, may, scene.today, scene.made),
        reason=(
            f"They have {max(now, 0.0):.0f} true leaves and {counted}{stand} stand where {stays} are "
            f"to stay; {crowd}. {how}"
        ),
        facts=(
            Fact(name="plants on a metre of row", value=round(standing, 1), unit="m-1", source="the book"),
            Fact(
                name="distance to thin to",
                value=round(to_cm, 1),
                unit="cm",
                source=section.in_row_small_cm.receipt if section.in_row_small_cm else "",
            ),
            Fact(
                name="lost in a row never thinned, share",
                value=round(gain, 2),
                law="crowding in the row",
                source="memory",
            ),
        ),
        needs=needs,
        strains=("stooping", "kneeling"),
        take=tuple(take),
        test="Pull one: if its neighbour moves too, snip instead.",
        done=(Thinned(left=stays, spacing_cm=to_cm),),
    )


def _how(plot: Plot, standing: float, fly: str) -> str:
    section = plot.sheet.thin
    said = []
    if section.cluster == "yes":
        said.append("Each seed gave a cluster: leave one of each.")
    said.append("Snip where they stand crowded." if 100.0 / standing < SNIP_CM else "Keep the strongest.")
    if section.tap == "yes":
        said.append("Do not set thinnings again: their tap roots are broken.")
    if fly:
        said.append(
            f"The smell draws {fly}: do it on a still evening, carry every thinning away, "
            "firm the row and water it in."
        )
    elif section.edible == "yes":
        said.append("The thinnings can be eaten." if not plot.locked("picking") else "")
    return " ".join(each for each in said if each)
