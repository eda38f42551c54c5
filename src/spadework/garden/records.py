"""What the garden holds: beds, kit, seed and people, each as it is after the last entry folded."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta

from spadework.garden.entries import Entry
from spadework.garden.geometry import Outline
from spadework.garden.locks import Role
from spadework.garden.tin import Germination


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """A piece of kit in a place.

    Parameters
    ----------
    item, bed, planting : str
        Keys; a planting only where the cover is on one planting and not on the bed.
    length_m : float or None  [m]
        How much of it is there; None where it is counted in pieces or not known.
    pieces : int or None
    assumed : bool
        The length was not said: the bed's own, or what was free.
    since : date
    opened : bool
        Opened for the day, or for bees.
    """

    item: str
    bed: str = ""
    planting: str = ""
    length_m: float | None = None
    pieces: int | None = None
    assumed: bool = False
    since: date
    opened: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Bed:
    """A place plants stand in: bed, tub, tunnel, frame or shelf.

    Parameters
    ----------
    key, name : str
    described : bool
        False where entries name it but nobody has said what it is.
    shape, is_round, soil, mulch, inside, shaded_by, water_by, height_m, depth_m, emitters, emitter_l_h,
    measured_l_min, week_allowance_l
        As in `BedSet`.
    rated_l_min : float or None  [l min-1]
        Flow as rated: `flow_l_min` of `BedSet`.
    outline : Outline or None
        None where it is not described, or cannot be.
    made_on, gone_on : date or None
    gone_why : str
    opened : bool or None
        Of a tunnel or frame: whether it stands open; None where nobody has said.
    batches : tuple of (str, date)
        Batches of manure and the like worked in, and when.
    last : mapping of str to date
        Last day of each kind of act, by its word: "watered", "weeded", "amended", "cover on".
    last_whole : mapping of str to date
        The same of acts that name no single planting, and so were done to all that stand in it.
    minutes : float  [min]
        Time spent, of all people together.
    history : tuple of Entry
        Everything that names it, in order.
    """

    key: str
    name: str
    described: bool = True
    shape: str = ""
    is_round: bool = False
    outline: Outline | None = None
    height_m: float = 0.0
    depth_m: float | None = None
    soil: str = ""
    mulch: str = ""
    inside: str = ""
    shaded_by: tuple[str, ...] = ()
    water_by: str = ""
    emitters: int | None = None
    emitter_l_h: float | None = None
    rated_l_min: float | None = None
    measured_l_min: float | None = None
    week_allowance_l: float | None = None
    made_on: date | None = None
    gone_on: date | None = None
    gone_why: str = ""
    opened: bool | None = None
    batches: tuple[tuple[str, date], ...] = ()
    last: Mapping[str, date]
    last_whole: Mapping[str, date]
    minutes: float = 0.0
    history: tuple[Entry, ...] = ()

    @property
    def area_m2(self) -> float | None:
        """Its ground, of a round one the disc; None where its size is not known."""
        if self.outline is None:
            return None
        return self.outline.area_m2 * (math.pi / 4 if self.is_round else 1.0)

    @property
    def volume_l(self) -> float | None:
        """Soil it holds, by its ground and depth; None where one is not known.  [l]"""
        area_m2 = self.area_m2
        return None if area_m2 is None or self.depth_m is None else area_m2 * self.depth_m * 1000

    @property
    def flow_l_min(self) -> float | None:
        """Water it gets a minute: as measured, else as rated, else by its emitters.  [l min-1]"""
        if self.measured_l_min is not None:
            return self.measured_l_min
        if self.rated_l_min is not None:
            return self.rated_l_min
        if self.emitters is None or self.emitter_l_h is None:
            return None
        return self.emitters * self.emitter_l_h / 60


@dataclass(frozen=True, slots=True, kw_only=True)
class KitItem:
    """A piece of kit, and where it is.

    Parameters
    ----------
    item : str
        Its name, which is its key.
    described : bool
        False where entries use it but nobody has said that the garden has it.
    sort, grade, kept : str
        `kept` is where it is when not in use.
    length_m, width_m : float or None  [m]
    pieces : int or None
    placed : tuple of Placed
    holds : tuple of str
        Plantings standing in it, of a tray.
    last : mapping of str to date
    """

    item: str
    described: bool = True
    sort: str = ""
    length_m: float | None = None
    width_m: float | None = None
    pieces: int | None = None
    grade: str = ""
    kept: str = ""
    placed: tuple[Placed, ...] = ()
    holds: tuple[str, ...] = ()
    last: Mapping[str, date]

    @property
    def gone(self) -> bool:
        """Told to be no more, and lying nowhere."""
        return self.pieces == 0 and self.length_m is None and not self.placed and not self.holds

    @property
    def free_m(self) -> float | None:
        """Metres not in use, below zero where more is out than there is; None where it has no length.  [m]"""
        if self.length_m is None:
            return None
        return self.length_m - sum(each.length_m or 0.0 for each in self.placed)

    @property
    def free_pieces(self) -> int | None:
        """Pieces not in use, counting one where the number was not said; None where it is not counted."""
        if self.pieces is None:
            return None
        out = sum(1 if each.pieces is None else each.pieces for each in self.placed)
        return self.pieces - out - len(self.holds)


@dataclass(frozen=True, slots=True, kw_only=True)
class SeedLot:
    """Seed in the tin.

    Parameters
    ----------
    lot, crop, variety : str
    described : bool
        False where it was sown from but nobody has said what it is.
    year : int or None
    seeds : int or None
        In the tin when it was last told.
    grams : float or None  [g]
    told_on : date or None
    sown : int
        Seeds sown since.
    uncounted : int
        Sowings since of which the number of seeds is not known.
    germination : Germination or None
        Of its last test; None where there was none.
    tested_on : date or None
    traits : tuple of str
    plantings : tuple of str
        Sown from it, ever.
    """

    lot: str
    crop: str = ""
    variety: str = ""
    described: bool = True
    year: int | None = None
    seeds: int | None = None
    grams: float | None = None
    told_on: date | None = None
    sown: int = 0
    uncounted: int = 0
    germination: Germination | None = None
    tested_on: date | None = None
    traits: tuple[str, ...] = ()
    plantings: tuple[str, ...] = ()

    @property
    def gone(self) -> bool:
        """Told to be no more, and not sown from since."""
        return self.seeds == 0 and self.grams is None and not self.sown and not self.uncounted

    def left(self, seeds_per_gram: float | None = None) -> float | None:
        """Seeds left, below zero where more was sown than there was; at most this where `uncounted`.

        Parameters
        ----------
        seeds_per_gram : float or None
            For a lot that was weighed and not counted; from the crop's sheet.
        """
        if self.seeds is not None:
            return float(self.seeds - self.sown)
        if self.grams is None or seeds_per_gram is None:
            return None
        return self.grams * seeds_per_gram - self.sown


@dataclass(frozen=True, slots=True, kw_only=True)
class Person:
    """Someone who works or reads here; `can` names work they know, `not_for` what they should not do."""

    key: str
    name: str
    role: Role = "helper"
    can: tuple[str, ...] = ()
    not_for: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Chore:
    """A person's own chore, which no planting asks for.

    Parameters
    ----------
    chore : str
        Its name, which is its key.
    minutes : float  [min]
    person, bed : str
        Whose it is, and where; empty for anyone's, and for anywhere.
    every_days : int or None
        None for once.
    first, last : date or None
        Not before and not after.
    set_on : date
    done_on, put_off_on : date or None
        Last.
    """

    chore: str
    minutes: float
    person: str = ""
    bed: str = ""
    every_days: int | None = None
    first: date | None = None
    last: date | None = None
    set_on: date
    done_on: date | None = None
    put_off_on: date | None = None

    @property
    def next_on(self) -> date | None:
        """First day it is to be done again, from when it was last done; None where it is done for good."""
        start = self.first or self.set_on
        if self.done_on is None:
            return start
        if self.every_days is None:
            return None
        due = max(start, self.done_on + timedelta(days=self.every_days))
        return due if self.last is None or due <= self.last else None

    def due(self, day: date) -> bool:
        """Whether it is to be done on a day, or is late: put off, it comes back the day after."""
        due, over = self.next_on, self.last is not None and day > self.last
        return due is not None and due <= day and not over and self.put_off_on != day


@dataclass(frozen=True, slots=True, kw_only=True)
class Before:
    """A crop that stood in a bed in a year.

    Parameters
    ----------
    bed, crop, family : str
        The family is empty where it is not known.
    year : int
    planting : str
        Empty where it was told of a time before the book.
    """

    bed: str
    year: int
    crop: str
    family: str = ""
    planting: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Watering:
    """Water given once.

    Parameters
    ----------
    on : date
    litres : float or None  [l]
        As said, or by minutes and the bed's flow, or by depth and area; None where neither is possible.
    depth_mm : float or None  [mm]
    planting, entry : str
    """

    on: date
    litres: float | None
    depth_mm: float | None
    planting: str
    entry: str
