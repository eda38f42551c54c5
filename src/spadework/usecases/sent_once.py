"""One key, one message: what is sent again with its key is let through, anything else under it is refused."""

from __future__ import annotations

import contextlib
import hashlib
from collections.abc import Iterable
from pathlib import Path

from spadework.errors import EntryConflict, StoreError
from spadework.store.sent_file import MOST_SENT, add_sent, read_sent, shorten_sent


class SentOnce:
    """Which message came under which key in one garden.

    Parameters
    ----------
    garden : Path
    """

    def __init__(self, garden: Path) -> None:
        self._garden = garden
        self._known: dict[str, str] | None = None

    def check(self, key: str, digest: str) -> None:
        """Refuse a message under a key that another was written with.

        Parameters
        ----------
        key : str
            Empty where who sends made none.
        digest : str
            As from `digest_of`.

        Raises
        ------
        EntryConflict
        """
        if key and self._read().get(key, digest) != digest:
            raise EntryConflict(
                "The key of this message was used for another one, which is in the book. This one was not "
                "written.",
                "Send it with a key of its own; from a page, open the page again and send it from there.",
            )

    def keep(self, key: str, digest: str) -> None:
        """Remember what was written under a key."""
        known = self._read()
        if not key or key in known:
            return
        known[key] = digest
        with contextlib.suppress(StoreError):  # a full disk: what was written is in the book all the same
            add_sent(self._garden, key, digest)

    def _read(self) -> dict[str, str]:
        if self._known is None:
            self._known = read_sent(self._garden)
            if len(self._known) > MOST_SENT:
                self._known = dict(list(self._known.items())[-MOST_SENT // 2 :])
                shorten_sent(self._garden, self._known)
        return self._known


def digest_of(address: str, parts: Iterable[bytes]) -> str:
    """What tells one message from another: its address and its parts, in order."""
    found = hashlib.sha256(address.encode("utf-8", "replace"))
    for part in parts:
        found.update(len(part).to_bytes(8, "big"))
        found.update(part)
    return found.hexdigest()[:32]
