"""A bed's water through the years: what the roots can reach, and what is gone of it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from functools import cached_property
from typing import NamedTuple

import numpy as np

from spadework.clock.bed_ground import (
    FIRST_ROOTS_M,
    LEAST_ROOTS_M,
    ROOTED_SHARE,
    SMALL_VEGETABLE,
    BedGround,
)
from spadework.clock.finger import FINGER_SHARES, Felt, FingerCheck, deep, finger_check
from spadework.clock.ground import Ground
from spadework.science import crop_water, root_zone
from spadework.types import Bools, Floats


@dataclass(frozen=True, eq=False)
class BedWater:
    """Water of one bed, arrays [year, day] on the ground's day axis, at the end of each day.

    Parameters
    ----------
    depletion_mm : array  [mm]
        Water gone from the root zone, 0 where it is full.
    readily_mm : array  [mm]
        What may be gone before plants suffer.
    available_mm : array  [mm]
        What the root zone holds between full and wilting.
    stress : array
        Share of full water use the plants get, 0 to 1.
    checks : tuple of FingerCheck
        Every finger test beside the balance, oldest first.
    assumed : tuple of str
        What had to be assumed, in sentences.
    growing : array of bool, or None
        Days on which something is up; before that seed may want water, but no plant goes short. None where it
        always is.
    """

    depletion_mm: Floats
    readily_mm: Floats
    available_mm: Floats
    stress: Floats
    checks: tuple[FingerCheck, ...] = ()
    assumed: tuple[str, ...] = ()
    growing: Bools | None = None

    @cached_property
    def _short(self) -> Bools:
        over: Bools = self.depletion_mm > self.readily_mm
        return over if self.growing is None else over & self.growing

    def short(self, column: int) -> Bools:
        """Whether plants go short at the end of a day, [year]."""
        return self._short[:, column]

    def days_until_short(self, column: int) -> Floats:
        """Days from a column until plants first go short without more watering, [year]; inf for never."""
        over = self._short[:, column:]
        found: Floats = np.where(over.any(axis=1), np.argmax(over, axis=1).astype(np.float64), np.inf)
        return found

    def wanted_mm(self, column: int) -> float:
        """Depth that would fill the root zone on a day, mean over the years  [mm]."""
        return float(np.nanmean(self.depletion_mm[:, column]))


def with_gauge(rain_mm: Floats, readings: Sequence[tuple[int, float, int]]) -> Floats:
    """Rain with the garden's own gauge in place of the record where it was read.

    Parameters
    ----------
    rain_mm : array, shape (year, day)  [mm]
        Forecast and record.
    readings : sequence of (column, mm, days)
        The day a gauge was read, what stood in it, and over how many days up to then, that day included.

    Returns
    -------
    array, shape (year, day)
        The record's pattern within a reading's days, scaled to the reading; spread evenly where the record
        was dry.
    """
    rain = rain_mm.copy()
    for column, total_mm, days in readings:
        span = slice(max(column - days + 1, 0), column + 1)
        part = np.nan_to_num(rain[:, span])
        if part.shape[1] == 0:
            continue
        whole = part.sum(axis=1, keepdims=True)
        even = np.full_like(part, total_mm / part.shape[1])
        with np.errstate(divide="ignore", invalid="ignore"):
            scaled = part * (total_mm / whole)
        rain[:, span] = np.where(whole > 0.0, scaled, even)
    return rain


def beds_water(
    ground: Ground,
    beds: Mapping[str, BedGround],
    *,
    rain_mm: Floats | None = None,
    until: int | None = None,
    from_column: int = 0,
) -> dict[str, BedWater]:
    """Water of all beds at once.

    Parameters
    ----------
    ground : Ground
        Shared by all beds: rain, evapotranspiration, days.
    beds : mapping of str to BedGround
    rain_mm : array, shape (year, day), or None  [mm]
        From `with_gauge`; None for the ground's own. Days without rain data count as dry.
    until : int or None
        Last column wanted; later ones are NaN. None for all.
    from_column : int
        First column run, with every store full on the evening before; earlier ones are NaN.

    Returns
    -------
    dict of str to BedWater

    Notes
    -----
    A bed is one store under all its plantings: coefficients, leaves and roots are means by their ground. A
    finger in the soil is taken to be put in before that day's rain and watering.

    Source
    ------
    FAO56 by way of `science.root_zone`; how roots follow the plant's way and what a finger means: memory.
    """
    if not beds:
        return {}
    years, days = ground.years.tmin_c.shape
    stop = days if until is None else min(until + 1, days)
    rain = np.nan_to_num(ground.years.rain_mm if rain_mm is None else rain_mm)
    stores = list(beds.values())
    turn = _same_until(rain, ground.et0_mm, stores, from_column, min(ground.years.seen_days, stop))
    # days that are the same in every year are run once, the others from there in each year
    seen = _run(ground, stores, rain[:1], slice(from_column, turn), None)
    later = _run(ground, stores, rain, slice(turn, stop), seen)

    def whole(part: str, row: int) -> Floats:
        out = np.full((years, days), np.nan)
        out[:, from_column:turn] = getattr(seen, part)[row]
        out[:, turn:stop] = getattr(later, part)[row]
        return out

    found = {}
    for row, (key, bed) in enumerate(beds.items()):
        gone = whole("depletion_mm", row)
        plain = whole("held_mm", row)
        found[key] = BedWater(
            gone,
            whole("readily_mm", row),
            plain,
            whole("stress_share", row),
            _checks(ground, bed, gone, plain * later.share[row], from_column, stop),
            bed.assumed,
            whole("basal", row) > 0.0,
        )
    return found


class _Run(NamedTuple):
    """A stretch of days, each array [bed, year, day]; share and the stores at its end by bed and year."""

    depletion_mm: Floats
    readily_mm: Floats
    held_mm: Floats
    stress_share: Floats
    basal: Floats
    share: Floats
    end_depletion_mm: Floats
    end_surface_mm: Floats


def _same_until(rain: Floats, et0: Floats, stores: Sequence[BedGround], first: int, seen: int) -> int:
    """First column from which the years differ; the days before are this season's own."""
    stop = max(seen, first)
    span = slice(first, stop)
    ways = [each.way for bed in stores for each in bed.grown]
    for values in (rain, et0, *ways):
        if not np.array_equal(
            values[:, span], np.broadcast_to(values[:1, span], values[:, span].shape), equal_nan=True
        ):
            return first
    return stop


