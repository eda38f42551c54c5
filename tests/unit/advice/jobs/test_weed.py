"""Weeding, on small invented gardens."""

from __future__ import annotations

from datetime import date

from scenes import Weather, bed, only, said, scene_of
from spadework.advice.jobs import weed
from spadework.garden import entries as kinds

CARROTS = kinds.Sown(planting="carrot-1", crop="carrot", rows=4, row_length_m=2.4, seeds=600)
GARDEN = [bed(), said(CARROTS, "2026-04-15", bed="bed-1")]
DRY_SPELL = Weather(rain_every=4, rain_of_mm=8.0)


def test_weekly_hoeing_of_a_bed_takes_about_two_minutes() -> None:
    # common practice, no source: a bed garden with mulched paths weeded weekly takes about two minutes a bed
    hoed = said(kinds.Tended(act="hoed"), "2026-05-26", bed="bed-1")
    for length_m in (3.4, 5.0):  # beds of 4 and 6 m2
        garden = [bed(length_m=length_m), *GARDEN[1:], hoed]
        job = only(weed.jobs(scene_of(garden, "2026-06-02", DRY_SPELL)))
        assert job.act == "Hoe Bed 1"
        assert 1.5 <= job.minutes <= 2.5


def test_left_longer_it_is_hand_work_and_takes_many_times_as_long() -> None:
    early = only(weed.jobs(scene_of([*GARDEN, said(_HOED, "2026-05-26", bed="bed-1")], "2026-06-02")))
    later = only(weed.jobs(scene_of([*GARDEN, said(_HOED, "2026-05-14", bed="bed-1")], "2026-06-02")))
    late = only(weed.jobs(scene_of([*GARDEN, said(_HOED, "2026-04-20", bed="bed-1")], "2026-06-02")))
    assert later.act == "Hoe Bed 1 and pull what stands in its rows"
    assert late.act == "Weed Bed 1 by hand"
    assert late.minutes > 4.0 * early.minutes
    assert early.minutes < later.minutes < 0.5 * late.minutes
    # left a week it takes longer, and that counts beside the crop
    assert early.more_minutes(21) > 2.0
    assert early.saves(21) > early.worth * early.forfeit(21)


def test_in_an_empty_bed_they_stand_beside_no_crop() -> None:
    for hoed, what in (("2026-05-14", "Hoe Bed 1"), ("2026-04-01", "Weed Bed 1 by hand")):
        job = only(weed.jobs(scene_of([bed(), said(_HOED, hoed, bed="bed-1")], "2026-06-02")))
        assert job.act == what
        assert "crop" not in job.reason
        assert "plants" not in job.reason


_HOED = kinds.Tended(act="hoed")


def test_just_weeded_nothing_is_offered() -> None:
    hoed = said(_HOED, "2026-06-02", bed="bed-1")
    assert not list(weed.jobs(scene_of([*GARDEN, hoed], "2026-06-02")))


def test_in_the_critical_weeks_waiting_costs_and_after_them_hardly() -> None:
    within = only(
        weed.jobs(scene_of([*GARDEN, said(_HOED, "2026-05-20", bed="bed-1")], "2026-06-01", DRY_SPELL))
    )
    after = only(
        weed.jobs(scene_of([*GARDEN, said(_HOED, "2026-07-25", bed="bed-1")], "2026-08-05", DRY_SPELL))
    )
    assert within.forfeit(21) > within.forfeit(7) >= 0.0
    assert within.forfeit(14) > 0.05
    assert after.forfeit(14) < 0.02


def test_a_sowing_that_is_lost_can_be_sown_again_and_so_costs_less() -> None:
    lettuce = kinds.Sown(planting="lettuce-1", crop="lettuce", rows=4, row_length_m=2.4, seeds=200)
    tomato = kinds.PlantedOut(planting="tomato-1", crop="tomato", plants=6)
    hoed = said(_HOED, "2026-06-10", bed="bed-1")
    again = only(weed.jobs(scene_of([bed(), said(lettuce, "2026-06-01", bed="bed-1"), hoed], "2026-06-20")))
    once = only(weed.jobs(scene_of([bed(), said(tomato, "2026-06-01", bed="bed-1"), hoed], "2026-06-20")))
    assert again.loss.max() < once.loss.max()


