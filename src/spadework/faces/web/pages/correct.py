"""An entry corrected: each thing it says in a blank of its own, and what was otherwise written anew."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from spadework import units
from spadework.faces.web.page_words import on_page
from spadework.faces.web.visit import Answer, Asks, Go, Page, Visit, Way
from spadework.usecases.correct_entry import Correctable, FieldShown, correct_entry, correctable
from spadework.usecases.show_beds import list_beds

LABELS: Final = {
    "variety": "Variety",
    "rows": "Rows",
    "row_cm": "Between rows",
    "row_length_m": "Length of a row",
    "spacing_cm": "Apart in the row",
    "area_m2": "Ground",
    "seeds": "Seeds",
    "depth_mm": "Depth",
    "lot": "Packet",
    "tray": "Tray",
    "plants": "Plants",
    "bought": "Bought",
    "into": "Into",
    "standing": "Plants counted",
    "of_row_m": "In so much of a row",
    "height_cm": "Height",
    "leaves": "Leaves",
    "width_mm": "Width",
    "removed": "Taken out",
    "left": "Left standing",
    "act": "What was done",
    "depth_cm": "Depth",
    "material": "What with",
    "length_m": "Length",
    "pieces": "Pieces",
    "hour": "At the hour",
    "litres": "Water",
    "minutes": "Minutes",
    "amount": "How much",
    "source": "From",
    "batch": "Batch",
    "state": "State",
    "spray_history": "Sprayed before",
    "product": "Product",
    "label_days": "Days on the label",
    "against": "Against",
    "kg": "Weight",
    "quality": "Quality",
    "last": "The last picking",
    "where": "Where",
    "how": "How",
    "why": "Why",
    "what": "What",
    "sort": "Sort",
    "of_plants": "Of so many plants",
    "gone_by_morning": "Gone by morning",
    "test": "Tested by",
    "reached": "Reached",
    "rain_mm": "Rain",
    "days": "Days in the gauge",
    "place": "Where",
    "min_c": "Lowest",
    "max_c": "Highest",
    "now_c": "It reads",
    "finger": "By the finger",
    "squeeze": "A handful",
    "people": "People",
    "text": "Words",
    "until": "Until",
    "method": "How started",
    "flow_l_min": "Water a minute",
}
"""What a value is called; others are not asked for here."""

_METRIC: Final = {
    "_cm": "cm",
    "_mm": "mm",
    "_m": "m",
    "_m2": "m²",
    "_c": "°C",
    "kg": "kg",
    "litres": "litres",
    "_l_min": "litres",
}
_US: Final = {
    "_cm": ("in", units.MM_PER_INCH / 10.0),
    "_mm": ("in", units.MM_PER_INCH),
    "_m": ("ft", units.M_PER_FOOT),
    "_m2": ("ft²", units.M_PER_FOOT**2),
    "kg": ("lb", units.KG_PER_POUND),
    "litres": ("gal", units.L_PER_GALLON),
    "_l_min": ("gal", units.L_PER_GALLON),
}


@dataclass(frozen=True)
class Blank:
    """One blank of the form."""

    name: str
    label: str
    unit: str
    value: str
    sort: str
    choices: list[str]


def show_correct(visit: Visit) -> Page:
    """The form, filled with what the entry says."""
    found = correctable(visit.garden, visit.today, visit.names["entry"])
    return Page(
        "correct.html",
        {
            "found": found,
            "blanks": _blanks(found, us=visit.voice.us),
            "beds": [(bed.key, bed.name) for bed in list_beds(visit.garden, visit.today).beds],
        },
    )


def correct(visit: Visit) -> Answer:
    """What was otherwise, written anew in the entry's place."""
    key = visit.names["entry"]
    found = correctable(visit.garden, visit.today, key)
    us = visit.voice.us
    changed: dict[str, str | float | bool | None] = {}
    for blank in _blanks(found, us=us):
        if blank.name not in visit.form or (typed := visit.text(blank.name)) == blank.value:
            continue
        if blank.sort in ("number", "whole") and typed:
            changed[blank.name] = _kept(blank.name, visit.number(blank.name) or 0.0, us=us)
        else:
            changed[blank.name] = typed
    bed = visit.text("bed")
    answer = correct_entry(
        visit.garden,
        visit.writing,
        key,
        changed=changed,
        bed=bed if bed != found.entry.bed else "",
        minutes=_minutes(visit, found),
    )
    if not answer.stored:
        return Asks(answer.questions, answer.can_insist)
    words = [*(line.text for line in answer.entries), *(lock.text for lock in answer.locks)]
    said = " ".join(visit.voice.told(on_page(each)) for each in words)
    return Go(visit.text("back", "/book") or "/book", f"Corrected: {said}", undo=answer.entries[-1].key)


def _minutes(visit: Visit, found: Correctable) -> float | None:
    typed = visit.number("took")
    return None if typed == found.minutes else typed


def _blanks(found: Correctable, *, us: bool) -> list[Blank]:
    return [
        Blank(
            name=each.name,
            label=LABELS[each.name],
            unit=_unit(each.name, us=us),
            value=_shown(each, us=us),
            sort=each.sort,
            choices=["yes", "no"] if each.sort == "yes or no" else each.choices,
        )
        for each in found.fields
        if each.name in LABELS
    ]


def _shown(field: FieldShown, *, us: bool) -> str:
    value = field.value
    if value is None:
        return ""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, float | int):
        return f"{_own(field.name, float(value), us=us):.4g}"
    return str(value)


def _ending(name: str) -> str:
    return next((each for each in sorted(_METRIC, key=len, reverse=True) if name.endswith(each)), "")


def _unit(name: str, *, us: bool) -> str:
    ending = _ending(name)
    if us and ending == "_c":
        return "°F"
    return (_US[ending][0] if us and ending in _US else _METRIC.get(ending, "")) if ending else ""


def _own(name: str, kept: float, *, us: bool) -> float:
    ending = _ending(name)
    if not us:
        return kept
    return units.f_from_c(kept) if ending == "_c" else kept / _US.get(ending, ("", 1.0))[1]


def _kept(name: str, own: float, *, us: bool) -> float:
    ending = _ending(name)
    if not us:
        return own
    return units.c_from_f(own) if ending == "_c" else own * _US.get(ending, ("", 1.0))[1]


WAYS: Final = (
    Way("/book/{entry}/correct", show_correct, least="helper"),
    Way("/book/{entry}/corrected", correct, post=True, least="helper"),
)
