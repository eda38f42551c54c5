"""Pricking out, potting on, hardening off and planting out, on small invented gardens."""

from __future__ import annotations

from datetime import date, timedelta

import numpy as np

from scenes import Weather, bed, only, said, scene_of
from spadework.advice.jobs import harden_off, plant_out, pot_on, prick_out
from spadework.garden import entries as kinds
from spadework.garden.entries import Entry

SHELF = bed("shelf", "Shelf", shape="shelf", width_m=0.6, length_m=2.0, x_m=-5.0)
BEDS = [SHELF, bed(width_m=1.2, length_m=5.0), bed("bed-2", "Bed 2", x_m=2.0, length_m=5.0)]
MILD = Weather(rain_every=0)


def tray(crop: str, sown: str, *, standing: int = 12, how: str = "seed tray", up: int = 8) -> list[Entry]:
    """A crop on the shelf, up and counted."""
    start = date.fromisoformat(sown)
    key = f"{crop}-1"
    return [
        said(kinds.Sown(planting=key, crop=crop, method="raised", seeds=30, tray=how), start, bed="shelf"),
        said(kinds.Stage(what="up"), start + timedelta(days=up), planting=key),
        said(kinds.Counted(standing=standing), start + timedelta(days=up + 1), planting=key),
    ]


def hardened(key: str, first: str, days: int, hours: float) -> list[Entry]:
    """Stood outside for so many hours on each of some days."""
    start = date.fromisoformat(first)
    act = kinds.Tended(act="hardened off", material=f"{hours:g} h outside")
    return [said(act, start + timedelta(days=day), planting=key) for day in range(days)]


# -- prick out -----------------------------------------------------------------------------------------------


def test_seedlings_are_pricked_out_at_their_first_leaf_and_torn_later() -> None:
    entries = [*BEDS, *tray("tomato", "2026-03-20")]
    early = only(prick_out.jobs(scene_of(entries, "2026-03-30", MILD)))
    late = only(prick_out.jobs(scene_of(entries, "2026-04-20", MILD)))
    assert early.window.opens > date(2026, 3, 30)
    assert late.window.opens == date(2026, 4, 20)
    assert early.forfeit(3) == 0.0
    assert late.forfeit(3) > 0.0
    (act,) = late.done
    assert isinstance(act, kinds.PrickedOut)
    assert act.plants == 12


def test_cells_and_what_is_done_need_no_pricking_out() -> None:
    cells = [*BEDS, *tray("tomato", "2026-03-20", how="cell trays")]
    assert not list(prick_out.jobs(scene_of(cells, "2026-04-20", MILD)))
    done = said(kinds.PrickedOut(plants=12, into="cells"), "2026-04-10", planting="tomato-1")
    entries = [*BEDS, *tray("tomato", "2026-03-20"), done]
    assert not list(prick_out.jobs(scene_of(entries, "2026-04-20", MILD)))


# -- pot on --------------------------------------------------------------------------------------------------


def test_potting_on_waits_for_the_plant_and_not_for_a_date() -> None:
    entries = [*BEDS, *tray("tomato", "2026-03-20", how="cell trays")]
    assert not list(pot_on.jobs(scene_of(entries, "2026-04-01", MILD)))
    job = only(pot_on.jobs(scene_of(entries, "2026-04-20", MILD)))
    assert job.forfeit(14) > job.forfeit(3) >= 0.0
    done = said(kinds.Tended(act="potted on"), "2026-04-20", planting="tomato-1")
    assert not list(pot_on.jobs(scene_of([*entries, done], "2026-04-20", MILD)))


# -- harden off ----------------------------------------------------------------------------------------------


def test_hours_outside_grow_and_the_night_comes_last() -> None:
    entries = [*BEDS, *tray("cabbage", "2026-03-20", how="cell trays")]
    first = only(harden_off.jobs(scene_of(entries, "2026-05-05", MILD)))
    assert "in shade for 2 h; in tonight" in first.act
    more = [*entries, *hardened("cabbage-1", "2026-04-29", 6, 6.0)]
    later = only(harden_off.jobs(scene_of(more, "2026-05-05", MILD)))
    assert "in full sun" in later.act
    assert "stay out tonight" in later.act
    cold = Weather(rain_every=0, low_c={date(2026, 5, 6): -6.0})
    assert only(harden_off.jobs(scene_of(more, "2026-05-05", cold))).act.endswith("in tonight")


