"""The API of a copy of the demo garden, in this process."""

from __future__ import annotations

import shutil
from datetime import date
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from spadework.faces.web.app import build_app
from spadework.faces.web.house import House
from spadework.usecases.demo_garden import make_demo

DAY = date(2026, 6, 12)
HERE = "http:" + "//127.0.0.1"


@pytest.fixture(scope="session")
def demo_once(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo garden, made once; never written to."""
    folder = tmp_path_factory.mktemp("api") / "garden"
    make_demo(folder, DAY)
    return folder


@pytest.fixture(scope="module")
def garden(demo_once: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A copy to write to."""
    return Path(shutil.copytree(demo_once, tmp_path_factory.mktemp("copy") / "garden"))


@pytest.fixture(scope="module")
def client(garden: Path) -> TestClient:
    """Whoever sits at the machine, with the header that writing needs."""
    return TestClient(
        build_app(House(garden=garden, fixed_day=DAY)),
        base_url=HERE,
        headers={"x-spadework": "test"},
        follow_redirects=False,
        raise_server_exceptions=False,
    )
