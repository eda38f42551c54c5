"""It has not come up, do I sow again?"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from pathlib import Path
from typing import cast, get_args

import msgspec

from spadework.advice.again_answer import AgainAnswer, OtherCrop
from spadework.advice.again_belief import Case, wanted_by_default
from spadework.advice.odds import as_date
from spadework.advice.ready_odds import later_years, usual_way
from spadework.advice.reeds import seedling_reeds
from spadework.advice.stand import full_stand_chance
from spadework.advice.weigh_again import weigh_again
from spadework.advice.weigh_sow import weigh_day
from spadework.clock.course import sow
from spadework.clock.ground import Ground
from spadework.clock.sprout import Sowing
from spadework.crops.loader import all_sheets
from spadework.crops.sheet import Sheet
from spadework.errors import ParameterError, UnknownName
from spadework.science.counts import Finding
from spadework.store.predictions import Subject
from spadework.usecases.ask_ready import RUN_DAYS, check_sowing_numbers
from spadework.usecases.keep_predictions import from_resowing, keep_shown, means
from spadework.usecases.setting import Setting, column_of, open_setting

LONGEST_WAIT_DAYS = 120
"""A sowing older than this is not waited for; the question is then what to grow next."""

MOST_SEEDS = 100_000
OTHERS = 3
"""So many other crops are held beside it. Our own rule."""

_CLOSE = 1e-3
"""Odds are rounded to less than this."""


class SowingKnown(msgspec.Struct, frozen=True, kw_only=True):
    """What the book knows of a sowing: its counts with their days, and seeds where anybody said."""

    planting: str
    crop: str
    name: str
    where: str
    sown: date | None
    seeds: int | None
    counts: list[tuple[date, int]]


def sowing_known(garden: Path, today: date, planting: str) -> SowingKnown:
    """What the book knows of a sowing that stands, by its key.

    Raises
    ------
    UnknownName, GardenError, RecordError, StoreError
    """
    from spadework.advice.jobs.sow_again import counts_of
    from spadework.usecases.jobs_today import open_day

    scene = open_day(garden, today).scene
    plot = next((plot for plot in scene.plots if plot.key == planting), None)
    if plot is None:
        raise UnknownName(f"Nothing that stands is called {planting!r}.", "Choose it from what stands.")
    dates = plot.course.ground.dates
    return SowingKnown(
        planting=plot.key,
        crop=plot.planting.crop,
        name=plot.name,
        where=plot.where,
        sown=plot.planting.sown_on,
        seeds=plot.planting.seeds,
        counts=[(as_date(dates[column]), count) for column, count in counts_of(plot)],
    )


def weigh_resowing(
    garden: Path,
    today: date,
    crop: str,
    *,
    sown: date,
    seeds: int,
    up: int,
    earlier: Sequence[tuple[date, int]] = (),
    germination_pct: float | None = None,
    depth_mm: float | None = None,
    dug: str | None = None,
    wanted: int | None = None,
    watered: bool = True,
) -> AgainAnswer:
    """Weigh waiting against looking, filling gaps, sowing again and another crop.

    Parameters
    ----------
    garden : Path
    today : date
        Day of the latest count.
    crop : str
    sown : date
    seeds, up : int
        Seeds sown; seedlings standing today.
    earlier : sequence of (date, int)
        Counts before today's.
    germination_pct : float or None  [percent]
    depth_mm : float or None  [mm]
    dug : str or None
        firm, sprouted, soft or gone.
    wanted : int or None
        Plants that make a full stand; by default six tenths of what the seed gives.
    watered : bool

    Raises
    ------
    ParameterError, UnknownName, RecordError, GardenError
    """
    setting = open_setting(garden, today)
    sheet = setting.sheet(crop)
    check_sowing_numbers(depth_mm, germination_pct)
    _check(sown, today, seeds, up, earlier, dug, wanted)
    ground, notes = setting.ground(sown, (today - sown).days + RUN_DAYS)
    germination = None if germination_pct is None else germination_pct / 100.0
    case = Case(
        sheet=sheet,
        ground=ground,
        sowing=Sowing(column_of(ground, sown), depth_mm, germination, watered),
        today=column_of(ground, today),
        seeds=seeds,
        counts=[
            *((column_of(ground, day), count) for day, count in sorted(earlier)),
            (column_of(ground, today), up),
        ],
        dug=None if dug is None else cast(Finding, dug),
        wanted=wanted if wanted is not None else wanted_by_default(sheet, seeds, germination),
    )
    assumptions = [
        f"{case.wanted} plants make a full stand.",
        "The row was kept damp." if watered else "Rain alone wetted the seed.",
        "No cover on frosty nights.",
    ]
    answer = weigh_again(
        case,
        crop=sheet.word(setting.site.words),
        today=today,
        sown=sown,
        others=_others(setting, ground, sheet, case.today),
        assumptions=assumptions,
        notes=notes,
    )
    assumed = means(watered=watered, depth_mm=depth_mm, germination_pct=germination_pct)
    keep_shown(setting, from_resowing(answer, Subject(crop=sheet.key, means=assumed)))
    return msgspec.structs.replace(answer, seedlings=seedling_reeds(case))


def _check(
    sown: date,
    today: date,
    seeds: int,
    up: int,
    earlier: Sequence[tuple[date, int]],
    dug: str | None,
    wanted: int | None,
) -> None:
    if sown > today:
        raise ParameterError(
            f"--sown {sown.isoformat()} is after today ({today.isoformat()}).",
            "Give the day it was sown, or set --today.",
        )
    if (today - sown).days > LONGEST_WAIT_DAYS:
        raise ParameterError(
            f"It was sown {(today - sown).days} days ago; seed is not waited for longer than "
            f"{LONGEST_WAIT_DAYS}.",
            "Ask what to sow now with: spadework weigh sow",
        )
    if not 1 <= seeds <= MOST_SEEDS:
        raise ParameterError(f"--seeds {seeds} is not a number of seeds sown.", f"Give 1 to {MOST_SEEDS}.")
    for name, count in (("--up", up), *(("--up-on", count) for _, count in earlier)):
        if not 0 <= count <= seeds:
            raise ParameterError(
                f"{name} {count} is more than the {seeds} seeds sown."
                if count > seeds
                else f"{name} {count} is below zero.",
                "Count the seedlings of this sowing only, or correct --seeds.",
            )
    for day, _ in earlier:
        if not sown <= day < today:
            raise ParameterError(
                f"--up-on {day.isoformat()} is not between the sowing and today.",
                f"Give days from {sown.isoformat()} to the day before {today.isoformat()}; "
                "today's count goes to --up.",
            )
    if len({day for day, _ in earlier}) < len(earlier):
        raise ParameterError("Two counts stand on one day.", "Give one count a day.")
    findings = get_args(Finding)
    if dug is not None and dug not in findings:
        raise ParameterError(f"--dug {dug!r} is not a finding.", f"Say one of: {', '.join(findings)}.")
    if wanted is not None and not 1 <= wanted <= seeds:
        raise ParameterError(f"--wanted {wanted} cannot come from {seeds} seeds.", f"Give 1 to {seeds}.")


def _others(setting: Setting, ground: Ground, sheet: Sheet, today: int) -> list[OtherCrop]:
    """The crops of other families that would do best sown today, best first.

    Notes
    -----
    A crop cannot do better than its stand comes up. Those that come up best are run to the end first, and
    once `OTHERS` of them do better than the rest could, the rest are not run.
    """
    stands: list[tuple[float, Sheet]] = []
    for key in all_sheets():
        other = setting.sheet(key)
        if other.family == sheet.family or usual_way(other) != "sown" or later_years(other):
            continue
        sprout = sow(other, ground, Sowing(today)).sprout
        assert sprout is not None  # it is sown
        stands.append((float(full_stand_chance(other, sprout, today, None).mean()), other))
    stands.sort(key=lambda each: -each[0])
    found: list[OtherCrop] = []
    for at_most, other in stands:
        if len(found) >= OTHERS and at_most < found[OTHERS - 1].overall.chance - _CLOSE:
            break
        option, _ = weigh_day(other, ground, today, "sown", Sowing(today))
        found.append(
            OtherCrop(
                name=other.word(setting.site.words),
                overall=option.overall,
                by_year=option.by_year,
                ready=option.ready,
            )
        )
        found.sort(key=lambda crop: (-crop.overall.chance, crop.name))
    return found[:OTHERS]
