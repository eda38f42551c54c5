"""What a germination test says: x of n sprouted, and how sure that makes us."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from spadework.errors import ParameterError

_HALVINGS: Final = 60


@dataclass(frozen=True, slots=True)
class Germination:
    """Seeds that sprouted of seeds tested.

    Parameters
    ----------
    sprouted, tested : int
        0 <= sprouted <= tested; with none tested nothing is known but that it is a share.

    Raises
    ------
    ParameterError
        If more sprouted than were tested, or a number is negative.

    Notes
    -----
    Before the test every share is held equally likely, so that after it the share is Beta distributed with
    sprouted + 1 and tested - sprouted + 1: 10 of 10 is not 100 %. It speaks of the seeds in the test's
    warmth and wetness; in the ground fewer come up, and an old lot goes on ageing.

    Source
    ------
    computed: Bayes' rule for a count with an even prior.
    """

    sprouted: int
    tested: int

    def __post_init__(self) -> None:
        if not 0 <= self.sprouted <= self.tested:
            raise ParameterError(
                f"{self.sprouted} of {self.tested} seeds cannot have sprouted.",
                "The number sprouted lies between none and all tested.",
            )

    @property
    def share(self) -> float:
        """The share to expect, 0 to 1."""
        return (self.sprouted + 1) / (self.tested + 2)

    @property
    def likely(self) -> tuple[float, float]:
        """Between these the share lies 8 times in 10."""
        return self.share_at(0.1), self.share_at(0.9)

    def share_at(self, chance: float) -> float:
        """The share that the true one stays below with a chance.

        Parameters
        ----------
        chance : float
            0 to 1.

        Raises
        ------
        ParameterError
            If the chance is not between 0 and 1.
        """
        if not 0 <= chance <= 1:
            raise ParameterError(f"A chance of {chance!r} is not possible.", "Allowed: 0 to 1.")
        low, high = 0.0, 1.0
        for _ in range(_HALVINGS):
            middle = (low + high) / 2
            if self._chance_below(middle) < chance:
                low = middle
            else:
                high = middle
        return (low + high) / 2

    def _chance_below(self, share: float) -> float:
        """Chance that the true share is below: as many of n + 1 sprout at that share, or more."""
        trials = self.tested + 1
        if share <= 0 or share >= 1:
            return 0.0 if share <= 0 else 1.0
        up, down, ways = math.log(share), math.log1p(-share), math.lgamma(trials + 1)
        return math.fsum(
            math.exp(ways - math.lgamma(k + 1) - math.lgamma(trials - k + 1) + k * up + (trials - k) * down)
            for k in range(self.sprouted + 1, trials + 1)
        )
