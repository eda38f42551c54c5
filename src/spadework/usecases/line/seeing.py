"""What was seen and read: pests and wilting, rain, thermometers, soil by hand."""

from __future__ import annotations

from typing import Final, Literal

from spadework import units
from spadework.garden import entries as kinds
from spadework.usecases.keep_book import Act
from spadework.usecases.line.clause import Clause
from spadework.usecases.line.first_seen import first_of_its_year
from spadework.usecases.line.marks import Mark
from spadework.usecases.line.plants import Place
from spadework.usecases.line.scene import Scene

_Sort = Literal["", "pest", "disease", "damage", "wilting", "weed"]
_SORTS: Final[dict[str, _Sort]] = {
    **dict.fromkeys(
        (
            "slugs",
            "snails",
            "blackfly",
            "greenfly",
            "whitefly",
            "aphids",
            "caterpillars",
            "cabbage white eggs",
            "cabbage white",
            "flea beetle",
            "colorado beetle",
            "colorado potato beetle eggs",
            "japanese beetles",
            "beetles",
            "beetle eggs",
            "carrot fly",
            "root fly",
            "thrips",
            "leaf miner",
            "spider mite",
            "pigeons",
            "birds",
            "mice",
            "rabbits",
            "deer",
            "ants",
            "eggs",
        ),
        "pest",
    ),
    **dict.fromkeys(
        (
            "blight",
            "powdery mildew",
            "downy mildew",
            "mildew",
            "rust",
            "chocolate spot",
            "grey mould",
            "leaf spot",
            "rot",
            "damping off",
            "clubroot",
        ),
        "disease",
    ),
    **dict.fromkeys(("holes", "frost damage", "splitting"), "damage"),
    "wilting": "wilting",
    "weeds": "weed",
}
_OWN_WORD: Final = frozenset(
    {
        "beetles",
        "thrips",
        "birds",
        "mice",
        "deer",
        "splitting",
        "eggs",
        "frost damage",
        "leaf spot",
        "clubroot",
        "ladybirds",
        "weeds",
        "fruit set",
        "rabbits",
        "root fly",
        "rot",
        "holes",
        "caterpillars",
    }
)
"""Groups of things told apart by the word said."""


def seen(scene: Scene, clause: Clause) -> list[Act]:
    """What was seen, on which parts, on how many plants; of wilting when, and if gone by morning."""
    things = _things(clause)
    if not things:
        return []
    parts = tuple(dict.fromkeys(mark.means["part"] for mark in clause.marks if "part" in mark.means))
    for mark in clause.marks:
        if "part" in mark.means:
            mark.used = True
    hour = scene.hour
    gone: bool | None = None
    if clause.use("is not recovered"):
        gone = False
    elif clause.use("is recovered"):
        gone = True
    plants, of_plants = _how_many(clause)
    what = " and ".join(things)
    sort = _SORTS.get(next(mark.means["thing"] for mark in clause.marks if "thing" in mark.means), "")
    trouble, event = first_of_its_year(what) if clause.words("first") else ("", "")
    payload = kinds.Seen(
        what=what,
        parts=parts,
        plants=plants,
        of_plants=of_plants,
        hour=hour,
        gone_by_morning=gone,
        sort=sort,
        trouble=trouble,
        event=event,
    )
    return [scene.act(payload, place) for _, place in scene.spots(clause)]


def _things(clause: Clause) -> list[str]:
    found: list[str] = []
    for mark in clause.marks:
        thing = mark.means.get("thing")
        if thing is None or mark.is_crop:
            continue
        mark.used = True
        word = mark.plain if thing in _OWN_WORD else thing
        if word not in found:
            found.append(word)
    strong = [word for word in found if word not in _VAGUE]
    return (strong or found)[:3]


_VAGUE: Final = frozenset(
    {
        "eaten",
        "holes",
        "hole",
        "eggs",
        "nibbled",
        "chewed",
        "munched",
        "spots",
        "droppings",
        "frass",
        "bites",
        "larvae",
        "stripped",
    }
)


def _how_many(clause: Clause) -> tuple[int | None, int | None]:
    ratio = next((mark for mark in clause.marks if mark.ratio is not None and not mark.used), None)
    if ratio is not None and ratio.ratio is not None:
        ratio.used = True
        return round(ratio.ratio[0]), round(ratio.ratio[1])
    for mark in clause.numbers():
        ahead = clause.after(mark, 4)
        for at, each in enumerate(ahead):
            if each.plain in ("plants", "plant") or each.is_crop:
                return clause.whole(mark), None
            if "thing" in each.means or (each.plain not in ("of", "the", "my", "our", "them") and at):
                break
    return None, None


def rained(scene: Scene, clause: Clause) -> list[Act]:
    """Rain in the gauge, over as many days as said."""
    clause.use("sign rain")
    depth = clause.amount("length")
    bare = clause.numbers()
    if depth is not None:
        rain_mm = depth.value * 10
    elif bare and bare[0].number is not None:
        bare[0].used = True
        rain_mm = bare[0].number.value * (units.MM_PER_INCH if scene.manner.fahrenheit else 1.0)
        scene.taken.append("a gauge reading without a unit taken as the garden's own")
    else:
        return []
    days = 1
    for mark in clause.marks:
        if mark.day is not None and mark.day.lead == "since" and mark.day.on is not None:
            mark.used = True
            days = max(1, (scene.manner.today - mark.day.on).days)
    for mark in clause.numbers():
        if any(each.plain in ("days", "day", "nights") for each in clause.after(mark, 1)):
            days = clause.whole(mark) or 1
    clause.use("is gauge")
    return [scene.act(kinds.RainGauge(rain_mm=round(rain_mm, 2), days=days))]


