"""It has not come up as it should: wait and count again, look, fill gaps, sow again, or give up the place."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from datetime import date
from functools import lru_cache

import msgspec
import numpy as np

from spadework.advice.again_answer import AgainAnswer, AgainOption, MoreToCome, OtherCrop
from spadework.advice.again_belief import SEED_AND_HOUR_COST, Case, Weighing
from spadework.advice.again_causes import Cause, likely_causes
from spadework.advice.cautions import cautions_of
from spadework.advice.odds import (
    DateOdds,
    Fact,
    Odds,
    as_date,
    date_odds,
    joined,
    odds_of,
)
from spadework.clock.course import Course
from spadework.types import Floats

LATE_COST_PER_DAY = 0.004
"""Share of the crop's worth lost a day by picking later. Our own rule: a month late costs an eighth."""

OTHER_CROP_COST = 0.25
"""Share of worth lost by growing something else than was wanted. Our own rule."""

UNDECIDED = (0.12, 0.88)
"""Chances of enough plants between which digging can change the answer. Our own rule."""

DIG_GAIN = 0.05
"""Digging comes first when knowing would raise the worth of the decision by this much. Our own rule."""


def weigh_again(
    case: Case,
    *,
    crop: str,
    today: date,
    sown: date,
    others: Sequence[OtherCrop],
    assumptions: list[str],
    notes: list[str],
) -> AgainAnswer:
    """Set the options for a poor or late sowing side by side.

    Parameters
    ----------
    case : Case
        The sowing, its counts, what digging found, how many plants are wanted.
    crop : str
        Name in the garden's words.
    today, sown : date
    others : sequence of OtherCrop
        What else could have the place, best first.
    assumptions, notes : list of str

    Returns
    -------
    AgainAnswer
        Options ordered by worth; the verdict is the first one's act.
    """
    weighing = Weighing(case)
    causes = likely_causes(weighing)
    options = sorted(_options(weighing, causes, others), key=lambda option: -option.worth)
    options = [
        _with_turning(weighing, option, causes, others) if option.act == "wait" else option
        for option in options
    ]
    belief = weighing.belief
    coming = belief.coming(weighing.final)
    more = MoreToCome(
        mean=round(float(coming.mean_count.mean()), 1),
        q10=round(float(np.median(coming.q10))),
        q50=round(float(np.median(coming.q50))),
        q90=round(float(np.median(coming.q90))),
    )
    expected = weighing.expected_up_share
    early = (
        "Seedlings were counted before any of this seed could be up: look whether they are weeds, or "
        "whether the sowing date is right."
        if belief.too_early
        else ""
    )
    return AgainAnswer(
        question="sow again",
        crop=crop,
        today=today,
        sown=sown,
        day=(today - sown).days,
        seeds=case.seeds,
        up=case.counts[-1][1],
        lost=belief.lost if belief.real_loss else 0,
        wanted=case.wanted,
        expected_up_share=round(expected, 3),
        more_to_come=more,
        failed_chance=round(belief.failed_chance, 3),
        verdict=options[0].act,
        act=options[0].title + ".",
        reason=_reason(case, expected, more, belief.lost if belief.real_loss else 0),
        options=options,
        causes=causes,
        facts=_facts(weighing, expected),
        assumptions=assumptions,
        cautions=cautions_of(case.sheet),
        note=joined([*notes, early]),
    )


def _options(weighing: Weighing, causes: Sequence[Cause], others: Sequence[OtherCrop]) -> list[AgainOption]:
    leave = weighing.enough(weighing.belief)
    options = _without_look(weighing, leave, causes, others)
    dig = _dig(weighing, leave, max(option.worth for option in options), options)
    return options if dig is None else [*options, dig]


def _without_look(
    weighing: Weighing, leave: Floats, causes: Sequence[Cause], others: Sequence[OtherCrop]
) -> list[AgainOption]:
    """All options but to look first."""
    options = [_wait(weighing, leave), _fill(weighing, causes), _sow_again(weighing, causes)]
    return [*options, _give_up(others[0])] if others else options


