"""What is owned and ruled: seed, kit, beds, locks, what stood in earlier years."""

from __future__ import annotations

import re
from datetime import date, timedelta
from typing import Final, Literal

import msgspec

from spadework.garden import entries as kinds
from spadework.garden.lookup import plain
from spadework.garden.question import Question
from spadework.usecases.keep_book import Act
from spadework.usecases.line.clause import Clause
from spadework.usecases.line.marks import Mark
from spadework.usecases.line.plants import Place
from spadework.usecases.line.scene import Scene

_KitSort = Literal["fleece", "netting", "mesh", "film", "hoops", "screen", "scare", "tray", "tool", "other"]
_SEED_WORDS: Final = frozenset({"seed", "seeds", "packet", "packets", "pack", "pkt", "tin", "lot", "sachet"})


def bought(scene: Scene, clause: Clause) -> list[Act]:
    """New seed in the tin, or new kit; nothing where it is neither."""
    kit = [
        mark for mark in clause.marks if ("kit" in mark.means or "cover" in mark.means) and not mark.is_crop
    ]
    crops = [mark for mark in clause.marks if mark.crop is not None]
    seed = any(word in _SEED_WORDS for mark in clause.marks for word in mark.plain.split())
    if crops and (seed or not kit):
        return _new_lot(scene, clause, crops[0]) if seed else []
    return [_new_kit(scene, clause, kit[0])] if kit else []


def _new_lot(scene: Scene, clause: Clause, crop: Mark) -> list[Act]:
    from spadework.usecases.line.starting import variety_beside

    whole = crop.crop
    if whole is None:
        return []
    crop.used = True
    year = None
    for mark in clause.numbers():
        if mark.number is not None and 1990 <= mark.number.value <= scene.manner.today.year + 1:
            year = clause.whole(mark)
            break
    count = clause.number_by("seeds", "seed")
    seeds = clause.whole(count)
    if seeds is None and (
        rest := [mark for mark in clause.numbers() if mark.number and mark.number.value > 12]
    ):
        seeds = clause.whole(rest[0])
    grams = clause.amount("mass")
    named = clause.use("lot")
    key = named.means["lot"] if named is not None else _lot_key(scene, whole[0], year)
    payload = kinds.LotSet(
        lot=key,
        crop=whole[0],
        variety=variety_beside(scene, clause, crop) or _variety_apart(scene, clause),
        year=year,
        seeds=seeds,
        grams=None if grams is None else round(grams.value * 1000, 2),
    )
    return [scene.act(payload)]


def _variety_apart(scene: Scene, clause: Clause) -> str:
    """A variety between two commas: words with capital letters and nothing else."""
    for at, stop in enumerate(clause.marks):
        if not stop.stop:
            continue
        named: list[Mark] = []
        for mark in clause.marks[at + 1 :]:
            if mark.stop:
                break
            named.append(mark)
        if (
            named
            and any(mark.is_plain_word for mark in named)
            and all(mark.text[:1].isupper() and not _is_other(mark) for mark in named)
        ):
            for mark in named:
                mark.used = True
            return scene.text_of(named)
    return ""


def _is_other(mark: Mark) -> bool:
    return bool(mark.is_bed or mark.is_crop or mark.day or "person" in mark.means)


def _lot_key(scene: Scene, crop: str, year: int | None) -> str:
    stem = f"{crop}-{(year or scene.manner.today.year) % 100:02d}"
    key, number = stem, 2
    while key in scene.garden.tin:
        key, number = f"{stem}-{number}", number + 1
    return key


def tested_lot(scene: Scene, clause: Clause, lot: str, tested: tuple[float, float]) -> list[Act]:
    """A germination test of a lot: so many of so many."""
    known = scene.garden.tin[lot]
    for mark in clause.marks:
        if mark.ratio is not None or mark.means.get("lot") == lot:
            mark.used = True
    payload = kinds.LotSet(
        lot=lot,
        crop=known.crop,
        variety=known.variety,
        year=known.year,
        seeds=None if known.seeds is None else round(known.left() or 0),
        grams=known.grams,
        germinated=round(tested[0]),
        tested=round(tested[1]),
        traits=known.traits,
    )
    return [scene.act(payload)]


