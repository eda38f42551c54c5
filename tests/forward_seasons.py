"""Each season foretold as it would have been then: from the years before it alone, made ones beside few."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta

import numpy as np

import seasons
from drawn_seasons import CHECK_EVERY_DAYS, Drawn, lived
from ghcn_fixture import climate_series
from hindcasts import START, SUMS, course_of, frost_days, sum_rates
from spadework.clock.batch import finish_all
from spadework.clock.ground import SPIN_UP_DAYS, Ground
from spadework.record.hindcast import arrival
from spadework.record.scores import Score, from_earlier, packet_miss, scored
from spadework.weather.years import build_years

LONG_PLACES = ("champion", "clemson", "norfolk", "brussels", "cordoba")
PLACES = ("champion", "norfolk", "brussels", "cordoba")
FEWEST_PAST_YEARS = 5
AHEAD_DAYS = {"carrot": 180, "bush-bean": 150, "lettuce": 150, "tomato": 180}


@dataclass(frozen=True)
class Forward:
    """One crop at one place, season after season.

    Parameters
    ----------
    ready : Score
        Day ready, weather alone [d].
    packet_mae : float
        Mean miss of the seasons' own mean duration, known only afterwards [d].
    late : float
        Mean of the day ready less the ensemble's middle: below zero where springs have warmed [d].
    with_made : int
        Seasons in which made years stood beside the past ones.
    odds : Drawn
        Chance said of being picked by every tenth day, and what came with the crop's own numbers drawn.
    """

    ready: Score
    packet_mae: float
    late: float
    with_made: int
    odds: Drawn


def forward(place: str, crop: str, draws: int = 20, seed: int = 8) -> Forward:
    """Ask on the day of sowing, each season of the record from the sixth on."""
    series, site = climate_series(place), seasons.SITES[place]
    month, day = START[place][crop]
    ahead, rng = AHEAD_DAYS[crop], np.random.default_rng(seed)
    ensembles, truths, middles, made = [], [], [], 0
    said, seen = [], []
    opened = int(str(series.start)[:4])
    for year in range(opened + FEWEST_PAST_YEARS, int(str(series.end)[:4]) + 1):
        sown = date(year, month, day)
        first, days = sown - timedelta(days=SPIN_UP_DAYS), SPIN_UP_DAYS + ahead
        end = first + timedelta(days=days)
        if np.datetime64(end) > series.end:
            continue
        asked = Ground(site, build_years(series, first, days, sown - timedelta(days=1)), "bare-moist")
        came = Ground(site, build_years(series, first, days, end), "bare-moist")
        told, true = (course_of(crop, SPIN_UP_DAYS, ground) for ground in (asked, came))
        made += bool(asked.years.made.any())
        ways = [(c.grown_days - c.head_days) / c.ready_days for c in (told, true)]
        truth = float(arrival(ways[1])[0])
        if truth < days:
            ensembles.append(arrival(ways[0]))
            truths.append(truth)
            middles.append(float(np.median(ensembles[-1])))
        ready, lost = lived(true, draws, rng)
        picked = np.where(ready < lost, ready, days)[0]
        columns = np.arange(SPIN_UP_DAYS + CHECK_EVERY_DAYS, days, CHECK_EVERY_DAYS)
        said.append(told.picked.mean(axis=0)[columns])
        seen.append((picked[:, None] <= columns).mean(axis=0))
    found = np.array(truths)
    return Forward(
        scored(ensembles, found),
        packet_miss(found),
        float(np.mean(found - np.array(middles))),
        made,
        Drawn(np.concatenate(said), np.concatenate(seen)),
    )


def _late(values: np.ndarray, fewest: int = 15, last: int = 30) -> float:
    """Mean of what came less the middle of the years before [d]."""
    middles = [np.median(values[max(year - last, 0) : year]) for year in range(fewest, values.size)]
    return float(np.mean(values[fewest:] - np.array(middles)))


def sum_forward(name: str) -> tuple[Score, float]:
    """A crop-like requirement, from 15 to 30 years before alone, asked at sowing."""
    place, _, need, (month, day) = SUMS[name]
    start = np.array([seasons.column(place, month, day)])
    finish = finish_all(sum_rates(name)[None], start, np.array([need]))[0, :, 0].astype(np.float64)
    return from_earlier(finish), _late(finish)


def frost_forward(place: str) -> list[tuple[str, Score, float]]:
    """Last spring and first autumn freeze, from 15 to 30 years before alone."""
    return [(what, from_earlier(days), _late(days)) for what, days in frost_days(place)]
