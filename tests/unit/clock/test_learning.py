"""Learning from events: the spread that is left, the gate, and crops, varieties and beds told apart."""

from __future__ import annotations

from datetime import date, timedelta
from itertools import permutations

import numpy as np
import pytest
from scipy.special import ndtr

from spadework.clock.learning import BED_EVENT_LOG_SD, EVENT_LOG_SD, GATE_SDS, Observation, learn

OFFSETS = np.linspace(-3.0, 3.0, 7)
SLOPE = 0.08  # a degree warmer gathers about 8 % more, as bush beans do round 20 degC
PRIOR_SD = 0.15
DAY = date(2020, 7, 1)


def event(
    number: int,
    log_gathered: float,
    *,
    crop: str = "carrot",
    bed: str = "",
    variety: str = "",
    before: float | None = None,
    on: date = DAY,
    slope: float = SLOPE,
) -> Observation:
    return Observation(
        event=f"e{number:03d}",
        crop=crop,
        variety=variety,
        bed=bed,
        what="ready",
        on=on,
        prior_sd=PRIOR_SD,
        noise_sd=BED_EVENT_LOG_SD if bed else EVENT_LOG_SD,
        offsets_c=OFFSETS,
        log_gathered=log_gathered + slope * OFFSETS,
        log_gathered_before=None if before is None else before + slope * OFFSETS,
    )


@pytest.mark.parametrize(("events", "sd"), [(1, 0.0557), (2, 0.0408), (3, 0.0338), (5, 0.0264)])
def test_the_spread_left_after_some_events(events: int, sd: float) -> None:
    """Conjugate normal: precision 1 / 0.15^2 + n / 0.06^2 (computed)."""
    found = learn([event(number, 0.1) for number in range(events)])
    belief = found.requirements["carrot", "", "ready"]
    assert belief.sd == pytest.approx(sd, abs=5e-5)
    assert belief.mean == pytest.approx(0.1 * (1.0 - (sd / PRIOR_SD) ** 2), abs=1e-4)
    assert len(belief.events) == events
    assert found.spread("carrot", "", "ready", "", EVENT_LOG_SD) == pytest.approx(
        np.hypot(sd, EVENT_LOG_SD), abs=1e-4
    )


def test_nothing_told_teaches_nothing() -> None:
    found = learn([])
    assert not found.requirements
    assert found.requirement("carrot", "", "ready") is None
    assert found.spread("carrot", "", "ready", "", EVENT_LOG_SD) is None


def test_one_bad_date_is_a_question_and_can_be_insisted_on() -> None:
    good = [event(number, 0.02) for number in range(3)]
    bad = event(9, -0.8)
    found = learn([*good, bad])
    assert [one.observation.event for one in found.surprises] == ["e009"]
    assert found.surprises[0].sds > GATE_SDS
    assert found.requirements["carrot", "", "ready"] == learn(good).requirements["carrot", "", "ready"]
    insisted = learn([*good, bad], sure=frozenset({"e009"}))
    assert not insisted.surprises
    assert insisted.requirements["carrot", "", "ready"].mean < -0.1


def test_the_gate_stands_at_three_and_a_half_spreads() -> None:
    believed = learn([event(number, 0.0) for number in range(3)])
    spread = believed.spread("carrot", "", "ready", "", EVENT_LOG_SD)
    assert spread is not None
    assert believed.surprise(event(9, (GATE_SDS - 0.01) * spread)) is None
    found = believed.surprise(event(9, (GATE_SDS + 0.01) * spread))
    assert found is not None
    assert found.sds == pytest.approx(GATE_SDS + 0.01, rel=1e-6)
    # asking changes nothing
    assert believed.spread("carrot", "", "ready", "", EVENT_LOG_SD) == spread


