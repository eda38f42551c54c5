"""The garden while it is being folded: the same records, not yet frozen."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass, field
from datetime import date
from types import MappingProxyType

from spadework.errors import ParameterError
from spadework.garden.entries import BedSet, Entry, KitSet, LotSet, RowsRun
from spadework.garden.geometry import Outline
from spadework.garden.locks import Lock
from spadework.garden.planting import Basis, How, Planting, Plants, Stay
from spadework.garden.records import Bed, Before, Chore, KitItem, Person, Placed, SeedLot
from spadework.garden.tin import Germination


@dataclass(slots=True)
class BedDraft:
    """A bed; `told` is None where entries name it but nobody has said what it is."""

    key: str
    told: BedSet | None = None
    made_on: date | None = None
    gone_on: date | None = None
    gone_why: str = ""
    mulch: str = ""
    measured_l_min: float | None = None
    opened: bool | None = None
    batches: list[tuple[str, date]] = field(default_factory=list)
    last: dict[str, date] = field(default_factory=dict)
    last_whole: dict[str, date] = field(default_factory=dict)
    minutes: float = 0.0
    history: list[Entry] = field(default_factory=list)

    def outline(self) -> Outline | None:
        """Its rectangle; None where it is not described, or its sides are not possible."""
        told = self.told
        if told is None:
            return None
        try:
            return Outline(
                x_m=told.x_m,
                y_m=told.y_m,
                width_m=told.width_m,
                length_m=told.length_m,
                turn_deg=told.turn_deg,
            )
        except ParameterError:
            return None

    def frozen(self) -> Bed:
        """As it is now."""
        told = self.told or BedSet(name=self.key, depth_m=0.0, soil="")
        known = self.told is not None
        return Bed(
            key=self.key,
            name=told.name or self.key,
            described=known,
            shape=told.shape if known else "",
            is_round=told.is_round,
            outline=self.outline(),
            height_m=told.height_m,
            depth_m=told.depth_m if known else None,
            soil=told.soil,
            mulch=self.mulch,
            inside=told.inside,
            shaded_by=told.shaded_by,
            water_by=told.water_by,
            emitters=told.emitters,
            emitter_l_h=told.emitter_l_h,
            rated_l_min=told.flow_l_min,
            measured_l_min=self.measured_l_min,
            week_allowance_l=told.week_allowance_l,
            made_on=self.made_on,
            gone_on=self.gone_on,
            gone_why=self.gone_why,
            opened=self.opened,
            batches=tuple(self.batches),
            last=MappingProxyType(self.last),
            last_whole=MappingProxyType(self.last_whole),
            minutes=self.minutes,
            history=tuple(self.history),
        )


@dataclass(slots=True)
class PlantsDraft:
    """How many plants stand."""

    number: float | None = None
    at_most: int | None = None
    basis: Basis = ""
    on: date | None = None
    taken: int = 0
    per_row_m: float | None = None

    def settle(self, number: float, basis: Basis, on: date) -> None:
        """A new number, whatever was thought before."""
        self.number, self.basis, self.on, self.taken = number, basis, on, 0

    def take(self, count: int) -> None:
        """Plants taken away; never below none."""
        self.taken += count
        if self.number is not None:
            self.number = max(0.0, self.number - count)
        if self.at_most is not None:
            self.at_most = max(0, self.at_most - count)

    def copy(self) -> PlantsDraft:
        """The same, to go its own way."""
        return PlantsDraft(self.number, self.at_most, self.basis, self.on, self.taken, self.per_row_m)

    def frozen(self) -> Plants:
        """As they are now."""
        return Plants(
            number=self.number,
            at_most=self.at_most,
            basis=self.basis,
            on=self.on,
            taken=self.taken,
            per_row_m=self.per_row_m,
        )


@dataclass(slots=True)
class PlantingDraft:
    """A planting. `ran_out` marks an end that was worked out from the numbers, which a count takes back."""

    key: str
    crop: str
    started_on: date
    variety: str = ""
    method: str = ""
    lot: str = ""
    tray: str = ""
    in_tray: str = ""
    bed: str = ""
    traits: list[str] = field(default_factory=list)
    perennial: bool = False
    only_year: bool = False
    moved_on: list[date] = field(default_factory=list)
    stays: list[Stay] = field(default_factory=list)
    sown_on: date | None = None
    set_out_on: date | None = None
    sown_again: list[date] = field(default_factory=list)
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
    seeds: int | None = None
    planted: int | None = None
    plants: PlantsDraft = field(default_factory=PlantsDraft)
    stages: dict[str, date] = field(default_factory=dict)
    not_yet: dict[str, date] = field(default_factory=dict)
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
    ran_out: bool = False
    last: dict[str, date] = field(default_factory=dict)
    minutes: float = 0.0
    insisted: bool = False
    history: list[Entry] = field(default_factory=list)

    def frozen(self, outline: Outline | None, lot_traits: Collection[str] = ()) -> Planting:
        """As it is now, in a bed of a size, from a seed lot with traits."""
        area_m2 = told_m2 = self.area_m2 if self.area_m2 is not None else self._blocks_area()
        if area_m2 is None:
            area_m2 = self._area(outline)
        return Planting(
            key=self.key,
            crop=self.crop,
            variety=self.variety,
            method=self.method,
            lot=self.lot,
            tray=self.tray,
            bed=self.bed,
            traits=tuple(dict.fromkeys((*self.traits, *lot_traits))),
            perennial=self.perennial,
            stays=tuple(self.stays),
            started_on=self.started_on,
            only_year=self.only_year,
            moved_on=tuple(self.moved_on),
            sown_on=self.sown_on,
            set_out_on=self.set_out_on,
            sown_again=tuple(self.sown_again),
            anew_on=self.anew_on,
            from_planting=self.from_planting,
            bought=self.bought,
            rows=self.rows,
            row_cm=self.row_cm,
            row_length_m=self.row_length_m,
            spacing_cm=self.spacing_cm,
            depth_mm=self.depth_mm,
            rows_run=self.rows_run,
            area_m2=area_m2,
            area_assumed=told_m2 is None and area_m2 is not None,
            seeds=self.seeds,
            planted=self.planted,
            plants=self.plants.frozen(),
            stages=MappingProxyType(self.stages),
            not_yet=MappingProxyType(self.not_yet),
            height_cm=self.height_cm,
            leaves=self.leaves,
            width_mm=self.width_mm,
            picked_kg=self.picked_kg,
            picked_pieces=self.picked_pieces,
            lifted_kg=self.lifted_kg,
            lifted_pieces=self.lifted_pieces,
            lost_plants=self.lost_plants,
            first_picked_on=self.first_picked_on,
            last_picked_on=self.last_picked_on,
            picking_over=self.picking_over,
            ended_on=self.ended_on,
            ended_how=self.ended_how,
            ended_why=self.ended_why,
            last=MappingProxyType(self.last),
            minutes=self.minutes,
            insisted=self.insisted,
            history=tuple(self.history),
        )

    def _blocks_area(self) -> float | None:
        blocks = self.stays[-1].blocks if self.stays else ()
        return sum(block.width_m * block.length_m for block in blocks) if blocks else None

    def _area(self, outline: Outline | None) -> float | None:
        """Its rows times the space between them and their length; else its plants times their spacing."""
        length_m = self.row_length_m if self.row_length_m is not None or outline is None else outline.length_m
        if self.rows is not None and self.row_cm is not None and length_m is not None:
            area_m2 = self.rows * self.row_cm / 100 * length_m
        elif self.planted is not None and self.spacing_cm is not None:
            across_cm = self.row_cm if self.row_cm is not None else self.spacing_cm
            area_m2 = self.planted * self.spacing_cm * across_cm / 1e4
        else:
            return None
        return area_m2 if outline is None else min(area_m2, outline.area_m2)


@dataclass(slots=True)
class KitDraft:
    """A piece of kit; pieces in place are kept by bed and planting."""

    item: str
    told: KitSet | None = None
    placed: dict[tuple[str, str], Placed] = field(default_factory=dict)
    last: dict[str, date] = field(default_factory=dict)

    def free_m(self) -> float | None:
        """Metres not in use."""
        if self.told is None or self.told.length_m is None:
            return None
        return self.told.length_m - sum(each.length_m or 0.0 for each in self.placed.values())

    def frozen(self, holds: Collection[str]) -> KitItem:
        """As it is now, with plantings standing in it."""
        told = self.told
        return KitItem(
            item=self.item,
            described=told is not None,
            sort=told.sort if told else "",
            length_m=told.length_m if told else None,
            width_m=told.width_m if told else None,
            pieces=told.pieces if told else None,
            grade=told.grade if told else "",
            kept=told.kept if told else "",
            placed=tuple(self.placed.values()),
            holds=tuple(holds),
            last=MappingProxyType(self.last),
        )


@dataclass(slots=True)
class LotDraft:
    """A seed lot; sowings are kept with their place in the order, to know which came after it was told."""

    lot: str
    told: LotSet | None = None
    told_at: tuple[date, str] | None = None
    retold: bool = False
    sowings: list[tuple[tuple[date, str], int | None, str]] = field(default_factory=list)
    germination: Germination | None = None
    tested_on: date | None = None

    def frozen(self) -> SeedLot:
        """As it is now."""
        told = self.told
        since = [seeds for at, seeds, _ in self.sowings if self._after_told(at)]
        return SeedLot(
            lot=self.lot,
            crop=told.crop if told else "",
            variety=told.variety if told else "",
            described=told is not None,
            year=told.year if told else None,
            seeds=told.seeds if told else None,
            grams=told.grams if told else None,
            told_on=self.told_at[0] if self.told_at else None,
            sown=sum(seeds for seeds in since if seeds is not None),
            uncounted=sum(seeds is None for seeds in since),
            germination=self.germination,
            tested_on=self.tested_on,
            traits=told.traits if told else (),
            plantings=tuple(dict.fromkeys(planting for _, _, planting in self.sowings)),
        )

    def _after_told(self, at: tuple[date, str]) -> bool:
        # A lot is in the tin before it is sown from; told anew on a day of sowing, what was written first
        # happened first.
        if self.told_at is None:
            return False
        return at > self.told_at or (not self.retold and at[0] == self.told_at[0])


@dataclass(slots=True)
class Draft:
    """The whole garden."""

    picked_whole: Collection[str] = ()
    beds: dict[str, BedDraft] = field(default_factory=dict)
    plantings: dict[str, PlantingDraft] = field(default_factory=dict)
    kit: dict[str, KitDraft] = field(default_factory=dict)
    tin: dict[str, LotDraft] = field(default_factory=dict)
    people: dict[str, Person] = field(default_factory=dict)
    chores: dict[str, Chore] = field(default_factory=dict)
    locks: list[Lock] = field(default_factory=list)
    told_before: list[Before] = field(default_factory=list)
    strays: list[Entry] = field(default_factory=list)

    def bed(self, key: str) -> BedDraft:
        """A bed, made up where it was never described, so that nothing said of it is lost."""
        found = self.beds.get(key)
        if found is None:
            found = self.beds[key] = BedDraft(key)
        return found
