"""What may be told of a planting where it stands, each with the number or two it needs, and its telling."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Final

import msgspec

from spadework import units
from spadework.crops.loader import load_sheet
from spadework.crops.names import keys
from spadework.errors import ParameterError, UnknownName
from spadework.garden import entries as kinds
from spadework.garden.entries import Payload
from spadework.usecases.job_form import NumberAsked
from spadework.usecases.keep_book import Act
from spadework.usecases.show_planting import PlantingPage
from spadework.usecases.write_answer import WriteAnswer, Writing, open_for_writing, write

_LIFTED_KINDS: Final = frozenset({"root", "bulb", "tuber"})

_LABELS: Final[Mapping[str, str]] = {
    "kg": "Weight",
    "pieces": "Pieces",
    "standing": "Plants counted",
    "of_row_m": "In so much of a row, if not in all",
    "left": "Plants left standing",
    "height_cm": "Height",
    "leaves": "Leaves",
    "plants": "Plants, if not all",
}
_UNITS: Final[Mapping[str, tuple[str, str, float]]] = {
    "kg": ("kg", "lb", units.KG_PER_POUND),
    "of_row_m": ("m", "ft", units.M_PER_FOOT),
    "height_cm": ("cm", "in", units.MM_PER_INCH / 10.0),
}
"""Metric and American unit, and how much of the first is in the second."""

_WHOLE: Final = frozenset({"pieces", "standing", "left", "plants"})


@dataclass(frozen=True, slots=True)
class _Telling:
    label: str
    make: Callable[[Mapping[str, float], str], Payload]
    numbers: tuple[str, ...] = ()
    needs: tuple[str, ...] = ()
    why: str = ""


def _n(said: Mapping[str, float], name: str) -> int | None:
    return None if name not in said else round(said[name])


_TELLINGS: Final[Mapping[str, _Telling]] = {
    "up": _Telling("It is up", lambda *_: kinds.Stage(what="up")),
    "counted": _Telling(
        "Counted",
        lambda said, _: kinds.Counted(standing=round(said["standing"]), of_row_m=said.get("of_row_m")),
        ("standing", "of_row_m"),
        ("standing",),
    ),
    "thinned": _Telling("Thinned", lambda said, _: kinds.Thinned(left=_n(said, "left")), ("left",)),
    "measured": _Telling(
        "Measured",
        lambda said, _: kinds.Measured(height_cm=said.get("height_cm"), leaves=said.get("leaves")),
        ("height_cm", "leaves"),
        ("height_cm", "leaves"),
    ),
    "flower": _Telling("First flower", lambda *_: kinds.Stage(what="first flower")),
    "bolting": _Telling("Running to seed", lambda *_: kinds.Stage(what="bolting")),
    "ready": _Telling("Ready to pick", lambda *_: kinds.Stage(what="ready")),
    "picked": _Telling(
        "Picked",
        lambda said, _: kinds.Picked(kg=said.get("kg"), pieces=_n(said, "pieces")),
        ("kg", "pieces"),
    ),
    "lifted": _Telling(
        "Lifted",
        lambda said, _: kinds.Lifted(kg=said.get("kg"), pieces=_n(said, "pieces")),
        ("kg", "pieces"),
    ),
    "cleared": _Telling(
        "Cleared", lambda _, why: kinds.Ended(how="cleared", why=why), why="Why, if you like"
    ),
    "lost": _Telling(
        "Lost",
        lambda said, why: kinds.Ended(how="lost", why=why, plants=_n(said, "plants")),
        ("plants",),
        why="What took it",
    ),
}

ENDS: Final = ("cleared", "lost")
"""After these it stands no more."""


class ActOffered(msgspec.Struct, frozen=True, kw_only=True):
    """Something that may be told of a planting.

    Parameters
    ----------
    what : str
        What it is told by.
    label : str
    numbers : list of NumberAsked
    why : str
        What words are asked for; empty for none.
    ends : bool
        It stands no more afterwards.
    """

    what: str
    label: str
    numbers: list[NumberAsked]
    why: str
    ends: bool


def acts_offered(page: PlantingPage, *, us: bool) -> list[ActOffered]:
    """What may be told of it now, in the order of its life; nothing of one that is over."""
    if not page.stands:
        return []
    crop = page.planting.crop
    kind = load_sheet(crop).kind if crop in keys() else ""
    seen = {step.name for step in page.steps if step.seen_on is not None}
    open_ = {step.name for step in page.steps if step.seen_on is None}
    left_out = {"picked" if kind in _LIFTED_KINDS else "lifted"}
    if "up" in seen or page.planting.set_out_on is not None or page.began == "planted":
        left_out |= {"up"}
    elif page.planting.plants is None:
        left_out |= {"thinned", "measured", "flower", "bolting", "ready", "picked", "lifted"}
    left_out |= {"flower"} if "in flower" not in open_ else set()
    left_out |= {"ready", "bolting"} if "ready" in seen else set()
    if not page.planting.bed:
        left_out |= {"picked", "lifted", "ready"}
    return [
        ActOffered(
            what=what,
            label=each.label,
            numbers=[_asked(name, name in each.needs and len(each.needs) == 1, us) for name in each.numbers],
            why=each.why,
            ends=what in ENDS,
        )
        for what, each in _TELLINGS.items()
        if what not in left_out
    ]


def tell_planting(
    path: Path,
    how: Writing,
    planting: str,
    what: str,
    said: Mapping[str, float],
    words: str = "",
    *,
    us: bool = False,
) -> WriteAnswer:
    """Write one act on a planting.

    Parameters
    ----------
    path : Path
    how : Writing
    planting : str
        By key.
    what : str
        As `ActOffered.what`.
    said : mapping of str to float
        Numbers by name; those that were left out are not there.
    words : str
        Why it ended.
    us : bool
        The numbers are in pounds, feet and inches.

    Raises
    ------
    ParameterError
        If a number that is needed is missing, is not whole where it must be, or is below zero.
    UnknownName, StoreReadOnly, StoreError
    """
    if what not in _TELLINGS:
        raise UnknownName(f"Nothing called {what!r} can be told here.", f"One of: {', '.join(_TELLINGS)}.")
    telling = _TELLINGS[what]
    folder, state = open_for_writing(path)
    if planting not in state.garden.plantings:
        raise UnknownName("No planting in this garden's book answers to that label.", "Look in the garden.")
    kept: dict[str, float] = {}
    for name in telling.numbers:
        value = said.get(name)
        if value is None:
            continue
        if value < 0.0 or (name in _WHOLE and value != round(value)):
            raise ParameterError(
                f"{value:g} cannot be: {_LABELS[name].lower()}.",
                "Give a whole number." if name in _WHOLE else "Give a number from 0 up.",
            )
        kept[name] = value * (_UNITS[name][2] if us and name in _UNITS else 1.0)
    if telling.needs and not any(name in kept for name in telling.needs):
        needed = " or ".join(_LABELS[name].lower() for name in telling.needs)
        raise ParameterError("The number is missing.", f"Give {needed}.")
    act = Act(payload=telling.make(kept, words.strip()), on=how.day, planting=planting)
    return write(folder, state, [act], how, question="planting")


def _asked(name: str, must: bool, us: bool) -> NumberAsked:
    metric, american, _ = _UNITS.get(name, ("", "", 1.0))
    return NumberAsked(
        name=name, label=_LABELS[name], unit=american if us else metric, planned=None, must=must
    )


NUMBERS: Final = tuple(_LABELS)
