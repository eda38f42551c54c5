"""What the jobs need to know of a crop: water, thinning, weeds, soil drawn up, support, bees and the rest.

Part of a `Sheet`; the numbers carry receipts like all others. Where a section says nothing of a crop its
numbers are None and its words empty: a crop that is never thinned has no `thin.first_leaves`.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal, TypeAlias

if TYPE_CHECKING:
    from spadework.crops.sheet import Value

YesNo: TypeAlias = Literal["", "yes", "no"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Water:
    """Crop coefficients of FAO paper 56, roots, and the part of its life in which drought costs most.

    `depletion` is the share of available water that may be used before stress, at an evapotranspiration of
    5 mm a day. `thirst_cost` is the share of yield lost for each share of evapotranspiration missing over the
    season.
    """

    kc_ini: Value
    kc_mid: Value
    kc_end: Value
    kcb_mid: Value | None
    roots_m: Value
    depletion: Value
    thirst_from: Value
    thirst_until: Value
    thirst_cost: Value


@dataclass(frozen=True, slots=True, kw_only=True)
class Thin:
    """When a sown row is thinned, to what distance, and what to mind while doing it.

    Final distances are for small and for large produce. The law of density, where one is known, is
    w^-theta = alpha + beta rho with w in g a plant and rho in plants per square metre.
    """

    first_leaves: Value | None
    first_height_cm: Value | None
    final_leaves: Value | None
    in_row_small_cm: Value | None
    in_row_large_cm: Value | None
    density_alpha: Value | None
    density_beta: Value | None
    density_theta: Value | None
    tap: YesNo
    cluster: YesNo
    edible: YesNo
    fly: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Weeds:
    """How long the bed must be kept free of weeds, from when, and how long the first flush may stand."""

    free_weeks: Value
    stand_weeks: Value | None
    free_from: Literal["emergence", "setting out", "sowing", "spring"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Earth:
    """Soil drawn up to the stems: first at a height, again after each step of growth."""

    first_height_cm: Value | None
    step_cm: Value | None
    depth_cm: Value | None
    passes: Value | None
    why: Literal["", "light", "blanch", "hold", "trench"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Support:
    """What it climbs or leans on, and the height at which that must stand."""

    kind: Literal["none", "sticks", "stakes", "cage", "trellis", "poles", "net"]
    need: Literal["", "always", "wind", "choice"]
    height_cm: Value | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Bees:
    """Whether the crop hangs on visits to its flowers, and so whether a cover must come off."""

    needs: Literal["none", "self", "few", "bees", "wind"]
    uncover: Literal["yes", "no"]
    hand: Literal["yes", "no"]
    first_female_share: Value | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Use:
    """Worth of a kilogram to the kitchen, against a kilogram of carrots."""

    worth_kg: Value


@dataclass(frozen=True, slots=True, kw_only=True)
class Guard:
    """How long young plants are taken, and by what; what takes the ripe crop."""

    tender_days: Value
    until_leaves: Value | None
    eaten_by: tuple[str, ...]
    ripe_by: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Room:
    """Width of a full-grown plant, and, where known, the share of the way at which leaves cover the soil."""

    spread_cm: Value
    cover_from: Value | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Next:
    """Days between sowings for an unbroken supply, and years before the family comes back to a bed."""

    every_days: Value | None
    rotation_years: Value


@dataclass(frozen=True, slots=True, kw_only=True)
class Start:
    """Raising and setting out: pricking out, potting on, hardening off, and the warmth wanted outside."""

    prick_leaves: Value | None
    pot_on_weeks: Value | None
    harden_days: Value | None
    soil_out_c: Value | None
    night_out_c: Value | None
