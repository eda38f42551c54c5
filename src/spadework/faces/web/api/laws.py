"""The laws to try by hand: as sentences with blanks, what comes out of one, and its curve over one blank."""

from __future__ import annotations

from typing import Annotated, Final, Literal

import msgspec
from msgspec import Meta

from spadework.faces.web.api.call import Asking, Call, LongText, Query, Text
from spadework.usecases.law_book import LAWS
from spadework.usecases.law_curve import LawCurve, law_curve
from spadework.usecases.laws import Evaluated, evaluate, find_law


class OfLaw(Query, frozen=True, kw_only=True):
    given: Annotated[LongText, Meta(description='Blanks and what is put in: "t_c=12,crop=carrot".')] = ""
    over: Annotated[Text, Meta(description="Draw a curve over this blank.")] = ""
    of: Annotated[Text, Meta(description="Of this number of the result.")] = ""


class BlankShown(msgspec.Struct, frozen=True, kw_only=True):
    """One blank of a law's sentence."""

    name: str
    kind: Literal["number", "word", "date", "crop"]
    meaning: str
    words: list[str]
    default: float | str | None
    needed: bool


class LawShown(msgspec.Struct, frozen=True, kw_only=True):
    """A law as a sentence with blanks."""

    name: str
    says: str
    blanks: list[BlankShown]
    sources: list[str]


class LawList(msgspec.Struct, frozen=True, kw_only=True):
    """All laws that can be tried."""

    laws: list[LawShown]


class LawTried(msgspec.Struct, frozen=True, kw_only=True):
    """A law, and what came out of it where something was put in."""

    law: LawShown
    tried: Evaluated | None
    curve: LawCurve | None


def _law_shown(name: str) -> LawShown:
    law = find_law(LAWS, name)
    blanks = [
        BlankShown(
            name=each.name,
            kind=each.kind,  # type: ignore[arg-type] # one of the four, as `Blank` says
            meaning=each.meaning,
            words=list(each.words),
            default=each.default,
            needed=each.needed,
        )
        for each in law.blanks
    ]
    return LawShown(name=law.name, says=law.says, blanks=blanks, sources=list(law.sources))


def _law(asking: Asking) -> LawTried:
    shown = _law_shown(asking.names["law"])
    pairs = {
        part.partition("=")[0].strip(): part.partition("=")[2].strip()
        for part in asking.given.given.split(",")
        if part.strip()
    }
    asked: OfLaw = asking.given
    return LawTried(
        law=shown,
        tried=evaluate(LAWS, shown.name, pairs) if pairs else None,
        curve=law_curve(LAWS, shown.name, pairs, over=asked.over, of=asked.of) if asked.over else None,
    )


LAW_CALLS: Final = (
    Call(
        "/laws",
        "The laws to try by hand.",
        lambda _: LawList(laws=[_law_shown(name) for name in LAWS]),
        LawList,
    ),
    Call("/laws/{law}", "One law, and what comes out of it.", _law, LawTried, OfLaw),
)
