"""One group of beds as it was described, and the words of the trade for beds and soils."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Final

from spadework.garden.lay_out_place import Side

COUNTS: Final = {
    word: number
    for number, words in enumerate(
        (
            "a an one single", "two pair", "three", "four", "five", "six", "seven", "eight", "nine", "ten",
            "eleven", "twelve dozen", "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen",
            "nineteen", "twenty",
        ),
        start=1,
    )
    for word in words.split()
}  # fmt: skip

NOUNS: Final[dict[str, tuple[str, str]]] = {
    "bed": ("framed", "Bed"),
    "box": ("framed", "Box"),
    "tub": ("tub", "Tub"),
    "pot": ("tub", "Pot"),
    "sack": ("sack", "Sack"),
    "bag": ("sack", "Bag"),
    "barrel": ("tub", "Barrel"),
    "trough": ("tub", "Trough"),
    "planter": ("tub", "Planter"),
    "container": ("tub", "Container"),
    "tunnel": ("tunnel", "Tunnel"),
    "polytunnel": ("tunnel", "Tunnel"),
    "hoophouse": ("tunnel", "Tunnel"),
    "greenhouse": ("tunnel", "Greenhouse"),
    "glasshouse": ("tunnel", "Glasshouse"),
    "frame": ("frame", "Cold Frame"),
    "shelf": ("shelf", "Seed Shelf"),
}
"""A noun of the trade: the shape it is, and what one is called."""

SOILS: Final = {
    name: name
    for name in (
        "sandy clay loam", "silty clay loam", "loamy sand", "sandy loam", "silt loam", "clay loam",
        "sandy clay", "silty clay", "sand", "loam", "silt", "clay", "peat", "potting mix",
    )
} | {"silty loam": "silt loam", "potting compost": "potting mix", "potting soil": "potting mix"}  # fmt: skip


@dataclass(slots=True)
class Group:
    """What one group of beds was said to be; None where it was not said.

    Parameters
    ----------
    line, column : int
        Where it begins, counted from one.
    refers : str
        The beds meant where they are described already: "5-8", "all", a name; empty where they are new.
    at : dict
        Columns of the parts, by their name.
    """

    line: int
    column: int
    noun: str = ""
    count: int | None = None
    own: str = ""
    refers: str = ""
    numbers: tuple[int, ...] = ()
    looks: tuple[str, ...] = ()
    names: tuple[str, ...] = ()
    number_from: int | None = None
    width_m: float | None = None
    length_m: float | None = None
    across: bool = False
    volume_l: float | None = None
    depth_m: float | None = None
    height_m: float | None = None
    rows: int | None = None
    path_m: float | None = None
    row_path_m: float | None = None
    side: Side | None = None
    beside: str = ""
    gap_m: float | None = None
    place: tuple[float, float] | None = None
    inside: str = ""
    indoors: bool = False
    turn_deg: float | None = None
    soil: str = ""
    mulch: str = ""
    water_by: str = ""
    emitters: int | None = None
    emitter_l_h: float | None = None
    flow_l_min: float | None = None
    measured_l_min: float | None = None
    shaded_by: tuple[str, ...] = ()
    at: dict[str, int] = field(default_factory=dict)
    took: list[str] = field(default_factory=list)


def even(text: str) -> str:
    """A line in lower case with plain signs, letter by letter, so that columns stay."""
    signs = {"×": "x", "✕": "x", "*": "x", "′": "'", "’": "'", "‘": "'", "″": '"', "”": '"', "“": '"',
             "–": "-", "—": "-", "−": "-", "\t": " ", "\u00a0": " "}  # fmt: skip
    return "".join(signs.get(sign, sign.lower() if len(sign.lower()) == 1 else sign) for sign in text)
