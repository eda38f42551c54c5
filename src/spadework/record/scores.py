"""Scores of an ensemble against what came true."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from spadework.types import Floats

EVEN_PIT_SD = float(np.sqrt(1.0 / 12.0))
"""Spread of even places between 0 and 1, 0.289. Class: computed."""


@dataclass(frozen=True)
class Score:
    """Scores of many cases.

    Parameters
    ----------
    cases : int
    crps : float
        Fair continuous ranked probability score, in the unit of what is foretold: 0 is perfect.
    held_80 : float
        Share of cases inside the middle eight tenths, by Weibull positions.
    mae : float
        Mean miss of the ensemble's middle.
    pit_sd : float
        Spread of the truths' places among the members, 0 to 1: `EVEN_PIT_SD` where every place is as likely
        as any other, less where the ensembles are too wide, more where too narrow.
    """

    cases: int
    crps: float
    held_80: float
    mae: float
    pit_sd: float


def fair_crps(members: Floats, truth: float) -> float:
    """Fair CRPS of one case: mean distance to the truth less half the mean distance between members.

    Parameters
    ----------
    members : array, shape (member,)
    truth : float

    Notes
    -----
    Does not punish a small ensemble for being narrow: read it with `Score.held_80`.
    """
    ordered = np.sort(np.asarray(members, dtype=np.float64))
    count = ordered.size
    if count < 2:
        return float(np.abs(ordered - truth).mean())
    # sum over pairs of distances, from the sorted members
    pairs = float((ordered * (2.0 * np.arange(count) - count + 1.0)).sum())
    return float(np.abs(ordered - truth).mean() - pairs / (count * (count - 1)))


def place_among(members: Floats, truth: float) -> float:
    """Where the truth stands among the members, 0 below all of them to 1 above: the PIT of one case.

    Parameters
    ----------
    members : array, shape (member,)
    truth : float

    Notes
    -----
    Members equal to the truth count by half, so that whole days neither widen nor narrow.
    """
    below, level = np.count_nonzero(members < truth), np.count_nonzero(members == truth)
    return float((below + 0.5 * level + 0.5) / (np.size(members) + 1))


def scored(ensembles: list[Floats], truths: Floats) -> Score:
    """Scores of many cases, one ensemble a case.

    Parameters
    ----------
    ensembles : list of array, shape (member,)
    truths : array, shape (case,)
    """
    crps, held, miss, places = [], [], [], []
    for members, truth in zip(ensembles, truths, strict=True):
        low, middle, high = np.quantile(members, [0.1, 0.5, 0.9], method="weibull")
        crps.append(fair_crps(members, float(truth)))
        held.append(low <= truth <= high)
        miss.append(abs(middle - truth))
        places.append(place_among(members, float(truth)))
    return Score(
        cases=len(ensembles),
        crps=float(np.mean(crps)),
        held_80=float(np.mean(held)),
        mae=float(np.mean(miss)),
        pit_sd=float(np.sqrt(np.mean((np.array(places) - 0.5) ** 2))),
    )


def leave_one_out(values: Floats) -> Score:
    """Each year foretold from all the others.

    Parameters
    ----------
    values : array, shape (year,)
        What each year brought.
    """
    return scored([np.delete(values, year) for year in range(values.size)], values)


def from_earlier(values: Floats, fewest: int = 15, last: int = 30) -> Score:
    """Each year foretold from earlier ones alone.

    Parameters
    ----------
    values : array, shape (year,)
        What each year brought, oldest first.
    fewest : int
        Years that must have been before; the first so many are no cases.
    last : int
        No more than so many of the most recent.
    """
    cases = range(fewest, values.size)
    return scored([values[max(year - last, 0) : year] for year in cases], values[fewest:])


def packet_miss(values: Floats) -> float:
    """Mean miss of one fixed number, the mean of the other years: what a packet's days are at best."""
    others = (values.sum() - values) / (values.size - 1)
    return float(np.abs(values - others).mean())
