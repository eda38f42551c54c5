"""The plan of the garden, at the command line."""

from __future__ import annotations

import re
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from spadework.garden import entries as kinds
from spadework.garden.state import Garden
from spadework.store.garden_folder import open_garden
from spadework.usecases.keep_book import Act, garden_state, write_acts

TODAY = date(2026, 6, 1)
BEDS = ("4 beds 1 x 2 m, paths 0.5 m", "a tunnel 3 x 6 m north of them", "2 beds 0.8 x 5 m inside the tunnel")


class Plot:
    """A garden and its plan file."""

    def __init__(self, do: Any, folder: Path) -> None:
        self.do, self.folder, self.file = do, folder / "g", folder / "plan.toml"
        words = [word for line in BEDS for word in ("--beds", line)]
        said = self.say("new", "--lat", "52.1", "--lon", "0.1", "--keeper", "Ann", *words)
        assert said.code == 0, said.err
        self.write()

    def say(self, *words: str) -> Any:
        return self.do(*words, "--garden", str(self.folder), "--today", TODAY.isoformat())

    def write(self) -> None:
        said = self.say("plan", "write", str(self.file), "--over")
        assert said.code == 0, said.err

    def load(self, *words: str) -> Any:
        return self.say("plan", "load", str(self.file), *words)

    def edit(self, old: str, new: str) -> None:
        text = self.file.read_text(encoding="utf-8")
        assert old in text
        self.file.write_text(text.replace(old, new, 1), encoding="utf-8")

    def drop(self, name: str) -> None:
        """Take the part with a name out of the file."""
        text = self.file.read_text(encoding="utf-8")
        left = re.sub(
            rf'\[\[\w+\]\]\n(?:item|lot|name|crop) = "{re.escape(name)}"\n(?:[^\n]+\n)*\n?', "", text
        )
        assert left != text
        self.file.write_text(left, encoding="utf-8")

    def add(self, text: str) -> None:
        self.file.write_text(f"{self.file.read_text(encoding='utf-8')}\n{text}", encoding="utf-8")

    def act(self, payload: kinds.Payload, bed: str = "", planting: str = "") -> None:
        act = Act(payload=payload, on=TODAY, bed=bed, planting=planting)
        assert write_acts(open_garden(self.folder), [act], today=TODAY, author="ann").stored

    @property
    def garden(self) -> Garden:
        return garden_state(open_garden(self.folder))


@pytest.fixture
def plot(do: Any, tmp_path: Path) -> Plot:
    return Plot(do, tmp_path)


def changed(said: Any) -> list[tuple[str, str, str]]:
    return [(each["what"], each["part"], each["name"]) for each in said.json["changes"]]


def test_loading_what_was_written_changes_nothing(plot: Plot) -> None:
    before = len(plot.garden.entries)
    said = plot.load()
    assert (said.code, "nothing changes" in said.out) == (0, True)
    assert len(plot.garden.entries) == before


def test_show_draws_every_bed(plot: Plot) -> None:
    said = plot.say("plan", "show")
    assert said.code == 0
    for part in ("Bed 1 to Bed 4: 1 m by 2 m, loam", "Tunnel", "North is up.", " 1 ", " 4 "):
        assert part in said.out
    assert max(map(len, said.out.splitlines())) <= 80


def test_a_trial_says_what_would_change_and_changes_nothing(plot: Plot) -> None:
    plot.edit('soil = "loam"', 'soil = "clay loam"')
    said = plot.load("--dry-run")
    assert "bed Bed 1: soil loam → clay loam" in said.out
    assert plot.garden.beds["bed-1"].soil == "loam"
    assert plot.load().code == 0
    assert plot.garden.beds["bed-1"].soil == "clay loam"


