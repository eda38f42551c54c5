"""What starts a planting: sown, planted out, and what was only called planting."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from spadework.garden import entries as kinds
from spadework.garden.question import Question
from spadework.usecases.crop_words import crop_word
from spadework.usecases.keep_book import Act
from spadework.usecases.line.clause import Clause
from spadework.usecases.line.growing import best_number
from spadework.usecases.line.marks import Mark
from spadework.usecases.line.places import Target, targets_of
from spadework.usecases.line.plants import Place, beds_named, in_tray
from spadework.usecases.line.scene import Scene
from spadework.usecases.line.which import ask_bed, ask_which

_APART: Final = frozenset({"apart", "spacing", "spacings", "spaced", "between", "gaps", "centres", "centers"})
_DEEP: Final = frozenset({"deep", "depth", "down"})


def sown(scene: Scene, clause: Clause) -> list[Act]:
    """Seed sown: crop, place, rows, seeds, depth and distances."""
    found: list[Act] = []
    for target, crop in _crops(scene, clause, "Sown what?"):
        into, source = _beds_of(scene, clause, target)
        tray = _tray(scene, clause)
        if not into and tray and (shelf := _only_shelf(scene)):
            into = [shelf]
        if not into and not tray:
            _ask_where(scene, "Sown" if clause.act == "sow" else "Planted")
            continue
        if clause.act_mark is None and not clause.has("lot") and _stands(scene, crop, into):
            return []
        for bed in into or [*source] or [""]:
            key = scene.new_planting(crop)
            found.append(scene.act(_sown(scene, clause, target, key, crop, tray), Place(bed, key)))
    return found


def _stands(scene: Scene, crop: str, beds: Sequence[str]) -> bool:
    """Whether a row told of without an act may be one that is there already."""
    return any(each.crop == crop for bed in beds for each in scene.garden.standing(scene.day, bed=bed))


def _crops(scene: Scene, clause: Clause, question: str) -> list[tuple[Target, str]]:
    found: list[tuple[Target, str]] = []
    for target in targets_of(clause):
        if target.crop is None:
            lot = clause.has("lot")
            variety = clause.has("variety")
            crop = ""
            if lot is not None:
                crop = scene.garden.tin[lot.means["lot"]].crop
            elif variety is not None:
                crop = _crop_of(scene, variety.means["variety"])
            if not crop:
                unknown = scene.text_of(
                    [m for m in clause.marks if m.is_plain_word and m.plain not in _SMALL][:2]
                )
                why = (
                    "Name the crop."
                    if not unknown
                    else f"No crop sheet answers to {unknown!r}; name the crop otherwise."
                )
                scene.sense.ask(Question(about="form", found=question, why=why, may_insist=False))
                continue
            found.append((target, crop))
            continue
        target.crop.used = True
        if target.crop.crop is not None:
            found.append((target, target.crop.crop[0]))
            continue
        lots = {lot.crop for lot in scene.garden.tin.values() if lot.crop in target.crop.crops}
        if len(lots) == 1:
            found.append((target, lots.pop()))
            continue
        ask_which(
            scene.sense, target.crop.plain, [crop_word(each, scene.sense.words) for each in target.crop.crops]
        )
    return found


_SMALL: Final = frozenset(
    [
        "a",
        "an",
        "the",
        "of",
        "to",
        "in",
        "on",
        "at",
        "some",
        "more",
        "with",
        "for",
        "and",
        "i",
        "we",
        "it",
        "at",
        "into",
        "few",
        "couple",
        "lot",
        "out",
    ]
)


def _crop_of(scene: Scene, variety: str) -> str:
    crops = {each.crop for each in scene.garden.tin.values() if each.variety == variety}
    crops |= {each.crop for each in scene.garden.plantings.values() if each.variety == variety}
    return crops.pop() if len(crops) == 1 else ""


def _sown(scene: Scene, clause: Clause, target: Target, key: str, crop: str, tray: str) -> kinds.Sown:
    own = clause.marks if target.alone else target.marks
    lengths = _lengths(clause, own)
    rows = clause.whole(
        clause.number_by("rows", "row", "drills", "drill", "lines", "line", "short rows", marks=own)
    )
    if rows is None:
        rows = clause.whole(_followed(clause, own, ("row", "rows", "drill", "drills")))
    if rows is None and any(
        mark.plain in ("row", "drill", "line")
        and any(b.plain in ("a", "one", "another") for b in clause.before(mark, 3))
        for mark in own
    ):
        rows = 1
    number = clause.number_by(
        "seeds", "seed", "tubers", "sets", "cloves", "pips", "of", marks=own
    ) or best_number(clause, own)
    seeds = None
    if number is not None and not any(
        each.plain in ("days", "weeks", "packets", "packet", "trays", "pots")
        for each in clause.after(number, 1)
    ):
        seeds = clause.whole(number)
    if seeds is not None and number is not None and number.plain == str(seeds) and 1950 <= seeds <= 2100:
        seeds = None
    lot = clause.use("lot")
    whole = target.crop.crop if target.crop is not None else None
    return kinds.Sown(
        planting=key,
        crop=crop,
        variety=_variety(scene, clause, target),
        method=_method(clause, crop, whole[2] if whole else None),
        rows=rows,
        row_cm=lengths.get("rows"),
        row_length_m=None if "long" not in lengths else round(lengths["long"] / 100, 2),
        spacing_cm=lengths.get("apart"),
        seeds=seeds,
        depth_mm=None if "deep" not in lengths else round(lengths["deep"] * 10, 2),
        lot="" if lot is None else lot.means["lot"],
        tray=tray,
    )


def _followed(clause: Clause, own: Sequence[Mark], words: Sequence[str]) -> Mark | None:
    """The number of "two 3 m rows" or "2 short rows"."""
    for mark in clause.numbers(own):
        if any(each.plain in words for each in clause.after(mark, 3)):
            return mark
    return None


def _lengths(clause: Clause, own: Sequence[Mark]) -> dict[str, float]:
    """Each length by what it is of: depth, plants apart, rows apart, length of a row.  [cm]"""
    found: dict[str, float] = {}
    for mark in clause.amounts("length", own):
        if mark.amount is None:
            continue
        of = _length_of(
            [each.plain for each in clause.before(mark, 2)], [each.plain for each in clause.after(mark, 2)]
        )
        if not of:
            small = mark.amount.value <= 6 and "deep" not in found
            of = "deep" if small else "apart" if mark.amount.value < 100 else "long"
        mark.used = True
        found.setdefault(of, round(mark.amount.value, 3 if of == "deep" else 2))
    return found


def _length_of(behind: Sequence[str], ahead: Sequence[str]) -> str:
    """What a length is of, by the words on either side; the word just behind the number goes first."""
    rows = frozenset({"row", "rows", "drill", "drills"})
    if ahead[:1] and ahead[0] in _DEEP:
        return "deep"
    if ahead[:1] and ahead[0] in _APART:
        return "rows" if (behind[:1] and behind[0] in rows) or (ahead[1:] and ahead[1] in rows) else "apart"
    if ahead[:1] and (ahead[0] in rows or ahead[0] == "long"):
        return "long"
    if any(word in ("deep", "depth") for word in behind):
        return "deep"
    if behind[:1] and behind[0] in ("at", "every", "spaced", "spacing"):
        return "apart"
    if behind[:1] and behind[0] in rows:
        return "long"
    return "apart" if any(word in _APART for word in ahead) else ""


def _method(clause: Clause, crop: str, said: str | None) -> str:
    if said:
        return said
    for mark in clause.marks:
        if mark.plain in ("sets", "set", "cloves", "clove", "tubers", "tuber", "crowns", "slips"):
            mark.used = True
            return mark.plain if mark.plain.endswith("s") else f"{mark.plain}s"
    return {"potato": "tubers", "garlic": "cloves"}.get(crop, "")


def _variety(scene: Scene, clause: Clause, target: Target) -> str:
    """A variety known here, one of the sheet's, or capital letters beside the crop."""
    known = clause.use("variety")
    if known is not None:
        return known.means["variety"]
    lot = clause.has("lot")
    if lot is not None and (variety := scene.garden.tin[lot.means["lot"]].variety):
        return variety
    return "" if target.crop is None else variety_beside(scene, clause, target.crop)


