"""What a bed is like where nobody said: its size, depth and soil by its shape."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Final, Literal, TypeAlias, cast

from spadework.garden.entries import BedSet
from spadework.garden.lay_out_group import NOUNS, Group
from spadework.garden.lay_out_lengths import length_text
from spadework.garden.site import Units

WaterBy: TypeAlias = Literal["", "emitters", "hose", "can"]
ROUND: Final = ("tub", "sack")
"""Shapes that are round where only one measure is said."""

Shape: TypeAlias = Literal["framed", "ground", "tub", "sack", "tunnel", "frame", "shelf"]

RAISED_M: Final[dict[Units, float]] = {"metric": 0.2, "us": 0.2032}
"""Height of a raised bed where it is not said. Class: common-practice."""

_USUAL_M: Final[dict[Units, dict[str, tuple[float, float]]]] = {
    "metric": {"framed": (1.2, 2.4), "ground": (1.2, 2.4), "tub": (0.4, 0.4), "sack": (0.4, 0.4),
               "tunnel": (3.0, 6.0), "frame": (0.6, 1.2), "shelf": (0.4, 1.2)},
    "us": {"framed": (1.2192, 2.4384), "ground": (1.2192, 2.4384), "tub": (0.4064, 0.4064),
           "sack": (0.4064, 0.4064), "tunnel": (3.048, 6.096), "frame": (0.6096, 1.2192),
           "shelf": (0.4064, 1.2192)},
}  # fmt: skip
"""Width and length where none are said. Class: common-practice."""

_TUB_DEPTH_M: Final[dict[Units, float]] = {"metric": 0.35, "us": 0.3556}
_SHELF_DEPTH_M: Final = 0.05
_DEPTH_M: Final = 0.3
"""Depth of soil where none is said. Class: common-practice."""

_L_PER_M3: Final = 1000.0


def pattern_of(group: Group, units: Units, take: Callable[[str], None]) -> BedSet:
    """One bed of a group, without its name and place.

    Parameters
    ----------
    group : Group
        Checked to be possible.
    units : {"metric", "us"}
    take : function
        Told what is taken for granted, a sentence at a time.
    """

    def say(value_m: float) -> str:
        return length_text(value_m, units)

    shape, base = NOUNS[group.noun]
    many = (group.count or 1) > 1
    what = f"{base}s" if many else base
    if shape == "framed" and {"ground", "open", "flat"} & set(group.looks):
        shape = "ground"
    usual = _USUAL_M[units][shape]
    width_m, length_m = group.width_m, group.length_m
    depth_m = group.depth_m
    if shape in ROUND and group.volume_l is not None:
        width_m, depth_m = tub_of(group.volume_l, width_m, depth_m)
        length_m = length_m or width_m
        take(f"{what} of {group.volume_l:.0f} litres are about {say(width_m)} across and"
                          f" {say(depth_m)} deep")  # fmt: skip
    if width_m is None and length_m is None:
        width_m, length_m = usual
        take(f"the size was not said: {say(width_m)} by {say(length_m)}")
    elif length_m is None:
        length_m = width_m if shape in ROUND else max(usual[1], cast(float, width_m))
        if shape not in ROUND:
            take(f"the length was not said: {say(cast(float, length_m))}")
    elif width_m is None:
        width_m = min(usual[0], length_m)
        take(f"the width was not said: {say(width_m)}")
    height_m = group.height_m
    if height_m is None:
        height_m = 0.0
        if "raised" in group.looks:
            height_m = RAISED_M[units]
            take(f"the height was not said: raised {say(height_m)}")
    if depth_m is None:
        depth_m = {"tub": _TUB_DEPTH_M[units], "sack": _TUB_DEPTH_M[units], "shelf": _SHELF_DEPTH_M}.get(
            shape, _DEPTH_M
        )
        if shape in ROUND:
            take(f"the depth was not said: {say(depth_m)}")
    soil = group.soil or ("potting mix" if shape in (*ROUND, "shelf") else "loam")
    if not group.soil and shape not in ("tunnel", "frame", "shelf"):
        take(f"the soil was not said: {soil}")
    return BedSet(
        name="?",
        shape=cast("Shape", shape),
        width_m=round(cast(float, width_m), 4),
        length_m=round(cast(float, length_m), 4),
        height_m=round(height_m, 4),
        depth_m=round(depth_m, 4),
        is_round=shape in ROUND and width_m == length_m and "square" not in group.looks,
        soil=soil,
        mulch=group.mulch,
        shaded_by=group.shaded_by,
        water_by=cast("WaterBy", group.water_by),
        emitters=group.emitters,
        emitter_l_h=group.emitter_l_h,
        flow_l_min=group.flow_l_min,
        measured_l_min=group.measured_l_min,
    )


def tub_of(volume_l: float, across_m: float | None, depth_m: float | None) -> tuple[float, float]:
    """Width and depth of a round tub of a volume: as deep as it is wide where neither is said.  [m]"""
    volume_m3 = volume_l / _L_PER_M3
    if across_m is None and depth_m is None:
        across_m = (4.0 * volume_m3 / math.pi) ** (1 / 3)
    elif across_m is None:
        across_m = math.sqrt(4.0 * volume_m3 / (math.pi * cast(float, depth_m)))
    return across_m, depth_m if depth_m is not None else 4.0 * volume_m3 / (math.pi * across_m**2)


def changes_in(group: Group) -> dict[str, object]:
    """Fields of a bed that a group says, and nothing else."""
    said = {name: getattr(group, name) for name in _FIELDS}
    return {name: value for name, value in said.items() if value not in (None, "", ())}


_FIELDS: Final = (
    "width_m", "length_m", "height_m", "depth_m", "soil", "mulch", "water_by", "emitters", "emitter_l_h",
    "flow_l_min", "measured_l_min", "shaded_by", "turn_deg",
)  # fmt: skip