def _with_turning(
    weighing: Weighing, wait: AgainOption, causes: Sequence[Cause], others: Sequence[OtherCrop]
) -> AgainOption:
    """Waiting, with the counts at the recount at which the answer changes.

    The question is asked again as of the recount, for a few counts: from one count on, leaving the row alone
    is at least as good as sowing again; below another, the answer is no longer to wait.
    """
    assert wait.recount_on is not None
    case = weighing.case
    day = int((np.datetime64(wait.recount_on, "D") - case.ground.years.first_day).astype(int))

    @lru_cache
    def then(count: int) -> tuple[Weighing, Floats]:
        asked = Weighing(replace(case, today=day, counts=[*case.counts, (day, count)]), weighing)
        return asked, asked.enough(asked.belief)

    def kept(count: int) -> bool:
        asked, leave = then(count)
        _, again = asked.again(day)
        stays, renewed = (odds_of(one, asked.made).chance for one in (leave * asked.standing_picked, again))
        return stays >= renewed - SEED_AND_HOUR_COST

    def waits(count: int) -> bool:
        asked, leave = then(count)
        # causes give lines to read and weigh nothing
        options = _without_look(asked, leave, causes, others)
        best = max(options, key=lambda option: option.worth)
        if best.act == "wait":
            return True
        dig = _dig(asked, leave, best.worth, options)
        return dig is not None and dig.worth > best.worth

    low, high = case.counts[-1][1], max(case.wanted, case.counts[-1][1])
    keep_at = _first_count(kept, low, high)
    if keep_at is None:
        line = "no count by then would make leaving it alone the better course"
        return msgspec.structs.replace(wait, lines=[line])
    below = _first_count(waits, low, keep_at)
    below = keep_at if below is None else below
    if keep_at == low:
        line = "whatever the count is then, leaving it stays the better course"
    elif below == low:
        line = f"{keep_at} or more then: leave it; fewer: count once more"
    elif below == keep_at:
        line = f"{keep_at} or more then: leave it; fewer: sow again, or into the gaps"
    else:
        line = (
            f"{keep_at} or more then: leave it; under {below}: sow again, or into the gaps; between: count "
            "once more"
        )
    return msgspec.structs.replace(
        wait, keep_at=keep_at, sow_again_below=below if below > low else None, lines=[line]
    )


def _first_count(holds: Callable[[int], bool], low: int, high: int) -> int | None:
    """First count at which something holds that holds for all larger ones; None where it never does."""
    if not holds(high):
        return None
    if holds(low):
        return low
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (low, middle) if holds(middle) else (middle, high)
    return high


def _option_odds(weighing: Weighing, chance: Floats) -> tuple[Odds, list[float]]:
    return odds_of(chance, weighing.made), [round(float(one), 3) for one in chance]


def _worth(chance: Floats, late_days: int | None, cost: float) -> float:
    return round(float(chance.mean()) * (1.0 - LATE_COST_PER_DAY * max(late_days or 0, 0)) - cost, 4)


def _ready(course: Course) -> DateOdds:
    return date_odds(course.ready, course.ground.dates, course.ground.years.made)


def _later(weighing: Weighing, course: Course) -> int | None:
    first, second = _ready(weighing.course).q50, _ready(course).q50
    return None if first is None or second is None else (second - first).days


def _wait(weighing: Weighing, leave: Floats) -> AgainOption:
    case = weighing.case
    day = weighing.recount_day()
    again, again_chance = weighing.again(day)
    # a recount keeps the door open: where too few come, the row is sown again then
    late = _later(weighing, again)
    stay = leave * weighing.standing_picked
    fallback = (1.0 - leave) * again_chance
    worth = _worth(stay, 0, 0.0) + _worth(fallback, late, SEED_AND_HOUR_COST * float((1.0 - leave).mean()))
    odds, by_year = _option_odds(weighing, stay)
    on = as_date(case.ground.dates[day])
    return AgainOption(
        act="wait",
        title=f"Wait and count again on {_day_words(on)}",
        means="left alone, enough plants that get there",
        odds=odds,
        by_year=by_year,
        worth=round(worth, 4),
        lines=[],
        recount_on=on,
        ready=_ready(weighing.course),
    )


def _dig(weighing: Weighing, leave: Floats, best: float, options: list[AgainOption]) -> AgainOption | None:
    """What a look into the drill could change; None where it has been done or can change nothing."""
    chance = float(leave.mean())
    if weighing.case.dug is not None or not UNDECIDED[0] < chance < UNDECIDED[1]:
        return None
    firm = weighing.enough(weighing.believe(weighing.series, "firm")) * weighing.standing_picked
    soft = weighing.enough(weighing.believe(weighing.series, "soft")) * weighing.standing_picked
    renewed = max(
        option.worth for option in options if option.act in ("sow again", "give up the place", "fill gaps")
    )
    sound = 1.0 - weighing.belief.failed_chance
    told = sound * max(float(firm.mean()), renewed) + (1.0 - sound) * max(float(soft.mean()), renewed)
    mean_odds, by_year = _option_odds(weighing, leave * weighing.standing_picked)
    gain = told - best
    return AgainOption(
        act="dig",
        title="Look first: dig a hand's length of the row",
        means="as it stands, left alone, enough plants that get there",
        odds=mean_odds,
        by_year=by_year,
        worth=round(best + 0.001 if gain > DIG_GAIN else min(best, told) - 0.001, 4),
        lines=[
            f"firm or sprouted seed: leaving it works in {odds_of(firm, weighing.made).years_yes} "
            f"of {firm.size} years",
            f"soft seed or none: in {odds_of(soft, weighing.made).years_yes} of {soft.size} years",
        ],
        if_firm=odds_of(firm, weighing.made),
        if_soft=odds_of(soft, weighing.made),
    )


