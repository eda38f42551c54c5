"""On a round each job takes as long as who does it takes. The garden is invented."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any, cast

import pytest

from scenes import bed, said, scene_of
from spadework.garden import entries as kinds
from spadework.usecases.jobs_today import Day, find_jobs
from spadework.usecases.walk_round import round_of, with_people

TODAY = "2026-06-10"


@pytest.fixture(scope="module")
def day() -> Day:
    entries = [
        said(kinds.PersonSet(person=key, name=key.title(), role="keeper"), "2026-03-01", author=key)
        for key in ("ann", "ben")
    ]
    for number in (1, 2, 3):
        key = f"bed-{number}"
        entries += [bed(key, f"Bed {number}", x_m=2.0 * number)]
        sown = kinds.Sown(planting=f"carrot-{number}", crop="carrot", rows=4, row_length_m=2.4, row_cm=30.0)
        entries += [said(sown, "2026-04-20", bed=key)]
    for week in range(1, 7):
        for who, minutes in (("ann", 3.0), ("ben", 20.0)):
            on = f"2025-06-{4 * week:02d}"
            entries += [
                said(kinds.Tended(act="weeded"), on, bed="bed-1", author=who),
                said(kinds.Minutes(minutes=minutes, job="weeding"), on, bed="bed-1", author=who),
            ]
    scene = scene_of(entries, TODAY)
    nothing = cast(Any, SimpleNamespace(damage="", told=()))
    return Day(setting=nothing, state=nothing, scene=scene, jobs=find_jobs(scene))


def weeding(day: Day, *names: str) -> dict[str, float]:
    """Minutes of weeding on a round, by who does it."""
    walk = round_of(day, minutes=240.0, people=with_people(day.garden, names))
    return {
        stop.who: job.minutes / own.minutes
        for stop in walk.stops
        for job in stop.jobs
        for own in day.jobs
        if own.id == job.id and job.kind == "weed" and own.done == (kinds.Tended(act="weeded"),)
    }


def test_who_is_quick_is_given_fewer_minutes_alone_and_beside_another(day: Day) -> None:
    pace = day.scene.pace
    ann, ben = pace.beside("ann", "hand weeding"), pace.beside("ben", "hand weeding")
    assert ann < 0.8 < 1.2 < ben
    assert weeding(day, "Ann") == {"Ann": pytest.approx(ann, abs=0.02)}
    assert weeding(day, "Ben") == {"Ben": pytest.approx(ben, abs=0.02)}
    for who, share in weeding(day, "Ann", "Ben").items():
        assert share == pytest.approx({"Ann": ann, "Ben": ben}[who], abs=0.02)
    # nobody is named: the garden's own pace
    assert weeding(day) == {"": pytest.approx(1.0, abs=0.02)}


def test_a_stop_s_minutes_are_those_of_who_makes_it(day: Day) -> None:
    walk = round_of(day, minutes=240.0, people=with_people(day.garden, ["Ann", "Ben"]))
    assert walk.stops
    for stop in walk.stops:
        assert stop.minutes == pytest.approx(sum(job.minutes for job in stop.jobs), abs=0.3)
    assert walk.minutes_used == pytest.approx(
        walk.minutes_walking + sum(stop.minutes for stop in walk.stops), abs=0.3
    )
