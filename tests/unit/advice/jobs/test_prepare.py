"""Preparing ground and starting indoors, on small invented gardens."""

from __future__ import annotations

from datetime import date

from scenes import Weather, bed, only, said, scene_of
from spadework.advice.jobs import prepare, sow, start_indoors
from spadework.garden import entries as kinds

MILD = Weather(rain_every=0)
BEANS = said(kinds.LotSet(lot="bean-25", crop="bush-bean", year=2025, seeds=200), "2026-01-10")
CLAY = [bed(soil="clay loam"), BEANS]
SHELF = bed("shelf", "Shelf", shape="shelf", width_m=0.6, length_m=2.0, x_m=-5.0)
CABBAGE = said(kinds.LotSet(lot="cabbage-26", crop="cabbage", year=2026, seeds=60), "2026-01-10")
GREW = [
    said(kinds.PlantedOut(planting="cabbage-2025-1", crop="cabbage", plants=10), "2025-05-10", bed="bed-2"),
    said(kinds.Ended(how="cleared"), "2025-09-01", planting="cabbage-2025-1"),
]
PLOT = [SHELF, bed(), bed("bed-2", "Bed 2", x_m=2.0), CABBAGE, *GREW]


def test_too_wet_to_work_names_the_first_fit_day() -> None:
    soaked = Weather(rain_every=0, rain_mm={date(2026, 7, day): 30.0 for day in (4, 5)})
    scene = scene_of(CLAY, "2026-07-05", soaked)
    job = only(prepare.jobs(scene))
    assert job.reason.startswith("Too wet to work")
    assert date(2026, 7, 7) <= job.window.opens <= date(2026, 7, 12)
    assert "crumble" in job.test
    assert isinstance(job.done[0], kinds.Tended)
    # nothing is sown on that day either
    assert all(
        each.window.opens > date(2026, 7, 5) for each in sow.jobs(scene_of(CLAY, "2026-07-05", soaked))
    )


def test_a_squeezed_handful_that_smears_goes_before_the_balance() -> None:
    smears = said(kinds.SoilFelt(squeeze="smears"), "2026-07-05", bed="bed-1")
    job = only(prepare.jobs(scene_of([*CLAY, smears], "2026-07-05", MILD)))
    assert "smears" in job.reason


def test_what_is_sown_today_is_raked_with_the_sowing_and_prepared_ground_is_left() -> None:
    assert not list(prepare.jobs(scene_of(CLAY, "2026-07-05", MILD)))
    soaked = Weather(rain_every=0, rain_mm={date(2026, 7, day): 30.0 for day in (4, 5)})
    done = said(kinds.Tended(act="prepared"), "2026-07-01", bed="bed-1")
    assert not list(prepare.jobs(scene_of([*CLAY, done], "2026-07-05", soaked)))


def test_waiting_costs_where_wet_spells_come() -> None:
    wet_later = {date(2026, 7, day): 40.0 for day in (8, 9, 10, 13, 16)}
    soaked = Weather(rain_every=0, rain_mm={date(2026, 7, 5): 18.0, **wet_later})
    dry = Weather(rain_every=0, rain_mm={date(2026, 7, 5): 18.0})
    wet_job = only(prepare.jobs(scene_of(CLAY, "2026-07-05", soaked)))
    dry_job = only(prepare.jobs(scene_of(CLAY, "2026-07-05", dry)))
    assert wet_job.forfeit(7) > dry_job.forfeit(7) >= 0.0


def test_indoors_it_is_begun_so_many_weeks_before_and_no_earlier() -> None:
    assert not [
        job for job in start_indoors.jobs(scene_of(PLOT, "2026-01-10", MILD)) if job.forfeit(7) > 1e-3
    ]
    job = only(start_indoors.jobs(scene_of(PLOT, "2026-04-05", MILD)))
    assert job.bed == "shelf"
    assert job.forfeit(21) > job.forfeit(7) > 0.0
    (sown,) = job.done
    assert isinstance(sown, kinds.Sown)
    assert sown.method == "raised"
    assert sown.tray
    assert sown.seeds is not None
    assert sown.seeds <= 60


def test_nothing_is_begun_without_a_shelf_or_with_some_on_it() -> None:
    no_shelf = [entry for entry in PLOT if entry is not SHELF]
    assert not list(start_indoors.jobs(scene_of(no_shelf, "2026-04-05", MILD)))
    tray = said(
        kinds.Sown(planting="cabbage-2026-1", crop="cabbage", method="raised", seeds=20, tray="tray"),
        "2026-04-01",
        bed="shelf",
    )
    assert not list(start_indoors.jobs(scene_of([*PLOT, tray], "2026-04-05", MILD)))
