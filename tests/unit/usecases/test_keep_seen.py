"""What was found or looked for goes into the book under its trouble."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from spadework.errors import UnknownName
from spadework.garden import entries as kinds
from spadework.store.garden_folder import open_garden
from spadework.usecases.keep_garden import make_garden
from spadework.usecases.keep_seen import events_of, keep_seen
from spadework.usecases.write_answer import Writing

TODAY = date(2026, 6, 12)
MAREN = Writing(today=TODAY, by="maren")


@pytest.fixture
def garden(tmp_path: Path) -> Path:
    folder = tmp_path / "garden"
    make_garden(
        folder, "Plot", 52.0, 0.0, 20.0, bed_lines=["bed 1.2 x 2.4 m"], keepers=["Maren"], today=TODAY
    )
    return folder


def seen(garden: Path) -> list[kinds.Seen]:
    with open_garden(garden).open_book() as book:
        return [entry.act for entry in book.entries() if isinstance(entry.act, kinds.Seen)]


def test_a_first_one_seen_starts_its_clock(garden: Path) -> None:
    event = events_of("potato beetle")[0][0]
    assert keep_seen(garden, MAREN, "potato beetle", event=event).stored
    (found,) = seen(garden)
    assert (found.trouble, found.event, found.sort) == ("colorado-potato-beetle", event, "pest")
    assert found.plants is None


def test_a_clean_look_says_at_how_many_plants(garden: Path) -> None:
    assert keep_seen(garden, MAREN, "late blight", there=False).stored
    (found,) = seen(garden)
    assert (found.what, found.sort, found.plants, found.of_plants) == ("no late blight", "disease", 0, 10)


def test_an_event_of_another_is_refused(garden: Path) -> None:
    with pytest.raises(UnknownName, match="no event 'first-flight-of-fancy'"):
        keep_seen(garden, MAREN, "carrot fly", event="first-flight-of-fancy")
    assert seen(garden) == []
