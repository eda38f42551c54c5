"""The half of the example lines that was sealed until the reader was finished. The lines are invented.

First scored before anything was mended on their account: 79 of 120 (docs/accuracy.md lists the others). Since
then they are seen, and the share is no forecast any more; it may only rise.
"""

from __future__ import annotations

import json
from pathlib import Path

from lines.score import score

SEALED = Path(__file__).parent / "sealed.jsonl"
FIRST_UNDERSTOOD, UNDERSTOOD = 79, 116
"""At the first scoring, and since what they showed was mended in general."""


def test_no_fewer_are_understood_than_at_first() -> None:
    lines = [json.loads(text) for text in SEALED.read_text(encoding="utf-8").splitlines()]
    assert len(lines) == 120
    share, misses = score(SEALED)
    assert round(share * len(lines)) >= UNDERSTOOD > FIRST_UNDERSTOOD
    assert len(misses) == len(lines) - round(share * len(lines))
