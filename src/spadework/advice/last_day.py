"""The last day on which something still works out at odds a person accepts."""

from __future__ import annotations

from collections.abc import Callable


def last_day_at(
    chance_of: Callable[[int], float], first: int, last: int, accepted: float, stride: int = 14
) -> int | None:
    """Last column at which the chance is at least the accepted one.

    Parameters
    ----------
    chance_of : callable
        Chance of a column.
    first, last : int
        Columns searched, both included.
    accepted : float
        0 to 1.
    stride : int
        Days between the first looks; what is good for less than that may be missed.

    Returns
    -------
    int or None
        None where no look is good enough; `last` where it still is at the end.
    """
    looks: list[int] = [*range(first, last, stride), last]
    good = [look for look in looks if chance_of(look) >= accepted]
    if not good:
        return None
    low = good[-1]
    if low == last:
        return last
    high = looks[looks.index(low) + 1]
    while high - low > 1:
        middle = (low + high) // 2
        if chance_of(middle) >= accepted:
            low = middle
        else:
            high = middle
    return low
