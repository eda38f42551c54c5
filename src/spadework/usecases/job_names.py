"""What a job was, from the name the book knows it by: the verb alone, since the entry says where."""

from __future__ import annotations

from typing import Final

_VERBS: Final = {
    "clear": "clearing",
    "count": "counting",
    "cover": "covering",
    "crush": "crushing by hand",
    "earth-up": "earthing up",
    "guard": "guarding",
    "harden-off": "hardening off",
    "keep-damp": "keeping damp",
    "lid": "the lid",
    "lift": "lifting",
    "look": "looking round",
    "mulch": "mulching",
    "pick": "picking",
    "plant-out": "planting out",
    "pot-on": "potting on",
    "prepare": "preparing",
    "prick-out": "pricking out",
    "refuges": "clearing refuges",
    "scout": "looking closely",
    "sow": "sowing",
    "sow-again": "sowing again",
    "start": "starting in a tray",
    "support": "tying in",
    "thin": "thinning",
    "uncover": "uncovering",
    "vent": "opening the cover",
    "water": "watering",
    "weed": "weeding",
}
"""How each kind of job is said as work; what a name begins with stands here."""

_ENDS: Final = {
    "guard": {
        "up": "putting up a guard",
        "move": "moving the guard",
        "check": "looking over the guard",
        "flight": "guarding against a flight",
        "off": "taking the guard off",
    },
    "lid": {"off": "taking the lid off", "look": "looking under the lid"},
}


def job_said(name: str) -> str:
    """A job as work, "weeding"; a name that is no job's, such as a chore's, as it is."""
    parts = name.split("-")
    for many in range(min(len(parts), 2), 0, -1):
        kind = "-".join(parts[:many])
        if kind in _VERBS and (len(parts) > many or kind == "look"):
            return _ENDS.get(kind, {}).get(parts[-1], _VERBS[kind])
    return name
