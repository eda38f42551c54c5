"""Scarce cloth shared out for a night: by the worth it saves for each metre."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Need:
    """A bed that a cover would help tonight.

    Parameters
    ----------
    bed : str
    length_m : float  [m]
        Of cloth, above zero.
    saves : mapping of str to float
        Worth saved by each piece of kit, by its name.
    """

    bed: str
    length_m: float
    saves: Mapping[str, float]


@dataclass(frozen=True, slots=True)
class Shared:
    """What goes where, in order, and which beds nothing is left for."""

    given: tuple[tuple[str, str], ...]
    bare: tuple[str, ...]


def share_out(needs: Sequence[Need], free_m: Mapping[str, float]) -> Shared:
    """Give cloth where each metre saves most, until nothing fits.

    Parameters
    ----------
    needs : sequence of Need
    free_m : mapping of str to float  [m]
        By piece of kit.

    Returns
    -------
    Shared
        `given` as (bed, item), what saves most for each metre first.

    Notes
    -----
    Greedy: cloth is not cut, and a bed is covered whole or not at all.
    """
    left = dict(free_m)
    pairs = sorted(
        (
            (-saved / need.length_m, need.bed, item, need.length_m)
            for need in needs
            for item, saved in need.saves.items()
            if saved > 0.0
        ),
    )
    given: dict[str, str] = {}
    for _, bed, item, length in pairs:
        if bed not in given and left.get(item, 0.0) >= length - 1e-9:
            given[bed] = item
            left[item] -= length
    bare = sorted(
        (need for need in needs if need.bed not in given),
        key=lambda need: (-max(need.saves.values(), default=0.0), need.bed),
    )
    return Shared(tuple(given.items()), tuple(need.bed for need in bare))
