"""Set a sheet from a template and plain data; nothing a person typed is ever read as markup."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import UTC, datetime, time
from pathlib import Path
from typing import Any, Final

import msgspec

from spadework.faces.voice import Voice

TEMPLATES: Final = Path(__file__).parent / "templates"


def typeset(template: str, data: Mapping[str, Any], voice: Voice) -> bytes:
    """A PDF, the same bytes for the same data.

    Parameters
    ----------
    template : str
        Name of a template beside this module.
    data : mapping
        Given to it as JSON.
    voice : Voice
        Its day is what the file says of when it was made; its units go with the size of paper.
    """
    import typst

    whole = {**data, "paper": "us-letter" if voice.us else "a4"}
    found = typst.compile(
        str(TEMPLATES / f"{template}.typ"),
        root=str(TEMPLATES),
        format="pdf",
        sys_inputs={"data": msgspec.json.encode(whole).decode()},
        ignore_system_fonts=True,
        timestamp=int(datetime.combine(voice.today, time(12), UTC).timestamp()),
    )
    assert isinstance(found, bytes)
    return found


def qr_svg(text: str) -> str:
    """A text as a square of dots, for a phone's camera."""
    import io

    import segno

    drawn = io.BytesIO()
    segno.make(text, error="m", micro=False).save(drawn, kind="svg", scale=4, border=1, xmldecl=False)
    return drawn.getvalue().decode()
