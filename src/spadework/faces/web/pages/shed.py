"""The shed: what else is here. Kit, seed, people and locks, each as it is in the book."""

from __future__ import annotations

from typing import Final

from spadework.faces.web.visit import Answer, Asks, Go, Page, Refused, Visit, Way
from spadework.usecases.keep_locks import lift_lock
from spadework.usecases.keep_things import keep_test
from spadework.usecases.show_kit import list_kit
from spadework.usecases.show_locks import list_locks
from spadework.usecases.show_people import list_people
from spadework.usecases.show_tin import list_tin


def show_shed(visit: Visit) -> Page:
    """What else is here."""
    return Page("shed.html", {"locked": len(list_locks(visit.garden, visit.today).locks)})


def show_kit(visit: Visit) -> Page:
    """What is owned, where it is, what is free."""
    return Page("kit.html", {"kit": list_kit(visit.garden, visit.today).kit})


def show_tin(visit: Visit) -> Page:
    """The seed owned, what is left of it, how it tested."""
    return Page("tin.html", {"lots": list_tin(visit.garden, visit.today).lots})


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
    Way("/tin", show_tin),
    Way("/tin/{lot}/test", test_lot, post=True, least="helper"),
    Way("/people", show_people),
    Way("/locks", show_locks),
    Way("/locks/{lock}/lift", lift, post=True, least="keeper"),
)
