"""What the weather asks of everybody: fleece on cold nights, water, weeds, and the readings written down."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta
from typing import Final, Literal

from spadework.garden.entries import (
    Finger,
    Minutes,
    Moved,
    RainGauge,
    SoilFelt,
    Tended,
    ThermometerRead,
    Watered,
)
from spadework.garden.entries import Seen as Noticed
from spadework.usecases.demo.deed import EARLY, EVENING, LATE, MORNING, Deed, somebody
from spadework.usecases.demo.life import Life
from spadework.usecases.demo.luck import Luck
from spadework.usecases.demo.seen import ONE_DAY, Seen

COLD_NIGHT_C: Final = 2.0
"""A night for which the fleece goes on. Class: common-practice."""

_SATURDAY, _SUNDAY, _WEDNESDAY = 5, 6, 2
_JOB: Final = {"weeded": "weeding", "hoed": "hoeing"}
_UNDER_COVER = frozenset({"tunnel-west", "tunnel-east", "frame"})
_DRIPPED = "lake"
_BY_HAND_OR_HOE: Final[tuple[Literal["weeded", "hoed"], ...]] = ("weeded", "hoed", "hoed")
_DRIP_L_MIN = 36 * 2.0 / 60
_HOSE_L_MIN = 9.5


def nights(lives: Sequence[Life], seen: Seen) -> list[Deed]:
    """Fleece over what frost would take: on the evening before a cold night, off when the nights are mild."""
    deeds: list[Deed] = []
    for life in lives:
        if not life.tender or life.in_place is None or life.up is None or life.bed in _UNDER_COVER:
            continue
        since = max(life.up, life.in_place)
        until = min(life.ended or seen.last, life.must_end)
        on = None
        for day in seen.days(since + ONE_DAY, until - ONE_DAY):
            cold = seen.tmin_c(day) < COLD_NIGHT_C
            deadly = seen.tmin_c(day) < -3.0
            luck = Luck(day, life.row.id, "night")
            length_m = round(life.row.length_m, 2)
            if cold and on is None and not deadly:
                on = day - ONE_DAY
                deeds.append(_fleece(life, on, "on", length_m, somebody(luck, on), 19.0))
            elif on is not None and not cold and _mild(seen, day):
                deeds.append(_fleece(life, day, "off", length_m, somebody(luck, day), 9.0))
                on = None
            if (
                cold
                and not life.dead(day)
                and seen.tmin_c(day) < -0.5
                and luck.at("scorched").random() < 0.5
                and on is not None
            ):
                found = Noticed(
                    what="leaf edges scorched by frost under the fleece", sort="damage", parts=("leaf",)
                )
                deeds.append(
                    Deed(
                        on=day,
                        act=found,
                        who=somebody(luck, day),
                        bed=life.bed,
                        planting=life.key,
                        when=EARLY,
                    )
                )
        if on is not None and life.ended is not None and life.ended <= seen.last:
            deeds.append(_fleece(life, life.ended, "off", round(life.row.length_m, 2), "bram", 10.0))
    return deeds


def _mild(seen: Seen, day: date) -> bool:
    """Whether this night and the one before were mild."""
    return min(seen.tmin_c(day), seen.tmin_c(day - ONE_DAY)) >= COLD_NIGHT_C


def _fleece(life: Life, day: date, act: Literal["on", "off"], length_m: float, who: str, hour: float) -> Deed:
    moved = Moved(act=act, item="fleece", length_m=length_m, hour=hour)
    when = LATE if act == "on" else EARLY
    return Deed(on=day, act=moved, who=who, bed=life.bed, planting=life.key, when=when)


def watering(
    beds: Sequence[tuple[str, str, float]], lives: Sequence[Life], seen: Seen, first: date
) -> list[Deed]:
    """Water for beds with something in them, once rain has not made up for what the days took.

    Parameters
    ----------
    beds : sequence of (key, shape, area in m2)
    """
    deeds: list[Deed] = []
    for bed, shape, area_m2 in beds:
        own = [life for life in lives if life.bed == bed]
        dry_mm = 0.0
        enough_mm = 20.0 if shape == "tub" else 38.0 if bed in _UNDER_COVER else 44.0
        for day in seen.days(first, seen.last):
            covered = bed in _UNDER_COVER
            rain_mm = 0.0 if covered else seen.rain_mm(day)
            dry_mm = min(
                60.0, max(0.0, dry_mm + seen.et0_mm(day) * (1.3 if shape == "tub" else 0.8) - rain_mm)
            )
            if not (date(day.year, 4, 25) <= day <= date(day.year, 9, 25)) or dry_mm < enough_mm:
                continue
            luck = Luck(day, bed, "water")
            if (
                not any(life.stands(day) for life in own)
                or seen.rain_mm(day) > 2.0
                or luck.at("waits").random() < 0.35
            ):
                continue
            act = _water(bed, shape, area_m2, luck.at("amount").uniform(0.9, 1.1))
            deeds.append(Deed(on=day, act=act, who=somebody(luck, day), bed=bed, when=EVENING))
            dry_mm = max(0.0, dry_mm - (20.0 if shape == "tub" else 24.0))
    return deeds


def _water(bed: str, shape: str, area_m2: float, factor: float) -> Watered:
    if shape == "tub":
        return Watered(litres=float(round(8 * factor)), hour=18.0)
    wanted_l = 16.0 * area_m2 * factor
    if bed.startswith(_DRIPPED):
        return Watered(minutes=float(5 * round(wanted_l / _DRIP_L_MIN / 5)))
    if bed.startswith("tunnel"):
        return Watered(minutes=float(max(5, round(wanted_l / _HOSE_L_MIN))))
    return Watered(litres=float(10 * round(wanted_l / 10)))


def weeding(beds: Sequence[tuple[str, str, float]], lives: Sequence[Life], seen: Seen) -> list[Deed]:
    """Every bed by hoe or hand every three weeks or so, with the minutes it took."""
    deeds: list[Deed] = []
    for bed, shape, area_m2 in beds:
        if shape in ("tub", "shelf", "tunnel"):
            continue
        own = [life for life in lives if life.bed == bed]
        for year in range(seen.first.year, seen.last.year + 1):
            luck = Luck(year, bed, "weeds")
            due = date(year, 4, 24) + timedelta(days=luck.at("first").randrange(12))
            while due <= date(year, 9, 28):
                day = seen.working_day(due, 4, luck)
                if day is None:
                    break
                due = day + timedelta(days=luck.at("next", day).randrange(32, 46))
                if own and not any(life.stands(day) for life in own):
                    continue
                act: Literal["weeded", "hoed"] = luck.at("how", day).choice(_BY_HAND_OR_HOE)
                who = somebody(luck, day, tmax_c=seen.tmax_c(day))
                deeds.append(Deed(on=day, act=Tended(act=act), who=who, bed=bed))
                if luck.at("timed", day).random() < 0.7:
                    pace = (3.4 if act == "weeded" else 1.7) * (1.0 if who in ("maren", "odo") else 1.5)
                    took = float(max(3, round(area_m2 * pace * luck.at("took", day).uniform(0.8, 1.3))))
                    deeds.append(
                        Deed(on=day, act=Minutes(minutes=took, job=_JOB[act]), who=who, bed=bed, when=EVENING)
                    )
    return deeds


def readings(seen: Seen, first: date) -> list[Deed]:
    """The rain gauge twice a week, the thermometers, and a finger in the soil."""
    deeds: list[Deed] = []
    emptied = first
    for day in seen.days(first, seen.last):
        luck = Luck(day, "readings")
        season = 4 <= day.month <= 10
        who = somebody(luck, day)
        if season and day.weekday() in (_SATURDAY, _WEDNESDAY):
            days = (day - emptied).days
            if days > 14:
                days, emptied = 3, day - 3 * ONE_DAY
            if days:
                fell = sum(seen.rain_mm(each) for each in seen.days(emptied + ONE_DAY, day))
                act = RainGauge(rain_mm=round(fell * luck.at("gauge").uniform(0.9, 1.04), 0), days=days)
                deeds.append(
                    Deed(
                        on=day,
                        act=act,
                        who=who,
                        when=MORNING,
                        late_days=luck.at("late").choice((0, 0, 0, 0, 1)),
                    )
                )
                emptied = day
        if day.weekday() == _SUNDAY and day.month in (4, 5, 9):
            now_c = round(seen.soil_c(day) - 1.0 + luck.at("soil").uniform(-0.7, 0.7), 1)
            soil = ThermometerRead(place="soil", now_c=now_c, depth_cm=5.0, hour=9.0)
            deeds.append(Deed(on=day, act=soil, who=who, bed="lake-1", when=MORNING))
        if day.weekday() == _SUNDAY and 4 <= day.month <= 9 and day.day % 2:
            low = round(
                min(seen.tmin_c(each) for each in seen.days(day - 6 * ONE_DAY, day))
                + luck.at("low").uniform(-0.8, 0.3),
                1,
            )
            high = round(
                max(seen.tmax_c(each) for each in seen.days(day - 6 * ONE_DAY, day))
                + luck.at("high").uniform(6.0, 10.0),
                1,
            )
            inside = ThermometerRead(place="tunnel", min_c=low + 1.5, max_c=high)
            deeds.append(Deed(on=day, act=inside, who=who, bed="tunnel", when=MORNING))
        if seen.tmin_c(day) <= 1.0 and ((day.month == 5) or (day.month in (9, 10))):
            air = ThermometerRead(
                place="air", min_c=round(seen.tmin_c(day) + luck.at("air").uniform(-1.2, 0.4), 1)
            )
            deeds.append(Deed(on=day, act=air, who="maren", when=EARLY))
        if 5 <= day.month <= 9 and day.weekday() == _WEDNESDAY and luck.at("felt").random() < 0.6:
            deeds.append(
                _felt(seen, day, luck.at("where").choice(("lake-1", "gate-2", "shed-3", "hill-2")), who)
            )
    return deeds


def _felt(seen: Seen, day: date, bed: str, who: str) -> Deed:
    """By the last week's rain; under the west hedge it stays dry whatever the gauge says."""
    fell = sum(seen.rain_mm(each) for each in seen.days(day - 5 * ONE_DAY, day))
    took = sum(seen.et0_mm(each) for each in seen.days(day - 5 * ONE_DAY, day))
    finger: Finger = "dry" if bed == "lake-1" or fell < 0.3 * took else "wet" if fell > 1.3 * took else "damp"
    return Deed(on=day, act=SoilFelt(finger=finger, depth_cm=5.0), who=who, bed=bed, when=MORNING)
