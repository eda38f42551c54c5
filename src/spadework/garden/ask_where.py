"""Places in a bed that do not fit it, or on which something stands already."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Final

from spadework.garden import entries as kinds
from spadework.garden.blocks import SLACK_M, overlap, spot_ground, sticks_out_m, stretch_text
from spadework.garden.entries import Block, Entry, Spot
from spadework.garden.geometry import Outline
from spadework.garden.phrases import day_text
from spadework.garden.planting import Stay
from spadework.garden.question import Question
from spadework.garden.records import Bed
from spadework.garden.state import Garden

_STRETCHES: Final = 3


def where_questions(
    garden: Garden, entry: Entry, act: kinds.Sown | kinds.PlantedOut, bed: Bed, outline: Outline
) -> Iterator[Question]:
    """What is odd about where in a bed something was sown or planted."""
    if isinstance(act, kinds.PlantedOut) and act.plants is not None and 0 < act.plants < len(act.spots):
        yield Question(
            about="number",
            found=f"{len(act.spots)} places are named for {act.plants} plants.",
            why="Each place holds one.",
        )
    out_m = max([0.0, *(sticks_out_m(block, outline.width_m, outline.length_m) for block in _asked(act))])
    if out_m > SLACK_M:
        yield Question(
            about="bed",
            found=f"It reaches {out_m:.3g} m past the edge of {bed.name},"
            f" which is {outline.width_m:g} by {outline.length_m:g} m.",
            why="Places count from the bed's corner, across its width and along its length.",
        )
    mine = {act.planting, getattr(act, "from_planting", "")}
    for other in garden.standing(entry.happened_on, bed=entry.bed):
        stay = other.stay_on(entry.happened_on)
        if other.key not in mine and stay is not None and _shares(act, stay):
            yield Question(
                about="planting",
                found=f"On that ground since {day_text(stay.since, year=True)}: {other.key}.",
                why="Two crops can share ground, where that is meant.",
                nearest=_free(garden, entry),
            )


def _asked(act: kinds.Sown | kinds.PlantedOut) -> tuple[Block, ...]:
    spots = tuple(spot_ground(across, along, 0.0) for across, along in act.spots)
    return spots if act.block is None else (act.block, *spots)


def _shares(act: kinds.Sown | kinds.PlantedOut, stay: Stay) -> bool:
    """Whether it shares ground with what is there; a plant does where its middle is in a block."""
    blocks = () if act.block is None else (act.block,)
    spots, others = _squares(act.spots), _squares(stay.spots)
    return (
        any(overlap(one, other) for one in blocks for other in (*stay.blocks, *others))
        or any(overlap(one, other) for one in spots for other in stay.blocks)
        or any(overlap(one, other, 0.0) for one in spots for other in others)
    )


def _squares(spots: Iterable[Spot]) -> tuple[Block, ...]:
    return tuple(spot_ground(across, along, 2 * SLACK_M) for across, along in spots)


def _free(garden: Garden, entry: Entry) -> tuple[str, ...]:
    free = garden.free_ground(entry.bed, entry.happened_on)
    return () if free is None else tuple(map(stretch_text, free.stretches[:_STRETCHES]))
