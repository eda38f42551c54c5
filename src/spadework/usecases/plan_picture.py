"""The plan drawn with letters, to scale as well as letters allow, with a legend."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Final

import msgspec

from spadework.garden.entries import BedSet
from spadework.garden.geometry import Outline
from spadework.garden.lay_out_lengths import length_text
from spadework.garden.lay_out_plot import outline_of
from spadework.garden.site import Units

COLUMNS: Final = 74
LINES: Final = 48
_STEPS_M: Final = (
    0.1,
    0.125,
    0.15,
    0.2,
    0.25,
    0.3,
    0.4,
    0.5,
    0.6,
    0.8,
    1.0,
    1.5,
    2.0,
    3.0,
    5.0,
    10.0,
    20.0,
    50.0,
)
_SHAPES: Final = {
    "framed": "framed", "ground": "open ground", "tub": "tub", "sack": "sack", "tunnel": "tunnel",
    "frame": "cold frame", "shelf": "shelf",
}  # fmt: skip
_SINGLE: Final = ("┌", "─", "┐", "│", "└", "┘")
_DOUBLE: Final = ("╔", "═", "╗", "║", "╚", "╝")


class LegendRow(msgspec.Struct, frozen=True, kw_only=True):
    """One mark of the plan, or several of beds that are alike."""

    mark: str
    name: str
    about: str


class PlanPicture(msgspec.Struct, frozen=True, kw_only=True):
    """The plan in letters.

    Parameters
    ----------
    lines : tuple of str
        North is up. Empty where no bed lies outdoors.
    column_m, line_m : float  [m]
        What one letter and one line stand for.
    legend : tuple of LegendRow
    """

    lines: tuple[str, ...]
    column_m: float
    line_m: float
    legend: tuple[LegendRow, ...]


@dataclass(frozen=True, slots=True)
class _Cells:
    left: int
    top: int
    right: int
    bottom: int


def draw_plan(beds: Mapping[str, BedSet], units: Units) -> PlanPicture:
    """Draw beds by key; those on shelves indoors stand in the legend only.

    Parameters
    ----------
    beds : mapping of str to BedSet
        With sides above zero.
    units : {"metric", "us"}
        Of the legend.
    """
    marks = _marks(beds)
    outdoors = {key: outline_of(bed) for key, bed in beds.items() if bed.shape != "shelf"}
    step_m = _step(list(outdoors.values()))
    lines = _drawn(beds, outdoors, marks, step_m) if outdoors else ()
    return PlanPicture(
        lines=lines, column_m=step_m, line_m=2 * step_m, legend=tuple(_legend(beds, marks, units))
    )


def _span(outlines: Sequence[Outline]) -> tuple[float, float, float, float]:
    corners = [corner for outline in outlines for corner in outline.corners]
    xs, ys = [x for x, _ in corners], [y for _, y in corners]
    return min(xs), min(ys), max(xs), max(ys)


def _step(outlines: Sequence[Outline]) -> float:
    if not outlines:
        return _STEPS_M[0]
    west, south, east, north = _span(outlines)
    for step_m in _STEPS_M:
        if (east - west) / step_m <= COLUMNS and (north - south) / (2 * step_m) <= LINES:
            return step_m
    return max((east - west) / COLUMNS, (north - south) / (2 * LINES))


def _drawn(
    beds: Mapping[str, BedSet], outlines: Mapping[str, Outline], marks: Mapping[str, str], step_m: float
) -> tuple[str, ...]:
    west, south, east, north = _span(list(outlines.values()))
    wide, deep = round((east - west) / step_m) + 1, round((north - south) / (2 * step_m)) + 1
    grid = [[" "] * wide for _ in range(deep)]
    outer: dict[str, _Cells] = {}
    # What holds others is drawn first.
    for key in sorted(outlines, key=lambda each: (bool(beds[each].inside), -outlines[each].area_m2)):
        outline, bed = outlines[key], beds[key]
        left, low, right, high = _span([outline])
        cells = _Cells(
            round((left - west) / step_m),
            round((north - high) / (2 * step_m)),
            max(round((right - west) / step_m), round((left - west) / step_m) + 1),
            max(round((north - low) / (2 * step_m)), round((north - high) / (2 * step_m)) + 1),
        )
        if bed.inside in outlines:
            cells = _within(cells, outer[bed.inside])
        outer[key] = cells
        if outline.turn_deg % 90.0:
            _fill(grid, outline, west, north, step_m)
            _write(grid, (cells.top + cells.bottom) // 2, cells, marks[key])
        else:
            _box(grid, cells, bed, marks[key])
    lines = ["".join(row).rstrip() for row in grid]
    while lines and not lines[-1]:
        lines.pop()
    return tuple(lines)


def _within(cells: _Cells, outer: _Cells) -> _Cells:
    """Moved in where they would hide the wall of what holds them, and cut at it."""
    left, top = max(cells.left, outer.left + 1), max(cells.top, outer.top + 1)
    right, bottom = min(cells.right, outer.right - 1), min(cells.bottom, outer.bottom - 1)
    return _Cells(left, top, max(right, left + 1), max(bottom, top + 1))


def _box(grid: list[list[str]], cells: _Cells, bed: BedSet, mark: str) -> None:
    wide, deep = cells.right - cells.left, cells.bottom - cells.top
    if deep < 3 or wide < len(mark) + 2:
        edge = "()" if bed.is_round else "[]"
        text = f"{edge[0]}{mark}{edge[1]}" if wide >= len(mark) + 2 else mark
        for row in range(cells.top, cells.bottom):
            for column in range(cells.left, cells.right):
                _put(grid, row, column, "░" if deep > 1 or wide < len(mark) else " ")
        _write(grid, (cells.top + cells.bottom - 1) // 2, cells, text if wide >= len(mark) else "")
        return
    holds = bed.shape in ("tunnel", "frame")
    nw, flat, ne, side, sw, se = _DOUBLE if holds else _SINGLE
    for column in range(cells.left, cells.right):
        _put(grid, cells.top, column, flat)
        _put(grid, cells.bottom - 1, column, flat)
    for row in range(cells.top, cells.bottom):
        _put(grid, row, cells.left, side)
        _put(grid, row, cells.right - 1, side)
    for row, column, sign in (
        (cells.top, cells.left, nw),
        (cells.top, cells.right - 1, ne),
        (cells.bottom - 1, cells.left, sw),
        (cells.bottom - 1, cells.right - 1, se),
    ):
        _put(grid, row, column, sign)
    inner = wide - 2
    text = bed.name if len(bed.name) <= inner else mark
    _write(grid, cells.top if holds else (cells.top + cells.bottom - 1) // 2, cells, text[:inner])


def _fill(grid: list[list[str]], outline: Outline, west: float, north: float, step_m: float) -> None:
    for row, line in enumerate(grid):
        for column in range(len(line)):
            if outline.holds((west + (column + 0.5) * step_m, north - (row + 0.5) * 2 * step_m)):
                line[column] = "░"


def _write(grid: list[list[str]], row: int, cells: _Cells, text: str) -> None:
    start = cells.left + max(0, (cells.right - cells.left - len(text)) // 2)
    for place, sign in enumerate(text):
        _put(grid, row, start + place, sign)


def _put(grid: list[list[str]], row: int, column: int, sign: str) -> None:
    if 0 <= row < len(grid) and 0 <= column < len(grid[row]):
        grid[row][column] = sign


def _parts(name: str) -> tuple[str, int | None]:
    found = re.fullmatch(r"(.*?)\s*(\d+)", name)
    return (found[1], int(found[2])) if found else (name, None)


def _marks(beds: Mapping[str, BedSet]) -> dict[str, str]:
    """A short mark for each bed: 3 for Bed 3, T3 for Tub 3, LB for Long Bed; no two alike."""
    letters = _letters([bed.name for bed in beds.values()])
    found: dict[str, str] = {}
    for key, bed in beds.items():
        base, number = _parts(bed.name)
        words = re.findall(r"\w+", base)
        if number is not None:
            mark = f"{letters[base]}{number}"
        else:
            mark = "".join(word[0].upper() for word in words) if len(words) > 1 else base[:2] or "?"
        own, count = mark, 1
        while own in found.values():
            count += 1
            own = f"{mark}{'.' if mark[-1:].isdigit() else ''}{count}"
        found[key] = own
    return found


def _letters(names: Sequence[str]) -> dict[str, str]:
    """What goes before the number of numbered beds: nothing for beds, else the shortest that is free."""
    found: dict[str, str] = {}
    for name in names:
        base, number = _parts(name)
        if number is None or base in found:
            continue
        words = re.findall(r"\w+", base)
        ways = [word[0].upper() for word in words[:1]] + [word[0].lower() for word in words[:1]]
        ways += ["".join(word[0].upper() for word in words), *(base[:length] for length in range(2, 6))]
        found[base] = "" if base in ("Bed", "") else next((w for w in ways if w not in found.values()), base)
    return found


def _legend(beds: Mapping[str, BedSet], marks: Mapping[str, str], units: Units) -> list[LegendRow]:
    """A row for each run of beds that are alike and numbered on."""
    runs: list[list[str]] = []
    for key, bed in beds.items():
        last = beds[runs[-1][-1]] if runs else None
        base, number = _parts(bed.name)
        if last is not None and number is not None and _parts(last.name) == (base, number - 1):
            same = ("shape", "is_round", "width_m", "length_m", "height_m", "depth_m", "soil", "inside")
            if all(getattr(bed, name) == getattr(last, name) for name in same):
                runs[-1].append(key)
                continue
        runs.append([key])
    rows = []
    for run in runs:
        first, end = run[0], run[-1]
        many = len(run) > 1
        rows.append(
            LegendRow(
                mark=f"{marks[first]}–{marks[end]}" if many else marks[first],
                name=f"{beds[first].name} to {beds[end].name}" if many else beds[first].name,
                about=_about(beds[first], beds, units),
            )
        )
    return rows


def _about(bed: BedSet, beds: Mapping[str, BedSet], units: Units) -> str:
    if bed.is_round:
        size = f"{length_text(bed.width_m, units)} across"
    else:
        size = f"{length_text(bed.width_m, units)} by {length_text(bed.length_m, units)}"
    said = [size]
    if bed.shape != "framed":
        said.append("indoors" if bed.shape == "shelf" else _SHAPES[bed.shape])
    if bed.height_m:
        said.append(f"raised {length_text(bed.height_m, units)}")
    if bed.shape in ("tub", "sack"):
        said.append(f"{length_text(bed.depth_m, units)} deep")
    if bed.shape not in ("tunnel", "frame", "shelf"):
        said.append(bed.soil)
    if bed.inside:
        said.append(f"in {beds[bed.inside].name if bed.inside in beds else bed.inside}")
    return ", ".join(said)
