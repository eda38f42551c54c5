"""Hints of use cases, as pages say them: what to do there, and no commands."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

import spadework
from spadework.faces.web.page_words import on_page

SAID = (
    "Name the crop or the bed in the line, or give --bed or --planting.",
    "Name the bed in the line, or give it with --bed.",
    "Say it in the line, or give it with --planting.",
    "Give --planting with one of these.",
    "Count a metre: spadework done count-carrot-2026-1 --standing N",
    "--on 2026-05-01 is before today (2026-06-12).",
    "Correct the date, or --today.",
)


@pytest.mark.parametrize("said", SAID)
def test_a_hint_is_said_without_options(said: str) -> None:
    shown = on_page(said)
    assert shown
    assert "--" not in shown
    assert "spadework" not in shown


def test_questions_of_a_line_name_no_option() -> None:
    folder = Path(spadework.__file__).parent / "usecases" / "line"
    hints = [
        hint
        for file in folder.glob("*.py")
        for hint in re.findall(r'why="([^"]*--[^"]*)"', file.read_text(encoding="utf-8"))
    ]
    assert hints
    assert not [hint for hint in hints if "--" in on_page(hint)]


def test_other_words_stay() -> None:
    assert on_page("Write it as 2026-05-01 or 1 May.") == "Write it as 2026-05-01 or 1 May."
