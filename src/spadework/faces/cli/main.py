"""The command line's entry: one line for what is wrong, never a traceback for a known error."""

from __future__ import annotations

import sys
from collections.abc import Sequence

from cyclopts import App, CycloptsError

from spadework import __version__
from spadework.errors import SpadeworkError
from spadework.faces.cli import groups
from spadework.faces.cli.common import listen

app = App(
    name="spadework",
    help="What does each bed need now, what can wait, what will come of it: odds from past years' weather.",
    version=__version__,
    help_format="plaintext",
)
odds = App(name="odds", help="Odds of frost, and of the day a crop is ready.")
weigh = App(name="weigh", help="A decision set side by side: each option with its odds.")
weather = App(name="weather", help="The garden's weather record.")
tell = App(name="tell", help="Tell the garden in a line what is known of its weather.")
bed = App(name="bed", help="The beds, or one: what grows and grew, covers, water, locks, its book.")
kit = App(name="kit", help="The kit: what is owned, where each piece is, what is free.")
tin = App(name="tin", help="The seed tin: lots, what is left, and what their tests say.")
people = App(name="people", help="Who keeps, helps or reads here.")
lock = App(name="lock", help="The locks in force: why, until when, who may lift them.")
chore = App(name="chore", help="The chores no planting asks for, what is due first.")
photo = App(name="photo", help="The photos in the book: list them, add one, write one out.")
sheet = App(name="sheet", help="One crop's numbers, each with range, class and source.")
paper = App(name="paper", help="On paper: the round, a bed's card, labels for rows.")
plan = App(name="plan", help="The plan of the garden: drawn, written to a file, loaded from one.")
for group in (odds, weigh, weather, tell, bed, kit, tin, people, lock, chore, photo, sheet, paper, plan):
    app.command(group)
for group, shown in (
    (bed, groups.bed),
    (kit, groups.kit),
    (tin, groups.tin),
    (people, groups.people),
    (lock, groups.lock),
    (chore, groups.chore),
    (photo, groups.photo),
    (sheet, groups.sheet),
):
    group.default(shown)

