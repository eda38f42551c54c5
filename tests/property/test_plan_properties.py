"""Loading the plan that was written changes nothing."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta
from random import Random

from hypothesis import given
from hypothesis import strategies as st

from spadework.garden import entries as kinds
from spadework.garden.ask_form import form_questions
from spadework.garden.entries import Entry, Payload
from spadework.garden.fold import fold
from spadework.garden.keys import new_key
from spadework.garden.plan import plan_of
from spadework.garden.site import Site
from spadework.store.plan_file import read_plan
from spadework.store.plan_text import plan_text
from spadework.usecases.plan_changes import changes_of
from spadework.usecases.plan_names import settled_names

TODAY = date(2026, 6, 1)
SITE = Site('A "quoted" plot', -33.9, 151.2, 12.5)
NAMES = st.text(min_size=1, max_size=8).filter(lambda text: bool(text.strip()))
BEDS = st.sampled_from(["b1", "b2", "tunnel", "Ω bed", "x y"])
SIDES = st.floats(0.1, 20.0)
AMOUNTS = st.none() | st.floats(0.0, 50.0)
COUNTS = st.none() | st.integers(0, 400)
WORDS = st.lists(NAMES, max_size=2).map(tuple)
CROPS = st.sampled_from(["carrot", "rhubarb", "my own berry"])

THINGS: st.SearchStrategy[Payload] = st.one_of(
    st.builds(
        kinds.BedSet,
        name=NAMES,
        x_m=st.floats(-90, 90),
        y_m=st.floats(-90, 90),
        width_m=SIDES,
        length_m=SIDES,
        turn_deg=st.floats(-360, 360),
        depth_m=st.floats(0, 2),
        soil=NAMES,
        mulch=st.text(max_size=5),
        inside=st.sampled_from(["", "tunnel", "nowhere"]),
        shaded_by=WORDS,
        measured_l_min=AMOUNTS,
        week_allowance_l=AMOUNTS,
    ),
    st.builds(
        kinds.KitSet, item=NAMES, sort=st.sampled_from(["fleece", "tray"]), length_m=AMOUNTS, pieces=COUNTS
    ),
    st.builds(kinds.LotSet, lot=NAMES, crop=CROPS, variety=st.text(max_size=5), seeds=COUNTS, traits=WORDS),
    st.builds(kinds.PersonSet, person=NAMES, name=NAMES, not_for=WORDS),
    st.builds(kinds.ChoreSet, chore=NAMES, minutes=st.floats(0, 90), first=st.none() | st.just(TODAY)),
    st.builds(kinds.Stood, crop=CROPS, year=st.integers(2015, 2025), family=st.text(max_size=5)),
    st.builds(
        kinds.PlantedOut,
        planting=st.sampled_from(["p1", "p2", "p3"]),
        crop=CROPS,
        plants=COUNTS,
        perennial=st.just(True),
        only_year=st.booleans(),
        spots=st.lists(st.tuples(st.floats(0, 1), st.floats(0, 2)), max_size=2).map(tuple),
    ),
    st.builds(kinds.Tended, act=st.just("mulched"), material=NAMES),
    st.builds(kinds.BedGone),
    st.builds(kinds.FlowMeasured, flow_l_min=st.floats(0, 20)),
)


def entries_of(things: list[tuple[Payload, str, int]]) -> list[Entry]:
    luck = Random(7)
    found = []
    for payload, bed, day in things:
        on = date(2024, 1, 1) + timedelta(days=day)
        planting = payload.planting if isinstance(payload, kinds.PlantedOut) else ""
        at = datetime(2026, 5, 1, tzinfo=UTC) + timedelta(minutes=len(found))
        found.append(
            Entry(
                key=new_key(at, luck.randbytes(10)),
                happened_on=on,
                recorded_at=at,
                author="ann",
                act=payload,
                bed=bed,
                planting=planting,
            )
        )
    return [entry for entry in found if not list(form_questions(entry, TODAY))]


@given(st.lists(st.tuples(THINGS, BEDS, st.integers(0, 700)), max_size=14))
def test_what_was_written_changes_nothing(things: list[tuple[Payload, str, int]]) -> None:
    garden = fold(entries_of(things), day=TODAY)
    now = plan_of(garden, TODAY)
    text = plan_text(SITE, now)
    read = read_plan(text, "metric", TODAY)
    wanted = settled_names(read, now, garden)
    names = [each.payload for each in now["bed"]]
    # Two beds of one name, or on one ground, can be insisted on in the book; a file of them is refused whole.
    if read.faults:
        assert all("a second" in fault.found or " over " in fault.found for _, fault in read.faults)
        assert names
        return
    assert changes_of(now, wanted, garden, TODAY).changes == ()
    assert Site(**read.site) == SITE


@given(st.text(max_size=200))
def test_any_text_is_read_or_refused_with_lines(text: str) -> None:
    read = read_plan(text, "metric", TODAY)
    assert all(fault.where.startswith("line ") and fault.found for _, fault in read.faults)


@given(
    st.lists(st.tuples(THINGS, BEDS, st.integers(0, 700)), max_size=6),
    st.integers(0, 400),
    st.text(max_size=3),
)
def test_a_spoilt_file_is_read_or_refused(things: list[tuple[Payload, str, int]], at: int, put: str) -> None:
    garden = fold(entries_of(things), day=TODAY)
    now = plan_of(garden, TODAY)
    text = plan_text(SITE, now)
    at = at % (len(text) + 1)
    read = read_plan(text[:at] + put + text[at + 1 :], "metric", TODAY)
    settled_names(read, now, garden)
    assert all(line >= 0 for line, _ in read.faults)
