"""The beginning, step by step: the place, the beds, the weather, what grows; each can be gone back to."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from pathlib import PurePath
from typing import Any, Final

import msgspec

from spadework.errors import InputFileError, ParameterError
from spadework.faces.charts import plan_picture
from spadework.faces.web.pages.begin_steps import is_made, with_steps
from spadework.faces.web.visit import Answer, Asks, Go, Page, Refused, Visit, Way
from spadework.garden.coordinates import Axis, read_angle
from spadework.garden.site import Units
from spadework.usecases.begin_garden import BedsHeard, change_site, hear_beds, lay_beds, place_in
from spadework.usecases.change_bed import read_side
from spadework.usecases.keep_book import Asked
from spadework.usecases.keep_garden import add_weather_content, make_garden
from spadework.usecases.plan_guess import (
    ELEVATION_M,
    likely_name,
    likely_units,
    likely_words,
    likely_zone,
    rough_place,
)
from spadework.usecases.say_lines import SaidLines, say_lines
from spadework.usecases.show_beds import list_beds
from spadework.usecases.show_ground import show_ground

HIGHEST_M: Final = 6000.0


class Drawn(msgspec.Struct, frozen=True, kw_only=True):
    """Beds as they are typed: the plan, what is understood, what is not."""

    picture: str
    said: str
    took: list[str]
    wrong: list[str]


class LineHeard(msgspec.Struct, frozen=True, kw_only=True):
    """A line as it would be in the book, what is asked about it, and what is taken for granted."""

    understood: list[str]
    asked: list[str]
    taken: list[str]


class Heard(msgspec.Struct, frozen=True, kw_only=True):
    """Lines as they are typed, each with how it is understood."""

    lines: list[LineHeard]


# -- the place --------------------------------------------------------------------------------------


def begin(visit: Visit) -> Page:
    """Where the garden lies and how it is spoken to."""
    if is_made(visit):
        site = visit.site
        us = site.units == "us"
        values = {
            "name": site.name,
            "lat": f"{site.lat_deg:g}",
            "lon": f"{site.lon_deg:g}",
            "elevation": f"{site.elevation_m / 0.3048:.0f} ft" if us else f"{site.elevation_m:g} m",
            "units": site.units,
            "words": site.words,
        }
        return Page("begin.html", with_steps(visit, values=values, place=None, made=True))
    place = rough_place()
    lat, lon = (52.0, 0.0) if place is None else (place.lat_deg, place.lon_deg)
    likely = likely_units(lat, lon)
    values = {
        "name": "",
        "lat": f"{lat:g}" if place else "",
        "lon": f"{lon:g}" if place else "",
        "elevation": "",
        "units": likely,
        "words": likely_words(likely),
    }
    return Page("begin.html", with_steps(visit, values=values, place=place, made=False, keeper=likely_name()))


def make(visit: Visit) -> Go:
    """Make it, or say its place anew; nothing is kept where anything is not possible."""
    for field, known in (("units", ("", "metric", "us")), ("words", ("", "british", "american"))):
        if visit.text(field) not in known:
            raise Refused("That is none of those to choose from.", "Choose one.", field=field)
    chosen: Units = "us" if visit.text("units") == "us" else "metric"
    words = visit.text("words") if visit.text("words") in ("british", "american") else likely_words(chosen)
    file = visit.files.get("file")
    content = b"" if file is None else file.file.read()
    name = "" if file is None else PurePath(file.filename or "").name[-100:] or "weather.csv"
    said: dict[str, Any] = {"name": visit.text("name") or "Garden", "units": chosen, "words": words}
    said |= _place(visit, chosen, content, name)
    if is_made(visit):
        if abs(said["lon_deg"] - visit.site.lon_deg) > 1.0:
            said["zone"] = likely_zone(said["lon_deg"])
        change_site(visit.garden, said)
        return Go("/begin/beds", "The place is kept.")
    keepers = [visit.text("keeper")] if visit.text("keeper") else []
    made = make_garden(
        visit.garden,
        said["name"],
        said["lat_deg"],
        said["lon_deg"],
        said["elevation_m"],
        units=said["units"],
        words=said["words"],
        zone=likely_zone(said["lon_deg"]),
        keepers=keepers,
        today=visit.today,
    )
    read = ""
    if content:
        added = add_weather_content(visit.garden, content, name, {})
        read = f" {added.days} days of weather are read."
    return Go("/begin/beds", f"{made.name} is made.{read}")


def _place(visit: Visit, chosen: Units, content: bytes, name: str) -> dict[str, float]:
    """Coordinates and height as typed, or those of the weather file's station where nothing is typed."""
    station = None
    typed = visit.text("lat") and visit.text("lon")
    if content and not typed:
        try:
            station = place_in(content, name)
        except InputFileError as error:
            raise Refused(f"{name} is not understood.", str(error.faults[0]), field="file") from None
    found: dict[str, float] = {}
    axes: tuple[tuple[str, str, Axis], ...] = (
        ("lat", "lat_deg", "latitude"),
        ("lon", "lon_deg", "longitude"),
    )
    for field, key, axis in axes:
        told = None if station is None else getattr(station, key)
        text = visit.text(field)
        if text:
            found[key] = _read(field, partial(read_angle, text, axis))
        elif told is not None:
            found[key] = told
        else:
            hint = "A map shows it, or a weather file that says where its station stands."
            raise Refused(f"The {axis} is missing.", hint, field=field)
    told_m = None if station is None else station.elevation_m
    if height := visit.text("elevation"):
        found["elevation_m"] = _read("elevation", partial(read_side, height, chosen, most_m=HIGHEST_M))
    else:
        found["elevation_m"] = ELEVATION_M if told_m is None else told_m
    return found


