"""Where an act was done: the beds and crops named in a clause, each with the amounts said of it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from itertools import pairwise

from spadework.usecases.line.clause import Clause, targets
from spadework.usecases.line.marks import Mark


@dataclass(slots=True)
class Target:
    """One place of an act.

    Parameters
    ----------
    beds : tuple of Mark
        Marks that name its beds.
    crop : Mark or None
    marks : list of Mark
        What was said of this one only.
    alone : bool
        It is the only one of its clause.
    but : frozenset of str
        Keys of beds left out.
    lent : bool
        Its bed was said only of the last of several crops.
    """

    beds: tuple[Mark, ...] = ()
    crop: Mark | None = None
    marks: list[Mark] = field(default_factory=list)
    alone: bool = True
    but: frozenset[str] = frozenset()
    lent: bool = False


def targets_of(clause: Clause) -> list[Target]:
    """The places of a clause in the order said; one empty target where it names none."""
    found = _targets(clause)
    left_out = frozenset(
        key
        for at, mark in enumerate(clause.marks)
        if mark.beds and any("except" in each.means for each in clause.marks[max(0, at - 2) : at])
        for key in mark.beds
    )
    for target in found:
        target.but = left_out
    if len(found) > 1:
        _carry_unit(found)
    return found


def _carry_unit(found: Sequence[Target]) -> None:
    """The unit of the first holds on: "10 litres on the leeks, 10 on the onions"."""
    amounts = [mark.amount for mark in found[0].marks if mark.amount is not None]
    one_crop = len({target.crop for target in found}) == 1
    if len(amounts) != 1 or not amounts[0].number:
        return
    if amounts[0].dim != "volume" and not (amounts[0].dim == "mass" and one_crop):
        return
    one = amounts[0].value / amounts[0].number
    for target in found[1:]:
        numbers = [mark for mark in target.marks if mark.number is not None]
        if target.marks is found[0].marks or len(numbers) != 1:
            continue
        if any(mark.amount is not None and mark.amount.dim == amounts[0].dim for mark in target.marks):
            continue
        number = numbers[0].number
        if number is not None:
            numbers[0].amount = replace(amounts[0], value=number.value * one, number=number.value)
            numbers[0].number = None


def _targets(clause: Clause) -> list[Target]:
    own = list(targets(clause.marks))
    if not own and clause.taken_from is not None:
        return [Target(each.beds, each.crop, list(clause.marks)) for each in targets_of(clause.taken_from)]
    if not any(mark.is_crop for mark in own):
        own = [*(mark for mark in clause.context if mark.is_crop and mark not in own), *own]
    if not any(mark.is_bed for mark in own) and not any(mark.is_crop for mark in clause.marks):
        own = [*(mark for mark in clause.context if mark.is_bed and mark not in own), *own]
    if not own:
        own = [
            mark
            for lead, mark in pairwise(
                [each for each in clause.marks if each.plain not in ("the", "my", "our")]
            )
            if mark.is_crop and "beside" in lead.means
        ]
    crops = _distinct([mark for mark in own if mark.is_crop])
    beds = [mark for mark in own if mark.is_bed]
    if any(mark.beds for mark in beds):
        beds = [mark for mark in beds if not mark.maybe_beds]
    if len(crops) > 1:
        return _each(clause, crops, beds)
    if len(beds) > 1 and clause.act not in ("plant out", "plant", "prick out"):
        crop = crops[0] if crops else None
        return [
            Target((bed,), crop, marks, alone=False)
            for bed, marks in zip(beds, _shares(clause, beds), strict=True)
        ]
    return [Target(tuple(beds), crops[0] if crops else None, list(clause.marks))]


def _distinct(crops: Sequence[Mark]) -> list[Mark]:
    """The same crop named twice is one."""
    found: list[Mark] = []
    for mark in crops:
        if not any(
            (mark.crop and mark.crop == other.crop)
            or (mark.crops and mark.crops == other.crops)
            or (mark.crop and other.crop and mark.crop[0] == other.crop[0])
            for other in found
        ):
            found.append(mark)
    return found


def _each(clause: Clause, crops: Sequence[Mark], beds: Sequence[Mark]) -> list[Target]:
    shares = _shares(clause, crops)
    found: list[Target] = []
    for crop, marks in zip(crops, shares, strict=True):
        own = tuple(bed for bed in beds if bed in marks)
        found.append(Target(own, crop, marks, alone=False))
    if beds and len({bed.beds for bed in beds}) == 1:
        for target in found:
            target.lent = beds[0] not in target.marks
            target.beds = (beds[0],)
    elif beds and found[-1].beds and not any(target.beds for target in found[:-1]):
        for target in found[:-1]:
            target.beds, target.lent = found[-1].beds, True
    return found


def _shares(clause: Clause, heads: Sequence[Mark]) -> list[list[Mark]]:
    """The marks of a clause dealt out to its heads: amounts before or after them, as with the first."""
    marks = clause.marks
    places = [marks.index(head) if head in marks else -1 for head in heads]
    if -1 in places:
        return [list(marks) for _ in heads]
    before = any(mark.amount is not None or mark.number is not None for mark in marks[: places[0]])
    ends: list[int] = []
    for here, following in pairwise(places):
        ends.append(here + 1 if before else _parted(marks, here, following))
    ends.append(len(marks))
    begins = [0, *ends[:-1]]
    return [list(marks[begin:end]) for begin, end in zip(begins, ends, strict=True)]


def _parted(marks: Sequence[Mark], here: int, following: int) -> int:
    """Where one head's marks end and the next one's begin: at the last comma or "and" between."""
    for at in range(following - 1, here, -1):
        if marks[at].stop:
            return at
    return following
