"""The book at the command line: what is shown, what is asked, what is taken back. The garden is invented."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from plot_book import TODAY, plot
from said import Said, say


@pytest.fixture
def garden(tmp_path: Path) -> Path:
    return plot(tmp_path)


def ask(garden: Path, *words: str) -> Said:
    return say(*words, "--garden", str(garden), "--today", TODAY)


def told(garden: Path, *words: str) -> dict[str, Any]:
    said = ask(garden, *words, "--json")
    assert said.code == 0, said.err
    found: dict[str, Any] = json.loads(said.out)
    return found


@pytest.mark.parametrize("words", ["bed", "bed Bed 1", "standing", "kit", "tin", "book", "lock", "people"])
def test_every_look_answers_in_words_and_in_json(garden: Path, words: str) -> None:
    spoken = ask(garden, *words.split())
    assert spoken.code == 0
    assert spoken.out.strip()
    assert told(garden, *words.split())


def test_a_bed_says_what_grows_grew_and_was_given(garden: Path) -> None:
    said = ask(garden, "bed", "Bed", "1").out
    for part in (
        "Nantaise carrots: sown 20 Apr, 56 days; up 8 May; 120 plants, counted 2 Jun",
        "Stood before: 2025 peas; 2023 potatoes.",
        "fleece 2.4 m since 11 Jun",
        "21 litres or 7.3 mm",  # 5 minutes at the measured 4.2 l, over 2.88 m2
        "4.2 litres a minute, as",
    ):
        assert part in said


def test_the_measured_flow_goes_before_the_rated(garden: Path) -> None:
    assert ask(garden, "bed", "add", "Bed 3", "--x", "4", "--by", "ann").code == 0
    assert "Bed 3" in ask(garden, "bed").out


def test_standing_on_a_past_day(garden: Path) -> None:
    said = ask(garden, "standing", "--on", "2025-06-01").out
    assert "Peas: sown 1 May 2025" in said
    assert "carrots" not in said


def test_as_known_then_and_as_known_now(garden: Path) -> None:
    now = told(garden, "book", "--last", "all")
    assert len(now["entries"]) == 17
    # everything was recorded when this test ran, long after 2020
    assert told(garden, "book", "--known-on", "2020-01-01", "--last", "all")["entries"] == []


@pytest.mark.parametrize(
    ("words", "kinds"),
    [
        (("--kind", "picked"), {"picked"}),
        (("--by", "ben"), {"picked"}),
        (("--bed", "bed 2"), {"bed", "amended"}),
        (("--crop", "pea"), {"sown", "ended"}),
        (("--from", "12 June", "--to", "12 June"), {"amended"}),
    ],
)
def test_the_book_is_searched(garden: Path, words: tuple[str, ...], kinds: set[str]) -> None:
    found = told(garden, "book", "--last", "all", *words)
    assert {entry["kind"] for entry in found["entries"]} == kinds


def test_undo_and_undo_of_undo(garden: Path) -> None:
    before = told(garden, "standing")
    assert ask(garden, "undo", "--by", "ben").code == 0
    without = told(garden, "standing")
    assert without != before
    last = told(garden, "book", "--last", "1")["entries"][0]
    assert ask(garden, "undo", last["key"], "--by", "ben").code == 0
    assert told(garden, "standing") == before


def test_a_lock_is_set_shown_everywhere_and_lifted_only_by_who_may(garden: Path) -> None:
    why = "glass in the soil"
    assert ask(garden, "lock", "add", "--bed", "bed 1", "--why", why, "--by", "ann").code == 0
    for words in ("bed", "bed Bed 1", "standing", "book", "lock"):
        assert why in ask(garden, *words.split()).out
        assert why in json.dumps(told(garden, *words.split()))
    key = next(line["key"] for line in told(garden, "lock")["locks"] if line["why"] == why)
    refused = ask(garden, "lock", "lift", key, "--why", "looks fine", "--by", "ben")
    assert "may not lift" in refused.out + refused.err
    assert why in ask(garden, "lock").out
    assert ask(garden, "lock", "lift", key, "--why", "sieved", "--by", "ann").code == 0
    assert why not in ask(garden, "lock").out
    assert why in ask(garden, "lock", "--over").out


def test_raw_manure_sets_its_own_lock(garden: Path) -> None:
    said = ask(garden, "lock").out
    assert "before 10 Oct 2026 (10 Sep 2026" in said  # 120 and 90 days after 12 June


def test_seed_is_put_in_and_tested(garden: Path) -> None:
    assert ask(garden, "tin", "add", "dill", "--lot", "dill-26", "--seeds", "300", "--by", "ann").code == 0
    assert ask(garden, "tin", "test", "dill-26", "--sprouted", "8", "--of", "10", "--by", "ann").code == 0
    said = ask(garden, "tin", "--crop", "dill").out
    assert "8 of 10" in said
    assert "8 times in 10" in said


@pytest.mark.parametrize(
    ("words", "says"),
    [
        ("bed Bad 1", "Bed 1"),
        ("standing --crop carot", "carrot"),
        ("book --by bem", "Ben"),
        ("book --kind piked", "picked"),
        ("kit fleec", "fleece"),
        ("undo zzzzzz --by ann", "zzzzzz"),
        ("standing --on 31-31", "not a date"),
        ("lock lift zzzzzz --why x --by ann", "zzzzzz"),
    ],
)
def test_what_is_not_known_gets_the_nearest(garden: Path, words: str, says: str) -> None:
    said = ask(garden, *words.split())
    assert said.code == 2
    assert says in said.err


def test_american_gardens_in_their_own_units(tmp_path: Path) -> None:
    us = plot(tmp_path, us=True)
    said = ask(us, "bed", "Bed", "1").out
    assert "Apr 20" in said
    assert "5.55 gal or 0.29 in" in said  # 21 litres, 7.3 mm
    assert "litres" not in said
    assert " kg" not in ask(us, "standing").out


def test_a_damaged_book_is_read_and_says_the_way_back(garden: Path) -> None:
    assert ask(garden, "backup").code == 0
    book = garden / "book.sqlite"
    data = bytearray(book.read_bytes())
    for page in range(3, len(data) // 4096):
        data[page * 4096 : page * 4096 + 64] = b"\xff" * 64
    book.write_bytes(bytes(data))
    for path in (garden / "book.sqlite-wal", garden / "book.sqlite-shm"):
        path.unlink(missing_ok=True)
    said = ask(garden, "book", "--json")
    assert "spadework restore" in said.out + said.err
    refused = ask(garden, "undo", "--by", "ben")
    assert refused.code != 0
    assert ask(garden, "restore").code == 0
    assert len(told(garden, "book", "--last", "all")["entries"]) == 17
