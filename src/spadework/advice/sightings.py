"""What the book has seen of troubles: which, where, which event of their year; and where none was found."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from typing import Final

from spadework.crops.troubles import trouble_names
from spadework.garden.entries import Entry, Seen
from spadework.garden.state import Garden

NAMED_SORTS: Final = ("", "pest", "disease", "damage")


@dataclass(frozen=True, kw_only=True)
class Sighting:
    """One trouble seen, or looked for and not found.

    Parameters
    ----------
    trouble : str
        Key of its sheet.
    on : date
    event : str
        Key of an event of its year; empty where nobody said.
    bed, planting : str
        Keys; empty where it was seen in no one place.
    clean : bool
        It was looked for and none was found.
    """

    trouble: str
    on: date
    event: str = ""
    bed: str = ""
    planting: str = ""
    clean: bool = False


def sightings(garden: Garden, since: date, until: date) -> tuple[Sighting, ...]:
    """Troubles seen from one day to another, in order of the book.

    Notes
    -----
    Words without a sheet's key count where they are a name of a trouble and nothing else.
    """
    return tuple(_found(garden.entries, since, until))


def _found(entries: tuple[Entry, ...], since: date, until: date) -> Iterator[Sighting]:
    for entry in entries:
        act = entry.act
        if not isinstance(act, Seen) or not since <= entry.happened_on <= until:
            continue
        key = act.trouble or (named_trouble(act.what) if act.sort in NAMED_SORTS else "")
        if key:
            yield Sighting(
                trouble=key,
                on=entry.happened_on,
                event=act.event,
                bed=entry.bed,
                planting=entry.planting,
                clean=act.plants == 0,
            )


def named_trouble(words: str) -> str:
    """Key of the trouble that these words name and nothing else; empty where there is none."""
    plain = " ".join(words.casefold().replace("-", " ").split()).removesuffix(" eggs")
    names = trouble_names()
    return names.get(plain) or names.get(plain.removesuffix("s")) or names.get(f"{plain}s") or ""


def events_seen(found: tuple[Sighting, ...], trouble: str) -> Mapping[str, date]:
    """First day each event of a trouble was seen, by the event's key."""
    seen: dict[str, date] = {}
    for each in found:
        if each.trouble == trouble and each.event and not each.clean:
            seen[each.event] = min(each.on, seen.get(each.event, each.on))
    return seen


def last_looked(found: tuple[Sighting, ...], trouble: str, bed: str = "") -> date | None:
    """Last day somebody looked for a trouble, found or not, in a bed or anywhere; None where nobody did."""
    return max(
        (each.on for each in found if each.trouble == trouble and (not bed or each.bed in (bed, ""))),
        default=None,
    )


def last_seen(found: tuple[Sighting, ...], trouble: str, bed: str = "") -> date | None:
    """Last day it was found, in a bed or anywhere; None where it was not."""
    return max(
        (
            each.on
            for each in found
            if each.trouble == trouble and not each.clean and (not bed or each.bed in (bed, ""))
        ),
        default=None,
    )
