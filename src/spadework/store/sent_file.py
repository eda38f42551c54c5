"""What was sent under which key, in a file of the garden's folder: so that one key stays one message.

It is no part of the garden: neither archives nor copies hold it. Without it a key that is in the book still
writes nothing twice; only that another message came with it is not noticed then. Of a message only a digest
is kept.
"""

from __future__ import annotations

import contextlib
import os
from pathlib import Path
from typing import Final

from spadework.errors import StoreError

SENT_FILE: Final = ".sent.txt"

MOST_SENT: Final = 20_000
"""Lines the file grows to before the older half of them is dropped. Our own rule."""


def read_sent(garden: Path) -> dict[str, str]:
    """Digest by key, the oldest first; what cannot be read is left out."""
    try:
        text = (garden / SENT_FILE).read_text(encoding="ascii", errors="replace")
    except OSError:
        return {}
    return {key: digest for key, _, digest in (line.partition(" ") for line in text.splitlines()) if digest}


def add_sent(garden: Path, key: str, digest: str) -> None:
    """Add a line.

    Raises
    ------
    StoreError
        If it cannot be written.
    """
    try:
        with (garden / SENT_FILE).open("a", encoding="ascii") as file:
            file.write(f"{key} {digest}\n")
    except OSError as error:
        raise StoreError(
            f"{garden / SENT_FILE} cannot be written: {error.strerror}.", "Check the folder and the disk."
        ) from None


def shorten_sent(garden: Path, kept: dict[str, str]) -> None:
    """Replace the file by these lines; where that cannot be, it stays as long as it is."""
    new = garden / f"{SENT_FILE}.new"
    with contextlib.suppress(OSError):
        new.write_text("".join(f"{key} {digest}\n" for key, digest in kept.items()), encoding="ascii")
        os.replace(new, garden / SENT_FILE)
