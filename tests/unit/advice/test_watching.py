"""What may come to what stands: only hosts, only at a harmed age, only what no cover keeps out."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

import spadework.advice.watching as watching
from scenes import Weather, bed, only, said, scene_of
from spadework.advice.job import Job
from spadework.advice.jobs import clear, crush, guard_flight, refuges, scout
from spadework.advice.scene import Scene
from spadework.advice.stakes import after_clean_look, chance_by_weather
from spadework.advice.watching import coming
from spadework.crops.trouble import Remedy
from spadework.crops.troubles import hosted_by
from spadework.garden import entries as kinds
from troubles import event, told, trouble

TODAY = "2026-05-20"

FLY = trouble(
    "test-fly",
    event("flight", words="flies lay at the stems", base_c=4.0, total=told(300), lays=True, lasts=told(900)),
    event("eggs", words="eggs lie", start="flight", clock="days", total=told(1), stage="egg"),
    event("grubs", words="grubs eat", start="flight", clock="days", total=told(5), stage="larva", harms=True,
          lasts=told(60)),
    mesh_mm=told(1.3),
    ages=("seed", "seedling", "young", "leafy"),
    remedies=(Remedy(act="Lift boards and cut the grass at the edge", provenance="common-practice"),),
)  # fmt: skip


@pytest.fixture(autouse=True)
def _sheets(monkeypatch: pytest.MonkeyPatch) -> None:
    use(monkeypatch, FLY)


def use(monkeypatch: pytest.MonkeyPatch, *sheets: Any) -> None:
    """Only these troubles exist."""
    known = {each.key: each for each in sheets}
    monkeypatch.setattr(watching, "troubles_of", lambda *_: tuple(known.values()))
    monkeypatch.setattr("spadework.advice.remains.all_troubles", lambda: known)
    monkeypatch.setattr(
        "spadework.advice.sightings.trouble_names", lambda: {each.name: each.key for each in sheets}
    )


def cabbages(on: str = "2026-05-01", **more: Any) -> list[Any]:
    planted = kinds.PlantedOut(planting="cabbage-1", crop="cabbage", plants=12, spacing_cm=40.0)
    return [bed(width_m=1.2, length_m=3.0, **more), said(planted, on, bed="bed-1")]


def warm(**more: Any) -> Weather:
    return Weather(mean_c=10.0, **more)


def scene(*entries: Any, today: str = TODAY, weather: Weather | None = None) -> Scene:
    return scene_of([*cabbages(), *entries], today, weather or warm())


def test_a_host_at_a_harmed_age_is_watched() -> None:
    found = coming(scene(), 21)
    assert [each.trouble.key for each in found] == ["test-fly"]
    assert found[0].chance.shape == (12, 22)
    assert found[0].chance.max() == 1.0
    assert found[0].first_day() is not None


def test_no_look_for_an_absent_host(monkeypatch: pytest.MonkeyPatch) -> None:
    use(monkeypatch, replace_hosts(FLY, ("carrot",)))
    here = scene()
    assert coming(here, 21) == ()
    assert [*scout.jobs(here), *crush.jobs(here), *guard_flight.jobs(here), *refuges.jobs(here)] == []


def replace_hosts(sheet: Any, hosts: tuple[str, ...]) -> Any:
    import msgspec

    return msgspec.structs.replace(sheet, hosts=hosts)


def test_what_lives_elsewhere_is_watched_only_once_seen(monkeypatch: pytest.MonkeyPatch) -> None:
    import msgspec

    use(monkeypatch, msgspec.structs.replace(FLY, lives=("oceania",)))
    assert coming(scene(), 21) == ()
    seen = said(kinds.Seen(what="test fly", sort="pest"), "2026-05-18", bed="bed-1")
    assert [each.trouble.key for each in coming(scene(seen), 21)] == ["test-fly"]


def test_nothing_past_the_harmed_age(monkeypatch: pytest.MonkeyPatch) -> None:
    import msgspec

    use(monkeypatch, msgspec.structs.replace(FLY, ages=("seed",)))
    assert coming(scene(), 21) == ()


def test_the_look_names_where_and_how_many() -> None:
    job = only(scout.jobs(scene()))
    assert job.act == "Look for test fly on the cabbages in Bed 1"
    assert job.test.startswith(
        "10 plants, undersides of the leaves, in the morning. Too many: two on a plant"
    )
    assert job.minutes == 4.0
    assert job.saves(7) > 0.0
    assert (np.diff(job.mean_loss) >= 0.0).all()


def test_a_clean_look_puts_the_next_off() -> None:
    done = only(scout.jobs(scene())).done[0]
    assert isinstance(done, kinds.Seen)
    assert done.plants == 0
    looked = scene(said(done, TODAY, bed="bed-1"))
    job = only(scout.jobs(looked))
    assert job.window.opens == date(2026, 5, 20) + timedelta(days=3)
    assert job.forfeit(1) == 0.0


def test_what_was_found_is_looked_for_harder_and_its_eggs_crushed() -> None:
    plain = only(scout.jobs(scene()))
    seen = said(kinds.Seen(what="test fly", sort="pest"), "2026-05-18", bed="bed-1")
    found = scene(seen)
    job = only(each for each in scout.jobs(found))
    assert "found here 2 days ago" in job.reason
    assert job.forfeit(21) > plain.forfeit(21)
    assert {each.kind for each in refuges.jobs(found)} == {"refuges"}


def test_a_seen_flight_moves_the_eggs() -> None:
    late = Weather(mean_c=6.0)
    cold = scene_of(cabbages(), TODAY, late)
    plain = coming(cold, 21)
    flew = kinds.Seen(what="test fly", sort="pest", trouble="test-fly", event="flight")
    seen = said(flew, "2026-05-19", bed="bed-1")
    told_so = coming(scene_of([*cabbages(), seen], TODAY, late), 21)
    assert told_so[0].windows["grubs"].opens.tolist() == [4.0] * 12
    assert not plain or plain[0].windows["grubs"].opens.min() > 4.0
    job = only(crush.jobs(scene_of([*cabbages(), seen], "2026-05-21", late)))
    assert job.act == "Crush the eggs of test fly on the cabbages in Bed 1"
    crushed = said(job.done[0], "2026-05-21", bed="bed-1")
    assert list(crush.jobs(scene_of([*cabbages(), seen, crushed], "2026-05-22", late))) == []


def kit() -> Any:
    return said(kinds.KitSet(item="insect mesh", sort="mesh", length_m=10.0), "2026-01-02")


def _due(weather: Weather) -> str:
    """Five days before the flight, at the middle of the years."""
    opens = coming(scene_of(cabbages("2026-04-01"), "2026-04-10", weather), 60)[0].windows["flight"].opens
    return (date(2026, 4, 10) + timedelta(days=int(np.median(opens)) - 5)).isoformat()


def covers(*entries: Any) -> list[Job]:
    weather = Weather(mean_c=7.0)
    return list(guard_flight.jobs(scene_of([*cabbages("2026-04-01"), *entries], _due(weather), weather)))


def test_cover_before_a_flight() -> None:
    job = only(covers(kit()))
    assert job.kind == "guard"
    assert "insect mesh over the cabbages in Bed 1, ahead of test fly" in job.act
    assert isinstance(job.done[0], kinds.Moved)
    assert covers() == []  # nothing owned that keeps it out
    lies = said(kinds.Moved(act="on", item="insect mesh", length_m=3.0), "2026-04-02", bed="bed-1")
    assert covers(kit(), lies) == []


def test_no_cover_over_what_the_last_hosts_left_in_the_soil(monkeypatch: pytest.MonkeyPatch) -> None:
    import msgspec

    use(monkeypatch, msgspec.structs.replace(FLY, stays_in_soil=True))
    before = [
        said(kinds.PlantedOut(planting="kale-1", crop="kale", plants=6), "2025-06-01", bed="bed-1"),
        said(kinds.Ended(how="cleared"), "2025-11-01", bed="bed-1", planting="kale-1"),
    ]
    assert covers(kit(), *before) == []
    assert len(covers(kit())) == 1


def test_a_cover_that_keeps_it_out_takes_it_off_the_list() -> None:
    lies = said(kinds.Moved(act="on", item="insect mesh", length_m=3.0), "2026-05-02", bed="bed-1")
    assert coming(scene(kit(), lies), 21) == ()


def test_clearing_says_what_becomes_of_the_remains(monkeypatch: pytest.MonkeyPatch) -> None:
    import msgspec

    use(monkeypatch, msgspec.structs.replace(FLY, after="destroy"))
    seen = said(kinds.Seen(what="test fly", sort="pest", trouble="test-fly"), "2026-06-18", bed="bed-1")
    over = said(kinds.Picked(kg=3.0, last=True), "2026-09-20", bed="bed-1", planting="cabbage-1")
    asked = [*cabbages(), over]
    plain = only(clear.jobs(scene_of(asked, "2026-10-05", warm())))
    job = only(clear.jobs(scene_of([*asked, seen], "2026-10-05", warm())))
    assert "destroy" not in plain.reason
    assert "Test fly was seen on it: destroy what you clear" in job.reason


def test_a_clean_look_changes_a_chance() -> None:
    assert after_clean_look(0.3, 10) == pytest.approx(0.3 * 0.8**10 / (0.3 * 0.8**10 + 0.7))
    assert after_clean_look(0.3, 20) < after_clean_look(0.3, 5) < 0.3


def test_endless_infection_weather_is_no_certainty(monkeypatch: pytest.MonkeyPatch) -> None:
    import msgspec

    blight = msgspec.structs.replace(FLY, kind="disease", rule="powdery-mildew", events=(), usual=told(0.3))
    use(monkeypatch, blight)
    found = only_one(coming(scene(weather=Weather(mean_c=14.0)), 21))
    assert found.alerts
    few = replace(found, alerts=found.alerts[:1])
    many = replace(found, alerts=found.alerts[:1] * 400)
    assert 0.0 < chance_by_weather(few) < chance_by_weather(many) < 0.7


def only_one(found: tuple[Any, ...]) -> Any:
    assert len(found) == 1
    return found[0]


@given(st.sampled_from(["carrot", "cabbage", "lettuce", "onion"]), st.integers(0, 200))
def test_property_no_job_for_an_absent_host(crop: str, day: int) -> None:
    sheet = replace_hosts(FLY, ("family Brassicaceae",))
    planted = kinds.PlantedOut(planting=f"{crop}-1", crop=crop, plants=12, spacing_cm=30.0)
    today = date(2026, 4, 1) + timedelta(days=day)
    with pytest.MonkeyPatch.context() as patch:
        use(patch, sheet)
        here = scene_of([bed(), said(planted, "2026-03-20", bed="bed-1")], today, warm())
        jobs = [*scout.jobs(here), *crush.jobs(here), *refuges.jobs(here), *guard_flight.jobs(here)]
        hosts = {p.sheet.key for p in here.plots if hosted_by(sheet, p.sheet.key, p.sheet.family)}
        assert {job.crop for job in jobs} <= hosts
