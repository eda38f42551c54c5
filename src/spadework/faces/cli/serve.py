"""Serve the garden's pages on this machine."""

from __future__ import annotations

from datetime import date
from typing import Annotated

from cyclopts import Parameter

from spadework.faces.cli.common import Common

PORT = 8040


def serve(
    *,
    port: Annotated[int, Parameter(help="Port to listen on; 0 for any that is free.")] = PORT,
    show: Annotated[bool, Parameter(name="--open", negative="", help="Open it in the browser.")] = False,
    common: Common | None = None,
) -> None:
    """Serve the pages of a garden, for this machine alone, until stopped with Ctrl-C."""
    common = common or Common()
    run_server(common, day=None if common.today is None else common.day, port=port, show=show)


def run_server(
    common: Common, *, day: date | None, port: int, show: bool, or_any: bool = False, demo: bool = False
) -> None:
    """Serve, and say where; where the port is taken and `or_any` is set, at another."""
    from spadework.faces.web.house import House
    from spadework.faces.web.server import serve as serve_house

    house = House(garden=common.garden, fixed_day=day, demo=demo)

    def when_open(address: str) -> None:
        print(f"Open {address}\nStop with Ctrl-C.", flush=True)

    serve_house(house, "127.0.0.1", port, or_any=or_any, when_open=when_open, show=show)
