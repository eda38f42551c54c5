"""Move, turn, size or rename a bed as one act; what another keeper changed meanwhile is not lost."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any, Final

import msgspec

from spadework.errors import ParameterError
from spadework.garden.entries import BedGone, BedSet, Entry
from spadework.garden.geometry import Outline, Point
from spadework.garden.lay_out_lengths import LENGTH, metres
from spadework.garden.site import Units
from spadework.garden.state import Garden
from spadework.usecases.bed_names import bed_called
from spadework.usecases.keep_book import Act, Asked, author_key, write_acts
from spadework.usecases.keep_things import past_all
from spadework.usecases.show_ground import BedDrawn, bed_as_told
from spadework.usecases.write_answer import WriteAnswer, Writing, answer_of, open_for_writing

LONGEST_M: Final = 500.0
"""A side or a way on the plot beyond this is a slip of the pen. Our own rule."""

_PLACE: Final = ("x_m", "y_m", "turn_deg")
_EVEN: Final = 1e-6
_WORDS: Final = {
    "name": "name", "shape": "kind", "x_m": "east", "y_m": "north", "width_m": "width", "length_m": "length",
    "turn_deg": "turn", "height_m": "height", "depth_m": "depth", "soil": "soil", "inside": "inside",
    "week_allowance_l": "litres a week",
}  # fmt: skip


class BedNow(msgspec.Struct, frozen=True, kw_only=True):
    """A bed as it was last told, to be changed.

    Parameters
    ----------
    said : dict of str to value
        Fields of `BedSet`.
    """

    key: str
    name: str
    said: dict[str, Any]


def bed_now(path: Path, name: str) -> BedNow:
    """What the book says of a bed.

    Raises
    ------
    UnknownName, StoreError
    """
    _, state = open_for_writing(path)
    bed = bed_called(state.garden, name)
    return BedNow(key=bed.key, name=bed.name, said=_fields(_told(state.garden, bed.key, bed.name)))


def read_side(text: str, units: Units, *, most_m: float = LONGEST_M) -> float:
    """A length or a way on the plot in metres, from "1.2 m", "120 cm" or "4 ft 6 in"; backwards with a minus.

    Parameters
    ----------
    text : str
    units : Units
        A bare number is in metres, or in feet.
    most_m : float  [m]
        Beyond this it is refused.

    Raises
    ------
    ParameterError
    """
    bare = text.strip().casefold().replace("−", "-")
    sign = -1.0 if bare.startswith("-") else 1.0
    bare = bare.lstrip("+-").strip()
    if not re.fullmatch(LENGTH, bare):
        hint = "Write it as 4 ft 6 in." if units == "us" else "Write it as 1.2 m or 120 cm."
        raise ParameterError(f"{text!r} is no length.", hint)
    found = sign * metres(bare, "ft" if units == "us" else "m")
    if not math.isfinite(found) or abs(found) > most_m:
        raise ParameterError(f"{text} is too far to be meant.", "Write it anew.")
    return found


def change_bed(
    path: Path, how: Writing, name: str, said: Mapping[str, Any], *, was: Mapping[str, Any] | None = None
) -> WriteAnswer:
    """Describe a bed anew, and take along what lies in it where it is a tunnel or frame that moves.

    Parameters
    ----------
    path : Path
    how : Writing
    name : str
        Of the bed.
    said : mapping of str to value
        Fields of `BedSet`; those left out stay.
    was : mapping of str to value or None
        The same fields as they were when whoever changes it looked at it. Only what differs from them is
        changed; where somebody else has changed the same meanwhile, that is asked about first.

    Raises
    ------
    UnknownName, ParameterError, StoreReadOnly, StoreError
    """
    folder, state = open_for_writing(path)
    garden = state.garden
    bed = bed_called(garden, name)
    now = _told(garden, bed.key, bed.name)
    mine = {each: value for each, value in said.items() if was is None or not _same(value, was.get(each))}
    if not mine:
        raise ParameterError("Nothing is changed.", "Move it, or change a number, and save it then.")
    told = msgspec.structs.replace(now, **mine)
    _check(told)
    acts = [Act(payload=told, on=how.day, bed=bed.key), *_taken_along(garden, bed.key, now, told, how)]
    author = author_key(garden, how.by)
    clash = [] if was is None or how.key in garden.keys else _clashes(garden, bed.key, now, mine, was)
    asks = bool(clash) and not how.insist
    written = write_acts(
        folder,
        acts,
        today=how.today,
        author=author,
        insist=how.insist,
        state=state,
        only_ask=asks,
        first_key=how.key,
    )
    found = answer_of(folder, state, written, question="bed", today=how.today)
    if not asks:
        return found
    return msgspec.structs.replace(
        found, stored=False, questions=[*clash, *found.questions], can_insist=found.can_insist
    )


def _told(garden: Garden, bed: str, name: str) -> BedSet:
    for entry in reversed(garden.entries):
        if isinstance(entry.act, BedSet) and entry.bed == bed:
            return entry.act
    return BedSet(name=name)


def _fields(told: BedSet) -> dict[str, Any]:
    return {name: getattr(told, name) for name in told.__struct_fields__}


def _same(one: object, other: object) -> bool:
    if isinstance(one, (int, float)) and isinstance(other, (int, float)):
        return math.isclose(one, other, abs_tol=_EVEN)
    return one == other


def _check(told: BedSet) -> None:
    if not told.name.strip():
        raise ParameterError("A bed needs a name.", "Call it something.")
    Outline(x_m=told.x_m, y_m=told.y_m, width_m=told.width_m, length_m=told.length_m, turn_deg=told.turn_deg)


def _clashes(
    garden: Garden, bed: str, now: BedSet, mine: Mapping[str, Any], was: Mapping[str, Any]
) -> list[Asked]:
    """The question where the same was changed meanwhile: what is there now, by whom, and what is wanted."""
    gone = garden.beds[bed].gone_on is not None
    fields = [
        name
        for name, value in mine.items()
        if not _same(getattr(now, name), was.get(name)) and not _same(getattr(now, name), value)
    ]
    if not fields and not gone:
        return []
    last = _last_told(garden, bed)
    by = last.author if last is not None else ""
    who = garden.people[by].name if by in garden.people else by or "Somebody"
    if gone:
        found = f"{who} took {now.name} up since you opened this."
        why = "Saving yours makes it a bed again."
    else:
        there = ", ".join(f"{_WORDS.get(each, each)} {_value(each, getattr(now, each))}" for each in fields)
        wanted = ", ".join(f"{_WORDS.get(each, each)} {_value(each, mine[each])}" for each in fields)
        found = f"{who} changed {now.name} since you opened this: {there} now."
        why = f"You want {wanted}. Theirs stays in the book either way; open the page anew to keep it."
    return [Asked(act=1, about="bed", found=found, why=why, nearest=(), may_insist=True)]


def _last_told(garden: Garden, bed: str) -> Entry | None:
    for entry in reversed(garden.entries):
        if isinstance(entry.act, (BedSet, BedGone)) and entry.bed == bed:
            return entry
    return None


def _value(name: str, value: object) -> str:
    if value is None or value == "":
        return "none"
    if name.endswith("_m"):
        return f"{value:.2f} m"
    if name == "turn_deg":
        return f"{value:g}°"
    return f"{value:g}" if isinstance(value, float) else str(value)


def _taken_along(garden: Garden, host: str, before: BedSet, after: BedSet, how: Writing) -> Iterator[Act]:
    """Beds inside one that moves or turns, the foremost first, so that none lies over another on the way."""
    if all(_same(getattr(before, each), getattr(after, each)) for each in _PLACE):
        return
    turn_deg = after.turn_deg - before.turn_deg
    cos, sin = math.cos(math.radians(turn_deg)), math.sin(math.radians(turn_deg))

    def moved(x_m: float, y_m: float) -> Point:
        east, north = x_m - before.x_m, y_m - before.y_m
        return after.x_m + east * cos - north * sin, after.y_m + east * sin + north * cos

    inside = []
    for key, bed in garden.beds.items():
        if bed.inside != host or bed.gone_on is not None or bed.outline is None:
            continue
        told = _told(garden, key, bed.name)
        x_m, y_m = moved(told.x_m, told.y_m)
        to = msgspec.structs.replace(
            told, x_m=round(x_m, 3), y_m=round(y_m, 3), turn_deg=(told.turn_deg + turn_deg) % 360.0
        )
        ahead = told.x_m * (x_m - told.x_m) + told.y_m * (y_m - told.y_m)
        inside.append((ahead, key, to))
    for _, key, to in sorted(inside, key=lambda each: -each[0]):
        yield Act(payload=to, on=how.day, bed=key)


def bed_to_be(path: Path, name: str = "New bed") -> tuple[BedNow, BedDrawn]:
    """A bed that is not made yet, beside the others, and as it is drawn.

    Raises
    ------
    GardenError, StoreError
    """
    _, state = open_for_writing(path)
    told = BedSet(name=name, x_m=past_all(state.garden))
    drawn = bed_as_told("", told)
    return BedNow(key="", name="", said=_fields(told)), drawn