def test_new_changed_gone_of_every_part(plot: Plot) -> None:
    plot.add(
        """
[[kit]]
item = "fleece"
sort = "fleece"
length_m = 20

[[seed]]
lot = "carrot-25"
crop = "Carrots"
seeds = 2000
germinated = 9
tested = 10

[[person]]
name = "Ben Lee"
not_for = ["lifting"]

[[chore]]
chore = "fill the butt"
minutes = 10
every_days = 7
bed = "Tunnel"

[[perennial]]
crop = "rhubarb"
bed = "Bed 4"
year = 2022
plants = 2

[[stood]]
crop = "zucchini"
bed = "Bed 2"
year = 2024
"""
    )
    said = plot.load("--json")
    assert said.code == 0, said.err
    assert sorted(changed(said)) == [
        ("new", "chore", "fill the butt"), ("new", "kit", "fleece"), ("new", "perennial", "rhubarb"),
        ("new", "person", "Ben Lee"), ("new", "seed", "carrot-25"),
        ("new", "stood", "courgette of 2024 in Bed 2"),
    ]  # fmt: skip
    garden = plot.garden
    assert garden.tin["carrot-25"].crop == "carrot"
    assert garden.people["ben-lee"].not_for == ("lifting",)
    assert garden.chores["fill the butt"].bed == "tunnel"
    (rhubarb,) = garden.standing(TODAY)
    assert (rhubarb.bed, rhubarb.started_on.year, rhubarb.perennial, rhubarb.only_year) == (
        "bed-4",
        2022,
        True,
        True,
    )
    assert [(each.year, each.crop) for each in garden.before("bed-2")] == [(2024, "summer-squash")]
    assert not any(entry.insisted for entry in garden.entries)

    plot.write()
    assert plot.load("--json").json["changes"] == []
    for name in ("fleece", "carrot-25", "summer-squash", "Ben Lee"):
        plot.drop(name)
    plot.add(
        '[[kit]]\nitem = "mesh"\nsort = "mesh"\nlength_m = 5\n[[seed]]\nlot = "beet"\ncrop = "beetroot"\n'
    )
    plot.add('[[stood]]\nbed = "Bed 1"\ncrop = "leek"\nyear = 2023\n')
    plot.edit("plants = 2", "plants = 3")
    said = plot.load("--json")
    assert said.code == 0, said.out
    assert ("gone", "kit", "fleece") in changed(said)
    assert ("gone", "seed", "carrot-25") in changed(said)
    assert ("gone", "stood", "courgette of 2024 in Bed 2") in changed(said)
    assert ("changed", "perennial", "rhubarb") in changed(said)
    assert any("Ben Lee is not in the plan" in line for line in said.json["left"])
    (rhubarb,) = plot.garden.standing(TODAY)
    assert rhubarb.planted == 3
    plot.write()
    assert plot.load("--json").json["changes"] == []


def test_a_list_left_out_is_left_alone(plot: Plot) -> None:
    plot.file.write_text('[[kit]]\nitem = "hoops"\nsort = "hoops"\npieces = 20\n', encoding="utf-8")
    assert changed(plot.load("--json")) == [("new", "kit", "hoops")]
    assert len(plot.garden.beds) == 7


def test_a_bed_with_plants_is_asked_about(plot: Plot) -> None:
    plot.act(kinds.Sown(planting="c1", crop="carrot", seeds=100), "bed-3", "c1")
    plot.drop("Bed 3")
    said = plot.load()
    assert said.code == 3
    assert "carrot still stands there" in said.out
    assert plot.garden.beds["bed-3"].gone_on is None
    assert plot.load("--insist").code == 0
    assert plot.garden.beds["bed-3"].gone_on == TODAY


def test_an_empty_bed_goes_without_asking(plot: Plot) -> None:
    plot.drop("Bed 3")
    assert changed(plot.load("--json")) == [("gone", "bed", "Bed 3")]
    assert plot.garden.beds["bed-3"].gone_on == TODAY


def test_a_new_name_on_the_same_ground_is_a_new_name(plot: Plot) -> None:
    plot.act(kinds.Note(text="stony"), "bed-2")
    plot.edit('name = "Bed 2"', 'name = "Herb Bed"')
    assert changed(plot.load("--json")) == [("changed", "bed", "Bed 2")]
    assert plot.garden.beds["bed-2"].name == "Herb Bed"
    assert plot.load("--json").json["changes"] == []
    plot.write()
    assert 'key = "bed-2"' in plot.file.read_text(encoding="utf-8")


def test_beds_may_change_places(plot: Plot) -> None:
    text = plot.file.read_text(encoding="utf-8")
    text = text.replace('"Bed 1"', '"?"').replace('"Bed 2"', '"Bed 1"').replace('"?"', '"Bed 2"')
    plot.file.write_text(text, encoding="utf-8")
    one, two = (plot.garden.beds[key].outline for key in ("bed-1", "bed-2"))
    said = plot.load()
    assert said.code == 0, said.out
    assert (plot.garden.beds["bed-2"].outline, plot.garden.beds["bed-1"].outline) == (one, two)


