"""What becomes of a planting's remains, from what was seen on it: destroy, compost, or leave."""

from __future__ import annotations

from datetime import timedelta
from typing import Final

from spadework.advice.guarding import named
from spadework.advice.scene import Plot, Scene
from spadework.advice.sightings import sightings
from spadework.crops.trouble import Trouble
from spadework.crops.troubles import all_troubles
from spadework.garden.entries import Seen

STRICTEST: Final = ("destroy", "compost", "leave")

_WHAT: Final = {
    "destroy": "destroy what you clear, roots and all; it is not for the compost",
    "compost": "what you clear may go on the compost",
    "leave": "what you clear may stay on the bed",
}


def seen_on_it(scene: Scene, plot: Plot) -> tuple[Trouble, ...]:
    """Troubles found on a planting, or in its bed while it stood, what asks for most care first."""
    planting = plot.planting
    if not any(isinstance(entry.act, Seen) for entry in scene.garden.entries):
        return ()
    since = max(planting.started_on, scene.today - timedelta(days=730))
    keys = [
        each.trouble
        for each in sightings(scene.garden, since, scene.today)
        if not each.clean
        and (each.planting == planting.key or (not each.planting and each.bed == plot.bed_key and each.bed))
    ]
    known = [all_troubles()[key] for key in dict.fromkeys(keys) if key in all_troubles()]
    return tuple(sorted(known, key=lambda each: STRICTEST.index(each.after)))


def remains_text(scene: Scene, plot: Plot) -> str:
    """What was seen on a planting asks of its remains, in a sentence; empty where nothing was seen."""
    found = seen_on_it(scene, plot)
    if not found:
        return ""
    strict = [each for each in found if each.after == found[0].after]
    names = named([each.name for each in strict])
    return (
        f"{names[0].upper()}{names[1:]} {'was' if len(strict) == 1 else 'were'} seen on it: "
        f"{_WHAT[found[0].after]}. {strict[0].after_why.text}"
    )
