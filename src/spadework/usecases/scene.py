"""The scene of a day: everything that stands, run through the years, for the jobs to look at.

A course is computed once for a planting on a day of data and kept by what it is computed from, so that a
second question, or one after an entry, computes only what changed.
"""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Callable, Hashable
from dataclasses import replace
from datetime import date, timedelta
from functools import cached_property
from typing import Any, Final

import numpy as np

from spadework.advice.job import AHEAD_DAYS
from spadework.advice.moving import days_put_back
from spadework.advice.pace_log import learn_pace
from spadework.advice.ready_odds import usual_way
from spadework.advice.scene import Plot, Scene
from spadework.advice.worth import worth_of
from spadework.clock.bed_ground import Grown
from spadework.clock.bed_water import BedWater
from spadework.clock.course import Course, set_out, sow
from spadework.clock.cover import FLEECE, TUNNEL, indoors, under_cover
from spadework.clock.garden_water import crop_water, garden_water
from spadework.clock.ground import SPIN_UP_DAYS, Ground, from_column
from spadework.clock.seen_course import Sightings, with_seen
from spadework.clock.sprout import Sowing
from spadework.crops.sheet import Sheet
from spadework.errors import RecordError, UnknownName
from spadework.garden.planting import Planting
from spadework.garden.state import Garden
from spadework.garden.told import ForecastDay, SoilWarmth
from spadework.types import Floats
from spadework.usecases.crop_words import crop_word
from spadework.usecases.setting import Setting, column_of

BACK_DAYS: Final = 400
"""A planting that began earlier is run from the start of this season instead: it stands for years."""

FORWARD_DAYS: Final = 260
"""Days after today a course is followed: what takes longer to be ready is another season's."""

WATCHED_DAYS: Final = 100
"""Days after today for which insects are watched at most."""

ANEW_AT: Final = (0, 10, 21)
"""Days from today on which starting anew is run; those between are on a line between them."""

BOUGHT_SHARE: Final = 0.8
"""Share of its worth left to a planting started anew from bought plants: they cost, and are not always to be
had. Our own rule."""

COVER_AHEAD_DAYS: Final = 7
"""A cover that lies now is taken to lie this much longer. Our own rule."""

COUNTED: Final = ("counted", "counted in a stretch")
"""What a number of plants goes back to, where more may still come up."""

KEPT_SCENES: Final = 2
"""Now, and as it was before the last act or on the day somebody asks about beside it."""

SPARE_COURSES: Final = 40
"""Courses kept beyond those of all that stands, for acts that are taken back."""

_COURSES: OrderedDict[Hashable, tuple[Course, int]] = OrderedDict()
_SCENES: OrderedDict[Hashable, Scene] = OrderedDict()


def build_scene(setting: Setting, garden: Garden) -> Scene:
    """Everything that stands today, run through the years.

    Parameters
    ----------
    setting : Setting
    garden : Garden
        Folded from the book as of `setting.today`.

    Raises
    ------
    RecordError
        If there is neither a record nor normals to run years from.
    """
    digest = setting.folder.digest(setting.told)
    key = (str(setting.folder.path.resolve()), digest, setting.today, _book_of(garden))
    found: Scene = _kept(_SCENES, key, KEPT_SCENES, lambda: _Builder(setting, garden, digest).scene())
    return found


def _book_of(garden: Garden) -> Hashable:
    """What tells one state of the book from another."""
    last = garden.entries[-1].key if garden.entries else ""
    return (len(garden.keys), last, max(garden.keys, default=""), len(garden.undone))


def _kept(kept: OrderedDict[Hashable, Any], key: Hashable, most: int, make: Callable[[], Any]) -> Any:
    found = kept.get(key)
    if found is None:
        found = kept[key] = make()
        while len(kept) > most:
            kept.popitem(last=False)
    kept.move_to_end(key)
    return found


