"""What every answer carries: nothing from elsewhere runs, frames, or learns what was read here."""

from __future__ import annotations

from typing import Final

from starlette.types import ASGIApp, Message, Receive, Scope, Send

POLICY: Final = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data: blob:; "
    "connect-src 'self'; font-src 'self'; manifest-src 'self'; worker-src 'self'; form-action 'self'; "
    "base-uri 'none'; frame-ancestors 'none'"
)

_ALWAYS: Final = (
    (b"content-security-policy", POLICY.encode()),
    (b"x-content-type-options", b"nosniff"),
    (b"referrer-policy", b"same-origin"),
    (b"cross-origin-opener-policy", b"same-origin"),
    (b"cross-origin-resource-policy", b"same-origin"),
    (b"permissions-policy", b"geolocation=(), microphone=(), camera=(self)"),
)


class SafeHeaders:
    """Adds the headers to every answer; static files may be kept for good, pages are asked for anew."""

    def __init__(self, app: ASGIApp) -> None:
        self.app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Pass a request on, and its answer back with the headers."""
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        static = scope["path"].startswith("/static/")

        async def with_headers(message: Message) -> None:
            if message["type"] == "http.response.start":
                headers = list(message.get("headers", ()))
                names = {name for name, _ in headers}
                headers += [pair for pair in _ALWAYS if pair[0] not in names]
                if b"cache-control" not in names:
                    keep = b"public, max-age=31536000, immutable" if static else b"no-cache"
                    headers.append((b"cache-control", keep))
                message = {**message, "headers": headers}
            await send(message)

        await self.app(scope, receive, with_headers)
