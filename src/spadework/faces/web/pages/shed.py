"""The shed: what else is here. Kit, seed, people and locks, each as it is in the book."""

from __future__ import annotations

from typing import Any, Final

from spadework import units
from spadework.faces.web.visit import Answer, Asks, Go, Page, Refused, Visit, Way
from spadework.usecases.begin_garden import change_site
from spadework.usecases.crop_words import family_word
from spadework.usecases.keep_locks import lift_lock
from spadework.usecases.keep_things import KIT_SORTS, keep_item, keep_lot, keep_test
from spadework.usecases.read_sheets import list_sheets
from spadework.usecases.show_kit import by_bed, list_kit
from spadework.usecases.show_locks import list_locks
from spadework.usecases.show_people import list_people
from spadework.usecases.show_tin import LotShown, list_tin
from spadework.usecases.write_answer import WriteAnswer

OUNCE_G: Final = 1000.0 * units.KG_PER_POUND / 16.0


def show_shed(visit: Visit) -> Page:
    """What else is here."""
    return Page("shed.html", {"locked": len(list_locks(visit.garden, visit.today).locks)})


def show_kit(visit: Visit) -> Page:
    """What is owned, where it is, what is free."""
    return Page("kit.html", {"kit": by_bed(list_kit(visit.garden, visit.today)).kit, "sorts": KIT_SORTS})


def show_tin(visit: Visit) -> Page:
    """The seed owned, what is left of it, how it tested."""
    american = visit.site.words == "american"
    crops = sorted((each.american if american else each.british, each.key) for each in list_sheets())
    wanted = visit.text("q").casefold()
    lots = [
        each
        for each in list_tin(visit.garden, visit.today).lots
        if wanted in f"{each.name} {each.year or ''} {family_word(each.family)}".casefold()
    ]
    short = sorted((each for each in lots if _short(each)), key=lambda each: each.sowings_left or 0.0)
    families: dict[str, list[LotShown]] = {}
    for each in lots:
        families.setdefault(family_word(each.family), []).append(each)
    return Page(
        "tin.html",
        {
            "q": visit.text("q"),
            "lots": lots,
            "short": short,
            "short_names": [each.lot for each in short],
            "families": sorted(families.items(), key=lambda each: (each[0] == "Others", each[0])),
            "crops": crops,
        },
    )


def _short(lot: LotShown) -> bool:
    """Not enough for one more sowing like those made of it, or none left."""
    return (lot.left is not None and lot.left <= 0) or (
        lot.sowings_left is not None and lot.sowings_left < 1.0
    )


def test_lot(visit: Visit) -> Answer:
    """How a germination test came out."""
    sprouted, tested = visit.number("sprouted"), visit.number("of")
    for name, value in (("sprouted", sprouted), ("of", tested)):
        if value is None or value != int(value) or value < 0:
            raise Refused("How many was it?", "Count them: whole numbers.", field=name)
    assert sprouted is not None
    assert tested is not None
    found = keep_test(visit.garden, visit.writing, visit.names["lot"], int(sprouted), int(tested))
    if not found.stored:
        return Asks(found.questions, found.can_insist)
    return Go("/tin", " ".join(visit.voice.told(f"{each.text}.") for each in found.entries))


def add_item(visit: Visit) -> Answer:
    """A piece of kit, or how much there is of it now."""
    item, us = visit.text("item"), visit.voice.us
    if not item:
        raise Refused("What is it called?", "Give it a name.", field="item")
    length, pieces = visit.number("length"), _whole(visit, "pieces")
    said: dict[str, Any] = {"sort": visit.text("sort")}
    if said["sort"] not in KIT_SORTS:
        raise Refused("What is it?", "Choose its sort.", field="sort")
    if length is not None:
        said["length_m"] = round(length * units.M_PER_FOOT, 3) if us else length
    if pieces is not None:
        said["pieces"] = pieces
    if visit.text("grade"):
        said["grade"] = visit.voice.grade_kept(visit.text("grade"))
    return _told(visit, keep_item(visit.garden, visit.writing, item, said), "/kit")


def add_lot(visit: Visit) -> Answer:
    """Seed put into the tin."""
    crop = visit.text("crop")
    if not crop:
        raise Refused("Seed of what?", "Choose the crop.", field="crop")
    year, seeds, weight = _whole(visit, "year"), _whole(visit, "seeds"), visit.number("grams")
    said: dict[str, Any] = {"variety": visit.text("variety")} if visit.text("variety") else {}
    if year is not None:
        said["year"] = year
    if seeds is not None:
        said["seeds"] = seeds
    if weight is not None:
        said["grams"] = round(weight * OUNCE_G, 3) if visit.voice.us else weight
    return _told(visit, keep_lot(visit.garden, visit.writing, crop, said), "/tin")


def _whole(visit: Visit, name: str) -> int | None:
    value = visit.number(name)
    if value is None:
        return None
    if value != int(value) or value < 0:
        raise Refused("Whole numbers only.", "Count them.", field=name)
    return int(value)


def _told(visit: Visit, found: WriteAnswer, where: str) -> Answer:
    if not found.stored:
        return Asks(found.questions, found.can_insist)
    said = " ".join(visit.voice.told(f"{each.text.rstrip('.')}.") for each in found.entries)
    return Go(where, f"In the book: {said}")


def show_settings(visit: Visit) -> Page:  # noqa: ARG001 - the page speaks of the garden alone
    """Units and words."""
    return Page("settings.html", {})


def set_settings(visit: Visit) -> Answer:
    """Change them; pages, paper and commands follow."""
    change_site(visit.garden, {"units": visit.text("units"), "words": visit.text("words")})
    return Go("/settings", "Pages, papers and commands speak so from now on. What is kept stays as it is.")


def show_people(visit: Visit) -> Page:
    """Who keeps, helps or reads here."""
    return Page("people.html", {"people": list_people(visit.garden, visit.today).people})


def show_locks(visit: Visit) -> Page:
    """What may not be picked, planted or used, and until when."""
    found = list_locks(visit.garden, visit.today, over=True)
    return Page("locks.html", {"locks": found.locks, "over": found.over})


def lift(visit: Visit) -> Answer:
    """Lift a lock, with the reason; the book refuses whoever may not."""
    why = visit.text("why")
    if not why:
        raise Refused("Why may it be lifted?", "Say what makes it safe.", field="why")
    found = lift_lock(visit.garden, visit.writing, visit.names["lock"], why)
    if not found.stored:
        return Asks(found.questions, found.can_insist)
    return Go("/locks", " ".join(visit.voice.told(f"{each.text}.") for each in found.entries))


WAYS: Final = (
    Way("/shed", show_shed),
    Way("/kit", show_kit),
    Way("/kit/add", add_item, post=True, least="keeper"),
    Way("/settings", show_settings),
    Way("/settings/set", set_settings, post=True, least="keeper"),
    Way("/tin/add", add_lot, post=True, least="helper"),
    Way("/tin", show_tin),
    Way("/tin/{lot}/test", test_lot, post=True, least="helper"),
    Way("/people", show_people),
    Way("/locks", show_locks),
    Way("/locks/{lock}/lift", lift, post=True, least="keeper"),
)
