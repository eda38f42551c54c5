"""What the figures were taken on, in one line."""

from __future__ import annotations

import os
import platform
import sys
from importlib.metadata import version
from pathlib import Path

LIBRARIES = ("numpy", "scipy", "pcse", "aquacrop")


def describe() -> str:
    """Processor, cores, system, Python and libraries. Names no host and no person."""
    cores = os.cpu_count()
    libraries = ", ".join(f"{name} {version(name)}" for name in LIBRARIES)
    python = f"Python {sys.version.split()[0]}"
    return f"{_processor()}, {cores} cores, {platform.system()} {platform.machine()}, {python}, {libraries}"


def _processor() -> str:
    listing = Path("/proc/cpuinfo")
    if listing.exists():
        for line in listing.read_text().splitlines():
            if line.startswith("model name"):
                return line.split(":", 1)[1].strip()
    return platform.processor() or platform.machine()
