"""Every address of the web face."""

from __future__ import annotations

from collections.abc import Iterator

from spadework.faces.web.visit import Way


def all_ways() -> Iterator[Way]:
    """Every address, in the order they are tried."""
    from spadework.faces.web.pages.paper import WAYS as PAPER
    from spadework.faces.web.pages.round import WAYS as ROUND

    yield from (*PAPER, *ROUND)
