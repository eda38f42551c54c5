"""The garden as the book tells it: immutable, and able to answer without looking anywhere else."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date, timedelta
from typing import Final

from spadework.garden.acts import act_word
from spadework.garden.entries import Entry, Watered
from spadework.garden.locks import Lock, Role, Stops
from spadework.garden.locks import may_lift as _may_lift
from spadework.garden.lookup import key_of
from spadework.garden.places import Free, Laid, Room, free_ground, laid_out
from spadework.garden.planting import Planting, Plants, Stay
from spadework.garden.reach import lineage, locks_reaching
from spadework.garden.records import Bed, Before, Chore, KitItem, Person, Placed, SeedLot, Watering

__all__ = [
    "Bed",
    "Before",
    "Chore",
    "Garden",
    "KitItem",
    "Lock",
    "Person",
    "Placed",
    "Planting",
    "Plants",
    "SeedLot",
    "Stay",
    "Watering",
]


_ONE_DAY: Final = timedelta(days=1)


@dataclass(frozen=True, slots=True, kw_only=True)
class Garden:
    """Everything the book says stands, is owned and is locked.

    Parameters
    ----------
    day : date or None
        What happened later is not in it; None for all of it.
    beds, plantings, kit, tin, people, chores : mapping
        By key.
    locks : tuple of Lock
        All that ever were, by day; `locks_on` gives those in force.
    told_before : tuple of Before
        What stood where before the book, with the family as told.
    entries : tuple of Entry
        Those that stand, in the order they were folded.
    strays : tuple of Entry
        Those that name a planting the book does not know.
    keys, undone : frozenset of str
        Keys of all entries known, and of those withdrawn or corrected. Two gardens are equal whatever these.
    picked_whole : frozenset of str
        Crops picked as whole plants, as given to the fold.

    Notes
    -----
    Numbers (plants, metres free, seeds left) are those after the last entry. For a past day fold up to that
    day; `standing`, `locks_on` and `before` take any day.
    """

    day: date | None
    beds: Mapping[str, Bed]
    plantings: Mapping[str, Planting]
    kit: Mapping[str, KitItem]
    tin: Mapping[str, SeedLot]
    people: Mapping[str, Person]
    chores: Mapping[str, Chore]
    locks: tuple[Lock, ...]
    told_before: tuple[Before, ...]
    entries: tuple[Entry, ...]
    strays: tuple[Entry, ...]
    keys: frozenset[str] = field(compare=False)
    undone: frozenset[str] = field(compare=False)
    picked_whole: frozenset[str] = frozenset()

    @property
    def last_day(self) -> date:
        """The day it is told up to: the one asked for, else that of the last entry."""
        if self.day is not None or not self.entries:
            return self.day or date.min
        return self.entries[-1].happened_on

    # -- by name -------------------------------------------------------------------------------------

    def bed(self, name: str) -> Bed:
        """A bed by key or name.

        Raises
        ------
        UnknownName
            If none is called that, or several are.
        """
        return self.beds[key_of(name, {key: bed.name for key, bed in self.beds.items()}, "bed")]

    def planting(self, key: str) -> Planting:
        """A planting by key.

        Raises
        ------
        UnknownName
        """
        return self.plantings[key_of(key, {each: each for each in self.plantings}, "planting")]

    def item(self, name: str) -> KitItem:
        """A piece of kit by name.

        Raises
        ------
        UnknownName
        """
        return self.kit[key_of(name, {each: each for each in self.kit}, "piece of kit")]

    def lot(self, name: str) -> SeedLot:
        """A seed lot by key.

        Raises
        ------
        UnknownName
        """
        return self.tin[key_of(name, {each: each for each in self.tin}, "seed lot")]

    # -- what stands ---------------------------------------------------------------------------------

    def standing(self, day: date | None = None, *, bed: str = "") -> tuple[Planting, ...]:
        """Plantings that stand on a day, by the day they started.

        Parameters
        ----------
        day : date or None
            None for after the last entry.
        bed : str
            Key of one bed; empty for all, and for those in trays that stand in no bed.
        """
        if day is None:
            found = [p for p in self.plantings.values() if p.ended_on is None and (not bed or p.bed == bed)]
        else:
            found = [
                p for p in self.plantings.values() if p.stands(day) and (not bed or p.bed_on(day) == bed)
            ]
        return tuple(sorted(found, key=lambda p: (p.started_on, p.key)))

    def laid_out(self, bed: str, day: date, usual: Mapping[str, Room] | None = None) -> tuple[Laid, ...]:
        """Where in a bed everything stands on a day, told or assumed; nothing where its size is not known.

        Parameters
        ----------
        bed : str
            By key.
        day : date
        usual : mapping of str to Room or None
            Usual distances by crop, for what nobody said.
        """
        outline = self.beds[bed].outline if bed in self.beds else None
        return () if outline is None else laid_out(outline, self.standing(day, bed=bed), day, usual)

    def free_ground(self, bed: str, day: date, usual: Mapping[str, Room] | None = None) -> Free | None:
        """What a bed leaves free on a day, by key; None where its size is not known."""
        outline = self.beds[bed].outline if bed in self.beds else None
        return None if outline is None else free_ground(outline, self.standing(day, bed=bed), day, usual)

    def before(
        self, bed: str, family_of: Mapping[str, str] | None = None, *, until: date | None = None
    ) -> tuple[Before, ...]:
        """What stood in a bed, newest year first: told of the time before the book, and from the book.

        Parameters
        ----------
        bed : str
            By key.
        family_of : mapping of str to str or None
            Crop key to family; a family told with an entry goes before it.
        until : date or None
            Only plantings that came before this day; None for all.

        Notes
        -----
        A planting that stands over New Year is listed in every year it stood.
        """
        families = family_of or {}
        found = [
            Before(bed=bed, year=b.year, crop=b.crop, family=b.family or families.get(b.crop, ""))
            for b in self.told_before
            if b.bed == bed and (until is None or b.year <= until.year)
        ]
        for planting in self.plantings.values():
            years: set[int] = set()
            for stay in planting.stays:
                if stay.bed != bed or (until is not None and stay.since >= until):
                    continue
                ends = [day - _ONE_DAY for day in (stay.until, until) if day is not None] or [self.last_day]
                years.update(range(stay.since.year, max(stay.since, min(ends)).year + 1))
            found += [
                Before(
                    bed=bed,
                    year=year,
                    crop=planting.crop,
                    family=families.get(planting.crop, ""),
                    planting=planting.key,
                )
                for year in years
            ]
        return tuple(sorted(found, key=lambda b: (-b.year, b.crop, b.planting)))

    def lineage(self, planting: str) -> tuple[Planting, ...]:
        """A planting and those it came from, itself first."""
        return lineage(self.plantings, planting)

    def history(self, planting: str) -> tuple[Entry, ...]:
        """Everything done to a planting and to those it came from, in order."""
        names = {entry.key for each in self.lineage(planting) for entry in each.history}
        return tuple(entry for entry in self.entries if entry.key in names)

    # -- what was done -------------------------------------------------------------------------------

    def last_done(self, *acts: str, bed: str = "", planting: str = "") -> date | None:
        """Last day one of some acts was done to a bed, or to a planting or its bed while it stood there.

        Parameters
        ----------
        *acts : str
            As in `Bed.last`: "watered", or "weeded" and "hoed".
        bed, planting : str
            One of them, by key.
        """
        days: list[date] = []
        if bed in self.beds:
            days += [day for act, day in self.beds[bed].last.items() if act in acts]
        for each in self.lineage(planting):
            days += [day for act, day in each.last.items() if act in acts]
            for stay in each.stays:
                here = self.beds[stay.bed]
                last = [day for act, day in here.last_whole.items() if act in acts]
                if stay.until is None or all(day < stay.until for day in last):
                    days += [day for day in last if day >= stay.since]
                else:
                    days += [
                        entry.happened_on
                        for entry in here.history
                        if stay.on(entry.happened_on) and not entry.planting and act_word(entry.act) in acts
                    ]
        return max(days, default=None)

    def last_entries(self, *, bed: str = "", planting: str = "", count: int = 5) -> tuple[Entry, ...]:
        """The last entries of a bed or planting, newest first."""
        history: tuple[Entry, ...] = ()
        if planting:
            history = self.history(planting)
        elif bed in self.beds:
            history = self.beds[bed].history
        return tuple(reversed(history[-count:])) if count > 0 else ()

    def waterings(self, bed: str, *, since: date | None = None) -> tuple[Watering, ...]:
        """Water given to a bed, in litres and as a depth where that can be known.

        Notes
        -----
        Minutes are turned into litres by the bed's flow as it is now, not as it was then.
        """
        history = self.beds[bed].history if bed in self.beds else ()
        return tuple(
            self._watering(entry, entry.act, bed)
            for entry in history
            if isinstance(entry.act, Watered) and (since is None or entry.happened_on >= since)
        )

    def _watering(self, entry: Entry, act: Watered, bed: str) -> Watering:
        here = self.beds[bed]
        own = self.plantings.get(entry.planting)
        area_m2 = here.area_m2 if own is None or own.area_m2 is None else own.area_m2
        litres, depth_mm = act.litres, act.depth_mm
        if litres is None and act.minutes is not None and here.flow_l_min is not None:
            litres = act.minutes * here.flow_l_min
        if litres is None and depth_mm is not None and area_m2:
            litres = depth_mm * area_m2
        if depth_mm is None and litres is not None and area_m2:
            depth_mm = litres / area_m2
        return Watering(
            on=entry.happened_on,
            litres=litres,
            depth_mm=depth_mm,
            planting=entry.planting,
            entry=entry.key,
        )

    # -- kit, people, locks --------------------------------------------------------------------------

    def covers(self, *, bed: str = "", planting: str = "") -> tuple[Placed, ...]:
        """Kit on a bed, or on a planting: its own and what lies over its whole bed."""
        if planting:
            bed = self.plantings[planting].bed if planting in self.plantings else ""
        return tuple(
            placed
            for item in self.kit.values()
            for placed in item.placed
            if placed.bed == bed and (not planting or placed.planting in ("", planting))
        )

    @property
    def roles(self) -> dict[str, Role]:
        """Role by person's key."""
        return {key: person.role for key, person in self.people.items()}

    def may_lift(self, lock: Lock, person: str) -> bool:
        """Whether a person may lift a lock."""
        return _may_lift(lock, person, self.roles)

    def lifters(self, lock: Lock) -> tuple[Person, ...]:
        """The people known who may lift a lock."""
        return tuple(person for key, person in self.people.items() if self.may_lift(lock, key))

    def locks_on(
        self, day: date, *, bed: str = "", planting: str = "", batch: str = "", stops: Stops | None = None
    ) -> tuple[Lock, ...]:
        """Locks in force on a day, for a bed, a planting or a batch, or all of them.

        Parameters
        ----------
        day : date
        bed : str
            Locks on the bed, on the tunnel or frame it is in, on batches worked into it, and on plantings
            that stand in it.
        planting : str
            Locks on it and on those it came from, and of every bed while it stood there. A rule's shorter
            wait counts where its crop is known not to touch the soil.
        batch : str
        stops : {"picking", "planting", "using"} or None
            Only locks that stop this.
        """
        reaching = locks_reaching(
            self.locks,
            self.beds,
            self.plantings,
            day,
            bed=bed,
            planting=planting,
            batch=batch,
            stops=stops,
        )
        return tuple(reaching)
