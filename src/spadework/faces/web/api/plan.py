"""The plan of the garden as text, and a plan loaded: all of it or nothing; and one's own chores."""

from __future__ import annotations

from datetime import date
from typing import Annotated, Final

from msgspec import UNSET, Meta, UnsetType

from spadework.faces.web.api.call import Asking, Call, Questions, Sent, Text, once
from spadework.usecases.keep_chore import ChoreList, end_chore, keep_chore, list_chores
from spadework.usecases.plan_garden import PlanLoaded, PlanText, load_plan_text, text_of_plan
from spadework.usecases.write_answer import WriteAnswer

PlanWords = Annotated[
    str,
    Meta(
        min_length=1,
        max_length=150_000,
        pattern=r"^[^\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f]*$",
        description="A plan as GET /plan gives it.",
    ),
]
Minutes = Annotated[float, Meta(gt=0.0, le=1440.0)]
EveryDays = Annotated[int, Meta(ge=1, le=366)]


class Plan(Sent, frozen=True, kw_only=True):
    """A plan to load; with `trial` it is only said what would change."""

    text: PlanWords
    trial: bool = False


class OwnChore(Sent, frozen=True, kw_only=True):
    """A chore no planting asks for; of a known one only what is different."""

    chore: Annotated[Text, Meta(min_length=1)]
    minutes: Minutes | UnsetType = UNSET
    person: Text | UnsetType = UNSET
    bed: Text | UnsetType = UNSET
    every_days: EveryDays | UnsetType | None = UNSET
    first: date | UnsetType | None = UNSET
    last: date | UnsetType | None = UNSET


class TakenOff(Sent, frozen=True, kw_only=True):
    """Nothing more is said."""


def _load(asking: Asking) -> PlanLoaded:
    sent: Plan = asking.sent
    found = load_plan_text(
        asking.garden,
        sent.text,
        "the plan",
        asking.today,
        by=asking.caller.person,
        trial=sent.trial,
        insist=sent.insist,
    )
    if found.questions:
        raise Questions(found.questions, can_insist=all(each.may_insist for each in found.questions))
    return found


def _chore(asking: Asking) -> WriteAnswer:
    return keep_chore(asking.garden, asking.writing, asking.sent.chore, asking.said("chore"))


PLAN: Final = (
    Call(
        "/plan",
        "The plan as text: beds, kit, seed, people, chores, perennials.",
        lambda asking: text_of_plan(asking.garden, asking.today),
        PlanText,
    ),
    Call(
        "/plan",
        "Make the garden as a plan has it: all of it or nothing.",
        _load,
        PlanLoaded,
        sends=Plan,
        least="keeper",
    ),
    Call(
        "/chores",
        "Chores no planting asks for, what is due first.",
        lambda asking: list_chores(asking.garden, asking.today),
        ChoreList,
    ),
    Call("/chores", "Tell of a chore.", once(_chore), WriteAnswer, sends=OwnChore, least="helper"),
    Call(
        "/chores/{chore}/end",
        "Take a chore off; when it was done stays in the book.",
        once(lambda asking: end_chore(asking.garden, asking.writing, asking.names["chore"])),
        WriteAnswer,
        sends=TakenOff,
        least="helper",
    ),
)
