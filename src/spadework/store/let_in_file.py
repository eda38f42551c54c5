"""Devices that were let in, in a file of the garden's folder that only its owner can read.

It is no part of the garden: neither archives nor copies hold it, and without it nothing is lost but that
phones have to be let in again. Of what a device shows only a digest is kept, so that the file opens nothing.
"""

from __future__ import annotations

import contextlib
import os
import secrets
import tempfile
from datetime import datetime
from pathlib import Path
from typing import Final, Literal

import msgspec

from spadework.errors import StoreError

LET_IN_FILE: Final = ".let-in.json"


class Device(msgspec.Struct, frozen=True, kw_only=True):
    """A device let in, or a calendar that may read the windows.

    Parameters
    ----------
    key : str
        Names it where it is shown and ended; opens nothing.
    digest : str
        Of the token it shows.
    person : str
        Key of whom it was let in for.
    name : str
        What it is called.
    since, until, last_seen : datetime
        With time zone.
    ended : datetime or None
        When a keeper ended it.
    sort : {"device", "calendar"}
    """

    key: str
    digest: str
    person: str
    name: str
    since: datetime
    until: datetime
    last_seen: datetime
    ended: datetime | None = None
    sort: Literal["device", "calendar"] = "device"


class LetInState(msgspec.Struct, frozen=True, kw_only=True):
    """All of the file: a secret to sign with, and the devices by the digest of their token."""

    secret: str
    devices: dict[str, Device] = {}


def new_state() -> LetInState:
    """Nobody let in, and a new secret."""
    return LetInState(secret=secrets.token_hex(32))


def read_let_in(garden: Path) -> LetInState | None:
    """What the file says; None where there is none, or it cannot be read: then nobody is let in."""
    try:
        return msgspec.json.decode((garden / LET_IN_FILE).read_bytes(), type=LetInState)
    except (OSError, msgspec.DecodeError):
        return None


def let_in_mark(garden: Path) -> int:
    """Changes whenever the file does; 0 where there is none."""
    try:
        return (garden / LET_IN_FILE).stat().st_mtime_ns
    except OSError:
        return 0


def keep_let_in(garden: Path, state: LetInState) -> None:
    """Replace the file in one step; only its owner can read it.

    Raises
    ------
    StoreError
        If it cannot be written.
    """
    temporary = ""
    try:
        # made so that only the owner may read it, before anything is in it
        handle, temporary = tempfile.mkstemp(dir=garden, prefix=".let-in.", suffix=".new")
        with os.fdopen(handle, "wb") as file:
            file.write(msgspec.json.encode(state))
            file.flush()
            os.fsync(file.fileno())
        os.replace(temporary, garden / LET_IN_FILE)
    except OSError as error:
        if temporary:
            with contextlib.suppress(OSError):
                os.unlink(temporary)
        raise StoreError(
            f"{garden / LET_IN_FILE} cannot be written: {error.strerror}.", "Check the folder and the disk."
        ) from None
