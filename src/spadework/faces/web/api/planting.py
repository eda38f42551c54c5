"""A planting as a sentence, one opened up, a sowing tried on a day, and the warmth of the soil."""

from __future__ import annotations

from datetime import date
from typing import Annotated, Any, Final

from msgspec import Meta

from spadework.faces.web.api.call import Asking, Call, Query, Sent, Text, once
from spadework.usecases.plant_look import SentenceLook, look_sentence
from spadework.usecases.plant_sentence import Blanks, Way, write_sentence
from spadework.usecases.show_planting import PlantingPage, show_planting
from spadework.usecases.show_soil import SoilAnswer, show_soil
from spadework.usecases.try_sowing import Trials, try_days
from spadework.usecases.write_answer import WriteAnswer

Rows = Annotated[int, Meta(ge=1, le=200)]
Number = Annotated[int, Meta(ge=1, le=100_000)]
SpacingCm = Annotated[float, Meta(ge=0.5, le=400.0)]
RowCm = Annotated[float, Meta(ge=0.5, le=600.0)]
LengthM = Annotated[float, Meta(ge=0.1, le=200.0)]
Depth = Annotated[float, Meta(ge=0.0, le=300.0)]
PlaceM = Annotated[float, Meta(ge=0.0, le=100.0)]


class OfSentence(Query, frozen=True, kw_only=True):
    """The blanks of a sentence; what is left out is taken as the sheet and the bed have it."""

    way: Way = "here"
    crop: Text = ""
    bed: Text = ""
    variety: Text = ""
    lot: Text = ""
    source: Text = ""
    rows: Rows | None = None
    number: Number | None = None
    seeds: Number | None = None
    spacing_cm: SpacingCm | None = None
    row_cm: RowCm | None = None
    length_m: LengthM | None = None
    depth_mm: Depth | None = None
    across_m: PlaceM | None = None
    along_m: PlaceM | None = None
    on: date | None = None


class Sentence(Sent, frozen=True, kw_only=True):
    """The same, for the book."""

    way: Way = "here"
    crop: Text = ""
    bed: Text = ""
    variety: Text = ""
    lot: Text = ""
    source: Text = ""
    rows: Rows | None = None
    number: Number | None = None
    seeds: Number | None = None
    spacing_cm: SpacingCm | None = None
    row_cm: RowCm | None = None
    length_m: LengthM | None = None
    depth_mm: Depth | None = None
    across_m: PlaceM | None = None
    along_m: PlaceM | None = None


class OfTrial(Query, frozen=True, kw_only=True):
    """A sowing tried in a bed: on a day, or week by week where none is named."""

    crop: Text
    bed: Text
    on: date | None = None


class OfSoil(Query, frozen=True, kw_only=True):
    """The soil of one bed, or of all."""

    bed: Text = ""


def _blanks(told: Any) -> Blanks:
    return Blanks(**{name: getattr(told, name) for name in Blanks.__dataclass_fields__})


def _look(asking: Asking) -> SentenceLook:
    return look_sentence(asking.garden, asking.today, _blanks(asking.given), asking.given.on)


def _plant(asking: Asking) -> WriteAnswer:
    return write_sentence(asking.garden, _blanks(asking.sent), asking.writing)


def _try(asking: Asking) -> Trials:
    asked: OfTrial = asking.given
    days = () if asked.on is None else (asked.on,)
    return try_days(asking.garden, asking.today, asked.crop, asked.bed, days)


PLANTING: Final = (
    Call(
        "/plant",
        "What a sowing or planting comes to: count, place, when it is ready; nothing is written.",
        _look,
        SentenceLook,
        OfSentence,
    ),
    Call("/plant", "Sow or plant.", once(_plant), WriteAnswer, sends=Sentence, least="helper"),
    Call(
        "/plantings/{planting}",
        "One planting: its course, counts, jobs, locks and book.",
        lambda asking: show_planting(asking.garden, asking.today, asking.names["planting"]),
        PlantingPage,
    ),
    Call("/weigh/try", "A sowing tried on a day, or week by week.", _try, Trials, OfTrial),
    Call(
        "/soil",
        "How warm the soil is, bed by bed, as it was and as the years go on.",
        lambda asking: show_soil(asking.garden, asking.today, bed=asking.given.bed),
        SoilAnswer,
        OfSoil,
    ),
)
