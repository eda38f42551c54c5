"""Make a garden: by flags, or by answering a few questions at a terminal."""

from __future__ import annotations

import sys
from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Literal

from cyclopts import Parameter

from spadework.errors import GardenError, ParameterError
from spadework.faces.cli.common import Common, answer
from spadework.faces.cli.say import wrapped
from spadework.usecases.plan_guess import ELEVATION_M

if TYPE_CHECKING:
    from spadework.usecases.keep_garden import GardenMade

Units = Literal["metric", "us"]
Words = Literal["british", "american"]


def new(
    *,
    name: Annotated[str | None, Parameter(help="What the garden is called.")] = None,
    lat: Annotated[
        str | None,
        Parameter(
            help='Latitude: 52.1, "52.1 N" or "52 06 N"; south is negative.', allow_leading_hyphen=True
        ),
    ] = None,
    lon: Annotated[
        str | None,
        Parameter(help='Longitude: 0.1, "0.1 E" or "0 06 E"; west is negative.', allow_leading_hyphen=True),
    ] = None,
    elevation: Annotated[
        str | None, Parameter(help="Height above the sea, in m, or 300ft.", allow_leading_hyphen=True)
    ] = None,
    units: Annotated[Units | None, Parameter(help="How it shows temperatures, lengths and dates.")] = None,
    words: Annotated[Words | None, Parameter(help="Which English it speaks.")] = None,
    zone: Annotated[
        str | None, Parameter(help='The clock of its hours: "Europe/Vienna". Else this computer\'s, if near.')
    ] = None,
    beds: Annotated[
        list[str] | None,
        Parameter(
            help='A line about beds: "12 beds 1.2 x 2.4 m in 3 rows". May be given again.', negative=""
        ),
    ] = None,
    beds_file: Annotated[Path | None, Parameter(help="A text file of such lines.")] = None,
    keeper: Annotated[
        list[str] | None, Parameter(help="Who keeps it. May be given again.", negative="")
    ] = None,
    helper: Annotated[list[str] | None, Parameter(help="Who helps. May be given again.", negative="")] = None,
    ask: Annotated[bool, Parameter(help="Ask for what is missing, at a terminal.")] = True,
    demo: Annotated[bool, Parameter(help="Make the invented demo garden instead.", negative="")] = False,
    common: Common | None = None,
) -> None:
    """Make a garden: its place, its beds and its people. Asks at a terminal where no place is given."""
    common = common or Common()
    if demo:
        _demo(
            common,
            {"--name": name, "--lat": lat, "--lon": lon, "--elevation": elevation, "--units": units}
            | {"--words": words, "--zone": zone, "--beds": beds, "--beds-file": beds_file}
            | {"--keeper": keeper, "--helper": helper},
        )
        return
    if lat is None and lon is None and ask and not common.json and sys.stdin.isatty() and sys.stdout.isatty():
        from spadework.faces.cli.new_ask import asked

        made = asked(
            common, name, elevation, units, words, zone, lines_of(beds, beds_file), keeper or [], helper or []
        )
        if made is None:
            print("\nNothing was made.", file=sys.stderr)
            sys.exit(130)
        tell_made(made)
        return
    missing = [f"--{word}" for word, value in (("lat", lat), ("lon", lon)) if value is None]
    if lat is None or lon is None:
        raise ParameterError(
            f"A garden needs its place: {' and '.join(missing)} is missing.",
            "Give both, such as --lat 52.1 --lon 0.1. For an invented garden: spadework new --demo.",
        )
    from spadework.usecases.keep_garden import make_garden
    from spadework.usecases.plan_guess import likely_zone

    chosen: Units = units or "metric"
    lon_deg = _angle(lon, "--lon")
    made = make_garden(
        common.garden,
        name if name is not None else "Garden",
        _angle(lat, "--lat"),
        lon_deg,
        ELEVATION_M if elevation is None else read_elevation(elevation, "--elevation"),
        units=chosen,
        words=words or ("american" if chosen == "us" else "british"),
        zone=likely_zone(lon_deg) if zone is None else zone,
        bed_lines=lines_of(beds, beds_file),
        keepers=keeper or [],
        helpers=helper or [],
        today=common.day,
    )

    def tell() -> None:
        if elevation is None:
            print(wrapped(f"Taken for granted: {ELEVATION_M:g} m above the sea; garden.toml changes it."))
        tell_made(made)

    answer(common, made, tell)


def tell_made(made: GardenMade) -> None:
    """The new garden, its plan, what was taken for granted, and what comes next."""
    print(f"{made.name} is made in {made.folder}.")
    if made.picture is not None:
        from spadework.faces.cli.plan import tell_picture

        print()
        tell_picture(made.picture, made.units == "us")
        print()
        tell_took(made.took)
    clock = f"by the clock of {made.zone}" if made.zone else "in the standard time of its longitude"
    print(wrapped(f"Hours are told {clock}; zone in garden.toml changes it."))
    print(wrapped(f"Next, its weather: spadework weather add FILE --garden {made.folder}", 2, ""))
    if made.beds:
        print(wrapped(f"To change the beds: spadework plan write plan.toml --garden {made.folder}", 2, ""))


def tell_took(took: tuple[str, ...]) -> None:
    """What was taken for granted, each once."""
    if took:
        print("Taken for granted:")
        for line in took:
            print(wrapped(line, 2, "· "))


def lines_of(beds: list[str] | None, file: Path | None) -> list[str]:
    """The lines about beds of a file, then those of the flags.

    Raises
    ------
    GardenError
        If the file cannot be read.
    """
    lines: list[str] = []
    if file is not None:
        try:
            lines = file.read_text(encoding="utf-8-sig").splitlines()
        except (OSError, UnicodeDecodeError) as error:
            why = getattr(error, "strerror", None) or "it is not UTF-8 text"
            raise GardenError(
                f"{file} cannot be read ({why}).", "Give a text file, a line a group."
            ) from None
    return [*lines, *(beds or [])]


def read_elevation(text: str, name: str, *, feet: bool = False) -> float:
    """A height above the sea in metres; bare numbers are metres unless `feet`.

    Raises
    ------
    ParameterError
    """
    import re

    found = re.fullmatch(r"\s*([-−]?\d+(?:[.,]\d+)?)\s*(m|met(?:re|er)s?|ft|feet|foot|')?\s*", text.lower())
    if found is None:
        raise ParameterError(f"{name} {text!r} is not a height.", "Write it as 120, 120 m or 400 ft.")
    value = float(found[1].replace("−", "-").replace(",", "."))
    in_feet = feet if found[2] is None else found[2][0] in "f'"
    return round(value * 0.3048, 1) if in_feet else value


def _angle(text: str, name: str) -> float:
    from spadework.garden.coordinates import read_angle

    try:
        return read_angle(text, "latitude" if name == "--lat" else "longitude")
    except ParameterError as error:
        raise ParameterError(f"{name}: {error.message}", error.hint) from None


def _demo(common: Common, given: Mapping[str, object]) -> None:
    from spadework.faces.cli.demo import demo_folder, made_words
    from spadework.usecases.demo_garden import make_demo

    own = [option for option, value in given.items() if value]
    if own:
        raise ParameterError(f"The demo garden has its own {', '.join(own)}.", "Leave them out.")
    made = make_demo(demo_folder(common), common.day, anew=False)
    answer(common, made, lambda: print(made_words(made)))