def _run(ground: Ground, stores: Sequence[BedGround], rain: Floats, span: slice, before: _Run | None) -> _Run:
    """All beds through a stretch of days, in as many years as there is rain for."""
    days, years = ground.dates.size, rain.shape[0]
    shape = (len(stores), years, max(span.stop - span.start, 0))
    et0 = np.nan_to_num(ground.et0_mm[:years, span])
    basal, held, share = np.zeros(shape), np.empty(shape), np.empty((len(stores), 1, 1))
    fallen, lost, given = np.empty(shape), np.empty(shape), np.zeros(shape)
    low, high = np.full(shape, np.nan), np.full(shape, np.nan)
    for row, bed in enumerate(stores):
        basal[row], roots, share[row] = _plants(bed, shape[1:], span)
        held[row] = bed.soil.held_mm_m * roots
        fallen[row] = rain[:, span] * _on_days(bed.rain_share, days)[span]
        lost[row] = et0 * _on_days(bed.et0_share, days)[span]
        given[row] = _on_days(bed.watering_mm, days)[span]
        for felt in bed.felt:
            if span.start <= felt.column < span.stop and deep(felt):
                column = felt.column - span.start
                low[row, :, column], high[row, :, column] = FINGER_SHARES[felt.finger]
    none = np.zeros((len(stores), years))
    gone, top = (none, none) if before is None else (before.end_depletion_mm, before.end_surface_mm)
    if shape[2] == 0:
        return _Run(basal, basal, held, basal, basal, share, gone, top)
    upper = crop_water.upper_coefficient(basal)
    found = root_zone.water_balance(
        fallen,
        lost,
        basal_kc=basal,
        cover_share=crop_water.cover_from_coefficient(basal, upper),
        available_mm=held,
        depletion_table_share=share,
        surface_readily_mm=np.array([bed.soil.readily_mm.middle for bed in stores])[:, None],
        surface_evaporable_mm=np.array([bed.soil.evaporable_mm.middle for bed in stores])[:, None],
        upper_kc=upper,
        watering_mm=given,
        wetted_share=np.array([bed.wetted_share for bed in stores])[:, None, None],
        mulch_factor=np.array([root_zone.MULCH_FACTORS[bed.mulch] for bed in stores])[:, None, None],
        start_depletion_mm=gone,
        start_surface_mm=top,
        felt_low_share=low,
        felt_high_share=high,
    )
    return _Run(
        found.depletion_mm,
        found.readily_mm,
        held,
        found.stress_share,
        basal,
        share,
        found.depletion_mm[..., -1],
        found.surface_mm[..., -1],
    )


def _on_days(values: Floats | float, days: int) -> Floats:
    return np.broadcast_to(np.asarray(values, dtype=np.float64), (days,))


def _plants(bed: BedGround, shape: tuple[int, ...], span: slice) -> tuple[Floats, Floats, float]:
    """Coefficient, depth of roots and depletion share of what stands in a bed; bare ground has none."""
    basal, roots = np.zeros(shape), np.full(shape, FIRST_ROOTS_M)
    share = SMALL_VEGETABLE.depletion_share
    ground = sum(each.area_m2 for each in bed.grown)
    if ground > 0.0:
        roots[:] = 0.0
        share = sum(each.water.depletion_share * each.area_m2 for each in bed.grown) / ground
    for each in bed.grown:
        way, weight = each.way[: shape[0], span], each.area_m2 / ground
        crop = each.water
        basal += weight * crop_water.coefficient_course(way, crop.ini_kc, crop.mid_kc, crop.end_kc)
        deep = max(crop.roots_m - FIRST_ROOTS_M, 0.0)
        roots += weight * (FIRST_ROOTS_M + deep * np.clip(way / ROOTED_SHARE, 0.0, 1.0))
    if bed.most_depletion_share is not None:
        share = min(share, bed.most_depletion_share)
    if bed.most_roots_m is not None:
        roots = np.minimum(roots, bed.most_roots_m)
    return basal, np.maximum(roots, LEAST_ROOTS_M), share


def _checks(
    ground: Ground, bed: BedGround, gone: Floats, readily: Floats, first: int, stop: int
) -> tuple[FingerCheck, ...]:
    """Each finger test beside the evening before: means over the years, which are one where days are seen."""

    def one(felt: Felt) -> FingerCheck:
        before = 0.0 if felt.column == first else float(gone[:, felt.column - 1].mean())
        on: date = ground.dates[felt.column].astype(object)
        that_day = [each for each in inside if each.column == felt.column and deep(each)]
        later = that_day[-1] if that_day and deep(felt) and that_day[-1] is not felt else None
        return finger_check(felt, on, before, float(readily[:, felt.column].mean()), later)

    inside = [felt for felt in bed.felt if first <= felt.column < stop]
    return tuple(one(felt) for felt in sorted(inside, key=lambda each: each.column))