def _fill(weighing: Weighing, causes: Sequence[Cause]) -> AgainOption:
    case = weighing.case
    belief, wanted = weighing.belief, case.wanted
    coming = belief.coming(weighing.final)
    likely = belief.standing + int(np.median(coming.q50))
    missing = max(wanted - likely, 0)
    seeds = max(1, round(case.seeds * missing / wanted)) if missing else 0
    course, _ = weighing.again(case.today)
    # enough of both sowings: what stands and may come, and new plants in the gaps, taken as independent
    parts = [(0.5, int(np.median(coming.q10))), (0.5, int(np.median(coming.q90)))]
    both = np.zeros(weighing.made.size)
    for weight, more in parts:
        short = wanted - belief.standing - more
        both += weight * (weighing.new_stand(course, max(seeds, 1), short) if short > 0 else 1.0)
    chance = both * np.minimum(weighing.standing_picked, course.picked[:, -1])
    late = _later(weighing, course)
    odds, by_year = _option_odds(weighing, chance)
    return AgainOption(
        act="fill gaps",
        title=f"Fill the gaps today with {seeds} seeds" if seeds else "Fill no gaps: enough are likely",
        means="old and new plants together enough, and there in time",
        odds=odds,
        by_year=by_year,
        worth=_worth(chance, (late or 0) // 2, SEED_AND_HOUR_COST),
        lines=[
            f"the young ones come {late} days behind the others" if late else "the row stays uneven",
            causes[0].stops,
        ],
        sow_seeds=seeds,
        ready=_ready(course),
        days_later=late,
        stops_same_loss=tuple(cause.stops for cause in causes),
    )


def _sow_again(weighing: Weighing, causes: Sequence[Cause]) -> AgainOption:
    course, chance = weighing.again(weighing.case.today)
    late = _later(weighing, course)
    odds, by_year = _option_odds(weighing, chance)
    ready = _ready(course)
    lines = [f"only with this: {cause.stops}" for cause in causes]
    if late:
        lines.append(f"ready about {late} days later than the first sowing would be")
    return AgainOption(
        act="sow again",
        title="Sow the row again today",
        means="enough plants that get there",
        odds=odds,
        by_year=by_year,
        worth=_worth(chance, late, SEED_AND_HOUR_COST),
        lines=lines,
        sow_seeds=weighing.case.seeds,
        ready=ready,
        days_later=late,
        stops_same_loss=tuple(cause.stops for cause in causes),
    )


def _give_up(other: OtherCrop) -> AgainOption:
    chance = np.asarray(other.by_year)
    ready = other.ready.q50
    return AgainOption(
        act="give up the place",
        title=f"Give the place to {other.name}, sown today",
        means="a full stand that gets there",
        odds=other.overall,
        by_year=other.by_year,
        worth=_worth(chance, 0, SEED_AND_HOUR_COST + OTHER_CROP_COST),
        lines=[f"ready about {_day_words(ready)}"] if ready else [],
        ready=other.ready,
        crop=other.name,
    )


def _day_words(day: date) -> str:
    return f"{day.day} {day:%b}"


def _reason(case: Case, expected: float, more: MoreToCome, lost: int) -> str:
    """The one or two numbers that decide."""
    up = case.counts[-1][1]
    soil = float(case.ground.soil_mean_c[:, case.sowing.day : case.today + 1].mean())
    warmth = f"The soil has averaged {soil:.0f} °C"
    could = f"by now {_tenths(expected)} of what can come up should be up"
    if lost:
        return f"{lost} seedlings that were up are gone: that is loss, not lateness. {warmth}; {could}."
    if more.q90 <= max(2, 0.03 * case.seeds):
        return f"{warmth} and {could}: few if any of the missing will still come."
    return f"{warmth}; {could}, and {more.q10} to {more.q90} more may come to the {up} that stand."


def _tenths(share: float) -> str:
    if share < 0.05:
        return "hardly any"
    if share > 0.95:
        return "nearly all"
    return f"{round(share * 10)} tenths" if round(share * 10) != 1 else "a tenth"


def _facts(weighing: Weighing, expected: float) -> list[Fact]:
    case = weighing.case
    tau = case.sheet.emergence.tau
    return [
        Fact(
            name="soil at 5 cm, mean since it was sown",
            value=round(float(case.ground.soil_mean_c[:, case.sowing.day : case.today + 1].mean()), 1),
            unit="degC",
            law="two-store seed-zone temperature",
            source="measured USCRN",
        ),
        Fact(
            name="warmth gathered, as a share of what brings half up",
            value=round(weighing.series[-1][0], 3),
            law="emergence",
            source=f"{case.sheet.emergence.sum_cd.provenance} {case.sheet.emergence.sum_cd.source}".strip(),
        ),
        Fact(name="share of what can come up that should be up", value=round(expected, 3), law="emergence"),
        Fact(
            name="chance that this sowing has failed",
            value=round(weighing.belief.failed_chance, 3),
            law="failure mixture",
            source="memory",
        ),
        Fact(
            name="spread between sowings, log",
            value=tau.value,
            source=f"{tau.provenance} {tau.source}".strip(),
        ),
    ]
