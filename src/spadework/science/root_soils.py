"""Soils as stores of water for roots: what they hold, and what their surface can lose to the air."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

from spadework.errors import UnknownName


class Span(NamedTuple):
    """A printed range and its middle."""

    low: float
    high: float

    @property
    def middle(self) -> float:
        """Half way between."""
        return (self.low + self.high) / 2.0


@dataclass(frozen=True)
class RootSoil:
    """What one kind of soil holds.

    Parameters
    ----------
    name : str
    full : Span  [m3 m-3]
        Water a day or two after soaking rain.
    wilting : Span  [m3 m-3]
        Water left where roots can take no more.
    readily_mm, evaporable_mm : Span  [mm]
        What the top 10 cm lose to the air at full speed, and in all.
    provenance, source : str
    """

    name: str
    full: Span
    wilting: Span
    readily_mm: Span
    evaporable_mm: Span
    provenance: str
    source: str

    @property
    def held_mm_m(self) -> float:
        """Water for roots in a metre of it, from the middles of the ranges  [mm m-1]."""
        return 1000.0 * (self.full.middle - self.wilting.middle)


def _textured(
    name: str,
    full: tuple[float, float],
    wilting: tuple[float, float],
    readily: tuple[float, float],
    evaporable: tuple[float, float],
) -> RootSoil:
    return RootSoil(
        name, Span(*full), Span(*wilting), Span(*readily), Span(*evaporable), "published", "FAO56, table 19"
    )


ROOT_SOILS: dict[str, RootSoil] = {
    "sand": _textured("sand", (0.07, 0.17), (0.02, 0.07), (2, 7), (6, 12)),
    "loamy sand": _textured("loamy sand", (0.11, 0.19), (0.03, 0.10), (4, 8), (9, 14)),
    "sandy loam": _textured("sandy loam", (0.18, 0.28), (0.06, 0.16), (6, 10), (15, 20)),
    "loam": _textured("loam", (0.20, 0.30), (0.07, 0.17), (8, 10), (16, 22)),
    "silt loam": _textured("silt loam", (0.22, 0.36), (0.09, 0.21), (8, 11), (18, 25)),
    "silt": _textured("silt", (0.28, 0.36), (0.12, 0.22), (8, 11), (22, 26)),
    "silty clay loam": _textured("silty clay loam", (0.30, 0.37), (0.17, 0.24), (8, 11), (22, 27)),
    "silty clay": _textured("silty clay", (0.30, 0.42), (0.17, 0.29), (8, 12), (22, 28)),
    "clay": _textured("clay", (0.32, 0.40), (0.20, 0.24), (8, 12), (22, 29)),
    "bed mix": RootSoil(
        "bed mix", Span(0.22, 0.32), Span(0.11, 0.17), Span(6, 10), Span(14, 20), "memory",
        "soil and compost in a framed bed: holds less for plants than its texture says and drains in a day",
    ),
    "pot mix": RootSoil(
        "pot mix", Span(0.40, 0.55), Span(0.20, 0.30), Span(6, 10), Span(18, 26), "memory",
        "peat-free or peaty mix in a tub, after it has drained",
    ),
}  # fmt: skip
"""Soils by name. The textures are the printed ranges; the two mixes are guesses."""

_ALSO = {
    "compost": "bed mix",
    "mix": "bed mix",
    "raised bed mix": "bed mix",
    "topsoil": "loam",
    "garden soil": "loam",
    "potting mix": "pot mix",
    "potting compost": "pot mix",
    "peat": "pot mix",
    "coir": "pot mix",
    "sandy": "sandy loam",
    "clay loam": "silty clay loam",
    "sandy clay loam": "loam",
    "sandy clay": "silty clay loam",
    "clayey": "clay",
    "heavy": "clay",
    "light": "sandy loam",
}
"""Other words for them. Class: common-practice."""


def root_soil(name: str) -> RootSoil:
    """The soil by what a person calls it.

    Parameters
    ----------
    name : str
        A texture or a mix, in any spelling of spaces and capitals; empty for a loam.

    Returns
    -------
    RootSoil

    Raises
    ------
    UnknownName
        With the names known.

    Source
    ------
    FAO56, table 19 (published); other words are common-practice.
    Checked: tests/unit/science/test_root_zone.py
    """
    wanted = " ".join(name.lower().replace("-", " ").replace("_", " ").split()) or "loam"
    wanted = _ALSO.get(wanted, wanted)
    if wanted in ROOT_SOILS:
        return ROOT_SOILS[wanted]
    raise UnknownName(f"There is no soil named {name!r}.", f"Known: {', '.join(sorted(ROOT_SOILS))}.")
