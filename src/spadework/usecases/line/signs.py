"""What a stretch without an act tells of: by its signs, and by what is done with what."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import Final

from spadework.usecases.line.marks import Mark

_WITH_LENGTHS: Final = frozenset(
    {"mulch", "earth up", "thin", "sow", "plant", "plant out", "cover", "prick out", "soil felt"}
)
"""Acts whose own lengths are no heights."""


def weak_act(marks: Sequence[Mark], before: str, prefix: Sequence[Mark]) -> str:
    """What a stretch without an act tells of, by its signs and by what is done with what.

    Parameters
    ----------
    marks : sequence of Mark
    before : str
        The act of the clause before it.
    prefix : sequence of Mark
        What was said before any act.
    """
    place = any(mark.is_bed or mark.is_crop for mark in (*prefix, *marks))
    crop = any(mark.is_crop for mark in (*prefix, *marks))
    has = _Has(marks)
    if any("is again" in mark.means for mark in marks) and before == "":
        return "ask"
    planned = has.any("plan") and (
        crop or has.any("thing", "sign", "light", "cover", "kit", "amendment", "product")
    )
    if planned and not before:
        return "note"
    if has.any("idle") and not has.amount() and not has.any("kit"):
        return ""
    denied = has.any("not")
    if (
        not before
        and has.plain("new")
        and has.any("kit", "cover")
        and (marks[0].plain == "new" or marks[0].plain in ("got", "a"))
    ):
        return "buy"
    if not denied:
        found = _of_kit(has, before)
        if found:
            return found
    if has.amount("temp") or (
        has.any("sign low", "sign high") and has.number() and not has.amount() and not crop
    ):
        return "thermometer"
    if (
        has.any("sign soil place", "sign air place")
        and has.number()
        and not has.amount("length", "volume")
        and not crop
    ):
        return "thermometer"
    if has.any("sign soil place") and has.number() and has.amount("length") and not crop:
        return "thermometer"
    if has.any("is gauge") and has.number() and not has.amount() and not place:
        return "rain"
    if has.amount("length") and any("sign rain" in mark.means for mark in (*prefix, *marks)):
        return "rain"
    said = _Has([*prefix, *marks])
    soil = has.any("is dry", "is damp", "is wet", "is crumbles", "is holds", "is smears")
    if (
        has.any("sign squeeze")
        or (soil and said.any("sign finger", "sign soil place"))
        or (soil and not crop and (has.amount("length") or has.bed()) and not has.any("thing"))
    ):
        return "soil felt"
    if denied:
        not_yet = _stage(has, crop or has.bed())
        if not_yet and place:
            return not_yet
        return "note" if place and has.any("sign", "thing") else ""
    if _Has([*prefix, *marks]).any("lot") and _ratio(has) and has.any("sign up"):
        return "up"
    hot = has.number() and has.bed() and not crop and any(mark.hour is not None for mark in marks)
    if has.plain("from", "drip", "hose", "sprinkler"):
        hot = False
    if hot and before in ("", "open", "shut", "thermometer") and not has.amount():
        return "thermometer"
    stage = _stage(has, crop)
    if stage and not (has.any("thing") and stage == "up"):
        return stage
    if (crop or before) and _is_gone(marks):
        return "gone"
    if has.any("sign left") and has.amount("length") and has.plain("every", "apart", "between"):
        return "thin"
    if any(mark.no_bed and lead.plain in ("thats", "so thats", "call it") for lead, mark in pairwise(marks)):
        return "new bed"
    if _is_sown(has, crop=crop, before=before):
        return "sow"
    if has.any("product") and place and has.plain("on", "onto", "against", "round", "around", "to"):
        return "treat"
    if has.any("thing") and not _only_eggs(has) and (has.any("light") or place or before or len(marks) <= 6):
        return "seen"
    return _by_what(has, prefix, crop=crop, place=place, before=before)


def _is_gone(marks: Sequence[Mark]) -> bool:
    """ "6 gone", "3 gone to slugs"; "gone to the shed" tells more."""
    for at, mark in enumerate(marks):
        after = marks[at + 1].plain if at + 1 < len(marks) else ""
        lost_to = after == "to" and any("thing" in each.means for each in marks[at + 1 :])
        if mark.plain == "gone" and (after in ("", "from") or lost_to) and marks[max(0, at - 2) : at]:
            return any(each.number is not None for each in marks[max(0, at - 2) : at])
    return False


def _is_sown(has: _Has, *, crop: bool, before: str) -> bool:
    """ "12 radish seeds from radish-26", "one 10 ft row of spinach": told without an act."""
    if not crop or before or has.any("act", "light", "plan", "sign", "is bought", "thing"):
        return False
    if has.any("lot") and has.number() and has.plain("seeds"):
        return True
    return any(
        length.amount is not None
        and length.amount.dim == "length"
        and row.plain in ("row", "rows", "drill", "drills")
        and of.plain == "of"
        for length, row, of in zip(has.marks, has.marks[1:], has.marks[2:], strict=False)
    )


class _Has:
    """Asks about a stretch of marks."""

    def __init__(self, marks: Sequence[Mark]) -> None:
        self.marks = marks

    def any(self, *tags: str) -> Mark | None:
        return next((mark for mark in self.marks if any(tag in mark.means for tag in tags)), None)

    def plain(self, *words: str) -> bool:
        return any(mark.plain in words for mark in self.marks)

    def amount(self, *dims: str) -> Mark | None:
        return next(
            (
                mark
                for mark in self.marks
                if mark.amount is not None and (not dims or mark.amount.dim in dims)
            ),
            None,
        )

    def number(self) -> Mark | None:
        return next((mark for mark in self.marks if mark.number is not None), None)

    def bed(self) -> bool:
        return any(mark.is_bed for mark in self.marks)


def _of_kit(has: _Has, before: str) -> str:
    kit = has.any("kit", "cover")
    if (
        kit is None
        and before in ("cover", "uncover")
        and has.any("light")
        and has.plain("it", "them")
        and has.bed()
    ):
        return "uncover" if has.plain("off") else "cover"
    if kit is None or (kit.means.get("cover") in ("tool", "tray", "other") and "kit" not in kit.means):
        return ""
    if kit.means.get("cover") == "tray" or "tray" in kit.plain:
        return ""
    at = has.marks.index(kit)
    if has.plain("off", "back off", "away") or (has.any("light") and has.plain("off")):
        return "uncover"
    if has.plain("on", "over", "under", "round", "around", "across", "back") and (
        has.bed() or any(mark.is_crop for mark in has.marks) or before in ("cover",) or at <= 3
    ):
        return "cover"
    light = has.any("light")
    if (
        light is not None
        and light.plain == "moved"
        and has.plain("from")
        and has.plain("to", "onto", "over", "on")
    ):
        return "move kit"
    if light is not None and light.plain in ("removed", "took", "whipped", "moved") and "kit" in kit.means:
        return "uncover" if light.plain != "moved" else ""
    if light is not None and light.plain in (
        "put",
        "laid",
        "draped",
        "pegged",
        "used",
        "strung",
        "set",
        "stuck",
    ):
        return "cover"
    return "kit" if before in ("cover", "uncover", "buy") else ""


def _stage(has: _Has, crop: bool) -> str:
    for stage in ("first female flower", "first flower", "bolting", "ready", "up"):
        mark = has.any(f"sign {stage}")
        if mark is None or not crop:
            continue
        bare = stage == "first flower" and mark.plain in (
            "flower",
            "flowers",
            "blossom",
            "flowered",
            "blooms",
        )
        if bare and not has.plain("first", "out", "open", "opened") and not has.any("is female"):
            continue
        if mark.plain == "through" and not has.number():
            continue
        if stage == "up" and (has.amount("length") or (mark.plain == "up" and has.any("light"))):
            continue
        return stage
    return ""


def _by_what(has: _Has, prefix: Sequence[Mark], *, crop: bool, place: bool, before: str) -> str:
    """Light words, and amounts alone, by what stands with them."""
    light = has.any("light")
    if (has.any("act") is None and light is not None) or has.plain("hose", "sprinkler", "drip", "soaker"):
        named = "" if light is None else light.plain
        if has.plain("hose", "sprinkler", "drip", "soaker") and (
            has.amount("minutes", "volume") or has.bed()
        ):
            return "water"
        if has.any("feed"):
            return "feed"
        if has.any("product"):
            return "treat"
        if (
            named in ("put", "moved")
            and crop
            and has.plain("away", "shed", "cellar", "loft", "store", "freezer", "larder", "pantry")
        ):
            return "store"
        if has.any("amendment") or has.any("mulch"):
            on_top = has.amount("length") is not None and has.plain("on", "over", "round", "around", "onto")
            return "mulch" if on_top or not has.any("amendment") else "amend"
        if has.amount("volume") and place and named not in ("got", "had", "took"):
            return "water"
        if named in ("took", "take", "taking") and has.amount("minutes"):
            return "minutes"
        if named in ("put", "popped", "bunged") and crop and has.bed() and _is_put_in(has):
            return "plant"
        if (_past_year(has) or has.any("is last year")) and crop and has.bed():
            return "stood"
        if (
            named in ("got", "had", "took", "brought")
            and (crop or before)
            and (
                has.amount("mass")
                or (
                    crop and (has.number() or has.plain("handful", "bowl", "bowlful", "bunch", "few", "some"))
                )
            )
        ):
            return "pick"
        if named in ("put", "popped", "stuck", "dropped", "bunged") and crop and (has.bed() or has.number()):
            return "plant"
        if named in ("removed", "took") and has.number() and (crop or before == "thin"):
            return "pull"
    if (_past_year(has) or has.any("is last year")) and crop and has.bed():
        return "stood"
    moved = has.any("light")
    if (
        crop
        and has.bed()
        and moved is not None
        and moved.plain == "moved"
        and has.plain("into", "to", "onto")
    ):
        return "plant out"
    if crop and has.number() and has.plain("from") and has.plain("into", "to") and _two_beds(has):
        return "plant out"
    if _is_fruit_count(has) and not has.amount() and before in ("", "pick"):
        return "pick"
    if has.amount("mass") and crop:
        return "pick"
    if (
        (has.any("sign standing") or has.any("is per row"))
        and (has.number() or has.any("is per row"))
        and place
    ):
        return "count"
    if has.any("sign standing") and (has.number() or _ratio(has)):
        return "count"
    if has.any("sign true leaves") and (has.number() or place):
        return "measure"
    sized = has.any("sign tall", "sign wide") or (crop and not has.any("is modules"))
    if has.amount("length") and sized and before not in _WITH_LENGTHS:
        return "measure"
    if (
        has.any("feed")
        and place
        and before in ("", "feed")
        and has.plain("to", "on", "for", "round", "around", "under", "under the")
    ):
        return "feed"
    if _Has([*prefix, *has.marks]).any("amendment") and has.bed() and before in ("", "amend"):
        return "amend"
    if has.amount("volume") and (place or before == "water"):
        return "pick" if _is_fruit(has) else "water"
    if has.amount("minutes") and (has.any("sign minutes") or before):
        return "minutes"
    if before == "" and len(prefix) + len(has.marks) <= 4 and has.bed() and _Has(prefix).amount("minutes"):
        return "minutes"
    if has.amount("minutes") and (place or any(mark.plain.endswith("ing") for mark in has.marks)):
        return "minutes"
    return ""


def _is_put_in(has: _Has) -> bool:
    """Whether "in" belongs to "put": "put the spinach in at the end of bed 8"."""
    return any(
        lead.is_crop and mark.plain == "in" and after.plain in ("at", "in", "along", "by", "down", "behind")
        for lead, mark, after in zip(has.marks, has.marks[1:], has.marks[2:], strict=False)
    )


def _is_fruit(has: _Has) -> bool:
    """Pints and quarts of fruit are picked, those of anything else are poured."""
    unit = has.amount("volume")
    small = (
        unit is not None
        and unit.amount is not None
        and unit.amount.unit[:2] in ("qu", "qt", "pi", "pt", "pu")
    )
    crops = {mark.crop[0] for mark in has.marks if mark.crop is not None}
    return (
        small
        and bool(crops & {"strawberry", "tomato", "pea", "bush-bean", "pepper"})
        and not has.plain("water")
    )


def _two_beds(has: _Has) -> bool:
    return len([mark for mark in has.marks if mark.beds]) == 2


_FRUITS: Final = frozenset(
    {"summer-squash", "cucumber", "tomato", "pepper", "strawberry", "eggplant", "melon"}
)


def _is_fruit_count(has: _Has) -> bool:
    """A bare number before a fruit: nobody counts what is picked daily for another reason."""
    for number, crop in pairwise(has.marks):
        if number.number is not None and crop.crop is not None and crop.crop[0] in _FRUITS:
            return not any(
                "sign" in mark.means or mark.plain in ("plants", "plant", "seeds", "seedlings")
                for mark in has.marks
            )
    return False


def _past_year(has: _Has) -> bool:
    return any(
        mark.number is not None
        and 1950 <= mark.number.value <= 2100
        and mark.number.value == int(mark.number.value)
        for mark in has.marks
    )


def _ratio(has: _Has) -> bool:
    return any(mark.ratio is not None for mark in has.marks)


def _only_eggs(has: _Has) -> bool:
    things = [mark for mark in has.marks if "thing" in mark.means]
    weak = all(mark.means["thing"] in ("eggs", "ladybirds") for mark in things)
    return weak and not has.plain("on", "under", "in", "found", "seen", "saw") and not has.any("light")
