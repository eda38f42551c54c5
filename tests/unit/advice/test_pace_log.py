"""The pace the book shows, by craft and by person. The books are invented."""

from __future__ import annotations

import math
from typing import Any

import pytest

from garden_book import Pen
from spadework.advice.pace import RATES, Pace, usual_minutes
from spadework.advice.pace_log import HALF_BELIEVED, SLOWEST, craft_of, learn_pace
from spadework.garden import entries as kinds
from spadework.garden.entries import Payload
from spadework.garden.fold import fold

AREA_M2 = 1.2 * 2.4
CARROTS: dict[str, Any] = {"rows": 4, "row_length_m": 2.0, "row_cm": 30.0}


@pytest.fixture
def pen() -> Pen:
    pen = Pen()
    for key in ("b1", "b2"):
        pen(kinds.BedSet(name=key), bed=key)
    pen(kinds.Sown(planting="c", crop="carrot", seeds=400, **CARROTS), bed="b1", planting="c")
    pen(kinds.PlantedOut(planting="t", crop="tomato", plants=6), bed="b2", planting="t")
    pen(kinds.PlantedOut(planting="k", crop="chard", plants=6), bed="b2", planting="k")
    pen(kinds.PlantedOut(planting="l", crop="cauliflower", plants=6), bed="b2", planting="l")
    return pen


def log(
    pen: Pen, act: Payload, minutes: float, *, day: int, job: str = "", people: int = 1, **about: Any
) -> None:
    """An act and its time, as they are written together."""
    done = pen(act, day=day, **about)
    time = kinds.Minutes(minutes=minutes, job=job, people=people)
    pen(time, day=day, recorded_at=done.recorded_at, **about)


def pace_of(pen: Pen) -> Pace:
    return learn_pace(fold(pen.written))


@pytest.mark.parametrize(
    ("act", "about", "craft", "usual"),
    [
        (kinds.Tended(act="weeded"), {"bed": "b2"}, "hand weeding", ("weed small", AREA_M2)),
        (kinds.Tended(act="hoed"), {"bed": "b2"}, "hoeing", ("weed thread", AREA_M2)),
        (kinds.Tended(act="mulched"), {"bed": "b2"}, "mulching", ("mulch", AREA_M2)),
        (kinds.Tended(act="earthed up"), {"bed": "b1", "planting": "c"}, "earthing up", ("earth up", 8.0)),
        (kinds.Thinned(removed=120), {"planting": "c"}, "thinning", ("thin", 120)),
        (kinds.Counted(standing=180), {"planting": "c"}, "counting", ("count", 4)),
        (kinds.Picked(kg=2.0), {"planting": "t"}, "picking", ("pick fruit", 2.0)),
        (kinds.Picked(kg=2.0), {"planting": "k"}, "picking", ("pick leaves", 2.0)),
        (kinds.Picked(kg=2.0), {"planting": "l"}, "picking", ("cut heads", 2.0)),
        (kinds.Lifted(kg=3.0), {"planting": "c"}, "lifting", ("lift", 3.0)),
        (kinds.Ended(how="cleared"), {"planting": "c"}, "clearing", ("clear", 2.0 * 4 * 0.3)),
        (kinds.Watered(litres=40.0), {"bed": "b2"}, "watering", ("damp", 40.0)),
    ],
)
def test_each_craft_is_learned_by_its_own_measure(
    pen: Pen, act: Payload, about: dict[str, Any], craft: str, usual: tuple[str, float]
) -> None:
    took = 2.0 * usual_minutes(*usual)
    for day in range(1, HALF_BELIEVED + 1):
        if isinstance(act, kinds.Tended) or day == 1:
            log(pen, act, took, day=day, job=craft, **about)
    found = pace_of(pen)
    count = found.events[craft]
    # as if the usual time had been taken three times more
    assert found.factor == {craft: pytest.approx(2.0 ** (count / (count + HALF_BELIEVED)), rel=1e-6)}
    assert count == (HALF_BELIEVED if isinstance(act, kinds.Tended) else 1)


def test_sowing_and_setting_out_teach_too() -> None:
    pen = Pen()
    pen(kinds.BedSet(name="b1"), bed="b1")
    log(
        pen, kinds.Sown(planting="c", crop="carrot", **CARROTS), 3.0 * usual_minutes("sow", 8.0),
        day=1, job="sow-carrot", bed="b1", planting="c",
    )  # fmt: skip
    log(
        pen, kinds.PlantedOut(planting="t", crop="tomato", plants=10), 3.0 * usual_minutes("plant", 10.0),
        day=1, job="planting out", bed="b1", planting="t",
    )  # fmt: skip
    found = pace_of(pen)
    assert found.factor == pytest.approx({"sowing": 3.0**0.25, "planting out": 3.0**0.25})
    assert found.minutes("sow", 8.0) == pytest.approx(usual_minutes("sow", 8.0) * 3.0**0.25)
    assert found.minutes("thin", 8.0) == usual_minutes("thin", 8.0)


