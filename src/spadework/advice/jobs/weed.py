"""Weed: at the white thread with a hoe on a drying day; later by hand, and dearly."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta
from typing import Final, Literal, TypeAlias

import numpy as np

from spadework.advice.conditions import under_roof
from spadework.advice.job import AHEAD_DAYS, Condition, Job, Take
from spadework.advice.odds import Fact
from spadework.advice.pace import RATES
from spadework.advice.scene import Plot, Scene
from spadework.advice.seedbed import net_of_giving_up
from spadework.advice.waiting import never_falling, window_of
from spadework.crops.sheet import Sheet
from spadework.crops.weed import Weed, weeds_in
from spadework.garden.entries import Seen, Tended
from spadework.garden.records import Bed
from spadework.science import weeds
from spadework.types import Floats

MOST_LOST: Final = 0.6
MOST_LOST_THIN_LEAVED: Final = 0.9
"""Lost where weeds stand all through: of most crops, and of those whose leaves never shade the ground.
Source: memory, as in science.weeds."""

THIN_LEAVED: Final = ("Amaryllidaceae", "Apiaceae")

MULCHED: Final = 0.2
"""Weeds through a mulch over those of bare soil. Source: common-practice."""

SHED_CDAY: Final = (500.0, 800.0)
SHED_LOSS: Final = 0.1
"""Warmth since clearing between which weeds begin to shed seed, and what that costs of this ground's worth in
later years. Source: memory; one year's seeding is several years' weeding."""

EMPTY_WORTH_M2: Final = 1.0
"""Worth of a square metre that stands empty or nearly so, for what is still to grow there, in kilograms of
carrots. Our own rule: a third of a usual harvest."""

BARE_DAYS: Final = 30
"""A bed nobody is known to have cleared is taken to have been cleared so long ago. Our own rule."""

SEEN_DAYS: Final = 30
"""A weed told of longer ago is taken to be gone. Our own rule."""

HOST_FACTOR: Final = 1.5
"""What weeds cost that carry the crop's own pests and diseases, over others. Source: memory."""

FALLOW_FULL: Final = 0.6
"""Fullness of the soil below the bare top where nothing grows. Source: memory."""

RAINY_MM: Final = 1.0
"""Rain from which hoed weeds take root again. Our own rule."""

SURVIVES_WEEKS: Final = 1.0
"""A hoed weed that takes root again stands this much longer. Our own rule."""

LARGE_CDAY: Final = (300.0, 600.0)
"""Warmth between which large weeds become such that each is dug out. Source: memory."""

COMPETES_CDAY: Final = (140.0, 600.0)
COMPETES: Final = (0.1, 1.0)
"""Warmth at two leaves and when weeds are as tall as the crop, and what they take from it then over what
full-grown weeds take. Source: memory; seedlings take hardly anything."""

HOE_DIES: Final = 0.6
"""Share of hoed weeds that die from which those at two leaves are hoed rather than pulled. Our own rule."""

HOE_SLOWER: Final = 2.0
"""Time to hoe weeds at two leaves over those at the white thread. Source: memory."""

IN_ROW: Final = 1.0 / 3.0
"""Share of a bed's ground too near its plants to be hoed once weeds have leaves. Source: common-practice: a
hand's breadth of rows a foot apart."""

SAID_MIN: Final = 2.0
"""Minutes more after a week of waiting from which that is said. Our own rule."""

LEAST_M2: Final = 0.1
"""Ground left of a tunnel or frame beside the beds it holds, at the least. Our own rule."""

SOON_DAYS: Final = 3
"""Weeding that opens later is not spoken of yet. Our own rule."""


