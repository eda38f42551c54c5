"""Run the benchmarks: `python3 run.py bench [PART ...] [--write]`; the parts are named below.

With --write the table of docs/performance.md is renewed. The exit code is 1 when a budget is missed.
"""

from __future__ import annotations

import sys
from datetime import date
from pathlib import Path

from bench import champion
from bench.figures import Figure
from bench.machine import describe

PAGE = Path(__file__).resolve().parents[1] / "docs" / "performance.md"
PARTS = ("batch", "course", "learning", "book", "note", "garden", "round", "models", "commands")
BEGIN, END = "<!-- figures: begin -->", "<!-- figures: end -->"


def measure(parts: list[str]) -> list[Figure]:
    """Figures of the parts asked for, in the order of the page."""
    from bench import batch, book, cold_start, garden, learning, note, one_course, season_models
    from bench import round as walk

    weather = champion.read()
    figures: list[Figure] = []
    course_s = None
    if "batch" in parts or "models" in parts:
        figures, course_s = batch.measure(weather)
    if "course" in parts:
        figures += one_course.measure(weather)
    if "learning" in parts:
        figures += learning.measure(weather)
    if "book" in parts:
        figures += book.measure()
    if "note" in parts:
        figures += note.measure()
    if "garden" in parts:
        figures += garden.measure()
    if "round" in parts:
        figures += walk.measure()
    if "models" in parts and course_s is not None:
        pcse_s, pcse_days = season_models.pcse_seconds_per_season(weather)
        aquacrop_s = season_models.aquacrop_seconds_per_season(weather)
        figures += [
            Figure(f"pcse, phenology only, a season of {pcse_days} days", pcse_s * 1e3, "ms"),
            Figure("aquacrop, a season of maize", aquacrop_s * 1e3, "ms"),
            Figure(
                "a batch course beside pcse, phenology only", pcse_s / course_s, "times faster", 1e4, "least"
            ),
            Figure("a batch course beside aquacrop", aquacrop_s / course_s, "times faster", 1e4, "least"),
        ]
    if "commands" in parts:
        figures += cold_start.measure(weather)
    return figures


def page(figures: list[Figure]) -> str:
    """The measured part of the page."""
    head = f"Measured on {date.today().isoformat()}: {describe()}.\n\n"
    table = "| what | measured | budget | |\n| --- | --- | --- | --- |\n"
    return head + table + "\n".join(figure.row for figure in figures) + "\n"


def main(words: list[str]) -> int:
    """Measure, print and perhaps write."""
    parts = [word for word in words if word != "--write"] or list(PARTS)
    unknown = sorted(set(parts) - set(PARTS))
    if unknown:
        print(f"No such part: {', '.join(unknown)}. There are: {', '.join(PARTS)}.", file=sys.stderr)
        return 2
    if "--write" in words and set(parts) != set(PARTS):
        print("--write renews the whole table, so it needs all parts.", file=sys.stderr)
        return 2
    figures = measure(parts)
    text = page(figures)
    print(text, end="")
    if "--write" in words:
        before, _, rest = PAGE.read_text(encoding="utf-8").partition(BEGIN)
        after = rest.partition(END)[2]
        PAGE.write_text(f"{before}{BEGIN}\n{text}{END}{after}", encoding="utf-8")
    missed = [figure.name for figure in figures if figure.kept is False]
    for name in missed:
        print(f"Over budget: {name}", file=sys.stderr)
    return 1 if missed else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
