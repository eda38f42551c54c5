"""What was taken: picked, pulled, lifted, cured, stored, cleared, lost."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final, Literal

from spadework.garden import entries as kinds
from spadework.garden.planting import Planting
from spadework.garden.question import Question
from spadework.usecases.keep_book import Act
from spadework.usecases.line.clause import Clause
from spadework.usecases.line.marks import Mark
from spadework.usecases.line.places import Target
from spadework.usecases.line.scene import Scene
from spadework.usecases.line.tending import minutes

_NOUNS: Final = frozenset(
    [
        "heads",
        "head",
        "bulbs",
        "bulb",
        "roots",
        "root",
        "fruit",
        "fruits",
        "bunches",
        "bunch",
        "cobs",
        "ears",
        "cucumbers",
        "pods",
        "stalks",
        "stems",
        "sticks",
        "tubers",
        "leaves",
        "bags",
        "punnets",
        "spears",
        "more",
        "nice",
        "good",
        "big",
        "small",
        "decent",
        "lovely",
        "of",
        "new",
        "little",
        "baby",
        "fat",
        "ripe",
        "red",
        "first",
    ]
)
_ROOTS: Final = frozenset(
    {"carrot", "beet", "radish", "turnip", "parsnip", "rutabaga", "leek", "onion", "garlic", "bunching-onion"}
)


def picked(scene: Scene, clause: Clause) -> list[Act]:
    """A harvest by weight or count."""
    if (
        clause.has("thing")
        and not clause.amounts("mass")
        and (clause.act_mark is None or clause.act_mark.plain in ("picked off", "picked"))
    ):
        from spadework.usecases.line.seeing import seen

        pest = clause.has("thing")
        if pest is not None and pest.means["thing"] in _BY_HAND:
            return seen(scene, clause)
    quality = _quality(clause)
    last = clause.use("is last") is not None and clause.has("is last") is not None
    if (mark := clause.has("is last")) is not None and mark.plain == "last" and mark.day is not None:
        last = False
    found: list[Act] = []
    spots = list(scene.spots(clause))
    for target, place in spots:
        kg, pieces = how_much(clause, target)
        if kg is not None and len(spots) > 1 and target.alone:
            _ask_shares(scene, f"{kg:.3g} kg", len(spots))
            return []
        found.append(scene.act(kinds.Picked(kg=kg, pieces=pieces, quality=quality, last=last), place))
    return found


_BY_HAND: Final = frozenset(
    {
        "slugs",
        "snails",
        "caterpillars",
        "colorado beetle",
        "japanese beetles",
        "beetles",
        "cabbage white eggs",
        "beetle eggs",
        "colorado potato beetle eggs",
        "eggs",
    }
)


def _ask_shares(scene: Scene, amount: str, count: int) -> None:
    scene.sense.ask(
        Question(
            about="number",
            found=f"Is {amount} of each of the {count}, or all together?",
            why="Give each its own amount.",
            may_insist=False,
        )
    )


def how_much(clause: Clause, target: Target) -> tuple[float | None, int | None]:
    """Weight in kg and pieces that belong to a target."""
    own = clause.marks if target.alone else target.marks
    mass = clause.amount("mass", own)
    kg = None if mass is None else round(mass.value, 3)
    pieces = clause.whole(_count_of(clause, target, own))
    if pieces is None and kg is None:
        pieces = one_of(clause, target)
    return kg, pieces


def _why(scene: Scene, clause: Clause) -> str:
    """What follows "by" or "because"."""
    lead = clause.words("by", "because")
    named = (
        [] if lead is None else [mark for mark in clause.after(lead, 4) if not mark.day and not mark.is_bed]
    )
    for mark in named:
        mark.used = True
    return scene.text_of(named)


def one_of(clause: Clause, target: Target) -> int | None:
    """One, where "a lettuce" is said."""
    crop = target.crop
    if crop is None or crop not in clause.marks or crop.plain.endswith("s"):
        return None
    lead = clause.before(crop, 1)
    return 1 if lead and lead[0].plain in ("a", "an", "another") else None


def _part_of(clause: Clause, target: Target) -> Mark | None:
    """A word for a part of the plants: half, some, most."""
    for mark in clause.marks:
        if "is some" in mark.means and not any(
            each.plain in ("row", "bed", "time") for each in clause.after(mark, 2)
        ):
            return mark
        if mark is target.crop:
            break
    return None


def _half(scene: Scene, known: Planting | None, part: Mark) -> int | None:
    """Half of the plants known to stand; of any other part the number is asked."""
    part.used = True
    if part.plain == "half" and known is not None and known.plants.number is not None:
        plants = round(known.plants.number / 2)
        part.notes.append(f"half taken as {plants} plants")
        return plants
    scene.sense.ask(
        Question(
            about="number",
            found=f"How many are {part.text}?",
            why="Give the number in the line; without one all of them are meant.",
            may_insist=False,
        )
    )
    return None


def _count_of(clause: Clause, target: Target, own: Sequence[Mark]) -> Mark | None:
    """The number before the crop, or beside a word for a piece, or else the only one."""
    numbers = [mark for mark in clause.numbers(own) if mark.number is not None and not _is_year(mark)]
    numbers = [mark for mark in numbers if [each.plain for each in clause.after(mark, 2)] != ["of", "us"]]
    for mark in numbers:
        for follow in clause.after(mark, 4):
            if follow is target.crop or (follow.plain in _PIECES and not follow.used):
                return mark
            if (
                follow.is_bed
                or follow.day
                or (follow.plain not in _NOUNS and not follow.is_plain_word and "variety" not in follow.means)
            ):
                break
    for mark in numbers:
        follow_marks = clause.after(mark, 1)
        if (
            not follow_marks
            or follow_marks[0].plain in ("and", "from", "today", "of", "in", "this", "yesterday", "gone")
            or follow_marks[0].is_bed
            or follow_marks[0] is clause.act_mark
        ) and not any(each.plain in ("on", "at", "times") for each in clause.before(mark, 1)):
            return mark
    return None


_PIECES: Final = frozenset(
    {
        "heads",
        "head",
        "bulbs",
        "bulb",
        "roots",
        "root",
        "fruit",
        "fruits",
        "bunches",
        "bunch",
        "cobs",
        "ears",
        "stalks",
        "stems",
        "sticks",
        "spears",
        "tubers",
        "plants",
        "plant",
        "cloves",
    }
)


def _is_year(mark: Mark) -> bool:
    return mark.number is not None and 1950 <= mark.number.value <= 2100


def _is_grade(clause: Clause, mark: Mark) -> bool:
    """Whether "fair" itself was said of them, which goes before signs such as "holey"."""
    if mark.plain != "fair":
        return mark.plain in ("only fair", "fair quality")
    return not any(
        each.plain in ("bit", "few", "number", "amount", "lot", "size", "sized")
        for each in clause.after(mark, 1)
    )


def _quality(clause: Clause) -> Literal["", "good", "fair", "poor"]:
    grade = clause.has("is fair")
    said = grade is not None and _is_grade(clause, grade)
    for quality in ("fair",) if said else ("poor", "fair", "good"):
        mark = clause.has(f"is {quality}")
        if mark is None or (mark.plain in ("split", "damaged") and "thing" in mark.means):
            continue
        if quality == "good" and any(
            each.plain
            in ("handful", "bunch", "few", "bit", "bowl", "bowlful", "lot", "basket", "size", "sized", "soak")
            for each in clause.after(mark, 1)
        ):
            continue
        mark.used = True
        if quality == "poor":
            return "poor"
        return "fair" if quality == "fair" else "good"
    return ""


def pulled(scene: Scene, clause: Clause) -> list[Act]:
    """Pulling is thinning where it makes room, clearing where plants come out, else picking."""
    from spadework.usecases.line.growing import thinned

    spaced = clause.has("sign left") is not None and clause.words("apart", "every") is not None
    if clause.has("is room", "is seedlings") or spaced:
        clause.use("is room")
        return thinned(scene, clause)
    out = clause.act_mark is not None and clause.act_mark.plain not in ("pulled", "pulling", "pulled a few")
    if not out and clause.words("out", "up") and not clause.amounts("mass") and not clause.numbers():
        out = True
    if clause.words("vines", "haulms", "plants", "haulm", "vine", "stumps", "stump") and not clause.numbers():
        out = True
    crops = {mark.crop[0] for mark in clause.marks if mark.crop is not None}
    if out and not crops & _ROOTS:
        return ended(scene, clause)
    removed = clause.has("light")
    if removed is not None and removed.plain == "removed":
        return thinned(scene, clause)
    if clause.act_mark is None and not crops:
        return thinned(scene, clause)
    return picked(scene, clause)


def lifted(scene: Scene, clause: Clause) -> list[Act]:
    """Roots, bulbs or tubers out of the ground; to dig compost with no crop named is to dig it in."""
    if clause.has("amendment") and not any(mark.is_crop for mark in clause.marks):
        from spadework.usecases.line.giving import amended

        clause.act = "amend"
        return amended(scene, clause)
    found: list[Act] = []
    dug = clause.act_mark is not None and clause.act_mark.plain in ("dug", "dig", "digging")
    if dug and not any(mark.is_crop for mark in clause.marks) and not clause.amounts("mass"):
        clause.act = "minutes"
        return minutes(scene, clause)
    for target, place in scene.spots(clause):
        kg, pieces = how_much(clause, target)
        found.append(scene.act(kinds.Lifted(kg=kg, pieces=pieces), place))
    return found


def kept(scene: Scene, clause: Clause) -> list[Act]:
    """Cured or put into store, and where."""
    act: Literal["cured", "stored"] = "cured" if clause.act == "cure" else "stored"
    where = _where(scene, clause)
    found: list[Act] = []
    for target, place in scene.spots(clause):
        kg, _ = how_much(clause, target)
        found.append(scene.act(kinds.Kept(act=act, where=where, kg=kg), place))
    return found


def _where(scene: Scene, clause: Clause) -> str:
    if clause.act_mark is not None and clause.act_mark.plain.endswith("freezer"):
        return "freezer"
    for mark in clause.marks:
        if mark.plain not in ("in", "into", "on", "under"):
            continue
        named = [each for each in clause.after(mark, 4) if not each.day]
        while named and named[0].plain in ("the", "my", "our", "a"):
            named = named[1:]
        named = named[:3]
        end = next(
            (
                at
                for at, each in enumerate(named)
                if each.plain in ("to", "for", "and", "in", "the", "on") or "act" in each.means
            ),
            len(named),
        )
        named = named[:end]
        if named and not named[0].is_bed and not named[0].is_crop and named[0].number is None:
            for each in named:
                each.used = True
            return scene.text_of(named)
    return ""


def gone(scene: Scene, clause: Clause) -> list[Act]:
    """So many gone: lost where it is said to what, else asked."""
    if clause.has("thing"):
        clause.act = "lose"
        return ended(scene, clause)
    scene.sense.ask(
        Question(
            about="form",
            found="Gone how?",
            why="Say whether they were picked, or lost and to what.",
            may_insist=False,
        )
    )
    return []


def ended(scene: Scene, clause: Clause) -> list[Act]:
    """Cleared after use, or lost, some plants or all."""
    how: Literal["cleared", "lost"] = "lost" if clause.act == "lose" else "cleared"
    thing = clause.use("thing") if how == "lost" else None
    found: list[Act] = []
    for target, place in scene.spots(clause):
        own = clause.marks if target.alone else target.marks
        ratio = next((mark for mark in own if mark.ratio is not None), None)
        plants = clause.whole(_count_of(clause, target, own))
        if ratio is not None and ratio.ratio is not None:
            ratio.used = True
            plants = round(ratio.ratio[0])
        known = scene.garden.plantings.get(place.planting)
        if plants is None:
            plants = one_of(clause, target)
        if plants is None and (part := _part_of(clause, target)) is not None:
            plants = _half(scene, known, part)
            if plants is None:
                return found
        if known is not None and plants is not None and plants == known.plants.number:
            plants = None
        why = _why(scene, clause) if thing is None else thing.text
        found.append(scene.act(kinds.Ended(how=how, why=why, plants=plants), place))
    return found
