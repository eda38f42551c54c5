"""The open half of the example lines, written without a view of the reader. The lines are invented."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from line_garden import TODAY, line_garden
from lines.score import fault, score
from spadework.usecases.line.marking import Manner
from spadework.usecases.line.read import read_line

OPEN = Path(__file__).parent / "open.jsonl"
KNOWN_MISSES = {"Leeks: set out 60 last week, counted 57 standing today"}
"""Asked about although one part of it could be read; see docs/accuracy.md."""


def test_open_lines_are_understood() -> None:
    share, misses = score(OPEN)
    assert {miss.line for miss in misses} <= KNOWN_MISSES
    assert share > 0.98


KALE = {"kind": "picked", "bed": "bed-6", "crop": "kale", "on": "2026-06-15", "fields": {"kg": 2}}
WEEDED = {"kind": "tended", "bed": "bed-6", "crop": "", "on": "2026-06-15", "fields": {}}


def test_the_score_takes_what_is_right() -> None:
    garden = line_garden()
    assert fault([KALE], read_line("picked 2 kg kale", garden, Manner(TODAY)), garden) == ""


@pytest.mark.parametrize(
    ("expect", "line"),
    [
        ([KALE | {"fields": {"kg": 3}}], "picked 2 kg kale"),
        ([KALE | {"bed": "bed-5"}], "picked 2 kg kale"),
        ([KALE | {"on": "2026-06-14"}], "picked 2 kg kale"),
        ([KALE | {"kind": "lifted"}], "picked 2 kg kale"),
        ([KALE | {"crop": "cabbage"}], "picked 2 kg kale"),
        ([KALE | {"by": "ben"}], "picked 2 kg kale"),
        ([KALE, WEEDED], "picked 2 kg kale"),
        ([WEEDED], "weeded beds 6 and 7"),
        ("ask", "picked 2 kg kale"),
    ],
)
def test_the_score_finds_what_is_wrong(expect: object, line: str) -> None:
    garden = line_garden()
    assert fault(expect, read_line(line, garden, Manner(TODAY)), garden)


def test_every_open_line_names_a_voice() -> None:
    told = [json.loads(line) for line in OPEN.read_text(encoding="utf-8").splitlines()]
    assert len(told) == 120
    assert all(each["voice"] and each["line"].strip() for each in told)
