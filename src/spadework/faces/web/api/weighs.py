"""Decisions set side by side: each option with its odds."""

from __future__ import annotations

from datetime import date
from typing import Annotated, Any, Final

import msgspec
from msgspec import Meta

from spadework.advice.again_answer import AgainAnswer
from spadework.advice.weigh_fits import FitsAnswer
from spadework.advice.weigh_pick import PickAnswer
from spadework.advice.weigh_plant_out import PlantAnswer
from spadework.advice.weigh_sow import SowAnswer
from spadework.advice.weigh_sow_next import NextAnswer
from spadework.advice.weigh_thin import ThinAnswer
from spadework.faces.web.api.call import Asking, Call, DepthMm, Percent, Text, WithLocks
from spadework.usecases.lock_lines import locks_about
from spadework.usecases.weigh_covering import CoverAnswer, weigh_covering
from spadework.usecases.weigh_fits import weigh_what_fits
from spadework.usecases.weigh_picking import weigh_picking
from spadework.usecases.weigh_planting_out import weigh_planting_out
from spadework.usecases.weigh_resowing import weigh_resowing
from spadework.usecases.weigh_sowing import weigh_sowing
from spadework.usecases.weigh_sowing_next import weigh_sowing_next
from spadework.usecases.weigh_thinning import weigh_thinning


class _Query(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """Base of all queries."""


class AboutCrop(_Query, frozen=True, kw_only=True):
    crop: Text


class AboutPlanting(_Query, frozen=True, kw_only=True):
    planting: Text


class ToSow(AboutCrop, frozen=True, kw_only=True):
    on: date | None = None
    depth_mm: DepthMm | None = None
    germination_pct: Percent | None = None
    watered: bool = True
    raised: bool | None = None
    variety: Text = ""
    bed: Text = ""


class ToSowAgain(AboutCrop, frozen=True, kw_only=True):
    sown: date
    seeds: Annotated[int, Meta(ge=1, le=100_000)]
    up: Annotated[int, Meta(ge=0, le=100_000)]
    germination_pct: Percent | None = None
    depth_mm: DepthMm | None = None
    wanted: Annotated[int, Meta(ge=1, le=100_000)] | None = None
    watered: bool = True


class ToPlantOut(AboutCrop, frozen=True, kw_only=True):
    on: date | None = None


class ToCover(_Query, frozen=True, kw_only=True):
    bed: Text
    item: Text = ""


class ToFit(_Query, frozen=True, kw_only=True):
    on: date | None = None
    clear_by: date | None = None
    watered: bool = True


def _fields(given: Any, *without: str) -> dict[str, Any]:
    return {name: getattr(given, name) for name in given.__struct_fields__ if name not in without}


def _held(
    asking: Asking, found: Any, *, bed: str = "", crop: str = "", placing: bool = False
) -> WithLocks[Any]:
    locks = locks_about(asking.garden, asking.today, bed=bed, crop=crop, placing=placing)
    return WithLocks(found=found, locks=locks)


def _sow(asking: Asking) -> WithLocks[SowAnswer]:
    given: ToSow = asking.given
    found = weigh_sowing(asking.garden, asking.today, given.crop, **_fields(given, "crop"))
    return _held(asking, found, bed=given.bed, crop=given.crop, placing=True)


def _again(asking: Asking) -> WithLocks[AgainAnswer]:
    given: ToSowAgain = asking.given
    found = weigh_resowing(asking.garden, asking.today, given.crop, **_fields(given, "crop"))
    return _held(asking, found, crop=given.crop, placing=True)


def _next(asking: Asking) -> WithLocks[NextAnswer]:
    crop = asking.given.crop
    found = weigh_sowing_next(asking.garden, asking.today, crop)
    return _held(asking, found, crop=crop, placing=True)


def _plant_out(asking: Asking) -> WithLocks[PlantAnswer]:
    given: ToPlantOut = asking.given
    found = weigh_planting_out(asking.garden, asking.today, given.crop, on=given.on)
    return _held(asking, found, crop=given.crop, placing=True)


def _thin(asking: Asking) -> WithLocks[ThinAnswer]:
    found = weigh_thinning(asking.garden, asking.today, asking.given.planting)
    return _held(asking, found, crop=found.crop)


def _pick(asking: Asking) -> WithLocks[PickAnswer]:
    found = weigh_picking(asking.garden, asking.today, asking.given.planting)
    return _held(asking, found, crop=found.key)


def _cover(asking: Asking) -> WithLocks[CoverAnswer]:
    found = weigh_covering(asking.garden, asking.today, asking.given.bed, item=asking.given.item)
    return _held(asking, found, bed=found.bed)


def _fits(asking: Asking) -> WithLocks[FitsAnswer]:
    found = weigh_what_fits(asking.garden, asking.today, **_fields(asking.given))
    return _held(asking, found, placing=True)


WEIGHS: Final = (
    Call("/weigh/sow", "May it be sown now, or on which day?", _sow, WithLocks[SowAnswer], ToSow),
    Call(
        "/weigh/sow-again",
        "It has not come up: wait, look, fill gaps, sow again, or give up the place?",
        _again,
        WithLocks[AgainAnswer],
        ToSowAgain,
    ),
    Call(
        "/weigh/sow-next",
        "The next sowing: today, later, or in two steps?",
        _next,
        WithLocks[NextAnswer],
        AboutCrop,
    ),
    Call("/weigh/fits", "What still fits a free place, and until when.", _fits, WithLocks[FitsAnswer], ToFit),
    Call(
        "/weigh/plant-out",
        "Plants are ready in their pots: out now, out under cover, or hold them?",
        _plant_out,
        WithLocks[PlantAnswer],
        ToPlantOut,
    ),
    Call(
        "/weigh/thin",
        "Thin a row now, a week later, or not at all.",
        _thin,
        WithLocks[ThinAnswer],
        AboutPlanting,
    ),
    Call("/weigh/pick", "Pick what there is today, or wait.", _pick, WithLocks[PickAnswer], AboutPlanting),
    Call(
        "/weigh/cover", "A bed's cover: shut, open by day, or off.", _cover, WithLocks[CoverAnswer], ToCover
    ),
)