def jobs(scene: Scene) -> Iterator[Job]:
    """Beds to be weeded, one job for each; one that holds others is weeded bed by bed."""
    held: dict[str, float] = {}
    for bed in scene.beds.values():
        if bed.inside and bed.gone_on is None:
            held[bed.inside] = held.get(bed.inside, 0.0) + (bed.area_m2 or 0.0)
    for bed in scene.beds.values():
        if bed.area_m2 is None or bed.gone_on is not None or bed.shape == "shelf":
            continue
        if bed.key in held and not scene.in_bed(bed.key):
            continue
        job = _weed(scene, bed, max(bed.area_m2 - held.get(bed.key, 0.0), LEAST_M2))
        if job is not None:
            yield job


def cleared_on(scene: Scene, bed: Bed) -> date:
    """Day the bed was last free of weeds: weeded, hoed, mulched, or made ready for a sowing.

    What was done to all of the tunnel or frame it lies in was done to it.
    """
    begun = [
        plot.planting.stays[-1].since if plot.planting.stays else plot.planting.started_on
        for plot in scene.in_bed(bed.key)
    ]
    places = (bed.key, bed.inside) if bed.inside else (bed.key,)
    done = [scene.garden.last_done("weeded", "hoed", "mulched", bed=place) for place in places]
    known = [day for day in (*begun, *done) if day is not None]
    return max(known, default=scene.today - timedelta(days=BARE_DAYS))


def flush(scene: Scene, bed: Bed) -> Floats:
    """Warmth the weeds of a bed have had by each of the coming days, [year, AHEAD_DAYS + 1]."""
    ground, column = scene.ground, scene.column
    since = max(column - (scene.today - cleared_on(scene, bed)).days, 0)
    until = min(column + AHEAD_DAYS + 1, ground.dates.size)
    span = slice(since, until)
    water = scene.water_of(bed.key)
    below: Floats | float = FALLOW_FULL
    if water is not None:
        full = 1.0 - water.depletion_mm[:, span] / np.maximum(water.available_mm[:, span], 1e-6)
        below = np.clip(np.nan_to_num(full, nan=FALLOW_FULL), 0.0, 1.0)
    # weed seed comes up from the top 5 cm: halfway between the bare top and what the roots have
    damp = (ground.seedbed_wet_share[:, span] + below) / 2.0
    warmth = weeds.flush_warmth_cday(ground.soil_mean_c[:, span], damp)
    days = np.minimum(column - since + np.arange(AHEAD_DAYS + 1), warmth.shape[1] - 1)
    return warmth[:, days]


def most_lost(sheet: Sheet) -> float:
    """Share of a crop lost where it is never weeded."""
    return MOST_LOST_THIN_LEAVED if sheet.family in THIN_LEAVED else MOST_LOST


def _crop_loss(scene: Scene, plot: Plot, standing: Floats, die: Floats, crowd: float, host: bool) -> Floats:
    """Share of one planting lost if its bed is first weeded on a day, [year, day]."""
    section = plot.sheet.weeds
    free = section.free_weeks.value
    spared = 0.0 if section.stand_weeks is None else min(section.stand_weeks.value, 0.9 * free)
    days = np.arange(AHEAD_DAYS + 1)
    age_weeks = (plot.column + days[None, :] - plot.course.begin_day[:, None]) / 7.0
    # weeds beside the crop before the spared weeks are over cost nothing if they then go
    critical = (age_weeks >= spared) & (age_weeks <= free)
    weedy = np.cumsum(standing * critical, axis=-1) / 7.0
    weeks = np.concatenate([np.zeros((weedy.shape[0], 1)), weedy[:, :-1]], axis=1)
    # what takes root again stands on
    weeks = weeks + (1.0 - die) * standing * critical * SURVIVES_WEEKS
    most = most_lost(plot.sheet) * crowd
    lost = weeds.weedy_loss_share(weeks + spared, free, most, spared)
    if host:
        lost = np.minimum(lost * HOST_FACTOR, 1.0)
    return net_of_giving_up(scene, plot, lost)


def _hosts(bed: Bed, today: date) -> tuple[Weed, ...]:
    """Weeds told of in a bed lately, that keep a crop's troubles going."""
    found: dict[str, Weed] = {}
    for entry in bed.history:
        if isinstance(entry.act, Seen) and (today - entry.happened_on).days <= SEEN_DAYS:
            found |= {weed.key: weed for weed in weeds_in(entry.act.what) if weed.kept_for}
    return tuple(found.values())


