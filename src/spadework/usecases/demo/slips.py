"""Slips of the pen, and how the book mends them: a weight corrected, an entry undone, water written twice."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from datetime import date
from typing import Final

import msgspec

from spadework.garden.entries import Ended, Note, Picked, Watered
from spadework.usecases.demo.deed import EVENING, MORNING, Deed

_WEIGHED: Final = (0.8, 3.0)
"""Weights for which a point in the wrong place is easily written.  [kg]"""


def with_slips(deeds: Sequence[Deed], year: int) -> list[Deed]:
    """The deeds with a year's slips: a weight put right, an entry undone, a bed watered twice."""
    found = list(deeds)
    # A slip is mended on the next day: what was over by then is left alone.
    over = {
        deed.planting: deed.on for deed in deeds if isinstance(deed.act, Ended) and deed.act.plants is None
    }

    def goes_on(deed: Deed) -> bool:
        return deed.on < over.get(deed.planting, date.max)

    weight = _first(found, date(year, 7, 12), lambda deed: goes_on(deed) and _slip_weight(deed.act))
    if weight is not None:
        deed = found[weight]
        assert isinstance(deed.act, Picked)
        kg = deed.act.kg or 0.0
        name = f"weight-{year}"
        wrong = msgspec.structs.replace(deed.act, kg=round(kg * 10, 1))
        found[weight] = replace(deed, act=wrong, name=name, who="fenn")
        found.append(replace(deed, who="maren", replaces=name, late_days=1, when=EVENING))
    twice = _first(
        found, date(year, 6, 24), lambda deed: isinstance(deed.act, Watered) and deed.bed.startswith("tub")
    )
    if twice is not None:
        first = found[twice]
        found.append(replace(first, who="ansel" if first.who != "ansel" else "bram", when=MORNING))
        note = Note(text="Watered twice today: from now on the can hangs on the tub once it is done.")
        found.append(Deed(on=first.on, act=note, who="odo", bed=first.bed, when=EVENING))
    undone = _first(
        found, date(year, 8, 2), lambda deed: isinstance(deed.act, Picked) and deed.act.pieces is None
    )
    if undone is not None:
        name = f"undone-{year}"
        slip = found[undone]
        assert isinstance(slip.act, Picked)
        wrong = msgspec.structs.replace(slip.act, kg=0.4)
        found.append(replace(slip, act=wrong, name=name, who="fenn", when=MORNING))
        found.append(Deed(on=slip.on, act=None, who="fenn", withdraws=name, when=EVENING))
    return found


def _slip_weight(act: object) -> bool:
    return (
        isinstance(act, Picked)
        and act.kg is not None
        and act.pieces is None
        and _WEIGHED[0] <= act.kg <= _WEIGHED[1]
    )


def _first(deeds: Sequence[Deed], since: date, fits: Callable[[Deed], bool]) -> int | None:
    """Place of the first deed of a year from a day on that fits."""
    places = [
        place
        for place, deed in enumerate(deeds)
        if since <= deed.on and deed.on.year == since.year and fits(deed)
    ]
    return min(
        places, key=lambda place: (deeds[place].on, deeds[place].bed, deeds[place].planting), default=None
    )
