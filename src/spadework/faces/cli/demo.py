"""The demo: an invented garden, and a short walk past real answers."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from spadework.faces.cli.common import Common, answer
from spadework.faces.cli.say import wrapped
from spadework.faces.voice import Voice

if TYPE_CHECKING:
    from spadework.usecases.demo_garden import DemoMade

FOLDER = "demo-garden"


def demo(*, common: Common | None = None) -> None:
    """Make the demo garden anew, as it is today, and ask it what makes sense on such a day."""
    from spadework.faces.cli.main import run_quietly
    from spadework.usecases.demo_garden import make_demo

    common = common or Common()
    folder = demo_folder(common)
    made = make_demo(folder, common.day)
    if common.json:
        answer(common, made, lambda: None)
        return
    print(made_words(made))
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
