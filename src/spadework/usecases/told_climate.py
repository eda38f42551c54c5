"""What a garden was told of its climate, as made years need it."""

from __future__ import annotations

from collections.abc import Sequence

from spadework.garden.site import Site
from spadework.garden.told import FrostTable, MonthlyNormals, Told
from spadework.weather.made_years import Climate
from spadework.weather.normals import Normals, told_normals


def normals_told(told: Sequence[Told], site: Site) -> Normals | None:
    """The normals told last, or None."""
    for entry in reversed(told):
        fact = entry.fact
        if isinstance(fact, MonthlyNormals):
            return told_normals(
                site.name,
                fact.tmin_c,
                fact.tmax_c,
                fact.rain_mm,
                fact.wet_days,
                fact.climate,
                south=site.south,
            )
    return None


def climate_told(told: Sequence[Told], site: Site) -> Climate:
    """Normals and frost dates as told last; of each limit and season the table told last counts.

    Parameters
    ----------
    told : sequence of Told
        In order of telling, those withdrawn left out.
    site : Site
    """
    tables: dict[tuple[float, str], FrostTable] = {}
    for entry in told:
        if isinstance(entry.fact, FrostTable):
            tables[entry.fact.below_c, entry.fact.season] = entry.fact
    return Climate(normals_told(told, site), tuple(tables.values()), site.south)
