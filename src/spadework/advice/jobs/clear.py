"""Clear: what is over or lost gives its room to what still fits there, and less fits each day."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from spadework.advice.cautions import cautions_of
from spadework.advice.job import Job
from spadework.advice.odds import Fact
from spadework.advice.remains import remains_text
from spadework.advice.ripe import Ripe, later, lost_by, season_days
from spadework.advice.scene import Plot, Scene
from spadework.advice.waiting import never_falling, window_of
from spadework.advice.worth import area_of, value_kg_m2
from spadework.crops.sheet import Sheet
from spadework.garden.entries import Ended, Skipped
from spadework.types import Floats

HALF: Final = 0.5

STILL_PICKED_DAYS: Final = 7
"""A planting picked within so many days is not over, whatever the clock says. Our own rule."""

PUT_OFF_DAYS: Final = 7
"""Days for which nobody is asked again to clear what was looked at and left standing. Our own rule."""

FOLLOWERS: Final = (
    "radish",
    "spinach",
    "arugula",
    "lettuce",
    "turnip",
    "bush-bean",
    "mustard-greens",
    "kohlrabi",
    "cilantro",
)
"""Quick crops looked at for the room, beside those in the seed tin. Source: common-practice."""

MOST_LOOKED_AT: Final = 12
FITS: Final = 0.6
"""Odds from which a crop is said to fit: three years of five. Our own rule, as for the weigh of what fits."""

MOST_NAMED: Final = 3

SOON_DAYS: Final = 10
"""Days of air over which it is judged whether seed does anything if it is sown now. Our own rule."""

BARROW_KG: Final = 6.0
"""What is carried off at once. Source: common-practice."""


@dataclass(frozen=True, kw_only=True, eq=False)
class Fitting:
    """A crop for a room that becomes free.

    Parameters
    ----------
    sheet : Sheet
    chance : array, shape (year, AHEAD_DAYS + 1)
        Share of a full crop still to be had, begun so many days from today.
    value : float
        Of a full crop there, in kilograms of carrots.
    """

    sheet: Sheet
    chance: Floats
    value: float

    @property
    def now(self) -> float:
        """Chance when it is begun today, over the years."""
        return float(self.chance[:, 0].mean())


def jobs(scene: Scene) -> Iterator[Job]:
    """Plantings that are over, or probably lost."""
    for plot in scene.plots:
        lasting = plot.planting.perennial or plot.sheet.harvest.first_year is not None
        if lasting or plot.indoors or plot.locked("picking") or _left_standing(scene, plot):
            continue
        why = _over(scene, plot)
        if why:
            yield _clear(scene, plot, *why)


def _left_standing(scene: Scene, plot: Plot) -> bool:
    """Whether somebody lately chose not to clear it."""
    return any(
        isinstance(entry.act, Skipped)
        and entry.act.job == f"clear-{plot.key}"
        and (scene.today - entry.happened_on).days <= PUT_OFF_DAYS
        for entry in scene.garden.entries
    )


def what_fits(scene: Scene, family: str, area_m2: float) -> tuple[Fitting, ...]:
    """What still fits a room of a size after a family, what brings most first."""
    tin = [lot.crop for lot in scene.garden.tin.values() if not lot.gone]
    found = []
    for crop in list(dict.fromkeys([*FOLLOWERS, *tin]))[:MOST_LOOKED_AT]:
        sheet = scene.sheet_of(crop)
        if sheet.family == family or sheet.kind == "flower" or sheet.harvest.first_year is not None:
            continue
        if _lies_cold(scene, sheet):
            continue
        chance = scene.start_anew(sheet)
        found.append(Fitting(sheet=sheet, chance=chance, value=value_kg_m2(sheet) * area_m2))
    fits = [each for each in found if each.now >= FITS]
    fits.sort(key=lambda each: (-each.now * each.value, each.sheet.key))
    return tuple(fits)


def _lies_cold(scene: Scene, sheet: Sheet) -> bool:
    """Whether seed sown now would only lie in the ground: the coming days are too cold for it to stir."""
    days = slice(scene.column, scene.column + SOON_DAYS)
    years = scene.ground.years
    mean_c = float(((years.tmin_c[:, days] + years.tmax_c[:, days]) / 2.0).mean())
    return mean_c < sheet.emergence.base_c.value


def fits_text(scene: Scene, fits: Sequence[Fitting]) -> str:
    """What still fits, in a sentence; says so where nothing does."""
    if not fits:
        return (
            "Nothing quick looked at is worth sowing there now: it is too cold, or too late in more than two "
            "years of five."
        )
    said = [
        f"{scene.name_of(each.sheet.key)} (in {round(each.now * scene.years)} of {scene.years} years)"
        for each in fits[:MOST_NAMED]
    ]
    return f"Still fits there: {', '.join(said)}."


def after_text(scene: Scene, plot: Plot) -> str:
    """What becomes of a planting's room, in a sentence."""
    if _rests(scene, plot):
        return "The bed is locked against planting."
    return fits_text(scene, _fits(scene, plot))


