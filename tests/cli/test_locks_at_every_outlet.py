"""No outlet passes a lock silently: every command of the program is asked about every sort of lock.

A new command fails the first test until it stands in one of the lists: with words that make it speak of a
bed, a crop or the whole garden, or with the reason why it never does.
"""

from __future__ import annotations

import json
import re
import shutil
import zipfile
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from cyclopts import App
from openpyxl import load_workbook

from locked_garden import FREE, LOCKED, TODAY, Locked, locked_garden
from said import Said, say
from spadework.faces.cli.main import app

SOWN = "2018-04-25"
PHOTO = Path(__file__).parent / "grey.png"
"""A picture of one grey point."""
PLANTING_WORD = "meadow hay"
"""The only lock that stops planting: asked what fits a free place, no other is spoken of."""

OF_A_BED: dict[str, list[str]] = {
    "bed": ["bed {bed}"],
    "standing": ["standing --bed {bed}", "standing --crop {crop}"],
    "book": ["book --bed {bed}", "book --crop {crop}"],
    "odds ready": ["odds ready {crop} --sown " + SOWN, "odds ready radish --bed {bed} --sown " + SOWN],
    "weigh sow": ["weigh sow {crop}", "weigh sow radish --bed {bed}"],
    "weigh sow-again": ["weigh sow-again {crop} --sown " + SOWN + " --seeds 150 --up 12"],
    "weigh plant-out": ["weigh plant-out {crop}"],
    "weigh thin": ["weigh thin {planting}"],
    "weigh cover": ["weigh cover {bed}"],
    "weigh pick-now": ["weigh pick-now {planting}"],
    "weigh sow-next": ["weigh sow-next {crop}"],
    "tell came-up": ["tell came-up {crop} --bed {bed} --sown " + SOWN + " --on 2018-05-09 --sure"],
    "tell ready": ["tell ready {crop} --bed {bed} --sown 2018-03-20 --on 2018-05-09 --sure"],
    "bed change": ["bed change {bed} --soil clay --insist"],
    "bed end": ["bed end {bed} --insist"],
    "lock add": ["lock add --bed {bed} --why slugs --insist", "lock add --planting {planting} --why slugs"],
    "lock": ["lock --bed {bed}"],
    "note": ["note watered {bed} --insist", "note weeded {crop} in {bed} --dry-run"],
    "jobs": ["jobs --bed {bed}", "jobs --crop {crop}"],
    "watch": ["watch --bed {bed}", "watch --crop {crop}"],
    "ailing": ["ailing {crop} --bed {bed} --sign yellow"],
    "bitten": ["bitten {crop} --bed {bed} --sign holes"],
    "water": ["water {bed}"],
    "why": ["why {job}"],
    "done": ["done {job} --standing 50 --insist"],
    "skip": ["skip {job} --because rain"],
    "change": ["change {planting}", "change {planting} --spacing 9 --dry-run"],
    "transplant": ["transplant {planting} --to {bed} --number 3 --insist"],
    "photo add": ["photo add {photo} --bed {bed}", "photo add {photo} --planting {planting}"],
    "photo": ["photo --bed {bed}", "photo --planting {planting}"],
    "planting": ["planting {planting}"],
    "plant": [
        "plant {crop} --bed {bed} --rows 1 --length 0.5m --look",
        "plant {crop} --bed {bed} --rows 1 --length 0.5m --insist",
    ],
    "weigh try": ["weigh try {crop} --bed {bed}", "weigh try radish --bed {bed} --on 2018-06-20"],
    "soil": ["soil {bed}"],
    "chore add": ["chore add oil --minutes 5 --bed {bed}"],
}
"""Commands about one bed or crop: each must show the lock that reaches it."""

REFUSED_BY_SOME = {
    "weigh plant-out",
    "weigh sow-again",
    "weigh sow-next",
    "weigh thin",
    "tell came-up",
    "tell ready",
}
"""What these say depends on the crop, and some crops are refused: garlic is never set out as a plant."""

OF_ALL: dict[str, list[str]] = {
    "bed": ["bed"],
    "standing": ["standing"],
    "book": ["book --last all"],
    "lock": ["lock"],
    "round": ["round"],
    "jobs": ["jobs"],
    "watch": ["watch"],
    "water": ["water"],
    "soil": ["soil"],
    "plan show": ["plan show"],
    "plan write": ["plan write {new}.toml"],
    "plan load": ["plan load {new}.toml --dry-run"],
    "export": ["export {new}.zip", "export {new}.xlsx"],
}
"""Commands about the whole garden: each must show every lock."""

OF_A_PLACE: dict[str, list[str]] = {"weigh fits": ["weigh fits"], "weigh sow": ["weigh sow"]}
"""Commands about any free place: each must show what stops planting in some."""

