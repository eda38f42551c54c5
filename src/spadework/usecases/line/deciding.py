"""What a stretch of a line is about: the act named in it, or the one its signs tell of."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from spadework.usecases.line.marks import Mark

_ARTICLES: Final = frozenset(
    {"a", "the", "an", "per", "each", "another", "of", "no", "one", "this", "that", "row", "every", "my"}
)
_NOUNS: Final = frozenset(
    {
        "plant",
        "cover",
        "spray",
        "count",
        "lock",
        "mulch",
        "store",
        "hoe",
        "stake",
        "cut",
        "feed",
        "shut",
        "skip",
    }
)
_BY_IT: Final = frozenset({"was", "were", "is", "are", "been", "be", "being", "keep", "keeps", "still"})
_LOCKING: Final = frozenset({"dont", "do not", "nobody", "no one", "not", "no", "nothing", "none", "never"})
_ANIMALS: Final = frozenset(
    {"pigeons", "birds", "mice", "rabbits", "deer", "slugs", "snails", "ants", "caterpillars"}
)
"""What does things to plants itself."""
_DONE_BY_THEM: Final = frozenset({"lift", "pick", "pull", "clear", "thin", "hoe"})
_EATEN: Final = frozenset({"pick", "pull", "lift", "eat"})
_OF_SEED: Final = frozenset({"seed", "seeds", "packet", "packets"})
_FUTURE: Final = ("tomorrow", "next")
_JUST_GOT: Final = frozenset({"buy", "lock", "unlock", "new bed", "skip"})


def strong_act(marks: Sequence[Mark], at: int) -> str:
    """The act a mark names, what is planned or denied taken into account; empty where it names none."""
    mark = marks[at]
    act = mark.means.get("act", "")
    before = marks[at - 1] if at else None
    if "is again" in mark.means:
        return "ask"
    if at == 0 and mark.plain == "thin" and any(each.is_crop for each in marks[1:3]):
        return "thin"
    if not act or (mark.plain == "started" and _is_begun(marks, at)):
        return ""
    if before is not None and before.plain in ("for", "before", "after", "until", "till") and act != "store":
        return ""
    if before is not None and before.means.get("thing") in _ANIMALS and act in _DONE_BY_THEM:
        return ""
    if mark.plain in ("cover", "covering") and any(each.plain == "off" for each in marks[at + 1 : at + 2]):
        return "uncover"
    if act in ("lift", "pull") and _is_off_kit(marks):
        return "uncover"
    if (
        before is not None
        and before.plain == "to"
        and any(each.plain in ("day", "days") for each in marks[:at])
    ):
        return ""
    if act in ("open", "shut") and (
        any(each.plain == "with" for each in marks[max(0, at - 2) : at])
        or (before is not None and before.plain in ("one", "ones", "first", "flower", "flowers"))
    ):
        return ""
    if act == "support" and any(each.means.get("act") == "cure" for each in marks[at + 1 :]):
        return ""
    if mark.plain.startswith("something") and not _is_told(marks[at + 1 :]):
        return ""
    if mark.plain.startswith("swapped") and not any(each.plain in _OF_SEED for each in marks):
        return ""
    if act == "buy" and _is_set_out(marks):
        return ""
    if before is not None and mark.plain in _NOUNS and _is_noun(before, mark):
        return ""
    if (
        before is not None
        and before.plain in _BY_IT
        and any("thing" in each.means or each.plain == "cat" for each in marks[:at])
    ):
        return ""
    if (
        "mulch" in mark.means
        and "act" in mark.means
        and mark.plain in ("mulch",)
        and at
        and marks[at - 1].amount is not None
    ):
        return act
    if (denied := _denied(marks, at, act)) != "":
        return denied
    if act == "eat":
        return ""
    return "note" if _is_planned(marks, at) else act


def _is_told(marks: Sequence[Mark]) -> bool:
    """Whether a number says what was lost."""
    return any(mark.number is not None or mark.ratio is not None for mark in marks)


def _is_noun(before: Mark, mark: Mark) -> bool:
    """Whether "cover" or "feed" is a thing and no act, by the word before it."""
    of_crop = before.is_crop and mark.plain in ("plant", "feed", "store")
    return before.plain in _ARTICLES or before.number is not None or of_crop


def _is_off_kit(marks: Sequence[Mark]) -> bool:
    """Whether a cover is what was lifted off."""
    kit = any(
        "kit" in mark.means or mark.means.get("cover") in ("fleece", "mesh", "netting") for mark in marks
    )
    return kit and any(mark.plain == "off" for mark in marks)


def _is_begun(marks: Sequence[Mark], at: int) -> bool:
    """Whether "started" is only the beginning of something else."""
    rest = marks[at + 1 :]
    others = any("act" in each.means or any(tag.startswith("sign") for tag in each.means) for each in rest)
    return others or not any(each.is_crop for each in marks)


def fits_before(first: str, second: str) -> bool:
    """Whether a further act in one breath is an act of its own."""
    if first == second or first in _JUST_GOT or first in ("note", "ask"):
        return False
    if first == "thin" and second in ("pull", "plant"):
        return False
    if first in ("count",) and second in ("sow", "plant", "plant out", "pull"):
        return False
    if second in ("buy", "lock"):
        return False
    return not (first == "cure" and second in ("store", "cure"))


def _is_set_out(marks: Sequence[Mark]) -> bool:
    """Whether what was bought is planted or sown in the same breath."""
    return any(mark.means.get("act") in ("plant", "plant out", "sow") for mark in marks)


def _denied(marks: Sequence[Mark], at: int, act: str) -> str:
    """ "skip" or "lock" where a word of denial leads to the act."""
    for back in range(at - 1, max(-1, at - 6), -1):
        mark = marks[back]
        if "not" not in mark.means:
            if (
                back == at - 1
                or mark.plain
                in ("to", "be", "been", "any", "get", "the", "need", "a", "got", "more", "please")
                or mark.is_crop
            ):
                continue
            if mark.is_bed or "person" in mark.means:
                continue
            return ""
        word = mark.plain
        ends = any(each.day is not None and each.day.lead == "until" for each in marks)
        eaten = act in _EATEN
        ends = ends or (
            word == "no" and any(each.plain in ("days", "day", "week", "weeks") for each in marks)
        )
        ends = ends or (
            eaten
            and word in ("no", "dont", "do not", "nobody", "no one", "nothing")
            and any(each.plain in ("until", "till", "til") for each in marks[at:])
        )
        told = word in ("dont", "do not", "nobody", "no one")
        to_be = any(each.plain == "be" for each in marks[back:at])
        if (
            act in (*_EATEN, "plant", "plant out", "sow")
            and word in _LOCKING
            and (ends or (told and eaten) or (word == "nothing" and to_be))
        ):
            return "lock"
        if word in ("no", "without", "never") and act not in (
            "water",
            "weed",
            "hoe",
            "feed",
            "pick",
            "thin",
            "plant",
            "sow",
            "mulch",
        ):
            return ""
        return "skip"
    return ""


def _is_planned(marks: Sequence[Mark], at: int) -> bool:
    for place, mark in enumerate(marks):
        if "plan" not in mark.means:
            continue
        if place < at or mark.plain.startswith(_FUTURE):
            return True
    return False