def _fits(scene: Scene, plot: Plot) -> tuple[Fitting, ...]:
    if _rests(scene, plot):
        return ()
    return what_fits(scene, plot.sheet.family, area_of(plot.planting, plot.bed))


def _rests(scene: Scene, plot: Plot) -> bool:
    """Whether nothing may be planted there."""
    return plot.bed is not None and any(
        lock.stops == "planting" for lock in scene.garden.locks_on(scene.today, bed=plot.bed_key)
    )


def _over(scene: Scene, plot: Plot) -> tuple[str, Ended] | None:
    """Why it can go, and what clearing writes; None where it still has something to give."""
    planting, course, column = plot.planting, plot.course, plot.column
    last = planting.last_picked_on
    if planting.picking_over:
        return "Its last picking was made.", Ended(how="cleared")
    if last is not None and (scene.today - last).days <= STILL_PICKED_DAYS:
        return None
    years = scene.years
    for cause, lost in lost_by(plot, column).items():
        chance = float(lost.mean())
        if chance >= HALF:
            text = f"By the weather {cause} in {round(chance * years)} of {years} years: look before you do."
            return text, Ended(how="lost", why=cause)
    ripe = Ripe(plot)
    stood = season_days(plot) if ripe.often else round(plot.sheet.harvest.past_days.value)
    over = float(later(course.ready, stood)[:, column].mean())
    if over < HALF:
        return None
    what = "has borne for its" if ripe.often else "has stood ready for"
    then = "" if ripe.often else " Take what is still good."
    text = f"By the weather it {what} {stood} days in {round(over * years)} of {years} years.{then}"
    return text, Ended(how="cleared")


def _clear(scene: Scene, plot: Plot, why: str, ended: Ended) -> Job:
    area = area_of(plot.planting, plot.bed)
    fits = _fits(scene, plot)
    if fits:
        # each year the best of what fits is begun on the day the room is free
        brings = np.stack([each.chance * each.value for each in fits]).max(axis=0)
        worth = max(each.value for each in fits)
        loss = never_falling(np.maximum(brings[:, :1] - brings, 0.0) / worth)
    else:
        worth, loss = 0.0, np.zeros((scene.years, scene.start_anew(plot.sheet).shape[1]))
    return Job(
        id=f"clear-{plot.key}",
        kind="clear",
        act=f"Clear {plot.name} from {plot.where}",
        bed=plot.bed_key,
        planting=plot.key,
        crop=plot.sheet.key,
        minutes=scene.pace.minutes("clear", area),
        worth=worth,
        loss=loss,
        window=window_of(loss, np.ones(loss.shape, dtype=np.bool_), scene.today, scene.made),
        reason=" ".join(part for part in (why, remains_text(scene, plot), after_text(scene, plot)) if part),
        facts=tuple(
            Fact(
                name=f"{scene.name_of(each.sheet.key)} begun today, share of years",
                value=round(each.now, 2),
                law="warmth to ready before frost, heat or bolting",
                source=each.sheet.development.ready_days.receipt,
            )
            for each in fits[:MOST_NAMED]
        ),
        cautions=tuple(cautions_of(plot.sheet)),
        needs=("daylight",),
        strains=("stooping", "lifting"),
        load_kg=min(BARROW_KG, 2.0 * area),
        done=(ended,),
        settles=f"take:{plot.key}",
    )
