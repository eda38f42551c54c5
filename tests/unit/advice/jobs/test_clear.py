"""Clearing: what is over makes room, and what still fits there loses by each day's waiting."""

from __future__ import annotations

from datetime import date, timedelta

from scenes import Weather, bed, only, said, scene_of
from spadework.advice.jobs import clear, pick
from spadework.advice.scene import Scene
from spadework.garden import entries as kinds
from spadework.garden.entries import Entry

TODAY = date(2026, 7, 25)


def peas(*more: Entry) -> list[Entry]:
    """Peas sown in spring."""
    act = kinds.Sown(planting="p", crop="pea", area_m2=2.0)
    return [bed(), said(act, "2026-04-05", bed="bed-1"), *more]


def last(on: date) -> Entry:
    """The last picking."""
    return said(kinds.Picked(kg=0.4, last=True), on, bed="bed-1", planting="p")


def scene(entries: list[Entry], today: date = TODAY, weather: Weather | None = None) -> Scene:
    """The garden on a day."""
    return scene_of(entries, today, weather)


def test_peas_over_in_july_make_room_for_what_still_fits() -> None:
    job = only(clear.jobs(scene(peas(last(TODAY)))))
    assert job.act == "Clear peas from Bed 1"
    assert "Still fits there" in job.reason
    assert "peas" not in job.reason.partition("fits")[2]
    assert 0.0 < job.forfeit(7) < job.forfeit(21)
    assert job.done == (kinds.Ended(how="cleared"),)


def test_after_the_season_nothing_fits_and_nothing_is_lost_by_waiting() -> None:
    day = date(2026, 10, 25)
    job = only(clear.jobs(scene(peas(last(day)), day)))
    assert "Nothing quick" in job.reason
    assert job.forfeit(21) == 0.0


def test_what_is_still_picked_or_not_ready_is_not_cleared() -> None:
    picking = said(kinds.Picked(kg=0.2), TODAY - timedelta(days=3), bed="bed-1", planting="p")
    assert not list(clear.jobs(scene(peas(picking))))
    assert not list(clear.jobs(scene(peas(), date(2026, 5, 20))))


def test_peas_long_past_their_weeks_are_cleared_without_being_told() -> None:
    late = scene(peas(), date(2026, 9, 10))
    job = only(clear.jobs(late))
    # a round never both picks and clears it
    assert {each.settles for each in pick.jobs(late)} <= {job.settles}
    assert job.settles == "take:p"
    assert job.reason.startswith("By the weather it has borne")


def test_what_was_looked_at_and_left_standing_is_not_asked_about_for_a_week() -> None:
    today = date(2026, 9, 10)
    left = kinds.Skipped(job="clear-p", why="it still bears")
    for days, asked in ((1, False), (7, False), (9, True)):
        said_so = said(left, today - timedelta(days=days), bed="bed-1")
        assert bool(list(clear.jobs(scene(peas(said_so), today)))) == asked
    other = said(kinds.Skipped(job="clear-q", why="it still bears"), today, bed="bed-1")
    assert list(clear.jobs(scene(peas(other), today)))


def test_frost_that_killed_is_looked_at_first() -> None:
    today = date(2026, 10, 1)
    frost = Weather(low_c={today - timedelta(days=5): -6.0})
    act = kinds.PlantedOut(planting="p", crop="tomato", plants=4, area_m2=2.0)
    job = only(clear.jobs(scene([bed(), said(act, "2026-08-10", bed="bed-1")], today, frost)))
    assert "frost has killed it" in job.reason
    assert "look before you do" in job.reason
    assert job.done == (kinds.Ended(how="lost", why="frost has killed it"),)


def test_locks_and_perennials() -> None:
    lock = kinds.Locked(lock="jar", on="bed", why="glass", stops="picking", test="no glass found")
    assert not list(clear.jobs(scene(peas(last(TODAY), said(lock, TODAY, bed="bed-1")))))
    rhubarb = kinds.PlantedOut(planting="r", crop="rhubarb", plants=1, perennial=True)
    assert not list(clear.jobs(scene([bed(), said(rhubarb, "2022-04-01", bed="bed-1")], date(2026, 11, 1))))
    planting = kinds.Locked(lock="rest", on="bed", why="resting", stops="planting", until=date(2026, 12, 1))
    job = only(clear.jobs(scene(peas(last(TODAY), said(planting, TODAY, bed="bed-1")))))
    assert "locked against planting" in job.reason
    assert job.forfeit(21) == 0.0
