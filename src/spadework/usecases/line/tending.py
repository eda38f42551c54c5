"""Work on beds and plants: weeding to pruning, covers, minutes, jobs left."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final, Literal

import msgspec

from spadework.garden import entries as kinds
from spadework.usecases.keep_book import Act
from spadework.usecases.line.clause import Clause
from spadework.usecases.line.marks import Mark
from spadework.usecases.line.plants import Place
from spadework.usecases.line.scene import Scene
from spadework.usecases.line.which import ask_which

TendedAct = Literal["weeded", "hoed", "earthed up", "supported", "mulched", "hardened off", "pruned"]
_TENDED: Final[dict[str, TendedAct]] = {
    "weed": "weeded",
    "hoe": "hoed",
    "earth up": "earthed up",
    "support": "supported",
    "mulch": "mulched",
    "harden": "hardened off",
    "prune": "pruned",
}
JOBS: Final = {
    "weed": "weeding",
    "hoe": "hoeing",
    "earth up": "earthing up",
    "support": "tying in",
    "mulch": "mulching",
    "harden": "hardening off",
    "prune": "pruning",
    "water": "watering",
    "feed": "feeding",
    "sow": "sowing",
    "plant": "planting",
    "plant out": "planting out",
    "thin": "thinning",
    "prick out": "pricking out",
    "pick": "picking",
    "pull": "pulling",
    "lift": "lifting",
    "cover": "covering",
    "uncover": "uncovering",
    "open": "opening",
    "shut": "shutting",
    "treat": "spraying",
    "amend": "manuring",
    "clear": "clearing",
    "count": "counting",
    "measure": "measuring",
    "cure": "curing",
    "store": "storing",
}
"""The job an act does, as a noun."""


def tended(scene: Scene, clause: Clause) -> list[Act]:
    """Weeding, hoeing, earthing up, tying, mulching, hardening off, pruning."""
    act = _TENDED[clause.act]
    depth = clause.amount("length") if clause.act in ("mulch", "earth up") else None
    material = _material(clause) if clause.act == "mulch" else ""
    depth_cm = None if depth is None else round(depth.value, 2)
    return [
        scene.act(kinds.Tended(act=act, depth_cm=depth_cm, material=material), place)
        for _, place in scene.spots(clause)
    ]


def _material(clause: Clause) -> str:
    mark = next((each for each in clause.marks if "mulch" in each.means and "act" not in each.means), None)
    mark = mark or clause.has("amendment")
    if mark is None:
        return ""
    mark.used = True
    return mark.plain


def time_taken(scene: Scene, clause: Clause, done: Sequence[Act]) -> list[Act]:
    """The minutes an act took, as an entry of their own."""
    minutes = clause.amount("minutes")
    if minutes is None or not done:
        return []
    same = len({(act.bed, act.planting) for act in done}) == 1
    place = Place(done[0].bed, done[0].planting) if same else Place()
    job = JOBS.get(clause.act, "")
    return [scene.act(kinds.Minutes(minutes=minutes.value, job=job, people=_people(clause)), place)]


def minutes(scene: Scene, clause: Clause) -> list[Act]:
    """Time spent on something that is no act of its own, or told after it."""
    time = clause.amount("minutes")
    if time is None:
        return []
    clause.use("sign minutes")
    found = list(scene.spots(clause))
    place = found[0][1] if len({spot for _, spot in found}) == 1 else Place()
    job = "" if clause.taken_from is None else JOBS.get(clause.taken_from.act, "")
    if not job:
        last = next(mark for mark in clause.marks if mark.amount is not None and mark.amount.dim == "minutes")
        job = scene.text_of(_work(clause.after(last, 6)))
    return [scene.act(kinds.Minutes(minutes=time.value, job=job, people=_people(clause)), place)]


def _work(marks: Sequence[Mark]) -> list[Mark]:
    """The words that say what time was spent on, without a place or a day."""
    named = [mark for mark in marks if not mark.stop and not mark.day and "person" not in mark.means]
    if named and (named[0].plain in ("in", "on", "at", "for", "with") or named[0].is_bed):
        return []
    for mark in named:
        mark.used = True
    return named


def _people(clause: Clause) -> int:
    people = sum(1 for mark in clause.marks if "person" in mark.means)
    plain = [mark.plain for mark in clause.marks]
    if people and "i" in plain and "and" in plain[: plain.index("i") + 2]:
        return people + 1
    for mark in clause.numbers():
        if [each.plain for each in clause.after(mark, 2)] == ["of", "us"]:
            return clause.whole(mark) or 1
    return max(1, people)


def skipped(scene: Scene, clause: Clause) -> list[Act]:
    """A job not done, and why."""
    acts = [mark for mark in clause.marks if mark.means.get("act") in JOBS]
    job = JOBS[acts[0].means["act"]] if acts else ""
    if not job:
        start = clause.act_mark or clause.marks[0]
        job = scene.rest_of(clause, start) or "job"
        return [scene.act(kinds.Skipped(job=job), place) for _, place in scene.spots(clause)] or []
    for mark in clause.marks:
        if "not" in mark.means:
            mark.used = True
    acts[0].used = True
    found = [place for _, place in scene.spots(clause)]
    reason = next(
        (
            mark
            for mark in clause.marks[clause.marks.index(acts[0]) :]
            if mark.stop or mark.plain == "because"
        ),
        None,
    )
    why = scene.rest_of(clause, reason) if reason is not None else ""
    return [scene.act(kinds.Skipped(job=job, why=why), place) for place in found]


def covered(scene: Scene, clause: Clause) -> list[Act]:
    """Kit put on, taken off, opened or shut; several pieces of kit make several entries."""
    which: dict[str, Literal["on", "off", "opened", "shut"]] = {
        "cover": "on",
        "uncover": "off",
        "open": "opened",
        "shut": "shut",
    }
    act = which[clause.act]
    found: list[Act] = []
    items = _items(scene, clause, act)
    if not items and clause.prior is not None and clause.words("it", "them"):
        items = _items(scene, clause.prior, act)
    spots = [place for _, place in scene.spots(clause)]
    if clause.act in ("open", "shut"):
        spots = [_tunnel_or_frame(scene, place, bool(items)) for place in spots]
        if any(not place.bed for place in spots):
            return []
    for place in spots:
        if not items:
            found.append(scene.act(kinds.Moved(act=act, hour=scene.hour), place))
        for mark, item in items:
            found.append(
                scene.act(
                    _moved(scene, clause, mark, _placed_here(scene, item, mark, place, act), act), place
                )
            )
    return found


def _items(scene: Scene, clause: Clause, act: str) -> list[tuple[Mark, str]]:
    found: list[tuple[Mark, str]] = []
    named = any("kit" in mark.means or "cover" in mark.means for mark in clause.marks)
    for mark in clause.marks:
        sort = mark.means.get("cover", "")
        if "kit" in mark.means:
            found.append((mark, mark.means["kit"]))
        elif sort and sort not in ("tool", "tray") and not (sort == "other" and len(found) > 0):
            found.append((mark, _owned(scene, sort, mark.plain)))
        elif not named and mark.means.get("act") == "cover" and (sort := _VERBS.get(mark.plain, "")):
            found.append((mark, _owned(scene, sort, sort)))
    if act in ("opened", "shut"):
        found = [(mark, item) for mark, item in found if item in scene.garden.kit]
    for mark, _ in found:
        mark.used = True
    return found


_VERBS: Final = {"netted": "netting", "netting": "netting", "fleeced": "fleece", "meshed": "mesh"}


def _owned(scene: Scene, sort: str, plain: str) -> str:
    """The garden's own piece of a sort, where it has one; else the word said."""
    own = [key for key, item in scene.garden.kit.items() if item.sort == sort]
    named = [key for key in own if plain.rstrip("s") in key]
    return named[0] if len(named) == 1 else own[0] if len(own) == 1 else plain


