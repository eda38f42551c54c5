"""The beginning: where there is no garden yet, its place and beds; then the weather."""

from __future__ import annotations

import tempfile
from pathlib import Path, PurePath
from typing import Final, Literal

from spadework.faces.web.visit import Answer, Asks, Go, Page, Refused, Visit, Way
from spadework.usecases.keep_garden import add_weather, make_garden
from spadework.usecases.plan_guess import (
    likely_name,
    likely_units,
    likely_words,
    likely_zone,
    rough_place,
)
from spadework.usecases.tell_normals import normals_from_rows, tell_normals

ROWS: Final = ("tmin", "tmax", "rain")

CLIMATES: Final = ("maritime", "continental", "mediterranean", "steppe", "subtropical", "tropical")
"""How days scatter round the means, by the sort of place."""


def begin(visit: Visit) -> Page | Go:
    """Where the garden lies and what beds it has."""
    if (visit.garden / "garden.toml").is_file():
        return Go("/begin/weather")
    place = rough_place()
    lat, lon = (52.0, 0.0) if place is None else (place.lat_deg, place.lon_deg)
    return Page(
        "begin.html",
        {
            "name": likely_name(),
            "place": place,
            "units": likely_units(lat, lon),
        },
    )


def make(visit: Visit) -> Go:
    """Make it; nothing is made where anything is not possible."""
    numbers = {}
    for field, meaning in (("lat", "latitude"), ("lon", "longitude"), ("elevation", "height above the sea")):
        value = visit.number(field)
        if value is None:
            raise Refused(f"The {meaning} is missing.", "A map shows it.", field=field)
        numbers[field] = value
    units: Literal["metric", "us"] = "us" if visit.text("units") == "us" else "metric"
    keepers = [visit.text("keeper")] if visit.text("keeper") else []
    lines = [line for line in visit.form.get("beds", "").splitlines() if line.strip()]
    made = make_garden(
        visit.garden,
        visit.text("name") or "Garden",
        numbers["lat"],
        numbers["lon"],
        numbers["elevation"],
        units=units,
        words=likely_words(units),
        zone=likely_zone(numbers["lon"]),
        bed_lines=lines,
        keepers=keepers,
        today=visit.today,
    )
    beds = "1 bed" if made.beds == 1 else f"{made.beds} beds"
    return Go("/begin/weather", f"{made.name} is made, with {beds}. {' '.join(made.took)}".strip())


def ask_weather(visit: Visit) -> Page:  # noqa: ARG001 - the same for every garden
    """What the answers are to rest on."""
    return Page("begin_weather.html", {"climates": CLIMATES})


def take_weather(visit: Visit) -> Answer:
    """A weather file, or twelve monthly means in three rows."""
    file = visit.files.get("file")
    if file is not None:
        with tempfile.TemporaryDirectory() as folder:
            kept = Path(folder) / (PurePath(file.filename or "").name or "weather.csv")
            kept.write_bytes(file.file.read())
            added = add_weather(visit.garden, kept, {})
        return Go(
            "/",
            f"{added.days} days are read, {added.first_day} to {added.last_day}. This is the first round.",
        )
    rows = {name: visit.text(name) or None for name in ROWS}
    if not any(rows.values()):
        raise Refused("There is neither a file nor a row of means.", "Give one of them.", field="file")
    fact = normals_from_rows(rows["tmin"], rows["tmax"], rows["rain"], None, visit.text("climate"))
    told = tell_normals(visit.garden, visit.today, fact, "typed by hand", sure=bool(visit.text("insist")))
    if not told.stored:
        return Asks([], can_insist=True)
    return Go(
        "/",
        "The years are made from these means, not measured; every answer says so. This is the first round.",
    )


WAYS: Final = (
    Way("/begin", begin, without_garden=True),
    Way("/begin/make", make, post=True, least="keeper", without_garden=True),
    Way("/begin/weather", ask_weather),
    Way("/begin/weather/take", take_weather, post=True, least="keeper"),
)
