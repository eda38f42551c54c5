"""Serve one garden until told to stop."""

from __future__ import annotations

import contextlib
import socket
import threading
import webbrowser
from collections.abc import Callable

import uvicorn

from spadework.errors import ParameterError, SpadeworkError
from spadework.faces.web.app import build_app
from spadework.faces.web.house import House
from spadework.faces.web.memory import given_back
from spadework.faces.web.render import prepare
from spadework.usecases.own_https import certificates_for


def serve(
    house: House,
    host: str,
    port: int,
    *,
    when_open: Callable[[str], None],
    show: bool,
    or_any: bool = False,
    sealed: bool = False,
) -> None:
    """Serve until interrupted.

    Parameters
    ----------
    house : House
    host : str
        Address to listen on; loopback unless others were let in.
    port : int
        0 for any that is free.
    when_open : callable
        Told the address once it answers.
    show : bool
        Open it in a browser.
    or_any : bool
        Where the port is taken, listen at any that is free.

    sealed : bool
        By https, vouched for by an authority of the garden's own.

    Raises
    ------
    ParameterError
        If the port is taken.
    StoreError
        If no certificate could be kept.
    """
    listener = _listener(host, port, or_any=or_any)
    port = listener.getsockname()[1]
    if house.home:
        house.names = (*house.names, *home_names())
        scheme = "https" if sealed else "http"
        house.reached_by = tuple(f"{scheme}://{each}:{port}" for each in home_addresses())
    seal = certificates_for(house.garden, house.names) if sealed else None
    house.authority = b"" if seal is None else seal.authority
    config = uvicorn.Config(
        build_app(house),
        log_level="warning",
        access_log=False,
        timeout_graceful_shutdown=2,
        lifespan="on",
        # whoever asks is whoever the line says, not whoever a header says
        proxy_headers=False,
        server_header=False,
        ssl_certfile=None if seal is None else str(seal.certificate),
        ssl_keyfile=None if seal is None else str(seal.key),
    )
    shown = "127.0.0.1" if host in ("127.0.0.1", "0.0.0.0") else host
    address = f"{'https' if sealed else 'http'}://{shown}:{port}/"
    server = uvicorn.Server(config)
    warm = threading.Thread(target=_warm, args=(house,), daemon=True)
    warm.start()
    when_open(address)
    if show:
        threading.Timer(0.5, webbrowser.open, (address,)).start()
    server.run(sockets=[listener])


def home_addresses() -> list[str]:
    """Addresses of this machine on the networks it is in; the one that leads on comes first."""
    found: list[str] = []
    # no packet is sent: the system only says which of its addresses it would send from
    for far in ("192.0.2.1", "10.255.255.255", "192.168.255.255"):
        with contextlib.suppress(OSError), socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
            probe.connect((far, 9))
            found.append(probe.getsockname()[0])
    with contextlib.suppress(OSError):
        found += [str(each[4][0]) for each in socket.getaddrinfo(socket.gethostname(), None, socket.AF_INET)]
    return [each for each in dict.fromkeys(found) if not each.startswith(("127.", "0."))]


def home_names() -> list[str]:
    """What this machine is called on its network."""
    name = socket.gethostname().partition(".")[0].lower()
    return [*home_addresses(), *([name, f"{name}.local"] if name and name != "localhost" else [])]


def _warm(house: House) -> None:
    """Compute the first round before anybody asks; whatever is wrong is said when they do."""
    from spadework.usecases.jobs_today import open_day
    from spadework.usecases.kept_round import kept_round

    try:
        with house.turn, given_back():
            kept_round(open_day(house.garden, house.today))
            prepare("round.html")
    except SpadeworkError:
        return


def _listener(host: str, port: int, *, or_any: bool) -> socket.socket:
    listener = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    listener.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        listener.bind((host, port))
    except OSError as error:
        listener.close()
        if or_any and port:
            return _listener(host, 0, or_any=False)
        raise ParameterError(
            f"Port {port} cannot be used: {error.strerror}.", "Give another with --port, or 0 for any."
        ) from error
    return listener