def test_not_on_a_day_too_cold_for_it_and_not_twice() -> None:
    entries = [*BEDS, *tray("tomato", "2026-03-20", how="cell trays")]
    cold = Weather(rain_every=0, high_c={date(2026, 5, 5): 8.0})
    job = only(harden_off.jobs(scene_of(entries, "2026-05-05", cold)))
    assert job.window.opens > date(2026, 5, 5)
    today = hardened("tomato-1", "2026-05-05", 1, 2.0)
    assert not list(harden_off.jobs(scene_of([*entries, *today], "2026-05-05", MILD)))
    # made anew the next morning, from the hours so far and that day's weather
    again = only(harden_off.jobs(scene_of([*entries, *today], "2026-05-06", MILD)))
    warmer = only(
        harden_off.jobs(scene_of([*entries, *hardened("tomato-1", "2026-05-03", 3, 4.0)], "2026-05-06", MILD))
    )
    assert "for 2 h" in again.act
    assert "for 2 h" not in warmer.act


def test_a_plant_that_is_hard_needs_no_more() -> None:
    entries = [
        *BEDS,
        *tray("cabbage", "2026-03-20", how="cell trays"),
        *hardened("cabbage-1", "2026-04-25", 8, 8.0),
    ]
    assert not list(harden_off.jobs(scene_of(entries, "2026-05-05", MILD)))


# -- plant out -----------------------------------------------------------------------------------------------

CABBAGES = [
    *BEDS,
    *tray("cabbage", "2026-03-20", how="cell trays"),
    *hardened("cabbage-1", "2026-04-25", 8, 8.0),
]


def test_hard_plants_go_into_warm_ground_with_room() -> None:
    job = only(plant_out.jobs(scene_of(CABBAGES, "2026-05-05", MILD)))
    assert job.id == "plant-out-cabbage-1"
    act = job.done[0]
    assert isinstance(act, kinds.PlantedOut)
    assert act.plants == 12
    assert act.planting == "cabbage-1"
    assert act.block is not None
    assert job.forfeit(1) < job.forfeit(7) < job.forfeit(21)
    assert "kneeling" in job.strains


def test_unhardened_plants_are_hardened_first() -> None:
    entries = [*BEDS, *tray("cabbage", "2026-03-20", how="cell trays")]
    assert not list(plant_out.jobs(scene_of(entries, "2026-05-05", MILD)))


TOMATOES = [
    *BEDS,
    *tray("tomato", "2026-02-20", how="cell trays"),
    *hardened("tomato-1", "2026-04-20", 9, 9.0),
]


def test_tomatoes_wait_for_warm_nights_and_too_early_costs() -> None:
    early = list(plant_out.jobs(scene_of(TOMATOES, "2026-05-01", MILD)))
    assert all(job.window.opens > date(2026, 5, 1) for job in early)
    assert all(job.forfeit(1) < 0.01 for job in early)
    warm = only(plant_out.jobs(scene_of(TOMATOES, "2026-06-14", Weather(rain_every=0, mean_c=12.0))))
    assert warm.forfeit(14) > 0.02


def test_fleece_is_taken_where_it_lets_them_out_sooner() -> None:
    fleece = said(kinds.KitSet(item="fleece", sort="fleece", length_m=20.0), "2026-01-01")
    cool = Weather(rain_every=0, mean_c=10.0, half_range_c=6.0)

    def opens(entries: list[Entry]) -> date:
        jobs = list(plant_out.jobs(scene_of(entries, "2026-05-25", cool)))
        return jobs[0].window.opens if jobs else date.max

    assert opens([*TOMATOES, fleece]) < opens(TOMATOES)
    job = only(plant_out.jobs(scene_of([*TOMATOES, fleece], "2026-05-25", cool)))
    lengths = [take.length_m for take in job.take if take.what == "fleece"]
    assert len(lengths) == 1
    assert job.act.endswith("under fleece")
    out = said(kinds.Moved(act="on", item="fleece", length_m=20.0), "2026-05-20", bed="bed-2")
    assert "fleece" not in "".join(
        each.act for each in plant_out.jobs(scene_of([*TOMATOES, fleece, out], "2026-05-25", cool))
    )


def test_no_ground_no_planting_out() -> None:
    full = [
        said(kinds.Sown(planting=f"potato-{key}", crop="potato", area_m2=6.0), "2026-04-20", bed=key)
        for key in ("bed-1", "bed-2")
    ]
    assert not list(plant_out.jobs(scene_of([*CABBAGES, *full], "2026-05-05", MILD)))


def test_losses_are_shares_and_never_fall() -> None:
    scene = scene_of(CABBAGES, "2026-05-05", MILD)
    for finder in (plant_out.jobs, harden_off.jobs, pot_on.jobs, prick_out.jobs):
        for job in finder(scene):
            assert job.loss.shape == (scene.years, 22)
            assert np.all(job.loss >= 0.0)
            assert np.all(job.loss <= 1.0)
            assert np.all(np.diff(job.mean_loss) >= -1e-9)
