"""Which column of a home station's table is which, and in what unit."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from spadework.errors import Fault


def _words(text: str) -> frozenset[str]:
    return frozenset(text.split())


_DATE = _words("date day datum fecha dato giorno dia tag jour timestamp datetime")
_TIME = _words("time hour heure uhrzeit hora ora tijd zeit hr hh")
_LOW = _words("min minimum mini minima low lowest lo tmin tn tmn mn")
_HIGH = _words("max maximum maxi maxima high highest hi tmax tx tmx mx")
_TEMP = _words("temp temperature temperatur temperatura outdoor outside air tavg tmean tm t")
_RAIN = _words(
    "rain rainfall precip precipitation precipitations prcp ppt pcp raingauge pluie regen niederschlag lluvia"
    " precipitacion pioggia neerslag nedbor"
)
_WIND = _words("wind windspeed vent viento vento wspd awnd")
_HUMID = _words("humidity hum rh humidite feuchte luftfeuchte humedad relative hr")
_DEW = _words("dew dewpoint dewpt tdew taupunkt")
_SOLAR = _words("solar radiation srad insolation globalstrahlung rs")
_ELSEWHERE = _words(
    "indoor inside in indoors soil ground grass water pool greenhouse tunnel concrete pressure baro barometer"
    " uv et eto et0 evapotranspiration lightning battery chill feels feel heat index apparent wetbulb"
    " bulb humidex thw thsw dd gust direction dir bearing run rate intensity hourly weekly monthly yearly"
    " month week year event storm chance probability normal record departure snow"
)
"""A heading with one of these names something other than the day's air temperature, rain, wind or
humidity."""
_ONE_WORD_TEMP = re.compile(
    r"(t|temp|air)?(min|max|low|high)(t|temp|temperature|imum|imumtemperature)?([cf])?"
)
_ONE_WORD_RAIN = re.compile(r"(daily)?(rain|precip)(mm|in)?")
_RUNNING = _words("today daily since midnight accum accumulated cumulative")

_UNITS: Final = {
    "c": {"c", "°c", "degc", "celsius", "ºc", "degreesc", "deg c"},
    "f": {"f", "°f", "degf", "fahrenheit", "ºf", "degreesf", "deg f"},
    "mm": {"mm", "millimetres", "millimeters", "l/m2", "l/m²"},
    "cm": {"cm"},
    "in": {"in", "inch", "inches", '"', "ins"},
    "m/s": {"m/s", "ms-1", "m s-1", "mps"},
    "km/h": {"km/h", "kmh", "kph", "kmph"},
    "mph": {"mph", "mi/h"},
    "kn": {"kn", "knots", "kt", "kts"},
    "%": {"%", "pct", "percent"},
    "mj": {"mj/m2", "mj/m²", "mj", "mj m-2", "mj/m2/d"},
    "w": {"w/m2", "w/m²", "w m-2", "wm2"},
}
_WORD_UNITS = {word: unit for unit, words in _UNITS.items() for word in words}

FITTING: Final[Mapping[str, tuple[str, ...]]] = {
    "tmin": ("c", "f"),
    "tmax": ("c", "f"),
    "temp": ("c", "f"),
    "dew": ("c", "f"),
    "rain": ("mm", "cm", "in"),
    "wind": ("m/s", "km/h", "mph", "kn"),
    "humidity": ("%",),
    "solar": ("mj", "w"),
}
"""Units each quantity can be told in."""


@dataclass(frozen=True)
class Column:
    """A recognised column: its place in the row, its name as printed, its unit when the heading tells."""

    place: int
    title: str
    unit: str | None = None
    running: bool = False
    """True for rain that counts up through the day and starts again at midnight."""


@dataclass(frozen=True)
class Heading:
    """Quantity to column, as far as the heading row tells; and which quantities two columns claim."""

    columns: Mapping[str, Column]
    doubtful: Mapping[str, tuple[str, ...]]

    @property
    def usable(self) -> bool:
        """Has it dates and any temperature or rain?"""
        dated = "date" in self.columns or {"year", "month", "day"} <= set(self.columns)
        return dated and bool(set(self.columns) & {"tmin", "tmax", "temp", "rain"})


def split_title(title: str) -> tuple[list[str], str | None]:
    """Words of a heading in small letters without accents, and the unit if one is in it.

    >>> split_title("Max Temp (°F)")
    (['max', 'temp'], 'f')
    >>> split_title("rain_mm")
    (['rain'], 'mm')
    """
    text = title.strip().lower().replace("º", "°")
    unit = None
    for inside in re.findall(r"[\(\[\{]([^\)\]\}]*)[\)\]\}]", text):
        unit = unit or _WORD_UNITS.get(inside.strip())
    text = re.sub(r"[\(\[\{][^\)\]\}]*[\)\]\}]", " ", text)
    plain = "".join(c for c in unicodedata.normalize("NFKD", text) if not unicodedata.combining(c))
    plain = re.sub(r"(?<=[a-z])(?=°)", " ", plain).replace("m_s", "m/s")
    # m/s and the like are one unit, other signs only part words.
    marks = re.findall(r"m/s|km/h|mi/h|w/m2|mj/m2(?:/d)?|l/m2|°\s?[cf]|[a-z0-9]+|%|\"", plain)
    words: list[str] = []
    for mark in marks:
        found = _WORD_UNITS.get(mark.replace(" ", ""))
        if found and not (mark in {"c", "f", "in", "w"} and not words):
            unit = unit or found
        else:
            words.append(mark)
    return words, unit


def _quantity(title: str) -> tuple[str | None, str | None, bool]:
    """What a heading names: quantity, unit, and whether it is a running total."""
    words, unit = split_title(title)
    if len(words) == 1 and words[0] in ("year", "yyyy", "month"):
        return words[0].replace("yyyy", "year"), None, False
    seen = set(words)
    for word in words:  # tmin, maxtemp, tempmaxf, dailyrainin: written as one word
        parts = _ONE_WORD_TEMP.fullmatch(word)
        if parts:
            seen |= {parts[2], "temp"}
            unit = unit or parts[4]
        parts = _ONE_WORD_RAIN.fullmatch(word)
        if parts:
            seen |= {"rain", parts[1] or ""}
            unit = unit or parts[3]
    if seen & _ELSEWHERE:
        return None, None, False
    if seen & (_LOW | _HIGH):
        if seen & (_TIME | _DATE | _DEW | _HUMID | _WIND | _SOLAR | _RAIN) or (seen & _LOW and seen & _HIGH):
            return None, None, False
        return "tmin" if seen & _LOW else "tmax", unit, False
    if seen & _RAIN:
        return "rain", unit, bool(seen & _RUNNING)
    if seen & _DATE:
        return "date", None, False
    if seen & _TIME and len(words) == 1:
        return "time", None, False
    for quantity, names in (("dew", _DEW), ("humidity", _HUMID), ("wind", _WIND), ("solar", _SOLAR)):
        if seen & names:
            return quantity, unit, False
    if seen & _TIME:
        return "time", None, False
    return ("temp", unit, False) if seen & _TEMP else (None, None, False)


def read_heading(cells: list[str]) -> Heading:
    """Find the columns of a heading row by their words."""
    columns: dict[str, Column] = {}
    claims: dict[str, list[str]] = {}
    for place, title in enumerate(cells):
        quantity, unit, running = _quantity(title)
        if quantity is None:
            continue
        claims.setdefault(quantity, []).append(title.strip())
        columns.setdefault(quantity, Column(place, title.strip(), unit, running))
    day = next((p for p, title in enumerate(cells) if title.strip().lower() == "day"), None)
    if day is not None and {"year", "month"} <= set(columns):
        columns["day"] = Column(day, cells[day].strip())
        if "date" in columns and columns["date"].place == day:
            del columns["date"]
            claims.pop("date", None)
    if "time" in columns and "date" not in columns and "day" not in columns:
        columns["date"] = columns.pop("time")
    doubtful = {
        quantity: tuple(titles)
        for quantity, titles in claims.items()
        if len(titles) > 1 and quantity in {"tmin", "tmax", "rain", "date"}
    }
    return Heading(columns, doubtful)


def choose(
    heading: Heading, cells: list[str], wanted: Mapping[str, str | None]
) -> tuple[Heading, list[Fault]]:
    """Put the columns a person named in place of those found; a name that is no column is a fault."""
    columns, doubtful = dict(heading.columns), dict(heading.doubtful)
    faults = []
    titles = [cell.strip() for cell in cells]
    low = [title.lower() for title in titles]
    for quantity, title in wanted.items():
        if title is None:
            continue
        if title.strip().lower() not in low:
            shown = "one of " + ", ".join(repr(t) for t in titles if t)
            faults.append(
                Fault("heading", f"no column {title!r} for the {quantity}", shown, "Name one of these.")
            )
            continue
        place = low.index(title.strip().lower())
        columns = {key: column for key, column in columns.items() if column.place != place}
        unit, running = split_title(titles[place])[1], _quantity(titles[place])[2]
        columns[quantity] = Column(place, titles[place], unit, running)
        doubtful.pop(quantity, None)
    return Heading(columns, doubtful), faults
