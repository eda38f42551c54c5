"""No more is read of one message than any message here can be."""

from __future__ import annotations

from starlette.responses import PlainTextResponse
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from spadework.faces.web.visit import TooLong


class Bounded:
    """Refuses a message that says it is too long, and stops reading one that turns out to be.

    Parameters
    ----------
    app : ASGIApp
    most : int
        Bytes.
    """

    def __init__(self, app: ASGIApp, most: int) -> None:
        self.app, self.most = app, most

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Pass a request on, and count what is read of it."""
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        said = dict(scope["headers"]).get(b"content-length", b"0")
        if not said.isdigit() or int(said) > self.most:
            words = f"More than {self.most // 1_000_000} MB are not taken at once. Nothing was written."
            await PlainTextResponse(words, 413)(scope, receive, send)
            return
        read = 0

        async def counted() -> Message:
            nonlocal read
            message = await receive()
            read += len(message.get("body", b""))
            if read > self.most:
                raise TooLong(f"More than {self.most // 1_000_000} MB are not taken at once.", "Send less.")
            return message

        await self.app(scope, counted, send)