def _placed_here(scene: Scene, item: str, mark: Mark, place: Place, act: str) -> str:
    """What is taken off is what lies there, where a general word such as "net" was said."""
    if act == "on" or ("kit" in mark.means and len(mark.plain.split()) > 1):
        return item
    there = [placed.item for placed in scene.garden.covers(bed=place.bed)]
    like = [each for each in there if mark.plain.rstrip("s") in each]
    return like[0] if item not in there and len(like) == 1 else item


def _moved(
    scene: Scene, clause: Clause, mark: Mark, item: str, act: Literal["on", "off", "opened", "shut"]
) -> kinds.Moved:
    length_m, pieces = None, None
    near = [*clause.before(mark, 3), *clause.after(mark, 4)]
    if mark.means.get("cover") in ("hoops", "other", "scare") or "hoop" in item or "collar" in item:
        number = next(
            (each for each in clause.before(mark, 2) if each.number is not None and not each.used), None
        )
        pieces = clause.whole(number or _of_them(clause))
        if pieces is None and any(each.plain in ("a", "the one", "one") for each in clause.before(mark, 2)):
            pieces = 1
    else:
        lengths = [
            each for each in near if each.amount is not None and each.amount.dim == "length" and not each.used
        ]
        lengths = lengths or clause.amounts("length")
        if lengths and lengths[0].amount is not None:
            lengths[0].used = True
            length_m = round(lengths[0].amount.value / 100, 2)
    return kinds.Moved(act=act, item=item, length_m=length_m, pieces=pieces, hour=scene.hour)


def _of_them(clause: Clause) -> Mark | None:
    """The ten of "10 of them"."""
    return next(
        (
            mark
            for mark in clause.numbers()
            if [each.plain for each in clause.after(mark, 2)] == ["of", "them"]
        ),
        None,
    )


def _tunnel_or_frame(scene: Scene, place: Place, named: bool) -> Place:
    """What is opened without a name: the only tunnel or frame."""
    if place.bed or named:
        return place
    own = [
        bed for bed in scene.garden.beds.values() if bed.shape in ("tunnel", "frame") and bed.gone_on is None
    ]
    if len(own) == 1:
        return Place(own[0].key)
    ask_which(scene.sense, "one", [bed.name for bed in own] or ["tunnel or frame"], "bed")
    return Place()


def moved(scene: Scene, clause: Clause) -> list[Act]:
    """Kit taken from one bed and put on another."""
    beds = [mark for mark in clause.marks if mark.beds]
    items = _items(scene, clause, "on")
    if len(beds) != 2 or not items:
        return []
    away, to = beds
    if any(each.plain == "from" for each in clause.before(to, 1)):
        away, to = to, away
    found: list[Act] = []
    for mark, item in items:
        off, on = _moved(scene, clause, mark, item, "off"), kinds.Moved(act="on", item=item)
        for bed, payload in (
            (away, off),
            (to, msgspec.structs.replace(on, length_m=off.length_m, pieces=off.pieces)),
        ):
            bed.used = True
            found += [scene.act(payload, Place(key)) for key in bed.beds]
    return found
