"""How every face speaks: dates, odds, years and units in the garden's own form."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date

from spadework import units
from spadework.advice.odds import Fact, Odds

_MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
_TEMP = re.compile(r"([-−]?\d+(?:\.\d+)?) °C\b")
_DEGREES = re.compile(r"(\d+(?:\.\d+)?) (degrees?\b(?!-)|degree-days\b)")
_WIND = re.compile(r"(\d+(?:\.\d+)?) m/s\b")
_DEPTH = re.compile(r"(\d+(?:\.\d+)?) cm\b")
_AREA = re.compile(r"(\d+(?:\.\d+)?) m²")
_LENGTH = re.compile(r"(\d+(?:\.\d+)?) m\b(?!/)")
_WEIGHT = re.compile(r"(\d+(?:\.\d+)?) (kg|g)\b")
_WATER = re.compile(r"(\d+(?:\.\d+)?) (?:lit(?:re|er)s?|l)\b")
_A_METRE = re.compile(r"(\d+(?:\.\d+)?) ((?:seeds? |plants? )?(?:a|to a|per)) metre\b")
_RAIN = re.compile(r"(\d+(?:\.\d+)?) mm\b")
_CLOTH = re.compile(r"(\d+(?:[.,]\d+)?) ?g(?:/m²|/m2| per m²)?")
_OUNCES = re.compile(r"(\d*\.?\d+) ?oz(?:[/ ]*(?:sq ?)?yd²?2?)?")
_DAY = re.compile(rf"\b(\d{{1,2}}) ({'|'.join(_MONTHS)})\b(?: (\d{{4}})\b)?")
_ISO_DAY = re.compile(r"\b\d{4}-(?:0[1-9]|1[0-2])-(?:0[1-9]|[12]\d|3[01])\b")
_UNIT_WORDS = {
    "degC": "°C",
    "degC day": "degree-days",
    "degC day/mm": "degree-days a mm",
    "degC day/day": "degree-days a day",
    "day": "days",
    "week": "weeks",
    "year": "years",
    "h": "hours",
    "min": "minutes",
    "l": "litres",
    "m2": "m²",
    "m s-1": "m/s",
    "kg m-2": "kg on a m²",
    "1/g": "in a gram",
    "-": "",
    "1": "",
}
"""Units of facts as a grower says them; others are said as they are."""

_DAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")


@dataclass(frozen=True)
class Voice:
    """Units and words of one garden.

    Parameters
    ----------
    us : bool
        Fahrenheit and inches, month before day.
    today : date
        Dates in another year than today's carry their year.
    """

    us: bool
    today: date

    def day(self, day: date | None, *, weekday: bool = False) -> str:
        """A date as the person writes it; a dash where there is none."""
        if day is None:
            return "–"
        text = self.calendar_day(day)
        if day.year != self.today.year:
            text += f"{',' if self.us else ''} {day.year}"
        return f"{_DAYS[day.weekday()]} {text}" if weekday else text

    def calendar_day(self, day: date | None) -> str:
        """A day of any year."""
        if day is None:
            return "–"
        month = _MONTHS[day.month - 1]
        return f"{month} {day.day}" if self.us else f"{day.day} {month}"

    def temp(self, temp_c: float, places: int = 0) -> str:
        """A temperature with its unit."""
        value = units.f_from_c(temp_c) if self.us else temp_c
        return f"{value:.{places}f} °{'F' if self.us else 'C'}".replace("-0 °", "0 °").replace("-", "−")

    def told(self, text: str) -> str:
        """A sentence of an answer, which is in metric units and day before month, in this garden's own."""
        text = _ISO_DAY.sub(self._own_day, text)
        if not self.us:
            return text
        text = _TEMP.sub(lambda found: self.temp(float(found[1].replace("−", "-"))), text)
        text = _DEGREES.sub(_in_fahrenheit, text)
        text = _WIND.sub(lambda found: f"{float(found[1]) / units.M_S_PER_MPH:.0f} mph", text)
        text = _DEPTH.sub(lambda found: f"{float(found[1]) / 2.54:.2g} in", text)
        text = _RAIN.sub(lambda found: self.rain(float(found[1])), text)
        text = _AREA.sub(lambda found: self.area(float(found[1])), text)
        text = _LENGTH.sub(lambda found: self.length(float(found[1])), text)
        text = _WATER.sub(lambda found: self.water(float(found[1])), text)
        text = _A_METRE.sub(_a_foot, text).replace("of a metre of row", "of a foot of row")
        text = _WEIGHT.sub(
            lambda found: self.weight(float(found[1]) / (1.0 if found[2] == "kg" else 1000.0)), text
        )
        return _DAY.sub(lambda found: f"{found[2]} {found[1]}{f', {found[3]}' if found[3] else ''}", text)

    def _own_day(self, found: re.Match[str]) -> str:
        try:
            return self.day(date.fromisoformat(found[0]))
        except ValueError:
            return found[0]  # no day of any year: as somebody wrote it

    def span(self, low_c: float, high_c: float) -> str:
        """Two temperatures with one unit."""
        low = self.temp(low_c).rpartition(" ")[0]
        return f"{low} to {self.temp(high_c)}"

    def fact(self, fact: Fact) -> str:
        """The value of a fact in this garden's units, its unit in words."""
        value = fact.value
        if value is None or value == "":
            return "not known"
        if fact.unit == "degC" and not isinstance(value, str):
            return self.temp(float(value), 1)
        told = value if isinstance(value, str) else f"{value:g}"
        return self.told(f"{told} {_UNIT_WORDS.get(fact.unit, fact.unit)}".strip())

    def number(self, value: float | str, unit: str = "") -> str:
        """A value of a sheet in this garden's units, its unit in words."""
        if self.us and unit == "kg/m" and not isinstance(value, str):
            return f"{value * units.M_PER_FOOT / units.KG_PER_POUND:.2g} lb/ft"
        return self.fact(Fact(name="", value=value, unit=unit))

    def rain(self, rain_mm: float) -> str:
        """A depth of water with its unit."""
        return f"{rain_mm / units.MM_PER_INCH:.2f} in" if self.us else f"{rain_mm:.0f} mm"

    def length(self, length_m: float) -> str:
        """A length on the ground with its unit; under a foot in inches."""
        if self.us and 0.0 < length_m < units.M_PER_FOOT:
            return self.small(100.0 * length_m)
        return _few(length_m / units.M_PER_FOOT, "ft") if self.us else _few(length_m, "m")

    def small(self, size_cm: float) -> str:
        """A distance between plants, a height or a depth with its unit."""
        return _few(size_cm * 10 / units.MM_PER_INCH, "in") if self.us else _few(size_cm, "cm")

    def area(self, area_m2: float) -> str:
        """An area with its unit."""
        return _few(area_m2 / units.M_PER_FOOT**2, "ft²") if self.us else _few(area_m2, "m²")

    def weight(self, weight_kg: float) -> str:
        """A weight with its unit, the smaller one where it is light."""
        if self.us:
            pounds = weight_kg / units.KG_PER_POUND
            return _few(pounds, "lb") if pounds >= 1 else _few(pounds * 16, "oz")
        return _few(weight_kg, "kg") if weight_kg >= 1 or weight_kg == 0 else _few(weight_kg * 1000, "g")

    def grade(self, grade: str) -> str:
        """A grade of kit as it is told; the weight of a cloth by the square metre, or the square yard."""
        found = _CLOTH.fullmatch(grade.strip())
        if found is None:
            return self.told(grade)
        grams_m2 = float(found[1].replace(",", "."))
        if not self.us:
            return f"{found[1]} g/m²"
        ounces = grams_m2 / (1000.0 * units.KG_PER_POUND / 16.0) * (3.0 * units.M_PER_FOOT) ** 2
        return f"{ounces:.2g} oz/yd²"

    def grade_kept(self, typed: str) -> str:
        """A grade as it is kept: ounces to the square yard in g/m²; others as they were typed."""
        found = _OUNCES.fullmatch(typed.strip())
        if found is None:
            return typed
        yard_m2 = (3.0 * units.M_PER_FOOT) ** 2
        return f"{float(found[1]) * 1000.0 * units.KG_PER_POUND / 16.0 / yard_m2:.3g} g/m²"

    def water(self, water_l: float) -> str:
        """An amount of water with its unit."""
        if self.us:
            return _few(water_l / units.L_PER_GALLON, "gal")
        return "1 litre" if water_l == 1 else _few(water_l, "litres")


def _few(value: float, unit: str) -> str:
    """A number to three digits with its unit."""
    text = f"{value:.0f}" if abs(value) >= 100 else f"{value:.3g}"
    return f"{text} {unit}"


def _in_fahrenheit(found: re.Match[str]) -> str:
    """A difference of temperatures in Fahrenheit degrees with as many decimals; a sum in whole ones."""
    places = 0 if found[2].startswith("degree-") else len(found[1].partition(".")[2])
    return f"{units.fdelta_from_c(float(found[1])):.{places}f} {found[2]}"


def _a_foot(found: re.Match[str]) -> str:
    """So many to a foot for so many to a metre."""
    return f"{float(found[1]) * units.M_PER_FOOT:.2g} {found[2]} foot"


def in_years(odds: Odds) -> str:
    """Odds as a phrase."""
    if odds.years_yes <= 0:
        return f"in none of {odds.years} years"
    if odds.years_yes >= odds.years:
        return f"in all {odds.years} years"
    return f"in {odds.years_yes} of {odds.years} years"
