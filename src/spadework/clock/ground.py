"""What seed and plant feel: air, soil and light of one place, through the years.

One `Ground` serves every planting of a place: it is worked out once for a `Years` and a surface
and cached by content, so that no course pays for the soil model twice.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable
from dataclasses import dataclass, field, replace
from functools import cached_property

import numpy as np

from spadework.clock.soil_offset import SoilOffset
from spadework.garden.site import Site
from spadework.science import evapotranspiration, frost, radiation, soil, soil_water, sun
from spadework.types import Days, Floats
from spadework.weather.years import Years

SPIN_UP_DAYS = 45
"""Days of weather run before a sowing: five times the slow soil store of 8.8 days (measured, USCRN)."""

DEFAULT_LOOSE_DEPTH_CM = 1.3
"""Depth of the published emergence table, 13 mm (Harrington and Minges; published)."""


@dataclass(frozen=True, eq=False)
class Ground:
    """Microclimate of a place through the years, arrays [year, day].

    Parameters
    ----------
    site : Site
        Where; its latitude gives light, its elevation the air pressure.
    years : Years
        Seen weather continued by each past year.
    surface : str
        Key of `science.soil.SURFACES`.
    soil_offset : SoilOffset or None
        What thermometer readings add to the soil model.
    leaf_drop_c : array, shape (year, day), or None  [degC]
        Mean of the night's leaf surface less the shelter minimum, where cloud, wind or dew point are told;
        NaN on other nights.
    leaf_offset_c, leaf_sd_c : float  [degC]
        This site's own lasting offset of the leaf surface, and what is not known of it.
    bed_offset_c : float  [degC]
        How much warmer this bed is than the garden's usual ground, air and soil alike, as its own events have
        taught. Killing frost and heat are left to the thermometer.
    """

    site: Site
    years: Years
    surface: str
    soil_offset: SoilOffset | None = None
    leaf_drop_c: Floats | None = None
    leaf_offset_c: float = 0.0
    leaf_sd_c: float = frost.BETWEEN_SITES_SD_C
    bed_offset_c: float = 0.0
    _kept: dict[Hashable, Floats] = field(default_factory=dict, repr=False)

    def keep(self, key: Hashable, make: Callable[[], Floats]) -> Floats:
        """What does not depend on the sowing day, worked out once for this place and kept.

        Parameters
        ----------
        key : hashable
            Content that decides the result: the kind, and the crop's own parameters.
        make : callable
            Works it out. The result is made read-only, since every course shares it.
        """
        found = self._kept.get(key)
        if found is None:
            found = make()
            found.setflags(write=False)
            self._kept[key] = found
        return found

    @property
    def dates(self) -> Days:
        """Dates of the day axis, [day]."""
        dates: Days = self.years.dates
        return dates

    @cached_property
    def day_of_year(self) -> Floats:
        """Day of the year 1..366 of each column, [day]."""
        dates = self.dates
        found: Floats = ((dates - dates.astype("datetime64[Y]")).astype(np.int64) + 1).astype(np.float64)
        return found

    @cached_property
    def photoperiod_h(self) -> Floats:
        """Sunrise to sunset, upper limb with refraction, [day] [h]."""
        return sun.day_length_sunrise_to_sunset_h(self.site.lat_deg, self.day_of_year)

    @cached_property
    def air_mean_c(self) -> Floats:
        """Mean of the day's extremes as the bed feels them, [year, day] [degC]."""
        return (self.years.tmin_c + self.years.tmax_c) / 2.0 + self.bed_offset_c

    @cached_property
    def air_half_c(self) -> Floats:
        """Half of the day's range, [year, day] [degC]."""
        return (self.years.tmax_c - self.years.tmin_c) / 2.0

    @cached_property
    def _extraterrestrial_mj(self) -> Floats:
        return sun.extraterrestrial_radiation_mj(self.site.lat_deg, self.day_of_year)

    @cached_property
    def solar_mj(self) -> Floats:
        """Measured radiation where there is one, else from the day's range, [year, day] [MJ m-2 d-1]."""
        estimate = radiation.solar_from_temperature_range_mj(
            self.years.tmin_c, self.years.tmax_c, self._extraterrestrial_mj
        )
        measured = self.years.solar_mj
        return estimate if measured is None else np.where(np.isnan(measured), estimate, measured)

    @cached_property
    def et0_mm(self) -> Floats:
        """Reference evapotranspiration by Hargreaves, [year, day] [mm d-1]."""
        return evapotranspiration.et0_hargreaves_mm(
            self.years.tmin_c, self.years.tmax_c, self._extraterrestrial_mj
        )

    @cached_property
    def soil_mean_c(self) -> Floats:
        """Daily mean of the seed zone at 5 cm, [year, day] [degC]."""
        mean = soil.seed_zone_mean_c(self.air_mean_c, self.solar_mj, soil.SURFACES[self.surface])
        return mean if self.soil_offset is None else mean + self.soil_offset.offset_c

    def soil_half_c(self, depth_cm: float = DEFAULT_LOOSE_DEPTH_CM) -> Floats:
        """Half-range of the soil's daily wave at a depth, [year, day] [degC]."""
        return soil.daily_amplitude_c(
            self.years.tmin_c, self.years.tmax_c, self.solar_mj, depth_cm, soil.SURFACES[self.surface]
        )

    @cached_property
    def seedbed_wet_share(self) -> Floats:
        """Water left in the top 2 cm as a share of what it holds, rain alone, [year, day]."""
        return soil_water.seedbed_wetness(self.years.rain_mm, self.et0_mm)


def from_column(ground: Ground, first: int) -> Ground:
    """The same ground without the days before a column; itself where its soil was read.

    Parameters
    ----------
    ground : Ground
    first : int
        The column that becomes the first.
    """
    if first <= 0 or ground.soil_offset is not None:
        return ground
    years = ground.years
    span = slice(first, None)
    later = replace(
        years,
        first_day=years.first_day + np.timedelta64(first, "D"),
        tmin_c=years.tmin_c[:, span],
        tmax_c=years.tmax_c[:, span],
        rain_mm=years.rain_mm[:, span],
        solar_mj=None if years.solar_mj is None else years.solar_mj[:, span],
        wind_m_s=None if years.wind_m_s is None else years.wind_m_s[:, span],
        tdew_c=None if years.tdew_c is None else years.tdew_c[:, span],
        seen_days=max(years.seen_days - first, 0),
    )
    drop = None if ground.leaf_drop_c is None else ground.leaf_drop_c[:, span]
    return replace(ground, years=later, leaf_drop_c=drop, _kept={})
