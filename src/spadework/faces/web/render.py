"""Templates and static files: pages set in our own look, files named by what is in them."""

from __future__ import annotations

import contextlib
import hashlib
import re
import time
from collections.abc import Mapping
from functools import cache, partial
from pathlib import Path
from typing import Any, Final

import jinja2

from spadework import __version__
from spadework.errors import SpadeworkError
from spadework.faces import charts
from spadework.faces.web.page_words import on_page
from spadework.faces.web.visit import Visit
from spadework.usecases.receipt_words import receipt_said

HERE: Final = Path(__file__).parent
STATIC: Final = HERE / "static"

ROOMS: Final = (
    ("Round", "/"),
    ("Garden", "/garden"),
    ("Weigh", "/weigh"),
    ("Watch", "/watch"),
    ("Season", "/season"),
    ("Book", "/book"),
)
"""The rooms within a thumb's reach; the others are in the shed."""


@cache
def digest() -> str:
    """What names the present static files, so that a browser may keep them for good."""
    seen = hashlib.sha256()
    for file in sorted(STATIC.iterdir()):
        seen.update(file.name.encode() + b"\0" + file.read_bytes())
    return seen.hexdigest()[:12]


def asset(name: str) -> str:
    """Address of a static file."""
    return f"/static/{digest()}/{name}"


@cache
def _environment() -> jinja2.Environment:
    found = jinja2.Environment(
        loader=jinja2.FileSystemLoader(HERE / "templates"),
        autoescape=True,
        undefined=jinja2.StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    found.globals |= {
        "receipt": receipt_said,
        "on_page": on_page,
        "asset": asset,
        "rooms": ROOMS,
        "charts": charts,
        "version": __version__,
    }
    return found


def prepare(template: str) -> None:
    """Read a template before it is asked for."""
    _environment().get_template(template)


def render(template: str, visit: Visit, given: Mapping[str, Any], said: str = "") -> bytes:
    """A page as bytes.

    Parameters
    ----------
    template : str
    visit : Visit
    given : mapping
    said : str
        What the last act came to, said once at the top.
    """
    page = _environment().get_template(template)
    whole = {
        "voice": None,
        "site": None,
        **given,
        "visit": visit,
        "said": said,
        "page_made": int(time.time()),
    }
    if whole["voice"] is None and visit.caller.known and (visit.garden / "garden.toml").is_file():
        # a page that says what is wrong with the garden is shown without its name
        with contextlib.suppress(SpadeworkError):
            whole["voice"], whole["site"] = visit.voice, visit.site
    return _FORM.sub(partial(_with_token, visit.caller.token), page.render(whole)).encode()


_FORM: Final = re.compile(r'(<form\b[^>]*\bmethod="post"[^>]*>)(.*?)(?=</form>)', re.DOTALL)


def _with_token(token: str, form: re.Match[str]) -> str:
    """Every form that is sent carries the token of who was given it, whoever wrote the form."""
    if 'name="token"' in form[2]:
        return form[0]
    return f'{form[1]}<input type="hidden" name="token" value="{token}">{form[2]}'