OWN_TEST: dict[str, str] = {
    "undo": "taking back the entry of a lock, below",
    "correct": "correcting an entry on a locked bed, below",
    "lock lift": "lifting a lock in one of two beds, below",
    "import": "the archive comes in with its locks, below",
    "paper round": "read back from the paper in tests/unit/faces/test_paper.py",
    "paper bed": "read back from the paper in tests/unit/faces/test_paper.py",
    "paper labels": "read back from the paper in tests/unit/faces/test_paper.py",
    "calendar": "read back from the calendar in tests/unit/faces/test_calendar.py",
    "restore": "the copy comes back with its locks, below",
    "chore": "a chore at a locked bed, below",
    "chore end": "a chore at a locked bed, below",
}

NOT_ABOUT_BEDS: dict[str, str] = {
    "law": "a law of nature tried by hand; no garden is read",
    "sheet": "a crop's numbers, wherever it grows",
    "sheet set": "a crop's numbers, wherever it grows",
    "sheet reset": "a crop's numbers, wherever it grows",
    "sheets": "names of crops",
    "odds frost": "the weather of the place",
    "weather show": "the weather record",
    "weather add": "the weather record",
    "weather fetch": "the weather record",
    "tell forecast": "the weather to come",
    "tell soil": "the warmth of the soil, wherever it was read",
    "tell warmth": "the weather so far",
    "tell frost-table": "the weather of the place",
    "tell minimum": "the weather so far",
    "tell smoke": "the air of a day",
    "tell thunder": "the weather of a day",
    "tell normals": "the weather of the place",
    "told": "facts told, as they were told; nothing to pick, plant or use",
    "learned": "warmth that crops and beds took in the past; nothing to pick, plant or use",
    "new": "a garden that is not there yet has no locks",
    "demo": "makes a garden of its own, and asks other commands that stand here",
    "serve": "serves pages; each page's locks are looked for in tests/browser",
    "backup": "copies the book as it is, locks and all; says only how large it is",
    "bed add": "a bed that is not there yet has no locks",
    "kit": "covers and tools; nothing to pick, plant or use",
    "kit add": "covers and tools",
    "kit end": "covers and tools",
    "tin": "seed in the tin, in no bed yet",
    "tin end": "seed in the tin",
    "tin add": "seed in the tin",
    "tin test": "seed in the tin",
    "photo save": "gives a picture as it was taken",
    "people": "who works here",
    "people add": "who works here",
}
"""Why a command need show no lock."""


_WARNED = re.compile(r"^ *(?:! |LOCKED )\S.*(?:\n {2,}(?![!·]|LOCKED )\S.*)*", re.MULTILINE)
"""A lock as it is said in words, with the lines it runs on over; the same word elsewhere does not count."""

WAYS = [
    pytest.param("north", False, id="words"),
    pytest.param("north", True, id="json"),
    pytest.param("us", False, id="us"),
]


def commands(of: App = app, path: tuple[str, ...] = ()) -> Iterator[str]:
    """Every command of the program by its words."""
    if path and of.default_command is not None:
        yield " ".join(path)
    for name in of:
        if not name.startswith("-"):
            yield from commands(of[name], (*path, name))


def test_every_command_says_how_it_shows_locks_or_why_it_need_not() -> None:
    shown = {*OF_A_BED, *OF_ALL, *OF_A_PLACE, *OWN_TEST}
    known = set(commands())
    assert len(known) > 20
    assert known - shown - set(NOT_ABOUT_BEDS) == set(), (
        "a command must show the locks of what it speaks about"
    )
    assert (shown | set(NOT_ABOUT_BEDS)) - known == set(), "no such command"
    assert shown & set(NOT_ABOUT_BEDS) == set()


@pytest.fixture(scope="module")
def locked(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Path]:
    """The garden in metric and British words, and in American ones. Not to be written into."""
    folder = tmp_path_factory.mktemp("locked")
    return {place: locked_garden(folder, place) for place in ("north", "us")}


@pytest.fixture
def own(locked: dict[str, Path], tmp_path: Path) -> Path:
    """A copy to write into."""
    return Path(shutil.copytree(locked["north"], tmp_path / "own"))


def words_of(template: str, about: Locked, *, new: Path | None = None, job: str = "") -> list[str]:
    given = {"bed": about.bed, "crop": about.crop, "planting": about.planting, "new": str(new), "job": job}
    if "{photo}" in template:
        given["photo"] = str(PHOTO)
    return [word.format(**given) for word in template.split()]


def ask(garden: Path, words: list[str], *, as_json: bool) -> Said:
    return say(*words, "--garden", str(garden), "--today", str(TODAY), *(["--json"] if as_json else []))


