"""The book's commands held closely: the screen, what is asked, what may not be got round."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from scipy.stats import beta

from plot_book import TODAY, plot
from spadework.garden import entries as kinds
from spadework.store.garden_folder import open_garden
from spadework.usecases.keep_book import Act, write_acts

Say = Callable[..., Any]
LOCKED = "No picking or eating in Bed 2 before 10 Oct 2026"


@pytest.fixture(scope="module")
def read_only(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A plot that is not written into."""
    return plot(tmp_path_factory.mktemp("plots"))


@pytest.fixture(scope="module")
def american(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return plot(tmp_path_factory.mktemp("plots"), us=True)


@pytest.fixture
def garden(read_only: Path, tmp_path: Path) -> Path:
    """A plot to write into."""
    return Path(shutil.copytree(read_only, tmp_path / "plot"))


def _words(garden: Path, *words: str) -> tuple[str, ...]:
    return (*words, "--garden", str(garden), "--today", TODAY)


# -- reading -------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "words",
    [
        ("bed",),
        ("bed", "bed 1"),
        ("bed", "1"),
        ("bed", "Bed", "1", "--last", "all"),
        ("standing",),
        ("standing", "--crop", "carrots", "--bed", "1"),
        ("kit",),
        ("kit", "fleece"),
        ("tin",),
        ("people",),
        ("lock",),
        ("lock", "--over"),
        ("book",),
        ("book", "--last", "3"),
    ],
    ids=" ".join,
)
def test_answers_fit_the_screen_and_are_json_too(ask: Say, read_only: Path, words: tuple[str, ...]) -> None:
    said = ask(*_words(read_only, *words))
    assert (said.code, said.err) == (0, "")
    assert all(len(line) <= 80 for line in said.out.splitlines())
    found = ask(*_words(read_only, *words), "--json").json
    assert found["question"] == words[0]
    assert found["damage"] == ""


def test_american_units_and_dates(ask: Say, american: Path) -> None:
    out = " ".join(ask(*_words(american, "bed", "1")).out.split())
    # By hand: 1.2 m / 0.3048 = 3.94 ft; 21 l / 3.785 = 5.55 gal; 7.29 mm / 25.4 = 0.29 in; 400 g = 14.1 oz.
    assert "3.94 × 7.87 ft" in out
    assert "Last watered Jun 10, 5.55 gal or 0.29 in." in out
    assert "picked 14.1 oz so far" in out
    assert "before Oct 10, 2026" in " ".join(ask(*_words(american, "lock")).out.split())


# -- locks ---------------------------------------------------------------------------------------------


@pytest.mark.parametrize("words", [("bed",), ("bed", "2"), ("lock",), ("book",)], ids=" ".join)
def test_locks_come_first(ask: Say, read_only: Path, words: tuple[str, ...]) -> None:
    out = ask(*_words(read_only, *words)).out
    assert out.startswith("! LOCK")
    assert LOCKED in " ".join(out.split())


def test_a_lock_is_set_and_lifted_by_those_who_may(do: Say, garden: Path) -> None:
    sprayed = ("lock", "add", "--bed", "1", "--why", "sprayed", "--until", "1 July", "--by", "Ben", "--json")
    said = do(*_words(garden, *sprayed))
    assert said.code == 0
    assert [line["why"] for line in said.json["locks"]] == ["sprayed"]
    assert "LOCKED. Nantaise carrots" in do(*_words(garden, "standing")).out
    by_ben = _words(garden, "lock", "lift", "1", "--why", "fine", "--by", "Ben")
    assert do(*by_ben).code == 3
    # Insisted on, it is in the book, and the lock holds all the same.
    assert do(*by_ben, "--insist").code == 0
    assert "sprayed" in do(*_words(garden, "bed", "1")).out.partition("Bed 1: framed")[0]
    assert "Tried to lift a lock, which holds" in do(*_words(garden, "book", "--bed", "1")).out
    assert do(*_words(garden, "lock", "lift", "1", "--why", "fine")).code == 0
    assert not do(*_words(garden, "bed", "1", "--json")).json["locks"]


# -- writing -------------------------------------------------------------------------------------------


