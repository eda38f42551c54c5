"""The differential: each trouble's chance after what was found, and that of something not in the list."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property

from spadework.advice.ailing.evidence import Evidence
from spadework.advice.ailing.fit import fit
from spadework.advice.ailing.prior import OTHER, other_weight, priors
from spadework.advice.circumstances import Here
from spadework.crops.trouble import Sign, Trouble


@dataclass(frozen=True, kw_only=True)
class Differential:
    """Chances of all causes here, which sum to 1.

    Parameters
    ----------
    here : Here
    found : Evidence
    signs : mapping of str to Sign
    chances : mapping of str to float
        By key of trouble, likeliest first; something else under the empty key.
    before : mapping of str to float
        The same before anything was found.
    troubles : mapping of str to Trouble
    """

    here: Here
    found: Evidence
    signs: Mapping[str, Sign]
    chances: Mapping[str, float]
    before: Mapping[str, float]
    troubles: Mapping[str, Trouble]

    @property
    def other(self) -> float:
        """Chance of something not in the list."""
        return self.chances[OTHER]

    @cached_property
    def ranked(self) -> Sequence[Trouble]:
        """The causes, likeliest first."""
        return [self.troubles[key] for key in self.chances if key != OTHER]


def differ(
    here: Here, found: Evidence, troubles: Iterable[Trouble], signs: Mapping[str, Sign]
) -> Differential:
    """Weigh what was found.

    Parameters
    ----------
    here : Here
    found : Evidence
    troubles : iterable of Trouble
        All that may be thought of; those the crop is no host of drop out.
    signs : mapping of str to Sign
    """
    listed = tuple(troubles)
    possible = priors(here, listed)
    before = {each.trouble.key: each.weight for each in possible}
    before[OTHER] = other_weight(here, listed)
    after = {each.trouble.key: each.weight * fit(each.trouble, found, signs) for each in possible}
    after[OTHER] = before[OTHER] * fit(None, found, signs)
    return Differential(
        here=here,
        found=found,
        signs=signs,
        chances=_shares(after),
        before=_shares(before),
        troubles={each.trouble.key: each.trouble for each in possible},
    )


def _shares(weights: Mapping[str, float]) -> dict[str, float]:
    total = sum(weights.values())
    ranked = sorted(weights.items(), key=lambda item: (-item[1], item[0]))
    return {key: weight / total for key, weight in ranked}
