"""What other programs of the garden's people can ask and write, in words."""

from __future__ import annotations

from typing import Final

from spadework.faces.web.visit import Page, Visit, Way


def show_api(visit: Visit) -> Page:
    """Every call, by what it does."""
    from spadework.faces.web.api.answer import all_calls

    calls = all_calls()
    return Page(
        "api.html",
        {
            "reads": [each for each in calls if not each.writes],
            "writes": [each for each in calls if each.writes],
            "address": visit.address,
        },
    )


WAYS: Final = (Way("/api", show_api, without_garden=True),)