def shows(said: Said, word: str, *, as_json: bool) -> bool:
    """Whether a lock is told: in words, or in JSON under a key that says it is one."""
    if not as_json:
        return any(word in " ".join(told.split()) for told in _WARNED.findall(said.out))
    return word in json.dumps(list(_locks(said.json)))


def _job(garden: Path, about: Locked) -> str:
    """The count at a bed; each has one, as nobody has looked yet whether anything is up."""
    jobs = ask(garden, ["jobs", "--bed", about.bed, "--kind", "count"], as_json=True).json["jobs"]
    return str(jobs[0]["id"])


def _locks(value: Any) -> Iterator[Any]:
    if isinstance(value, dict):
        for key, part in value.items():
            if key == "locks":
                yield part
            yield from _locks(part)
    elif isinstance(value, list):
        for part in value:
            yield from _locks(part)


def _cases(table: dict[str, list[str]]) -> list[tuple[str, str]]:
    return [(command, template) for command, templates in table.items() for template in templates]


@pytest.mark.parametrize(("place", "as_json"), WAYS)
@pytest.mark.parametrize(("command", "template"), _cases(OF_A_BED))
def test_a_command_about_a_bed_or_crop_shows_its_lock(
    command: str, template: str, place: str, as_json: bool, locked: dict[str, Path], tmp_path: Path
) -> None:
    answered = 0
    for number, about in enumerate(LOCKED):
        garden = locked[place]
        if command.startswith(("tell", "bed ", "lock ", "done", "skip", "photo add", "chore add", "plant ")):
            garden = Path(shutil.copytree(garden, tmp_path / str(number)))
        job = _job(garden, about) if "{job}" in template else ""
        said = ask(garden, words_of(template, about, job=job), as_json=as_json)
        if said.code == 2 and command in REFUSED_BY_SOME:
            continue
        assert said.code == 0, (about.sort, said.out, said.err)
        assert shows(said, about.word, as_json=as_json), (about.sort, said.out)
        answered += 1
    assert answered >= 3


@pytest.mark.parametrize(("place", "as_json"), WAYS)
@pytest.mark.parametrize(("command", "template"), _cases(OF_ALL))
def test_a_command_about_the_whole_garden_shows_every_lock(
    command: str, template: str, place: str, as_json: bool, locked: dict[str, Path], tmp_path: Path
) -> None:
    new = tmp_path / "new"
    if command == "plan load":
        assert ask(locked[place], ["plan", "write", f"{new}.toml"], as_json=False).code == 0
    said = ask(locked[place], words_of(template, FREE, new=new), as_json=as_json)
    assert said.code == 0, said.err
    assert [each.sort for each in LOCKED if not shows(said, each.word, as_json=as_json)] == []


@pytest.mark.parametrize("as_json", [False, True], ids=["words", "json"])
@pytest.mark.parametrize(("command", "template"), _cases(OF_A_PLACE))
def test_a_command_about_any_free_place_shows_what_stops_planting(
    command: str, template: str, as_json: bool, locked: dict[str, Path]
) -> None:
    said = ask(locked["north"], words_of(template, FREE), as_json=as_json)
    assert said.code == 0, (command, said.err)
    assert shows(said, PLANTING_WORD, as_json=as_json)


@pytest.mark.parametrize(
    "template", ["bed {bed}", "standing --bed {bed}", "odds ready {crop} --sown " + SOWN]
)
def test_where_there_is_no_lock_none_is_shown(template: str, locked: dict[str, Path]) -> None:
    said = ask(locked["north"], words_of(template, FREE), as_json=False)
    assert said.code == 0
    assert "LOCK" not in said.out
    assert not any(each.word in said.out for each in LOCKED)


def test_a_lock_is_said_in_the_same_words_at_every_outlet(locked: dict[str, Path], tmp_path: Path) -> None:
    """The end of its key first, then the whole: whoever reads it anywhere can look it up and lift it."""
    about, said, outlets = LOCKED[0], set[tuple[str, ...]](), 0
    asked = [*_cases(OF_A_BED), *_cases(OF_ALL)]
    for number, (command, template) in enumerate(asked):
        if command in ("export", "plan load", "plan write", "lock add"):
            continue
        garden = Path(shutil.copytree(locked["north"], tmp_path / str(number)))
        job = _job(garden, about) if "{job}" in template else ""
        out = ask(garden, words_of(template, about, job=job), as_json=False).out
        told = [" ".join(each.split()) for each in _WARNED.findall(out)]
        locks = {tuple(each.split(" ", 3)[2:]) for each in told if each.startswith("! LOCK ")}
        said |= locks
        outlets += bool(locks)
    assert outlets > 20
    lines = ask(locked["north"], ["lock"], as_json=True).json["locks"]
    assert said == {(line["key"], line["text"]) for line in lines}


