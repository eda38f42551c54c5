"""What a person may say of a job done: the numbers only they can know, and those that came out otherwise."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

import msgspec

from spadework import units
from spadework.advice.job import Job
from spadework.usecases.do_jobs import MUST_SAY

_LABELS: Final[Mapping[str, str]] = {
    "standing": "Plants counted",
    "left": "Plants left standing",
    "removed": "Plants taken out",
    "plants": "Plants set out",
    "seeds": "Seeds sown",
    "kg": "Picked",
    "pieces": "Pieces",
    "litres": "Water given",
}
_US: Final[Mapping[str, tuple[str, float]]] = {
    "kg": ("lb", units.KG_PER_POUND),
    "litres": ("gal", units.L_PER_GALLON),
}
_METRIC: Final[Mapping[str, str]] = {"kg": "kg", "litres": "litres"}


class NumberAsked(msgspec.Struct, frozen=True, kw_only=True):
    """A number that goes with a job.

    Parameters
    ----------
    name : str
        As the entry calls it.
    label, unit : str
        As the person is asked; no unit for what is counted.
    planned : float or None
        What is written where nothing is said, in the unit shown.
    must : bool
        One of the numbers so marked has to be said.
    """

    name: str
    label: str
    unit: str
    planned: float | None
    must: bool


def numbers_asked(job: Job, *, us: bool) -> list[NumberAsked]:
    """The numbers that go with a job, in the order they are asked."""
    found: dict[str, NumberAsked] = {}
    for payload in job.done:
        must = MUST_SAY.get(type(payload), ())
        for name, label in _LABELS.items():
            if name not in payload.__struct_fields__:
                continue
            value = getattr(payload, name)
            planned = None if value is None or name in must else round(value / _factor(name, us), 2)
            found[name] = NumberAsked(
                name=name, label=label, unit=_unit(name, us), planned=planned, must=name in must
            )
    return list(found.values())


def numbers_given(given: Mapping[str, float], *, us: bool) -> dict[str, float]:
    """Numbers as they were said, in the units they are kept in."""
    return {name: value * _factor(name, us) for name, value in given.items() if name in _LABELS}


NAMES: Final = tuple(_LABELS)


def _factor(name: str, us: bool) -> float:
    return _US[name][1] if us and name in _US else 1.0


def _unit(name: str, us: bool) -> str:
    return _US[name][0] if us and name in _US else _METRIC.get(name, "")
