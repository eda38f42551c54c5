"""Keep every prediction that is shown, with its day, what it was computed from, and the version that said it.

An answer is never withheld because it could not be kept: where the book cannot be written, nothing is kept.
"""

from __future__ import annotations

import logging
from collections.abc import Iterable, Sequence
from datetime import date
from typing import TYPE_CHECKING

import msgspec

from spadework import __version__
from spadework.crops.names import find
from spadework.errors import StoreError, StoreReadOnly
from spadework.store.predictions import Prediction, PredictionKind, Subject

if TYPE_CHECKING:
    from spadework.advice.again_answer import AgainAnswer
    from spadework.advice.frost_odds import FrostAnswer
    from spadework.advice.odds import DateOdds, Odds
    from spadework.advice.ready_odds import ReadyAnswer
    from spadework.advice.scene import Scene
    from spadework.advice.weigh_fits import FitsAnswer
    from spadework.advice.weigh_plant_out import PlantAnswer
    from spadework.advice.weigh_sow import SowAnswer, SowOption
    from spadework.advice.weigh_sow_next import NextAnswer
    from spadework.usecases.setting import Setting
    from spadework.usecases.weigh_sowing import Ranked

FULL_STAND = "a full stand, ready before anything takes it"
BEFORE_LOSS = "ready before anything takes it"


def keep_shown(setting: Setting, shown: Iterable[Prediction]) -> int:
    """Keep what an answer foretells; gives how many predictions were new.

    Parameters
    ----------
    setting : Setting
        The garden as it was asked.
    shown : iterable of Prediction
        Without inputs and program.
    """
    try:
        inputs = setting.folder.digest(setting.told)
        stamped = [
            msgspec.structs.replace(each, inputs=inputs, program=__version__) for each in shown if _says(each)
        ]
        with setting.folder.open_book() as book:
            return book.keep(stamped)
    except StoreReadOnly:
        return 0
    except StoreError as error:
        logging.getLogger("spadework").warning("This answer was not kept: %s", error)
        return 0


def means(
    *,
    watered: bool = True,
    depth_mm: float | None = None,
    germination_pct: float | None = None,
    packet: object = None,
    last: int | None = None,
) -> str:
    """What else was assumed and makes it another prediction."""
    said = [
        "" if watered else "rain alone",
        "" if depth_mm is None else f"{depth_mm:g} mm deep",
        "" if germination_pct is None else f"{germination_pct:g} % germinate",
        "" if packet is None else f"packet: {packet}",
        "" if last is None else f"last {last} years",
    ]
    return "; ".join(text for text in said if text)


def from_ready(answer: ReadyAnswer, subject: Subject) -> list[Prediction]:
    """What the answer to "when is it ready" foretells."""
    about = msgspec.structs.replace(subject, start=answer.start, started=answer.started_on)
    day, ready_by = answer.today, answer.ready_by
    flowering = msgspec.structs.replace(about, stage="flowering")
    return [
        *_dates("emergence", about, day, answer.emergence),
        *_dates("stage", flowering, day, answer.flowering),
        *_dates("ready", about, day, answer.ready),
        _chance("ready", msgspec.structs.replace(about, event=BEFORE_LOSS), day, answer.ready_before_loss),
        *([] if ready_by is None else [_chance("ready", about, day, ready_by, by=answer.by)]),
    ]


def from_frost(answer: FrostAnswer, subject: Subject) -> list[Prediction]:
    """What the frost odds foretell."""
    found: list[Prediction] = []
    for dates in answer.dates:
        about = msgspec.structs.replace(subject, place=dates.place, limit_c=dates.below_c)
        spring = msgspec.structs.replace(about, event="last in spring")
        autumn = msgspec.structs.replace(about, event="first in autumn")
        found += _dates("frost", spring, answer.today, dates.last_spring)
        found += _dates("frost", autumn, answer.today, dates.first_autumn)
    for one in answer.by:
        about = msgspec.structs.replace(subject, place=one.place, limit_c=answer.below_c, event=one.side)
        found.append(_chance("frost", about, answer.today, one.frost, by=one.on))
    for asked in answer.at_odds:
        about = msgspec.structs.replace(subject, place=asked.place, limit_c=answer.below_c)
        # Frost after the spring day is as rare as asked: by that day the last one is past with the rest.
        for event, chance, when in (
            ("last in spring", 1.0 - asked.chance, asked.spring_after),
            ("first in autumn", asked.chance, asked.autumn_before),
        ):
            found.append(
                Prediction(
                    kind="frost",
                    subject=msgspec.structs.replace(about, event=event),
                    made_on=answer.today,
                    quantiles={f"{chance:.4g}": when},
                    years=answer.years,
                    made_years=answer.made_years,
                )
            )
    return found


def from_sowing(answer: SowAnswer, subject: Subject) -> list[Prediction]:
    """What each sowing day set side by side foretells."""
    about = msgspec.structs.replace(subject, start=answer.way)
    return [each for option in answer.options for each in _from_option(option, about, answer.today)]


