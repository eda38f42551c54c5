"""Infection weather through the years, by the name of a rule that a sheet of a disease carries."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cached_property
from types import MappingProxyType
from typing import Final

import numpy as np

from spadework.clock.ground import Ground
from spadework.errors import UnknownName
from spadework.science import air, comfort, infection, infection_moulds, leaf_wetness, sun
from spadework.types import Floats

HOURS: Final = np.arange(24) + 0.5
NIGHT_HOURS: Final = (HOURS < 6.0) | (HOURS > 19.0)
MORNING: Final = (HOURS > 6.0) & (HOURS < 12.0)
"""Dusk to dawn, and six to noon by the sun: fixed hours, as the rules have them."""

LEAD_DAYS: Final = 14
"""Days before the first one asked about that a rule looks back at."""

WARM_SEEDBED_C: Final = 16.0
"""Soil below which beans, sweet corn and cucurbits rot [degC]. Source: common-practice."""

RAIN_HALF: Final = 0.5
"""What a day that favours late blight by rain alone counts beside one of the two-day rule. Our own rule."""


@dataclass(frozen=True, eq=False)
class WetDays:
    """Hours of wet leaves and of humid air of each day, arrays [year, day].

    Parameters
    ----------
    wet_h, humid_h : array, shape (year, day)  [h]
        Leaves wet with dew or rain; air at 90 percent or more.
    mean_c : array, shape (year, day)  [degC]
        Air in those hours; by night where none is so humid.
    error_h : float  [h]
        How far a day's humid hours are off at the mean.
    note : str
        The same in a sentence, with where the hours come from.
    """

    wet_h: Floats
    humid_h: Floats
    mean_c: Floats
    error_h: float
    note: str


def wet_hours(ground: Ground, first: int = 0, last: int | None = None) -> WetDays:
    """Hours of wet leaves and humid air on the days from one column to before another.

    Parameters
    ----------
    ground : Ground
    first, last : int or None
        Columns; all days where left out.
    """
    return _Wet(ground, first, last).days


def risk_days(
    rule: str, ground: Ground, first: int = 0, last: int | None = None, *, warm_crop: bool = False
) -> Floats:
    """How far the weather of each day meets an infection rule, 0 to 1, [year, day].

    Parameters
    ----------
    rule : str
        One of `RULES`.
    ground : Ground
    first, last : int or None
        Columns, from one to before another; all days where left out. Rules that look back see the days
        before.
    warm_crop : bool
        For damping-off: beans, sweet corn, cucurbits.

    Raises
    ------
    UnknownName
    """
    if rule not in RULES:
        raise UnknownName(f"There is no infection rule {rule!r}.", f"Known: {', '.join(RULES)}.")
    lead = min(LEAD_DAYS, first)
    wet = _Wet(ground, first - lead, last, warm_crop=warm_crop)
    key = ("infection", rule, first, last, warm_crop)
    return ground.keep(key, lambda: np.array(RULES[rule](wet), dtype=np.float64)[:, lead:])


class _Wet:
    """Weather of a span of days as the rules ask for it."""

    def __init__(self, ground: Ground, first: int, last: int | None, *, warm_crop: bool = False) -> None:
        self.ground, self.warm_crop = ground, warm_crop
        self.span = slice(first, last)
        years = ground.years
        self.low_c = years.tmin_c[:, self.span] + ground.bed_offset_c
        self.high_c = years.tmax_c[:, self.span] + ground.bed_offset_c
        self.rain_mm = np.nan_to_num(years.rain_mm[:, self.span])

    @property
    def mean_c(self) -> Floats:
        return (self.low_c + self.high_c) / 2.0

    @cached_property
    def told_c(self) -> Floats | None:
        """Dew point where it is told; NaN on other days."""
        dew = self.ground.years.tdew_c
        return None if dew is None else dew[:, self.span]

    @cached_property
    def dew_c(self) -> Floats:
        """Dew point, guessed where it is not told."""

        def guess() -> Floats:
            guessed = leaf_wetness.dew_by_rain_c(self.low_c, self.rain_mm)
            return guessed if self.told_c is None else np.where(np.isnan(self.told_c), guessed, self.told_c)

        return self._kept("dew", guess)

    @cached_property
    def hourly_c(self) -> Floats:
        """Air by the hour, [year, day, 24]."""

        def hourly() -> Floats:
            rise, fall = sun.sunrise_sunset_solar_h(
                self.ground.site.lat_deg, self.ground.day_of_year[self.span]
            )
            return air.hourly_temperature_c(
                self.low_c, self.high_c, sunrise_h=rise, sunset_h=fall, hours=HOURS
            )

        return self._kept("hourly", hourly)

    def _kept(self, what: str, make: Callable[[], Floats]) -> Floats:
        return self.ground.keep(("infection", what, self.span.start, self.span.stop), make)

    @cached_property
    def humid(self) -> leaf_wetness.HumidDay:
        return leaf_wetness.humid_hours(self.hourly_c, self.dew_c)

    @cached_property
    def wet_h(self) -> Floats:
        return self._kept("wet", lambda: comfort.wet_leaf_hours(self.hourly_c, self.dew_c, self.rain_mm))

    @cached_property
    def wet_c(self) -> Floats:
        """Mean of the humid hours, or of the night where there are none."""
        night = self.low_c * 0.75 + self.high_c * 0.25
        return np.where(np.isnan(self.humid.mean_c), night, self.humid.mean_c)

    @property
    def days(self) -> WetDays:
        told = self.told_c is not None and bool((~np.isnan(self.told_c)).mean() >= 0.5)
        error = leaf_wetness.DEW_TOLD_ERROR_H if told else leaf_wetness.DEW_GUESSED_ERROR_H
        whence = "the dew point" if told else "the night's minimum and rain, since no humidity is told"
        return WetDays(
            wet_h=self.wet_h,
            humid_h=self.humid.hours_h,
            mean_c=self.wet_c,
            error_h=error,
            note=f"Wet hours are worked out from {whence}; a day is off by {error:g} h at the mean.",
        )


def _late_blight(wet: _Wet) -> Floats:
    two = infection.late_blight_two_days(wet.low_c, wet.humid.hours_h)
    rainy = infection.rain_favourable(wet.low_c, wet.high_c, wet.rain_mm)
    found: Floats = np.maximum(two.astype(np.float64), RAIN_HALF * rainy)
    return found


def _leaf_spots(wet: _Wet) -> Floats:
    return infection.leaf_spot_severity(wet.wet_h, wet.wet_c) / 4.0


def _onion(wet: _Wet) -> Floats:
    dark = NIGHT_HOURS[None, None, :]
    humid = leaf_wetness.humid_hours(np.where(dark, wet.hourly_c, np.nan), wet.dew_c, 92.0)
    before = np.concatenate((wet.high_c[:, :1], wet.high_c[:, :-1]), axis=1)
    found: Floats = infection_moulds.onion_mildew_night(
        humid.hours_h, humid.mean_c, before, wet.rain_mm * 0.25
    ).astype(np.float64)
    return found


def _cucurbit(wet: _Wet) -> Floats:
    return infection_moulds.cucurbit_mildew_infects(wet.wet_h, wet.wet_c).astype(np.float64)


def _lettuce(wet: _Wet) -> Floats:
    morning = np.where(MORNING[None, None, :], wet.hourly_c, np.nan)
    humid = leaf_wetness.humid_hours(morning, wet.dew_c)
    first_three = wet.hourly_c[..., 6:9].mean(axis=-1)
    return infection_moulds.lettuce_mildew_morning(humid.hours_h, first_three).astype(np.float64)


def _powdery(wet: _Wet) -> Floats:
    return infection_moulds.powdery_mildew_day(wet.low_c, wet.high_c)


def _grey_mould(wet: _Wet) -> Floats:
    return infection_moulds.grey_mould_share(wet.wet_h, wet.wet_c)


def _white_mould(wet: _Wet) -> Floats:
    return infection_moulds.white_mould_days(wet.mean_c, wet.high_c, wet.rain_mm, wet.wet_h).astype(
        np.float64
    )


def _damping_off(wet: _Wet) -> Floats:
    ground = wet.ground
    soil, share = ground.soil_mean_c[:, wet.span], ground.seedbed_wet_share[:, wet.span]
    if wet.warm_crop:
        return infection_moulds.damping_off_day(soil, share, WARM_SEEDBED_C).astype(np.float64)
    return infection_moulds.damping_off_day(soil, share).astype(np.float64)


def _beet(wet: _Wet) -> Floats:
    return infection_moulds.beet_spot_pair(wet.humid.hours_h, wet.wet_c).astype(np.float64)


RULES: Final[Mapping[str, Callable[[_Wet], Floats]]] = MappingProxyType(
    {
        "late-blight": _late_blight,
        "leaf-spot-severity": _leaf_spots,
        "onion-downy-mildew": _onion,
        "cucurbit-downy-mildew": _cucurbit,
        "lettuce-downy-mildew": _lettuce,
        "powdery-mildew": _powdery,
        "grey-mould": _grey_mould,
        "white-mould": _white_mould,
        "damping-off": _damping_off,
        "beet-leaf-spot": _beet,
    }
)
"""The rules by the name a sheet calls them."""
