"""A planting: one crop in one place from sowing to clearing, as it is after the last entry folded."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from typing import Final, Literal, TypeAlias, get_args

from spadework.garden.entries import Block, Entry, RowsRun, Spot
from spadework.garden.lookup import plain

Counts: TypeAlias = Literal["planted", "pricked out", "counted", "thinned"]
Estimates: TypeAlias = Literal["", "seeds", "counted in a stretch", "thinned to a spacing"]
Basis: TypeAlias = Counts | Estimates
How: TypeAlias = Literal["", "cleared", "lost", "lifted", "picked", "moved"]

EXACT: Final[frozenset[Basis]] = frozenset(get_args(Counts))
"""Numbers of plants somebody counted; the others are worked out."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stay:
    """A planting in a bed, from a day on until another on which it is there no more.

    Parameters
    ----------
    bed : str
    since : date
    until : date or None
    blocks : tuple of Block
        Where in the bed, as told; with no spots either, nobody said (garden.places assumes something).
    spots : tuple of Spot
        Places of single plants, as told.
    """

    bed: str
    since: date
    until: date | None = None
    blocks: tuple[Block, ...] = ()
    spots: tuple[Spot, ...] = ()

    def on(self, day: date) -> bool:
        """Whether it is there on a day."""
        return self.since <= day and (self.until is None or day < self.until)


@dataclass(frozen=True, slots=True, kw_only=True)
class Plants:
    """How many plants stand.

    Parameters
    ----------
    number : float or None
        As counted or worked out; None where only seeds are known, or nothing.
    at_most : int or None
        More cannot stand: seeds sown or plants set, less those taken since.
    basis : Basis
        What the number goes back to.
    on : date or None
        The day of that.
    taken : int
        Taken since: thinned, lifted, picked whole, lost, moved.
    per_row_m : float or None  [m-1]
        As last counted in a stretch of row.
    """

    number: float | None = None
    at_most: int | None = None
    basis: Basis = ""
    on: date | None = None
    taken: int = 0
    per_row_m: float | None = None

    def expected(self, seed_share: float | None = None) -> float | None:
        """Plants to expect now.

        Parameters
        ----------
        seed_share : float or None
            Share of seeds that come up where only seeds are known: germination times what the field takes.
        """
        if self.number is not None or self.at_most is None or seed_share is None:
            return self.number
        return min(float(self.at_most), max(0.0, (self.at_most + self.taken) * seed_share - self.taken))


@dataclass(frozen=True, slots=True, kw_only=True)
class Planting:
    """One crop in one place, from sowing to clearing.

    Parameters
    ----------
    key, crop, variety, method, lot, tray : str
        `crop` is a sheet's key, `tray` where it was sown in one.
    traits : tuple of str
        Of the variety, as told with the planting and with its seed lot ("self-setting").
    perennial : bool
        It stands over years.
    bed : str
        Where it stands, or stood last; empty while it is only in a tray.
    stays : tuple of Stay
    started_on : date
        Sown, or set out where it came as a plant.
    only_year : bool
        Of the day it started only the year is known.
    moved_on : tuple of date
        Days on which all of it was lifted and set anew in another place.
    sown_on, set_out_on : date or None
        Sown: of the planting it comes from, where it comes from one.
    sown_again : tuple of date
        Later sowings into the same planting.
    anew_on : date or None
        The last of them from which most of what stands comes: the row had been counted, and had failed.
    from_planting : str
    bought : bool
    rows, row_cm, row_length_m, spacing_cm, depth_mm : number or None
        As last said.
    rows_run : {"", "along", "across"}
        As last said; along the bed where nobody did.
    area_m2 : float or None  [m2]
        As said, or by its blocks, or by its rows and the bed's length, or by its plants and their spacing.
    area_assumed : bool
        Worked out rather than said.
    seeds, planted : int or None
        Seeds sown and plants set out, all together; of a row sown anew, the seeds of that sowing.
    plants : Plants
    stages : mapping of str to date
        First day each stage was seen: "up", "ready".
    not_yet : mapping of str to date
        Last day each stage was looked for and not seen.
    height_cm, leaves, width_mm : float or None
        As last measured.
    picked_kg, picked_pieces, lifted_kg, lifted_pieces, lost_plants : number
        Summed.
    first_picked_on, last_picked_on : date or None
    picking_over : bool
    ended_on : date or None
        First day it stands no more.
    ended_how : How
    ended_why : str
    last : mapping of str to date
        As in `Bed`, of acts that name the planting; `Garden.last_done` also looks at its bed.
    minutes : float  [min]
    insisted : bool
        The person insisted on an entry that seemed not possible.
    history : tuple of Entry
    """

    key: str
    crop: str
    variety: str = ""
    method: str = ""
    lot: str = ""
    tray: str = ""
    bed: str = ""
    traits: tuple[str, ...] = ()
    perennial: bool = False
    stays: tuple[Stay, ...] = ()
    started_on: date
    only_year: bool = False
    moved_on: tuple[date, ...] = ()
    sown_on: date | None = None
    set_out_on: date | None = None
    sown_again: tuple[date, ...] = ()
    anew_on: date | None = None
    from_planting: str = ""
    bought: bool = False
    rows: int | None = None
    row_cm: float | None = None
    row_length_m: float | None = None
    spacing_cm: float | None = None
    depth_mm: float | None = None
    rows_run: RowsRun = ""
    area_m2: float | None = None
    area_assumed: bool = False
    seeds: int | None = None
    planted: int | None = None
    plants: Plants
    stages: Mapping[str, date]
    not_yet: Mapping[str, date] = field(default_factory=dict)
    height_cm: float | None = None
    leaves: float | None = None
    width_mm: float | None = None
    picked_kg: float = 0.0
    picked_pieces: int = 0
    lifted_kg: float = 0.0
    lifted_pieces: int = 0
    lost_plants: int = 0
    first_picked_on: date | None = None
    last_picked_on: date | None = None
    picking_over: bool = False
    ended_on: date | None = None
    ended_how: How = ""
    ended_why: str = ""
    last: Mapping[str, date]
    minutes: float = 0.0
    insisted: bool = False
    history: tuple[Entry, ...] = ()

    @property
    def grows_since(self) -> date:
        """Day from which what stands now grows: it started, or was sown anew."""
        return self.anew_on or self.started_on

    def stands(self, day: date) -> bool:
        """Whether it stands on a day; on the day it ends it does not, on the day it starts it does."""
        return self.started_on <= day and (self.ended_on is None or day < self.ended_on)

    def bed_on(self, day: date) -> str:
        """Where it stands on a day; empty where it does not, or stands in no bed."""
        stay = self.stay_on(day)
        return "" if stay is None else stay.bed

    def stay_on(self, day: date) -> Stay | None:
        """Its stay in a bed on a day; None where it stands in none."""
        return next((stay for stay in self.stays if stay.on(day)), None)

    @property
    def blocks(self) -> tuple[Block, ...]:
        """Where in its bed it stands, or stood last, as told."""
        return self.stays[-1].blocks if self.stays else ()

    @property
    def spots(self) -> tuple[Spot, ...]:
        """Places of its single plants, as told."""
        return self.stays[-1].spots if self.stays else ()

    def has(self, trait: str) -> bool:
        """Whether its variety is told to have a trait, whatever its case and hyphens."""
        return plain(trait) in map(plain, self.traits)