def test_a_bed_is_told_changed_and_taken_up(do: Say, garden: Path) -> None:
    new = ("bed", "add", "Long Bed", "--width", "80cm", "--length", "20ft", "--soil", "clay")
    assert do(*_words(garden, *new)).code == 0
    bed = do(*_words(garden, "bed", "long bed", "--json")).json
    assert (bed["key"], bed["width_m"], bed["length_m"]) == ("long-bed", 0.8, 6.096)
    # Nobody said where it lies: past the others, a path between. Bed 2 ends at 1.8 + 1.2 m.
    assert bed["x_m"] == 3.5
    assert do(*_words(garden, *new)).code == 2
    assert do(*_words(garden, "bed", "change", "long bed", "--measured", "3")).code == 0
    assert do(*_words(garden, "book", "--last", "1", "--json")).json["entries"][0]["kind"] == "flow"
    assert (
        do(*_words(garden, "bed", "change", "long bed", "--soil", "clay loam", "--depth", "40cm")).code == 0
    )
    bed = do(*_words(garden, "bed", "long bed", "--json")).json
    assert (bed["soil"], bed["flow_l_min"], bed["flow_known"]) == ("clay loam", 3.0, "measured")
    assert bed["week_allowance_l"] is None
    assert do(*_words(garden, "bed", "change", "long bed", "--allowance", "40")).code == 0
    bed = do(*_words(garden, "bed", "long bed", "--json")).json
    assert (bed["week_allowance_l"], bed["week_left_l"], bed["flow_l_min"]) == (40.0, 40.0, 3.0)
    assert "Of its allowance of 40 l a week all of it is left." in do(*_words(garden, "bed", "long bed")).out
    assert do(*_words(garden, "bed", "change", "long bed", "--allowance", "lots")).code == 2
    assert do(*_words(garden, "bed", "change", "long bed", "--allowance", "none")).code == 0
    assert do(*_words(garden, "bed", "long bed", "--json")).json["week_allowance_l"] is None
    asked = do(*_words(garden, "bed", "end", "1", "--json"))
    assert asked.code == 3
    assert [question["about"] for question in asked.json["questions"]] == ["planting", "kit"]
    assert do(*_words(garden, "bed", "end", "long bed")).code == 0
    assert "Long Bed" not in do(*_words(garden, "bed")).out


def test_what_is_odd_is_asked_and_may_be_insisted_on(do: Say, garden: Path) -> None:
    over = _words(garden, "bed", "add", "Shelf", "--shape", "shelf", "--x", "0", "--y", "0")
    said = do(*over)
    assert said.code == 3
    assert "? It lies over Bed 1." in said.out
    assert "Nothing was written." in said.out
    assert do(*over, "--insist").code == 0
    assert "(Insisted on.)" in do(*_words(garden, "book", "--last", "1", "--kind", "bed")).out
    empty = do(*_words(garden, "bed", "add", "Strip", "--width", "0", "--insist"))
    assert empty.code == 3
    assert "cannot be written" in empty.out


def test_kit_and_seed(do: Say, garden: Path) -> None:
    assert "Say its sort" in do(*_words(garden, "kit", "add", "mesh")).err
    assert do(*_words(garden, "kit", "add", "mesh", "--sort", "mesh", "--length", "12")).code == 0
    kit = do(*_words(garden, "kit", "--json")).json["kit"]
    assert [(each["item"], each["free_m"]) for each in kit] == [("fleece", 17.6), ("mesh", 12.0)]
    assert do(*_words(garden, "tin", "test", "carrot-25", "--sprouted", "41", "--of", "50")).code == 0
    lot = do(*_words(garden, "tin", "--json")).json["lots"][0]
    # 2000 seeds less the 300 sown; a test takes none away and brings none back.
    assert lot["left"] == 1700.0
    # Beta(42, 10): its mean, and its tenth and nine tenths by another program's hand.
    assert lot["germination"]["expected"] == pytest.approx(42 / 52)
    assert lot["germination"]["low"] == pytest.approx(beta.ppf(0.1, 42, 10))
    assert lot["germination"]["high"] == pytest.approx(beta.ppf(0.9, 42, 10))
    assert do(*_words(garden, "tin", "add", "dill", "--year", "2026", "--grams", "2")).code == 0
    assert [each["lot"] for each in do(*_words(garden, "tin", "--json")).json["lots"]] == [
        "carrot-25",
        "dill-2026",
    ]


def test_people(do: Say, garden: Path) -> None:
    assert do(*_words(garden, "people", "add", "Kim", "--not-for", "heat")).code == 0
    assert do(*_words(garden, "people", "add", "Kim", "--role", "keeper", "--by", "Ben")).code == 2
    people = do(*_words(garden, "people", "--json")).json["people"]
    assert [(each["name"], each["role"]) for each in people] == [
        ("Ann", "keeper"),
        ("Ben", "helper"),
        ("Kim", "helper"),
    ]


# -- taking back ---------------------------------------------------------------------------------------


def _standing(do: Say, garden: Path) -> dict[str, Any]:
    found: dict[str, Any] = do(*_words(garden, "standing", "--json")).json["plantings"][0]
    return found


def test_undo_and_undo_of_undo(do: Say, garden: Path) -> None:
    assert _standing(do, garden)["picked_kg"] == 0.4
    undone = do(*_words(garden, "undo", "--by", "Ben", "--json"))
    assert undone.code == 0
    assert undone.json["entries"][0]["text"] == "Took back: Picked 400 g of carrots from Bed 1."
    assert _standing(do, garden)["picked_kg"] == 0.0
    lines = do(*_words(garden, "book", "--kind", "picked", "--json")).json["entries"]
    assert [line["state"] for line in lines] == ["undone"]
    again = do(*_words(garden, "undo", undone.json["entries"][0]["short"], "--by", "ben"))
    assert "Took back an undo" in again.out
    assert _standing(do, garden)["picked_kg"] == 0.4
    # Nothing of Ben's own is left but what he took back and gave back; his picking stands again.
    assert do(*_words(garden, "undo", "--by", "Ben")).code == 0
    assert do(*_words(garden, "undo", "--by", "Ben")).code == 2