def _keeps_for(weed: Weed, family: str) -> tuple[str, ...]:
    """Troubles a weed keeps going for crops of a family."""
    return tuple(each for kept in weed.kept_for if family in kept.families for each in kept.troubles)


def _as_small(area_m2: float, heat: float, crowd: float) -> float:
    """Ground with small weeds that takes as long to weed by hand [m2]."""
    small, large = RATES["weed small"].minutes, RATES["weed large"].minutes
    by_law = float(weeds.weeding_minutes(area_m2, heat, crowd))
    # beyond what the law of small weeds covers, towards what a time study gives for large ones
    grown = float(np.interp(heat, LARGE_CDAY, (0.0, 1.0)))
    return (by_law + grown * max(large * area_m2 * crowd - by_law, 0.0)) / small


Way: TypeAlias = Literal["hoe", "hoe and pull", "pull"]


def _way(stage: int, dies: float) -> Way:
    """How weeds at a stage are got rid of, where so great a share of what is hoed dies."""
    if stage <= 1:
        return "hoe"
    return "hoe and pull" if stage == 2 and dies >= HOE_DIES else "pull"


def _minutes(scene: Scene, way: Way, area_m2: float, heat: float, crowd: float, planted: bool) -> float:
    """Minutes for a bed at a way and a warmth of its weeds, at this garden's pace."""
    if way == "hoe":
        return scene.pace.minutes("weed thread", area_m2)
    if way == "pull":
        return scene.pace.minutes("weed small", _as_small(area_m2, heat, crowd))
    by_hand = IN_ROW * area_m2 if planted else 0.0
    hoed = scene.pace.minutes("weed thread", HOE_SLOWER * (area_m2 - by_hand))
    if not by_hand:
        return hoed
    # no second settling down
    start = min(scene.pace.minutes(work, 0.0) for work in ("weed thread", "weed small"))
    pulled = scene.pace.minutes("weed small", _as_small(by_hand, heat, crowd))
    return hoed + pulled - start


