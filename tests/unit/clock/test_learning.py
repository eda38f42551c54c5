"""Learning from events: the spread that is left, the gate, and crops and beds told apart."""

from __future__ import annotations

from datetime import date, timedelta

import numpy as np
import pytest

from spadework.clock.learning import EVENT_LOG_SD, Observation, learn

OFFSETS = np.linspace(-4.0, 4.0, 9)
SLOPE = 0.08  # a degree warmer gathers about 8 % more, as bush beans do round 20 degC


def event(
    number: int,
    log_gathered: float,
    *,
    crop: str = "carrot",
    bed: str = "",
    variety: str = "",
    before: float | None = None,
    on: date = date(2020, 7, 1),
) -> Observation:
    return Observation(
        event=f"e{number:03d}",
        crop=crop,
        variety=variety,
        bed=bed,
        what="ready",
        on=on,
        prior_sd=0.15,
        offsets_c=OFFSETS,
        log_gathered=log_gathered + SLOPE * OFFSETS,
        log_gathered_before=before,
    )


@pytest.mark.parametrize(("events", "sd"), [(1, 0.0557), (2, 0.0408), (3, 0.0338), (5, 0.0264)])
def test_the_spread_left_after_some_events(events: int, sd: float) -> None:
    """Conjugate normal, prior 0.15 and event 0.06 (computed)."""
    found = learn([event(number, 0.1) for number in range(events)])
    belief = found.requirements["carrot", "", "ready"]
    assert belief.sd == pytest.approx(sd, abs=5e-5)
    assert 0.0 < belief.mean < 0.1
    assert len(belief.events) == events


def test_nothing_told_teaches_nothing() -> None:
    assert not learn([]).requirements


def test_one_bad_date_is_a_question_and_can_be_insisted_on() -> None:
    good = [event(number, 0.02) for number in range(3)]
    bad = event(9, -0.8)
    found = learn([*good, bad])
    assert [one.observation.event for one in found.surprises] == ["e009"]
    assert found.requirements["carrot", "", "ready"].mean == pytest.approx(
        learn(good).requirements["carrot", "", "ready"].mean
    )
    insisted = learn([*good, bad], sure=frozenset({"e009"}))
    assert not insisted.surprises
    assert insisted.requirements["carrot", "", "ready"].mean < -0.1


def test_an_event_known_only_between_two_days_teaches_less() -> None:
    exact = learn([event(0, 0.1)]).requirements["carrot", "", "ready"]
    wide = learn([event(0, 0.2, before=0.0)]).requirements["carrot", "", "ready"]
    assert wide.sd > exact.sd
    assert wide.mean == pytest.approx(0.1 * 0.15**2 / (0.15**2 + EVENT_LOG_SD**2 + 0.2**2 / 12), rel=1e-6)


def test_an_interval_agrees_with_the_exact_posterior_on_a_grid() -> None:
    low, high = 0.0, 0.2
    found = learn([event(0, high, before=low)]).requirements["carrot", "", "ready"]
    from scipy.special import ndtr

    grid = np.linspace(-0.8, 0.8, 4001)
    weight = np.exp(-0.5 * (grid / 0.15) ** 2)
    weight *= ndtr((high - grid) / EVENT_LOG_SD) - ndtr((low - grid) / EVENT_LOG_SD)
    weight /= weight.sum()
    mean = float(weight @ grid)
    assert found.mean == pytest.approx(mean, abs=0.005)
    assert found.sd == pytest.approx(float(np.sqrt(weight @ (grid - mean) ** 2)), abs=0.005)


def test_the_order_of_telling_does_not_matter() -> None:
    events = [
        event(number, 0.02 * number, bed=f"b{number % 2}", on=date(2020, 7, 1 + number))
        for number in range(6)
    ]
    one, other = learn(events), learn(events[::-1])
    assert one.requirements == other.requirements
    assert one.beds == other.beds


def test_a_variety_leans_on_its_crop() -> None:
    found = learn([event(0, 0.2, variety="early")])
    crop, early = (found.requirements["carrot", variety, "ready"] for variety in ("", "early"))
    assert 0.0 < crop.mean < early.mean
    assert found.requirement("carrot", "late", "ready") == crop
    assert found.requirement("beet", "", "ready") is None


def test_years_without_events_widen_what_is_believed() -> None:
    seen = [event(0, 0.1)]
    fresh = learn(seen, today=date(2020, 7, 1)).requirements["carrot", "", "ready"]
    old = learn(seen, today=date(2030, 7, 1)).requirements["carrot", "", "ready"]
    assert old.mean == fresh.mean
    assert old.sd > fresh.sd


def test_beds_and_crops_are_told_apart_when_they_cross() -> None:
    """Events drawn from the state's own priors, six crops in eight beds: errors fall, the spread holds."""
    random = np.random.default_rng(7)
    errors: dict[int, list[float]] = {0: [], 6: [], 24: [], 48: []}
    held = []
    for _ in range(40):
        crops = random.normal(0.0, 0.15, 6)
        beds = random.normal(0.0, 1.2, 8)
        events = []
        for number in range(48):
            crop, bed = int(random.integers(6)), int(random.integers(8))
            noise = random.normal(0.0, EVENT_LOG_SD)
            # on the day it was ready the bed had gathered the crop's own requirement
            usual = crops[crop] + noise - SLOPE * beds[bed]
            events.append(
                event(
                    number,
                    usual,
                    crop=f"c{crop}",
                    bed=f"b{bed}",
                    on=date(2020, 1, 1) + timedelta(days=number),
                )
            )
        for count, found_errors in errors.items():
            found = learn(events[:count])
            for crop in range(6):
                for bed in range(8):
                    belief = found.requirements.get((f"c{crop}", "", "ready"))
                    place = found.beds.get(f"b{bed}")
                    guess = (belief.mean if belief else 0.0) - SLOPE * (place.mean if place else 0.0)
                    found_errors.append(abs(guess - (crops[crop] - SLOPE * beds[bed])))
            if count == 48:
                for crop in range(6):
                    belief = found.requirements.get((f"c{crop}", "", "ready"))
                    if belief is not None:
                        held.append(abs(belief.mean - crops[crop]) <= 1.2816 * belief.sd)
    means = [float(np.mean(errors[count])) for count in (0, 6, 24, 48)]
    assert means == sorted(means, reverse=True)
    assert means[-1] < 0.35 * means[0]
    assert 0.72 <= float(np.mean(held)) <= 0.88
