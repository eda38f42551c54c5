"""One module per kind of job: each a pure function from what stands to the jobs worth doing."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Final, TypeAlias

from spadework.advice.job import Job
from spadework.advice.jobs import count
from spadework.advice.scene import Scene

Finder: TypeAlias = Callable[[Scene], Iterable[Job]]

ALL: Final[tuple[Finder, ...]] = (count.jobs,)
"""Every kind, by its module's name."""