def variety_beside(scene: Scene, clause: Clause, crop: Mark) -> str:
    """A variety of the sheet, or words with capital letters next to a crop."""
    if crop.crop is not None and crop.crop[1]:
        return crop.crop[1]
    at = clause.marks.index(crop) if crop in clause.marks else -1
    after: list[Mark] = []
    before: list[Mark] = []
    for mark in clause.marks[at + 1 :]:
        if not after and mark.plain in ("seed", "seeds", "packet", "called", "variety"):
            continue
        if mark.is_bed or mark.day or mark.stop or "person" in mark.means or not mark.text[:1].isupper():
            break
        after.append(mark)
    for mark in reversed(clause.marks[:at]):
        if not (mark.is_plain_word and mark.text[:1].isupper() and mark is not clause.marks[0]):
            break
        before.insert(0, mark)
    named = after or before
    for mark in named:
        mark.used = True
    return scene.text_of(named)


def _tray(scene: Scene, clause: Clause) -> str:
    modules = clause.has("is modules")
    if modules is None or modules.plain in ("plugs", "pots"):
        return ""
    modules.used = True
    trays = [key for key, item in scene.garden.kit.items() if item.sort == "tray"]
    return trays[0] if len(trays) == 1 else modules.plain


def _only_shelf(scene: Scene) -> str:
    shelves = [key for key, bed in scene.garden.beds.items() if bed.shape == "shelf"]
    return shelves[0] if len(shelves) == 1 else ""