def _read(field: str, read: Callable[[], float]) -> float:
    try:
        return read()
    except ParameterError as error:
        raise Refused(error.message, error.hint, field=field) from None


# -- the beds ---------------------------------------------------------------------------------------


def ask_beds(visit: Visit) -> Page:
    """Beds in a few lines, drawn."""
    beds = list_beds(visit.garden, visit.today).beds
    there = [bed for bed in beds if bed.gone_on is None]
    lines = visit.text("lines")
    heard = _beds_heard(visit) if lines else None
    ground = show_ground(visit.garden, visit.today) if heard is None or heard.ground is None else heard.ground
    return Page(
        "begin_beds.html",
        with_steps(
            visit, there=len(there), lines=lines, heard=heard, ground=ground if there or lines else None
        ),
    )


def draw_beds(visit: Visit) -> Drawn:
    """The plan of beds as they are typed; nothing is written."""
    heard = _beds_heard(visit)
    picture = "" if heard.ground is None else str(plan_picture(heard.ground, links=False))
    return Drawn(picture=picture, said=_said(heard), took=heard.took, wrong=heard.wrong)


def take_beds(visit: Visit) -> Answer:
    """The beds go into the book."""
    lines = _lines(visit)
    if not lines:
        if any(bed.gone_on is None for bed in list_beds(visit.garden, visit.today).beds):
            return Go("/begin/weather")
        raise Refused("There is no bed yet.", 'Write one line, such as "6 beds 1.2 x 2.4 m".', field="lines")
    try:
        laid = lay_beds(visit.garden, visit.writing, lines, anew=bool(visit.text("anew")))
    except InputFileError as error:
        raise Refused(" ".join(map(str, error.faults)), "", field="lines") from None
    if not laid.written.stored:
        return Asks(laid.written.questions, laid.written.can_insist)
    beds = "1 bed is" if laid.count == 1 else f"{laid.count} beds are"
    return Go("/begin/weather", f"{beds} in the book.")


def _beds_heard(visit: Visit) -> BedsHeard:
    return hear_beds(visit.garden, visit.today, _lines(visit), anew=bool(visit.text("anew")))


def _said(heard: BedsHeard) -> str:
    if not heard.count:
        return ""
    return f"{'1 bed' if heard.count == 1 else f'{heard.count} beds'}: {heard.names}."


def _lines(visit: Visit) -> list[str]:
    return [line for line in visit.text("lines").splitlines() if line.strip()]


# -- what grows -------------------------------------------------------------------------------------


def ask_growing(visit: Visit) -> Page:
    """What grows now, a line each."""
    beds = [bed for bed in list_beds(visit.garden, visit.today).beds if bed.gone_on is None]
    lines = visit.text("lines")
    heard = _heard(visit) if lines else []
    return Page(
        "begin_growing.html",
        with_steps(
            visit,
            beds=beds,
            first=beds[0].name if beds else "bed 1",
            lines=lines,
            heard=heard,
            standing=[(bed.name, bed.standing) for bed in beds if bed.standing],
        ),
    )


def hear_growing(visit: Visit) -> Heard:
    """How each line would be understood; nothing is written."""
    return Heard(lines=_heard(visit))


def take_growing(visit: Visit) -> Answer:
    """All lines go into the book, or none."""
    lines = _lines(visit)
    if not lines:
        return Go("/", "This is the first round.")
    found = say_lines(visit.garden, "\n".join(lines), visit.writing)
    if not found.stored:
        return Asks(_questions(visit, found), found.can_insist)
    said = "1 line is" if len(lines) == 1 else f"{len(lines)} lines are"
    return Go("/", f"{said} in the book. This is the first round.", undo=found.entries[0].key)


def _heard(visit: Visit) -> list[LineHeard]:
    """Each line as it would be in the book, its day before it, in the garden's own units."""
    lines, told = _lines(visit), visit.voice.told
    if not lines:
        return []
    found = say_lines(visit.garden, "\n".join(lines), visit.writing, only_ask=True)
    return [
        LineHeard(
            understood=[f"{visit.voice.day(each.on)}: {told(each.text)}" for each in line.understood],
            asked=[told(f"{each.found} {each.why}".strip()) for each in line.questions],
            taken=[told(text) for text in line.taken],
        )
        for line in found.lines
    ]


def _questions(visit: Visit, found: SaidLines) -> list[Asked]:
    """What is asked of each line, with the line before it."""
    told = visit.voice.told
    return [
        Asked(
            act=0,
            about=each.about,
            found=f"“{line.line}”: {told(each.found)}",
            why=told(each.why),
            nearest=tuple(choice.name for choice in each.choices),
            may_insist=each.may_insist,
        )
        for line in found.lines
        for each in line.questions
    ]


WAYS: Final = (
    Way("/begin", begin, without_garden=True),
    Way("/begin/make", make, post=True, least="keeper", without_garden=True),
    Way("/begin/beds", ask_beds, least="keeper"),
    Way("/begin/drawn", draw_beds, least="keeper"),
    Way("/begin/beds/take", take_beds, post=True, least="keeper"),
    Way("/begin/growing", ask_growing, least="keeper"),
    Way("/begin/heard", hear_growing, least="keeper"),
    Way("/begin/growing/take", take_growing, post=True, least="keeper"),
)
