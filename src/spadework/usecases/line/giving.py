"""What was given: water, feed, manure and compost, sprays."""

from __future__ import annotations

from typing import Final, Literal

from spadework.garden import entries as kinds
from spadework.garden.question import Question
from spadework.usecases.keep_book import Act
from spadework.usecases.line.clause import Clause
from spadework.usecases.line.marks import Mark
from spadework.usecases.line.places import Target
from spadework.usecases.line.scene import Scene

_VESSEL: Final = frozenset({"bucket", "buckets", "can", "cans", "jug", "jugs", "watering", "container"})


def watered(scene: Scene, clause: Clause) -> list[Act]:
    """Water by litres, depth or minutes; watering with feed is feeding."""
    feed = next((mark for mark in clause.marks if "feed" in mark.means and "act" not in mark.means), None)
    if feed is not None and feed.plain not in ("feed", "a feed"):
        return fed(scene, clause)
    if clause.has("product"):
        return treated(scene, clause)
    found: list[Act] = []
    spots = list(scene.spots(clause))
    for target, place in spots:
        own = clause.marks if target.alone else target.marks
        litres, each = _litres(scene, clause, target, place.planting, own)
        shared = (
            litres is None
            and not target.alone
            and not any(t is not target and t.marks is own for t, _ in spots)
        )
        if shared:
            litres, each = _litres(scene, clause, target, place.planting, clause.marks)
        minutes, depth_mm = _minutes(clause), _depth_mm(clause)
        if litres is not None and len(spots) > 1 and not each and (target.alone or shared):
            _ask_shares(scene, litres, len(spots))
            return []
        payload = kinds.Watered(litres=litres, minutes=minutes, depth_mm=depth_mm, hour=scene.hour)
        found.append(scene.act(payload, place))
    return found


def _minutes(clause: Clause) -> float | None:
    mark = next(
        (each for each in clause.marks if each.amount is not None and each.amount.dim == "minutes"), None
    )
    if mark is None or mark.amount is None:
        return None
    mark.used = True
    return mark.amount.value


def _depth_mm(clause: Clause) -> float | None:
    mark = next(
        (each for each in clause.marks if each.amount is not None and each.amount.dim == "length"), None
    )
    if mark is None or mark.amount is None or mark.amount.unit not in ("mm", "in", "inch", "inches", "mms"):
        return None
    if any(each.plain in ("deep", "down", "long", "away") for each in clause.after(mark, 1)):
        return None
    mark.used = True
    return round(mark.amount.value * 10, 2)


def _litres(
    scene: Scene, clause: Clause, target: Target, planting: str, own: list[Mark]
) -> tuple[float | None, bool]:
    """Litres, and whether they were said of each place."""
    volumes = [mark for mark in own if mark.amount is not None and mark.amount.dim == "volume"]
    if not volumes:
        return None, False
    for mark in volumes:
        mark.used = True
    amounts = [mark.amount for mark in volumes if mark.amount is not None]
    said_each = clause.use("is each")
    total = clause.use("is total")
    if total is not None and len(amounts) > 1:
        for mark in volumes[:-1]:
            mark.used = False
        return round(amounts[-1].value, 2), False
    litres = sum(each.value for each in amounts)
    vessels = next((each for each in amounts if each.unit in _VESSEL), None)
    if vessels is not None and len(amounts) > 1:
        litres = vessels.number * next(each for each in amounts if each is not vessels).value
        for mark in volumes:
            if mark.amount is vessels:
                mark.used = False
        said_each = None
    elif vessels is None and len(amounts) == 1:
        follow = clause.after(volumes[0], 1) if volumes[0] in clause.marks else []
        if follow and follow[0].plain in _VESSEL:
            follow[0].used = True
            count = next((mark for mark in clause.before(volumes[0], 1) if mark.number is not None), None)
            counted = clause.whole(count)
            litres *= counted or 1
    if (times := _times(clause)) > 1:
        litres *= times
    if said_each is not None and target.alone:
        plants = _plants_said(clause, target) or (
            _plants_known(scene, planting) if _each_plant(clause, said_each) else None
        )
        if plants:
            scene.taken.append(f"{plants} plants with {litres:.3g} litres each")
            return round(litres * plants, 2), False
    return round(litres, 2), said_each is not None


def _each_plant(clause: Clause, said: Mark) -> bool:
    """ "2 litres per plant", "gave each tomato 2 litres"."""
    after = clause.after(said, 1) if said in clause.marks else []
    return "plant" in said.plain or any(each.is_crop or each.plain in ("plant", "one") for each in after)


def _plants_said(clause: Clause, target: Target) -> int | None:
    """The two of "a gallon each to the two peppers"."""
    if target.crop is None or target.crop not in clause.marks:
        return None
    number = next(
        (mark for mark in clause.before(target.crop, 2) if mark.number is not None and not mark.used), None
    )
    return clause.whole(number)