app.command(
    "spadework.faces.cli.ailing:ailing",
    name="ailing",
    help="Why a plant looks wrong: causes ranked by what is seen, and the test that parts them.",
)
app.command("spadework.faces.cli.ailing:bitten", name="bitten", help="Who ate it, pecked it, bored or dug.")
app.command(
    "spadework.faces.cli.law:law",
    name="law",
    help="Try a law by hand: a crop, a temperature, an answer with its sources.",
)
app.command(
    "spadework.faces.cli.new:new",
    name="new",
    help="Make a garden: its place, its beds and its people. Asks at a terminal where no place is given.",
)
sheet.command(
    "spadework.faces.cli.crops:sheet_set", name="set", help="Set an own number of a crop, with the reason."
)
sheet.command(
    "spadework.faces.cli.crops:sheet_reset", name="reset", help="Take an own number off: the sheet's holds."
)
app.command("spadework.faces.cli.crops:sheets", name="sheets", help="All crops that have a sheet.")
paper.command("spadework.faces.cli.paper:round_paper", name="round", help="The round, with boxes to tick.")
paper.command("spadework.faces.cli.paper:bed_paper", name="bed", help="One bed's card.")
paper.command("spadework.faces.cli.paper:label_paper", name="labels", help="Labels for the rows that stand.")
app.command("spadework.faces.cli.paper:calendar", name="calendar", help="The windows of jobs as a calendar.")
app.command("spadework.faces.cli.serve:serve", name="serve", help="The garden's pages, for the browser.")
app.command(
    "spadework.faces.cli.demo:demo", name="demo", help="Make the demo garden and walk past some answers."
)
plan.command("spadework.faces.cli.plan:plan_show", name="show", help="The plan drawn to scale.")
plan.command(
    "spadework.faces.cli.plan:plan_write", name="write", help="Write the plan to a file that can be edited."
)
plan.command("spadework.faces.cli.plan:plan_load", name="load", help="Make the garden as a plan file has it.")
weather.command(
    "spadework.faces.cli.garden:weather_add", name="add", help="Add a weather file to the record."
)
weather.command(
    "spadework.faces.cli.garden:weather_show", name="show", help="What the record holds, and what is missing."
)
weather.command(
    "spadework.faces.cli.fetch:weather_fetch",
    name="fetch",
    help="Fetch the forecast, or past years, for the garden's coordinates.\n\n"
    "Asks Open-Meteo, and only now; sends the rounded coordinates and nothing else. Days your own station "
    "knows are never changed. Weather data by Open-Meteo.com, licence CC BY 4.0; its free service is for "
    "non-commercial use only. [fetch] in garden.toml switches it off or names another host.",
)
app.command("spadework.faces.cli.tell:told", name="told", help="What was told and stands; `told forget KEY`.")
tell.command(
    "spadework.faces.cli.tell:forecast", name="forecast", help="A forecast, a day or several in one line."
)
tell.command(
    "spadework.faces.cli.tell:soil", name="soil", help="Soil warmth at a depth, read at an hour or a mean."
)
tell.command(
    "spadework.faces.cli.tell:warmth", name="warmth", help="A degree-day total as a bulletin quotes it."
)
tell.command("spadework.faces.cli.tell:frost_table", name="frost-table", help="Frost dates with their odds.")
tell.command(
    "spadework.faces.cli.tell:minimum", name="minimum", help="Own night minimum beside the station's."
)
tell.command("spadework.faces.cli.tell:thunder", name="thunder", help="Hours of thunder: under a roof then.")
tell.command("spadework.faces.cli.tell:smoke", name="smoke", help="Hours of smoke: nobody goes out then.")
tell.command(
    "spadework.faces.cli.normals:tell_normals",
    name="normals",
    help="Twelve monthly normals: what a garden without a long record is answered from.",
)
odds.command("spadework.faces.cli.odds:frost", name="frost", help="When frost ends and returns here.")
odds.command(
    "spadework.faces.cli.odds:ready",
    name="ready",
    help="When a planting is up and ready, and whether it gets there.",
)
weigh.command("spadework.faces.cli.weigh:sow", name="sow", help="May I sow this now, or on which day?")
weigh.command(
    "spadework.faces.cli.weigh:sow_again",
    name="sow-again",
    help="It has not come up: wait, look, fill gaps, sow again, or give up the place?",
)
weigh.command(
    "spadework.faces.cli.weigh_next:sow_next",
    name="sow-next",
    help="The next sowing: today, later, or in two steps?",
)
weigh.command(
    "spadework.faces.cli.weigh_more:fits", name="fits", help="What still fits a free place, and until when."
)
weigh.command(
    "spadework.faces.cli.weigh_more:plant_out",
    name="plant-out",
    help="Plants are ready in their pots: out now, out under cover, or hold them?",
)
weigh.command(
    "spadework.faces.cli.weigh_pick:pick_now",
    name="pick-now",
    help="Pick what there is today, or wait: size, frost, heat, splitting.",
)
weigh.command(
    "spadework.faces.cli.weigh_cover:cover",
    name="cover",
    help="A bed's cover: shut, open by day, or off.",
)
weigh.command(
    "spadework.faces.cli.weigh_thin:thin",
    name="thin",
    help="Thin a row now, a week later, or not at all, and to which distance.",
)
weigh.command(
    "spadework.faces.cli.weigh_try:try_",
    name="try",
    help="Move a sowing through the season and see its odds move; nothing is written.",
)
tell.command("spadework.faces.cli.learn:came_up", name="came-up", help="It came up on a day: learn from it.")
tell.command("spadework.faces.cli.learn:ready", name="ready", help="It was ready on a day: learn from it.")
app.command("spadework.faces.cli.learn:learned", name="learned", help="What this garden has taught so far.")
app.command(
    "spadework.faces.cli.inout:export",
    name="export",
    help="Write the garden to a file: .zip for all of it, .xlsx to look at.",
)
app.command(
    "spadework.faces.cli.inout:import_",
    name="import",
    help="Take in an archive, a list of beds, or past years; all of it or nothing.",
)
app.command("spadework.faces.cli.backup:backup", name="backup", help="Copy the whole garden into one file.")
app.command(
    "spadework.faces.cli.backup:restore",
    name="restore",
    help="Bring the book back from a copy, with all that can still be read of the book itself.",
)
app.command(
    "spadework.faces.cli.round:walk",
    name="round",
    help="The walk for today: which jobs, in which order, within the minutes given.",
)
app.command(
    "spadework.faces.cli.water:water",
    name="water",
    help="What each bed holds, what is gone of it, and what to give.",
)
app.command("spadework.faces.cli.soil:soil", name="soil", help="How warm the soil is, and will be.")
app.command("spadework.faces.cli.round:jobs", name="jobs", help="Every job worth doing, most at stake first.")
app.command(
    "spadework.faces.cli.watch:watch",
    name="watch",
    help="What may come in the next days: insects, diseases, animals; where to look, what is too many.",
)
app.command("spadework.faces.cli.round:why", name="why", help="One job opened up: what it rests on.")
app.command("spadework.faces.cli.round:done", name="done", help="A job done: into the book with it.")
app.command("spadework.faces.cli.round:skip", name="skip", help="Put a job off for today, with the reason.")

