"""Sheets of paper, read back by two readers that are not ours: pypdf, and Poppler's pdftotext."""

from __future__ import annotations

import io
import re
import shutil
import subprocess
from datetime import date
from pathlib import Path

import pytest
from pypdf import PdfReader

from locked_garden import LOCKED, TODAY, locked_garden
from spadework.faces.paper.sheets import bed_card, round_sheet, row_labels
from spadework.usecases.demo_garden import make_demo
from spadework.usecases.show_plantings import list_plantings
from spadework.usecases.walk_round import walk_round

DAY = date(2026, 6, 12)


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("demo") / "garden"
    make_demo(folder, DAY)
    return folder


@pytest.fixture(scope="module")
def locked(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return locked_garden(tmp_path_factory.mktemp("locked") / "garden")


def words_of(pdf: bytes) -> str:
    """All text of a PDF in one line, as Poppler reads it."""
    if shutil.which("pdftotext") is None:
        pytest.skip("no pdftotext on this machine")
    done = subprocess.run(["pdftotext", "-raw", "-", "-"], input=pdf, capture_output=True, check=True)
    return re.sub(r"\s+", " ", done.stdout.decode())


def test_the_round_on_paper_has_every_job_of_the_round(demo: Path) -> None:
    pdf = round_sheet(demo, DAY, minutes=60)
    assert PdfReader(io.BytesIO(pdf)).metadata.title == "The round, Fri 12 Jun 2026"
    words = words_of(pdf)
    found = walk_round(demo, DAY, minutes=60)
    for stop in found.stops:
        for job in stop.jobs:
            assert job.act in words
            for caution in job.cautions:
                assert caution.text in words


def test_the_same_day_gives_the_same_bytes(demo: Path) -> None:
    assert round_sheet(demo, DAY) == round_sheet(demo, DAY)


def test_what_a_person_typed_is_not_read_as_markup(locked: Path) -> None:
    words = words_of(bed_card(locked, TODAY, "Bed 1", address='#panic("x") $x$ *'))
    assert "Bed 1" in words


@pytest.mark.parametrize("each", LOCKED, ids=lambda each: each.sort)
def test_a_beds_card_shows_its_lock(locked: Path, each: object) -> None:
    assert each.word in words_of(bed_card(locked, TODAY, each.bed))


def test_the_round_on_paper_shows_every_lock(locked: Path) -> None:
    words = words_of(round_sheet(locked, TODAY))
    assert [each.sort for each in LOCKED if each.word not in words] == []


def test_every_standing_planting_has_a_label_and_a_locked_one_says_so(locked: Path) -> None:
    standing = [each for each in list_plantings(locked, TODAY).plantings if each.bed]
    words = words_of(row_labels(locked, TODAY))
    assert [each.name for each in standing if each.name not in words] == []
    assert words.count("Locked: ask before picking") == sum(bool(each.locks) for each in standing)
