"""The beginning's weather: a file, years fetched on a button, five numbers by heart, or twelve means."""

from __future__ import annotations

from datetime import UTC, datetime
from pathlib import PurePath
from typing import Final

from spadework import units
from spadework.errors import InputFileError
from spadework.faces.web.pages.begin_steps import with_steps
from spadework.faces.web.visit import Answer, Asks, Go, Page, Refused, Visit, Way
from spadework.usecases.begin_garden import rests_on
from spadework.usecases.fetch_weather import fetch_weather, who_is_asked
from spadework.usecases.keep_book import Asked
from spadework.usecases.keep_garden import add_weather_content
from spadework.usecases.rough_normals import ROUGH, rough_normals
from spadework.usecases.tell_normals import normals_from_rows, tell_normals

ROWS: Final = ("tmin", "tmax", "rain")

CLIMATES: Final = ("maritime", "continental", "mediterranean", "steppe", "subtropical", "tropical")
"""How days scatter round the means, by the sort of place."""


def ask_weather(visit: Visit) -> Page:
    """What the answers are to rest on."""
    asked = who_is_asked(visit.garden)
    site = visit.site
    return Page(
        "begin_weather.html",
        with_steps(
            visit,
            climates=CLIMATES,
            asked=asked,
            rests=rests_on(visit.garden, visit.today),
            winter="July" if site.south else "January",
            summer="January" if site.south else "July",
            us=visit.voice.us,
        ),
    )


def take_weather(visit: Visit) -> Answer:
    """A weather file, or twelve monthly means in three rows."""
    file = visit.files.get("file")
    if file is not None:
        name = PurePath(file.filename or "").name[-100:] or "weather.csv"
        try:
            added = add_weather_content(visit.garden, file.file.read(), name, {})
        except InputFileError as error:
            first = "; ".join(map(str, error.faults[:3]))
            raise Refused(f"{name} is not understood.", first, field="file") from None
        days = f"{visit.voice.day(added.first_day)} to {visit.voice.day(added.last_day)}"
        return Go("/begin/growing", f"{added.days} days are read, {days}.")
    rows = {name: _with_unit(visit, name) for name in ROWS}
    if not any(rows.values()):
        field = "tmin" if "tmin" in visit.form else "file"
        raise Refused("There is no file yet, and no row of means.", "Give one of them.", field=field)
    for name, what in (("tmin", "nights"), ("tmax", "days"), ("rain", "rain")):
        if not rows[name]:
            raise Refused(f"The row of {what} is missing.", "Give twelve, January to December.", field=name)
    fact = normals_from_rows(rows["tmin"], rows["tmax"], rows["rain"], None, visit.text("climate"))
    told = tell_normals(visit.garden, visit.today, fact, "typed by hand", sure=bool(visit.text("insist")))
    return _told(told.doubts, stored=told.stored, what="these means")


def take_by_heart(visit: Visit) -> Answer:
    """Years from the coldest and the warmest month as a grower knows them."""
    us = visit.voice.us

    def degrees(field: str) -> float:
        value = _wanted(visit, field)
        return units.c_from_f(value) if us else value

    rain = _wanted(visit, "month_rain")
    fact = rough_normals(
        degrees("winter_night"),
        degrees("winter_day"),
        degrees("summer_night"),
        degrees("summer_day"),
        rain * units.MM_PER_INCH if us else rain,
        south=visit.site.south,
    )
    told = tell_normals(visit.garden, visit.today, fact, ROUGH, sure=bool(visit.text("insist")))
    return _told(told.doubts, stored=told.stored, what="five rough numbers")


def _wanted(visit: Visit, field: str) -> float:
    value = visit.number(field)
    if value is None:
        raise Refused("A number is missing.", "About is good enough.", field=field)
    return value


def fetch(visit: Visit) -> Answer:
    """Thirty past years from a service, because somebody pressed the button."""
    found = fetch_weather(visit.garden, visit.today, datetime.now(UTC), forecast=False, archive=True)
    days = 0 if found.archive is None else found.archive.added_days
    return Go("/begin/growing", f"{days} past days are kept. {found.credit} {' '.join(found.notes)}".strip())


def _with_unit(visit: Visit, name: str) -> str | None:
    """A row as typed; in a garden of °F and inches a row without a unit is in those."""
    text = visit.text(name)
    if not text:
        return None
    bare = not any(letter.isalpha() for letter in text)
    return f"{text} {'in' if name == 'rain' else 'F'}" if visit.voice.us and bare else text


def _told(doubts: list[str], *, stored: bool, what: str) -> Answer:
    if not stored:
        why = "The garden’s own record says something else."
        asked = [
            Asked(act=1, about="number", found=each, why=why, nearest=(), may_insist=True) for each in doubts
        ]
        return Asks(asked, can_insist=True)
    return Go("/begin/growing", f"The years are made from {what}, not measured; every answer says so.")


WAYS: Final = (
    Way("/begin/weather", ask_weather, least="keeper"),
    Way("/begin/weather/take", take_weather, post=True, least="keeper"),
    Way("/begin/weather/heart", take_by_heart, post=True, least="keeper"),
    Way("/begin/weather/fetch", fetch, post=True, least="keeper"),
)
