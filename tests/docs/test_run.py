"""run.py does what it says: every gate is run, and one exit code tells the truth about all of them."""

from __future__ import annotations

import importlib.util
import subprocess
from pathlib import Path
from types import ModuleType

import pytest

from bench.figures import Figure, short
from source_tree import ROOT


@pytest.fixture
def run() -> ModuleType:
    spec = importlib.util.spec_from_file_location("run_script", ROOT / "run.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


GATES = ["ruff", "ruff", "mypy", "lint-imports", "deptry", "python", "python"]


@pytest.mark.parametrize("broken", [None, "ruff", "mypy", "lint-imports", "deptry", "python"])
def test_one_exit_code_for_all_gates(
    run: ModuleType, monkeypatch: pytest.MonkeyPatch, capfd: pytest.CaptureFixture[str], broken: str | None
) -> None:
    ran: list[str] = []

    def pretend(command: list[str], **_: object) -> subprocess.CompletedProcess[str]:
        name = Path(command[0]).name
        ran.append(name)
        return subprocess.CompletedProcess(command, 3 if name == broken else 0)

    monkeypatch.setattr(run.subprocess, "run", pretend)
    assert run.check_all(Path("bin/python")) == (0 if broken is None else 1)
    assert ran == GATES
    last = capfd.readouterr().out.splitlines()[-1]
    assert last.startswith("All checks passed" if broken is None else "FAILED: ")


def test_paths_go_to_the_tests_only(run: ModuleType, monkeypatch: pytest.MonkeyPatch) -> None:
    ran: list[list[str]] = []

    def pretend(command: list[str], **_: object) -> subprocess.CompletedProcess[str]:
        ran.append(command)
        return subprocess.CompletedProcess(command, 5)

    monkeypatch.setattr(run, "ready", lambda group: Path(f"{group}/python"))
    monkeypatch.setattr(run.subprocess, "run", pretend)
    assert run.main(["test", "tests/unit", "-x"]) == 5
    assert run.main(["odds", "frost"]) == 5
    assert run.main([]) == 5
    assert ran == [
        ["dev/python", "-m", "pytest", "tests/unit", "-x"],
        ["run/python", "-m", "spadework.faces.cli", "odds", "frost"],
        ["run/python", "-m", "spadework.faces.cli", "--help"],
    ]


@pytest.mark.parametrize(
    ("value", "shown"), [(0.01234, "0.0123"), (12.0, "12"), (999.7, "1,000"), (12345.0, "12,300")]
)
def test_figures_show_three_digits(value: float, shown: str) -> None:
    assert short(value) == shown


def test_a_missed_budget_is_marked() -> None:
    assert Figure("wait", 3.0, "ms").kept is None
    assert Figure("wait", 3.0, "ms", 2.0).kept is False
    assert Figure("ratio", 3.0, "times", 2.0, "least").kept is True
    assert "**missed**" in Figure("wait", 3.0, "ms", 2.0).row
