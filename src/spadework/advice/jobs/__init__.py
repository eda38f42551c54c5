"""One module per kind of job: each a pure function from what stands to the jobs worth doing."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Final, TypeAlias

from spadework.advice.job import Job
from spadework.advice.jobs import (
    clear,
    count,
    cover,
    crush,
    earth_up,
    guard,
    guard_flight,
    harden_off,
    keep_damp,
    lid,
    lift,
    look,
    mulch,
    pick,
    plant_out,
    pot_on,
    prepare,
    prick_out,
    refuges,
    scout,
    sow,
    sow_again,
    start_indoors,
    support,
    thin,
    uncover,
    vent,
    water,
    weed,
)
from spadework.advice.scene import Scene

Finder: TypeAlias = Callable[[Scene], Iterable[Job]]

ALL: Final[tuple[Finder, ...]] = (
    clear.jobs,
    count.jobs,
    cover.jobs,
    crush.jobs,
    earth_up.jobs,
    guard.jobs,
    guard_flight.jobs,
    harden_off.jobs,
    keep_damp.jobs,
    lid.jobs,
    lift.jobs,
    look.jobs,
    mulch.jobs,
    pick.jobs,
    plant_out.jobs,
    pot_on.jobs,
    prepare.jobs,
    prick_out.jobs,
    refuges.jobs,
    scout.jobs,
    sow.jobs,
    sow_again.jobs,
    start_indoors.jobs,
    support.jobs,
    thin.jobs,
    uncover.jobs,
    vent.jobs,
    water.jobs,
    weed.jobs,
)
"""Every kind, by its module's name."""
