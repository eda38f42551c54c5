"""Baskets: what a season gave, a row of baskets a crop, each basket the same weight."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from markupsafe import Markup

from spadework import units
from spadework.faces.charts.svg import element, number, picture, text
from spadework.faces.voice import Voice
from spadework.usecases.season_work import CropTaken

WIDTH: Final = 360.0
ROW: Final = 46.0
LEFT: Final = 4.0
STEP: Final = 22.0
MOST: Final = 16
"""Baskets in the longest row."""

HOLDS: Final = (0.05, 0.1, 0.25, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0)
"""Weights a basket may stand for, in the garden's own unit. Our own rule."""

_RIM: Final = 18.0
_DEEP: Final = 13.0


def basket_holds(crops: Sequence[CropTaken], *, us: bool) -> float:
    """Kilograms one basket stands for, so that the longest row has no more than `MOST`."""
    unit = units.KG_PER_POUND if us else 1.0
    most = max((each.kg for each in crops), default=0.0) / unit
    return unit * next((each for each in HOLDS if most / each <= MOST), HOLDS[-1])


def baskets(crops: Sequence[CropTaken], voice: Voice) -> Markup:
    """Rows of baskets, the last of each filled as far as it goes.

    Parameters
    ----------
    crops : sequence of CropTaken
        Those weighed, most first.
    voice : Voice
    """
    holds = basket_holds(crops, us=voice.us)
    parts = []
    for place, crop in enumerate(crops):
        base = ROW * (place + 1) - 4.0
        parts.append(text(LEFT, base - 24.0, f"{crop.name}, {voice.weight(crop.kg)}", class_="basket-word"))
        full, rest = divmod(crop.kg / holds + 1e-9, 1.0)
        count = min(int(full), MOST)
        parts += [_basket(LEFT + STEP * each, base, 1.0) for each in range(count)]
        if rest > 0.04 and count < MOST:
            parts.append(_basket(LEFT + STEP * count, base, rest))
    said = "; ".join(f"{crop.name} {voice.weight(crop.kg)}" for crop in crops)
    return picture(
        WIDTH,
        ROW * len(crops) + 4.0,
        parts,
        title=f"Picked and lifted this season, a basket for every {voice.weight(holds)}:",
        about=f"{said}.",
        class_="baskets",
    )


def _basket(x: float, base: float, full: float) -> str:
    """A basket as seen from the side, filled from below."""
    slant = 3.0

    def edge(share: float) -> tuple[float, float, float]:
        return x + slant * (1.0 - share), x + _RIM - slant * (1.0 - share), base - _DEEP * share

    left, right, top = edge(1.0)
    inner_left, inner_right, level = edge(full)
    shape = (
        f"M{number(x + slant)},{number(base)}H{number(x + _RIM - slant)}L{number(right)},{number(top)}"
        f"H{number(left)}Z"
    )
    inside = (
        f"M{number(x + slant)},{number(base)}H{number(x + _RIM - slant)}L{number(inner_right)},"
        f"{number(level)}H{number(inner_left)}Z"
    )
    return element("path", d=inside, class_="basket-full") + element("path", d=shape, class_="basket")
