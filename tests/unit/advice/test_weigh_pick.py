"""Pick now or wait: size against what passes its best, freezes, splits or runs to seed; locks before all."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from scenes import Weather, bed, said, scene_of
from spadework.advice.weigh_pick import PickAnswer, weigh_pick
from spadework.errors import UnknownName
from spadework.garden import entries as kinds
from spadework.garden.entries import Entry
from spadework.usecases.weigh_picking import plot_named

TODAY = date(2026, 8, 1)


def sown(crop: str, on: str, *more: Entry) -> list[Entry]:
    """A bed with one sowing."""
    return [bed(), said(kinds.Sown(planting="p", crop=crop, area_m2=2.0), on, bed="bed-1"), *more]


def ready(on: str) -> Entry:
    """Seen to be ready."""
    return said(kinds.Stage(what="ready"), on, bed="bed-1", planting="p")


def weighed(entries: list[Entry], weather: Weather | None = None, today: date = TODAY) -> PickAnswer:
    """The answer for the one planting."""
    scene = scene_of(entries, today, weather)
    return weigh_pick(scene, scene.plots[0])


def test_peas_at_their_size_are_picked_and_pass_their_best() -> None:
    today = date(2026, 6, 25)
    found = weighed(sown("pea", "2026-04-05", ready("2026-06-20")), today=today)
    assert found.verdict == "pick"
    assert found.day == today
    past = [option.past for option in found.options]
    assert past == sorted(past)
    assert past[-1] > past[0]


def test_beans_picked_yesterday_wait() -> None:
    picked = said(kinds.Picked(kg=0.5), TODAY - timedelta(days=1), bed="bed-1", planting="p")
    found = weighed(sown("bush-bean", "2026-05-20", ready("2026-07-20"), picked))
    assert found.verdict == "wait"
    assert found.day is not None
    assert TODAY < found.day <= TODAY + timedelta(days=7)
    assert found.options[0].good_kg < found.options[2].good_kg


def test_frost_tonight_settles_it() -> None:
    picked = said(kinds.Picked(kg=0.5), TODAY - timedelta(days=2), bed="bed-1", planting="p")
    frost = Weather(spread_c=0.5, low_c={TODAY + timedelta(days=1): -5.0})
    found = weighed(sown("bush-bean", "2026-05-20", ready("2026-07-20"), picked), frost)
    assert found.verdict == "pick"
    assert "frost" in found.reason
    assert found.options[1].spoilt > 0.9


def test_a_lock_goes_before_everything() -> None:
    lock = kinds.Locked(lock="l", on="bed", why="sprayed", stops="picking", until=date(2026, 8, 9))
    found = weighed(sown("bush-bean", "2026-05-20", ready("2026-07-20"), said(lock, TODAY, bed="bed-1")))
    assert found.verdict == "locked"
    assert found.day is None


def test_carrots_keep_in_the_ground() -> None:
    found = weighed(sown("carrot", "2026-04-20", ready("2026-07-28")), Weather(rain_every=0))
    assert found.verdict == "pick"
    assert "keeps where it is" in found.reason


def test_names_find_one_planting_and_say_which_there_are() -> None:
    two = [
        *sown("carrot", "2026-04-20"),
        said(kinds.Sown(planting="q", crop="carrot"), "2026-05-01", bed="bed-1"),
    ]
    scene = scene_of(two, TODAY)
    assert plot_named(scene, "q").key == "q"
    with pytest.raises(UnknownName, match="2 plantings"):
        plot_named(scene, "carrots")
    with pytest.raises(UnknownName, match="Nothing called"):
        plot_named(scene, "leek")
