"""Score the reader of lines against lines that people wrote without having seen it.

A line counts only when every entry expected is read and no other: kind, bed, crop, day, person and every
field told agree. A line that should be asked about counts when something is asked and nothing is read.
Run it: `python tests/lines/score.py FILE...` with the project's `src` and `tests` on the path.
"""

from __future__ import annotations

import json
import sys
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Any

import msgspec

from line_garden import TODAY, line_garden
from spadework.crops.names import find
from spadework.errors import UnknownName
from spadework.garden.lookup import plain
from spadework.garden.state import Garden
from spadework.usecases.keep_book import Act
from spadework.usecases.line.lexicon import lexicon_of
from spadework.usecases.line.marking import Manner
from spadework.usecases.line.read import Reading, read_line

AMERICAN = frozenset({"american", "canadian"})
_CLOSE = 0.006
"""Fields are told to two decimals."""


@dataclass(frozen=True)
class Miss:
    """A line not understood, and how it was read."""

    line: str
    why: str


def score(path: Path) -> tuple[float, list[Miss]]:
    """Share of a file's lines understood, and the others."""
    garden = line_garden()
    lexicon = lexicon_of(garden)
    told = [json.loads(text) for text in path.read_text(encoding="utf-8").splitlines() if text.strip()]
    misses = []
    for each in told:
        manner = Manner(TODAY, us_gallon=each.get("voice") in AMERICAN)
        reading = read_line(each["line"], garden, manner, lexicon=lexicon)
        why = fault(each["expect"], reading, garden)
        if why:
            misses.append(Miss(each["line"], why))
    return (1 - len(misses) / len(told) if told else 1.0), misses


def fault(expect: Any, reading: Reading, garden: Garden) -> str:
    """What is wrong with a reading; empty where it is as expected."""
    if expect == "ask":
        return "" if reading.questions and not reading.acts else f"should ask, but read {_told(reading)}"
    if reading.questions:
        return f"asked: {'; '.join(question.found for question in reading.questions)}"
    left = list(reading.acts)
    for wanted in expect:
        faults = [(act, _differs(wanted, act, garden)) for act in left]
        match = next((act for act, why in faults if not why), None)
        if match is None:
            nearest = min((why for _, why in faults), key=len, default="nothing read")
            return f"{wanted['kind']}: {nearest} | read {_told(reading)}"
        left.remove(match)
    return f"also read {_kind(left[0])} | read {_told(reading)}" if left else ""


def _differs(wanted: dict[str, Any], act: Act, garden: Garden) -> str:
    """How an act differs from the one wanted; empty where it does not."""
    payload: dict[str, Any] = msgspec.to_builtins(act.payload)
    if payload["kind"] not in _any(wanted["kind"]):
        return f"kind {payload['kind']}"
    if act.bed not in _any(wanted["bed"]) and _key(act.bed) not in _any(wanted["bed"]):
        return f"bed {act.bed!r}"
    on = [date.fromisoformat(day) for day in _any(wanted["on"])]
    if act.on not in on:
        return f"day {act.on}"
    if "by" in wanted and act.author != wanted["by"]:
        return f"by {act.author!r}"
    crop = payload.get("crop") or (
        garden.plantings[act.planting].crop if act.planting in garden.plantings else ""
    )
    if not any(_same_crop(each, crop, act, garden) for each in _any(wanted["crop"])):
        return f"crop {crop!r}"
    for field, value in wanted.get("fields", {}).items():
        if not any(_agrees(each, payload.get(field)) for each in _any(value)):
            return f"{field} {payload.get(field)!r}"
    return ""


def _same_crop(wanted: str, crop: str, act: Act, garden: Garden) -> bool:
    """Where no crop was named, one that stands alone in the bed may have been read."""
    if not wanted:
        return not crop or len(garden.standing(act.on, bed=act.bed)) == 1
    try:
        return find(wanted.replace("-", " ")) == crop
    except UnknownName:
        return wanted == crop


def _agrees(wanted: Any, read: Any) -> bool:
    if isinstance(wanted, (int, float)) and not isinstance(wanted, bool):
        return isinstance(read, (int, float)) and abs(read - wanted) <= max(_CLOSE, 0.001 * abs(wanted))
    if isinstance(wanted, str) and isinstance(read, str):
        return plain(wanted) == plain(read)
    return bool(wanted == read)


def _any(value: Any) -> list[Any]:
    return value if isinstance(value, list) else [value]


def _key(name: str) -> str:
    return plain(name).replace(" ", "-")


def _kind(act: Act) -> str:
    return str(msgspec.to_builtins(act.payload)["kind"])


def _told(reading: Reading) -> str:
    return (
        "; ".join(
            f"{act.on:%d %b} {act.author} {act.bed} {act.planting} "
            + json.dumps(
                {k: v for k, v in msgspec.to_builtins(act.payload).items() if v not in (None, "", [], False)}
            )
            for act in reading.acts
        )
        or "nothing"
    )


def main(paths: Iterable[str]) -> None:
    """Print the share of each file and its misses."""
    for name in paths:
        share, misses = score(Path(name))
        print(f"{name}: {share:.1%} understood, {len(misses)} not")
        for miss in misses:
            print(f"  {miss.line}\n      {miss.why}")


if __name__ == "__main__":
    main(sys.argv[1:])
