"""What takes a planting before it is ready: frost, heat, and running to seed."""

from __future__ import annotations

import numpy as np

from spadework.clock.normal import equal_shares, hermite, log_normal_share, normal_share
from spadework.crops.sheet import Sheet
from spadework.science import frost
from spadework.types import Floats

YOUNG_UNTIL = 0.25
"""Share of the way to ready up to which a plant counts as young for frost. Source: memory."""

SMOOTH_NODES, STEEP_NODES = 3, 7
"""Nodes for what is fixed all season, the bed's own offset and the variety's own hardiness: few where a
night's own spread smooths it, more where the season's part is the wider. Computed: against 99 nodes the odds
of being picked at a continental site differ by less than 0.01 for every sheet
(tests/unit/clock/test_fate.py)."""

RANGE_SDS = 1.645
"""Half of a sheet's range of killing temperatures in standard deviations: varieties and sources are taken to
span the middle nine tenths. Source: memory."""

_FAR_SDS = 4.0
"""Nights this many spreads above the killing temperature are not looked at. Computed: 3 in 100,000."""

SHELTER_READING_SD_C = 0.5
"""Night-to-night noise [degC] where a killing temperature is quoted for the shelter thermometer. memory."""

HEAT_LOG_SD = 0.35
"""Spread of the heat dose that spoils a crop, in logarithms. Source: memory."""


def frost_survival(
    sheet: Sheet,
    tmin_c: Floats,
    way: Floats,
    *,
    site_offset_c: float = 0.0,
    site_sd_c: float = frost.BETWEEN_SITES_SD_C,
    leaf_drop_c: Floats | None = None,
    site_nodes: int | None = None,
) -> tuple[Floats, Floats]:
    """Chance that uncovered plants still live after each night, given what is fixed for the season.

    Parameters
    ----------
    sheet : Sheet
        Crop; its killing temperatures, and where they were measured.
    tmin_c : array, shape (year, day)  [degC]
        Night minimum at shelter height.
    way : array, shape (year, day)
        Share of the way from emergence to ready; negative before emergence (nothing to kill).
    site_offset_c : float  [degC]
        Known offset of this bed's leaf surface from the usual one.
    site_sd_c : float  [degC]
        What is not known of it.
    leaf_drop_c : array, shape (year, day), or None  [degC]
        Mean of each night's leaf surface less the shelter minimum; NaN, or None for all, takes the usual one.
    site_nodes : int or None
        Nodes for the season-long part of the spread; None takes as many as the spreads ask for.

    Returns
    -------
    alive : array, shape (node, year, day)
        Chance to have lived through all nights so far.
    weights : array, shape (node,)
        Weights of the nodes, summing to 1.

    Notes
    -----
    Nights are independent given the season-long part (bed offset, sd 1.28 degC, and the sheet's spread of
    hardiness): measured on infrared grass surface (USCRN), not on leaves at 30 cm. Plants are taken as
    uncovered and hardened to the season; repeated light frosts add up only as chances.

    A sheet's range of killing temperatures is read as the middle nine tenths of varieties. The spread is the
    same on both sides: where it is wide, a few plants die in milder frosts than any source names.
    """
    kill, young = sheet.frost.kill_c, sheet.frost.young_kill_c
    spread_c = (
        0.3 if kill.low is None or kill.high is None else max((kill.high - kill.low) / 2.0 / RANGE_SDS, 0.3)
    )
    threshold = np.where(way < YOUNG_UNTIL, young.value, kill.value)
    on_leaf = sheet.frost.measured_at == "leaf"
    fixed_sd = float(np.hypot(site_sd_c, spread_c)) if on_leaf else spread_c
    night_sd = frost.WITHIN_SITE_SD_C if on_leaf else SHELTER_READING_SD_C
    mean_drop: float | Floats = frost.SURFACE_OFFSET_C if on_leaf else 0.0
    if on_leaf and leaf_drop_c is not None:
        mean_drop = np.where(np.isnan(leaf_drop_c), frost.SURFACE_OFFSET_C, leaf_drop_c)
    if site_nodes is not None:
        deviates, weights = equal_shares(site_nodes)
    else:
        deviates, weights = hermite(SMOOTH_NODES) if fixed_sd <= night_sd else equal_shares(STEEP_NODES)
    alive = np.ones((weights.size, *tmin_c.shape))
    margin = tmin_c + mean_drop + site_offset_c - threshold
    far = _FAR_SDS * float(np.hypot(fixed_sd, night_sd))
    standing = way >= 0.0
    # nothing outlives a night this far below: the winter behind it need not be worked out
    deadly = np.logical_or.accumulate((margin < -far - np.abs(deviates).max() * fixed_sd) & standing, axis=-1)
    before = ~deadly
    before[:, 1:] |= ~deadly[:, :-1]
    nights = np.flatnonzero((margin < far) & standing & before)
    alive[:, deadly] = 0.0
    if nights.size:
        at_risk = margin.ravel()[nights] + deviates[:, None] * fixed_sd
        alive.reshape(weights.size, -1)[:, nights] = normal_share(at_risk / night_sd)
        np.cumprod(alive, axis=-1, out=alive)
    return alive, weights


def heat_loss(sheet: Sheet, tmax_c: Floats, way: Floats) -> Floats:
    """Chance that heat has spoiled the crop by each day, arrays [year, day].

    Parameters
    ----------
    sheet : Sheet
        Its heat limit, dose, and whether it is grown for fruit that must set.
    tmax_c, way : array, shape (year, day)
        Daily maximum [degC]; share of the way to ready, negative before emergence.

    Notes
    -----
    Degrees above the limit are summed from the sheet's own share of the way on: heat before flowering does
    not stop fruit setting. The dose and its spread are memory. Zero for crops that no heat here spoils.
    """
    limit, dose, since = sheet.heat.limit_c, sheet.heat.dose_cday, sheet.heat.from_share
    if limit is None or dose is None:
        return np.zeros_like(tmax_c)
    first = 0.0 if since is None else since.value
    excess = np.maximum(tmax_c - limit.value, 0.0)
    excess *= way >= first
    return log_normal_share(np.cumsum(excess, axis=-1), dose.value, HEAT_LOG_SD)