def from_ranking(ranked: Sequence[Ranked], subject: Subject, today: date) -> list[Prediction]:
    """What a ranking of all crops for one sowing day foretells."""
    return [
        each
        for one in ranked
        for each in _from_option(
            one.option, msgspec.structs.replace(subject, crop=one.key, start=one.way), today
        )
    ]


def from_fits(answer: FitsAnswer, subject: Subject) -> list[Prediction]:
    """What the crops that still fit a place foretell."""
    found: list[Prediction] = []
    for fit in answer.crops:
        about = msgspec.structs.replace(subject, crop=fit.key, start=fit.way, started=answer.on)
        whole = msgspec.structs.replace(about, event=FULL_STAND)
        found += _dates("emergence", about, answer.today, fit.emergence)
        found += _dates("ready", about, answer.today, fit.ready)
        found.append(_chance("ready", whole, answer.today, fit.overall, by=answer.clear_by))
    return found


def from_planting_out(answer: PlantAnswer, subject: Subject) -> list[Prediction]:
    """What each way and day of setting out foretells."""
    found: list[Prediction] = []
    for option in answer.options:
        covered = "under cover" if option.act == "under cover" else ""
        about = msgspec.structs.replace(subject, start="set-out", started=option.day, means=covered)
        found += _dates("ready", about, answer.today, option.ready)
        whole = msgspec.structs.replace(about, event=BEFORE_LOSS)
        found.append(_chance("ready", whole, answer.today, option.overall))
    return found


def from_resowing(answer: AgainAnswer, subject: Subject) -> list[Prediction]:
    """What each thing to do about a poor sowing foretells."""
    found: list[Prediction] = []
    for option in answer.options:
        new = option.act in ("sow again", "give up the place")
        about = msgspec.structs.replace(
            subject,
            crop=subject.crop if option.crop is None else find(option.crop),
            start="sown",
            started=answer.today if new else answer.sown,
            means="; ".join(text for text in (option.act, subject.means) if text),
        )
        found += _dates("ready", about, answer.today, option.ready)
        whole = msgspec.structs.replace(about, event=FULL_STAND)
        found.append(_chance("ready", whole, answer.today, option.odds))
    return found


def _from_option(option: SowOption, subject: Subject, today: date) -> list[Prediction]:
    about = msgspec.structs.replace(subject, started=option.day)
    whole = msgspec.structs.replace(about, event=FULL_STAND)
    return [
        *_dates("emergence", about, today, option.emergence),
        *_dates("ready", about, today, option.ready),
        _chance("ready", whole, today, option.overall),
    ]


def from_sowing_next(answer: NextAnswer, subject: Subject) -> list[Prediction]:
    """What each way of sowing next foretells: when each of its sowings is ready."""
    return [
        prediction
        for option in answer.options
        for day, ready in zip(option.days, option.ready, strict=True)
        for prediction in _dates(
            "ready", msgspec.structs.replace(subject, start=answer.way, started=day), answer.today, ready
        )
    ]


def from_standing(scene: Scene) -> list[Prediction]:
    """What the jobs of a day rest on: when what stands comes up, and when it is ready."""
    from spadework.advice.odds import date_odds
    from spadework.advice.ready_odds import median_emergence_chance

    found: list[Prediction] = []
    for plot in scene.plots:
        planting, course = plot.planting, plot.course
        dates, made = course.ground.dates, course.ground.years.made
        subject = Subject(
            crop=planting.crop,
            variety=planting.variety,
            bed=planting.bed,
            planting=planting.key,
            start=course.start,
            started=planting.started_on,
        )
        if course.sprout is not None and "up" not in planting.stages:
            odds = date_odds(median_emergence_chance(course), dates, made)
            found += _dates("emergence", subject, scene.today, odds)
        if "ready" not in planting.stages and planting.first_picked_on is None:
            found += _dates("ready", subject, scene.today, date_odds(course.ready, dates, made))
    return found


def _dates(kind: PredictionKind, subject: Subject, today: date, dates: DateOdds | None) -> list[Prediction]:
    if dates is None:
        return []
    return [
        Prediction(
            kind=kind,
            subject=subject,
            made_on=today,
            quantiles={"0.1": dates.q10, "0.5": dates.q50, "0.9": dates.q90},
            chance=round(1.0 - dates.never, 4),
            years=dates.years,
            made_years=dates.made_years,
        )
    ]


def _chance(
    kind: PredictionKind, subject: Subject, today: date, odds: Odds, *, by: date | None = None
) -> Prediction:
    return Prediction(
        kind=kind,
        subject=subject,
        made_on=today,
        chance=odds.chance,
        by=by,
        years=odds.years,
        made_years=odds.made_years,
    )


def _says(prediction: Prediction) -> bool:
    """Whether there is anything in it that could come true or not."""
    return prediction.years > 0
