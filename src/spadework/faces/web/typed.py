"""What was typed into a form: how long it may be, and beside which field a fault of it is said."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Final

from spadework.errors import SpadeworkError
from spadework.faces.web.visit import Refused

MOST_SIGNS: Final = 4000
"""Of one field. Our own rule."""

_MOST: Final = {
    "lines": 20_000,
    **dict.fromkeys(
        ("bed", "code", "crop", "device", "grade", "item", "lot", "name", "person", "planting"), 120
    ),
    **dict.fromkeys(("source", "variety"), 120),
    **dict.fromkeys(("because", "why", "words"), 1000),
}

_WITHOUT_A_GAP: Final = re.compile(r"\S{60,}")


def check_length(form: Mapping[str, str]) -> None:
    """Refuse a form with a field that is too long.

    Raises
    ------
    Refused
        Beside that field.
    """
    for name, value in form.items():
        most = _MOST.get(name, MOST_SIGNS)
        if len(value) > most or (
            name == "lines" and max(map(len, value.splitlines()), default=0) > MOST_SIGNS
        ):
            raise Refused(
                f"That is {len(value)} signs long.",
                f"Write at most {most}; it can be told in parts.",
                field=name,
            )


def field_of(error: SpadeworkError, form: Mapping[str, str]) -> str:
    """The field a fault is about: the one it names, or whose words it repeats; empty where none is known."""
    if isinstance(error, Refused) and error.field:
        return error.field
    said = error.message
    return next((name for name, value in form.items() if value.strip() and repr(value.strip()) in said), "")


def in_short(text: str) -> str:
    """A message in which nothing typed runs on without end."""
    return _WITHOUT_A_GAP.sub(lambda found: f"{found[0][:40]}…", text)
