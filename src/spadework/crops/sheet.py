"""What is known of one crop: numbers with their receipts, grouped as a grower thinks of them.

Nothing here reads files. `fields` says what each number may be; `loader` builds these records.
Optional numbers are None where they do not apply or are not known.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Literal, TypeAlias

from spadework.crops.care import (
    Bees,
    Earth,
    Guard,
    Next,
    Room,
    Start,
    Support,
    Thin,
    Use,
    Water,
    Weeds,
)

if TYPE_CHECKING:
    from spadework.science.emergence import EmergenceLaw

Provenance: TypeAlias = Literal["published", "memory", "common-practice", "measured", "computed", "grower"]
Kind: TypeAlias = Literal[
    "root", "leaf", "head", "fruit", "pod", "grain", "bulb", "tuber", "stem", "herb", "flower"
]


@dataclass(frozen=True, slots=True)
class Value:
    """One number with its receipt.

    Parameters
    ----------
    value : float
        The number to use, in `unit`.
    low, high : float or None
        Range among varieties and sources; None where no range is stated (not the same as no spread).
    unit : str
        Unit, written out in plain signs such as "degC" or "degC day".
    provenance : str
        published, memory, common-practice, measured, computed, or grower (set in this garden).
    source : str
        Keys of `sources.toml`, joined by "; ". Empty for common practice and for a grower's own number.
    note : str
        How the number was reached, and what speaks against it.
    origin : str
        Empty, or where an override came from.
    own : Value or None
        The sheet's own value, kept beside an override.
    """

    value: float
    low: float | None
    high: float | None
    unit: str
    provenance: Provenance
    source: str = ""
    note: str = ""
    origin: str = ""
    own: Value | None = None

    def __float__(self) -> float:
        return self.value

    @property
    def receipt(self) -> str:
        """Where it comes from in a few words: class and source, or what it was replaced by."""
        return self.origin or f"{self.provenance} {self.source}".strip()

    @property
    def sources(self) -> tuple[str, ...]:
        """Source keys, one by one."""
        return tuple(part for part in self.source.split("; ") if part)


@dataclass(frozen=True, slots=True, kw_only=True)
class Sowing:
    """Seed, depth and room."""

    depth_mm: Value
    in_row_cm: Value
    row_cm: Value
    seeds_per_gram: Value | None
    lot_germination_pct: Value
    field_factor: Value
    weeks_to_set_out: Value | None
    seed_size: Literal["small", "large"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Emergence:
    """Parameters of the emergence law: time and percent against seed-zone temperature."""

    base_c: Value
    sum_cd: Value
    optimum_c: Value
    shoulder_c: Value
    ceiling_c: Value
    best_pct: Value
    cold_half_c: Value
    cold_width_c: Value
    heat_half_c: Value
    heat_width_c: Value
    depth_cost_cd_mm: Value
    sigma: Value
    tau: Value
    field_sum_factor: Value
    crust_factor: Value
    rot_c: Value | None

    def law(self) -> EmergenceLaw:
        """The plain law of these parameters, without field factors."""
        from spadework.science.emergence import EmergenceLaw

        return EmergenceLaw(
            base_c=self.base_c.value,
            sum_cd=self.sum_cd.value,
            optimum_c=self.optimum_c.value,
            shoulder_c=self.shoulder_c.value,
            ceiling_c=self.ceiling_c.value,
            best_pct=self.best_pct.value,
            cold_half_c=self.cold_half_c.value,
            cold_width_c=self.cold_width_c.value,
            heat_half_c=self.heat_half_c.value,
            heat_width_c=self.heat_width_c.value,
            depth_cost_cd_mm=self.depth_cost_cd_mm.value,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Development:
    """Pace from emergence to ready. `stages` maps a BBCH principal stage to its share of the way."""

    base_c: Value
    optimum_c: Value
    shoulder_c: Value
    ceiling_c: Value
    ready_days: Value
    set_out_days: Value | None
    flower_share: Value | None
    cv: Value
    day_response: Literal["none", "long", "short"]
    critical_h: Value | None
    saturating_h: Value | None
    stages: Mapping[int, Value]
    packet_days: Value | None = None
    packet_from: Literal["", "sowing", "setting out"] = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Growth:
    """Leaves and height, for size by eye; a count in the bed overrides them."""

    leaf_days: Value
    first_leaves: Value
    leaves_max: Value
    height_cm: Value


@dataclass(frozen=True, slots=True, kw_only=True)
class Frost:
    """Cold that kills most plants, at the leaf surface or as shelter air (`measured_at`)."""

    young_kill_c: Value
    kill_c: Value
    measured_at: Literal["leaf", "air"]
    hardiness: Literal["tender", "half-hardy", "hardy", "very-hardy"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Heat:
    """Heat that spoils the crop: the daily maximum's degrees above the limit, summed from `from_share` on."""

    limit_c: Value | None
    dose_cday: Value | None
    from_share: Value | None
    harm: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Chill:
    """Cold that checks growth without killing."""

    limit_c: Value | None
    set_out_check_days: Value | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Bolting:
    """What makes the crop run to seed before it is ready: cold in youth, or long days."""

    kind: Literal["none", "cold", "long-day"]
    harm: str
    base_c: Value | None
    optimum_c: Value | None
    ceiling_c: Value | None
    juvenile_leaves: Value | None
    first_cday: Value | None
    most_cday: Value | None
    removal_above_c: Value | None
    removal_per_day: Value | None
    days: Value | None
    critical_h: Value | None
    saturating_h: Value | None
    cv: Value | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Harvest:
    """How long it stands or is picked, how and how often, what a metre gives, and the sign that it is ready.

    For a crop picked once `past_days` is how long the plant stays good; for one picked many times, how long
    a single fruit, pod, flower or leaf does. `again_cday` is the air's warmth above `again_base_c` from one
    picking to the next.
    """

    days: Value
    yield_kg_m: Value
    first_year: Value | None
    sign: str
    repeat: Literal["once", "many", "cut again"]
    lift: Literal["pick", "cut", "lift", "pull"]
    whole: Literal["yes", "no"]
    standing_frost: Literal["yes", "no"]
    again_cday: Value | None
    again_base_c: Value | None
    past_days: Value
    keeps_days: Value | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Form:
    """A variety of a crop, or a method of growing it: what is different from the sheet's own numbers.

    Parameters
    ----------
    key : str
        Its name within the sheet, such as "short-day" or "sets".
    kind : str
        variety or method.
    names : tuple of str
        Whole names that find crop and form together, beside "short-day onion" and the like.
    way : str
        For a method, which of the crop's ways of starting it is; empty for a variety.
    note : str
        What it is, in a sentence.
    values : mapping
        Path to number, each with its receipt and with the sheet's general number as `own`.
    traits : tuple of str
        What a variety is said to be (see `field.TRAITS`), such as "self-setting".
    """

    key: str
    kind: Literal["variety", "method"]
    names: tuple[str, ...]
    way: str
    note: str
    values: Mapping[str, Value]
    traits: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Caution:
    """A usual caution, said once where it applies."""

    text: str
    provenance: Provenance
    source: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """Everything known of one crop; `variety` and `method` name the form it was asked for, if any."""

    key: str
    name: str
    british: str
    american: str
    synonyms: tuple[str, ...]
    botanical: str
    family: str
    kind: Kind
    season: Literal["cool", "warm"]
    life: Literal["annual", "biennial", "perennial"]
    propagation: tuple[str, ...]
    sowing: Sowing
    emergence: Emergence
    development: Development
    growth: Growth
    frost: Frost
    heat: Heat
    chill: Chill
    bolting: Bolting
    harvest: Harvest
    water: Water
    thin: Thin
    weeds: Weeds
    earth: Earth
    support: Support
    bees: Bees
    use: Use
    guard: Guard
    room: Room
    next: Next
    start: Start
    cautions: tuple[Caution, ...] = ()
    varieties: Mapping[str, Form] = field(default_factory=dict)
    methods: Mapping[str, Form] = field(default_factory=dict)
    variety: str = ""
    method: str = ""
    traits: tuple[str, ...] = ()

    def word(self, words: str) -> str:
        """The crop's name in the garden's words, "british" or "american"."""
        return self.british if words == "british" else self.american
