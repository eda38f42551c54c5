"""The ground all tests stand on: no network, no home folder, no luck, and no quiet skips where it counts.

With REQUIRE_ALL=1 (set by .ci/run) a skipped test is a failed one: a machine that has everything may not
leave anything out.
"""

from __future__ import annotations

import ipaddress
import logging
import os
import shutil
import sys
import tempfile
from collections.abc import Generator
from typing import Any

import pytest
from hypothesis import HealthCheck, settings

REQUIRE_ALL = os.environ.get("REQUIRE_ALL") == "1"

# Deadlines are off: on a busy machine of two cores they fail for reasons that are not the code's.
settings.register_profile("desk", deadline=None, max_examples=40)
settings.register_profile(
    "ci",
    deadline=None,
    max_examples=100,
    derandomize=True,
    database=None,
    suppress_health_check=[HealthCheck.too_slow],
)
settings.load_profile("ci" if REQUIRE_ALL or os.environ.get("CI") else "desk")


class NetworkRefused(RuntimeError):
    """A test reached for the network. Only this machine itself may be spoken to."""


def _is_here(host: object) -> bool:
    if host is None or host in ("", "localhost", b"localhost"):
        return True
    try:
        return ipaddress.ip_address(host.decode() if isinstance(host, bytes) else str(host)).is_loopback
    except ValueError:
        return False


def _refuse_network(event: str, args: tuple[Any, ...]) -> None:
    if event in ("socket.connect", "socket.sendto", "socket.sendmsg"):
        address = args[1]
        # A path or bytes is a socket file on this machine; None is a socket already connected.
        if isinstance(address, tuple) and not _is_here(address[0]):
            raise NetworkRefused(f"{event} to {address[0]!r}")
    elif event in ("socket.getaddrinfo", "socket.gethostbyname") and not _is_here(args[0]):
        raise NetworkRefused(f"{event} for {args[0]!r}")


# An audit hook also sees sockets opened by compiled code; it cannot be taken off again, which is the point.
sys.addaudithook(_refuse_network)

_HOME = tempfile.mkdtemp(prefix="spadework-tests-")


def _isolate() -> None:
    """Give this process and its children an empty home and a plain terminal.

    Done when this file is read, because some libraries look for a home folder while they are imported.
    """
    for name in list(os.environ):
        if name.startswith("SPADEWORK_") and name != "SPADEWORK_SHARED":
            del os.environ[name]
    for name in ("FORCE_COLOR", "CLICOLOR_FORCE", "XDG_CONFIG_HOME", "XDG_CACHE_HOME", "XDG_DATA_HOME"):
        os.environ.pop(name, None)
    os.environ.update(
        HOME=_HOME, USERPROFILE=_HOME, APPDATA=_HOME, NO_COLOR="1", COLUMNS="100", TERM="dumb", TZ="UTC"
    )


_isolate()


def pytest_unconfigure() -> None:
    shutil.rmtree(_HOME, ignore_errors=True)


def _skip_is_failure(report: pytest.TestReport | pytest.CollectReport) -> None:
    """Turn a skip into a failure; an expected failure (xfail) is reported as a skip and stays one."""
    if not report.skipped or hasattr(report, "wasxfail"):
        return
    why = report.longrepr[2] if isinstance(report.longrepr, tuple) else report.longrepr
    report.outcome = "failed"
    report.longrepr = f"REQUIRE_ALL=1 allows no skip. {why}"


@pytest.hookimpl(wrapper=True)
def pytest_runtest_makereport() -> Generator[None, pytest.TestReport, pytest.TestReport]:
    report = yield
    if REQUIRE_ALL:
        _skip_is_failure(report)
    return report


@pytest.hookimpl(wrapper=True)
def pytest_make_collect_report() -> Generator[None, pytest.CollectReport, pytest.CollectReport]:
    report = yield
    if REQUIRE_ALL:
        _skip_is_failure(report)
    return report


@pytest.fixture(autouse=True)
def _program_is_heard() -> None:
    """The program's own log as it starts: libraries imported for comparison switch off all they find."""
    logging.disable(logging.NOTSET)
    for name in [each for each in logging.root.manager.loggerDict if each.partition(".")[0] == "spadework"]:
        log = logging.getLogger(name)
        log.disabled = False
        log.setLevel(logging.WARNING)