def test_rain_today_spares_hoed_weeds_and_the_reason_says_so() -> None:
    hoed = said(_HOED, "2026-05-26", bed="bed-1")
    wet = Weather(rain_every=4, rain_mm={date(2026, 6, 2): 10.0, date(2026, 6, 3): 10.0})
    dry = Weather(rain_every=4, rain_mm={date(2026, 6, 2): 0.0, date(2026, 6, 3): 0.0})
    in_rain = only(weed.jobs(scene_of([*GARDEN, hoed], "2026-06-02", wet)))
    in_sun = only(weed.jobs(scene_of([*GARDEN, hoed], "2026-06-02", dry)))

    def dies(job: object) -> float:
        return float(next(f.value for f in job.facts if "die" in f.name))  # type: ignore[attr-defined]

    assert dies(in_rain) < 0.5 * dies(in_sun)


def test_hosts_of_the_crops_own_troubles_count_more() -> None:
    tomato = kinds.PlantedOut(planting="tomato-1", crop="tomato", plants=6)
    garden = [bed(), said(tomato, "2026-05-15", bed="bed-1"), said(_HOED, "2026-05-20", bed="bed-1")]
    host = said(kinds.Seen(what="Nightshade in flower", sort="weed"), "2026-06-01", bed="bed-1")
    plain = only(weed.jobs(scene_of(garden, "2026-06-03")))
    hosted = only(weed.jobs(scene_of([*garden, host], "2026-06-03")))
    assert "Nightshade" in hosted.reason
    assert hosted.forfeit(7) > plain.forfeit(7)


def test_weeds_that_shed_seed_cost_even_an_empty_bed() -> None:
    job = only(weed.jobs(scene_of([bed(), said(_HOED, "2026-05-01", bed="bed-1")], "2026-06-10")))
    assert job.forfeit(21) > 0.0


def test_in_a_tunnel_rain_saves_no_weed_from_the_hoe() -> None:
    hoed = said(_HOED, "2026-05-26", bed="bed-1")
    rain = Weather(rain_every=4, rain_mm={date(2026, 6, 2): 10.0, date(2026, 6, 3): 10.0})
    outside = only(weed.jobs(scene_of([*GARDEN, hoed], "2026-06-02", rain)))
    inside = only(weed.jobs(scene_of([bed(shape="tunnel"), *GARDEN[1:], hoed], "2026-06-02", rain)))
    share = {job.reason.partition("about ")[2][:2].strip() for job in (outside, inside)}
    assert len(share) == 2
    assert "a drier day serves better" in outside.reason
    assert "a drier day serves better" not in inside.reason


def test_what_holds_beds_is_weeded_bed_by_bed() -> None:
    tunnel = said(
        kinds.BedSet(name="Tunnel", shape="tunnel", width_m=3.0, length_m=8.0), "2026-03-01", bed="t"
    )
    inner = said(kinds.BedSet(name="East", width_m=1.2, length_m=7.0, inside="t"), "2026-03-01", bed="east")
    hoed = [said(_HOED, "2026-05-14", bed=each) for each in ("t", "east")]
    assert {job.bed for job in weed.jobs(scene_of([tunnel, *hoed], "2026-06-02"))} == {"t"}
    assert {job.bed for job in weed.jobs(scene_of([tunnel, inner, *hoed], "2026-06-02"))} == {"east"}
    # said of the tunnel, it was done to the bed in it
    whole = said(_HOED, "2026-06-02", bed="t")
    assert not list(weed.jobs(scene_of([tunnel, inner, *hoed, whole], "2026-06-02")))
    # what stands in the tunnel's own ground has only the ground that is left
    crop = said(CARROTS, "2026-04-15", bed="t")
    alone = {job.bed: job for job in weed.jobs(scene_of([tunnel, crop, *hoed], "2026-06-02"))}
    beside = {job.bed: job for job in weed.jobs(scene_of([tunnel, inner, crop, *hoed], "2026-06-02"))}
    assert beside["t"].minutes < alone["t"].minutes