def test_undoing_a_lock_is_no_way_past_it(do: Say, garden: Path) -> None:
    key = do(*_words(garden, "lock", "--json")).json["locks"][0]["key"]
    assert do(*_words(garden, "undo", key, "--by", "Ben")).code == 3
    insisted = do(*_words(garden, "undo", key, "--by", "Ben", "--insist"))
    assert insisted.code == 0
    assert LOCKED in " ".join(insisted.out.split())
    assert LOCKED in " ".join(do(*_words(garden, "bed", "2")).out.split())


# -- damage --------------------------------------------------------------------------------------------


def test_a_damaged_book_is_read_and_every_answer_says_so(do: Say, garden: Path) -> None:
    book = garden / "book.sqlite"
    data = bytearray(book.read_bytes())
    middle = len(data) // 2
    data[middle : middle + 4096] = b"\xff" * 4096
    book.write_bytes(bytes(data))
    said = do(*_words(garden, "bed", "--json"))
    assert said.code == 0
    assert "spadework restore" in said.json["damage"]
    assert "spadework restore" in said.err
    assert said.err.count("is damaged") <= 1
    assert "spadework restore" in do(*_words(garden, "told", "--json")).json["damage"]
    refused = do(*_words(garden, "people", "add", "Kim"))
    assert refused.code == 2
    assert "spadework restore" in refused.err


# -- locks at the answers that are asked of the weather --------------------------------------------------


@pytest.fixture
def locked(gardens: dict[str, Path], tmp_path: Path) -> Path:
    """A garden with a record, and carrots in a bed that hay of unknown history was worked into."""
    path = Path(shutil.copytree(gardens["north"], tmp_path / "north"))
    folder = open_garden(path)
    day = date(2018, 4, 20)
    acts = [
        Act(payload=kinds.BedSet(name="Bed 1"), on=day, bed="bed-1"),
        Act(payload=kinds.Sown(planting="carrot-2018-1", crop="carrot"), on=day, bed="bed-1"),
        Act(payload=kinds.Amended(material="hay", spray_history="not known"), on=day, bed="bed-1"),
    ]
    assert write_acts(folder, acts, today=day, author="ann", insist=True).stored
    return path


@pytest.mark.parametrize(
    "words",
    [
        "odds ready carrot --sown 2018-04-20",
        "odds ready lettuce --sown 2018-04-20 --bed 1",
        "weigh sow carrot",
        "weigh sow --on 2018-05-20",
        "weigh sow-again carrot --sown 2018-04-20 --seeds 150 --up 12",
        "weigh fits",
        "weigh plant-out tomato",
        "tell came-up carrot --sown 2018-04-20 --on 2018-05-08 --bed 1",
    ],
)
def test_locks_at_answers_about_a_bed_or_a_crop(do: Say, locked: Path, words: str) -> None:
    asked = (*words.split(), "--garden", str(locked), "--today", "2018-05-20")
    said = do(*asked)
    assert said.code == 0, said.err
    assert said.out.startswith("! LOCK")
    assert "No sowing or planting in Bed 1" in said.out
    if not words.startswith("tell"):
        assert [line["why"] for line in do(*asked, "--json").json["locks"]] == [
            "hay, spray history not known"
        ]


def test_no_lock_is_said_of_another_crop_or_bed(do: Say, locked: Path) -> None:
    said = do(
        "odds",
        "ready",
        "lettuce",
        "--sown",
        "2018-04-20",
        "--garden",
        str(locked),
        "--today",
        "2018-05-20",
        "--json",
    )
    assert said.json["locks"] == []


# -- plantings that stand over years -------------------------------------------------------------------


def test_a_perennial_is_told_in_years_with_the_stage_of_this_season(do: Say, tmp_path: Path) -> None:
    path = plot(tmp_path)
    folder = open_garden(path)
    name = "rhubarb-2021-1"
    started = kinds.PlantedOut(planting=name, crop="rhubarb", plants=4)
    acts = [
        Act(payload=started, on=date(2021, 4, 20), bed="bed-1", planting=name),
        *(
            Act(payload=kinds.Stage(what="ready"), on=day, planting=name)
            for day in (date(2025, 5, 19), date(2026, 5, 12), date(2026, 5, 30))
        ),
    ]
    assert write_acts(folder, acts, today=date(2026, 6, 15), author="ann").stored
    out = " ".join(do(*_words(path, "standing", "--crop", "rhubarb")).out.split())
    assert "Rhubarb: planted out 20 Apr 2021, 5 years; ready 12 May; 4 plants, planted 20 Apr 2021" in out
