"""One planting run through all the years: emergence, growth, flowering, ready, and what may take it first."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import Literal

import numpy as np

from spadework.clock import fate
from spadework.clock.bolting import bolted_share
from spadework.clock.ground import Ground
from spadework.clock.normal import log_normal_share
from spadework.clock.sprout import Sowing, Sprout, sprout
from spadework.clock.tables import day_length_factor, trapezoid_table
from spadework.crops.sheet import Sheet
from spadework.science import development, growth
from spadework.types import Floats, Ints

Start = Literal["sown", "set-out"]

RAISED_PACE = 0.5
"""Share of a best day that plants raised under cover gain in a day from sowing, in leaves and height: cool
nights, and the days to emergence. Source: memory."""

_LEAST_ALIVE = 1e-9

TENDER_DAYS = 14
"""Days after setting out in which cold wind checks a plant [d]. Source: common-practice."""


@dataclass(frozen=True, eq=False)
class Course:
    """What becomes of one planting, arrays [year, day] on the ground's day axis.

    Shares are chances or shares of plants: the spread of the crop's own parameters is folded into each year.
    Each array is worked out when first asked for and kept, but for those that are a step from another. Where
    the plants were seen to stand on `alive_day`, a column, nothing had taken them by then.
    """

    sheet: Sheet
    ground: Ground
    start: Start
    start_day: int
    sprout: Sprout | None
    site_offset_c: float = 0.0
    alive_day: int | None = None

    # -- growth ------------------------------------------------------------

    @cached_property
    def begin_day(self) -> Ints:
        """Column from which development counts, [year]: median emergence, or setting out plus its check."""
        rows = self.ground.years.tmin_c.shape[0]
        if self.sprout is not None:
            return self.sprout.median_day
        return np.full(rows, self.start_day + round(self._set_out_check), dtype=np.int64)

    @property
    def _set_out_check(self) -> float:
        check = self.sheet.chill.set_out_check_days
        return 0.0 if check is None else check.value

    @cached_property
    def _running(self) -> Floats:
        """Physiological days gained since the first column."""
        section, ground = self.sheet.development, self.ground
        cardinals = (
            section.base_c.value,
            section.optimum_c.value,
            section.shoulder_c.value,
            section.ceiling_c.value,
        )
        lengths = (section.critical_h, section.saturating_h)
        key = (
            "development",
            cardinals,
            section.day_response,
            *(None if v is None else v.value for v in lengths),
        )

        def run() -> Floats:
            rate = trapezoid_table(*cardinals)(ground.air_mean_c, ground.air_half_c)
            rate *= day_length_factor(section.day_response, *lengths, ground.photoperiod_h)
            rate *= development.light_factor(ground.photoperiod_h)
            return np.cumsum(rate, axis=-1)

        return ground.keep(key, run)

    def _running_at(self, day: Ints) -> Floats:
        rows = np.arange(day.size)
        last = self._running.shape[-1] - 1
        return np.where(day > last, np.inf, self._running[rows, np.minimum(day, last)])

    @cached_property
    def head_days(self) -> float:
        """Physiological days a plant has behind it when it is set out; 0 for one that is sown in place."""
        section = self.sheet.development
        if self.start == "sown" or section.set_out_days is None:
            return 0.0
        return section.ready_days.value - section.set_out_days.value

    @cached_property
    def grown_days(self) -> Floats:
        """Physiological days since emergence; negative before it, or before the plant was set out."""
        gained = self._running - self._running_at(self.begin_day)[:, None]
        if self.start == "sown":
            return gained
        gained = np.maximum(gained, 0.0) + self.head_days
        gained[:, : self.start_day] = -1.0
        return gained

    @cached_property
    def ready_days(self) -> float:
        """Physiological days needed from the beginning to ready."""
        return self.sheet.development.ready_days.value - self.head_days

    @property
    def way(self) -> Floats:
        """Share of the way from emergence to ready at the crop's median pace; negative as `grown_days`."""
        return self.grown_days / self.sheet.development.ready_days.value

    @cached_property
    def log_sd(self) -> Floats:
        """Spread of the way's logarithm, [year, 1]: the requirement's own and that of emergence."""
        own = self.sheet.development.cv.value
        if self.sprout is None:
            return np.full((self._running.shape[0], 1), own)
        quick, slow = self._running_at(self.sprout.quick_day), self._running_at(self.sprout.slow_day)
        with np.errstate(invalid="ignore"):
            shift = np.nan_to_num(slow - quick, nan=0.0, posinf=0.0) / 2.0 / self.ready_days
        return np.hypot(own, shift)[:, None]

    @cached_property
    def emerged(self) -> Floats:
        """Share of the seed sown that is up; 1 from the day of setting out for plants."""
        if self.sprout is not None:
            return self.sprout.share_up
        up = np.zeros_like(self._running)
        up[:, self.start_day :] = 1.0
        return up

    @cached_property
    def _raised_days(self) -> float:
        """Physiological days of leaves and height at setting out: at most what its weeks allow."""
        weeks = self.sheet.sowing.weeks_to_set_out
        return self.head_days if weeks is None else min(self.head_days, RAISED_PACE * 7.0 * weeks.value)

    @property
    def leaves(self) -> Floats:
        """True leaves of the median plant. Class memory; a count overrides it."""
        section, grown = self.sheet.growth, self.grown_days
        if self.start == "set-out":
            grown = np.where(grown < 0.0, grown, grown - self.head_days + self._raised_days)
        return growth.leaf_number(
            grown, section.leaf_days.value, section.first_leaves.value, section.leaves_max.value
        )

    @property
    def height_cm(self) -> Floats:
        """Height of the median plant [cm]. Class memory."""
        way = self.way
        if self.start == "set-out":
            at_first = self._raised_days / self.sheet.development.ready_days.value
            since = (self.grown_days - self.head_days) / self.ready_days
            way = np.where(way < 0.0, way, at_first + (1.0 - at_first) * since)
        return growth.height_cm(way, self.sheet.growth.height_cm.value)

    @cached_property
    def stage(self) -> Ints:
        """BBCH principal growth stage of the median plant, 0 to 9."""
        shares = {stage: share.value for stage, share in self.sheet.development.stages.items()}
        return development.stage_of(self.way, shares)

    @cached_property
    def flowering(self) -> Floats:
        """Share of plants in flower or past it; zero for crops picked before they flower."""
        share = self.sheet.development.flower_share
        if share is None:
            return np.zeros_like(self.way)
        return self._reached(share.value * self.sheet.development.ready_days.value)

    @cached_property
    def ready(self) -> Floats:
        """Chance that the crop is ready, were nothing to take it."""
        return self._reached(self.sheet.development.ready_days.value)

    def _reached(self, grown_days: float) -> Floats:
        """Chance to have grown so far; the spread is that of what remains when development begins."""
        remaining = grown_days - self.head_days
        if remaining <= 0.0:
            return np.where(self.grown_days >= 0.0, 1.0, 0.0)
        return log_normal_share(self.grown_days - self.head_days, remaining, self.log_sd)

    # -- loss ------------------------------------------------------------

    @cached_property
    def _outlived(self) -> Floats:
        """Chance that no frost so far has killed uncovered plants, over all that is fixed for a season."""
        ground = self.ground
        # a limit quoted for the shelter thermometer is met there, whatever the leaf does
        leaf_offset_c = ground.leaf_offset_c if self.sheet.frost.measured_at == "leaf" else 0.0
        alive, weights = fate.frost_survival(
            self.sheet,
            ground.years.tmin_c,
            self.way,
            site_offset_c=self.site_offset_c + leaf_offset_c,
            site_sd_c=ground.leaf_sd_c,
            leaf_drop_c=ground.leaf_drop_c,
        )
        # kept without its nodes: one table of years and days, not seven
        return np.tensordot(weights, self._since_seen(alive), axes=1)

    def _since_seen(self, alive: Floats) -> Floats:
        """Chances to be alive, given that the plants were seen to stand on a day."""
        if self.alive_day is None:
            return alive
        day = min(self.alive_day, alive.shape[-1] - 1)
        then = np.maximum(alive[..., day : day + 1], _LEAST_ALIVE)
        return np.minimum(alive / then, 1.0)

    @property
    def lost_frost(self) -> Floats:
        """Chance that frost has killed uncovered plants."""
        return 1.0 - self._outlived

    @cached_property
    def lost_heat(self) -> Floats:
        """Chance that heat has spoiled the crop."""
        return 1.0 - self._since_seen(1.0 - fate.heat_loss(self.sheet, self.ground.years.tmax_c, self.way))

    @cached_property
    def bolted(self) -> Floats:
        """Chance that a plant has run to seed."""
        bolted = bolted_share(self.sheet, self.ground, self.leaves, self.way, self.begin_day)
        return 1.0 - self._since_seen(1.0 - bolted)

    @cached_property
    def checked_days(self) -> Floats:
        """Days of growth lost to cold and to setting out while unready, apart from anything killed."""
        limit, ground = self.sheet.chill.limit_c, self.ground
        lost = np.zeros_like(self.way)
        if limit is not None:
            chilled = ground.keep(
                ("chilled", limit.value),
                lambda: development.chilled_share_of_day(
                    ground.years.tmin_c, ground.years.tmax_c, limit.value
                ),
            )
            begun = np.arange(lost.shape[1]) >= self.begin_day[:, None]
            lost = np.cumsum(np.where(begun & (self.way >= 0.0) & (self.way < 1.0), chilled, 0.0), axis=-1)
        if self.start == "set-out":
            since = np.clip(np.arange(lost.shape[1]) - self.start_day + 1, 0, None)
            lost = lost + np.minimum(since, self._set_out_check)
            if ground.years.wind_m_s is not None:
                blown = development.cold_wind_check(ground.air_mean_c, ground.years.wind_m_s)
                lost = lost + np.cumsum(np.where((since > 0) & (since <= TENDER_DAYS), blown, 0.0), axis=-1)
        return lost

    # -- together ------------------------------------------------------------

    @cached_property
    def picked(self) -> Floats:
        """Chance to have become ready by each day before frost, heat or bolting took it."""
        gain = np.diff(self.ready, axis=-1, prepend=0.0)
        sound = (1.0 - self.lost_heat) * (1.0 - self.bolted)
        return np.cumsum(gain * self._outlived * sound, axis=-1)


def sow(sheet: Sheet, ground: Ground, sowing: Sowing, *, site_offset_c: float = 0.0) -> Course:
    """Course of a crop sown where it is to grow."""
    return Course(sheet, ground, "sown", sowing.day, sprout(sheet, ground, sowing), site_offset_c)


def set_out(sheet: Sheet, ground: Ground, day: int, *, site_offset_c: float = 0.0) -> Course:
    """Course of a crop set out as plants."""
    return Course(sheet, ground, "set-out", day, None, site_offset_c)