def test_hoeing_and_hand_weeding_are_two_paces(pen: Pen) -> None:
    for day in range(1, 7):
        log(pen, kinds.Tended(act="hoed"), usual_minutes("weed thread", AREA_M2) / 2, day=day, bed="b1")
        log(pen, kinds.Tended(act="weeded"), usual_minutes("weed small", AREA_M2) * 2, day=day, bed="b2")
    found = pace_of(pen)
    assert found.factor["hoeing"] == pytest.approx(2.0 ** (-2 / 3))
    assert found.factor["hand weeding"] == pytest.approx(2.0 ** (2 / 3))


def test_what_was_left_long_is_not_held_to_be_slow_work(pen: Pen) -> None:
    log(pen, kinds.Tended(act="weeded"), 1.0, day=1, bed="b1")
    large = RATES["weed small"].start + RATES["weed large"].minutes * AREA_M2
    log(pen, kinds.Tended(act="weeded"), large, day=61, bed="b1")
    long_left = pace_of(pen)
    first = math.log(max(1.0 / usual_minutes("weed small", AREA_M2), 1 / SLOWEST))
    assert long_left.factor["hand weeding"] == pytest.approx(math.exp(first / (2 + HALF_BELIEVED)))


def test_a_person_has_a_pace_beside_the_gardens(pen: Pen) -> None:
    usual = usual_minutes("weed small", AREA_M2)
    for day in range(1, 4):
        log(pen, kinds.Tended(act="weeded"), usual, day=day, bed="b1", author="ann")
        log(pen, kinds.Tended(act="weeded"), 3.0 * usual, day=day, bed="b2", author="ben")
    found = pace_of(pen)
    garden = 3.0 ** (3 / 9)
    assert found.factor["hand weeding"] == pytest.approx(garden)
    assert found.beside("ann", "hand weeding") == pytest.approx(garden**-0.5)
    assert found.beside("ben", "hand weeding") == pytest.approx((3.0 / garden) ** 0.5)
    assert found.beside("ben", "thinning") == 1.0
    assert found.beside("zoe", "hand weeding") == 1.0


def test_what_several_did_together_is_the_gardens_and_nobodys_own(pen: Pen) -> None:
    usual = usual_minutes("weed small", AREA_M2)
    log(pen, kinds.Tended(act="weeded"), usual / 2, day=1, people=2, bed="b1")
    found = pace_of(pen)
    assert found.factor["hand weeding"] == pytest.approx(1.0)
    assert found.own == {}


def test_time_of_several_beds_is_measured_by_all_of_them(pen: Pen) -> None:
    one = pen(kinds.Tended(act="weeded"), day=1, bed="b1")
    pen(kinds.Tended(act="weeded"), day=1, bed="b2", recorded_at=one.recorded_at)
    both = RATES["weed small"].start + 2 * RATES["weed small"].minutes * AREA_M2
    pen(kinds.Minutes(minutes=2.0 * both, job="weeding"), day=1, recorded_at=one.recorded_at)
    assert pace_of(pen).factor["hand weeding"] == pytest.approx(2.0**0.25)


def test_time_told_later_that_day_belongs_to_what_was_done_there(pen: Pen) -> None:
    pen(kinds.Tended(act="weeded"), day=1, bed="b1")
    pen(kinds.Thinned(removed=100), day=1, planting="c")
    pen(kinds.Minutes(minutes=2.0 * usual_minutes("weed small", AREA_M2), job="weeding"), day=1, bed="b1")
    assert pace_of(pen).factor == {"hand weeding": pytest.approx(2.0**0.25)}


@pytest.mark.parametrize(
    ("act", "about"),
    [
        (kinds.Picked(pieces=8), {"planting": "t"}),
        (kinds.Thinned(left=100), {"planting": "c"}),
        (kinds.Watered(minutes=20.0), {"bed": "b1"}),
        (kinds.Note(text="tidied"), {"bed": "b1"}),
    ],
)
def test_what_has_no_measure_teaches_nothing(pen: Pen, act: Payload, about: dict[str, Any]) -> None:
    log(pen, act, 30.0, day=1, **about)
    assert pace_of(pen) == Pace()


def test_nobody_is_held_to_be_ever_so_slow(pen: Pen) -> None:
    log(pen, kinds.Tended(act="weeded"), 600.0, day=1, bed="b1")
    assert pace_of(pen).factor["hand weeding"] == pytest.approx(SLOWEST**0.25)


def test_the_craft_of_a_job_is_that_of_what_it_writes() -> None:
    assert craft_of((kinds.Tended(act="hoed"),)) == "hoeing"
    assert craft_of((kinds.KitSet(item="net", sort="netting"), kinds.Thinned(removed=3))) == "thinning"
    assert craft_of(()) == ""
