"""Where the garden lies and how its owner wants to be spoken to."""

from __future__ import annotations

import math
from dataclasses import dataclass
from datetime import date, datetime, time
from typing import Final, Literal, get_args
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError, available_timezones

from spadework.errors import ParameterError
from spadework.garden.lookup import nearest

Units = Literal["metric", "us"]
Words = Literal["british", "american"]
Hemisphere = Literal["north", "south"]
Land = Literal["north america", "south america", "europe", "africa", "asia", "oceania"]
SurfaceKind = Literal[
    "grass",
    "bare-dry",
    "bare-moist",
    "mulch",
    "black-film",
    "clear-film",
    "raised-bed",
    "pot-black",
    "pot-light",
]

SURFACE_KINDS: Final[tuple[str, ...]] = get_args(SurfaceKind)
LOWEST_M: Final = -430.0
HIGHEST_M: Final = 6000.0
"""Between the shore of the Dead Sea and the highest gardens. Class: common-practice."""

NAME_LENGTH: Final = 80
NOON: Final = time(12)


@dataclass(frozen=True)
class Site:
    """One garden's place and settings.

    Parameters
    ----------
    name : str
        As its people call it; 1 to 80 printable characters.
    lat_deg : float  [deg]
        North positive, -90 to 90.
    lon_deg : float  [deg]
        East positive, -180 to 180.
    elevation_m : float  [m]
        Above the sea.
    units : {"metric", "us"}
        What numbers are shown in; inside everything is metric.
    words : {"british", "american"}
        Which names of crops and jobs are shown; both are understood.
    surface : str
        The usual surface of the beds, one of `SURFACE_KINDS`.
    zone : str
        The clock its people live by, as the time zone database names it, such as "Europe/Vienna"; empty for
        the standard time of the longitude.

    Raises
    ------
    ParameterError
        If anything is out of range; the message names the value and what is allowed.
    """

    name: str
    lat_deg: float
    lon_deg: float
    elevation_m: float
    units: Units = "metric"
    words: Words = "british"
    surface: SurfaceKind = "bare-moist"
    zone: str = ""

    def __post_init__(self) -> None:
        if not self.name.strip() or len(self.name) > NAME_LENGTH or not self.name.isprintable():
            raise ParameterError(
                f"{self.name!r} cannot be a garden's name.", f"Use 1 to {NAME_LENGTH} letters."
            )
        _within("latitude", self.lat_deg, -90.0, 90.0, "degrees, north positive")
        _within("longitude", self.lon_deg, -180.0, 180.0, "degrees, east positive")
        _within("elevation", self.elevation_m, LOWEST_M, HIGHEST_M, "metres above the sea")
        _one_of("units", self.units, get_args(Units))
        _one_of("words", self.words, get_args(Words))
        _one_of("surface", self.surface, SURFACE_KINDS)
        if self.zone:
            zone_named(self.zone)
        for field in ("lat_deg", "lon_deg", "elevation_m"):
            object.__setattr__(self, field, float(getattr(self, field)))

    def clock_offset_h(self, day: date) -> float:
        """Clock hour less the mean hour by the sun on a day  [h]: summer time and the zone's width."""
        by_sun = self.lon_deg / 15.0
        if not self.zone:
            return round(by_sun) - by_sun
        offset = datetime.combine(day, NOON, zone_named(self.zone)).utcoffset()
        assert offset is not None
        return offset.total_seconds() / 3600.0 - by_sun

    @property
    def hemisphere(self) -> Hemisphere:
        """North from the equator on."""
        return "north" if self.lat_deg >= 0 else "south"

    @property
    def land(self) -> Land:
        """Part of the world, by boxes of latitude and longitude: near a border it may be the neighbour's.

        Our own rule, for what lives on one continent and not on another.
        """
        lat, lon = self.lat_deg, self.lon_deg
        if -170.0 <= lon < -30.0:
            return "north america" if lat >= 12.0 else "south america"
        if lon < -30.0 or (lon >= 110.0 and lat < -10.0):
            return "oceania"
        if lon < 45.0 and lat >= 35.0:
            return "europe" if lon < 27.0 or lat >= 42.0 else "asia"
        return "africa" if lon < 52.0 and (lat < 13.0 or lon < 34.0) else "asia"

    @property
    def south(self) -> bool:
        """True where the year turns round."""
        return self.lat_deg < 0


def zone_named(name: str) -> ZoneInfo:
    """A time zone of the time zone database.

    Raises
    ------
    ParameterError
    """
    try:
        return ZoneInfo(name)
    except (ZoneInfoNotFoundError, ValueError, OSError, TypeError):
        near = nearest(str(name), sorted(available_timezones()))
        raise ParameterError(
            f"{name!r} is no time zone.",
            f"Nearest: {', '.join(near)}." if near else "Write it as Europe/Vienna or America/Toronto.",
        ) from None


def _within(what: str, value: float, low: float, high: float, unit: str) -> None:
    number = isinstance(value, (int, float)) and not isinstance(value, bool)
    if not number or not math.isfinite(value) or not low <= value <= high:
        raise ParameterError(
            f"The {what} {value!r} is not possible.", f"Allowed: {low:g} to {high:g} {unit}."
        )


def _one_of(what: str, value: str, allowed: tuple[str, ...]) -> None:
    if value not in allowed:
        raise ParameterError(f"{what} is {value!r}.", f"Allowed: {', '.join(allowed)}.")
