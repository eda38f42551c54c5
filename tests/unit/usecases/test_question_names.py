"""Questions name plantings and packets as the garden does, not by their keys."""

from __future__ import annotations

from datetime import date, timedelta
from pathlib import Path

import pytest

from spadework.usecases.demo_garden import make_demo
from spadework.usecases.look import look_at
from spadework.usecases.question_names import names_for_keys
from spadework.usecases.tell_planting import tell_planting
from spadework.usecases.write_answer import Writing

DAY = date(2026, 6, 12)


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("demo") / "garden"
    make_demo(folder, DAY)
    return folder


def test_keys_become_names(made: Path) -> None:
    garden = look_at(made, DAY).garden
    named = names_for_keys(garden, "british")
    planting = garden.plantings["rhubarb-2021-1"]
    name = f"rhubarb in {garden.beds[planting.bed].name}"
    assert name in named("rhubarb-2021-1: none of it stands there.")
    assert named("rhubarb-2021-1 stands.").startswith("The ")
    assert "-" not in named("It is sweet-corn, not head-lettuce.")
    lot = next(key for key in garden.tin if any(letter.isdigit() for letter in key))
    assert "the packet of" in named(f"5 were left of lot {lot}.")
    assert named("rhubarb-2021-12 is no key") == "rhubarb-2021-12 is no key"


def test_a_question_after_writing_names_the_planting(made: Path) -> None:
    early = Writing(today=DAY, on=date(2021, 1, 1) - timedelta(days=400), by="maren")
    found = tell_planting(made, early, "rhubarb-2021-1", "picked", {"kg": 0.5}, us=False)
    assert not found.stored
    said = " ".join(each.found for each in found.questions)
    assert "rhubarb in" in said
    assert "2021-1" not in said.replace("2021-1-", "")
