"""Made years in place of real ones: the same seasons foretold from twelve normals of the other years."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

import seasons
from ghcn_fixture import climate_series
from hindcasts import SUMS, WARM_UPPER_C, sum_rates
from spadework.clock.batch import finish_all
from spadework.record.hindcast import SHARES
from spadework.record.scores import Score, scored
from spadework.science.degree_days import degree_days
from spadework.weather.made import made_days
from spadework.weather.normals import Normals, normals_of, told_normals
from spadework.weather.series import Series

NAMES = [name for name in SUMS if SUMS[name][0] in ("champion", "norfolk", "brussels", "cordoba")]
ROWS = 200
"""Made years an ensemble: many, so that the score is the made climate's own and not the draw's."""


@dataclass(frozen=True)
class Beside:
    """Scores at one share of the way: of the other real years, of made ones from told normals alone, and of
    made ones that know the spread and the order of the record's days too [d]."""

    share: float
    real: Score
    told: Score
    own: Score


def _without(series: Series, first: np.datetime64, days: int) -> Series:
    """The record with one year's days unknown."""
    at = series.index_of(first)

    def hidden(values: np.ndarray) -> np.ndarray:
        found = np.array(values)
        found[max(at, 0) : at + days] = np.nan
        return found

    return replace(
        series,
        tmin_c=hidden(series.tmin_c),
        tmax_c=hidden(series.tmax_c),
        rain_mm=hidden(series.rain_mm),
    )


def made_hindcast(name: str, rows: int = ROWS) -> list[Beside]:
    """A crop-like requirement, each year foretold from the normals of all others."""
    place, base, need, (month, day) = SUMS[name]
    south = seasons.SITES[place].lat_deg < 0
    series, start = climate_series(place), seasons.column(place, month, day)
    rates = sum_rates(name)
    running = np.cumsum(rates, axis=1)
    years = rates.shape[0]
    opened = int(str(series.start)[:4])
    truths = _finish(rates, start, need)
    ensembles: dict[tuple[float, str], list[np.ndarray]] = {}
    for year in range(years):
        opening = np.datetime64(f"{opened + year}-{'07' if south else '01'}-01")
        rest = _without(series, opening, 365)
        own = normals_of(rest, place)
        told = told_normals(place, own.tmin_c, own.tmax_c, own.rain_mm, south=south)
        made = {
            "real": np.delete(rates, year, axis=0),
            "told": _made_rates(told, base, south, rows, seed=year),
            "own": _made_rates(own, base, south, rows, seed=year),
        }
        gathered = running[year] - (running[year, start - 1] if start else 0.0)
        for share in SHARES:
            asked = start if share == 0.0 else int(np.argmax(gathered >= share * need))
            left = need - (gathered[asked - 1] if asked > start else 0.0)
            for kind, found in made.items():
                ensembles.setdefault((share, kind), []).append(_finish(found, asked, left))
    return [
        Beside(share, *(scored(ensembles[share, kind], truths) for kind in ("real", "told", "own")))
        for share in SHARES
    ]


def _made_rates(normals: Normals, base: float, south: bool, rows: int, seed: int) -> np.ndarray:
    days = made_days(normals, rows, 1000 + seed, years=2)
    begin = 181 if south else 0
    low, high = (values[:, begin : begin + 365] for values in (days.tmin_c, days.tmax_c))
    if base == 10.0:
        return degree_days(low, high, base, WARM_UPPER_C, "single-sine", "horizontal")
    return degree_days(low, high, base, None, "single-sine", "none")


def _finish(rates: np.ndarray, start: int, need: float) -> np.ndarray:
    return finish_all(rates[None], np.array([start]), np.array([need]))[0, :, 0].astype(np.float64)
