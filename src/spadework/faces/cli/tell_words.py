"""What is told as a person writes it: a forecast day in a line, amounts with units, odds with a date."""

from __future__ import annotations

import re
from datetime import date

from spadework import units
from spadework.errors import ParameterError
from spadework.faces.cli.common import read_date, read_odds, read_temp
from spadework.garden.told import ForecastDay

_NUMBER = r"[-+−]?\d+(?:[.,]\d+)?"
_TEMP = rf"{_NUMBER}\s*°?\s*[cCfF]?"
_PARTS = re.compile(
    rf"""\s*(?:
    (?P<high>{_TEMP})\s*/\s*(?P<low>{_TEMP})(?![\w.])
    | mean\s+(?P<mean>{_TEMP})(?![\w.])
    | (?P<dry>dry)\b
    | rain(?:\s+(?P<odds_first>{_NUMBER}\s*%|\d+\s*in\s*\d+(?![\w.])))?
      (?:\s+(?P<rain>{_NUMBER}\s*(?:mm|cm|in)?)(?![\w.%/]|\s*%|\s*in\s*\d))?
      (?:\s+(?P<odds>{_NUMBER}\s*%|\d+\s*in\s*\d+(?![\w.])))?
    | wind\s+(?P<wind>{_NUMBER}\s*(?:m/s|mph|km/h|kmh)?)(?![\w./])
    | cloud\s+(?P<cloud>{_NUMBER}\s*%?)(?![\w.])
    | dew\s+(?:point\s+)?(?P<dew>{_TEMP})(?![\w.])
    )""",
    re.VERBOSE | re.IGNORECASE,
)

EXAMPLE = "2026-05-21 18/6 rain 4 70% wind 5 cloud 80% dew 3"


def read_forecast(line: str, near: date) -> ForecastDay:
    """One forecast day from a line: the date, then high/low or mean, rain, wind, cloud, dew.

    Raises
    ------
    ParameterError
    """
    day, rest = _date_first(line, near)
    found: dict[str, str] = {}
    at = 0
    while rest[at:].strip(" ,;"):
        at += len(rest[at:]) - len(rest[at:].lstrip(" ,;"))
        part = _PARTS.match(rest, at)
        if part is None or part.end() == at:
            raise ParameterError(
                f"{rest[at:].strip()!r} in {line!r} is not part of a forecast.", f"Write it as: {EXAMPLE}"
            )
        for name, text in part.groupdict().items():
            if text is not None:
                if name in found:
                    raise ParameterError(f"{line!r} says {name} twice.", f"Write it as: {EXAMPLE}")
                found[name] = text
        if part[0].strip().lower() == "rain":
            raise ParameterError(f"{line!r} says rain without an amount or odds.", f"Write it as: {EXAMPLE}")
        at = part.end()
    odds = found.get("odds", found.get("odds_first"))
    high, low = found.get("high"), found.get("low")
    if high is not None and low is not None and low[-1:].lower() in ("c", "f") and high[-1:].isdigit():
        high += low[-1]  # 64/43F
    return ForecastDay(
        day=day,
        high_c=None if high is None else read_temp(high, "High"),
        low_c=None if low is None else read_temp(low, "Low"),
        mean_c=None if "mean" not in found else read_temp(found["mean"], "Mean"),
        rain_mm=0.0 if "dry" in found else (read_rain(found["rain"], "Rain") if "rain" in found else None),
        rain_odds=None if odds is None else read_share(odds, "The odds of rain"),
        wind_m_s=None if "wind" not in found else read_wind(found["wind"], "Wind"),
        cloud_share=None if "cloud" not in found else read_share(found["cloud"], "Cloud"),
        dew_c=None if "dew" not in found else read_temp(found["dew"], "Dew point"),
    )


