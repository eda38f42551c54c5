"""Laws to try by hand: each a sentence with blanks, what it says, its curve, and on whose word it is."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from typing import Final

from markupsafe import Markup

from spadework.errors import ParameterError, UnknownName
from spadework.faces.charts.curve import curve
from spadework.faces.web.law_words import SAID, Said, blank_here, plain
from spadework.faces.web.visit import Page, Visit, Way
from spadework.usecases.law_book import LAWS
from spadework.usecases.law_curve import LawCurve, drawn_over, example_of, law_curve
from spadework.usecases.laws import Law, evaluate, find_law

Row = tuple[str, str]

TABLE_STEP: Final = 4
"""Every so many points of the curve stand in the table behind it."""


def show_laws(visit: Visit) -> Page:  # noqa: ARG001 - the same for every garden
    """All of them."""
    return Page("laws.html", {"laws": list(LAWS.values()), "plain": plain})


def show_law(visit: Visit) -> Page:
    """One, with what was put into its blanks: an example where nothing was."""
    law = find_law(LAWS, visit.names["law"])
    us = visit.voice.us
    here = {blank.name: blank_here(blank, us=us) for blank in law.blanks}
    typed: dict[str, str] = {}
    for blank in law.blanks:
        name = here[blank.name].name
        if text := visit.text(name) or visit.text(blank.name):
            typed[name if visit.text(name) else blank.name] = text
    example = not typed
    metric = example_of(law, visit.site, visit.today) if example else {}
    if example:
        typed = {name: _shown_here(here[name].here, text, us=us) for name, text in metric.items()}
        typed = {here[name].name: text for name, text in typed.items()}
    found, drawn, wrong = None, None, ""
    try:
        found = evaluate(LAWS, law.name, typed)
        metric = {name: f"{value:.6g}" if isinstance(value, float) else str(value)
                  for name, value in found.inputs.items()}  # fmt: skip
        drawn = law_curve(LAWS, law.name, metric, over=visit.text("over"), of=visit.text("of"))
    except (ParameterError, UnknownName) as error:
        wrong = _plainly(error, law, us=us)
    fields = [
        (blank, here[blank.name], typed.get(here[blank.name].name, typed.get(blank.name, "")))
        for blank in law.blanks
    ]
    return Page(
        "law.html",
        {
            "law": law,
            "title": plain(law.name).capitalize(),
            "fields": fields,
            "example": example,
            "found": found,
            "wrong": wrong,
            "results": [] if found is None else _results(found.result, us=us),
            "overs": [(blank.name, _short(here[blank.name].words)) for blank in drawn_over(law)],
            "ofs": [] if found is None else [(key, SAID[key].name) for key in found.result if key in SAID],
            "over": "" if drawn is None else drawn.over,
            "of": "" if drawn is None else drawn.of,
            **_picture(visit, law, drawn),
        },
    )


def _shown_here(change: object, text: str, *, us: bool) -> str:
    try:
        value = float(text)
    except ValueError:
        return text
    return f"{change(value):.4g}" if us and callable(change) else text


def _results(result: Mapping[str, float | str | None], *, us: bool) -> list[Row]:
    rows = []
    for key, value in result.items():
        if value is None or value == "":
            continue
        said = SAID.get(key)
        if said is not None and not isinstance(value, str):
            rows.append((said.name, said.text(float(value), us=us)))
        else:
            rows.append((plain(key), str(value).replace("-", " ")))
    return rows


def _picture(visit: Visit, law: Law, drawn: LawCurve | None) -> dict[str, object]:
    """The curve, and the table behind it."""
    if drawn is None or all(each.result is None for each in drawn.points):
        return {"picture": Markup(""), "rows": [], "heads": ("", "")}
    us, voice = visit.voice.us, visit.voice
    blank = next(each for each in law.blanks if each.name == drawn.over)
    here, said = blank_here(blank, us=us), SAID.get(drawn.of, Said(plain(drawn.of)))

    def x(value: float | date) -> float:
        return float(value.toordinal()) if isinstance(value, date) else here.here(value)

    def x_text(value: float | date) -> str:
        return voice.calendar_day(value) if isinstance(value, date) else f"{here.here(value):.3g}"

    points = [
        (x(each.value), None if each.result is None else said.number(each.result, us=us))
        for each in drawn.points
    ]
    days = [each.value for each in drawn.points if isinstance(each.value, date)]
    ticks = (
        [float(date(days[0].year, month, 1).toordinal()) for month in (1, 3, 5, 7, 9, 11)] if days else None
    )
    at = None
    if drawn.at is not None:
        near = min(points, key=lambda point: abs(point[0] - x(drawn.at)) if drawn.at is not None else 0.0)
        at = (x(drawn.at), near[1])
    name = _short(here.words)
    picture = curve(
        points,
        at=at,
        x_word=lambda value: f"{date.fromordinal(int(value)):%b}" if days else f"{value:g}",
        y_word=lambda value: f"{value:g}",
        title=f"{said.name} over {name}.",
        at_word="" if drawn.at is None else f"{x_text(drawn.at)}",
        x_ticks=ticks,
    )
    rows = [
        (x_text(each.value), "–" if each.result is None else said.text(each.result, us=us))
        for each in drawn.points[::TABLE_STEP]
    ]
    unit = said.unit_here(us=us)
    return {
        "picture": picture,
        "rows": rows,
        "heads": (here.words, f"{said.name}{f', {unit}' if unit else ''}"),
    }


def _short(words: str) -> str:
    return words.partition(":")[0].partition(",")[0]


def _plainly(error: ParameterError | UnknownName, law: Law, *, us: bool) -> str:
    """What is wrong, with the blanks by their words."""
    said = error.message.removeprefix(f"{law.name}: ")
    for blank in law.blanks:
        said = said.replace(f"{blank.name} is ", f"{_short(blank_here(blank, us=us).words)} is ")
    return said[:1].upper() + said[1:]


WAYS: Final = (
    Way("/laws", show_laws),
    Way("/law/{law}", show_law),
)
