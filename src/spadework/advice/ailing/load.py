"""Where a cause came with a load of material: which load, and every bed that had it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final

from spadework.advice.ailing.differential import Differential
from spadework.advice.ailing.verdict import SHOWN, URGENT
from spadework.advice.circumstances_book import loads, material_of
from spadework.advice.scene import Plot, Scene
from spadework.crops.trouble import Trouble
from spadework.garden.entries import Amended, Entry
from spadework.garden.lock_rules import BEAN_TEST, SPRAY_CARRIED_OVER

SAME_LOAD_DAYS: Final = 30
"""Loads of one material brought on within so many days are one where no batch is told. Our own rule."""

_LIKE: Final = {
    "manure": ("manure", "dung", "muck", "litter", "bedding"),
    "compost": ("compost", "soil"),
    "straw": ("straw",),
    "hay": ("hay", "haylage", "silage"),
    "clippings": ("clippings", "mowings", "grass"),
}


@dataclass(frozen=True, kw_only=True)
class Load:
    """A load of material that may have brought a cause.

    Parameters
    ----------
    trouble : Trouble
    material : str
    came_on : date
    beds : tuple of str
        Every bed that had it, by key.
    open_beds : tuple of str
        Those of them not yet locked for it.
    test : str
        What has to be shown before they are free; empty where nothing is locked for it.
    """

    trouble: Trouble
    material: str
    came_on: date
    beds: tuple[str, ...]
    open_beds: tuple[str, ...]
    test: str


def load_of(state: Differential, scene: Scene, plot: Plot) -> Load | None:
    """The load that may have brought a cause likely enough; None where there is none."""
    if plot.bed is None:
        return None
    own = loads(_of_bed(scene, plot.bed_key), scene)
    for each in state.ranked[:SHOWN]:
        if state.chances[each.key] < URGENT:
            continue
        for entry in reversed(own):
            if _brought_by(each, material_of(entry)):
                return _whole(scene, each, entry)
    return None


def _whole(scene: Scene, each: Trouble, entry: Entry) -> Load:
    beds = [
        bed for bed in scene.beds if any(_same(entry, other) for other in loads(_of_bed(scene, bed), scene))
    ]
    locks = each.kind == "disorder"
    locked = {
        lock.subject
        for bed in beds
        for lock in scene.garden.locks_on(scene.today, bed=bed, stops="planting")
        if lock.rule == SPRAY_CARRIED_OVER and lock.on == "bed"
    }
    return Load(
        trouble=each,
        material=material_of(entry),
        came_on=entry.happened_on,
        beds=tuple(beds),
        open_beds=tuple(bed for bed in beds if bed not in locked) if locks else (),
        test=BEAN_TEST if locks else "",
    )


def _of_bed(scene: Scene, bed: str) -> Sequence[Entry]:
    return scene.beds[bed].history


def _brought_by(each: Trouble, material: str) -> bool:
    low = material.casefold()
    return any(word in low for came in each.came_with for word in _LIKE.get(came, ()))


def _same(one: Entry, other: Entry) -> bool:
    """Whether two entries tell of one load."""
    batches = (_batch(one), _batch(other))
    if all(batches):
        return batches[0] == batches[1]
    near = abs(one.happened_on - other.happened_on) <= timedelta(days=SAME_LOAD_DAYS)
    return near and material_of(one).casefold() == material_of(other).casefold()


def _batch(entry: Entry) -> str:
    return (entry.act.batch if isinstance(entry.act, Amended) else "") or entry.batch
