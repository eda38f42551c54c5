"""Guarding tender plants and ripe crops, on small invented gardens."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import numpy as np
import pytest

from book_entries import entry
from scenes import Weather, bed, only, said, scene_of
from spadework.advice.guarding import idle
from spadework.advice.jobs import guard
from spadework.advice.scene import Scene
from spadework.garden import entries as kinds
from spadework.garden.entries import Entry
from spadework.garden.fold import fold

PEAS = kinds.Sown(planting="pea-1", crop="pea", rows=2, row_length_m=2.0, seeds=120)
UP = said(kinds.Stage(what="up"), "2026-05-06", planting="pea-1")
GARDEN = [bed(), said(PEAS, "2026-04-20", bed="bed-1"), UP]
NET = said(kinds.KitSet(item="bird netting", sort="netting", length_m=10.0), "2026-01-01")
SCARE = said(kinds.KitSet(item="kite", sort="scare", pieces=2), "2026-01-01")


def test_tender_plants_are_netted_from_what_is_free() -> None:
    job = only(guard.jobs(scene_of([*GARDEN, NET], "2026-05-08")))
    assert job.act == "Put 2.4 m of bird netting over the peas in Bed 1"
    assert isinstance(job.done[0], kinds.Moved)
    assert job.done[0].act == "on"
    assert "traps birds" in job.cautions[0].text
    assert 0.0 < job.forfeit(1) < job.forfeit(7)


def test_with_nothing_owned_a_screen_of_sixty_centimetres_is_made() -> None:
    # common practice, no source: a screen of about 60 cm that hides the plants keeps walking birds out
    assert "about 60 cm" in only(guard.jobs(scene_of(GARDEN, "2026-05-08"))).act


def test_a_screen_is_for_those_on_foot_and_strips_for_those_that_fly() -> None:
    # common practice, no source: a screen of about 60 cm that hides the plants keeps walking birds out
    broad = kinds.Sown(planting="shallot-1", crop="shallot", rows=2, row_length_m=2.0, seeds=60)
    book = [
        bed(),
        said(broad, "2026-04-20", bed="bed-1"),
        said(kinds.Stage(what="up"), "2026-05-06", planting="shallot-1"),
    ]
    thrushes = only(guard.jobs(scene_of(book, "2026-05-08")))
    assert thrushes.act.startswith("Put a string with fluttering strips over the shallots")
    peas = only(guard.jobs(scene_of(GARDEN, "2026-05-08")))
    netted = only(guard.jobs(scene_of([*GARDEN, NET], "2026-05-08")))
    # of those that eat peas half come on foot
    assert 0.0 < peas.forfeit(7) < netted.forfeit(7)


def test_a_screen_made_stands_there_the_next_day_and_is_not_taken_for_a_support() -> None:
    book = list(GARDEN)
    job = only(guard.jobs(scene_of(book, "2026-05-08")))
    done = [said(act, "2026-05-08", bed=job.bed, planting=job.planting) for act in job.done]
    scene = scene_of([*book, *done], "2026-05-09")
    assert not list(guard.jobs(scene))
    assert scene.garden.last_done("supported", planting="pea-1") is None
    assert only(guard.jobs(scene_of([*book, *done], "2026-05-12"))).id == "guard-bed-1-check"


def test_once_toughened_nothing_is_offered() -> None:
    # common practice, no source: safe about two to three weeks after emergence, or by their leaves
    assert not list(guard.jobs(scene_of([*GARDEN, NET], "2026-06-08", Weather(mean_c=11.0))))


def test_damage_seen_makes_it_likelier() -> None:
    pecked = said(kinds.Seen(what="pigeons pecked the peas", sort="damage"), "2026-05-07", bed="bed-1")
    plain = only(guard.jobs(scene_of([*GARDEN, NET], "2026-05-08")))
    seen = only(guard.jobs(scene_of([*GARDEN, NET, pecked], "2026-05-08")))
    assert seen.forfeit(7) > 2.0 * plain.forfeit(7)
    assert "pigeons" in seen.reason


def test_a_net_that_lies_is_looked_at_and_a_scare_that_stands_is_moved() -> None:
    on = said(kinds.Moved(act="on", item="bird netting", length_m=2.4), "2026-05-07", bed="bed-1")
    assert not list(guard.jobs(scene_of([*GARDEN, NET, on], "2026-05-08")))
    check = only(guard.jobs(scene_of([*GARDEN, NET, on], "2026-05-12")))
    assert check.id == "guard-bed-1-check"
    looked = said(kinds.Tended(act="looked over"), "2026-05-12", bed="bed-1", planting="pea-1")
    assert not list(guard.jobs(scene_of([*GARDEN, NET, on, looked], "2026-05-12")))
    stands = said(kinds.Moved(act="on", item="kite", pieces=1), "2026-05-07", bed="bed-1")
    assert not list(guard.jobs(scene_of([*GARDEN, SCARE, stands], "2026-05-08")))
    move = only(guard.jobs(scene_of([*GARDEN, SCARE, stands], "2026-05-12")))
    assert move.act.startswith("Move the kite")
    assert move.forfeit(7) > 0.0


def _row(crop: str, along_m: float, *, sown: str = "2026-04-20") -> list[Entry]:
    key = f"{crop}-1"
    act = kinds.Sown(
        planting=key,
        crop=crop,
        rows=2,
        row_length_m=1.0,
        seeds=60,
        block=kinds.Block(along_m=along_m, width_m=1.2, length_m=1.0),
    )
    return [
        said(act, sown, bed="bed-1", planting=key),
        said(kinds.Stage(what="up"), "2026-05-06", planting=key),
    ]


LONG = bed(width_m=1.2, length_m=6.0, x_m=0.0, y_m=0.0)


def test_a_bed_with_three_tender_plantings_gets_one_net_over_all_of_them() -> None:
    three = [LONG, NET, *_row("pea", 0.0), *_row("lettuce", 1.0), *_row("spinach", 3.0)]
    job = only(guard.jobs(scene_of(three, "2026-05-08")))
    assert job.act == "Put 4 m of bird netting over the leaf lettuce, peas and spinach in Bed 1"
    assert job.take[0].length_m == pytest.approx(4.0)
    assert (job.id, job.planting, job.crop) == ("guard-bed-1-up", "", "")
    alone = [
        only(guard.jobs(scene_of([LONG, NET, *_row(crop, 0.0)], "2026-05-08"))) for crop in ("pea", "lettuce")
    ]
    assert job.worth > sum(each.worth for each in alone)
    # one net is fetched and pegged once
    assert job.minutes < 3.0 * alone[0].minutes


def test_a_part_of_a_bed_is_netted_where_only_that_is_tender() -> None:
    part = [
        LONG,
        NET,
        *_row("pea", 2.0),
        said(kinds.Sown(planting="onion-1", crop="onion"), "2026-04-20", bed="bed-1"),
    ]
    job = only(guard.jobs(scene_of(part, "2026-05-08")))
    assert job.take[0].length_m == pytest.approx(1.0)
    assert (job.planting, job.crop) == ("pea-1", "pea")


def test_netting_goes_where_a_metre_saves_most_and_is_not_given_out_twice() -> None:
    beds = [
        bed(width_m=1.2, length_m=2.0),
        bed("bed-2", "Bed 2", width_m=1.2, length_m=2.0, x_m=2.0),
        said(PEAS, "2026-04-20", bed="bed-1"),
        UP,
        said(
            kinds.Sown(planting="pea-2", crop="pea", rows=1, row_length_m=0.5, seeds=10, area_m2=0.2),
            "2026-04-20",
            bed="bed-2",
        ),
        said(kinds.Stage(what="up"), "2026-05-06", planting="pea-2"),
        said(kinds.KitSet(item="bird netting", sort="netting", length_m=3.0), "2026-01-01"),
    ]
    jobs = {job.bed: job for job in guard.jobs(scene_of(beds, "2026-05-08"))}
    assert sum(take.length_m or 0.0 for job in jobs.values() for take in job.take) <= 3.0
    more, less = sorted(jobs.values(), key=lambda job: -job.worth * job.forfeit(7))
    assert more.take[0].what == "bird netting"
    assert not less.take or (less.take[0].length_m is not None and less.take[0].length_m <= 1.0)


GROWN = "2026-06-16"
LETTUCE = kinds.Sown(planting="lettuce-1", crop="lettuce", rows=2, row_length_m=2.0, seeds=80)
LEAVES = [
    bed(),
    said(LETTUCE, "2026-04-20", bed="bed-1"),
    said(kinds.Stage(what="up"), "2026-05-06", planting="lettuce-1"),
]
ON = said(kinds.Moved(act="on", item="bird netting", length_m=2.4), "2026-05-08", bed="bed-1")


def _folded(scene: Scene, entries: list[Entry], on: str) -> float | None:
    """Netting free after the one job of the scene is written down."""
    job = only(guard.jobs(scene))
    done = [
        entry(act, happened_on=date.fromisoformat(on), bed=job.bed, planting=job.planting) for act in job.done
    ]
    return fold([*entries, *done], day=date.fromisoformat(on)).kit["bird netting"].free_m


def test_netting_comes_off_once_nothing_under_it_is_tender_and_is_back_on_the_shelf() -> None:
    book = [*LEAVES, NET, ON]
    scene = scene_of(book, GROWN, Weather(mean_c=11.0))
    assert idle(scene.plots[0])
    job = only(guard.jobs(scene))
    assert job.act == "Take the bird netting off the leaf lettuce in Bed 1"
    assert "tender no more" in job.reason
    assert 0.0 < job.forfeit(1) < job.forfeit(7)
    assert scene.garden.kit["bird netting"].free_m == pytest.approx(7.6)
    assert _folded(scene, book, GROWN) == pytest.approx(10.0)


def test_netting_put_up_as_said_is_off_the_shelf() -> None:
    book = [*GARDEN, NET]
    assert _folded(scene_of(book, "2026-05-08"), book, "2026-05-08") == pytest.approx(7.6)


def test_mesh_comes_off_for_the_bees_and_netting_need_not() -> None:
    squash = [
        bed(),
        said(
            kinds.PlantedOut(planting="summer-squash-1", crop="summer-squash", plants=3),
            "2026-05-25",
            bed="bed-1",
        ),
        said(kinds.Stage(what="first flower"), "2026-07-10", planting="summer-squash-1"),
        said(kinds.KitSet(item="mesh", sort="mesh", length_m=10.0), "2026-01-01"),
        said(kinds.Moved(act="on", item="mesh", length_m=2.4), "2026-05-26", bed="bed-1"),
    ]
    job = only(guard.jobs(scene_of(squash, "2026-07-14", Weather(mean_c=12.0))))
    assert job.act.startswith("Take the mesh off the courgettes")
    assert "bees cannot reach" in job.reason


def test_a_net_that_serves_no_more_is_worth_more_where_another_bed_stands_bare() -> None:
    short = said(kinds.KitSet(item="bird netting", sort="netting", length_m=2.4), "2026-01-01")
    late = [
        bed("bed-2", "Bed 2", x_m=3.0),
        said(
            kinds.Sown(planting="spinach-1", crop="spinach", rows=2, row_length_m=2.0, seeds=80),
            "2026-06-07",
            bed="bed-2",
        ),
        said(kinds.Stage(what="up"), "2026-06-16", planting="spinach-1"),
    ]
    warm = Weather(mean_c=11.0)
    alone = only(guard.jobs(scene_of([*LEAVES, short, ON], GROWN, warm)))
    jobs = {job.id: job for job in guard.jobs(scene_of([*LEAVES, short, ON, *late], GROWN, warm))}
    off = jobs["guard-bed-1-off"]
    assert "no other is left for the spinach in Bed 2" in off.reason
    assert off.worth * off.forfeit(7) > alone.worth * alone.forfeit(7)
    assert not jobs["guard-bed-2-up"].take


def test_after_a_windy_day_a_net_is_looked_at_the_next_morning() -> None:
    on = said(kinds.Moved(act="on", item="bird netting", length_m=2.4), "2026-05-07", bed="bed-1")
    scene = scene_of([*GARDEN, NET, on], "2026-05-08")
    assert not list(guard.jobs(scene))
    wind = np.full(scene.ground.years.tmin_c.shape, 3.0)
    wind[:, scene.column - 1] = 9.0
    blown = replace(scene, ground=replace(scene.ground, years=replace(scene.ground.years, wind_m_s=wind)))
    job = only(guard.jobs(blown))
    assert job.id == "guard-bed-1-check"
    assert job.reason.startswith("Gusts of about 14 m/s pulled at it")
    assert job.done == (kinds.Tended(act="looked over"),)


def test_plants_set_out_with_leaves_are_netted_all_the_same() -> None:
    cabbages = kinds.PlantedOut(planting="c", crop="cabbage", plants=12, area_m2=2.0)
    net = said(kinds.KitSet(item="net", sort="netting", length_m=12.0), "2026-01-10")
    garden = [bed(), net, said(cabbages, "2026-05-01", bed="bed-1")]
    job = only(guard.jobs(scene_of(garden, "2026-05-10")))
    assert "net over the cabbages" in job.act
    assert job.forfeit(7) > 0.01
