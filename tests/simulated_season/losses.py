"""The true garden of a simulated season: grows, suffers and is harvested day by day.

Knows what is done only through entries of the book, and nothing of the program's advice.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable
from dataclasses import dataclass, field
from typing import Final

import numpy as np

from simulated_season.nature import Curves, Nature, built_up
from spadework.garden import entries as kinds
from spadework.garden.entries import Payload

HAZARDS: Final = {
    "damp": ("keep damp", "lid"),
    "stand": ("sow again",),
    "weeds": ("weed",),
    "thirst": ("water",),
    "crowding": ("thin",),
    "frost": ("cover",),
    "birds": ("guard",),
    "falls": ("support",),
    "light": ("earth up",),
}
"""Each loss with the kinds of jobs that save from it; a loss nobody can act on is left out of a run."""

ROW_CM: Final = 360.0
SEEDLINGS: Final = 108.0
"""A planting is 3.6 m of row; where it comes up well three in four of forty seeds a metre stand."""

CLEAN: Final = 0.03
"""Cover of weeds left after hoeing on a dry day."""

MULCH_HOLDS: Final = 0.35
"""Weeds and drying under mulch, as a share of those on bare soil."""

LID_HOLDS: Final = 0.3
"""Drying under a board or sacking, as a share of that in the open."""

DARK_DAY: Final = 0.15
"""Share of seedlings that a day under a lid spoils."""

COVER_GAIN_C: Final = 1.5
"""What a fleece gains at the leaf on most nights, with a spread of as much."""


@dataclass(kw_only=True)
class Ground:
    """One bed."""

    area_m2: float
    water_mm: float
    weeds: float = CLEAN
    mulched: bool = False


@dataclass(kw_only=True)
class Plant:
    """One planting. `kept` is the share that losses have left; `taken` what was brought in, of one crop."""

    key: str
    bed: str
    crop: str
    worth: float
    nature: Nature
    sown: bool
    stand: float = 1.0
    kept: float = 1.0
    warmth: float = 0.0
    up: bool = False
    up_days: int = 0
    dry_days: float = 0.0
    left: float | None = None
    earthed: int = 0
    supported: bool = False
    guarded: bool = False
    covered: bool = False
    lidded: bool = False
    over_days: float = 0.0
    unpicked_days: float = 0.0
    bears: float = 0.0
    ripe: float = 0.0
    past: float = 0.0
    taken: float = 0.0
    gone: bool = False
    lost: dict[str, float] = field(default_factory=dict)

    @property
    def way(self) -> float:
        """Share of the way from emergence, or setting out, to ready."""
        return self.warmth / self.nature.ready_cd if self.up else 0.0

    @property
    def plants(self) -> float:
        """How many stand."""
        came = SEEDLINGS * self.stand
        return came if self.left is None else min(self.left, came)

    @property
    def crowd(self) -> float:
        """How crowded: 0 with the room each wants, 1 with three for one."""
        room = ROW_CM / self.nature.room_cm
        return min(max((self.plants / room - 1.0) / 2.0, 0.0), 1.0)

    @property
    def ready(self) -> bool:
        return self.way >= 1.0

    @property
    def good(self) -> bool:
        """Whether it stands, and is not over: it grows on, bears on, or is still good to eat."""
        if self.gone or not self.up or self.kept * self._thick < 0.05:
            return False
        over = self.bears >= self.nature.bears_d if self.repeats else self.over_days > self.nature.holds_d
        return not over

    @property
    def repeats(self) -> bool:
        return self.nature.bears_d > 0.0

    def suffer(self, share: float, why: str) -> None:
        """Lose a share of what is left."""
        share = min(max(share, 0.0), 1.0)
        to_come = 1.0 - self.bears / self.nature.bears_d if self.repeats else 1.0
        self.lost[why] = self.lost.get(why, 0.0) + self.kept * share * max(to_come, 0.0)
        self.kept *= 1.0 - share

    def harvest(self, *, all_of_it: bool) -> float:
        """Take what is ripe, or the whole; the share of a full crop it brings."""
        if self.gone or not self.up:
            self.gone = self.gone or all_of_it
            return 0.0
        if self.repeats:
            got, self.ripe, self.past, self.unpicked_days = self.ripe, 0.0, 0.0, 0.0
        else:
            early = min(self.way, 1.0) ** 2
            got = self.kept * self._thick * early * self._good if all_of_it or self.ready else 0.0
            self.gone = self.gone or got > 0.0
        self.gone = self.gone or all_of_it
        self.taken += got
        return got

    @property
    def _thick(self) -> float:
        """Where plants stand too thin those left fill half of the room."""
        return min(1.0, self.stand / 0.6) if self.sown else 1.0

    @property
    def _good(self) -> float:
        return float(np.exp(-max(self.over_days - self.nature.holds_d, 0.0) / self.nature.holds_d))

    def bear(self) -> None:
        """One day of bearing: fruit grows, and what was left too long keeps new fruit from setting."""
        if not self.repeats or not self.ready or self.bears >= self.nature.bears_d:
            return
        day = 1.0 / self.nature.bears_d
        setting = 1.0 - min(0.8 * self.past / (4.0 * day * self.nature.holds_d), 0.8)
        self.ripe += day * self.kept * self._thick * setting
        self.bears += 1.0
        self.unpicked_days += 1.0
        spoils = self.ripe / self.nature.holds_d * (self.unpicked_days > self.nature.holds_d)
        self.ripe -= spoils
        self.past += spoils


class TrueGarden:
    """All beds and plantings of one run.

    Parameters
    ----------
    curves : Curves
    natures : dict of str to Nature
    served : collection of str
        Kinds of jobs the program knows; a hazard none of them acts on is left out.
    seed : int
        Of chance events: birds, gales, failed sowings. The same for every way of working that is compared.
    """

    def __init__(
        self, curves: Curves, natures: dict[str, Nature], served: Collection[str], seed: int
    ) -> None:
        self.curves, self.natures, self.seed = curves, natures, seed
        self.on = {name for name, saving in HAZARDS.items() if set(saving) & set(served)}
        self.beds: dict[str, Ground] = {}
        self.plants: dict[str, Plant] = {}
        self.rained_mm = 0.0

    def _chance(self, day: int, what: str) -> np.random.Generator:
        return np.random.default_rng([self.seed, day, *what.encode()])

    # -- what is done --------------------------------------------------------------------------------

    def start(self, act: kinds.Sown | kinds.PlantedOut, bed: str, worth: float, area_m2: float) -> None:
        """A planting begins."""
        sown = isinstance(act, kinds.Sown)
        self.beds.setdefault(bed, Ground(area_m2=area_m2, water_mm=self.curves.water_mm))
        plant = Plant(
            key=act.planting, bed=bed, crop=act.crop, worth=worth, nature=self.natures[act.crop], sown=sown
        )
        plant.up = plant.nature.up_cd == 0.0
        plant.stand = self._stand(plant, 0)
        self.plants[plant.key] = plant

    def _stand(self, plant: Plant, again: int) -> float:
        if not plant.sown or plant.nature.up_cd == 0.0 or "stand" not in self.on:
            return 1.0
        chance = self._chance(again, plant.key)
        return float(chance.uniform(0.0, 0.3)) if chance.random() < self.curves.fails else 1.0

    def apply(self, act: Payload, bed: str, key: str, day: int) -> float:
        """What an entry does; the share of a full crop it brings in."""
        plant, ground = self.plants.get(key), self.beds.get(bed)
        match act:
            case kinds.Watered(litres=litres, depth_mm=depth) if ground is not None:
                mm = depth if depth is not None else (litres or 0.0) / ground.area_m2
                ground.water_mm = min(ground.water_mm + mm, self.curves.water_mm)
                for each in [plant] if plant is not None else self._in(bed):
                    each.dry_days = 0.0
            case kinds.Tended(act=("weeded" | "hoed") as how) if ground is not None:
                wet = how == "hoed" and self.rained_mm > 3.0
                ground.weeds = min(ground.weeds, 0.3 * ground.weeds if wet else CLEAN)
            case kinds.Tended(act="mulched") if ground is not None:
                ground.mulched = True
            case kinds.Ended() if plant is not None:
                return plant.harvest(all_of_it=True)
            case kinds.Lifted() if plant is not None:
                return plant.harvest(all_of_it=True)
            case kinds.Picked() if plant is not None:
                return plant.harvest(all_of_it=False)
            case kinds.Sown() if plant is not None:
                plant.warmth, plant.up, plant.up_days, plant.dry_days = 0.0, False, 0, 0.0
                plant.stand, plant.kept, plant.left = self._stand(plant, day + 1), 1.0, None
            case kinds.Thinned(left=left, removed=removed) if plant is not None:
                now = plant.plants
                plant.left = left if left is not None else max(now - (removed or 0), 0.0)
            case kinds.Tended(act="earthed up") if plant is not None:
                plant.earthed += 1
            case kinds.Tended(act="supported", material="screen") if plant is not None:
                plant.guarded = True
            case kinds.Tended(act="supported") if plant is not None:
                plant.supported = True
            case kinds.Moved(act=how) if plant is not None or bed:
                for each in [plant] if plant is not None else self._in(bed):
                    self._cover(each, act, how in ("on", "shut"))
        return 0.0

    def _cover(self, plant: Plant, act: kinds.Moved, lies: bool) -> None:
        if any(word in act.item for word in ("net", "screen", "scare", "mesh")):
            plant.guarded = lies
        elif "board" in act.item or "sacking" in act.item:
            plant.lidded = lies
        else:
            plant.covered = lies

    def _in(self, bed: str) -> Iterable[Plant]:
        return [plant for plant in self.plants.values() if plant.bed == bed and not plant.gone]

    # -- a day ---------------------------------------------------------------------------------------

    def pass_day(self, day: int, tmin_c: float, tmax_c: float, rain_mm: float, et0_mm: float) -> None:
        """One day of weather on everything that stands."""
        mean = (tmin_c + tmax_c) / 2.0
        self.rained_mm = rain_mm
        for key, ground in self.beds.items():
            here = list(self._in(key))
            shade = max((min(plant.way, 1.0) for plant in here), default=0.0)
            hold = MULCH_HOLDS if ground.mulched else 1.0
            used = et0_mm * (0.35 * hold + 0.65 * shade)
            ground.water_mm = float(np.clip(ground.water_mm - used + rain_mm, 0.0, self.curves.water_mm))
            growth = max(mean - 4.0, 0.0) / self.curves.weed_cday * 3.5 * hold
            ground.weeds += growth * ground.weeds * (1.0 - ground.weeds) * (1.0 - 0.6 * shade)
        wind = self._chance(day, "gale").random() < self.curves.gale
        dip = self._chance(day, "dip").uniform(0.0, 2.5)
        for plant in self.plants.values():
            if not plant.gone:
                self._grow(plant, mean, rain_mm)
                self._weather(plant, tmin_c - dip, wind, day)

    def _grow(self, plant: Plant, mean: float, rain_mm: float) -> None:
        curves, nature, ground = self.curves, plant.nature, self.beds[plant.bed]
        before = plant.way
        plant.warmth += max(mean - nature.base_c, 0.0)
        if not plant.up:
            drying = max(mean, 0.0) / 15.0 * (LID_HOLDS if plant.lidded else 1.0)
            plant.dry_days = 0.0 if rain_mm >= 2.0 else plant.dry_days + drying
            if "damp" in self.on and plant.dry_days > curves.damp_days:
                plant.stand *= 1.0 - curves.dies_dry
            if plant.warmth >= nature.up_cd:
                plant.up, plant.warmth = True, 0.0
            return
        plant.up_days += 1
        if plant.lidded:
            plant.stand *= 1.0 - DARK_DAY
        if plant.ready:
            plant.over_days += 1.0
            plant.bear()
        if "weeds" in self.on and plant.warmth < curves.critical_cday:
            part = max(mean - nature.base_c, 0.0) / curves.critical_cday
            plant.suffer(nature.weeds * built_up(ground.weeds, curves.shape) * part * 1.5, "weeds")
        if "thirst" in self.on and (not plant.ready or plant.repeats):
            short = 1.0 - ground.water_mm / (curves.suffers_at * curves.water_mm)
            plant.suffer(curves.thirst_share * built_up(short, curves.shape), "thirst")
        if "crowding" in self.on and plant.sown and nature.crowded:
            self._build(plant, before, curves.crowds_at, curves.roots_free_at, nature.crowded, "crowding")
        if "light" in self.on and nature.greens and plant.earthed < 2:
            most = nature.greens / (1.0 + plant.earthed)
            self._build(plant, before, curves.green_at, 1.0, most, "light")

    def _build(self, plant: Plant, before: float, first: float, last: float, most: float, why: str) -> None:
        """What one day adds to a loss that builds up along the way, while nothing is done."""
        if why == "crowding":
            most *= plant.crowd
        span = max(last - first, 0.05)
        then = most * built_up((before - first) / span, self.curves.shape)
        now = most * built_up((plant.way - first) / span, self.curves.shape)
        plant.suffer((now - then) / max(1.0 - then, 1e-6), why)

    def _weather(self, plant: Plant, leaf_c: float, wind: bool, day: int) -> None:
        curves, nature = self.curves, plant.nature
        if not plant.up:
            return
        tender = nature.birds and plant.up_days <= curves.tender_d and not plant.guarded
        if "birds" in self.on and tender and self._chance(day, plant.key).random() < curves.strike:
            plant.suffer(nature.birds, "birds")
        if "falls" in self.on and nature.falls and wind and plant.way > 0.4 and not plant.supported:
            plant.suffer(nature.falls, "falls")
        # frost ends a tender crop whether or not anybody can cover it
        gain = self._chance(day, "gain").normal(COVER_GAIN_C, COVER_GAIN_C) if plant.covered else 0.0
        felt = leaf_c + max(gain, 0.0)
        if felt < nature.frost_c and not (nature.greens and plant.way > 0.6):  # tubers outlive their tops
            plant.suffer((nature.frost_c - felt) / 2.0, "frost")

    # -- the account ---------------------------------------------------------------------------------

    @property
    def brought_in(self) -> float:
        """Worth brought in."""
        return sum(plant.worth * plant.taken for plant in self.plants.values())

    @property
    def possible(self) -> float:
        """Worth of all plantings if nothing were ever lost."""
        return sum(plant.worth for plant in self.plants.values())

    def lost_to(self) -> dict[str, float]:
        """Worth lost by cause."""
        found: dict[str, float] = {}
        for plant in self.plants.values():
            for why, share in plant.lost.items():
                found[why] = found.get(why, 0.0) + plant.worth * share
        return found
