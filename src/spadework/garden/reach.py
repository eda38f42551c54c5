"""Which locks reach a bed, a planting or a batch on a day."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from datetime import date

from spadework.garden.lock_rules import OFF_SOIL, OFF_SOIL_WHEN_SUPPORTED
from spadework.garden.locks import Lock, Stops
from spadework.garden.planting import Planting, Stay
from spadework.garden.records import Bed


def lineage(plantings: Mapping[str, Planting], key: str) -> tuple[Planting, ...]:
    """A planting and those it came from, itself first."""
    found: dict[str, Planting] = {}
    while key in plantings and key not in found:
        found[key] = plantings[key]
        key = found[key].from_planting
    return tuple(found.values())


def inside(beds: Mapping[str, Bed], key: str) -> tuple[str, ...]:
    """A bed, the tunnel or frame it is in, and what that is in."""
    found: dict[str, None] = {key: None}
    while key in beds and beds[key].inside and beds[key].inside not in found:
        key = beds[key].inside
        found[key] = None
    return tuple(found)


def off_soil(planting: Planting) -> bool:
    """Whether the eaten part is known not to touch the soil."""
    return planting.crop in OFF_SOIL or (
        planting.crop in OFF_SOIL_WHEN_SUPPORTED and "supported" in planting.last
    )


def locks_reaching(
    locks: Iterable[Lock],
    beds: Mapping[str, Bed],
    plantings: Mapping[str, Planting],
    day: date,
    *,
    bed: str = "",
    planting: str = "",
    batch: str = "",
    stops: Stops | None = None,
) -> Iterator[Lock]:
    """Locks in force on a day that reach what is named; all in force where nothing is."""
    asked = bool(bed or planting or batch)
    line = lineage(plantings, planting)
    if bed:
        standing = [key for key, each in plantings.items() if each.bed_on(day) == bed]
        line += tuple(each for key in standing for each in lineage(plantings, key))
    names = ({each.key for each in line} | {planting}) - {""}
    stood = [stay for each in line for stay in each.stays if stay.since <= day]
    stands = [stay for each in line[:1] for stay in each.stays if stay.on(day)]
    if bed:
        stands = [Stay(bed=bed, since=date.min)]
    spared = planting in plantings and not bed and off_soil(plantings[planting])
    for lock in locks:
        if not lock.in_force(day, off_soil=spared):
            continue
        # What stops picking goes with the plants wherever they are moved, and so may a person's own lock on
        # what is in the soil; the rest stays with the ground.
        goes_along = lock.stops == "picking" or (lock.on == "batch" and not lock.rule)
        stays = stood + stands if goes_along else stands
        anywhere = not lock.subject and bool(bed or planting)
        if not asked:
            reaches, through = True, False
        elif lock.on == "planting":
            reaches, through = lock.subject in names or anywhere, False
        elif lock.on == "bed":
            reaches = anywhere or any(_held(lock, stay, beds) for stay in stays)
            through = False
        else:
            reaches = bool(batch) and lock.subject in ("", batch)
            through = not reaches and any(_worked_in(lock, stay, beds, day) for stay in stays)
        # A batch that is in the soil already: a rule knows what it harms there (what is planted), a person's
        # own lock may be about anything.
        harms = through and (stops == "planting" or not lock.rule)
        if harms or ((reaches or through) and stops in (None, lock.stops)):
            yield lock


def _held(lock: Lock, stay: Stay, beds: Mapping[str, Bed]) -> bool:
    return lock.subject in inside(beds, stay.bed) and (stay.until is None or lock.set_on < stay.until)


def _worked_in(lock: Lock, stay: Stay, beds: Mapping[str, Bed], day: date) -> bool:
    return any(
        batch == lock.subject and on <= day and (stay.until is None or on < stay.until)
        for key in inside(beds, stay.bed)
        for batch, on in (beds[key].batches if key in beds else ())
    )