def _plants_known(scene: Scene, planting: str) -> int | None:
    known = scene.garden.plantings.get(planting)
    if known is None or known.plants.number is None:
        return None
    return round(known.plants.number)


def _times(clause: Clause) -> int:
    if clause.use("is twice"):
        return 2
    for mark in clause.numbers():
        if any(each.plain == "times" for each in clause.after(mark, 1)):
            return clause.whole(mark) or 1
    return 1


def _ask_shares(scene: Scene, litres: float, count: int) -> None:
    scene.sense.ask(
        Question(
            about="number",
            found=f"Is {litres:.3g} litres for each of the {count} places, or all together?",
            why='Say "each", or give every place its own.',
            may_insist=False,
        )
    )


def fed(scene: Scene, clause: Clause) -> list[Act]:
    """Feed given: what, and how much as said."""
    marks = [mark for mark in clause.marks if "feed" in mark.means or "amendment" in mark.means]
    named = [mark for mark in marks if "act" not in mark.means and mark.plain not in ("feed", "a feed")]
    material = named[0].plain if named else _unknown_after(clause) or "feed"
    for mark in (*marks, *named):
        mark.used = True
    amounts = [*clause.amounts("volume"), *clause.amounts("mass")]
    for mark in amounts:
        mark.used = True
    amount = " and ".join(mark.text for mark in amounts)
    return [scene.act(kinds.Fed(material=material, amount=amount), place) for _, place in scene.spots(clause)]


def _unknown_after(clause: Clause) -> str:
    """What follows "with", where it is no word of the trade."""
    lead = clause.words("with")
    if lead is None:
        return ""
    named = [mark for mark in clause.after(lead, 4) if not mark.day and not mark.is_bed]
    while named and named[0].plain in ("a", "an", "the", "some"):
        named = named[1:]
    for mark in named:
        mark.used = True
    return " ".join(mark.plain for mark in named)


def amended(scene: Scene, clause: Clause) -> list[Act]:
    """Manure, compost or the like worked in, raw or finished, sprayed or clean as said."""
    named = [
        mark
        for mark in clause.marks
        if "amendment" in mark.means or "feed" in mark.means or "mulch" in mark.means
    ]
    if not named:
        unknown = _unknown_after(clause)
        if not unknown and (verb := clause.act_mark) is not None and verb.plain in _OF_ITSELF:
            unknown = _OF_ITSELF[verb.plain]
        if not unknown:
            return []
        material = unknown
    else:
        material = max(named, key=lambda mark: len(mark.plain)).plain
        for mark in named:
            mark.used = True
    state: Literal["raw", "finished", "not known"] = "not known"
    if clause.use("is finished") or material in _ALWAYS_DONE:
        state = "finished"
    elif clause.use("is raw"):
        state = "raw"
    history: Literal["clean", "sprayed", "not known", ""] = ""
    if clause.use("is sprayed history"):
        history = "sprayed"
    elif clause.use("is clean"):
        history = "clean"
    found: list[Act] = []
    for target, place in scene.spots(clause):
        amount = clause.amount("volume", clause.marks if target.alone else target.marks)
        payload = kinds.Amended(
            material=material,
            state=state,
            spray_history=history,
            litres=None if amount is None else round(amount.value, 2),
        )
        found.append(scene.act(payload, place))
    return found


_OF_ITSELF: Final = {"manured": "manure", "composted": "compost", "limed": "lime", "mucked": "muck"}
_ALWAYS_DONE: Final = frozenset(
    {
        "leaf mould",
        "leaf mold",
        "leafmould",
        "leafmold",
        "mushroom compost",
        "bagged compost",
        "potting compost",
        "potting mix",
        "worm compost",
        "vermicompost",
    }
)
"""Sold or made only when rotted. Class: common-practice."""


def treated(scene: Scene, clause: Clause) -> list[Act]:
    """A product used, the days its label asks for, and against what."""
    mark = clause.use("product")
    thing = clause.use("thing")
    product = "" if mark is None else mark.plain
    if not product:
        product = _unknown_after(clause)
    if not product:
        return []
    days = _label_days(clause)
    against = "" if thing is None else thing.plain
    return [
        scene.act(kinds.Treated(product=product, label_days=days, against=against), place)
        for _, place in scene.spots(clause)
    ]


def _label_days(clause: Clause) -> int | None:
    """The days the label asks to wait; none where it says that there is no wait."""
    for mark in clause.marks:
        if mark.plain == "no" and any(each.plain in ("wait", "waiting") for each in clause.after(mark, 1)):
            return 0
    for mark in clause.numbers():
        if any(each.plain in ("day", "days") for each in clause.after(mark, 1)):
            for each in clause.after(mark, 1):
                each.used = True
            return clause.whole(mark)
    for mark in clause.numbers():
        if any(each.plain in ("week", "weeks") for each in clause.after(mark, 1)):
            weeks = clause.whole(mark)
            return None if weeks is None else 7 * weeks
    return None
