"""What is to be cleared or taken whole is not tended as well, on small invented gardens."""

from __future__ import annotations

from dataclasses import replace

from scenes import bed, said, scene_of
from spadework.advice.job import Job, Kind
from spadework.advice.jobs import look
from spadework.advice.one_state import one_state
from spadework.advice.scene import Scene
from spadework.garden import entries as kinds

SCENE = scene_of(
    [
        bed(),
        said(kinds.Sown(planting="beet-1", crop="beet"), "2026-04-20", bed="bed-1"),
        said(kinds.Sown(planting="chard-1", crop="chard"), "2026-04-20", bed="bed-1"),
    ],
    "2026-07-08",
)


def _job(scene: Scene, kind: Kind, crop: str = "beet") -> Job:
    usual = next(iter(look.jobs(scene)))
    return replace(usual, id=f"{kind}-{crop}-1", kind=kind, planting=f"{crop}-1", crop=crop)


def _left(*jobs: Job) -> list[str]:
    return [job.kind for job in one_state(SCENE, jobs)]


def test_what_is_cleared_is_only_taken_from() -> None:
    kinds_: tuple[Kind, ...] = ("thin", "support", "guard", "keep damp", "count", "pick", "clear")
    assert _left(*(_job(SCENE, kind) for kind in kinds_)) == ["pick", "clear"]
    assert _left(_job(SCENE, "clear"), _job(SCENE, "thin", "chard")) == ["clear", "thin"]


def test_what_is_taken_whole_is_not_thinned_and_what_is_picked_again_is() -> None:
    assert _left(_job(SCENE, "thin"), _job(SCENE, "lift")) == ["lift"]
    assert _left(_job(SCENE, "thin", "chard"), _job(SCENE, "pick", "chard")) == ["thin", "pick"]
    later = _job(SCENE, "lift")
    opens = SCENE.day(3)
    later = replace(later, window=later.window.__replace__(opens=opens, best=opens))
    assert _left(_job(SCENE, "thin"), later) == ["thin", "lift"]


def test_a_bed_in_which_all_is_over_is_not_watered_and_one_in_which_something_grows_is() -> None:
    water = replace(_job(SCENE, "water"), id="water-bed-1", bed="bed-1", planting="", crop="")
    assert _left(water, _job(SCENE, "clear"), _job(SCENE, "clear", "chard")) == ["clear", "clear"]
    assert _left(water, _job(SCENE, "clear")) == ["water", "clear"]


def test_what_is_cut_today_is_not_netted_as_well_unless_the_net_saves_more() -> None:
    scene = scene_of(
        [bed(), said(kinds.PlantedOut(planting="cabbage-1", crop="cabbage"), "2026-05-01", bed="bed-1")],
        "2026-09-20",
    )
    net = replace(_job(scene, "guard", "cabbage"), id="guard-bed-1-up", bed="bed-1", worth=1.0)
    cut = replace(_job(scene, "pick", "cabbage"), worth=2.0)
    assert [job.kind for job in one_state(scene, (net, cut))] == ["pick"]
    assert [job.kind for job in one_state(scene, (replace(net, worth=3.0), cut))] == ["guard", "pick"]
    assert [job.kind for job in one_state(scene, (net,))] == ["guard"]
