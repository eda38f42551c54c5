"""Part the marks of a line into clauses, one for each act."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from spadework.usecases.line.clause import Clause, names_place
from spadework.usecases.line.deciding import fits_before, strong_act
from spadework.usecases.line.marks import Mark
from spadework.usecases.line.signs import weak_act

_THERE: Final = frozenset({"in there", "in it", "inside", "there"})
_FULL: Final = frozenset({".", ";"})
_PLACELESS: Final = frozenset(
    {"rain", "thermometer", "buy", "new bed", "note", "ask", "lock", "unlock", "minutes", "skip"}
)
"""Acts that need no place, or do not take it from a neighbour."""
_MAY_LEND: Final = frozenset({"lock"})
_TAKES_BACK: Final = _PLACELESS - {"minutes", "lock", "unlock"}

_ABSORBS: Final[dict[str, frozenset[str]]] = {
    "lose": frozenset({"seen", "lift", "lose", "pull", "clear", "measure"}),
    "treat": frozenset({"seen", "treat", "note"}),
    "skip": frozenset({"seen", "rain", "soil felt", "ready"}),
    "note": frozenset(
        {"seen", "note", "minutes", "pick", "measure", "water", "count", "up", "ready", "first flower"}
    ),
    "thin": frozenset({"pull", "measure", "standing", "count", "lift"}),
    "clear": frozenset({"pull", "lose", "seen", "clear", "amend"}),
    "water": frozenset({"soil felt"}),
    "lock": frozenset({"seen", "lock", "treat", "note"}),
    "buy": frozenset(
        {
            "sow",
            "plant",
            "plant out",
            "hoe",
            "feed",
            "mulch",
            "support",
            "treat",
            "cover",
            "uncover",
            "measure",
            "pick",
            "water",
            "seen",
            "count",
            "kit",
            "open",
            "shut",
            "spray",
            "up",
            "stood",
            "bolting",
            "ready",
            "amend",
        }
    ),
    "new bed": frozenset(
        {
            "sow",
            "plant",
            "measure",
            "buy",
            "water",
            "new bed",
            "put",
            "soil felt",
            "amend",
            "clear",
            "store",
            "cover",
        }
    ),
    "cure": frozenset({"store"}),
    "soil felt": frozenset({"measure", "soil felt"}),
    "thermometer": frozenset({"rain"} - {"rain"}),
    "cover": frozenset({"measure", "support"}),
    "uncover": frozenset({"cover"} - {"cover"}),
    "count": frozenset({"up", "standing", "measure", "ready"}),
    "first flower": frozenset({"first female flower"}),
    "first female flower": frozenset({"first flower"}),
    "prick out": frozenset({"measure", "sow"}),
    "plant out": frozenset({"measure", "plant", "first flower"}),
    "plant": frozenset({"measure"}),
    "sow": frozenset({"measure", "plant"}),
    "ask": frozenset({"water", "note", "pick"}),
    "lift": frozenset({"measure"}),
    "pull": frozenset({"thin"}),
    "gone": frozenset({"seen"}),
    "pick": frozenset({"measure"}),
    "mulch": frozenset({"measure", "amend"}),
    "earth up": frozenset({"measure"}),
    "seen": frozenset({"measure"}),
}
"""What an act takes in where the next clause names no place of its own."""

_WEAK_ABSORBED: Final = frozenset({"seen", "rain", "soil felt", "measure", "kit", "standing", "minutes"})


@dataclass(slots=True)
class _Segment:
    marks: list[Mark]
    sentence: int
    stop: Mark | None


def clauses_of(marks: Sequence[Mark]) -> list[Clause]:
    """The clauses of a line, in order; one "note" clause where no act is found."""
    clauses: list[Clause] = []
    prefix: list[Mark] = []
    for segment in _segments(marks):
        for act, own, act_mark in _pieces(segment):
            last = clauses[-1] if clauses else None
            decided = act or weak_act(own, "" if last is None else last.act, prefix if last is None else ())
            if segment.stop is not None and own is segment.marks and (last is not None or prefix):
                (prefix if last is None else last.marks).append(segment.stop)
            if not decided or (last is not None and _absorbed(last, decided, own, strong=bool(act))):
                (prefix if last is None else last.marks).extend(own)
            else:
                made = Clause(decided, [*prefix, *own] if last is None else list(own), segment.sentence)
                made.act_mark = act_mark
                made.context = [
                    mark for mark in prefix if mark.is_bed or mark.is_crop or "person" in mark.means
                ]
                clauses.append(made)
    if not clauses:
        return [Clause("note", list(marks))]
    first = clauses[0]
    for clause in clauses[1:]:
        clause.context = first.context
    _share_places(clauses)
    return clauses


def _segments(marks: Sequence[Mark]) -> list[_Segment]:
    found: list[_Segment] = []
    own: list[Mark] = []
    sentence = 0
    stop: Mark | None = None
    for mark in marks:
        if not mark.stop:
            own.append(mark)
            continue
        if own:
            found.append(_Segment(own, sentence, stop))
            own = []
        stop = mark
        if mark.plain in _FULL:
            sentence += 1
    if own:
        found.append(_Segment(own, sentence, stop))
    return found


def _pieces(segment: _Segment) -> list[tuple[str, list[Mark], Mark | None]]:
    """A segment cut before each further act in it, with the act of each piece."""
    acts = [(at, act) for at in range(len(segment.marks)) if (act := strong_act(segment.marks, at))]
    kept: list[tuple[int, str]] = []
    for at, act in acts:
        if kept and not fits_before(kept[-1][1], act):
            continue
        kept.append((at, act))
    if kept and kept[0][1] == "":
        kept = []
    if len(kept) < 2:
        one = kept[0] if kept else None
        return [(one[1] if one else "", segment.marks, segment.marks[one[0]] if one else None)]
    pieces: list[tuple[str, list[Mark], Mark | None]] = []
    begin = 0
    for number, (at, act) in enumerate(kept):
        end = len(segment.marks)
        if number + 1 < len(kept):
            end = kept[number + 1][0]
            while end > at + 1 and _leads_on(segment.marks[end - 1]):
                end -= 1
        pieces.append((act, segment.marks[begin:end], segment.marks[at]))
        begin = end
    return pieces


def _leads_on(mark: Mark) -> bool:
    """Whether a word before an act belongs to it: who did it, and small words."""
    return "person" in mark.means or mark.plain in (
        "i",
        "we",
        "have",
        "then",
        "ive",
        "weve",
        "he",
        "she",
        "they",
        "ben",
        "not",
    )


def _absorbed(last: Clause, act: str, own: Sequence[Mark], *, strong: bool) -> bool:
    names = names_place(own)
    if act == last.act:
        if act in ("note", "seen") and names:
            return False
        return not strong or not names or act in ("note", "ask", "buy", "new bed")
    if names and any(mark.is_crop for mark in own) and act != "measure":
        return False
    if last.act == "buy" or last.act == "new bed":
        return act in _ABSORBS[last.act]
    if names:
        return False
    if act == "kit":
        return last.act in ("cover", "uncover")
    things = {mark.means["thing"] for mark in own if "thing" in mark.means}
    if last.act == "ready" and things == {"yellowing"}:
        return True
    if act == "pull" and last.act == "seen":
        return True
    if (
        act == "pick"
        and last.act in ("bolting", "first flower", "seen")
        and any(mark.plain == "off" for mark in own)
    ):
        return True
    if act == "pick" and last.act == "seen":
        return not any(mark.amount is not None and mark.amount.dim == "mass" for mark in own)
    return act in _ABSORBS.get(last.act, frozenset())


def _share_places(clauses: Sequence[Clause]) -> None:
    """Clauses without a place take that of the one before, else of the next one."""
    for at, clause in enumerate(clauses):
        clause.prior = clauses[at - 1] if at else None
        if clause.act == "thermometer" and at and any(mark.plain in _THERE for mark in clause.marks):
            clause.taken_from = clauses[at - 1].taken_from or clauses[at - 1]
        if names_place(clause.marks) or names_place(clause.context):
            continue
        if clause.act in _PLACELESS and clause.act not in ("minutes", "lock", "skip"):
            continue
        before = [
            each for each in clauses[:at] if each.act not in _PLACELESS - _MAY_LEND or names_place(each.marks)
        ]
        behind = [each for each in clauses[at + 1 :] if each.act not in _TAKES_BACK]
        if before and (names_place(before[-1].marks) or before[-1].taken_from):
            if clause.act != "skip" or before[-1].sentence == clause.sentence:
                clause.taken_from = before[-1].taken_from or before[-1]
        elif behind and clause.act != "skip":
            near = next((each for each in behind if names_place(each.marks)), None)
            if near is not None:
                clause.taken_from = near
