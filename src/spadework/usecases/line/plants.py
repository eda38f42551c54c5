"""Which planting is meant: by crop, bed, variety and sense; asked only where several could be."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Final

from spadework.garden.lookup import nearest
from spadework.garden.planting import Planting
from spadework.garden.question import Question
from spadework.garden.state import Garden
from spadework.usecases.crop_words import crop_word
from spadework.usecases.line.clause import Clause
from spadework.usecases.line.lexicon import plain_words
from spadework.usecases.line.marks import Mark
from spadework.usecases.line.places import Target
from spadework.usecases.line.which import Sense, ask_elsewhere, ask_place, ask_plants, ask_which, crop_name

_YOUNGEST_PICKED_DAYS: Final = 21
"""No crop is picked or lifted sooner after sowing; radish takes about so long. Class: common-practice."""
_OF_PLANTS: Final = frozenset(
    {
        "thin",
        "pick",
        "pull",
        "lift",
        "count",
        "measure",
        "prick out",
        "up",
        "first flower",
        "first female flower",
        "ready",
        "bolting",
        "cure",
        "store",
        "clear",
        "lose",
        "prune",
        "harden",
        "earth up",
        "standing",
        "support",
    }
)
_STARTS: Final = frozenset({"sow", "plant", "plant out"})
"""Acts after which a crop stands where the book does not know it yet."""
_ROOTS: Final = frozenset(
    {
        "potato",
        "garlic",
        "onion",
        "shallot",
        "carrot",
        "beet",
        "parsnip",
        "turnip",
        "leek",
        "sweet-potato",
        "rutabaga",
        "celeriac",
        "radish",
    }
)
_SENSE: Final[dict[str, frozenset[str]]] = {
    "lift": _ROOTS,
    "cure": frozenset({"garlic", "onion", "shallot", "potato", "sweet-potato", "pumpkin", "winter-squash"}),
    "earth up": frozenset(
        {"potato", "leek", "sweet-corn", "brussels-sprouts", "broccoli", "celery", "kale", "fava-bean"}
    ),
    "support": frozenset(
        {"tomato", "pea", "runner-bean", "pole-bean", "fava-bean", "cucumber", "pepper", "sunflower"}
    ),
}
"""Crops an act is done to, where a bed holds several. Class: common-practice."""


@dataclass(frozen=True, slots=True)
class Place:
    """A bed and a planting, either of which may be empty; the day where it has one of its own."""

    bed: str = ""
    planting: str = ""
    on: date | None = None


def places(sense: Sense, clause: Clause, target: Target, day: date) -> list[Place]:
    """The beds and plantings a target means; empty after a question.

    Notes
    -----
    A crop that stands once needs no bed. Of several a bed, a variety, "the second sowing" or "seedlings"
    decides, then what cannot be: seedlings in a tray are not picked.
    """
    beds = _beds(sense, target)
    if beds is None:
        return []
    if target.crop is not None:
        return _by_crop(sense, clause, target, beds, day)
    if clause.act in _OF_PLANTS:
        return _by_bed(sense, clause, beds, day)
    return [Place(bed) for bed in beds] or [Place()]


def _beds(sense: Sense, target: Target) -> list[str] | None:
    """Keys of the beds named; None where one had to be asked for."""
    found: list[str] = []
    for mark in target.beds:
        keys = beds_named(sense, mark, target)
        if not keys:
            return None
        found += [key for key in keys if key not in target.but]
    if not found and sense.bed and sense.bed != "all":
        return [sense.bed]
    return list(dict.fromkeys(found))


def beds_named(sense: Sense, mark: Mark, target: Target) -> tuple[str, ...]:
    """The beds one mark names; none after a question."""
    mark.used = True
    if mark.beds:
        return mark.beds
    garden = sense.garden
    if mark.no_bed:
        if sense.bed:
            return (sense.bed,)
        names = [bed.name for bed in garden.beds.values() if bed.gone_on is None]
        sense.ask(
            Question(
                about="bed",
                found=f"No bed is called {mark.no_bed}.",
                why="Name another in the line, or give it with --bed.",
                nearest=nearest(mark.no_bed, names),
                may_insist=False,
            )
        )
        return ()
    if sense.bed in mark.maybe_beds:
        return (sense.bed,)
    known = [key for key in mark.maybe_beds if target.crop is not None and _stands(sense, target.crop, key)]
    if len(known) == 1:
        return (known[0],)
    ask_which(sense, mark.plain, [garden.beds[key].name for key in known or mark.maybe_beds], "bed")
    return ()


def _stands(sense: Sense, crop: Mark, bed: str) -> bool:
    return any(each.crop in crop_keys(crop) for each in sense.garden.standing(bed=bed))


def crop_keys(mark: Mark) -> tuple[str, ...]:
    """The crops a mark may mean. Lettuce may have a head or none: the sheets hold two."""
    if mark.crop is None:
        return mark.crops
    key = mark.crop[0]
    for group in _ALIKE:
        if key in group:
            return (key, *(other for other in group if other != key))
    return (key,)


_ALIKE: Final = (
    ("lettuce", "head-lettuce"),
    ("bush-bean", "pole-bean"),
    ("summer-squash",),
    ("onion", "bunching-onion"),
    ("pumpkin", "winter-squash"),
)
"""Crops people call by one name."""


def _by_crop(sense: Sense, clause: Clause, target: Target, beds: list[str], day: date) -> list[Place]:
    crop = target.crop
    assert crop is not None
    crop.used = True
    garden = sense.garden
    keys = crop_keys(crop)
    standing = [each for each in garden.standing(day) if each.crop in keys]
    if crop.crop is not None and any(each.crop == crop.crop[0] for each in standing):
        standing = [each for each in standing if each.crop == crop.crop[0]]
    if not standing:
        standing = _over(garden, keys, clause.act)
    here = [each for each in standing if not beds or each.bed in beds]
    if target.lent and not here:
        here = standing
    if beds and not here and clause.taken_from is not None and clause.taken_from.act in _STARTS:
        return [Place(bed) for bed in beds]
    if beds and standing and not here:
        ask_elsewhere(sense, crop, standing, beds)
        return []
    if not standing:
        if clause.act in _OF_PLANTS and not (sense.planting or sense.bed):
            name = crop_name(sense, crop)
            sense.ask(
                Question(
                    about="planting",
                    found=f"No {name} {'are' if name.endswith('s') else 'is'} known to stand here.",
                    why="Sow or plant it in the book first, or name the crop that is meant.",
                    nearest=tuple(
                        dict.fromkeys(crop_word(each.crop, sense.words) for each in garden.standing(day))
                    )[:6],
                    may_insist=False,
                )
            )
            return []
        return [Place(bed) for bed in beds] or [Place()]
    return _settled(sense, clause, crop, here, beds)


def _over(garden: Garden, keys: Sequence[str], act: str) -> list[Planting]:
    """Plantings that are over, for what is done afterwards."""
    if act not in ("cure", "store", "clear", "pick", "lift"):
        return []
    over = [each for each in garden.plantings.values() if each.crop in keys]
    return over[-1:]


def _settled(sense: Sense, clause: Clause, crop: Mark, here: list[Planting], beds: list[str]) -> list[Place]:
    if len(here) > 1:
        here = _narrowed(sense, clause, crop, here)
    if len(here) == 1:
        return [Place(here[0].bed, here[0].key)]
    if len(beds) > 1 and len({each.bed for each in here}) == len(here):
        return [Place(each.bed, each.key) for each in here]
    everything = clause.use("is everything") or sense.planting == "all" or sense.bed == "all"
    if everything or any(
        mark.plain in ("all", "both") for mark in clause.before(crop, 2) if crop in clause.marks
    ):
        return [Place(each.bed, each.key) for each in here]
    ask_plants(sense, crop_name(sense, crop), here)
    return []


def _narrowed(sense: Sense, clause: Clause, crop: Mark | None, here: list[Planting]) -> list[Planting]:
    if sense.planting and (given := [each for each in here if sense.planting in (each.key, each.crop)]):
        return given
    variety = clause.has("variety")
    said = (
        variety.means["variety"]
        if variety is not None
        else crop.crop[1]
        if crop is not None and crop.crop
        else None
    )
    if said and (of_variety := [each for each in here if plain_words(each.variety) == plain_words(said)]):
        if variety is not None:
            variety.used = True
        here = of_variety
    hint = [mark for mark in clause.context if mark.beds]
    if len(here) > 1 and hint and (there := [each for each in here if each.bed in hint[-1].beds]):
        here = there
    if len(here) > 1 and clause.has("younger") and clause.act not in ("first flower",):
        clause.use("younger")
        here = [max(here, key=lambda each: each.started_on)]
    if len(here) > 1 and (older := clause.has("older")) and older.plain not in ("big", "old", "main"):
        older.used = True
        here = [min(here, key=lambda each: each.started_on)]
    if len(here) > 1:
        here = _by_sense(sense, clause, here)
    return here


def _by_sense(sense: Sense, clause: Clause, here: list[Planting]) -> list[Planting]:
    """Leave out what cannot be meant, where something is left."""
    raised = [each for each in here if in_tray(sense.garden, each)]
    grown = [each for each in here if each not in raised]
    if clause.act in ("prick out", "harden", "plant out") or clause.has("is seedlings", "is modules"):
        return raised or here
    if clause.act in (
        "pick",
        "pull",
        "lift",
        "cure",
        "store",
        "bolting",
        "earth up",
        "support",
        "clear",
        "thin",
        "prune",
        "ready",
        "hoe",
        "mulch",
        "cover",
        "uncover",
        "treat",
    ):
        here = grown or here
    if clause.act in ("pick", "lift", "cure", "store", "ready", "bolting", "first flower"):
        day = max((each.started_on for each in here), default=date.min)
        last = sense.garden.last_day
        old = [
            each
            for each in here
            if (max(last, day) - each.started_on).days >= _YOUNGEST_PICKED_DAYS or each.set_out_on
        ]
        here = old or here
    if clause.act == "up":
        waiting = [each for each in here if "up" not in each.stages and each.set_out_on is None]
        here = [max(waiting, key=lambda each: each.started_on)] if len(waiting) > 1 else waiting or here
    return here


def in_tray(garden: Garden, planting: Planting) -> bool:
    """Whether plants are still being raised: in a tray or on a shelf."""
    bed = garden.beds.get(planting.bed)
    return bool(planting.tray) or bed is None or bed.shape == "shelf"


def _by_bed(sense: Sense, clause: Clause, beds: list[str], day: date) -> list[Place]:
    """Plants by their bed alone: all there where it is cleared, else the one that can be meant."""
    if not beds:
        return _by_nocrop_name(sense, clause, day)
    found: list[Place] = []
    for bed in beds:
        here = list(sense.garden.standing(day, bed=bed))
        if clause.act == "clear":
            found += [Place(bed, each.key) for each in here] or [Place(bed)]
            continue
        if len(here) > 1:
            here = _narrowed(sense, clause, None, here)
        sensible = _SENSE.get(clause.act)
        if len(here) > 1 and sensible is not None:
            here = [each for each in here if each.crop in sensible] or here
        if len(here) == 1:
            found.append(Place(bed, here[0].key))
        elif (
            not here
            or clause.act in ("prune", "harden", "support", "earth up")
            or clause.has("is everything")
        ):
            found += [Place(bed, each.key) for each in here] if clause.has("is everything") else [Place(bed)]
        else:
            crops = list(dict.fromkeys(crop_word(each.crop, sense.words, many=True) for each in here))
            name = sense.garden.beds[bed].name
            if len(crops) == len(here):
                ask_which(sense, f"crop in {name}", crops, "planting")
            else:
                ask_plants(sense, f"plants in {name}", here)
    return found


def _by_nocrop_name(sense: Sense, clause: Clause, day: date) -> list[Place]:
    """Neither bed nor crop: a variety or a lone crop that fits decides, else it is asked."""
    variety = clause.has("variety")
    if variety is not None:
        wanted = plain_words(variety.means["variety"])
        here = [each for each in sense.garden.standing(day) if plain_words(each.variety) == wanted]
        if len(here) == 1:
            variety.used = True
            return [Place(here[0].bed, here[0].key)]
    if sense.planting in sense.garden.plantings:
        planting = sense.garden.plantings[sense.planting]
        return [Place(planting.bed, planting.key)]
    ask_place(sense)
    return []
