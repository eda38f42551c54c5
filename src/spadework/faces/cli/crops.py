"""Read the crop sheets."""

from __future__ import annotations

from typing import Annotated

from cyclopts import Parameter

from spadework.faces.cli.common import Common, answer
from spadework.faces.cli.other_sheet import tell_groups, tell_other
from spadework.faces.cli.say import table, wrapped
from spadework.usecases.keep_number import NumberKept
from spadework.usecases.other_sheet_answer import OtherSheet
from spadework.usecases.other_sheets import any_sheet, list_others
from spadework.usecases.read_sheets import ShownSheet, ShownValue, list_sheets

_MARK = {
    "published": "p",
    "memory": "m",
    "common-practice": "c",
    "measured": "f",
    "computed": "=",
    "grower": "g",
    "": " ",
}

# What the short names of the sections stand for.
_TITLES = {
    "thin": "thinning",
    "earth": "earthing up",
    "use": "worth in the kitchen",
    "guard": "who eats it",
    "next": "next sowing, rotation",
    "start": "raising and setting out",
    "bees": "flowers and bees",
}


def tell_sheet(common: Common, name: str) -> None:
    """One sheet: of a crop, a trouble, a weed or a kind of protection."""
    found = any_sheet(name, common.garden, common.day)
    if isinstance(found, OtherSheet):
        answer(common, found, lambda: tell_other(found))
    else:
        answer(common, found, lambda: _tell(found))


def sheet_set(
    name: str,
    number: str,
    value: Annotated[float, Parameter(allow_leading_hyphen=True)],
    *,
    why: Annotated[str, Parameter(help="Where it comes from: a packet, your book.")],
    common: Common | None = None,
) -> None:
    """Set a number of a crop for this garden, with the reason; every answer goes by it from then on.

    Parameters
    ----------
    name : str
        Any name of the crop.
    number : str
        Which one, in the words of `spadework sheet NAME`: "sowing depth mm", or enough of it.
    value : float
        In the unit the sheet shows it in.
    """
    from spadework.usecases.keep_number import number_called, set_number

    common = common or Common()
    field = number_called(common.garden, common.day, name, number)
    found = set_number(common.garden, common.day, name, field, value, why)
    answer(common, found, lambda: print(wrapped(f"{_said(found)}: {value:g} from now on ({found.why}).")))


def sheet_reset(name: str, number: str, *, common: Common | None = None) -> None:
    """Take an own number off: the sheet's holds again.

    Parameters
    ----------
    name : str
        Any name of the crop.
    number : str
        Which one.
    """
    from spadework.usecases.keep_number import drop_number, number_called

    common = common or Common()
    field = number_called(common.garden, common.day, name, number)
    found = drop_number(common.garden, common.day, name, field)
    answer(common, found, lambda: print(wrapped(f"{_said(found)}: the sheet’s own number holds again.")))


def _said(found: NumberKept) -> str:
    meaning = found.meaning[:1].upper() + found.meaning[1:]
    return f"{meaning}, {found.crop}"


def sheets(*, common: Common | None = None) -> None:
    """All sheets: crops, then insects, diseases, disorders, animals, weeds and covers."""
    common = common or Common()
    found = list_sheets()

    def tell() -> None:
        rows = [
            [
                entry.british,
                entry.american if entry.american != entry.british else "",
                entry.kind,
                entry.season,
                entry.hardiness,
            ]
            for entry in found
        ]
        print(table(["", "American", "grown for", "season", "in frost"], rows))
        tell_groups(list_others())
        print(f"\n{len(found)} crops. One whole: spadework sheet NAME")

    answer(common, found, tell)


def _tell(found: ShownSheet) -> None:
    names = [name for name in dict.fromkeys((found.british, found.american, *found.synonyms)) if name]
    print(
        wrapped(
            f"{found.british.capitalize()}: {found.botanical}, {found.family}. "
            f"Also: {', '.join(names[1:]) or 'no other names'}."
        )
    )
    section = ""
    notes: list[str] = []
    rows: list[list[str]] = []
    for value in found.values:
        head, _, field = value.field.partition(".")
        if head != section:
            if rows:
                print(f"\n{_TITLES.get(section, section)}\n{_block(rows)}")
            section, rows = head, []
        rows.append(_row(field, value))
        if value.note:
            notes.append(f"{value.field}: {value.note}")
    print(f"\n{_TITLES.get(section, section)}\n{_block(rows)}")
    print()
    print(
        wrapped("Classes: p published, m memory, c common practice, f fitted by us, = computed, g set here.")
    )
    sources = list(dict.fromkeys(source for value in found.values for source in value.sources))
    if sources:
        print("\nSources")
        for source in sources:
            print(wrapped(source, 4, "  · "))
    if notes:
        print("\nNotes")
        for note in notes:
            print(wrapped(note, 4, "  · "))
    for caution in found.cautions:
        print(wrapped(caution, 2, "! "))


def _row(field: str, value: ShownValue) -> list[str]:
    shown = f"{value.value:g}" if isinstance(value.value, float) else value.value
    spread = f"{value.low:g} to {value.high:g}" if value.low is not None and value.high is not None else ""
    changed = f"(sheet says {value.sheet_value:g})" if value.sheet_value is not None else ""
    unit = "" if value.unit == "1" else value.unit
    return [field.replace("_", " "), shown, unit, spread, _MARK[value.provenance], changed]


def _block(rows: list[list[str]]) -> str:
    return table(["", "", "", "", "", ""], rows).partition("\n")[2]