@pytest.mark.parametrize(("low", "high"), [(0.0, 0.2), (-0.3, 0.05), (0.1, 0.12), (-np.inf, -0.1)])
def test_an_interval_is_weighed_as_the_exact_posterior_is(low: float, high: float) -> None:
    """Against the weights Phi((ln G2 - ln theta) / 0.06) - Phi((ln G1 - ln theta) / 0.06) on a fine grid."""
    found = learn([event(0, high, before=low)]).requirements["carrot", "", "ready"]
    grid = np.linspace(-1.2, 1.2, 8001)
    weight = np.exp(-0.5 * (grid / PRIOR_SD) ** 2)
    weight *= ndtr((high - grid) / EVENT_LOG_SD) - ndtr((low - grid) / EVENT_LOG_SD)
    weight /= weight.sum()
    mean = float(weight @ grid)
    assert found.mean == pytest.approx(mean, abs=1e-4)
    assert found.sd == pytest.approx(float(np.sqrt(weight @ (grid - mean) ** 2)), abs=1e-4)


def test_an_event_known_only_between_two_days_teaches_less() -> None:
    exact = learn([event(0, 0.1)]).requirements["carrot", "", "ready"]
    wide = learn([event(0, 0.2, before=0.0)]).requirements["carrot", "", "ready"]
    loose = learn([event(0, 0.2, before=-np.inf)]).requirements["carrot", "", "ready"]
    assert exact.sd < wide.sd < loose.sd < PRIOR_SD
    # "up by then", and nothing known before, only says that it needs no more than was gathered
    assert loose.mean < wide.mean


def test_a_far_interval_that_is_insisted_on_is_reached() -> None:
    found = learn([event(0, 1.0, before=0.9)], sure=frozenset({"e000"})).requirements["carrot", "", "ready"]
    exact = learn([event(0, 0.95)], sure=frozenset({"e000"})).requirements["carrot", "", "ready"]
    assert found.mean == pytest.approx(exact.mean, abs=0.05)


def test_the_order_of_telling_does_not_matter() -> None:
    events = [
        event(number, 0.02 * number, bed=f"b{number % 2}", on=DAY + timedelta(days=number))
        for number in range(6)
    ]
    one, other = learn(events), learn(events[::-1])
    assert one.requirements == other.requirements
    assert one.beds == other.beds


def test_the_order_of_the_days_hardly_matters() -> None:
    """Only the bend of a bed's warmth and the weeks between events tell the orders apart."""
    made = [(0.1, "carrot", "b1"), (-0.05, "beet", "b1"), (0.15, "carrot", "b2"), (0.0, "beet", "b2")]
    means = []
    for order in permutations(range(4)):
        events = [
            event(
                at, made[which][0], crop=made[which][1], bed=made[which][2], on=DAY + timedelta(days=20 * at)
            )
            for at, which in enumerate(order)
        ]
        found = learn(events, today=DAY + timedelta(days=100))
        means.append(
            [found.requirements[crop, "", "ready"].mean for crop in ("carrot", "beet")]
            + [SLOPE * found.beds[bed].mean for bed in ("b1", "b2")]
        )
    assert np.ptp(np.array(means), axis=0).max() < 0.002


def test_a_variety_leans_on_its_crop() -> None:
    found = learn([event(0, 0.2, variety="early")])
    early, late = (found.requirement("carrot", variety, "ready") for variety in ("early", "late"))
    assert early is not None
    assert late is not None
    assert late.mean == pytest.approx(early.mean / 2.0)  # half of the variance each
    assert early.sd < late.sd < PRIOR_SD
    assert found.requirement("beet", "", "ready") is None


def test_years_without_events_widen_what_is_believed() -> None:
    seen = [event(0, 0.1)]
    fresh = learn(seen, today=DAY).requirements["carrot", "", "ready"]
    old = learn(seen, today=date(2030, 7, 1)).requirements["carrot", "", "ready"]
    assert old.mean == fresh.mean
    assert old.sd == pytest.approx(np.sqrt(fresh.sd**2 + 10 * 0.02**2), rel=1e-3)


def test_two_beds_of_one_crop_give_the_sum_but_not_the_parts() -> None:
    found = learn([event(number, 0.2, bed="b1") for number in range(8)])
    crop, bed = found.requirements["carrot", "", "ready"], found.beds["b1"]
    assert crop.mean - SLOPE * bed.mean == pytest.approx(0.2, abs=0.01)
    assert crop.sd > 0.05
    spread = found.spread("carrot", "", "ready", "b1", BED_EVENT_LOG_SD)
    elsewhere = found.spread("carrot", "", "ready", "b9", BED_EVENT_LOG_SD)
    assert spread is not None
    assert elsewhere is not None
    assert spread < 0.06 < elsewhere
