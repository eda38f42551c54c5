"""What can be written: jobs done or put off, a line for the book, beds, locks, kit, seed, people."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import Annotated, Final, Literal

from msgspec import UNSET, Meta, UnsetType

from spadework.errors import ParameterError
from spadework.faces.web.access import check_may_let_in
from spadework.faces.web.api.call import (
    Asking,
    Call,
    Count,
    LongText,
    Metres,
    Questions,
    Sent,
    Text,
    once,
)
from spadework.usecases.change_planting import begun, change_planting, move_planting
from spadework.usecases.do_jobs import Doing, JobDone, do_job, skip_job
from spadework.usecases.keep_locks import lift_lock, set_lock
from spadework.usecases.keep_things import end_bed, keep_bed, keep_item, keep_lot, keep_person, keep_test
from spadework.usecases.note_line import NotedLine, note_line
from spadework.usecases.plant_sentence import Blanks
from spadework.usecases.take_back import take_back
from spadework.usecases.write_answer import WriteAnswer

Name = Annotated[Text, Meta(min_length=1)]
Words = Annotated[LongText, Meta(min_length=1)]
Litres = Annotated[float, Meta(ge=0.0, le=100_000.0)]
Kilos = Annotated[float, Meta(ge=0.0, le=100_000.0)]
Texts = Annotated[tuple[Text, ...], Meta(max_length=30)]
Shape = Literal["framed", "ground", "tub", "sack", "tunnel", "frame", "shelf"]
Sort = Literal["fleece", "netting", "mesh", "film", "hoops", "screen", "scare", "tray", "tool", "other"]


class Done(Sent, frozen=True, kw_only=True):
    """A job done, with what only the person knows; `act` is what it was called where it was shown."""

    minutes: Annotated[float, Meta(gt=0.0, le=1440.0)] | None = None
    act: Text = ""
    standing: Count | UnsetType = UNSET
    removed: Count | UnsetType = UNSET
    left: Count | UnsetType = UNSET
    pieces: Count | UnsetType = UNSET
    kg: Kilos | UnsetType = UNSET
    litres: Litres | UnsetType = UNSET


class PutOff(Sent, frozen=True, kw_only=True):
    """A job put off for a day, with the reason."""

    because: Words
    act: Text = ""


class Line(Sent, frozen=True, kw_only=True):
    """What was done or seen, as a person says it."""

    line: Words
    bed: Text = ""
    planting: Text = ""


class Undo(Sent, frozen=True, kw_only=True):
    """Take back an entry; `together` also what was written with it."""

    together: bool = False


class _OfBed(Sent, frozen=True, kw_only=True):
    shape: Shape | UnsetType = UNSET
    is_round: bool | UnsetType = UNSET
    x_m: Annotated[float, Meta(ge=-1000.0, le=1000.0)] | UnsetType = UNSET
    y_m: Annotated[float, Meta(ge=-1000.0, le=1000.0)] | UnsetType = UNSET
    width_m: Metres | UnsetType = UNSET
    length_m: Metres | UnsetType = UNSET
    turn_deg: Annotated[float, Meta(ge=-360.0, le=360.0)] | UnsetType = UNSET
    height_m: Metres | UnsetType = UNSET
    depth_m: Metres | UnsetType = UNSET
    soil: Text | UnsetType = UNSET
    inside: Text | UnsetType = UNSET


class NewBed(_OfBed, frozen=True, kw_only=True):
    """A bed made."""

    name: Name


class ChangedBed(_OfBed, frozen=True, kw_only=True):
    """What is different of a bed now; the rest stays as it was."""


class Ended(Sent, frozen=True, kw_only=True):
    """A bed taken up; its history stays."""

    why: LongText = ""


class NewLock(Sent, frozen=True, kw_only=True):
    """A lock on one bed, planting or batch."""

    why: Words
    bed: Text = ""
    planting: Text = ""
    batch: Text = ""
    until: date | None = None
    test: Text = ""
    stops: Literal["picking", "planting", "using"] = "picking"
    anyone: bool = False


class Lifted(Sent, frozen=True, kw_only=True):
    """A lock lifted, and why."""

    why: Words


class Kit(Sent, frozen=True, kw_only=True):
    """A piece of kit owned, and how much of it."""

    item: Name
    sort: Sort | UnsetType = UNSET
    length_m: Metres | UnsetType = UNSET
    width_m: Metres | UnsetType = UNSET
    pieces: Count | UnsetType = UNSET
    grade: Text | UnsetType = UNSET


class Seed(Sent, frozen=True, kw_only=True):
    """A lot of seed in the tin."""

    crop: Text = ""
    lot: Text = ""
    variety: Text | UnsetType = UNSET
    year: Annotated[int, Meta(ge=1900, le=2300)] | UnsetType = UNSET
    seeds: Count | UnsetType = UNSET
    grams: Annotated[float, Meta(ge=0.0, le=1_000_000.0)] | UnsetType = UNSET
    traits: Texts | UnsetType = UNSET


class Tested(Sent, frozen=True, kw_only=True):
    """A germination test: so many sprouted of so many."""

    sprouted: Count
    of: Annotated[int, Meta(ge=1, le=1_000_000)]


class Person(Sent, frozen=True, kw_only=True):
    """Someone who works or reads here."""

    name: Name
    role: Literal["keeper", "helper", "reader"] | None = None
    can: Texts | None = None
    not_for: Texts | None = None


class _Sentence(Sent, frozen=True, kw_only=True):
    bed: Text | UnsetType = UNSET
    rows: Annotated[int, Meta(ge=1, le=200)] | UnsetType = UNSET
    number: Annotated[int, Meta(ge=1, le=100_000)] | UnsetType = UNSET
    spacing_cm: Annotated[float, Meta(ge=0.5, le=400.0)] | UnsetType = UNSET
    row_cm: Annotated[float, Meta(ge=0.5, le=600.0)] | UnsetType = UNSET
    across_m: Annotated[float, Meta(ge=0.0, le=100.0)] | UnsetType = UNSET
    along_m: Annotated[float, Meta(ge=0.0, le=200.0)] | UnsetType = UNSET


class ChangedPlanting(_Sentence, frozen=True, kw_only=True):
    """How a planting was really begun, where that is otherwise than written; `on` is the real day."""

    seeds: Annotated[int, Meta(ge=1, le=100_000)] | UnsetType = UNSET
    length_m: Annotated[float, Meta(ge=0.1, le=200.0)] | UnsetType = UNSET
    depth_mm: Annotated[float, Meta(ge=0.0, le=300.0)] | UnsetType = UNSET
    variety: Text | UnsetType = UNSET
    lot: Text | UnsetType = UNSET


class MovedPlanting(_Sentence, frozen=True, kw_only=True):
    """Plants lifted and set anew; all of them where no number is said."""


def _done(asking: Asking) -> JobDone:
    numbers = {name: float(value) for name, value in asking.said("minutes", "act").items()}
    found = do_job(
        asking.garden,
        asking.today,
        asking.names["job"],
        numbers,
        minutes=asking.sent.minutes,
        how=_doing(asking),
    )
    return _job_stored(found, asking)


def _put_off(asking: Asking) -> JobDone:
    found = skip_job(
        asking.garden, asking.today, asking.names["job"], asking.sent.because, how=_doing(asking)
    )
    return _job_stored(found, asking)


def _doing(asking: Asking) -> Doing:
    sent = asking.sent
    return Doing(
        by=asking.caller.person, on=sent.on, key=asking.key, act=sent.act.strip(), insist=sent.insist
    )


def _job_stored(found: JobDone, asking: Asking) -> JobDone:
    if not found.stored:
        may = not asking.sent.insist and all(each.may_insist for each in found.questions)
        raise Questions(found.questions, can_insist=may)
    return found


def _said(asking: Asking) -> NotedLine:
    sent: Line = asking.sent
    found = note_line(asking.garden, sent.line, asking.writing, bed=sent.bed, planting=sent.planting)
    if not found.stored:
        raise Questions(found.questions, can_insist=found.can_insist)
    return found


def _new_bed(asking: Asking) -> WriteAnswer:
    return keep_bed(asking.garden, asking.writing, asking.sent.name, asking.said("name"), new=True)


def _changed_bed(asking: Asking) -> WriteAnswer:
    if not asking.said():
        raise ParameterError("Nothing is said of the bed.", "Say what is different.")
    return keep_bed(asking.garden, asking.writing, asking.names["bed"], asking.said(), new=False)


def _new_lock(asking: Asking) -> WriteAnswer:
    said = asking.said()
    return set_lock(asking.garden, asking.writing, said.pop("why"), **said)


def _seed(asking: Asking) -> WriteAnswer:
    sent: Seed = asking.sent
    return keep_lot(
        asking.garden, asking.writing, sent.crop, asking.said("crop", "lot"), lot=sent.lot.strip()
    )


def _person(asking: Asking) -> WriteAnswer:
    said = asking.said()
    check_may_let_in(asking.caller, asking.sent.role or "")
    return keep_person(asking.garden, asking.writing, said.pop("name"), **said)


def _changed_planting(asking: Asking) -> WriteAnswer:
    said = asking.said()
    if not said and asking.sent.on is None:
        raise ParameterError("Nothing is said of the planting.", "Say what was otherwise.")
    begin = begun(asking.garden, asking.today, asking.names["planting"])
    if said.keys() & {"rows", "length_m"}:
        said.setdefault("seeds", None)
    blanks = replace(begin.blanks, **said)
    return change_planting(asking.garden, begin.planting.key, blanks, asking.writing)


def _moved_planting(asking: Asking) -> WriteAnswer:
    blanks = replace(Blanks(), **asking.said())
    return move_planting(asking.garden, asking.names["planting"], blanks, asking.writing)


WRITES: Final = (
    Call("/jobs/{job}/done", "A job done.", _done, JobDone, sends=Done, least="helper"),
    Call(
        "/jobs/{job}/skip", "A job put off, with the reason.", _put_off, JobDone, sends=PutOff, least="helper"
    ),
    Call("/book", "A line for the book, as a person says it.", _said, NotedLine, sends=Line, least="helper"),
    Call(
        "/book/{entry}/undo",
        "Take back an entry, by its key or the end of it.",
        once(lambda a: take_back(a.garden, a.writing, a.names["entry"], together=a.sent.together)),
        WriteAnswer,
        sends=Undo,
        least="helper",
    ),
    Call("/beds", "A bed made.", once(_new_bed), WriteAnswer, sends=NewBed, least="keeper"),
    Call(
        "/beds/{bed}/change",
        "Say something else of a bed.",
        once(_changed_bed),
        WriteAnswer,
        sends=ChangedBed,
        least="keeper",
    ),
    Call(
        "/beds/{bed}/end",
        "A bed taken up; its history stays.",
        once(lambda a: end_bed(a.garden, a.writing, a.names["bed"], a.sent.why)),
        WriteAnswer,
        sends=Ended,
        least="keeper",
    ),
    Call(
        "/plantings/{planting}/change",
        "Say how a planting was really begun.",
        once(_changed_planting),
        WriteAnswer,
        sends=ChangedPlanting,
        least="helper",
    ),
    Call(
        "/plantings/{planting}/move",
        "Lift plants that stand, and set them anew.",
        once(_moved_planting),
        WriteAnswer,
        sends=MovedPlanting,
        least="helper",
    ),
    Call(
        "/locks",
        "Lock a bed, a planting or a batch.",
        once(_new_lock),
        WriteAnswer,
        sends=NewLock,
        least="keeper",
    ),
    Call(
        "/locks/{lock}/lift",
        "Lift a lock; helpers those that say so.",
        once(lambda a: lift_lock(a.garden, a.writing, a.names["lock"], a.sent.why)),
        WriteAnswer,
        sends=Lifted,
        least="helper",
    ),
    Call(
        "/kit",
        "Tell of kit, or how much there is now.",
        once(lambda a: keep_item(a.garden, a.writing, a.sent.item, a.said("item"))),
        WriteAnswer,
        sends=Kit,
        least="helper",
    ),
    Call("/tin", "Seed into the tin.", once(_seed), WriteAnswer, sends=Seed, least="helper"),
    Call(
        "/tin/{lot}/test",
        "How a germination test came out.",
        once(lambda a: keep_test(a.garden, a.writing, a.names["lot"], a.sent.sprouted, a.sent.of)),
        WriteAnswer,
        sends=Tested,
        least="helper",
    ),
    Call(
        "/people",
        "Tell of someone who works or reads here.",
        once(_person),
        WriteAnswer,
        sends=Person,
        least="keeper",
    ),
)
