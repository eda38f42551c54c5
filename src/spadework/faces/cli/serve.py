"""Serve the garden's pages on this machine."""

from __future__ import annotations

import re
import sys
from datetime import date
from typing import TYPE_CHECKING, Annotated

from cyclopts import Parameter

from spadework.errors import ParameterError
from spadework.faces.cli.common import Common

if TYPE_CHECKING:
    from spadework.faces.web.house import House
    from spadework.usecases.let_in import Code

PORT = 8040
_NAME = re.compile(r"[A-Za-z0-9]([A-Za-z0-9.-]{0,251}[A-Za-z0-9])?")
"""No sign for "any name" among them: a page elsewhere could then pose as this one."""


def serve(
    *,
    port: Annotated[int, Parameter(help="Port to listen on; 0 for any that is free.")] = PORT,
    show: Annotated[bool, Parameter(name="--open", negative="", help="Open it in the browser.")] = False,
    home: Annotated[
        bool,
        Parameter(
            negative="", help="Listen on the home network too; phones are let in by a code, once each."
        ),
    ] = False,
    https: Annotated[
        bool,
        Parameter(negative="", help="Seal the connection; a device has to be told once to trust the garden."),
    ] = False,
    code_for: Annotated[
        str, Parameter(name="--for", help="With --home: whom the first code is for; else the first keeper.")
    ] = "",
    name: Annotated[
        tuple[str, ...],
        Parameter(negative=(), help="Another name by which this machine answers; may be given again."),
    ] = (),
    common: Common | None = None,
) -> None:
    """Serve the pages of a garden, for this machine alone or the home network, until stopped with Ctrl-C."""
    common = common or Common()
    if code_for and not home:
        raise ParameterError("--for names whom a phone is let in for.", "Give it with --home.")
    run_server(
        common,
        day=None if common.today is None else common.day,
        port=port,
        show=show,
        home=home,
        code_for=code_for,
        https=https,
        names=name,
    )


def run_server(
    common: Common,
    *,
    day: date | None,
    port: int,
    show: bool,
    or_any: bool = False,
    demo: bool = False,
    home: bool = False,
    code_for: str = "",
    https: bool = False,
    names: tuple[str, ...] = (),
) -> None:
    """Serve, and say where; where the port is taken and `or_any` is set, at another.

    Raises
    ------
    ParameterError
        If a name is none, or the port is taken.
    """
    from spadework.faces.web.house import House
    from spadework.faces.web.server import serve as serve_house

    for each in names:
        if not _NAME.fullmatch(each):
            raise ParameterError(
                f"{each!r} is not the name of a machine.", "Write it as in an address: garden.home."
            )
    house = House(garden=common.garden, fixed_day=day, demo=demo, home=home)
    house.names = (*house.names, *names)
    code = _code(house, code_for) if home else None

    def when_open(address: str) -> None:
        print(f"Open {address}", flush=True)
        if code is not None:
            _tell_code(house, code)
        print("Stop with Ctrl-C.", flush=True)

    serve_house(
        house,
        "0.0.0.0" if home else "127.0.0.1",
        port,
        or_any=or_any,
        when_open=when_open,
        show=show,
        sealed=https,
    )


def _code(house: House, name: str) -> Code | None:
    """A code for whoever is named, else for the first keeper; None where there is no garden yet."""
    from spadework.garden.lookup import key_of

    if not (house.garden / "garden.toml").is_file():
        return None
    people = {key: name for key, (name, _) in house.people.items()}
    key = key_of(name, people, "person") if name else house.first_keeper[0]
    return house.let_in.code_for(key, people.get(key, ""))


def _tell_code(house: House, code: Code) -> None:
    from spadework.faces.web.pages.let_in import address_of
    from spadework.usecases.let_in import CODE_MINUTES

    if not house.reached_by:
        print("This computer is in no network, so no phone can reach it.")
        return
    where = house.reached_by[0]
    print(
        f"\nFor {code.name or 'the keeper'}'s phone, in the same network: scan this, or open {where}/let-in"
    )
    print(
        f"and type {code.text}. Good once, for {CODE_MINUTES} minutes. For others: People, Let others in.\n"
    )
    if sys.stdout.isatty():
        import segno

        segno.make(address_of(where, code), error="l", micro=False).terminal(compact=True, border=2)
