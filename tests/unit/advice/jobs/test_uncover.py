"""Opening and taking off covers, on small invented gardens."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from scenes import Weather, bed, only, said, scene_of
from spadework.advice.cover_state import BEES_LOSS, HEAT_LOSS, hands_said, set_by_hand, settle
from spadework.advice.jobs import cover, uncover
from spadework.clock.cover import FLEECE
from spadework.garden import entries as kinds

TODAY = date(2026, 5, 28)
GARDEN = [
    bed(),
    said(kinds.KitSet(item="fleece", sort="fleece", length_m=10.0), "2026-01-01"),
    said(kinds.PlantedOut(planting="tomato-1", crop="tomato", plants=6), "2026-05-20", bed="bed-1"),
    said(kinds.Moved(act="on", item="fleece", length_m=2.4), "2026-05-27", bed="bed-1"),
]


def _weather(low_c: float, high_c: float) -> Weather:
    days = [TODAY + timedelta(days=day) for day in range(10)]
    return Weather(low_c=dict.fromkeys(days, low_c), high_c=dict.fromkeys(days, high_c))


def test_on_a_cool_day_between_frosts_a_cover_that_is_meant_to_stay_stays_on() -> None:
    lies = said(kinds.Moved(act="on", item="fleece", length_m=2.4), "2026-05-21", bed="bed-1")
    assert not list(uncover.jobs(scene_of([*GARDEN[:-1], lies], TODAY, _weather(0.0, 14.0))))


@pytest.mark.parametrize(("high_c", "hour"), [(14.0, 10), (32.0, 9)])
def test_what_was_laid_for_last_nights_frost_is_opened_by_an_hour(high_c: float, hour: int) -> None:
    job = only(uncover.jobs(scene_of(GARDEN, TODAY, _weather(0.0, high_c))))
    assert job.act == f"Open the fleece over Bed 1 by {hour} o'clock, and shut it before sunset"
    assert (job.needs, job.until_hour) == (("morning",), 11.0)
    assert "last night's frost" in job.reason
    # what it costs to leave it is the light at least: 15 in 100 of a day of the ready days
    assert job.forfeit(1) > 0.001


def test_what_was_shut_again_yesterday_is_opened_again() -> None:
    lies = said(kinds.Moved(act="on", item="fleece", length_m=2.4), "2026-05-21", bed="bed-1")
    opened = said(kinds.Moved(act="opened", item="fleece"), "2026-05-27", bed="bed-1")
    shut = said(kinds.Moved(act="shut", item="fleece"), "2026-05-27", bed="bed-1")
    job = only(uncover.jobs(scene_of([*GARDEN[:-1], lies, opened, shut], TODAY, _weather(0.0, 14.0))))
    assert job.done == (kinds.Moved(act="opened", item="fleece"),)


def test_with_no_frost_to_come_last_nights_cover_comes_off_by_an_hour() -> None:
    warm = _weather(11.0, 20.0)
    warm.low_c[TODAY] = 0.0
    job = only(uncover.jobs(scene_of(GARDEN, TODAY, warm)))
    assert job.act == "Take the fleece off Bed 1 by 10 o'clock"
    assert job.done == (kinds.Moved(act="off", item="fleece"),)


def test_a_cover_that_keeps_birds_off_tender_rows_stays_where_nothing_else_does() -> None:
    peas = [
        bed(),
        said(kinds.KitSet(item="fleece", sort="fleece", length_m=10.0), "2026-01-01"),
        said(kinds.KitSet(item="net", sort="netting", length_m=10.0), "2026-01-01"),
        said(
            kinds.Sown(planting="pea-1", crop="pea", rows=2, row_length_m=2.0, seeds=99),
            "2026-04-20",
            bed="bed-1",
        ),
        said(kinds.Stage(what="up"), "2026-05-06", planting="pea-1"),
        said(kinds.Seen(what="pigeons pecked the peas", sort="damage"), "2026-05-07", bed="bed-1"),
        said(kinds.Moved(act="on", item="fleece", length_m=2.4), "2026-05-08", bed="bed-1"),
    ]
    mild = Weather(low_c={date(2026, 5, 10): 8.0}, high_c={date(2026, 5, 10): 15.0})
    scene = scene_of(peas, "2026-05-10", mild)
    assert settle(scene, scene.plots, FLEECE, lies=True).eaten > 0.0
    net = said(kinds.Moved(act="on", item="net", length_m=2.4), "2026-05-08", bed="bed-1")
    netted = scene_of([*peas, net], "2026-05-10", mild)
    assert settle(netted, netted.plots, FLEECE, lies=True).eaten == 0.0


def test_on_a_hot_day_between_frosts_it_is_opened_and_shut_again() -> None:
    job = only(uncover.jobs(scene_of(GARDEN, TODAY, _weather(0.0, 32.0))))
    assert job.kind == "vent"
    assert job.done == (kinds.Moved(act="opened", item="fleece"),)
    assert "shut it before sunset" in job.act
    assert job.cautions
    assert 0.0 < job.forfeit(1) < job.forfeit(7)


def test_with_no_frost_to_come_it_comes_off() -> None:
    job = only(uncover.jobs(scene_of(GARDEN, TODAY, _weather(11.0, 22.0))))
    assert job.kind == "uncover"
    assert job.done == (kinds.Moved(act="off", item="fleece"),)


def test_heat_costs_by_the_degree_above_the_limit() -> None:
    scene = scene_of(GARDEN, TODAY, _weather(0.0, 32.0))
    found = settle(scene, scene.plots, FLEECE, lies=True)
    assert found.under_c == pytest.approx(32.0 + FLEECE.day_c)
    assert found.heat == pytest.approx(HEAT_LOSS * (found.under_c - found.limit_c))
    assert found.state != found.second


@pytest.mark.parametrize("low_c", [-2.0, 0.0, 2.0, 4.0, 8.0, 12.0])
@pytest.mark.parametrize("high_c", [14.0, 24.0, 34.0])
def test_a_bed_gets_one_state(low_c: float, high_c: float) -> None:
    scene = scene_of(GARDEN, TODAY, _weather(low_c, high_c))
    assert len([*cover.jobs(scene), *uncover.jobs(scene)]) <= 1


def _flowering(crop: str) -> list[kinds.Entry]:
    return [
        bed(),
        said(kinds.PlantedOut(planting=f"{crop}-1", crop=crop, plants=4), "2026-05-20", bed="bed-1"),
        said(kinds.Stage(what="first flower"), "2026-06-20", planting=f"{crop}-1"),
    ]


def test_flowers_can_be_set_by_hand_instead_of_opening_for_the_bees() -> None:
    scene = scene_of(_flowering("summer-squash"), "2026-06-24")
    plots = tuple(scene.in_bed("bed-1"))
    found = settle(scene, plots, FLEECE, lies=False)
    assert found.bees == pytest.approx(BEES_LOSS, rel=0.2)
    by_hand = set_by_hand(plots, found)
    assert by_hand is not None
    # the flowers are set and only the minutes cost: less than shut without bees, in a bed worth them
    assert float(by_hand.mean()) < float(found.cost["shut"].mean())
    assert float(by_hand.mean()) > float(found.cost["shut"].mean()) - found.bees


def test_the_job_says_of_flowers_set_by_hand_what_weighing_the_cover_says() -> None:
    laid = [
        said(kinds.KitSet(item="fleece", sort="fleece", length_m=10.0), "2026-01-01"),
        said(kinds.Moved(act="on", item="fleece", length_m=2.4), "2026-06-10", bed="bed-1"),
    ]
    scene = scene_of([*_flowering("summer-squash"), *laid], "2026-06-24")
    plots = tuple(scene.in_bed("bed-1"))
    told = hands_said(plots, settle(scene, plots, FLEECE, lies=True))
    assert "by hand" in told
    assert "each morning and costs" in told
    assert told in only(uncover.jobs(scene)).reason
    bare = scene_of(_flowering("beet"), "2026-06-24")
    plots = tuple(bare.in_bed("bed-1"))
    assert hands_said(plots, settle(bare, plots, FLEECE, lies=False)) == ""


def test_what_needs_no_bees_or_cannot_be_set_by_hand_has_no_such_way() -> None:
    for crop in ("beet", "fava-bean"):
        scene = scene_of(_flowering(crop), "2026-06-24")
        plots = tuple(scene.in_bed("bed-1"))
        assert set_by_hand(plots, settle(scene, plots, FLEECE, lies=False)) is None
