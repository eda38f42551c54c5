"""How the command line sets text: lines of the usual width, tables, one dot a year."""

from __future__ import annotations

from collections.abc import Iterable

from spadework.advice.odds import Odds

WIDTH = 78
SCREEN = 80


def dots(odds: Odds) -> str:
    """One dot a year, filled where it works out."""
    return "●" * odds.years_yes + "○" * (odds.years - odds.years_yes)


def wrapped(text: str, indent: int = 0, first: str = "") -> str:
    """Text in lines of the usual width."""
    from textwrap import fill

    pad = " " * indent
    return fill(text, WIDTH, initial_indent=first or pad, subsequent_indent=pad)


def table(head: list[str], rows: Iterable[list[str]], right: frozenset[int] = frozenset()) -> str:
    """Columns set by their widest cell, two spaces apart; one where the screen asks for it."""
    body = [head, *rows]
    widths = [max(len(row[column]) for row in body) for column in range(len(head))]

    gap = "  " if 2 + sum(widths) + 2 * (len(widths) - 1) <= SCREEN else " "

    def line(row: list[str]) -> str:
        cells = [
            cell.rjust(width) if column in right else cell.ljust(width)
            for column, (cell, width) in enumerate(zip(row, widths, strict=True))
        ]
        return "  " + gap.join(cells).rstrip()

    return "\n".join(line(row) for row in body)