def _weed(scene: Scene, bed: Bed, area_m2: float) -> Job | None:
    plots = scene.in_bed(bed.key)
    warmth = flush(scene, bed)
    stage = weeds.flush_stage(warmth)
    may = stage >= 1
    if not float(np.median(may[:, min(SOON_DAYS, AHEAD_DAYS)])):
        return None
    crowd = MULCHED if bed.mulch else 1.0
    ground, column = scene.ground, scene.column
    columns = np.minimum(column + np.arange(AHEAD_DAYS + 1), ground.dates.size - 1)
    after = np.minimum(columns + 1, ground.dates.size - 1)
    rain = np.nan_to_num(ground.years.rain_mm)
    falls = np.maximum(rain[:, columns], rain[:, after]) >= RAINY_MM
    wet = np.clip(np.nan_to_num(ground.seedbed_wet_share[:, columns]), 0.0, 1.0)
    if under_roof(scene.garden, bed):
        falls, wet = np.zeros_like(falls), np.zeros_like(wet)
    et0 = np.maximum(np.nan_to_num(ground.et0_mm[:, columns]), 0.0)
    die = weeds.hoed_die_chance(stage, et0, falls, wet)
    size = np.interp(warmth, COMPETES_CDAY, COMPETES) * (stage >= 2)
    standing = weeds.flush_share(warmth) * size
    hosts = _hosts(bed, scene.today)
    total = sum(plot.worth.value for plot in plots)
    worth = max(total, EMPTY_WORTH_M2 * area_m2)
    lost = np.zeros_like(warmth)
    for plot in plots:
        host = any(_keeps_for(weed, plot.sheet.family) for weed in hosts)
        # what shares the bed is given up for a new sowing one by one
        lost += _crop_loss(scene, plot, standing, die, crowd, host) * plot.worth.value / worth
    low, high = SHED_CDAY
    shed = SHED_LOSS * crowd * np.clip((warmth - low) / (high - low), 0.0, 1.0)
    raw = np.minimum(lost + shed, 1.0)
    loss = never_falling(raw)
    now = int(np.median(stage[:, 0]))
    heat = float(np.median(warmth[:, 0]))
    dies = float(die[:, 0].mean())
    way = _way(now, dies)
    minutes = np.array(
        [
            _minutes(scene, _way(int(then), float(dry)), area_m2, float(warm), crowd, bool(plots))
            for then, dry, warm in zip(
                np.median(stage, axis=0), die.mean(axis=0), np.median(warmth, axis=0), strict=True
            )
        ]
    )
    since = (scene.today - cleared_on(scene, bed)).days
    words = {0: "not to be seen yet", 1: "at the white thread", 2: "at two leaves", 3: "large"}[now]
    tenths = round(10 * dies)
    ago = f"{since} day{'' if since == 1 else 's'} after it was last clear"
    if way == "hoe":
        dry = "; a drier day serves better" if tenths < 6 else ""
        tail = f"about {tenths} in 10 hoed today die{dry}."
    elif way == "hoe and pull":
        row = " Pull those in the rows, too near the plants for a hoe." if plots else ""
        tail = f"about {tenths} in 10 hoed today die.{row}"
    elif plots:
        tail = (
            f"they stand beside the crop, and of those hoed today about {tenths} in 10 would die: pull them."
        )
    else:
        tail = f"of those hoed today about {tenths} in 10 would die: pull or fork them out."
    more = minutes[7] - minutes[0]
    if more >= SAID_MIN:
        tail += f" In a week it takes about {minutes[7]:.0f} minutes instead of {max(minutes[0], 1.0):.0f}."
    families = {plot.sheet.family for plot in plots}
    for weed in hosts:
        kept = [each for family in sorted(families) for each in _keeps_for(weed, family)]
        if kept:
            tail += (
                f" {weed.name[:1].upper()}{weed.name[1:]} among them keeps {' and '.join(kept[:2])} going."
            )
    hoe = way != "pull"
    act = {"hoe": f"Hoe {bed.name}", "pull": f"Weed {bed.name} by hand"}.get(
        way, f"Hoe {bed.name} and pull what stands in its rows" if plots else f"Hoe {bed.name}"
    )
    needs: tuple[Condition, ...] = ("daylight", "dry soil surface") if hoe else ("daylight", "soil not wet")
    weeks = min((plot.sheet.weeds.free_weeks for plot in plots), key=lambda each: each.value, default=None)
    return Job(
        id=f"weed-{bed.key}",
        kind="weed",
        act=act,
        bed=bed.key,
        minutes=float(minutes[0]),
        minutes_by_day=minutes,
        worth=worth,
        loss=loss,
        window=window_of(raw, may, scene.today, scene.made),
        reason=f"Its weeds are {words}, {ago}; {tail}",
        facts=(
            Fact(
                name="warmth of damp soil since it was clear",
                value=round(heat),
                unit="degC day",
                law="flush of weeds",
                source="published; Forcella and colleagues (1997)",
            ),
            Fact(
                name="hoed weeds that die today, share",
                value=round(dies, 2),
                law="hoed weeds withering",
                source="common-practice",
            ),
            *(
                ()
                if weeks is None
                else (
                    Fact(
                        name="weeks it must be free of weeds",
                        value=weeks.value,
                        unit="week",
                        source=weeks.receipt,
                    ),
                )
            ),
        ),
        needs=needs,
        strains=("stooping",) if hoe else ("stooping", "kneeling"),
        take=(Take(what="hoe" if hoe else "hand fork and bucket"),),
        test="Scratch the top: white threads are weeds on their way." if way == "hoe" else "",
        done=(Tended(act="hoed" if hoe else "weeded"),),
    )