def _new_kit(scene: Scene, clause: Clause, mark: Mark) -> Act:
    """More of a piece owned adds to it; a new one is named as said."""
    mark.used = True
    sort = mark.means.get("cover", "other")
    item = mark.means.get("kit", "") or _same(scene, mark.plain) or mark.plain
    lengths = [each.amount.value / 100 for each in clause.amounts("length") if each.amount is not None]
    for each in clause.amounts("length"):
        each.used = True
    crossed = [
        each for each in clause.numbers() if any(a.plain in ("by", "x") for a in clause.after(each, 1))
    ]
    if len(lengths) == 1 and crossed and crossed[0].number is not None:
        crossed[0].used = True
        lengths.insert(0, crossed[0].number.value)
    pieces = None
    if not lengths:
        numbers = [each for each in clause.numbers() if each.number is not None and each.number.value < 1900]
        pieces = clause.whole(numbers[0]) if numbers else 1 if sort in ("tool", "tray", "scare") else None
    length_m = round(lengths[0], 2) if lengths else None
    width_m = round(lengths[1], 2) if len(lengths) > 1 else None
    old = scene.garden.kit.get(item)
    if old is not None and old.described:
        sort = old.sort or sort
        length_m = _sum(old.length_m, length_m)
        pieces = None if old.pieces is None and pieces is None else (old.pieces or 0) + (pieces or 0)
        width_m = width_m or old.width_m
        scene.taken.append(f"added to the {item} there is")
    payload = kinds.KitSet(item=item, sort=_sort(sort), length_m=length_m, width_m=width_m, pieces=pieces)
    return scene.act(payload)


def _sum(old: float | None, new: float | None) -> float | None:
    if old is None or new is None:
        return new if old is None else old
    return round(old + new, 2)


def _same(scene: Scene, said: str) -> str:
    own = [key for key in scene.garden.kit if plain(key).rstrip("s") == plain(said).rstrip("s")]
    return own[0] if len(own) == 1 else ""


def _sort(said: str) -> _KitSort:
    return msgspec.convert(said, _KitSort) if said in _KIT_SORTS else "other"


_KIT_SORTS: Final = frozenset(
    {"fleece", "netting", "mesh", "film", "hoops", "screen", "scare", "tray", "tool", "other"}
)
_SHAPES: Final[tuple[tuple[str, str], ...]] = (
    ("ground", r"in the ground|straight in|open ground"),
    ("tunnel", r"tunnel"),
    ("frame", r"cold frame|frame\b"),
    ("shelf", r"shelf"),
    ("sack", r"\bsack\b|grow bag"),
    ("tub", r"\btub\b|\bpot\b|container|planter|barrel|trough"),
    ("framed", r"raised|framed|timber|boards|sleepers"),
)
_NAME: Final = r"(?:[A-Z][\w’'-]*|\d+)"
_NUMBER: Final = r"\d+\b(?!\s*(?:cm|m|mm|ft|in|by|x)\b)"
_CALLED: Final = re.compile(
    r"\b(?:call(?:ed|ing)?(?: it| this)?|named?(?: it)?|name is)\s+[\"“']?"
    rf"({_NAME}(?: (?:[A-Z][\w’'-]*|{_NUMBER}))*)"
)


def new_bed(scene: Scene, clause: Clause) -> list[Act]:
    """A bed made: its name, size and shape."""
    name = _bed_name(scene, clause)
    if not name:
        scene.sense.ask(
            Question(
                about="bed", found="A new bed needs a name.", why='Say: call it "Gate Bed".', may_insist=False
            )
        )
        return []
    length_m, width_m, depth_m = _sides(clause)
    shape = next((shape for shape, pattern in _SHAPES if re.search(pattern, scene.line, re.I)), "framed")
    said = {"name": name, "shape": shape, "length_m": length_m, "width_m": width_m, "depth_m": depth_m}
    told = {field: value for field, value in said.items() if value is not None}
    payload = msgspec.convert({"kind": "bed", **told}, kinds.BedSet)
    for mark in clause.marks:
        mark.used = True
    return [scene.act(payload, Place(plain(name).replace(" ", "-")))]


def _bed_name(scene: Scene, clause: Clause) -> str:
    called = _CALLED.search(scene.line)
    if called is not None:
        return called[1].strip()
    unknown = next((mark for mark in clause.marks if mark.no_bed), None)
    if unknown is not None:
        return unknown.no_bed.title()
    found = re.search(r"\bnew (?:raised )?(bed|tub|planter) (\d+)", scene.line, re.I)
    if found is not None:
        return f"{found[1].title()} {found[2]}"
    start = re.search(r"\b((?:[A-Z]\w+ )+(?:Bed|Tub))\b", scene.line)
    return "" if start is None or start[1] == "New Bed" else start[1]


