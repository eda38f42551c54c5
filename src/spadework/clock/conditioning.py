"""Told facts bear on the years: forecasts, totals, frost tables, paired minima, and readings of the soil."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date

import numpy as np

from spadework.clock.applied import Applied
from spadework.clock.conditioning_forecast import with_forecast
from spadework.clock.conditioning_frost import NightFit, fit_nights, with_nights
from spadework.clock.conditioning_minima import SiteMinima, site_minima, with_air_offset
from spadework.clock.conditioning_soil import soil_applied, soil_offset
from spadework.clock.conditioning_warmth import with_warmth
from spadework.clock.ground import Ground
from spadework.garden.site import Site
from spadework.garden.told import Told
from spadework.types import Floats
from spadework.weather.calendar_years import CalendarYears
from spadework.weather.years import Years

__all__ = [
    "Conditioned",
    "condition_calendar",
    "condition_ground",
    "condition_years",
    "fit_nights",
    "soil_offset",
]


@dataclass(frozen=True, eq=False)
class Conditioned:
    """Years with what was told in them.

    Parameters
    ----------
    years : Years
    leaf_drop_c : array, shape (year, day), or None  [degC]
        Mean of each night's leaf less the shelter minimum, where the forecast says something of it.
    site : SiteMinima
        What paired minima say of the air and the leaf here.
    applied : tuple of Applied
        What was told and what it did, in the order in which it was used.
    """

    years: Years
    leaf_drop_c: Floats | None
    site: SiteMinima
    applied: tuple[Applied, ...]


def condition_years(
    years: Years, told: Sequence[Told], site: Site, today: date, nights: NightFit | None = None
) -> Conditioned:
    """Let everything told by a day bear on the weather of the years.

    Parameters
    ----------
    years : Years
    told : sequence of Told
        Entries told after `today` are not known yet and are left out.
    site : Site
    today : date
    nights : NightFit or None
        From `fit_nights`, where a frost table is told.

    Notes
    -----
    In this order: the frost table moves nights that were not seen; the forecast takes the place of days that
    were not seen; totals warm or cool the days up to today; the garden's own thermometer moves all nights,
    since record, forecast, total and table speak of the station.
    """
    applied: list[Applied] = []
    if nights is not None:
        years = with_nights(years, nights, site.south)
        applied += nights.applied
    forecast = with_forecast(years, told, site, today)
    years, totals = with_warmth(forecast.years, told, today)
    applied += [*forecast.applied, *totals]
    minima = site_minima(told, today)
    if minima.air_c:
        years = with_air_offset(years, minima.air_c)
    applied += minima.applied
    return Conditioned(years, forecast.leaf_drop_c, minima, tuple(applied))


def condition_ground(
    conditioned: Conditioned,
    told: Sequence[Told],
    site: Site,
    today: date,
    bed: str = "",
    bed_offset_c: float = 0.0,
) -> tuple[Ground, tuple[Applied, ...]]:
    """The place as all that was told has it, and what each thing told did.

    Parameters
    ----------
    conditioned : Conditioned
    told : sequence of Told
    site : Site
    today : date
    bed : str
        The bed asked about; empty for the whole garden.
    bed_offset_c : float  [degC]
        What the bed's own events have taught; readings of its soil are set against the ground with it.
    """
    ground = Ground(
        site,
        conditioned.years,
        site.surface,
        leaf_drop_c=conditioned.leaf_drop_c,
        leaf_offset_c=conditioned.site.leaf_c,
        leaf_sd_c=conditioned.site.leaf_sd_c,
        bed_offset_c=bed_offset_c,
    )
    offset = soil_offset(ground, told, today, bed)
    if offset is None:
        return ground, conditioned.applied
    said = soil_applied(ground, told, today, offset)
    return replace(ground, soil_offset=offset, _kept={}), (*conditioned.applied, *said)


def condition_calendar(
    whole: CalendarYears, told: Sequence[Told], today: date
) -> tuple[CalendarYears, SiteMinima, tuple[Applied, ...]]:
    """Whole years with the nights that frost tables and paired minima ask for.

    Returns
    -------
    whole : CalendarYears
    site : SiteMinima
        Its leaf offset is not in the minima; frost odds at the leaf add it.
    applied : tuple of Applied
    """
    applied: list[Applied] = []
    tmin = whole.tmin_c
    fit = fit_nights(whole, told, today)
    if fit is not None:
        tmin = fit.nights_c(tmin, np.arange(tmin.shape[1]))
        applied += fit.applied
    minima = site_minima(told, today)
    tmin = tmin + minima.air_c
    applied += minima.applied
    if applied:
        whole = replace(whole, tmin_c=tmin, tmax_c=np.maximum(whole.tmax_c, tmin))
    return whole, minima, tuple(applied)
