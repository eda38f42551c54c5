"""The drawings of signs, by name: one large enough to hold beside a leaf."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import Final

from markupsafe import Markup

from spadework.faces.charts.sign_crawlers import DRAWN as CRAWLERS
from spadework.faces.charts.sign_flowers import DRAWN as FLOWERS
from spadework.faces.charts.sign_flyers import DRAWN as FLYERS
from spadework.faces.charts.sign_forms import SIDE, Drawing
from spadework.faces.charts.sign_fruit import DRAWN as FRUIT
from spadework.faces.charts.sign_ground import DRAWN as GROUND
from spadework.faces.charts.sign_insects import DRAWN as INSECTS
from spadework.faces.charts.sign_leaves import DRAWN as LEAVES
from spadework.faces.charts.sign_moulds import DRAWN as MOULDS
from spadework.faces.charts.sign_plants import DRAWN as PLANTS
from spadework.faces.charts.sign_roots import DRAWN as ROOTS
from spadework.faces.charts.sign_seedlings import DRAWN as SEEDLINGS
from spadework.faces.charts.sign_stems import DRAWN as STEMS
from spadework.faces.charts.sign_tints import DRAWN as TINTS
from spadework.faces.charts.sign_tips import DRAWN as TIPS
from spadework.faces.charts.svg import picture

DRAWN: Final[Mapping[str, Drawing]] = {
    **CRAWLERS,
    **FRUIT,
    **GROUND,
    **INSECTS,
    **LEAVES,
    **MOULDS,
    **PLANTS,
    **ROOTS,
    **SEEDLINGS,
    **STEMS,
    **TINTS,
    **TIPS,
    **FLYERS,
    **FLOWERS,
}
"""Every drawing by its name."""


@cache
def sign_drawing(name: str, words: str) -> Markup:
    """One sign as a line drawing.

    Parameters
    ----------
    name : str
        Of the drawing, as the sign's `picture` has it.
    words : str
        The sign in words: read out in place of it.

    Returns
    -------
    Markup
        Empty where no drawing has that name.
    """
    draw = DRAWN.get(name)
    if draw is None:
        return Markup()
    joins = {"stroke_linejoin": "round", "stroke_linecap": "round"}
    title = f"Drawing: {words}."
    return picture(SIDE, SIDE, draw(), title=title, class_="sign-drawing", given=joins)


def sign_file(name: str) -> bytes:
    """The same as a file of its own; empty where no drawing has that name."""
    drawn = sign_drawing(name, name.replace("-", " "))
    return str(drawn).replace("<svg ", '<svg xmlns="http://www.w3.org/2000/svg" ', 1).encode()