def _sides(clause: Clause) -> tuple[float | None, float | None, float | None]:
    """Length, width and depth in m, by the words beside them; else the longer is the length."""
    found: dict[str, float] = {}
    free: list[float] = []
    for mark in clause.marks:
        value = _metres(clause, mark)
        if value is None:
            continue
        near = [each.plain for each in clause.after(mark, 2)]
        if "long" in near[:1] or "length" in near:
            found["long"] = value
        elif near[:1] and near[0] in ("wide", "across", "width"):
            found["wide"] = value
        elif near[:1] and near[0] in ("deep", "high", "tall"):
            found["deep"] = value
        else:
            free.append(value)
    free.sort()
    if free and "long" not in found:
        found["long"] = free.pop()
    if free and "wide" not in found:
        found["wide"] = free.pop()
    return found.get("long"), found.get("wide"), found.get("deep")


def _metres(clause: Clause, mark: Mark) -> float | None:
    if mark.amount is not None and mark.amount.dim == "length":
        return round(mark.amount.value / 100, 2)
    if mark.number is None or mark.number.value > 60:
        return None
    ahead = [each.plain for each in clause.after(mark, 1)]
    if ahead and ahead[0] in ("by", "x", "wide", "long", "deep", "across"):
        unit = next(
            (each.amount for each in clause.marks if each.amount is not None and each.amount.dim == "length"),
            None,
        )
        factor = 1.0 if unit is None or not unit.number else unit.value / unit.number / 100
        return round(mark.number.value * factor, 2)
    return None


def locked(scene: Scene, clause: Clause) -> list[Act]:
    """No picking, or no planting, in a bed or of a crop until a day."""
    until = next(
        (mark.day.on for mark in clause.marks if mark.day is not None and mark.day.lead == "until"), None
    )
    if until is None:
        until = _in_days(scene, clause)
    act = "" if clause.act_mark is None else clause.act_mark.means.get("act", "")
    stops: Literal["picking", "planting", "using"] = (
        "planting" if act in ("plant", "plant out", "sow") else "picking"
    )
    for mark in clause.marks:
        if mark.day is not None or "not" in mark.means:
            mark.used = True
    found: list[Act] = []
    why = _why(scene, clause)
    for target, place in scene.spots(clause):
        if not place.bed and not place.planting:
            scene.sense.ask(
                Question(
                    about="bed",
                    found="What is locked?",
                    why="Name the bed or the crop, or give --bed.",
                    may_insist=False,
                )
            )
            return []
        named_bed = any(mark.beds for mark in target.beds)
        on: Literal["bed", "planting"] = "planting" if place.planting and not named_bed else "bed"
        key = f"{place.planting if on == 'planting' else place.bed}-{stops}-{scene.day:%Y%m%d}"
        payload = kinds.Locked(lock=key, on=on, why=why, stops=stops, until=until)
        found.append(scene.act(payload, place if on == "planting" else Place(place.bed)))
    return found


def _in_days(scene: Scene, clause: Clause) -> date | None:
    """The end of "for 7 days" or "for two weeks"."""
    for mark in clause.numbers():
        unit = [each.plain for each in clause.after(mark, 1)]
        days = {"day": 1, "days": 1, "week": 7, "weeks": 7}.get(unit[0]) if unit else None
        if days is not None and (count := clause.whole(mark)) is not None:
            return scene.day + timedelta(days=count * days)
    return None


def _why(scene: Scene, clause: Clause) -> str:
    reason = clause.has("thing", "product", "amendment") or next(
        (mark for mark in clause.marks if mark.means.get("act") == "treat"), None
    )
    if reason is not None:
        at = clause.marks.index(reason)
        start = at
        while start > 0 and not clause.marks[start - 1].stop and not clause.marks[start - 1].day:
            start -= 1
        words = clause.marks[start:]
        for mark in words:
            mark.used = True
        return scene.text_of(words)
    return "as told"


def unlocked(scene: Scene, clause: Clause) -> list[Act]:
    """The locks in force at a place, lifted."""
    return [
        scene.act(kinds.Unlocked(lock=lock.lock, why="as told"), place)
        for _, place in scene.spots(clause)
        for lock in scene.garden.locks_on(scene.day, bed=place.bed, planting=place.planting)
    ]


def stood(scene: Scene, clause: Clause) -> list[Act]:
    """What stood in a bed in a year before the book."""
    year = next(
        (mark for mark in clause.numbers() if mark.number is not None and 1950 <= mark.number.value <= 2100),
        None,
    )
    told = clause.whole(year)
    beds = [key for mark in clause.marks for key in mark.beds] or (
        [scene.sense.bed] if scene.sense.bed else []
    )
    crops = [mark.crop[0] for mark in clause.marks if mark.crop is not None]
    if told is None and clause.use("is last year"):
        told = scene.day.year - 1
    if told is None or not beds or not crops:
        return []
    for mark in clause.marks:
        if mark.is_bed or mark.is_crop:
            mark.used = True
    return [
        scene.act(kinds.Stood(crop=crop, year=told), Place(bed))
        for bed in beds
        for crop in dict.fromkeys(crops)
    ]
