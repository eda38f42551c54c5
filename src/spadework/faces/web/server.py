"""Serve one garden until told to stop."""

from __future__ import annotations

import socket
import threading
import webbrowser
from collections.abc import Callable

import uvicorn

from spadework.errors import ParameterError, SpadeworkError
from spadework.faces.web.app import build_app
from spadework.faces.web.house import House


def serve(
    house: House, host: str, port: int, *, when_open: Callable[[str], None], show: bool, or_any: bool = False
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

    Raises
    ------
    ParameterError
        If the port is taken.
    """
    listener = _listener(host, port, or_any=or_any)
    config = uvicorn.Config(
        build_app(house), log_level="warning", access_log=False, timeout_graceful_shutdown=2, lifespan="on"
    )
    address = (
        f"http://{'127.0.0.1' if host in ('127.0.0.1', '0.0.0.0') else host}:{listener.getsockname()[1]}/"
    )
    server = uvicorn.Server(config)
    warm = threading.Thread(target=_warm, args=(house,), daemon=True)
    warm.start()
    when_open(address)
    if show:
        threading.Timer(0.5, webbrowser.open, (address,)).start()
    server.run(sockets=[listener])


def _warm(house: House) -> None:
    """Compute the first round before anybody asks; whatever is wrong is said when they do."""
    from spadework.usecases.jobs_today import open_day

    try:
        with house.turn:
            open_day(house.garden, house.today)
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
