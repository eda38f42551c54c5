"""A short walk past real answers: questions that make sense on the day they are asked."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta
from typing import Final

import msgspec

from spadework.garden.entries import Counted
from spadework.garden.planting import Planting
from spadework.garden.state import Garden
from spadework.usecases.demo.room import sheet_of

SOWING_MONTHS: Final = range(3, 9)
"""Months in which something is sown in the open here."""

FIRST_SOWINGS: Final = range(1, 4)
"""Months in which the first sowing in the open is thought about."""

UNDER_COVER: Final = ("shelf", "tunnel", "frame")
"""Beds that are not in the open, by how their keys begin."""

_LATELY: Final = timedelta(days=24)
_A_ROW_S_AGE: Final = timedelta(days=45)
_SETTLED: Final = timedelta(days=10)


class Stop(msgspec.Struct, frozen=True, kw_only=True):
    """One question of the walk.

    Parameters
    ----------
    why : str
        A sentence: what in the garden asks it today.
    words : tuple of str
        The command, word by word.
    """

    why: str
    words: tuple[str, ...]


def tour(garden: Garden, today: date) -> tuple[Stop, ...]:
    """The walk for a day.

    Parameters
    ----------
    garden : Garden
        Folded from the demo's book.
    today : date
    """
    return tuple(_stops(garden, today))


def _stops(garden: Garden, today: date) -> Iterator[Stop]:
    year_half = "When does frost come back?" if 6 <= today.month <= 10 else "When is the last frost past?"
    yield Stop(why=year_half, words=("odds", "frost", "--at-odds", "1in5"))
    if today.month in FIRST_SOWINGS:
        yield Stop(why="On which day do the first peas go in?", words=("weigh", "sow", "pea"))
    if today.month in SOWING_MONTHS:
        yield Stop(why="What can be sown today?", words=("weigh", "sow"))
    yield Stop(why="An hour: what is worth doing?", words=("round", "--minutes", "60"))
    yield from _full_bed(garden, today)
    yield from _poor_row(garden, today)
    yield from _in_trays(garden, today)
    yield from _on_its_way(garden, today)
    if today.month in SOWING_MONTHS:
        yield Stop(why="A place is free: what still fits it?", words=("weigh", "fits"))
    why = "A law tried by hand: parsnips in cold soil."
    yield Stop(why=why, words=("law", "emergence-days", "crop=parsnip", "soil_c=10"))


def _full_bed(garden: Garden, today: date) -> Iterator[Stop]:
    """The bed in which most stands, with its last entries."""
    beds = [planting.bed for planting in garden.standing(today) if planting.bed]
    if beds:
        bed = max(sorted(set(beds)), key=beds.count)
        why = f"What is known of {garden.beds[bed].name}?"
        yield Stop(why=why, words=("bed", bed, "--last", "5"))


def _poor_row(garden: Garden, today: date) -> Iterator[Stop]:
    """The thinnest row of those counted lately."""
    found: list[tuple[float, Planting, int]] = []
    for planting in garden.standing(today):
        counts = [entry for entry in planting.history if isinstance(entry.act, Counted)]
        if not counts or planting.sown_on is None or planting.set_out_on is not None or not planting.lot:
            continue
        number = planting.plants.number
        lately = today - counts[-1].happened_on <= _LATELY and today - planting.sown_on <= _A_ROW_S_AGE
        if (
            planting.seeds
            and number is not None
            and lately
            and planting.plants.basis == "counted in a stretch"
        ):
            found.append((number / planting.seeds, planting, round(number)))
    if found:
        _, planting, up = min(found, key=lambda each: (each[0], each[1].key))
        assert planting.sown_on is not None
        yield Stop(
            why=f"The thinnest row: {up} of {planting.seeds} seeds of {_name(planting)} are up. Sow again?",
            words=(
                "weigh",
                "sow-again",
                planting.crop,
                *("--sown", planting.sown_on.isoformat()),
                *("--seeds", str(planting.seeds), "--up", str(up)),
            ),
        )


def _in_trays(garden: Garden, today: date) -> Iterator[Stop]:
    """The plants that have been on the shelf longest."""
    trays = [one for one in garden.standing(today) if one.tray and one.bed == "shelf" and one.stages]
    if trays and today.month in SOWING_MONTHS:
        oldest = trays[0]
        why = f"{_name(oldest).capitalize()} is in trays on the shelf: out, or hold?"
        yield Stop(why=why, words=("weigh", "plant-out", oldest.crop))


def _on_its_way(garden: Garden, today: date) -> Iterator[Stop]:
    """What was sown or set out last in the open and has come through; in the cold months the garlic."""
    on_way = [
        one
        for one in garden.standing(today)
        if not one.perennial
        and not one.bed.startswith(UNDER_COVER)
        and "up" in one.stages
        and "ready" not in one.stages
    ]
    if not on_way:
        return
    cold = today.month not in SOWING_MONTHS
    planting = max(
        on_way,
        key=lambda one: (
            cold and one.crop == "garlic",
            today - _start(one) >= _SETTLED,
            _start(one),
            one.key,
        ),
    )
    way = "--sown" if planting.set_out_on is None else "--set-out"
    yield Stop(
        why=f"{_name(planting).capitalize()} in {garden.beds[planting.bed].name}: when will it be ready?",
        words=("odds", "ready", planting.crop, way, _start(planting).isoformat()),
    )


def _start(planting: Planting) -> date:
    return planting.set_out_on or planting.started_on


def _name(planting: Planting) -> str:
    return sheet_of(planting.crop, "").british
