"""How often the differential tells written cases of ailing plants, as tables for docs/accuracy.md.

    python tools/differential_report.py [--misses]

Reads every file of cases under tests/cases.
"""

from __future__ import annotations

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent.parent / "tests"))

from differential_cases import Answered, answered, case_files, score


def main() -> None:
    """Print the measures of every file and of all together, and what was missed where asked."""
    files = case_files()
    print("| cases | number | first | among three | Brier | questions, median |")
    print("|---|---|---|---|---|---|")
    whole: list[Answered] = []
    for path in files:
        found = answered(path)
        whole += found
        _line(path.stem, list(found))
    if len(files) > 1:
        _line("all", whole)
    for path in files:
        print(f"\n{path.stem}: chance said | mean said | share right | causes")
        for low, mean, right, count in score(answered(path)).bins:
            print(f"| from {low:.2f} | {mean:.2f} | {right:.2f} | {count} |")
    if "--misses" in sys.argv:
        for each in whole:
            if each.rank is None or each.rank > 3:
                first = each.end.ranked[0].name
                print(
                    f"missed ({each.rank}): {each.case.name}: {', '.join(each.case.accepted)}; told: {first}"
                )


def _line(name: str, found: list[Answered]) -> None:
    measured = score(found)
    print(
        f"| {name} | {measured.cases} | {measured.top_1:.2f} | {measured.top_3:.2f} "
        f"| {measured.brier:.3f} | {measured.median_questions:g} |"
    )


if __name__ == "__main__":
    main()
