"""Entries that say nothing or contradict themselves. These cannot be insisted on."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from datetime import date
from typing import Final

from spadework.garden import entries as kinds
from spadework.garden.entries import Entry, Payload
from spadework.garden.question import Question

_ABOVE_ZERO: Final = frozenset(
    {"width_m", "length_m", "of_row_m", "row_length_m", "spacing_cm", "row_cm", "area_m2", "days", "people"}
    | {"every_days", "flow_l_min"}
)
_ANY_SIGN: Final = frozenset({"x_m", "y_m", "turn_deg", "min_c", "max_c", "now_c"})
_EARLIEST_YEAR: Final = 1900
_DIGEST: Final = re.compile(r"[0-9a-f]{64}")

_NAMED: Final[dict[type, tuple[str, ...]]] = {
    kinds.Sown: ("planting", "crop"),
    kinds.PlantedOut: ("planting", "crop"),
    kinds.BedSet: ("name",),
    kinds.KitSet: ("item",),
    kinds.LotSet: ("lot", "crop"),
    kinds.PersonSet: ("person", "name"),
    kinds.ChoreSet: ("chore",),
    kinds.Stood: ("crop",),
    kinds.Locked: ("lock", "why"),
    kinds.Unlocked: ("lock",),
    kinds.Treated: ("product",),
    kinds.Amended: ("material",),
    kinds.Fed: ("material",),
    kinds.Note: ("text",),
    kinds.Seen: ("what",),
}
_SOME_OF: Final[dict[type, tuple[str, ...]]] = {
    kinds.Measured: ("height_cm", "leaves", "width_mm"),
    kinds.ThermometerRead: ("min_c", "max_c", "now_c"),
    kinds.SoilFelt: ("finger", "squeeze"),
}


def form_questions(entry: Entry, today: date) -> Iterator[Question]:
    """What in an entry cannot be written down as it is."""
    if entry.act is None and not entry.withdraws:
        yield _not_so("The entry says nothing.", "It needs an act, or the entry it undoes.")
    if entry.act is None and entry.replaces:
        yield _not_so("The correction says nothing.", "To take an entry back, withdraw it.")
    if entry.key and entry.key in (entry.replaces, entry.withdraws):
        yield _not_so("The entry points at itself.", "It corrects or undoes an earlier one.")
    if entry.recorded_at.tzinfo is None:
        yield _not_so(
            "The time of writing has no time zone.", "Without one the order of entries is not known."
        )
    if not entry.author.strip():
        yield _not_so("Nobody wrote the entry.", "Say who.")
    if entry.act is not None:
        yield from _numbers(entry.act, today)
        yield from _parts(entry, entry.act)


def _numbers(act: Payload, today: date) -> Iterator[Question]:
    for name in act.__struct_fields__:
        value = getattr(act, name)
        if isinstance(value, bool) or not isinstance(value, (int, float)):
            continue
        said = f"{name.rsplit('_', 1)[0].replace('_', ' ')} {value:g}"
        if not math.isfinite(value):
            yield _not_so(f"{said.capitalize()} is no number.", "Give a number.")
        elif name in _ABOVE_ZERO and value <= 0:
            yield _not_so(f"{said.capitalize()} is not possible.", "It must be above zero.")
        elif name not in _ANY_SIGN and value < 0:
            yield _not_so(f"{said.capitalize()} is not possible.", "It cannot be below zero.")
        elif name == "hour" and value > 24:
            yield _not_so(f"There is no hour {value:g}.", "Hours run from 0 to 24.")
        elif name == "year" and not _EARLIEST_YEAR <= value <= today.year + 1:
            yield _not_so(f"The year {value:g} is not possible.", f"{_EARLIEST_YEAR} to {today.year + 1}.")


def _parts(entry: Entry, act: Payload) -> Iterator[Question]:
    for name in _NAMED.get(type(act), ()):
        if not str(getattr(act, name)).strip():
            yield _not_so(f"No {name} is named.", "The entry needs it.")
    some = _SOME_OF.get(type(act), ())
    if some and all(getattr(act, name) is None for name in some):
        yield _not_so("Nothing was measured.", "Give at least one value.")
    match act:
        case kinds.Seen(plants=int(plants), of_plants=int(of_plants)) if plants > of_plants:
            yield _not_so(f"{plants} of {of_plants} plants were seen.", "More than all is not possible.")
        case kinds.ThermometerRead(min_c=float(low), max_c=float(high)) if low > high:
            yield _not_so(
                f"The lowest was {low:g} and the highest {high:g}.", "They may be the wrong way round."
            )
        case kinds.LotSet(germinated=germinated, tested=tested) if (germinated is None) != (tested is None):
            yield _not_so("Half a germination test is told.", "Say how many sprouted of how many.")
        case kinds.LotSet(germinated=int(germinated), tested=int(tested)) if germinated > tested:
            yield _not_so(f"{germinated} of {tested} seeds sprouted.", "More than all is not possible.")
        case kinds.Photo(sha256=digest) if not _DIGEST.fullmatch(digest):
            yield _not_so("The photo's digest is none.", "It is 64 letters and figures.")
        case kinds.Locked(on=on) if not {
            "bed": entry.bed or entry.planting,
            "planting": entry.planting,
            "batch": entry.batch,
        }[on]:
            yield _not_so(f"A lock on a {on} names none.", "Say what is locked.")
        case kinds.BedSet(is_round=True, width_m=width, length_m=length) if width != length:
            yield _not_so(
                f"A round bed is {width:g} m wide and {length:g} m long.", "It is as wide as it is long."
            )
        case kinds.BedSet() | kinds.BedGone() if not entry.bed.strip():
            yield _not_so("The bed has no key.", "The entry's subject is the bed.")
        case kinds.Sown() | kinds.PlantedOut() as act if not _on_ground(act):
            yield _not_so(
                "The place in the bed is not possible.", "Metres from its corner, and a size above zero."
            )
        case kinds.ChoreSet(first=date() as first, last=date() as last) if last < first:
            yield _not_so("The chore ends before it begins.", "The days may be the wrong way round.")
        case kinds.FlowMeasured() if not entry.bed.strip():
            yield _not_so("It is not said which bed's flow was measured.", "Name the bed.")
        case kinds.Stood() if not entry.bed.strip():
            yield _not_so("What stood where is not said.", "Name the bed.")
        case _:
            pass


def _on_ground(act: kinds.Sown | kinds.PlantedOut) -> bool:
    """Whether the numbers of its place can be meant; whether they fit the bed is another question."""
    block = act.block
    numbers = [number for spot in act.spots for number in spot]
    if block is not None:
        if block.width_m <= 0 or block.length_m <= 0:
            return False
        numbers += [block.across_m, block.along_m, block.width_m, block.length_m]
    return all(map(math.isfinite, numbers))


def _not_so(found: str, why: str) -> Question:
    return Question(about="form", found=found, why=why, may_insist=False)
