"""Plants as they grow: pricked out, counted, measured, thinned, and stages reached."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final, Literal

from spadework.garden import entries as kinds
from spadework.garden.question import Question
from spadework.usecases.keep_book import Act
from spadework.usecases.line.clause import Clause
from spadework.usecases.line.marks import Mark
from spadework.usecases.line.scene import Scene

_HEADS: Final = frozenset(
    [
        "plants",
        "plant",
        "seedlings",
        "seedling",
        "starts",
        "plugs",
        "of",
        "standing",
        "up",
        "left",
        "them",
        "in",
        "across",
        "cells",
    ]
)


def thinned(scene: Scene, clause: Clause) -> list[Act]:
    """Plants taken out for room: how many, how many stay, how far apart."""
    found: list[Act] = []
    lengths = clause.amounts("length")
    shared = lengths[0].amount if len(lengths) == 1 else None
    for target, place in scene.spots(clause):
        own = clause.marks if target.alone else target.marks
        length = clause.amount("length", own) or shared
        removed, left = None, None
        for mark in clause.numbers(own):
            near = [*clause.before(mark, 2), *clause.after(mark, 2)]
            if any(each.plain == "every" for each in clause.after(mark, 1)):
                mark.used = True
                continue
            if any("sign left" in each.means for each in near) or any(
                each.plain == "to" for each in clause.before(mark, 1)
            ):
                left = clause.whole(mark)
            elif removed is None:
                removed = clause.whole(mark)
        spacing_cm = None if length is None else round(length.value, 2)
        found.append(scene.act(kinds.Thinned(removed=removed, left=left, spacing_cm=spacing_cm), place))
    return found


def counted(scene: Scene, clause: Clause) -> list[Act]:
    """Plants standing, of a stretch of row where one is said."""
    found: list[Act] = []
    for target, place in scene.spots(clause):
        own = clause.marks if target.alone else target.marks
        ratio = next((mark for mark in own if mark.ratio is not None), None)
        number = best_number(clause, own)
        if number is None and ratio is not None and ratio.ratio is not None:
            ratio.used = True
            found.append(scene.act(kinds.Counted(standing=round(ratio.ratio[0])), place))
            continue
        standing = clause.whole(number)
        if standing is None:
            continue
        per = clause.use("is per row")
        of_row_m = _metres_of(per)
        if per is None:
            stretch = clause.amount("length", own)
            of_row_m = None if stretch is None else round(stretch.value / 100, 2)
        found.append(scene.act(kinds.Counted(standing=standing, of_row_m=of_row_m), place))
    return found


def _metres_of(per: Mark | None) -> float | None:
    if per is None:
        return None
    return 0.3048 if "foot" in per.plain else 1.0


def best_number(clause: Clause, own: Sequence[Mark]) -> Mark | None:
    """The number of plants: one before a word for them, else the first."""
    numbers = clause.numbers(own)
    for mark in numbers:
        if any(
            each.plain in _HEADS
            or each.is_crop
            or "sign standing" in each.means
            or "is per row" in each.means
            for each in clause.after(mark, 1)
        ):
            return mark
    return numbers[0] if numbers else None


def measured(scene: Scene, clause: Clause) -> list[Act]:
    """Height, leaves, width."""
    found: list[Act] = []
    for target, place in scene.spots(clause):
        own = clause.marks if target.alone else target.marks
        height_cm, width_mm, leaves = None, None, None
        for mark in clause.amounts("length", own):
            near = [*clause.before(mark, 2), *clause.after(mark, 2)]
            if mark.amount is None:
                continue
            mark.used = True
            if any("sign wide" in each.means for each in near):
                width_mm = round(mark.amount.value * 10, 2)
            elif height_cm is None:
                height_cm = round(mark.amount.value, 2)
        sign = next(
            (mark for mark in own if "sign true leaves" in mark.means or mark.plain in ("leaves", "leaf")),
            None,
        )
        if sign is not None:
            number = next((mark for mark in clause.before(sign, 2) if mark.number is not None), None)
            if number is not None and number.number is not None:
                number.used = sign.used = True
                leaves = number.number.value
        if height_cm is not None or width_mm is not None or leaves is not None:
            payload = kinds.Measured(height_cm=height_cm, leaves=leaves, width_mm=width_mm)
            found.append(scene.act(payload, place))
    return found


def pricked_out(scene: Scene, clause: Clause) -> list[Act]:
    """Seedlings moved on; without a number, potted on as work, or asked."""
    found: list[Act] = []
    for target, place in scene.spots(clause):
        own = clause.marks if target.alone else target.marks
        plants = clause.whole(best_number(clause, own))
        into = clause.has("is modules")
        if into is not None:
            into.used = True
        for mark in clause.amounts("length"):
            mark.used = True
        potted = clause.act_mark is not None and "pot" in clause.act_mark.plain
        if plants is not None:
            payload = kinds.PrickedOut(plants=plants, into="" if into is None else into.plain)
            found.append(scene.act(payload, place))
        elif potted:
            found.append(scene.act(kinds.Tended(act="potted on"), place))
        else:
            _ask_number(scene, "How many were pricked out?")
    return found


def _ask_number(scene: Scene, found: str) -> None:
    scene.sense.ask(
        Question(about="number", found=found, why="Give the number in the line.", may_insist=False)
    )


# -- stages ------------------------------------------------------------------------------------------

_STAGES: Final[dict[str, Literal["up", "first flower", "first female flower", "ready", "bolting"]]] = {
    "up": "up",
    "first flower": "first flower",
    "first female flower": "first female flower",
    "ready": "ready",
    "bolting": "bolting",
}


def staged(scene: Scene, clause: Clause) -> list[Act]:
    """A stage reached, or looked for and not reached yet; a number of plants up is a count beside it."""
    lot = clause.has("lot")
    tested = next((mark.ratio for mark in clause.marks if mark.ratio is not None), None)
    if clause.act == "up" and lot is not None and tested is not None:
        from spadework.usecases.line.owning import tested_lot

        return tested_lot(scene, clause, lot.means["lot"], tested)
    if clause.act == "up" and (clause.amounts("mass") or clause.words("bulbs", "bulb", "tubers")):
        from spadework.usecases.line.taking import lifted

        return lifted(scene, clause)
    what = _STAGES[clause.act]
    if what == "first flower" and clause.use("is female"):
        what = "first female flower"
    reached = clause.has("not") is None
    for tag in ("not", f"sign {clause.act}"):
        clause.use(tag)
    found: list[Act] = []
    for target, place in scene.spots(clause):
        own = clause.marks if target.alone else target.marks
        part = next((mark for mark in own if "is some" in mark.means), None)
        if part is not None:
            part.used = True
        test = "" if part is None else part.text.strip()
        found.append(scene.act(kinds.Stage(what=what, reached=reached, test=test), place))
        ratio = next((mark for mark in own if mark.ratio is not None), None)
        number = next((mark for mark in clause.numbers(own) if not _is_time(clause, mark)), None)
        if (
            what == "up"
            and reached
            and ratio is None
            and number is not None
            and (count := clause.whole(number))
        ):
            found.append(scene.act(kinds.Counted(standing=count), place))
        elif what == "up" and reached and ratio is not None and ratio.ratio is not None:
            ratio.used = True
            found.append(scene.act(kinds.Counted(standing=round(ratio.ratio[0])), place))
    return found


def _is_time(clause: Clause, mark: Mark) -> bool:
    return any(
        each.plain in ("days", "day", "weeks", "week", "%", "percent", "rows", "row")
        for each in clause.after(mark, 1)
    )
