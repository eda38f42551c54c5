"""The guided look on the command line: asked, answered, noted, and the beds of a load locked."""

from __future__ import annotations

import json
from datetime import date
from pathlib import Path

import pytest

from said import say
from spadework.faces.cli import ailing as face
from spadework.garden import entries as kinds
from spadework.garden.site import Site
from spadework.store.garden_folder import create, open_garden
from spadework.usecases.ailing import ask_ailing, open_signs
from spadework.usecases.ailing_answer import told_of
from spadework.usecases.keep_book import Act, garden_state, write_acts
from spadework.usecases.note_ailing import note_finding
from spadework.usecases.write_answer import Writing
from spadework.weather.demo_normals import demo_record
from spadework.weather.read.result import ReadResult

TODAY = date(2026, 6, 25)
CUPPED = ("--sign", "young leaves cupped like a spoon and twisted stems", "--sign", "many-kinds-hit")


@pytest.fixture(scope="module")
def garden(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Three invented beds; two had one load of manure, told to be clean."""
    path = tmp_path_factory.mktemp("ailing") / "garden"
    create(path, Site(name="Invented", lat_deg=47.2, lon_deg=-93.4, elevation_m=320.0))
    folder = open_garden(path)
    folder.add_weather(ReadResult(demo_record(TODAY, years=16), "made weather", "daily-csv"))
    manure = kinds.Amended(material="horse manure", state="finished", spray_history="clean", batch="heap")
    acts = [
        Act(payload=kinds.PersonSet(person="ann", name="Ann", role="keeper"), on=date(2026, 3, 1)),
        Act(payload=kinds.KitSet(item="net", sort="netting", length_m=10.0), on=date(2026, 3, 1)),
        *(
            Act(payload=kinds.BedSet(name=f"Bed {n}", x_m=2.0 * n), on=date(2026, 3, 1), bed=f"bed-{n}")
            for n in (1, 2, 3)
        ),
        *(Act(payload=manure, on=date(2026, 4, 20), bed=f"bed-{n}") for n in (1, 2)),
        Act(
            payload=kinds.Sown(planting="bean-1", crop="bush-bean", rows=2, row_length_m=2.0, seeds=40),
            on=date(2026, 5, 25),
            bed="bed-1",
            planting="bean-1",
        ),
        *(
            Act(
                payload=kinds.Sown(planting=f"radish-{n}", crop="radish", rows=2, seeds=60),
                on=date(2026, 6, 14),
                bed=f"bed-{n}",
                planting=f"radish-{n}",
            )
            for n in (2, 3)
        ),
    ]
    assert write_acts(folder, acts, today=TODAY, author="ann").stored
    return path


def _json(garden: Path, *words: str) -> dict[str, object]:
    done = say(*words, "--garden", str(garden), "--today", TODAY.isoformat(), "--json")
    assert done.code == 0, done.err
    answered: dict[str, object] = json.loads(done.out)
    return answered


def test_causes_come_ranked_with_reasons_and_a_test(garden: Path) -> None:
    said = ("ailing", "radish", "--bed", "bed 2", "--sign", "full of tiny pinholes", "--no", "slime trails")
    found = _json(garden, *said)
    causes = found["causes"]
    assert isinstance(causes, list)
    assert causes[0]["name"] == "flea beetle"
    assert [each["chance"] for each in causes] == sorted((each["chance"] for each in causes), reverse=True)
    assert causes[0]["for"]
    assert {"against", "test"} <= set(causes[0])
    assert 0.0 < float(str(found["other"])) < 1.0
    assert [heard["there"] for heard in found["heard"]] == [True, False]  # type: ignore[attr-defined]


def test_words_not_understood_are_said_with_the_nearest(garden: Path) -> None:
    done = say(
        "ailing", "bean", "--sign", "xyzzy brouhaha", "--garden", str(garden), "--today", TODAY.isoformat()
    )
    assert done.code == 0
    assert "Not understood: “xyzzy brouhaha”." in done.out


def test_the_next_question_is_answered_by_its_key(garden: Path) -> None:
    words = ("ailing", "bean", "--sign", "holes in the leaves")
    first = _json(garden, *words)
    key = first["next_question"]["sign"]  # type: ignore[index]
    second = _json(garden, *words, "--no", key)
    assert second["looks"] == {key: "no"}
    assert second["causes"] != first["causes"]
    third = _json(garden, *words, "--unknown", key)
    assert third["looks"] == {key: "unknown"}


def test_bitten_thinks_only_of_what_bites(garden: Path) -> None:
    found = _json(garden, "bitten", "bean", "--sign", "leaves curled", "--sign", "leaves eaten")
    assert {each["kind"] for each in found["causes"]} <= {"insect", "animal"}  # type: ignore[attr-defined]


def test_several_plantings_are_asked_about(garden: Path) -> None:
    done = say("ailing", "radish", "--sign", "holes", "--garden", str(garden), "--today", TODAY.isoformat())
    assert done.code == 2
    assert "radish-2" in done.err
    assert "radish-3" in done.err


def test_a_crop_that_does_not_stand_is_answered_by_weather_alone(garden: Path) -> None:
    found = _json(garden, "ailing", "tomato", "--sign", "dark sunken leathery patch at the end of the fruit")
    assert found["planting"] == ""
    assert found["causes"][0]["name"] == "blossom-end rot"  # type: ignore[index]


def test_a_guided_look_begins_with_the_parts_of_the_plant(garden: Path) -> None:
    found = open_signs(garden, TODAY, "radish-2")
    assert found.age in ("seedling", "young")
    leaf = next(part for part in found.parts if part.part == "leaf")
    assert "shot-holes" in [sign.sign for sign in leaf.signs[:12]]
    assert all(sign.ask for part in found.parts for sign in part.signs)


def test_nothing_said_says_how(garden: Path) -> None:
    done = say("ailing", "bean", "--garden", str(garden), "--today", TODAY.isoformat())
    assert done.code == 0
    assert "--sign" in done.out


def test_the_beds_of_a_load_are_named(garden: Path) -> None:
    done = say("ailing", "bean", *CUPPED, "--garden", str(garden), "--today", TODAY.isoformat())
    assert done.code == 0, done.err
    assert "horse manure of 20 Apr" in done.out
    assert "Bed 1, Bed 2." in done.out
    assert "Bed 3" not in done.out


def test_a_finding_noted_locks_every_bed_of_its_load_until_a_clean_test(garden: Path) -> None:
    found = ask_ailing(garden, TODAY, "bean", told_of(CUPPED[1::2]))
    written = note_finding(garden, Writing(today=TODAY), found)
    assert written.stored, written.questions
    state = garden_state(open_garden(garden), day=TODAY)
    seen = [entry.act for entry in state.entries if isinstance(entry.act, kinds.Seen)]
    assert [act.trouble for act in seen] == ["herbicide-carry-over"]
    locks = state.locks_on(TODAY, stops="planting")
    assert {(lock.subject, bool(lock.test)) for lock in locks} == {("bed-1", True), ("bed-2", True)}
    again = ask_ailing(garden, TODAY, "bean", told_of(CUPPED[1::2]))
    assert again.load is not None
    assert all(bed.locked for bed in again.load.beds)
    assert again.locks


def test_a_finding_can_be_noted_as_another_trouble(garden: Path) -> None:
    words = ("ailing", "radish", "--planting", "radish-3", "--sign", "holes in the leaves", "--as", "slug")
    done = say(*words, "--garden", str(garden), "--today", TODAY.isoformat())
    assert done.code == 0, done.err
    assert "Written" in done.out
    state = garden_state(open_garden(garden), day=TODAY)
    last = state.entries[-1]
    assert isinstance(last.act, kinds.Seen)
    assert (last.act.trouble, last.planting) == ("field-slug", "radish-3")


def test_it_asks_question_by_question_and_can_be_left(
    garden: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    answers = iter(["holes in the leaves", "n", "?", ""])
    monkeypatch.setattr("builtins.input", lambda _="": next(answers))
    monkeypatch.setattr(face.sys.stdin, "isatty", lambda: True, raising=False)
    face.ailing("bean", common=face.Common(garden=garden, today=TODAY.isoformat()))
    out = capsys.readouterr().out
    assert "Something not in the list" in out
    assert next(answers, "none left") == "none left"
