"""Sheets: what is known of each crop, every value with its receipt; own numbers set and taken off."""

from __future__ import annotations

from collections.abc import Callable
from typing import Final

from spadework import units
from spadework.errors import UnknownName
from spadework.faces.charts.sign_drawings import sign_file
from spadework.faces.web.sheet_groups import FIRST, grouped, scales
from spadework.faces.web.visit import Answer, File, Go, Page, Refused, Visit, Way
from spadework.usecases.keep_number import drop_number, own_reasons, set_number
from spadework.usecases.learn import list_learned
from spadework.usecases.other_sheet_answer import OtherSheet
from spadework.usecases.other_sheets import any_sheet, list_others
from spadework.usecases.read_sheets import ShownValue, list_sheets, read_sheet
from spadework.usecases.receipt_words import CLASSES

FROM_US: Final[dict[str, tuple[str, Callable[[float], float], Callable[[float], float]]]] = {
    "degC": ("°F", units.c_from_f, units.f_from_c),
    "degC day": ("degree-days", lambda value: value / 1.8, units.fdelta_from_c),
    "cm": ("in", lambda value: value * 2.54, lambda value: value / 2.54),
    "mm": ("in", lambda value: value * units.MM_PER_INCH, lambda value: value / units.MM_PER_INCH),
}
"""Units asked for otherwise in American gardens: the unit, into the sheet's, and out of it."""

SORTS: Final = {
    "insect": "Insects, slugs, mites",
    "disease": "Disease",
    "disorder": "Weather, soil and feeding",
    "animal": "Birds and mammals",
    "weed": "Weed",
    "protection": "Cover, net or fence",
}

UNITS: Final = {"degC": "°C", "degC day": "degree-days", "d": "days", "-": "", "1": ""}


def show_sheets(visit: Visit) -> Page:
    """All sheets, or those whose names hold what was typed."""
    american = visit.site.words == "american"
    named = sorted(
        ((each.american if american else each.british, each) for each in list_sheets()),
        key=lambda each: each[0].casefold(),
    )
    said = visit.text("find").casefold()
    named = [(name, each) for name, each in named if said in f"{name} {each.british} {each.key}".casefold()]
    groups = [
        (
            group.title,
            [each for each in group.sheets if said in " ".join((each.name, *each.names)).casefold()],
        )
        for group in list_others()
    ]
    return Page("sheets.html", {"sheets": named, "groups": groups, "find": visit.text("find")})


def show_sheet(visit: Visit) -> Page:
    """One sheet: of a crop with its own numbers, or of a trouble, a weed or a cover."""
    sheet = any_sheet(visit.names["crop"], visit.garden, visit.today)
    if isinstance(sheet, OtherSheet):
        return Page("other_sheet.html", {"sheet": sheet, "classes": CLASSES, "sort": SORTS[sheet.sort]})
    own = [each.field for each in sheet.values if each.sheet_value is not None]
    chosen = next((each for each in sheet.values if each.field == visit.text("own")), None)
    learned = [
        each
        for each in list_learned(visit.garden, visit.today).crops
        if each.crop in (sheet.key, sheet.name, sheet.british, sheet.american)
    ]
    return Page(
        "sheet.html",
        {
            "sheet": sheet,
            "groups": grouped(sheet.values),
            "scales": scales,
            "first_words": FIRST,
            "first": [each for name in FIRST for each in sheet.values if each.field == name],
            "classes": CLASSES,
            "reasons": own_reasons(visit.garden, sheet.key, own),
            "chosen": chosen,
            "typed_unit": "" if chosen is None else _unit(visit, chosen),
            "typed_value": "" if chosen is None else _here(visit, chosen),
            "learned": learned,
        },
    )


def set_own(visit: Visit) -> Answer:
    """An own number, with its reason."""
    crop, field = visit.names["crop"], visit.text("field")
    value = visit.number("value")
    if value is None:
        raise Refused("Which number?", "Write it in figures.", field="value")
    why = visit.text("why")
    if not why:
        raise Refused(
            "Why this number?", "Your packet, your book, your soil: say where it is from.", field="why"
        )
    unit = _value_of(visit, crop, field).unit
    if visit.voice.us and unit in FROM_US:
        value = FROM_US[unit][1](value)
    kept = set_number(visit.garden, visit.today, crop, field, round(value, 6), why)
    return Go(f"/sheet/{kept.crop}", f"Your own number holds from now on: {kept.meaning}.")


def drop_own(visit: Visit) -> Answer:
    """The sheet's number again."""
    kept = drop_number(visit.garden, visit.today, visit.names["crop"], visit.text("field"))
    return Go(f"/sheet/{kept.crop}", f"The sheet's number holds again: {kept.meaning}.")


def draw_sign(visit: Visit) -> Answer:
    """One drawing of a sign as a file a browser may keep: pages with many of them stay light."""
    drawn = sign_file(visit.names["name"])
    if not drawn:
        raise UnknownName(f"No sign is drawn as {visit.names['name']!r}.", "See the sheets for all of them.")
    return File(drawn, "image/svg+xml", keep=True)


def _value_of(visit: Visit, crop: str, field: str) -> ShownValue:
    sheet = read_sheet(crop, visit.garden, visit.today)
    found = next((each for each in sheet.values if each.field == field), None)
    if found is None or isinstance(found.value, str):
        raise Refused("There is no such number.", "Choose one of the table's.", field="field")
    return found


def _unit(visit: Visit, value: ShownValue) -> str:
    if visit.voice.us and value.unit in FROM_US:
        return FROM_US[value.unit][0]
    return UNITS.get(value.unit, value.unit)


def _here(visit: Visit, value: ShownValue) -> str:
    if isinstance(value.value, str):
        return value.value
    here = FROM_US[value.unit][2](value.value) if visit.voice.us and value.unit in FROM_US else value.value
    return f"{here:.4g}"


WAYS: Final = (
    Way("/sheets", show_sheets),
    Way("/sheet/{crop}", show_sheet),
    Way("/sign/{name}", draw_sign),
    Way("/sheet/{crop}/own", set_own, post=True, least="keeper"),
    Way("/sheet/{crop}/as-printed", drop_own, post=True, least="keeper"),
)