def test_the_site_is_changed_and_the_rest_of_its_file_stays(plot: Plot) -> None:
    settings = plot.folder / "garden.toml"
    settings.write_text(
        settings.read_text(encoding="utf-8") + "\n[fetch]\non = false  # never\n", encoding="utf-8"
    )
    plot.edit("elevation_m = 100.0", "elevation_m = 250.0")
    plot.edit('words = "british"', 'words = "american"')
    assert plot.load().code == 0
    site = open_garden(plot.folder).site
    assert (site.elevation_m, site.words) == (250.0, "american")
    assert "on = false  # never" in settings.read_text(encoding="utf-8")
    assert "# metres above the sea" in settings.read_text(encoding="utf-8")


def test_beds_by_lines_in_the_file(plot: Plot, do: Any, tmp_path: Path) -> None:
    plot.file.write_text('lay_out = ["3 beds 1 x 2 m", "2 tubs 40 cm across"]\n', encoding="utf-8")
    fresh = tmp_path / "fresh"
    assert do("new", "--lat", "1", "--lon", "1", "--keeper", "Ann", "--garden", str(fresh)).code == 0
    for expected in (5, 0):
        said = do("plan", "load", str(plot.file), "--garden", str(fresh), "--json")
        assert said.code == 0, said.out
        assert len(said.json["changes"]) == expected


def test_every_problem_at_once_with_its_line(plot: Plot) -> None:
    before = plot.garden
    plot.file.write_text(
        """format = 1
[site]
lat_deg = 95
[[bed]]
name = "Bed 1"
widht_m = 1.2
shape = "round"
[[bed]]
name = "Bed 2"
width_m = "wide"
[[bed]
[[kit]]
item = "fleece"
[[tree]]
name = "x"
[[perennial]]
crop = "rhubarb"
bed = "Bed 1"
[[seed]]
lot = "a"
crop = "carrot"
germinated = 11
tested = 10
""",
        encoding="utf-8",
    )
    said = plot.load()
    assert said.code == 2
    for part in (
        "line 3: found The latitude 95 is not possible", "line 6: found 'widht_m'", "Nearest: width_m",
        "line 7: found shape = 'round'", "line 10: found width_m = 'wide'",
        "line 11: found [[bed]; allowed: [[bed]]", "line 12: found [[kit]] without sort",
        "line 14: found [[tree]]", "line 16: found a perennial without its year",
        "line 19: found 11 of 10 seeds sprouted",
    ):  # fmt: skip
        assert part in said.err, (part, said.err)
    assert plot.garden == before


def test_what_does_not_go_together(plot: Plot) -> None:
    plot.add(
        '[[stood]]\nbed = "Bed 44"\ncrop = "leek"\nyear = 2024\n'
        '[[stood]]\nbed = "Bed 1"\ncrop = "carot"\nyear = 2024\n'
        '[[bed]]\nname = "Bed 9"\nx_m = 0.2\ny_m = 0.2\n'
        '[[bed]]\nname = "Far"\nx_m = 30\n[[bed]]\nname = "far"\nx_m = 40\n'
    )
    said = plot.load()
    assert said.code == 2
    for part in ("'Bed 44'", "Bed 4", "the crop 'carot'", "carrot", "Bed 9 over Bed 1", "a second far"):
        assert part in said.err, part


def test_a_file_that_is_there_is_not_written_over(plot: Plot) -> None:
    said = plot.say("plan", "write", str(plot.file))
    assert (said.code, "--over" in said.err) == (2, True)


def test_locks_are_shown(plot: Plot) -> None:
    lock = kinds.Locked(lock="fresh", on="bed", why="fresh manure", until=date(2026, 9, 1))
    plot.act(lock, "bed-1")
    for words in (
        ("plan", "show"),
        ("plan", "load", str(plot.file)),
        ("plan", "write", str(plot.file), "--over"),
    ):
        assert "fresh manure" in plot.say(*words).out
        assert plot.say(*words, "--json").json["locks"]


def test_without_beds(do: Any, tmp_path: Path) -> None:
    assert do("new", "--lat", "1", "--lon", "1", "--garden", str(tmp_path / "g")).code == 0
    said = do("plan", "show", "--garden", str(tmp_path / "g"))
    assert (said.code, "no beds yet" in said.out) == (0, True)
