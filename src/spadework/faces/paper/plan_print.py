"""The plan in black and grey, for paper."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from spadework.faces.charts.plan import Peg, plan_picture
from spadework.usecases.show_ground import Ground

_INK: Final = """
.bed { fill: #f1ece2; stroke: #555; stroke-width: 1 } .holds, .tunnel, .frame { fill: #fff }
.on-round { stroke: #000; stroke-width: 2.5 }
.plants { fill: none; stroke: #6f8f73; stroke-linecap: round } .veil { fill: #fff; opacity: .5 }
.hatching { fill: none; stroke: #667; stroke-width: 1 } .name { font-family: Libertinus Serif; fill: #000 }
.drill { fill: none; stroke: #8f7a64; stroke-width: 1; stroke-dasharray: 2 2 }
.lock-bow { fill: none; stroke: #000; stroke-width: 1.6 } .lock-body { fill: #000 }
.garden-line { fill: none; stroke: #a5402c; stroke-width: 2.4 }
.peg { fill: #000 } .peg-number { fill: #fff; font: 13px Libertinus Serif; text-anchor: middle }
"""


def printed_plan(ground: Ground, pegs: Sequence[Peg] = ()) -> str:
    """The plan as a picture that needs no style sheet; empty where no bed is on it."""
    drawn = str(plan_picture(ground, pegs=pegs, links=False))
    if not drawn.startswith("<svg"):
        return ""
    head, _, rest = drawn.partition(">")
    return f'{head} xmlns="http:{"//"}www.w3.org/2000/svg"><style>{_INK}</style>{rest}'