def felt(scene: Scene, clause: Clause) -> list[Act]:
    """The soil by finger or squeezed, at a depth."""
    finger: Literal["dry", "damp", "wet"] | None = None
    squeeze: Literal["crumbles", "holds", "smears"] | None = None
    for mark in clause.marks:
        for tag in mark.means:
            match tag:
                case "is dry":
                    finger = finger or "dry"
                case "is damp":
                    finger = finger or "damp"
                case "is wet":
                    finger = finger or "wet"
                case "is crumbles":
                    squeeze = squeeze or "crumbles"
                case "is holds":
                    squeeze = squeeze or "holds"
                case "is smears":
                    squeeze = squeeze or "smears"
                case _:
                    continue
            mark.used = True
    if finger is None and squeeze is None:
        return []
    for tag in ("sign finger", "sign squeeze", "sign soil place"):
        clause.use(tag)
    depth = clause.amount("length")
    depth_cm = None if depth is None else round(depth.value, 2)
    payload = kinds.SoilFelt(finger=finger, squeeze=squeeze, depth_cm=depth_cm)
    found: list[Act] = []
    for _, place in scene.spots(clause):
        if Place(place.bed) not in [Place(each.bed) for each in found]:
            found.append(scene.act(payload, Place(place.bed)))
    return found


def read_thermometer(scene: Scene, clause: Clause) -> list[Act]:
    """Lowest, highest or present temperature of air, soil, leaf, tunnel or frame."""
    low, high, now = _temps(scene, clause)
    if low is None and high is None and now is None:
        return []
    beds = tuple(dict.fromkeys(key for mark in clause.marks for key in mark.beds))
    if not beds and clause.taken_from is not None:
        beds = tuple(key for mark in clause.taken_from.marks for key in mark.beds)
    for mark in clause.marks:
        if mark.beds:
            mark.used = True
    bed = beds[0] if beds else scene.sense.bed
    place = _place(scene, clause, bed)
    depth = clause.amount("length") if place == "soil" else None
    payload = kinds.ThermometerRead(
        place=place,
        min_c=low,
        max_c=high,
        now_c=now,
        depth_cm=None if depth is None else round(depth.value, 2),
        hour=scene.hour,
    )
    return [scene.act(payload, Place(bed if place in ("soil", "tunnel", "frame") else ""))]


def _place(scene: Scene, clause: Clause, bed: str) -> Literal["air", "soil", "leaf", "tunnel", "frame"]:
    for tag in ("sign air place",):
        clause.use(tag)
    if clause.use("sign soil place"):
        return "soil"
    if clause.use("sign leaf place"):
        return "leaf"
    shape = scene.garden.beds[bed].shape if bed in scene.garden.beds else ""
    if shape == "tunnel":
        return "tunnel"
    return "frame" if shape == "frame" else "air"


def _temps(scene: Scene, clause: Clause) -> tuple[float | None, float | None, float | None]:
    """Lowest, highest and present; a lone F or C at the end holds for all."""
    fahrenheit = scene.manner.fahrenheit
    for mark in clause.marks:
        if mark.plain in ("f", "fahrenheit"):
            mark.used, fahrenheit = True, True
        elif mark.plain in ("c", "celsius"):
            mark.used, fahrenheit = True, False
        elif mark.amount is not None and mark.amount.dim == "temp" and mark.amount.unit == "f":
            fahrenheit = True
    low: float | None = None
    high: float | None = None
    now: float | None = None
    for mark in clause.marks:
        value = _degrees(clause, mark)
        if value is None:
            continue
        mark.used = True
        temp_c = (
            mark.amount.value if mark.amount is not None else units.c_from_f(value) if fahrenheit else value
        )
        temp_c = round(temp_c, 2)
        which = _which(clause, mark)
        if not which and any(each.day is not None and each.day.part == "night" for each in clause.marks):
            which = "low"
        if which == "low" and low is None:
            low = temp_c
        elif which == "high" and high is None:
            high = temp_c
        else:
            now = temp_c if now is None else now
    return low, high, now


def _degrees(clause: Clause, mark: Mark) -> float | None:
    if mark.amount is not None:
        return mark.amount.number if mark.amount.dim == "temp" else None
    if mark.number is None or mark.number.low is not None or not -60 <= mark.number.value <= 150:
        return None
    if any(each.plain in ("days", "nights", "day", "times", "plants") for each in clause.after(mark, 1)):
        return None
    return mark.number.value


def _which(clause: Clause, mark: Mark) -> str:
    """Low or high by the nearest sign before the number, else just behind it."""
    at = clause.marks.index(mark)
    for each in reversed(clause.marks[max(0, at - 6) : at]):
        if (each.amount is not None and each.amount.dim == "temp") or each.number is not None:
            break
        for which in ("low", "high"):
            if f"sign {which}" in each.means:
                each.used = True
                return which
    for each in clause.after(mark, 2):
        for which in ("low", "high"):
            if f"sign {which}" in each.means and each.plain not in ("up to", "down to"):
                each.used = True
                return which
    return ""
