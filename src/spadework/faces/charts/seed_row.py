"""Ten seeds in a drill: as many lie green as sprout of ten."""

from __future__ import annotations

import math

from markupsafe import Markup

from spadework.faces.charts.svg import element, picture

SEEDS = 10
STEP = 11.0
HEIGHT = 14.0


def seed_row(share: float, *, tested: bool) -> Markup:
    """A germination as ten seeds, green where they sprout; of a lot that was not tested drawn thin.

    Parameters
    ----------
    share : float
        0 to 1.
    tested : bool
    """
    sprout = round(share * SEEDS)
    parts = [element("path", d=f"M0 {HEIGHT - 1.0}H{STEP * SEEDS}", class_="thread")]
    for place in range(SEEDS):
        x = STEP * (place + 0.5)
        # seeds lie as they fell: each turned a little otherwise
        turn = round(28.0 * math.sin(2.4 * place + 1.0))
        look = "seed" if place >= sprout else "seed on" if tested else "seed guessed"
        parts.append(
            element("ellipse", cx=x, cy=7.0, rx=4.2, ry=2.8, class_=look, transform=f"rotate({turn} {x:g} 7)")
        )
    how = "as tested" if tested else "of a usual lot; this one was never tested"
    return picture(
        STEP * SEEDS,
        HEIGHT,
        parts,
        title=f"{sprout} in 10 sprout, {how}.",
        class_="seed-row",
        size=(STEP * SEEDS, HEIGHT),
    )
