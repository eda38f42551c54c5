"""News for open pages: that the book has grown, as a stream of server-sent events."""

from __future__ import annotations

import asyncio
import contextlib
from collections.abc import AsyncIterator, Callable
from typing import Final

QUIET_S: Final = 20.0
"""After so long without news a comment is sent, so that a lost line is noticed."""

LOOK_S: Final = 2.0
"""How often the book is looked at for entries written elsewhere, while anybody listens."""


class Hub:
    """Everybody who listens for news of the book."""

    def __init__(self) -> None:
        self._queues: set[asyncio.Queue[str]] = set()
        self._last = ""
        self.closing = False

    def tell(self, last: str) -> None:
        """Say that the book now ends with an entry of this key; from the event loop's own thread."""
        if last == self._last:
            return
        self._last = last
        for queue in self._queues:
            queue.put_nowait(last)

    async def listen(self, look: Callable[[], str]) -> AsyncIterator[bytes]:
        """Events for one page, until it leaves or the server closes.

        Parameters
        ----------
        look : callable
            Gives the key of the book's last entry; called off the event loop.
        """
        queue: asyncio.Queue[str] = asyncio.Queue()
        self._queues.add(queue)
        silent_s = 0.0
        try:
            yield b"retry: 3000\nevent: hello\ndata: \n\n"
            self._last = self._last or await asyncio.to_thread(look)
            while not self.closing:
                with contextlib.suppress(TimeoutError):
                    last = await asyncio.wait_for(queue.get(), LOOK_S)
                    yield f"event: book\ndata: {last}\n\n".encode()
                    silent_s = 0.0
                    continue
                self.tell(await asyncio.to_thread(look))
                silent_s += LOOK_S
                if silent_s >= QUIET_S:
                    silent_s = 0.0
                    yield b": still here\n\n"
            yield b"event: closing\ndata: \n\n"
        finally:
            self._queues.discard(queue)