def _date_first(line: str, near: date) -> tuple[date, str]:
    words = line.split()
    for count in (3, 2, 1):
        text = " ".join(words[:count])
        if len(words) >= count and not (count == 3 and not re.fullmatch(r"\d{4},?", words[2])):
            try:
                return read_date(text, "The day", near), " ".join(words[count:])
            except ParameterError:
                continue
    raise ParameterError(f"{line!r} does not begin with a date.", f"Write it as: {EXAMPLE}")


def read_difference(text: str, name: str) -> float:
    """A difference of temperatures, in Celsius degrees, or Fahrenheit ones with an F behind.

    Raises
    ------
    ParameterError
    """
    value, unit = _amount(text, name, ("c", "f", "°c", "°f"), "Write it as -2.5, -2.5C or -4F.")
    return units.cdelta_from_f(value) if unit.endswith("f") else value


def read_rain(text: str, name: str) -> float:
    """A depth of water in mm, or in inches with "in" behind."""
    value, unit = _amount(text, name, ("mm", "cm", "in"), "Write it as 4, 4mm or 0.2in.")
    return value * {"in": units.MM_PER_INCH, "cm": 10.0}.get(unit, 1.0)


def read_wind(text: str, name: str) -> float:
    """A wind in m/s, or with km/h or mph behind."""
    value, unit = _amount(text, name, ("m/s", "mph", "km/h", "kmh"), "Write it as 5, 12mph or 20km/h.")
    return value * {"mph": units.M_S_PER_MPH, "km/h": units.M_S_PER_KMH, "kmh": units.M_S_PER_KMH}.get(
        unit, 1.0
    )


def read_depth(text: str, name: str) -> float:
    """A depth in the soil in cm, or in inches with "in" behind."""
    value, unit = _amount(text, name, ("cm", "mm", "in"), "Write it as 10, 10cm or 4in.")
    return value * {"in": units.MM_PER_INCH / 10.0, "mm": 0.1}.get(unit, 1.0)


def read_share(text: str, name: str) -> float:
    """A share, 0 to 1, from percent (with or without the sign) or "1in5"."""
    words = text.strip().lower().replace(" ", "")
    if re.fullmatch(r"\d+(?:in|of)\d+", words):
        return read_odds(words, name)[1]
    value, _ = _amount(words, name, ("%",), "Write it in percent, such as 70.")
    if not 0.0 <= value <= 100.0:
        raise ParameterError(f"{name} of {value:g} % is not possible.", "Allowed: 0 to 100 %.")
    return value / 100.0


def read_hour(text: str, name: str) -> float:
    """An hour of the day: 8, 8:30, 8.5, 8am, 2pm.

    Raises
    ------
    ParameterError
    """
    found = re.fullmatch(r"\s*(\d{1,2})(?:[:h](\d{2})|([.,]\d+))?\s*(am|pm|h)?\s*", text.lower())
    if found is None or int(found[2] or 0) > 59:
        raise ParameterError(f"{name} {text!r} is not an hour.", "Write it as 8, 8:30 or 2pm, by the sun.")
    hour = int(found[1]) + int(found[2] or 0) / 60.0 + float((found[3] or "0").replace(",", "."))
    if found[4] in ("am", "pm"):
        hour = hour % 12.0 + (12.0 if found[4] == "pm" else 0.0)
    return hour


def read_dated_odds(text: str, near: date) -> tuple[float, date]:
    """Odds with their day: "1in10=25 May".

    Raises
    ------
    ParameterError
    """
    odds, equals, day = text.partition("=")
    if not equals:
        raise ParameterError(f"--date {text!r} has no odds.", 'Write it as --date "1in10=25 May".')
    return read_odds(odds, "--date")[1], read_date(day, "--date", near)


def _amount(text: str, name: str, known: tuple[str, ...], hint: str) -> tuple[float, str]:
    found = re.fullmatch(rf"\s*({_NUMBER})\s*([a-z/°%]*)\s*", text.lower())
    if found is None or (found[2] and found[2] not in known):
        raise ParameterError(f"{name} {text!r} is not understood.", hint)
    return float(found[1].replace("−", "-").replace(",", ".")), found[2]
