"""Facts told of the weather and the ground: forecasts, thermometers, tables; and one taken back."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Annotated, Final

from msgspec import Meta

from spadework.errors import ParameterError
from spadework.faces.web.api.call import Asking, Call, Questions, Sent, Text
from spadework.garden.told import (
    Fact,
    ForecastDay,
    FrostTable,
    MonthlyNormals,
    PairedMinima,
    SkyHours,
    SoilWarmth,
    WarmthTotal,
)
from spadework.usecases.keep_book import Asked
from spadework.usecases.tell import Forgotten, ToldAnswer, forget, tell
from spadework.usecases.tell_normals import NormalsTold, tell_normals

MANY: Final = Meta(max_length=40)


class Told(Sent, frozen=True, kw_only=True):
    """Facts of any kinds, kept all or none; `source` is who says them."""

    source: Annotated[Text, Meta(min_length=1)]
    forecast: Annotated[tuple[ForecastDay, ...], MANY] = ()
    soil: Annotated[tuple[SoilWarmth, ...], MANY] = ()
    warmth: Annotated[tuple[WarmthTotal, ...], MANY] = ()
    frost_table: Annotated[tuple[FrostTable, ...], MANY] = ()
    minimum: Annotated[tuple[PairedMinima, ...], MANY] = ()
    sky: Annotated[tuple[SkyHours, ...], MANY] = ()


class Normals(Sent, frozen=True, kw_only=True):
    """Twelve monthly normals, January first."""

    source: Annotated[Text, Meta(min_length=1)]
    normals: MonthlyNormals


class TakenBack(Sent, frozen=True, kw_only=True):
    """Nothing more is said."""


def _told(asking: Asking) -> ToldAnswer:
    sent: Told = asking.sent
    kinds: tuple[Sequence[Fact], ...] = (
        sent.forecast,
        sent.soil,
        sent.warmth,
        sent.frost_table,
        sent.minimum,
        sent.sky,
    )
    facts = [fact for kind in kinds for fact in kind]
    if not facts:
        raise ParameterError("No fact was told.", "Give one at least: forecast, soil, warmth and so on.")
    found = tell(asking.garden, asking.today, facts, source=sent.source, sure=sent.insist)
    _doubted(found.doubts)
    return found


def _normals(asking: Asking) -> NormalsTold:
    sent: Normals = asking.sent
    found = tell_normals(asking.garden, asking.today, sent.normals, sent.source, sure=sent.insist)
    if not found.stored:
        _doubted(found.doubts)
    return found


def _doubted(doubts: Sequence[str]) -> None:
    """What speaks against it is asked first."""
    if doubts:
        asked = [
            Asked(act=0, about="told", found=doubt, why="", nearest=(), may_insist=True) for doubt in doubts
        ]
        raise Questions(asked, can_insist=True)


TELLING: Final = (
    Call(
        "/told",
        "Tell a forecast, a thermometer, a table, thunder or smoke.",
        _told,
        ToldAnswer,
        sends=Told,
        least="helper",
    ),
    Call(
        "/told/normals",
        "Tell twelve monthly normals.",
        _normals,
        NormalsTold,
        sends=Normals,
        least="keeper",
    ),
    Call(
        "/told/{fact}/forget",
        "Take back what was told, by its key or the end of it.",
        lambda asking: forget(asking.garden, asking.today, asking.names["fact"]),
        Forgotten,
        sends=TakenBack,
        least="helper",
    ),
)
