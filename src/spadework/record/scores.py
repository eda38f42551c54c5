"""Scores of an ensemble against what came true."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from spadework.types import Floats


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
    """

    cases: int
    crps: float
    held_80: float
    mae: float


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


def scored(ensembles: list[Floats], truths: Floats) -> Score:
    """Scores of many cases, one ensemble a case.

    Parameters
    ----------
    ensembles : list of array, shape (member,)
    truths : array, shape (case,)
    """
    crps, held, miss = [], [], []
    for members, truth in zip(ensembles, truths, strict=True):
        low, middle, high = np.quantile(members, [0.1, 0.5, 0.9], method="weibull")
        crps.append(fair_crps(members, float(truth)))
        held.append(low <= truth <= high)
        miss.append(abs(middle - truth))
    return Score(
        cases=len(ensembles),
        crps=float(np.mean(crps)),
        held_80=float(np.mean(held)),
        mae=float(np.mean(miss)),
    )


def leave_one_out(values: Floats) -> Score:
    """Each year foretold from all the others.

    Parameters
    ----------
    values : array, shape (year,)
        What each year brought.
    """
    return scored([np.delete(values, year) for year in range(values.size)], values)


def packet_miss(values: Floats) -> float:
    """Mean miss of one fixed number, the mean of the other years: what a packet's days are at best."""
    others = (values.sum() - values) / (values.size - 1)
    return float(np.abs(values - others).mean())
