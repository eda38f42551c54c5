"""What a benchmark gives: named figures with units, a budget where there is one, and how they were taken."""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal


@dataclass(frozen=True)
class Figure:
    """One measured number.

    Parameters
    ----------
    name : str
        What was measured, in words.
    value : float
        The number, in the unit given.
    unit : str
        Such as "ms" or "times".
    budget : float or None
        What it may be at most, or must be at least, as `bound` says; None where nothing was promised.
    bound : "most" or "least"
        Which side of the budget is the good one.
    """

    name: str
    value: float
    unit: str
    budget: float | None = None
    bound: Literal["most", "least"] = "most"

    @property
    def kept(self) -> bool | None:
        """Whether the budget is kept; None without one."""
        if self.budget is None:
            return None
        return self.value <= self.budget if self.bound == "most" else self.value >= self.budget

    @property
    def row(self) -> str:
        """The figure as a row of a table."""
        promise = "" if self.budget is None else f"at {self.bound} {short(self.budget)} {self.unit}"
        verdict = {None: "", True: "kept", False: "**missed**"}[self.kept]
        return f"| {self.name} | {short(self.value)} {self.unit} | {promise} | {verdict} |"


def short(value: float) -> str:
    """Three figures, with thousands marked; no more is measured."""
    if value >= 999.5:
        digits = len(str(round(value))) - 3
        return f"{round(value / 10**digits) * 10**digits:,}"
    return f"{value:.3g}"


def best_seconds(work: Callable[[], object], repeats: int) -> float:
    """Least of several timings [s] after one unmeasured run: the cost with nothing else in the way."""
    work()
    taken = []
    for _ in range(repeats):
        started = time.perf_counter()
        work()
        taken.append(time.perf_counter() - started)
    return min(taken)
