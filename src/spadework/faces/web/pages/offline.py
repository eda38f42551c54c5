"""Without reception: what is unsent, the worker that keeps pages readable, and the manifest."""

from __future__ import annotations

from typing import Final

import msgspec

from spadework.faces.web.headers import POLICY
from spadework.faces.web.render import STATIC, asset, digest
from spadework.faces.web.visit import File, Page, Visit, Way

SHELL: Final = (
    "look.css",
    "round.css",
    "app.js",
    "keys.js",
    "line.js",
    "live.js",
    "outbox.js",
    "pages.js",
    "send.js",
    "store.js",
    "unsent.js",
)
"""What every page needs; the looks of the others are kept as they are met."""


def show_unsent(visit: Visit) -> Page:  # noqa: ARG001
    """What was told on this phone and is not in the book yet; the phone itself fills the list."""
    return Page("unsent.html")


def worker(visit: Visit) -> File:  # noqa: ARG001
    """The service worker, naming the static files of this version."""
    shell = msgspec.json.encode([asset(name) for name in SHELL]).decode()
    code = (STATIC / "sw.js").read_text(encoding="utf-8")
    for mark, value in (("__DIGEST__", digest()), ("__SHELL__", shell), ("__POLICY__", POLICY)):
        code = code.replace(mark, value)
    return File(code.encode(), "text/javascript")


def manifest(visit: Visit) -> File:
    """What a phone wants to know to put the garden on its first screen."""
    name = visit.site.name if (visit.garden / "garden.toml").is_file() else "Spadework"
    said = {
        "name": name,
        "short_name": name[:12],
        "description": "What the beds need now, and what can wait.",
        "start_url": "/",
        "scope": "/",
        "display": "standalone",
        "background_color": "#eef1ea",
        "theme_color": "#1e2a2c",
        "icons": [{"src": asset("icon.svg"), "sizes": "any", "type": "image/svg+xml", "purpose": "any"}],
    }
    return File(msgspec.json.encode(said), "application/manifest+json")


WAYS: Final = (
    Way("/unsent", show_unsent),
    Way("/sw.js", worker, without_garden=True),
    Way("/manifest.webmanifest", manifest, without_garden=True),
)
