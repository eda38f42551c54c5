"""Earthing up, on small invented gardens."""

from __future__ import annotations

from datetime import date, timedelta

from scenes import Weather, bed, only, said, scene_of
from spadework.advice.jobs import earth_up
from spadework.garden import entries as kinds
from spadework.garden.entries import Entry

POTATOES = kinds.Sown(
    planting="potato-1", crop="potato", method="tubers", rows=2, row_length_m=2.4, seeds=14, depth_mm=100
)
GARDEN = [bed(), said(POTATOES, "2026-04-20", bed="bed-1")]


def _tall(height_cm: float, on: str, *more: Entry) -> list[Entry]:
    up = said(kinds.Stage(what="up"), "2026-05-12", planting="potato-1")
    return [*GARDEN, up, said(kinds.Measured(height_cm=height_cm), on, planting="potato-1"), *more]


def test_first_at_fifteen_to_twenty_centimetres() -> None:
    # common practice, no source: potatoes are first earthed up at about 15 to 20 cm
    assert not list(earth_up.jobs(scene_of(_tall(4.0, "2026-05-22"), "2026-05-22", Weather(mean_c=5.0))))
    job = only(earth_up.jobs(scene_of(_tall(19.0, "2026-06-02"), "2026-06-02")))
    assert job.window.opens == date(2026, 6, 2)
    assert job.id == "earth-up-potato-1-1"
    assert next(f.value for f in job.facts if "drawn up" in f.name and f.unit == "cm") == 18.0


def test_waiting_greens_tubers_little_by_little() -> None:
    job = only(earth_up.jobs(scene_of(_tall(19.0, "2026-06-02"), "2026-06-02")))
    assert 0.0 < job.forfeit(1) < job.forfeit(7) < job.forfeit(14) <= 0.25


def test_green_tubers_are_not_eaten_and_clippings_are_clean() -> None:
    job = only(earth_up.jobs(scene_of(_tall(19.0, "2026-06-02"), "2026-06-02")))
    said_there = " ".join(caution.text for caution in job.cautions)
    assert "glycoalkaloids" in said_there
    assert "none from a lawn treated" in said_there
    assert any(take.litres for take in job.take)


def test_done_it_comes_back_after_the_next_growth_and_ends_after_its_passes() -> None:
    once = said(kinds.Tended(act="earthed up"), "2026-06-02", planting="potato-1", bed="bed-1")
    assert not list(earth_up.jobs(scene_of(_tall(19.0, "2026-06-02", once), "2026-06-02")))
    again = scene_of(
        _tall(
            19.0, "2026-06-02", once, said(kinds.Measured(height_cm=40.0), "2026-06-16", planting="potato-1")
        ),
        "2026-06-16",
        Weather(rain_every=0),
    )
    job = only(earth_up.jobs(again))
    assert job.id == "earth-up-potato-1-2"


def test_after_washing_rain_it_is_looked_at_again() -> None:
    once = said(kinds.Tended(act="earthed up"), "2026-06-02", planting="potato-1", bed="bed-1")
    twice = said(kinds.Tended(act="earthed up"), "2026-06-14", planting="potato-1", bed="bed-1")
    day = date(2026, 6, 24)
    flood = Weather(rain_every=0, rain_mm={day - timedelta(days=1): 40.0})
    job = only(earth_up.jobs(scene_of(_tall(19.0, "2026-06-02", once, twice), day, flood)))
    assert "40 mm of rain" in job.reason
    assert not list(
        earth_up.jobs(scene_of(_tall(19.0, "2026-06-02", once, twice), day, Weather(rain_every=0)))
    )
