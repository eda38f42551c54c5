"""Sowing and the next of what stands, on small invented gardens."""

from __future__ import annotations

from datetime import date

import numpy as np
import pytest

from scenes import Weather, bed, only, said, scene_of
from spadework.advice.jobs import sow
from spadework.advice.soil_fit import fit_days, to_drain_mm
from spadework.advice.stand_wanted import seeds_per_m
from spadework.advice.wanted_crops import wanted
from spadework.crops.loader import load_sheet
from spadework.garden import entries as kinds

RADISH = kinds.Sown(
    planting="radish-2026-1", crop="radish", rows=4, row_cm=15.0, row_length_m=1.0, area_m2=0.6, seeds=200
)
LOT = said(kinds.LotSet(lot="radish-26", crop="radish", year=2026, seeds=900), "2026-01-10")
BEDS = [bed(width_m=1.2, length_m=2.4), bed("bed-2", "Bed 2", x_m=2.0)]
GARDEN = [*BEDS, LOT, said(RADISH, "2026-05-01", bed="bed-1")]
MILD = Weather(rain_every=0)


def test_the_next_sowing_opens_when_it_would_follow_the_one_before() -> None:
    """Right after a sowing the next is only a glut; two weeks later it is late and costs more each day."""
    early = only(sow.jobs(scene_of(GARDEN, "2026-05-01", MILD)))
    assert early.window.opens >= date(2026, 5, 4)
    assert early.forfeit(3) == pytest.approx(0.0, abs=1e-3)
    job = only(sow.jobs(scene_of(GARDEN, "2026-05-14", MILD)))
    assert job.id == "sow-radish-2026-2"
    assert job.bed == "bed-2"  # its kin stands in Bed 1
    assert job.forfeit(1) <= job.forfeit(3) < job.forfeit(7) < job.forfeit(14)
    assert job.window.opens <= date(2026, 5, 16)
    assert "radish-26" in job.take[0].what


def test_gaps_between_sowings_are_unequal() -> None:
    """In spring a sowing catches the one before up: more days lie between sowings than between pickings."""

    def opens(sown: str) -> int:
        start = date.fromisoformat(sown)
        entries = [*BEDS, LOT, said(RADISH, start, bed="bed-1")]
        for days in range(3, 30):
            scene = scene_of(entries, date.fromordinal(start.toordinal() + days), MILD)
            found = [each for each in wanted(scene) if each.follows]
            if found and float(np.median(found[0].sowing.gap[:, 0])) >= 0.0:
                return days
        return 30

    spring, summer = opens("2026-03-20"), opens("2026-06-10")
    every = load_sheet("radish").next.every_days
    assert every is not None
    assert spring > summer >= every.value - 1.0
    assert spring >= every.value + 3.0


def test_seed_a_metre_follows_the_lot() -> None:
    sheet = load_sheet("carrot")
    # twenty plants a metre at 5 cm come of twice as many seeds of a lot that germinates half as well
    assert seeds_per_m(sheet, 0.4) == pytest.approx(2.0 * seeds_per_m(sheet, 0.8))
    assert seeds_per_m(sheet, 0.9) > 100.0 / sheet.sowing.in_row_cm.value


def test_the_packet_limits_the_sowing() -> None:
    few = said(kinds.LotSet(lot="radish-26", crop="radish", year=2026, seeds=40), "2026-01-10")
    job = only(sow.jobs(scene_of([*BEDS, few, said(RADISH, "2026-05-01", bed="bed-1")], "2026-05-14", MILD)))
    (sown,) = job.done
    assert isinstance(sown, kinds.Sown)
    assert sown.seeds is not None
    assert sown.seeds <= 40
    assert "about 40 are left" in job.reason


def test_what_nothing_stands_before_is_offered_while_its_window_closes() -> None:
    beans = said(kinds.LotSet(lot="bean-25", crop="bush-bean", year=2025, seeds=200), "2026-01-10")
    job = only(sow.jobs(scene_of([*BEDS, beans], "2026-07-05", MILD)))
    assert job.crop == "bush-bean"
    assert job.forfeit(21) > job.forfeit(7) > 0.0
    assert not list(sow.jobs(scene_of([*BEDS, beans], "2026-09-20", MILD)))


def test_nothing_where_no_place_is_free_or_a_lock_keeps_it() -> None:
    taken = [
        said(kinds.Sown(planting=f"potato-{key}", crop="potato", area_m2=2.88), "2026-04-01", bed=key)
        for key in ("bed-1", "bed-2")
    ]
    beans = said(kinds.LotSet(lot="bean-25", crop="bush-bean", year=2025, seeds=200), "2026-01-10")
    assert not list(sow.jobs(scene_of([*BEDS, beans, *taken], "2026-07-05", MILD)))
    locks = [
        said(
            kinds.Locked(lock=f"lock-{key}", on="bed", why="hay not tested", stops="planting"),
            "2026-06-01",
            bed=key,
        )
        for key in ("bed-1", "bed-2")
    ]
    assert not list(sow.jobs(scene_of([*BEDS, beans, *locks], "2026-07-05", MILD)))


def test_kin_keep_their_years_apart() -> None:
    beans = said(kinds.LotSet(lot="bean-25", crop="bush-bean", year=2025, seeds=200), "2026-01-10")
    stood = [said(kinds.Stood(crop="pea", year=2025), "2026-01-10", bed="bed-1")]
    job = only(sow.jobs(scene_of([*BEDS, beans, *stood], "2026-07-05", MILD)))
    assert job.bed == "bed-2"


def test_wet_clay_is_not_worked_and_a_handful_settles_it() -> None:
    soaked = Weather(rain_every=0, rain_mm={date(2026, 7, day): 30.0 for day in (3, 4)})
    beds = [bed(soil="clay loam"), bed("bed-2", "Bed 2", x_m=2.0, soil="sandy loam")]
    scene = scene_of(beds, "2026-07-05", soaked)
    clay, sand = scene.beds["bed-1"], scene.beds["bed-2"]
    assert to_drain_mm(scene, clay)[0, 0] > to_drain_mm(scene, sand)[0, 0]
    assert not fit_days(scene, clay)[:, 0].any()
    assert fit_days(scene, sand)[:, 2].all()
    # by hand: 60 mm less, on each day, 5 mm that drain and what the day draws
    first = scene.column - 2
    gone = 5.0 + scene.ground.et0_mm[0, first : scene.column + 3]
    assert to_drain_mm(scene, clay)[0, 2] == pytest.approx(max(60.0 - gone.sum(), 0.0))
    assert 2 <= int(np.argmax(fit_days(scene, clay)[0])) <= 5
    felt = said(kinds.SoilFelt(squeeze="crumbles"), "2026-07-05", bed="bed-1")
    squeezed = scene_of([*beds, felt], "2026-07-05", soaked)
    assert fit_days(squeezed, squeezed.beds["bed-1"])[:, 0].all()
