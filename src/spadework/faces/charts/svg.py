"""The little of SVG our pictures share: elements, paths, and a picture that says what it shows."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from html import escape

from markupsafe import Markup


def number(value: float) -> str:
    """A coordinate, short."""
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def element(name: str, inside: str = "", /, **given: object) -> str:
    """One element; an underscore in a name stands for a hyphen, a trailing one is dropped."""
    parts = [
        f' {key.rstrip("_").replace("_", "-")}="{escape(_told(value))}"'
        for key, value in given.items()
        if value is not None and value != ""
    ]
    return f"<{name}{''.join(parts)}>{inside}</{name}>" if inside else f"<{name}{''.join(parts)}/>"


def _told(value: object) -> str:
    return number(value) if isinstance(value, float) else str(value)


def text(x: float, y: float, words: str, /, **given: object) -> str:
    """A line of text."""
    return element("text", escape(words), x=x, y=y, **given)


def line_path(points: Sequence[tuple[float, float]], *, close: bool = False) -> str:
    """The path through some points."""
    steps = " ".join(f"{number(x)},{number(y)}" for x, y in points)
    return f"M{steps}{'Z' if close else ''}"


def picture(
    width: float,
    height: float,
    parts: Iterable[str],
    *,
    title: str,
    about: str = "",
    class_: str = "",
    links: bool = False,
    size: tuple[float, float] | None = None,
    given: Mapping[str, object] | None = None,
) -> Markup:
    """A whole picture, as wide as its place allows.

    Parameters
    ----------
    width, height : float
        Of its own units.
    parts : iterable of str
        Elements.
    title, about : str
        What it shows, in words: read out in place of it.
    class_ : str
    links : bool
        It holds links or handles, which are reached one by one.
    size : (float, float) or None
        Width and height on the page, where it is not to be as wide as its place.
    given : mapping or None
        Other attributes, such as what a script needs to know.
    """
    frame = element(
        "svg",
        "".join(parts) or " ",
        viewBox=f"0 0 {number(width)} {number(height)}",
        width=None if size is None else number(size[0]),
        height=None if size is None else number(size[1]),
        role="group" if links else "img",
        aria_label=f"{title} {about}".strip(),
        class_=class_,
        **(given or {}),
    )
    return Markup(frame)