def _beds_of(scene: Scene, clause: Clause, target: Target) -> tuple[list[str], list[str]]:
    """Beds planted into, and beds the plants come from."""
    into: list[str] = []
    source: list[str] = []
    for mark in target.beds:
        keys = beds_named(scene.sense, mark, target)
        leads = [each.plain for each in clause.before(mark, 3)] if mark in clause.marks else []
        if "from" in leads or "of" in leads[:1] or _before_crop(clause, mark, target):
            source += keys
        else:
            into += keys
    if not into and source and clause.act == "sow":
        into, source = source, []
    if not into and scene.sense.bed and scene.sense.bed != "all":
        into = [scene.sense.bed]
    return into, source


def _before_crop(clause: Clause, bed: Mark, target: Target) -> bool:
    """The shelf of "the seed shelf lettuces"."""
    if target.crop is None or len(target.beds) < 2 or bed not in clause.marks:
        return False
    return clause.after(bed, 1)[:1] == [target.crop]


def _ask_where(scene: Scene, what: str) -> None:
    if not any(question.about == "bed" for question in scene.sense.questions):
        ask_bed(scene.sense, what)


def planted(scene: Scene, clause: Clause) -> list[Act]:
    """Plants set out; tubers, sets, cloves and seed that were "planted" are sown."""
    if clause.act == "plant" and _as_seed(clause):
        return sown(scene, clause)
    found: list[Act] = []
    for target, crop in _crops(scene, clause, "Planted what?"):
        into, source = _beds_of(scene, clause, target)
        if not into:
            _ask_where(scene, "Planted")
            continue
        bought = clause.use("is bought") is not None
        lengths = _lengths(clause, clause.marks if target.alone else target.marks)
        for bed in into:
            own = clause.marks if target.alone else target.marks
            rows = clause.whole(clause.number_by("rows", "row", marks=own))
            plants = clause.whole(best_number(clause, own))
            key = scene.new_planting(crop)
            payload = kinds.PlantedOut(
                planting=key,
                crop=crop,
                variety=_variety(scene, clause, target),
                plants=plants,
                rows=rows,
                row_cm=lengths.get("rows"),
                spacing_cm=lengths.get("apart", lengths.get("long") if rows is None else None)
                or lengths.get("deep"),
                from_planting="" if bought else _raised(scene, crop, source, bed),
                bought=bought,
            )
            found.append(scene.act(payload, Place(bed, key)))
    return found


def _as_seed(clause: Clause) -> bool:
    from spadework.crops.names import ways

    if any(
        mark.plain
        in ("out", "seedlings", "plugs", "starts", "transplants", "seedling", "bought", "store bought")
        for mark in clause.marks
    ):
        return False
    if any(
        mark.plain in ("seed", "seeds", "tubers", "sets", "cloves", "rows", "row", "drill")
        for mark in clause.marks
    ):
        return True
    crops = [mark.crop[0] for mark in clause.marks if mark.crop is not None]
    if not crops:
        return False
    if any(mark.crop is not None and mark.crop[2] in ("sets", "cloves", "tubers") for mark in clause.marks):
        return True
    return crops[0] in ("potato", "garlic") or not {"raised", "crowns", "slips"} & set(ways(crops[0]))


def _raised(scene: Scene, crop: str, source: Sequence[str], into: str) -> str:
    """The planting the plants come from: the only one of its crop in the bed said, or in a tray."""
    here = [each for each in scene.garden.standing(scene.day) if each.crop == crop and each.bed != into]
    found = [each for each in here if each.bed in source] or [
        each for each in here if in_tray(scene.garden, each)
    ]
    return found[0].key if len(found) == 1 else ""
