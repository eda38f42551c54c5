"""Whose work a job is not: what it asks of a body against what a person should not do."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Final

import numpy as np

from spadework.advice.conditions import HOURS, UV_SHADE, Conditions
from spadework.advice.job import Job, Strain
from spadework.garden.records import Person
from spadework.science.comfort import HEAT_BANDS, heat_band
from spadework.types import Bools

HEAVY_KG: Final = 5.0
"""Load from which a job is lifting. Our own rule: what most people carry without thinking of it."""

WORDS: Final[Mapping[Strain, tuple[str, ...]]] = {
    "stooping": ("stoop", "bend", "bent"),
    "kneeling": ("kneel", "knee"),
    "lifting": ("lift", "heavy", "carry", "loads"),
    "reaching": ("reach", "overhead", "ladder", "climb"),
    "blades": ("blade", "knife", "knives", "secateur", "pruner", "scythe", "sharp"),
    "heat": ("heat", "hot"),
    "sun": ("sun", "uv"),
    "chemicals": ("chemical", "spray", "pesticide"),
    "manure": ("manure", "dung"),
    "wet": ("wet", "damp"),
}
"""Beginnings of the words by which people say that something is not for them."""

HEAT_BAND: Final = HEAT_BANDS.index("caution")
"""Heat index from which heat is not for those it is said of. As in `conditions`."""


def strains_of(job: Job) -> tuple[Strain, ...]:
    """What a job asks of a body, its load included."""
    heavy = job.load_kg >= HEAVY_KG and "lifting" not in job.strains
    return (*job.strains, "lifting") if heavy else job.strains


def is_heavy(job: Job) -> bool:
    """Whether it makes hot: digging, lifting, carrying."""
    return "lifting" in strains_of(job) or job.kind in ("prepare", "earth up", "lift", "clear")


def barred(person: Person) -> frozenset[Strain]:
    """What a person should not do, from their own words."""
    said = " ".join(person.not_for).casefold().replace("-", " ")
    words = said.split()
    return frozenset(
        strain
        for strain, begins in WORDS.items()
        if any(word.startswith(begin) for word in words for begin in begins)
    )


def bad_hours(person: Person, conditions: Conditions) -> Bools:
    """Hours in which a person should not be outside, whatever the job, (24,)."""
    not_for = barred(person)
    found = np.zeros(24, dtype=np.bool_)
    if "heat" in not_for:
        found |= heat_band(conditions.heat_index_c) >= HEAT_BAND
    if "sun" in not_for:
        found |= conditions.uv >= UV_SHADE - 0.5
    return found


def may_do(
    person: Person,
    job: Job,
    conditions: Conditions | None = None,
    *,
    at_hour: float | None = None,
    minutes: float = 0.0,
    indoors: bool = False,
) -> bool:
    """Whether a job is for a person.

    Parameters
    ----------
    person : Person
    job : Job
    conditions : Conditions or None
        With `at_hour`, the hours of the walk count as well.
    at_hour : float or None  [h]
    minutes : float  [min]
    indoors : bool
    """
    if barred(person) & set(strains_of(job)):
        return False
    if conditions is None or at_hour is None or indoors:
        return True
    walk = (at_hour < HOURS + 0.5) & (at_hour + minutes / 60.0 > HOURS - 0.5)
    return not bool((walk & bad_hours(person, conditions)).any())


def bodies_said(people: Sequence[Person], conditions: Conditions) -> list[str]:
    """Who should be out at other hours, in a sentence each."""
    found = []
    for person in people:
        bad = bad_hours(person, conditions)
        if bad.any():
            first, last = HOURS[bad][0] - 0.5, HOURS[bad][-1] + 0.5
            found.append(f"{person.name} stays out of heat and strong sun from {first:.0f} to {last:.0f} h.")
    return found
