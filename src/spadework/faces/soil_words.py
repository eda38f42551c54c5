"""What every face says of the warmth of beds: which beds, and what it was learnt from."""

from __future__ import annotations

from typing import Final

from spadework.faces.voice import Voice
from spadework.usecases.show_soil import SoilOfBeds


def names_said(group: SoilOfBeds) -> str:
    """Which beds are alike, in a line: those with numbers in a row together."""
    names = _in_rows([name for _, name in group.beds])
    listed = names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"
    return f"{listed}, as {group.soil.felt} makes it" if group.soil.felt else listed


def _in_rows(names: list[str]) -> list[str]:
    """Names that end in numbers in a row as one: "Lake 1 to 4"."""
    rows: list[tuple[str, list[int]]] = []
    for name in names:
        before, _, last = name.rpartition(" ")
        number = int(last) if before and last.isdecimal() and len(last) < 6 else None
        if number is None:
            rows.append((name, []))
        elif rows and rows[-1][0] == before and rows[-1][1] and rows[-1][1][-1] + 1 == number:
            rows[-1][1].append(number)
        else:
            rows.append((before, [number]))
    return [
        f"{before}{f' {numbers[0]}' if numbers else ''}"
        f"{f'{_TO[len(numbers) > 2]}{numbers[-1]}' if len(numbers) > 1 else ''}"
        for before, numbers in rows
    ]


def learnt_said(group: SoilOfBeds, voice: Voice) -> str:
    """What the warmth of these beds rests on."""
    parts = []
    if group.told:
        parts.append(f"corrected by {_many(group.told, 'reading')} told of this soil")
    if group.told_elsewhere:
        other = _many(group.told_elsewhere, "reading")
        parts.append(f"{'by' if group.told else 'corrected by'} {other} of other beds, which count for less")
    if group.events:
        than = voice.told(f"{abs(group.warmer_c):.1f} degrees")
        how = "warmer" if group.warmer_c > 0 else "colder"
        days = _many(group.events, "day")
        parts.append(f"{than} {how} than the rest, by {days} on which something came up or was ready")
    base = "Worked out from air, sun and ground"
    said = f"{base}, {' and '.join(parts)}."
    if not parts:
        said = f"{base}. No reading of the soil was told, so none corrects it."
    if group.in_book:
        stand = "stands beside it and corrects" if group.in_book == 1 else "stand beside it and correct"
        said += f" {_many(group.in_book, 'reading')} of the book {stand} nothing."
    return said


_TO: Final = (" and ", " to ")


def _many(number: int, what: str) -> str:
    return f"{number} {what}{'' if number == 1 else 's'}"
