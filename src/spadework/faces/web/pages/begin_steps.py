"""The steps of the beginning, which every one of its pages shows."""

from __future__ import annotations

from typing import Final

from spadework.faces.web.visit import Visit

STEPS: Final = (
    ("/begin", "Place"),
    ("/begin/beds", "Beds"),
    ("/begin/weather", "Weather"),
    ("/begin/growing", "What grows"),
)


def is_made(visit: Visit) -> bool:
    """Whether there is a garden."""
    return (visit.garden / "garden.toml").is_file()


def with_steps(visit: Visit, **given: object) -> dict[str, object]:
    """What every step shows: where one is, and the way back to the others."""
    made = is_made(visit)
    return {"steps": STEPS, "may_go": made} | given
