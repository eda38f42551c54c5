"""Tell a sheet of a trouble, a weed or a kind of protection."""

from __future__ import annotations

from spadework.faces.cli.say import wrapped
from spadework.usecases.other_sheet_answer import OtherSheet, SheetGroup
from spadework.usecases.read_sheets import ShownValue
from spadework.usecases.receipt_words import CLASSES


def tell_other(found: OtherSheet) -> None:
    """One sheet, its receipts at the end."""
    latin = f" ({found.latin})" if found.latin else ""
    also = f" Also: {', '.join(found.names)}." if found.names else ""
    print(wrapped(f"{found.name[:1].upper()}{found.name[1:]}{latin}. {found.about.text}{also}"))
    if found.hosts:
        few = f" Seldom: {', '.join(found.poor_hosts)}." if found.poor_hosts else ""
        print(wrapped(f"On: {', '.join(found.hosts)}.{few}"))
    for caution in found.cautions:
        print(wrapped(caution.text, 2, "! "))
    if found.signs:
        print("\nSigns, and on how many of ten ailing plants they are found")
        for sign in found.signs:
            print(wrapped(f"{_in_ten(sign.often)}  {sign.words}", 7, "  "))
    for part in found.parts:
        print(f"\n{part.title}")
        for line in part.lines:
            print(wrapped(line.text, 4, "  · "))
    if found.values:
        print("\nNumbers")
        for value in found.values:
            print(wrapped(_number(value), 4, "  · "))
    said = [found.about, *(line for part in found.parts for line in part.lines), *found.cautions]
    named = [*(s for one in said for s in one.sources), *(s for one in found.values for s in one.sources)]
    if sources := list(dict.fromkeys(named)):
        print("\nSources")
        for source in sources:
            print(wrapped(source, 4, "  · "))


def tell_groups(groups: list[SheetGroup]) -> None:
    """Names of all sheets of what is no crop, by sort."""
    for group in groups:
        print(f"\n{group.title}")
        print(wrapped(", ".join(one.name for one in group.sheets), 2, "  "))


def _in_ten(often: ShownValue) -> str:
    share = float(often.value)
    return f"{round(10 * share):2d}" if share >= 0.1 else "<1"


def _number(value: ShownValue) -> str:
    unit = "" if value.unit in ("1", "-", "") else f" {_UNITS.get(value.unit, value.unit)}"
    between = ""
    if value.low is not None or value.high is not None:
        ends = [f"{end:g}" for end in (value.low, value.high) if end is not None]
        between = f" ({' to '.join(ends)})"
    note = f"; {value.note}" if value.note else ""
    held = CLASSES.get(value.provenance, value.provenance)
    return f"{value.meaning}: {value.value:g}{unit}{between}, {held}{note}"


_UNITS = {"degC": "°C", "degC day": "degree-days", "day": "days", "min": "minutes"}