def test_the_files_of_an_export_hold_every_lock(locked: dict[str, Path], tmp_path: Path) -> None:
    for ending in ("zip", "xlsx"):
        assert ask(locked["north"], ["export", str(tmp_path / f"out.{ending}")], as_json=False).code == 0
    with zipfile.ZipFile(tmp_path / "out.zip") as archive:
        tables = {name: archive.read(name) for name in archive.namelist() if "lock" in name.lower()}
    assert tables
    table = b"\n".join(tables.values()).decode()
    book = load_workbook(tmp_path / "out.xlsx")
    first = "\n".join(str(cell) for row in book.worksheets[0].values for cell in row if cell is not None)
    for each in LOCKED:
        assert each.word in table, each.sort
        assert each.word in first, each.sort


@pytest.mark.parametrize("way", ["export {}.zip", "backup {}.zip"])
def test_what_comes_back_from_a_file_is_locked_as_it_was(way: str, own: Path, tmp_path: Path) -> None:
    file = tmp_path / "copy"
    assert ask(own, way.format(file).split(), as_json=False).code == 0
    if way.startswith("export"):
        garden = tmp_path / "again"
        assert ask(garden, ["import", f"{file}.zip"], as_json=False).code == 0
    else:
        garden = own
        for each in own.glob("book.sqlite*"):
            each.unlink()
        assert ask(own, ["restore", f"{file}.zip"], as_json=False).code == 0
    said = ask(garden, ["lock"], as_json=False)
    assert [each.sort for each in LOCKED if not shows(said, each.word, as_json=False)] == []


@pytest.mark.parametrize("as_json", [False, True], ids=["words", "json"])
def test_one_who_may_not_takes_a_locks_entry_back_and_is_told_that_it_holds(own: Path, as_json: bool) -> None:
    (line,) = ask(own, ["lock", "--bed", "Bed 3"], as_json=True).json["locks"]
    said = ask(own, ["undo", line["key"], "--by", "ben", "--insist"], as_json=as_json)
    assert said.code == 0, said.err
    assert shows(said, "dog dung", as_json=as_json)
    after = ask(own, ["bed", "Bed 3"], as_json=as_json)
    assert shows(after, "dog dung", as_json=as_json)


@pytest.mark.parametrize("as_json", [False, True], ids=["words", "json"])
def test_lifting_one_lock_tells_of_the_other_that_stays(own: Path, as_json: bool) -> None:
    assert ask(own, ["lock", "add", "--bed", "Bed 2", "--why", "slugs"], as_json=False).code == 0
    lines = ask(own, ["lock", "--bed", "Bed 2"], as_json=True).json["locks"]
    (own_line,) = [line for line in lines if line["why"] == "slugs"]
    said = ask(own, ["lock", "lift", own_line["key"], "--why", "gone"], as_json=as_json)
    assert said.code == 0, said.err
    assert shows(said, "cow muck", as_json=as_json)


@pytest.mark.parametrize("as_json", [False, True], ids=["words", "json"])
def test_correcting_what_was_done_in_a_locked_bed_tells_of_its_lock(own: Path, as_json: bool) -> None:
    assert ask(own, ["note", "watered", "Bed", "3", "20", "l", "--insist"], as_json=False).code == 0
    key = ask(own, ["book", "--last", "1"], as_json=True).json["entries"][0]["key"]
    said = ask(own, ["correct", key, "--litres", "12", "--insist"], as_json=as_json)
    assert said.code == 0, said.err
    assert shows(said, "dog dung", as_json=as_json)


def test_correcting_a_locks_entry_by_one_who_may_not_lifts_nothing(own: Path) -> None:
    (line,) = ask(own, ["lock", "--bed", "Bed 3"], as_json=True).json["locks"]
    words = ["correct", line["key"], "--say", "material=leaf mould", "--by", "ben", "--insist"]
    assert ask(own, words, as_json=False).code == 0
    assert shows(ask(own, ["bed", "Bed 3"], as_json=False), "dog dung", as_json=False)


@pytest.mark.parametrize("as_json", [False, True], ids=["words", "json"])
def test_a_chore_at_a_locked_bed_shows_its_lock(own: Path, as_json: bool) -> None:
    told = ask(own, ["chore", "add", "oil the gate", "--minutes", "5", "--bed", "Bed 3"], as_json=as_json)
    assert shows(told, "dog dung", as_json=as_json)
    assert shows(ask(own, ["chore"], as_json=as_json), "dog dung", as_json=as_json)
    assert shows(ask(own, ["chore", "end", "oil the gate"], as_json=as_json), "dog dung", as_json=as_json)
    assert "oil" not in ask(own, ["chore"], as_json=as_json).out
