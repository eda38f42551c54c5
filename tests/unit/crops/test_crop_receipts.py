"""What no publication prints, counted crop by crop: a change of the count is a change of what can be trusted.

Run this file as a program to print the counts anew, and keep them in `unpublished.csv` beside it.
"""

from __future__ import annotations

from collections import Counter
from pathlib import Path

import pytest

from spadework.crops import all_sheets, keys, load_sheet, receipts, unpublished, whole_receipts

SNAPSHOT = Path(__file__).parent / "unpublished.csv"
CLASSES = ("published", "computed", "measured", "memory", "common-practice")


def counts(key: str) -> str:
    """One line: the crop, and how many of its numbers there are of each class."""
    found = Counter[str](value.provenance for value in whole_receipts(load_sheet(key)).values())
    return ",".join([key, *(str(found[name]) for name in CLASSES)])


def snapshot() -> str:
    return "\n".join([",".join(["crop", *CLASSES]), *(counts(key) for key in keys())]) + "\n"


def listed(key: str) -> str:
    """Every number of a crop that no publication prints, for the message of a failed check."""
    lines = [
        f"  {path} = {value.value:g} ({value.provenance} {value.source})"
        for path, value in unpublished(load_sheet(key)).items()
    ]
    return f"{key}: not published\n" + "\n".join(lines)


def test_counts_are_as_written_down() -> None:
    told = SNAPSHOT.read_text(encoding="utf-8")
    changed = set(snapshot().splitlines()) ^ set(told.splitlines())
    crops = sorted({line.split(",")[0] for line in changed})
    assert told == snapshot(), "\n".join(listed(key) for key in crops if key in keys())


@pytest.mark.parametrize("key", keys())
def test_unpublished_and_published_are_all_there_is(key: str) -> None:
    sheet = load_sheet(key)
    rest = {path for path, value in whole_receipts(sheet).items() if value.provenance == "published"}
    assert rest | set(unpublished(sheet)) == set(whole_receipts(sheet))
    assert not rest & set(unpublished(sheet))
    assert set(receipts(sheet)) <= set(whole_receipts(sheet))


def test_a_published_number_names_a_publication() -> None:
    for key, sheet in all_sheets().items():
        for path, value in whole_receipts(sheet).items():
            if value.provenance == "published":
                assert value.sources, f"{key} {path}"
                assert "ESTIMATE" not in value.sources, f"{key} {path}"


if __name__ == "__main__":
    print(snapshot(), end="")
