"""The command line's entry: one line for what is wrong, never a traceback for a known error."""

from __future__ import annotations

import sys
from collections.abc import Sequence

from cyclopts import App, CycloptsError

from spadework import __version__
from spadework.errors import SpadeworkError

app = App(
    name="spadework",
    help="What does each bed need now, what can wait, what will come of it: odds from past years' weather.",
    version=__version__,
    help_format="plaintext",
)
odds = App(name="odds", help="Odds of frost, and of the day a crop is ready.")
weigh = App(name="weigh", help="A decision set side by side: each option with its odds.")
weather = App(name="weather", help="The garden's weather record.")
for group in (odds, weigh, weather):
    app.command(group)

app.command("spadework.faces.cli.law:law", name="law")
app.command("spadework.faces.cli.garden:new", name="new")
app.command("spadework.faces.cli.crops:sheet", name="sheet")
app.command("spadework.faces.cli.crops:sheets", name="sheets")
app.command("spadework.faces.cli.demo:demo", name="demo")
weather.command("spadework.faces.cli.garden:weather_add", name="add")
weather.command("spadework.faces.cli.garden:weather_show", name="show")
odds.command("spadework.faces.cli.odds:frost", name="frost")
odds.command("spadework.faces.cli.odds:ready", name="ready")
weigh.command("spadework.faces.cli.weigh:sow", name="sow")
weigh.command("spadework.faces.cli.weigh:sow_again", name="sow-again")


def run(words: Sequence[str] | None = None) -> None:
    """Run one command and leave with its exit code: 0 answered, 2 not understood or not possible."""
    given = list(sys.argv[1:] if words is None else words)
    try:
        app(given, exit_on_error=False, print_error=False)
    except CycloptsError as error:
        _refuse(" ".join(str(error).split()), "See: spadework --help", as_json="--json" in given)
    except SpadeworkError as error:
        _refuse(error.message, error.hint, as_json="--json" in given)
    except BrokenPipeError:
        sys.stderr.close()
        sys.exit(0)


def run_quietly(words: Sequence[str]) -> None:
    """Run one command from within another; its errors pass through."""
    app(list(words), exit_on_error=False, print_error=False, result_action="return_value")


def _refuse(message: str, hint: str, *, as_json: bool) -> None:
    if as_json:
        import msgspec

        sys.stdout.write(msgspec.json.encode({"error": message, "hint": hint}).decode() + "\n")
    print(f"{message} {hint}".strip(), file=sys.stderr)
    sys.exit(2)
