"""The questions `new` asks: each says what it is for and what it takes where nothing is answered."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, TypeVar

from spadework.errors import SpadeworkError
from spadework.faces.cli.common import Common
from spadework.faces.cli.new import Units, Words, read_elevation, tell_took
from spadework.faces.cli.say import wrapped
from spadework.usecases.plan_guess import ELEVATION_M

if TYPE_CHECKING:
    from spadework.usecases.keep_garden import GardenMade

Answer = TypeVar("Answer")
Word = TypeVar("Word", bound=str)

_UNITS: dict[str, Units] = {"metric": "metric", "m": "metric", "us": "us", "american": "us", "imperial": "us"}
_WORDS: dict[str, Words] = {"british": "british", "b": "british", "american": "american", "a": "american"}
_EXAMPLE = "12 beds 1.2 x 2.4 m in 3 rows, paths 0.6 m"
_EXAMPLE_US = "12 beds 4 x 8 ft in 3 rows, paths 2 ft"


def asked(
    common: Common,
    name: str | None,
    elevation: str | None,
    units: Units | None,
    words: Words | None,
    zone: str | None,
    lines: Sequence[str],
    keepers: Sequence[str],
    helpers: Sequence[str],
) -> GardenMade | None:
    """Ask for what was not given, and make the garden.

    Returns
    -------
    GardenMade or None
        None where the person stopped; then nothing was made.
    """
    try:
        return _asked(common, name, elevation, units, words, zone, lines, keepers, helpers)
    except (KeyboardInterrupt, EOFError):
        return None


def _asked(
    common: Common,
    name: str | None,
    elevation: str | None,
    units: Units | None,
    words: Words | None,
    zone: str | None,
    lines: Sequence[str],
    keepers: Sequence[str],
    helpers: Sequence[str],
) -> GardenMade | None:
    from spadework.usecases import plan_guess
    from spadework.usecases.keep_garden import check_site, folder_for, make_garden

    print(wrapped("A new garden. Press Enter to take what stands in brackets; Ctrl-C leaves nothing behind."))
    if name is None:
        name = _ask("What is it called?", "Home", lambda text: check_site(text, 0.0, 0.0, 0.0).name)
    folder = common.garden
    if folder == Path():
        folder = _ask(
            "Which folder shall hold its files? They are yours: one database, plain text files, photos.",
            folder_for(name),
            _free_folder,
        )
    lat_deg, lon_deg = _ask_place()
    shown = units or _choice(
        "Units to show: metric or us? Files inside are metric.",
        plan_guess.likely_units(lat_deg, lon_deg),
        _UNITS,
    )
    us = shown == "us"
    if elevation is None:
        height_m = _ask(
            f"How high above the sea, in {'ft' if us else 'm'}? Roughly will do; it moves water use little.",
            "300" if us else f"{ELEVATION_M:g}",
            lambda text: check_site("x", 0.0, 0.0, read_elevation(text, "", feet=us)).elevation_m,
        )
    else:
        height_m = read_elevation(elevation, "--elevation")
    spoken = words or _choice(
        "British or American names (courgette or zucchini)? Both are understood.",
        plan_guess.likely_words(shown),
        _WORDS,
    )
    if not lines:
        lines = _ask_beds(shown)
    if not keepers:
        keeper = _ask(
            "Who keeps it? The book names who did what.", plan_guess.likely_name() or "Keeper", _one_name
        )
        keepers = [keeper]
    if not helpers:
        helpers = _ask("Who helps? Names with commas.", "nobody", lambda text: _names(text, keepers))
    made = make_garden(
        folder,
        name,
        lat_deg,
        lon_deg,
        height_m,
        units=shown,
        words=spoken,
        zone=plan_guess.likely_zone(lon_deg) if zone is None else zone,
        bed_lines=lines,
        keepers=keepers,
        helpers=helpers,
        today=common.day,
    )
    print()
    return made


def _ask(question: str, default: str, read: Callable[[str], Answer]) -> Answer:
    """Ask until the answer can be read; what is wrong is said, and it is asked again."""
    print()
    print(wrapped(question))
    while True:
        said = input(f"[{default}] > ").strip() or default
        try:
            return read(said)
        except SpadeworkError as error:
            print(wrapped(str(error).strip()))


def _choice(question: str, default: Word, words: Mapping[str, Word]) -> Word:
    def read(text: str) -> Word:
        found = words.get(text.lower().strip())
        if found is None:
            raise SpadeworkError(
                f"{text!r} is neither.", f"Say {' or '.join(dict.fromkeys(words.values()))}."
            )
        return found

    return _ask(question, default, read)


def _ask_place() -> tuple[float, float]:
    from spadework.garden.coordinates import place_text, read_place
    from spadework.usecases.keep_garden import check_site
    from spadework.usecases.plan_guess import rough_place

    def read(text: str) -> tuple[float, float]:
        lat_deg, lon_deg = read_place(text)
        check_site("x", lat_deg, lon_deg, 0.0)
        return lat_deg, lon_deg

    rough = rough_place()
    question = (
        "Where is it? Latitude and longitude as a map shows them: 52.1 N 0.1 W, or 52°06'N 0°06'W. They"
        " decide sun, season and frost; they stay on this machine unless you fetch weather."
    )
    if rough is None:
        return _ask(question, "52.1 N 0.1 W", read)
    question += f" In brackets: where this computer's clock is set for ({rough.zone}), which is only rough."
    return _ask(question, place_text(rough.lat_deg, rough.lon_deg), read)


def _ask_beds(units: Units) -> list[str]:
    """Lines about beds, each read at once; a wrong one is explained and asked again."""
    from spadework.usecases.plan_beds import read_bed_lines

    print()
    print(
        wrapped(
            "The beds, a few lines, an empty one to end. North of them, beside the tunnel, raised 30 cm, clay"
            " loam, named North 1 to North 4 are understood. Such as:"
            f' "{_EXAMPLE_US if units == "us" else _EXAMPLE}"'
        )
    )
    lines: list[str] = []
    told: tuple[str, ...] = ()
    while said := input("[no more] > ").strip():
        try:
            laid = read_bed_lines([*lines, said], units)
        except SpadeworkError as error:
            print(wrapped_lines(str(error)))
            continue
        lines.append(said)
        print(wrapped(f"{laid.count} in all: {laid.names}."))
        tell_took(tuple(line for line in laid.took if line not in told))
        told = laid.took
    return lines


def wrapped_lines(text: str) -> str:
    """Each line of a text wrapped by itself."""
    return "\n".join(wrapped(line.strip(), 4, "  ") for line in text.splitlines())


def _one_name(text: str) -> str:
    from spadework.usecases.keep_garden import people_of

    return people_of([text], [])[0].name


def _names(text: str, keepers: Sequence[str]) -> list[str]:
    from spadework.usecases.keep_garden import people_of

    names = (
        [] if text.lower() in ("nobody", "none", "no", "-") else [each.strip() for each in text.split(",")]
    )
    people_of(keepers, names)
    return names


def _free_folder(text: str) -> Path:
    from spadework.usecases.keep_garden import check_folder

    return check_folder(Path(text).expanduser())