class _Builder:
    """Builds one scene; grounds are shared by all plantings that feel the same air."""

    def __init__(self, setting: Setting, garden: Garden, digest: str) -> None:
        self.setting, self.garden, self.digest = setting, garden, digest
        self.today = setting.today
        self.standing = garden.standing(self.today)
        self._sheets: dict[tuple[str, str, str], Sheet] = {}
        self._grounds: dict[Hashable, Ground] = {}
        self._whole: Ground | None = None

    def scene(self) -> Scene:
        anew: dict[Hashable, Floats] = {}

        def start_anew(sheet: Sheet) -> Floats:
            key = (sheet.key, sheet.variety, sheet.method)
            if key not in anew:
                anew[key] = self._start_anew(sheet)
            return anew[key]

        words = self.setting.site.words
        plots = tuple(plot for planting in self.standing if (plot := self._plot(planting)) is not None)
        return Scene(
            garden=self.garden,
            site=self.setting.site,
            today=self.today,
            ground=self.ground,
            column=column_of(self.ground, self.today),
            plots=plots,
            sheet_of=lambda crop: self._sheet(crop),
            name_of=lambda crop: crop_word(crop, words, many=True),
            forecast_days=self._forecast_days(),
            pace=learn_pace(self.garden),
            water_of=self._water_of(plots),
            start_anew=start_anew,
            ground_since_midwinter=self._since_midwinter,
        )

    def _since_midwinter(self) -> Ground:
        """The usual ground from before midwinter on; itself where what stands needs it so long anyway."""
        if self.start <= self._season_start:
            return self.ground
        if self._whole is None:
            days = (self.today - self._season_start).days + WATCHED_DAYS
            self._whole = self._ground_from(self._season_start, days, "")
        return self._whole

    def _water_of(self, plots: tuple[Plot, ...]) -> Callable[[str], BedWater | None]:
        """Each bed's water, worked out for all beds together when first asked for."""
        found: dict[str, BedWater] | None = None

        def water_of(bed: str) -> BedWater | None:
            nonlocal found
            if found is None:
                grown: dict[str, list[Grown]] = {}
                for plot in plots:
                    if not plot.indoors:
                        area = plot.planting.area_m2 or 1.0
                        own = Grown(way=plot.course.way, water=crop_water(plot.sheet), area_m2=area)
                        grown.setdefault(plot.bed_key, []).append(own)
                column = column_of(self.ground, self.today)
                found = garden_water(self.garden, self.ground, column, grown, ahead_days=AHEAD_DAYS + 1)
            return found.get(bed)

        return water_of

    # -- weather -------------------------------------------------------------------------------------

    @cached_property
    def start(self) -> date:
        """First day anything that stands needs: the earliest start within reach."""
        back = self.today - timedelta(days=BACK_DAYS)
        starts = [self._started(planting) for planting in self.standing]
        return max(min([*starts, self.today]), back)

    @cached_property
    def ground(self) -> Ground:
        """The garden's usual ground."""
        return self._ground("")

    def _ground(self, bed: str) -> Ground:
        return self._ground_from(self.start, (self.today - self.start).days + FORWARD_DAYS, bed)

    def _ground_from(self, start: date, days: int, bed: str) -> Ground:
        try:
            ground, _ = self.setting.ground(start, days, bed=bed)
        except RecordError:
            # without this season's weather past years stand in for it
            ground, _ = self.setting.ground(start, days, bed=bed, need_seen=False)
        return ground

    def _ground_of(self, planting: Planting) -> tuple[Ground, Hashable]:
        """The ground as a planting feels it, indoors, in a tunnel or under a cover; and its name."""
        bed = self.garden.beds.get(planting.bed)
        own = planting.bed if planting.bed in self._told_beds else ""
        base = self._grounds.get(own)
        if base is None:
            base = self._grounds[own] = self.ground if not own else self._ground(own)
        name: tuple[Hashable, ...] = (own,)
        around = "" if bed is None else bed.shape
        if bed is not None and bed.inside:
            holder = self.garden.beds.get(bed.inside)
            around = holder.shape if holder is not None else around
        if around == "shelf" or not planting.bed:
            return self._shared((*name, "indoors"), lambda: indoors(base))
        if around in ("tunnel", "frame"):
            return self._shared((*name, "tunnel"), lambda: under_cover(base, TUNNEL, 0, base.dates.size))
        fleece = [
            placed
            for placed in self.garden.covers(planting=planting.key)
            if not placed.opened and self.garden.kit[placed.item].sort in ("fleece", "film")
        ]
        if not fleece:
            return base, name
        since = min(placed.since for placed in fleece)
        first = max(column_of(base, since), 0)
        length = column_of(base, self.today) - first + COVER_AHEAD_DAYS
        return self._shared((*name, "fleece", first), lambda: under_cover(base, FLEECE, first, length))

    def _shared(self, name: Hashable, make: Callable[[], Ground]) -> tuple[Ground, Hashable]:
        if name not in self._grounds:
            self._grounds[name] = make()
        return self._grounds[name], name

    @cached_property
    def _told_beds(self) -> frozenset[str]:
        """Beds with a ground of their own: their soil was read, or their events taught something."""
        read = {e.fact.bed for e in self.setting.told if isinstance(e.fact, SoilWarmth) and e.fact.bed}
        return frozenset(read | {bed for bed in self.garden.beds if self.setting.bed_offset_c(bed)})

    def _forecast_days(self) -> int:
        days = {e.fact.day for e in self.setting.told if isinstance(e.fact, ForecastDay)}
        ahead = 0
        while self.today + timedelta(days=ahead + 1) in days:
            ahead += 1
        return ahead

    # -- plantings -----------------------------------------------------------------------------------

    def _sheet(self, crop: str, variety: str = "", bed: str = "") -> Sheet:
        key = (crop, variety, bed)
        if key not in self._sheets:
            self._sheets[key] = self.setting.sheet(crop, variety=variety, bed=bed)
        return self._sheets[key]

    def _started(self, planting: Planting) -> date:
        """The day its course begins: sown or set out, or this season's start where it stands for years."""
        begun = planting.grows_since
        if (self.today - begun).days <= BACK_DAYS and not self._lasting(planting):
            return begun
        return self._season_start if begun < self._season_start else begun

    def _lasting(self, planting: Planting) -> bool:
        try:
            return self._sheet(planting.crop, planting.variety).harvest.first_year is not None
        except UnknownName:
            return False

    @cached_property
    def _season_start(self) -> date:
        """Midwinter before today."""
        month = 7 if self.setting.site.south else 1
        start = date(self.today.year, month, 1)
        return start if start <= self.today else date(self.today.year - 1, month, 1)

    def _plot(self, planting: Planting) -> Plot | None:
        try:
            sheet = self._sheet(planting.crop, planting.variety, planting.bed)
        except UnknownName:
            return None  # a crop without a sheet has no clock
        bed = self.garden.beds.get(planting.bed)
        course, column = self._course(sheet, planting)
        expected = planting.plants.expected(
            None if course.sprout is None else float(course.sprout.able.mean())
        )
        if expected is not None and planting.plants.basis in COUNTED:
            expected = self._still_coming(expected, planting, course, column)
        return Plot(
            planting=planting,
            sheet=sheet,
            course=course,
            column=column,
            bed=bed,
            plants=expected,
            worth=worth_of(sheet, planting, bed),
            locks=self.garden.locks_on(self.today, planting=planting.key),
            covers=self.garden.covers(planting=planting.key),
            indoors=bed is None or bed.shape == "shelf",
            name=crop_word(planting.crop, self.setting.site.words, many=True),
        )

    def _still_coming(self, counted: float, planting: Planting, course: Course, column: int) -> float:
        """Plants that stand by now, of a row counted before all of it was up."""
        on, seeds = planting.plants.on, planting.seeds
        if on is None or course.sprout is None or not seeds or not planting.bed or planting.tray:
            return counted
        then = float(course.emerged[:, max(column_of(course.ground, on), 0)].mean())
        now = float(course.emerged[:, column].mean())
        full = float(course.sprout.able.mean()) * seeds - planting.plants.taken
        return max(min(counted * now / max(then, 1e-6), full), counted)

    def _course(self, sheet: Sheet, planting: Planting) -> tuple[Course, int]:
        ground, name = self._ground_of(planting)
        begun = self._started(planting)
        start = max(column_of(ground, begun), 0)
        out = planting.set_out_on
        lot = self.garden.tin.get(planting.lot)
        tested = None if lot is None or lot.germination is None else lot.germination.share
        lost = days_put_back(sheet, planting.moved_on, begun)
        start, seen = start + lost, self._seen(planting, ground, lost)
        # the digest stands for the weather, what was told, and the garden's own numbers of a crop
        which = (planting.crop, planting.variety, planting.bed)
        key = (self.digest, self.today, self.start, name, which, planting.depth_mm, tested, start, out, seen)

        def run() -> tuple[Course, int]:
            lasting = self._lasting(planting) and begun == self._season_start
            if lasting or (out is not None and out >= begun):
                whole = sheet if not lasting else _from_spring(sheet)
                column = start if lasting or out is None else max(column_of(ground, out), 0) + lost
                course = set_out(whole, ground, column)
            else:
                course = sow(sheet, ground, Sowing(start, planting.depth_mm, tested))
            return with_seen(course, seen), column_of(ground, self.today)

        found: tuple[Course, int] = _kept(_COURSES, key, len(self.standing) + SPARE_COURSES, run)
        return found

    def _seen(self, planting: Planting, ground: Ground, lost: int) -> Sightings:
        def column(day: date | None) -> int | None:
            if day is None or day < self._started(planting):
                return None
            found = column_of(ground, day)
            return found if found >= 0 else None

        stages, not_yet = planting.stages, planting.not_yet
        up = column(stages.get("up"))
        if up is not None and lost:
            # what stood still after a move is as far as what came up so much later
            up = max(min(up + lost, column_of(ground, self.today)), up)
        return Sightings(
            up=up,
            not_up=column(not_yet.get("up")),
            not_ready=column(not_yet.get("ready")),
            flower=column(stages.get("first flower")),
            ready=column(stages.get("ready") or planting.first_picked_on),
            alive=column(max((entry.happened_on for entry in planting.history), default=None)),
            measured=column(planting.last.get("measured")),
            leaves=planting.leaves,
            height_cm=planting.height_cm,
        )

    # -- starting anew -------------------------------------------------------------------------------

    @cached_property
    def _coming(self) -> Ground:
        """The ground from a spin-up before today on: what is started now needs no more."""
        column = column_of(self.ground, self.today)
        return from_column(self.ground, max(column - SPIN_UP_DAYS, 0))

    def _start_anew(self, sheet: Sheet) -> Floats:
        """Share of a full crop still to be had by starting it anew on each of the coming days."""
        ground, way = self._coming, usual_way(sheet)
        column = column_of(ground, self.today)
        shares = []
        for days in ANEW_AT:
            if way == "sown":
                course, share = sow(sheet, ground, Sowing(column + days)), 1.0
            else:
                course, share = set_out(sheet, ground, column + days), BOUGHT_SHARE
            shares.append(course.picked[:, -1] * share)
        return _between(np.stack(shares, axis=-1))


def _between(shares: Floats) -> Floats:
    """From the days of `ANEW_AT` to every day, [year, AHEAD_DAYS + 1]."""
    days = np.arange(AHEAD_DAYS + 1, dtype=np.float64)
    at = np.asarray(ANEW_AT, dtype=np.float64)
    above = np.clip(np.searchsorted(at, days, side="right"), 1, at.size - 1)
    part = (days - at[above - 1]) / (at[above] - at[above - 1])
    found: Floats = shares[:, above - 1] * (1.0 - part) + shares[:, above] * part
    return found


def _from_spring(sheet: Sheet) -> Sheet:
    """A plant that stands for years begins anew each spring, with nothing behind it."""
    section = sheet.development
    return replace(
        sheet,
        development=replace(section, set_out_days=None),
        chill=replace(sheet.chill, set_out_check_days=None),
    )
