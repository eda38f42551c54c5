"""Which acts set a lock by themselves, so that none can be forgotten.

Three rules, each from cited guidance. What is not known counts as the worse case: manure of which nobody said
that it is finished is raw, hay and straw of which nobody said that they are clean are not. A correction of
the entry that says so takes the lock away again.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final, Literal

from spadework.garden.entries import Amended, Entry, Fed, Locked, Treated
from spadework.garden.locks import Lock

RAW_MANURE: Final = "raw manure"
PETS_MANURE: Final = "manure of pets"
LABEL_DAYS: Final = "days on the label"
SPRAY_CARRIED_OVER: Final = "weedkiller carried over"


@dataclass(frozen=True, slots=True)
class Rule:
    """A rule with its receipt."""

    name: str
    says: str
    provenance: Literal["published", "common-practice"]
    source: str


RULES: Final[dict[str, Rule]] = {
    rule.name: rule
    for rule in (
        Rule(
            RAW_MANURE,
            "Raw manure is worked in at least 120 days before a crop is picked whose eaten part touches the"
            " soil, and 90 days before one whose eaten part does not.",
            "published",
            "NOP-205203",
        ),
        Rule(PETS_MANURE, "Dung of dogs, cats and pigs stays out of beds for food.", "common-practice", ""),
        Rule(
            LABEL_DAYS,
            "Nothing treated is picked before the days on the product's own label are over.",
            "published",
            "the product's label, as the person read it",
        ),
        Rule(
            SPRAY_CARRIED_OVER,
            "Weedkillers that last in hay, straw, clippings and manure, composted or not, cripple beans,"
            " tomatoes and other broad-leaved crops; a test with peas or beans in pots shows it.",
            "published",
            "FERRELL-SSAGR415; OSU-CARRYOVER2009",
        ),
    )
}

RAW_MANURE_DAYS: Final = 120
RAW_MANURE_OFF_SOIL_DAYS: Final = 90
"""Class: published, NOP-205203."""

BEAN_TEST: Final = (
    "peas or beans grown for two to three weeks in two parts of it with one part potting mix stand as"
    " straight as those in potting mix alone"
)
"""Class: published, OSU-CARRYOVER2009."""

OFF_SOIL: Final = frozenset({"sweet-corn"})
OFF_SOIL_WHEN_SUPPORTED: Final = frozenset({"tomato"})
"""Crops that count as not touching the soil, by sheet key: only those the guidance is commonly explained
with (maize, staked tomatoes). Every other crop keeps the longer wait. Class: common-practice."""

_MANURE: Final = frozenset({"manure", "dung", "muck", "droppings", "slurry", "farmyard", "fym"})
_BEDDING: Final = frozenset({"litter", "bedding"})
_ANIMALS: Final = frozenset(
    {"horse", "cow", "cattle", "sheep", "goat", "rabbit", "chicken", "hen", "poultry", "duck", "goose"}
    | {"turkey", "pig", "dog", "cat", "stable", "animal"}
)
_PETS: Final = frozenset({"dog", "cat", "pig"})
_HEATED: Final = frozenset({"pellet", "pellets", "pelleted"})
"""Dung sold as pellets was dried hot; it counts as finished unless said to be raw. Class: common-practice."""

_PLANTS_ONLY: Final = frozenset(
    {"hay", "straw", "grass", "clippings", "mowings", "leaves", "leaf", "leafmould", "mould", "mold"}
    | {"woodchip", "woodchips", "wood", "bark", "sawdust", "seaweed", "comfrey", "nettle", "nettles", "peat"}
    | {"coir", "biochar", "charcoal", "cardboard", "paper", "coffee", "green", "cover", "rye", "vetch"}
    | {"clover", "kitchen", "vegetable", "peelings", "lime", "sand", "grit", "ash"}
)
_CARRIERS: Final = frozenset({"hay", "straw", "haylage", "silage", "clippings", "mowings"})
_WORD: Final = re.compile(r"[^\W\d_]+")


def is_manure(material: str) -> bool:
    """Whether a material named in words holds dung. Green manure is none."""
    words = _words(material)
    dung = [place for place, word in enumerate(words) if word in _MANURE]
    if any(place == 0 or words[place - 1] != "green" for place in dung):
        return True
    return bool(_BEDDING & set(words) and _ANIMALS & set(words))


def is_of_pets(material: str) -> bool:
    """Whether it is dung of dogs, cats or pigs."""
    return is_manure(material) and bool(_PETS & {word.removesuffix("s") for word in _words(material)})


def counts_as_raw(act: Amended | Fed) -> bool:
    """Whether what was given counts as raw manure."""
    state = act.state if isinstance(act, Amended) else "not known"
    words = set(_words(act.material))
    if state == "finished":
        return False
    if state == "raw":
        return is_manure(act.material) or not words & _PLANTS_ONLY
    return is_manure(act.material) and not words & _HEATED


def may_carry_spray(act: Amended) -> bool:
    """Whether a lasting weedkiller may be in what was worked in."""
    if act.spray_history in ("clean", "sprayed"):
        return act.spray_history == "sprayed"
    if is_manure(act.material) or _CARRIERS & set(_words(act.material)):
        return True
    return act.spray_history == "not known"


def locks_set_by(entry: Entry, bed: str) -> tuple[Lock, ...]:
    """The locks an entry sets: its own where it is one, and those by rule.

    Parameters
    ----------
    entry : Entry
    bed : str
        Key of the bed it was done in, which a planting's entry need not name.
    """
    act = entry.act
    if isinstance(act, Locked):
        return (_told(entry, act, bed),)
    if isinstance(act, Treated):
        return _label_days(entry, act, bed)
    if isinstance(act, (Amended, Fed)):
        return (*_raw_manure(entry, act, bed), *_carried_over(entry, act, bed))
    return ()


def _told(entry: Entry, act: Locked, bed: str) -> Lock:
    subject = {"bed": bed, "planting": entry.planting, "batch": entry.batch}[act.on]
    return Lock(
        lock=act.lock or entry.key,
        on=act.on,
        subject=subject,
        # A batch is no plant: whatever was said, it is its use that stops.
        stops="using" if act.on == "batch" and act.stops == "picking" else act.stops,
        why=act.why,
        set_on=entry.happened_on,
        until=act.until,
        test=act.test,
        may_lift=act.may_lift,
        rule=act.rule,
        entry=entry.key,
        author=entry.author,
    )


def _label_days(entry: Entry, act: Treated, bed: str) -> tuple[Lock, ...]:
    if act.label_days == 0:
        return ()
    days = act.label_days if act.label_days is not None and act.label_days > 0 else None
    on: Literal["bed", "planting", "batch"] = "bed"
    subject = bed
    if entry.planting:
        on, subject = "planting", entry.planting
    elif entry.batch and not bed:
        on, subject = "batch", entry.batch
    return (
        Lock(
            lock=f"{LABEL_DAYS}:{entry.key}",
            on=on,
            subject=subject,
            stops="using" if on == "batch" else "picking",
            why=f"treated with {act.product}" + (", whose label was not read" if days is None else ""),
            set_on=entry.happened_on,
            until=None if days is None else _after(entry.happened_on, days),
            test="the days before picking are read on the label" if days is None else "",
            rule=LABEL_DAYS,
            source=RULES[LABEL_DAYS].source,
            entry=entry.key,
            author=entry.author,
        ),
    )


def _raw_manure(entry: Entry, act: Amended | Fed, bed: str) -> tuple[Lock, ...]:
    # A heap that is given a name but no bed is not yet on any soil.
    if entry.batch and not bed:
        return ()
    found = []
    if counts_as_raw(act):
        on = entry.happened_on
        said = isinstance(act, Amended) and act.state == "raw"
        found.append(
            Lock(
                lock=f"{RAW_MANURE}:{entry.key}",
                on="bed",
                subject=bed,
                stops="picking",
                why=f"{act.material}, {'raw' if said else 'not known to be finished'}",
                set_on=on,
                until=_after(on, RAW_MANURE_DAYS),
                off_soil_until=_after(on, RAW_MANURE_OFF_SOIL_DAYS),
                rule=RAW_MANURE,
                source=RULES[RAW_MANURE].source,
                entry=entry.key,
                author=entry.author,
            )
        )
    if is_of_pets(act.material):
        found.append(
            Lock(
                lock=f"{PETS_MANURE}:{entry.key}",
                on="bed",
                subject=bed,
                stops="picking",
                why=f"{act.material} in the soil",
                set_on=entry.happened_on,
                rule=PETS_MANURE,
                entry=entry.key,
                author=entry.author,
            )
        )
    return tuple(found)


def _carried_over(entry: Entry, act: Amended | Fed, bed: str) -> tuple[Lock, ...]:
    if isinstance(act, Fed) or not may_carry_spray(act):
        return ()
    batch = act.batch or entry.batch
    known = "sprayed" if act.spray_history == "sprayed" else "spray history not known"
    whole = f"{SPRAY_CARRIED_OVER}:{batch or entry.key}"
    places: list[tuple[Literal["bed", "batch"], str, Literal["planting", "using"]]] = []
    if batch:
        places.append(("batch", batch, "using"))
    if bed or not batch:
        places.append(("bed", bed, "planting"))
    return tuple(
        Lock(
            lock=whole if on == "batch" or not batch else f"{SPRAY_CARRIED_OVER}:{entry.key}",
            along_with=whole if on == "bed" and batch else "",
            on=on,
            subject=subject,
            stops=stops,
            why=f"{act.material}, {known}",
            set_on=entry.happened_on,
            test=BEAN_TEST,
            rule=SPRAY_CARRIED_OVER,
            source=RULES[SPRAY_CARRIED_OVER].source,
            entry=entry.key,
            author=entry.author,
        )
        for on, subject, stops in places
    )


def _after(day: date, days: int) -> date:
    """A day so many days on; the last day there is where that is past it."""
    return date.max if days > (date.max - day).days else day + timedelta(days=days)


def _words(material: str) -> list[str]:
    return _WORD.findall(material.casefold())
