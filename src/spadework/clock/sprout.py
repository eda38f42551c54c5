"""From a sowing to seedlings, through the years."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from spadework.clock.ground import Ground
from spadework.clock.normal import log_normal_share
from spadework.clock.tables import cold_side, heat_side_table, warmth_table
from spadework.crops.sheet import Sheet
from spadework.science.emergence import requirement_cd, rot_survival, wet_gate
from spadework.types import Floats, Ints

WATERED_WAVE = 0.75
"""Share of the soil's daily wave left in a drill that is kept damp. Memory: wet soil stays cooler."""


@dataclass(frozen=True)
class Sowing:
    """How seed goes into the ground.

    Parameters
    ----------
    day : int
        Column of the ground's day axis on which it is sown.
    depth_mm : float  [mm]
        Depth of the seed.
    germination : float or None
        Share of the lot that germinates in a test, 0 to 1; None takes the sheet's usual lot.
    watered : bool
        Whether the row is kept damp until it is up. Otherwise rain alone opens the gate.
    """

    day: int
    depth_mm: float | None = None
    germination: float | None = None
    watered: bool = True


@dataclass(frozen=True, eq=False)
class Sprout:
    """Emergence of one sowing, arrays [year, day] from the first day of the ground.

    Parameters
    ----------
    progress : array
        Warmth gathered in units of the median requirement: half of the able seed is up at 1.
    able : array, shape (year,)
        Share of the seed sown that can come up at all.
    let_up : array, shape (year,)
        Share of that in good soil which this soil's cold, heat and rot let up.
    share_up : array
        Expected share of the seed sown that has come up.
    median_day : array of int, shape (year,)
        Column by whose end half of the able seed is up; the number of columns where it never is.
    quick_day, slow_day : array of int, shape (year,)
        The same for a sowing one spread quicker and one slower than usual.
    tau : float
        Spread between sowings, in logarithms: the sheet's, less what a soil thermometer has taken out of it.
    """

    progress: Floats
    able: Floats
    let_up: Floats
    share_up: Floats
    median_day: Ints
    quick_day: Ints
    slow_day: Ints
    tau: float


def first_reaching(running: Floats, level: float) -> Ints:
    """First column at which a rising total reaches a level, [year]; the column count where it never does."""
    found: Ints = np.count_nonzero(running < level, axis=-1).astype(np.int64)
    return found


def field_requirement_cd(sheet: Sheet, depth_mm: float | None) -> float:
    """Warmth from sowing to half up in a garden bed [degC d], at a depth (the sheet's own by default)."""
    depth = sheet.sowing.depth_mm.value if depth_mm is None else depth_mm
    return float(requirement_cd(sheet.emergence.law(), depth)) * sheet.emergence.field_sum_factor.value


def able_share(sheet: Sheet, germination: float | None) -> float:
    """Share of the seed sown that comes up in good soil: the lot's germination times the field factor."""
    lot = sheet.sowing.lot_germination_pct.value / 100.0 if germination is None else germination
    return min(lot * sheet.sowing.field_factor.value, 0.99)


def sprout(sheet: Sheet, ground: Ground, sowing: Sowing) -> Sprout:
    """Run a sowing's emergence through the years.

    Parameters
    ----------
    sheet : Sheet
        The crop.
    ground : Ground
        The place's microclimate through the years.
    sowing : Sowing
        Day, depth, lot, water.

    Returns
    -------
    Sprout

    Notes
    -----
    Warmth is integrated over the soil's daily wave at the seed's depth. The able share falls with the soil's
    temperature as the published percent table has it: the cold side by the mean over the days to emergence,
    the heat side over the daily wave. Rain alone (`watered` false) adds the moisture gate.
    """
    law = sheet.emergence.law()
    depth_mm = sheet.sowing.depth_mm.value if sowing.depth_mm is None else sowing.depth_mm
    mean = ground.soil_mean_c

    def half(damp: bool) -> Floats:
        return ground.soil_half_c(depth_mm / 10.0) * (WATERED_WAVE if damp else 1.0)

    def running_warmth() -> Floats:
        # only days on which the drill is damp count, watered or not
        warmth = warmth_table(law)(mean, half(damp=True))
        return np.cumsum(warmth if sowing.watered else warmth * wet_gate(ground.seedbed_wet_share), axis=-1)

    def running_normal_share() -> Floats:
        return np.cumsum(cold_side(law, mean) * heat_side_table(law)(mean, half(sowing.watered)), axis=-1)

    gathered = ground.keep(("warmth", law, depth_mm, sowing.watered), running_warmth)
    normal_share_at = ground.keep(("normal share", law, depth_mm, sowing.watered), running_normal_share)
    before = gathered[:, sowing.day - 1 : sowing.day] if sowing.day > 0 else np.zeros((gathered.shape[0], 1))
    progress = (gathered - before) * (1.0 / field_requirement_cd(sheet, depth_mm))
    np.maximum(progress, 0.0, out=progress)
    sigma = sheet.emergence.sigma.value
    median = first_reaching(progress, 1.0)
    tau = _tau(sheet, ground, gathered, sowing.day, median)
    let_up = _mean_until(normal_share_at, sowing.day, median)
    rot = sheet.emergence.rot_c
    if rot is not None:
        wet = np.ones_like(mean) if sowing.watered else ground.seedbed_wet_share
        sound = rot_survival(
            mean[:, sowing.day :], wet[:, sowing.day :], progress[:, sowing.day :], rot.value
        )
        let_up = let_up * sound[:, -1]
    able = able_share(sheet, sowing.germination) * let_up
    share_up = able[:, None] * log_normal_share(progress, 1.0, float(np.hypot(sigma, tau)))
    return Sprout(
        progress=progress,
        able=able,
        let_up=let_up,
        share_up=share_up,
        median_day=median,
        quick_day=first_reaching(progress, float(np.exp(-tau))),
        slow_day=first_reaching(progress, float(np.exp(tau))),
        tau=tau,
    )


def _tau(sheet: Sheet, ground: Ground, gathered: Floats, start: int, median: Ints) -> float:
    """Spread between sowings once the bed's soil has been read.

    The sheet's spread counts beds whose soil nobody measured. A degree of error in the soil shifts the time
    to emergence by one part in the degrees gained a day; the part that readings settle is taken out, three
    quarters of the variance at most, since lots and depths still differ.
    """
    usual = sheet.emergence.tau.value
    end = min(int(np.median(median)), gathered.shape[1] - 1)
    if ground.soil_offset is None or end <= start:
        return usual
    gained = float((gathered[:, end] - gathered[:, start]).mean()) / (end - start)
    before, after = ground.soil_offset.mean_sd_c(start, end)
    settled = (before**2 - after**2) / max(gained, 1.0) ** 2
    return float(np.sqrt(max(usual**2 - settled, (usual / 2.0) ** 2)))


def _mean_until(running: Floats, start: int, end: Ints) -> Floats:
    """Mean, from a start column to each row's own end, of what the running totals add up, [year]."""
    last = np.minimum(end, running.shape[-1] - 1)
    before = running[:, start - 1] if start > 0 else 0.0
    rows = np.arange(running.shape[0])
    return np.asarray((running[rows, last] - before) / (last - start + 1))
