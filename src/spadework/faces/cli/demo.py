"""The demo: an invented garden in mid-season, in the browser or as a short walk past real answers."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

from cyclopts import Parameter

from spadework.faces.cli.common import Common, answer
from spadework.faces.cli.say import wrapped
from spadework.faces.cli.serve import PORT
from spadework.faces.voice import Voice

if TYPE_CHECKING:
    from spadework.usecases.demo_garden import DemoMade

FOLDER = "demo-garden"


def demo(
    *,
    tour: Annotated[
        bool, Parameter(negative="", help="Walk past real answers here, without a browser.")
    ] = False,
    port: Annotated[int | None, Parameter(help="Port of its pages; 0 for any that is free.")] = None,
    show: Annotated[bool, Parameter(name="--open", help="Open the browser.")] = True,
    common: Common | None = None,
) -> None:
    """Make the demo garden anew and open its pages; stop with Ctrl-C."""
    from spadework.usecases.demo_garden import make_demo, season_day

    common = common or Common()
    folder = demo_folder(common)
    day = common.day if common.today is not None or tour else season_day(common.day)
    made = make_demo(folder, day)
    if common.json:
        answer(common, made, lambda: None)
        return
    print(made_words(made))
    if tour:
        _walk(made, folder)
        return
    from spadework.faces.cli.serve import run_server

    run_server(
        Common(garden=folder, today=day.isoformat()),
        day=day,
        port=PORT if port is None else port,
        or_any=port is None,
        show=show and sys.stdout.isatty(),
        demo=True,
    )


def _walk(made: DemoMade, folder: Path) -> None:
    from spadework.faces.cli.main import run_quietly

    for stop in made.tour:
        print(f"\n{'─' * 78}\n{wrapped(stop.why)}\n$ spadework {' '.join(stop.words)}\n")
        run_quietly([*stop.words, "--garden", str(folder), "--today", made.today.isoformat()])


def demo_folder(common: Common) -> Path:
    """Where the demo garden goes: where it was said, else into a folder of its own."""
    return common.garden if common.garden != Path() else Path(FOLDER)


def made_words(made: DemoMade) -> str:
    """What was made, in a few lines; it says that all of it is invented."""
    day = f"{Voice(False, made.today).day(made.today, weekday=True)} {made.today.year}"
    shown = (
        f"{made.name} is an invented garden beside a lake: place, people, weather and book are all made up. "
        f"It stands in {made.folder}, as of {day}, with {made.entries} entries of last season and this one."
    )
    locks = "1 lock is" if made.locks == 1 else f"{made.locks or 'no'} locks are"
    state = f"{made.standing} plantings stand in it, and {locks} on."
    return f"{wrapped(shown)}\n{wrapped(state)}\nAsk it: spadework COMMAND --garden {made.folder}"
