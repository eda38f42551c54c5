"""Guarding tender plants and ripe crops, on small invented gardens."""

from __future__ import annotations

from scenes import Weather, bed, only, said, scene_of
from spadework.advice.jobs import guard
from spadework.garden import entries as kinds

PEAS = kinds.Sown(planting="pea-1", crop="pea", rows=2, row_length_m=2.0, seeds=120)
UP = said(kinds.Stage(what="up"), "2026-05-06", planting="pea-1")
GARDEN = [bed(), said(PEAS, "2026-04-20", bed="bed-1"), UP]
NET = said(kinds.KitSet(item="bird netting", sort="netting", length_m=10.0), "2026-01-01")
SCARE = said(kinds.KitSet(item="kite", sort="scare", pieces=2), "2026-01-01")


def test_tender_plants_are_netted_from_what_is_free() -> None:
    job = only(guard.jobs(scene_of([*GARDEN, NET], "2026-05-08")))
    assert job.act == "Put bird netting over peas in Bed 1"
    assert isinstance(job.done[0], kinds.Moved)
    assert job.done[0].act == "on"
    assert "traps birds" in job.cautions[0].text
    assert 0.0 < job.forfeit(1) < job.forfeit(7)


def test_with_nothing_owned_a_screen_of_sixty_centimetres_is_made() -> None:
    # common practice, no source: a screen of about 60 cm that hides the plants keeps walking birds out
    assert "about 60 cm" in only(guard.jobs(scene_of(GARDEN, "2026-05-08"))).act


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
    assert check.id == "guard-pea-1-check"
    looked = said(kinds.Tended(act="looked over"), "2026-05-12", bed="bed-1", planting="pea-1")
    assert not list(guard.jobs(scene_of([*GARDEN, NET, on, looked], "2026-05-12")))
    stands = said(kinds.Moved(act="on", item="kite", pieces=1), "2026-05-07", bed="bed-1")
    assert not list(guard.jobs(scene_of([*GARDEN, SCARE, stands], "2026-05-08")))
    move = only(guard.jobs(scene_of([*GARDEN, SCARE, stands], "2026-05-12")))
    assert move.act.startswith("Move the kite")
    assert move.forfeit(7) > 0.0
