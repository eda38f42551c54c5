"""How far each trouble's harming stage is there now, and how the weather that was suits each disease."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date
from typing import Final

import numpy as np

from spadework.advice.circumstances import Here
from spadework.clock.ground import Ground
from spadework.clock.infection import risk_days
from spadework.clock.insects import present
from spadework.crops.trouble import Trouble
from spadework.crops.troubles import at_home, trouble_names
from spadework.garden.entries import Seen
from spadework.garden.state import Garden

AROUND_DAYS: Final = 10
"""Damage is seen days after the pest was there: a stage of so many days ago counts. Our own rule."""

BACK_DAYS: Final = 14
"""Days of infection weather that count: most spots show within a fortnight. Our own rule."""

USUAL_DAYS: Final = 3.0
"""Days of infection weather that make a disease as likely as it is in a usual season. Our own rule."""

LEAST_TIMES, MOST_TIMES = 0.4, 2.5
"""Bounds of what the weather makes of a disease: rules err, and spores come from elsewhere. Our own rule."""


def present_now(
    troubles: Iterable[Trouble], ground: Ground, column: int, garden: Garden, *, south: bool
) -> Mapping[str, float]:
    """How far the stage that harms is there, or was lately, 0 to 1, of every trouble with a clock.

    Parameters
    ----------
    troubles : iterable of Trouble
    ground : Ground
        From midwinter on.
    column : int
        Today's on its day axis.
    garden : Garden
        Whose book may tell of events seen this season.
    south : bool
    """
    first = max(column - AROUND_DAYS, 0)
    began = ground.dates[0].astype("datetime64[D]").item()
    found = {}
    for each in troubles:
        if each.events:
            share = present(each, ground, south=south, seen=_seen(garden, each.key, began))
            found[each.key] = float(share[:, first : column + 1].max(axis=1).mean())
    return found


def away(troubles: Iterable[Trouble], land: str, here: Here) -> frozenset[str]:
    """Troubles not known in a part of the world, nor told of this bed before."""
    return frozenset(each.key for each in troubles if not at_home(each, land) and each.key not in here.had)


def _seen(garden: Garden, key: str, since: date) -> Mapping[str, date]:
    """First day each event of a trouble was seen this season."""
    names = trouble_names()
    found: dict[str, date] = {}
    for entry in garden.entries:
        act = entry.act
        if isinstance(act, Seen) and act.event and act.plants != 0 and entry.happened_on >= since:
            named = act.trouble or names.get(act.what.casefold(), "")
            if named == key:
                found.setdefault(act.event, entry.happened_on)
    return found


def infection_now(troubles: Iterable[Trouble], ground: Ground, column: int) -> Mapping[str, float]:
    """How many times as likely the weather of the last fortnight makes each disease that has a rule."""
    first = max(column - BACK_DAYS + 1, 0)
    found = {}
    for each in troubles:
        if each.rule:
            days = risk_days(each.rule, ground, first, column + 1).sum(axis=1)
            times = LEAST_TIMES + (1.0 - LEAST_TIMES) * days / USUAL_DAYS
            found[each.key] = float(np.clip(times, LEAST_TIMES, MOST_TIMES).mean())
    return found