bed.command("spadework.faces.cli.beds:add", name="add", help="Tell of a bed, tub, tunnel, frame or shelf.")
bed.command("spadework.faces.cli.beds:change", name="change", help="Say something else of a bed.")
bed.command("spadework.faces.cli.beds:end", name="end", help="Take a bed up; its history stays.")
kit.command("spadework.faces.cli.things:kit_add", name="add", help="Tell of kit, or how much there is now.")
kit.command("spadework.faces.cli.things:kit_end", name="end", help="A piece of kit is no more.")
tin.command("spadework.faces.cli.things:tin_end", name="end", help="A seed lot is used up or given away.")
tin.command("spadework.faces.cli.things:tin_add", name="add", help="Put seed into the tin.")
tin.command("spadework.faces.cli.things:tin_test", name="test", help="How a germination test came out.")
people.command("spadework.faces.cli.people:add", name="add", help="Tell of someone who works or reads here.")
lock.command("spadework.faces.cli.locks:add", name="add", help="Lock a bed, a planting or a batch.")
lock.command("spadework.faces.cli.locks:lift", name="lift", help="Lift a lock.")
chore.command("spadework.faces.cli.chores:add", name="add", help="Tell of a chore, or change one.")
chore.command("spadework.faces.cli.chores:end", name="end", help="Take a chore off.")
photo.command("spadework.faces.cli.photos:add", name="add", help="Put a photo into the book.")
photo.command("spadework.faces.cli.photos:save", name="save", help="Write a photo out as a file.")
app.command(
    "spadework.faces.cli.standing:standing",
    name="standing",
    help="What stands, bed by bed: age, stage, plants, last act, locks.",
)
app.command(
    "spadework.faces.cli.planting:planting",
    name="planting",
    help="One planting: its course with dates and odds, counts, jobs, locks and book.",
)
app.command(
    "spadework.faces.cli.plant:plant",
    name="plant",
    help="Sow or plant: the count, the place and when it is ready; --look writes nothing.",
)
app.command(
    "spadework.faces.cli.note:note",
    name="note",
    help="Tell the book in your own words what was done or seen.",
)
app.command(
    "spadework.faces.cli.book:book",
    name="book",
    help="What was seen and done: by bed, crop, kind, person, day.",
)
app.command(
    "spadework.faces.cli.correct:correct",
    name="correct",
    help="An entry was wrong: its day, place or numbers.",
)
app.command(
    "spadework.faces.cli.change:change",
    name="change",
    help="A planting was begun otherwise: its rows, spacing, count, variety, packet or day.",
)
app.command(
    "spadework.faces.cli.change:transplant",
    name="transplant",
    help="Lift plants that stand and set them anew, in another bed or place.",
)
app.command("spadework.faces.cli.book:undo", name="undo", help="Take back an entry, or give it back.")


def run(words: Sequence[str] | None = None) -> None:
    """Run one command and leave with 0 answered, 2 not understood or not possible, 3 asked back."""
    given = list(sys.argv[1:] if words is None else words)
    listen()
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
