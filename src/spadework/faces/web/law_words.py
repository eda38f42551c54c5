"""Words and units of laws on pages: blanks in the garden's own units, results as a grower says them."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Final

from spadework import units
from spadework.usecases.laws import Blank


@dataclass(frozen=True)
class Said:
    """A number of a result: its name, its unit, and how it is brought to American units."""

    name: str
    unit: str = ""
    us_unit: str = ""
    us: Callable[[float], float] | None = None
    places: int = 1

    def number(self, value: float, *, us: bool) -> float:
        """In the garden's own units."""
        return self.us(value) if us and self.us is not None else value

    def unit_here(self, *, us: bool) -> str:
        """The unit as it is written here."""
        return self.us_unit if us and self.us is not None else self.unit

    def text(self, value: float, *, us: bool) -> str:
        """With its unit."""
        shown = f"{self.number(value, us=us):.{self.places}f}".replace("-", "−")
        return f"{shown} {self.unit_here(us=us)}".strip()


def _temp(name: str) -> Said:
    return Said(name, "°C", "°F", units.f_from_c)


def _inches(mm: float) -> float:
    return mm / units.MM_PER_INCH


SAID: Final[Mapping[str, Said]] = {
    "chance": Said("chance, 0 to 1", places=2),
    "chance_bare": Said("chance for bare leaves, 0 to 1", places=2),
    "chance_covered": Said("chance under the cover, 0 to 1", places=2),
    "days": Said("until half of it is up", "days"),
    "days_of_best_warmth_needed": Said("days of best warmth it needs in all", "days", places=0),
    "days_until": Said("days until then", "days", places=0),
    "degree_days_a_day": Said("warmth of one such day", "degree-days", "degree-days", units.fdelta_from_c),
    "degree_days_c": Said("warmth of the day", "degree-days", "degree-days", units.fdelta_from_c),
    "feels_c": _temp("it feels like"),
    "gain": Said("gained by thinning, as a share", places=2),
    "gain_lost_by_waiting": Said("of that lost by waiting, as a share", places=2),
    "geometric_h": Said("day length by geometry", "hours", places=2),
    "gone_mm": Said("water gone", "mm", "in", _inches),
    "held_mm": Said("water the roots can reach", "mm", "in", _inches),
    "highest_chance": Said("highest chance, 0 to 1", places=2),
    "hours": Said("hours until it is too dry", "hours"),
    "in_full_sun_up_to_c": _temp("in full sun up to"),
    "likely_from_h": Said("likely from, hour of the sun's clock", "h"),
    "limits_met": Said("limits met, of four", places=0),
    "likely_until_h": Said("likely until, hour of the sun's clock", "h"),
    "litres": Said("water to fill it again", "litres", "gal", lambda litres: litres / units.L_PER_GALLON),
    "mass_g": Said("mass of a plant", "g", places=0),
    "mass_thinned_g": Said("mass of a plant, thinned", "g", places=0),
    "mass_unthinned_g": Said("mass of a plant, left alone", "g", places=0),
    "may_be_gone_mm": Said("water that may be gone before plants go short", "mm", "in", _inches),
    "mj_m2_day": Said("sunlight above the air", "MJ a square metre"),
    "mm_day": Said("water lost in a day", "mm", "in", _inches, places=2),
    "most_c": _temp("warmest inside"),
    "past_size": Said("past its size, as a share", places=2),
    "percent": Said("normal seedlings of a hundred good seeds", places=0),
    "picking_lost": Said("of the next picking lost, as a share", places=2),
    "plants": Said("plants", places=0),
    "plants_in_grade_m2": Said("plants of the size wanted on a square metre", places=0),
    "rh": Said("humidity", "%", places=0),
    "severity": Said("severity, 0 to 4", places=0),
    "share_in_grade": Said("of them of the size wanted, as a share", places=2),
    "share_of_best_day": Said("beside a day at its best warmth, as a share", places=2),
    "share_that_die": Said("weeds that die, as a share", places=2),
    "solar_mj_m2": Said("sunlight reckoned with", "MJ a square metre"),
    "sound_thinned_per_m": Said("plants big enough in a metre, thinned"),
    "sound_unthinned_per_m": Said("plants big enough in a metre, left alone"),
    "sunrise_to_sunset_h": Said("from sunrise to sunset", "hours", places=2),
    "temp_c": _temp("air temperature"),
    "times_a_day": Said("times a day to water", places=0),
    "total_cday": Said("warmth it takes", "degree-days", "degree-days", units.fdelta_from_c, places=0),
    "total_from_cday": Said("or as little as", "degree-days", "degree-days", units.fdelta_from_c, places=0),
    "total_to_cday": Said("or as much as", "degree-days", "degree-days", units.fdelta_from_c, places=0),
    "usual_gain_c": Said("warmer under the cover by", "degrees", "degrees", units.fdelta_from_c),
    "uv_index": Said("UV index"),
    "wind_2m_m_s": Said("wind at 2 m", "m/s", "mph", lambda wind: wind / units.M_S_PER_MPH),
    "yield_kg_m2": Said("yield of a square metre", "kg", "lb", lambda kg: kg / units.KG_PER_POUND, places=2),
}
"""Every number laws come to. Other results are words."""

_BLANKS: Final = (
    ("_mm", "_in", "mm", "inches", _inches),
    ("_m_s", "_mph", "m/s", "mph", lambda wind: wind / units.M_S_PER_MPH),
    ("_m", "_ft", " m", " ft", lambda metres: metres / units.M_PER_FOOT),
)


@dataclass(frozen=True)
class BlankHere:
    """A blank in the garden's own units: its name in the address, its words, and its value shown here."""

    name: str
    words: str
    here: Callable[[float], float]


def blank_here(blank: Blank, *, us: bool) -> BlankHere:
    """A blank as it is asked here; spreads and differences stay in °C."""
    words = {"day, as year-month-day": "the day", "any name of the crop": "the crop"}.get(
        blank.meaning, blank.meaning
    )
    if us and blank.kind == "number" and not blank.name.endswith("_sd_c"):
        if blank.name.endswith("_c"):
            return BlankHere(f"{blank.name[:-2]}_f", words.replace("°C", "°F"), units.f_from_c)
        for metric, other, unit, unit_here, change in _BLANKS:
            if blank.name.endswith(metric):
                return BlankHere(
                    blank.name.removesuffix(metric) + other, words.replace(unit, unit_here), change
                )
    return BlankHere(blank.name, words, lambda value: value)


def plain(name: str) -> str:
    """Name of a result or a law as words."""
    return name.replace("_", " ").replace("-", " ")
