"""Making a garden, adding weather, and reading sheets from the command line."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from ghcn_fixture import by_station_csv_text, champion_series, daily_summaries_csv_text
from source_tree import ROOT


def test_a_garden_is_made_and_asked(do: Any, gardens: dict[str, Path], tmp_path: Path) -> None:
    garden = tmp_path / "plot"
    made = do(
        "new", "--name", "Côté Sud", "--lat", "40.4", "--lon", "-101.7", "--elevation", "1000",
        "--garden", str(garden), "--json",
    )  # fmt: skip
    assert made.code == 0
    assert made.json["name"] == "Côté Sud"
    assert made.json["lat_deg"] == 40.4
    assert {path.name for path in garden.iterdir()} >= {"garden.toml", "overrides.toml"}
    added = do(
        "weather", "add", str(gardens["north"].parent / "north.dly"), "--garden", str(garden), "--json"
    )
    assert added.code == 0
    assert added.json["first_day"] == "1982-01-01"
    assert added.json["days"] == 13514
    assert added.json["station"] == "USC00251450"
    frost = do("odds", "frost", "--garden", str(garden), "--today", "2018-05-10", "--json")
    assert frost.json["years"] == 30


def test_adding_a_file_twice_changes_nothing(do: Any, gardens: dict[str, Path], tmp_path: Path) -> None:
    garden = shutil.copytree(gardens["north"], tmp_path / "own")
    record = garden / "weather" / "daily.csv"
    before = record.read_bytes()
    said = do("weather", "add", str(gardens["north"].parent / "north.dly"), "--garden", str(garden))
    assert said.code == 0
    assert record.read_bytes() == before


@pytest.mark.parametrize("layout", ["long", "tenths", "metric", "us", "home"])
def test_other_layouts_of_the_same_record_give_the_same_frost(
    layout: str, do: Any, ask: Any, gardens: dict[str, Path], tmp_path: Path
) -> None:
    series = champion_series()
    if layout == "long":
        text = by_station_csv_text("USC00251450", series)
    elif layout == "home":
        rows = [
            f"{day},{low * 1.8 + 32:.2f},{high * 1.8 + 32:.2f},{rain / 25.4:.3f}"
            for day, low, high, rain in zip(
                series.dates, series.tmin_c, series.tmax_c, series.rain_mm, strict=True
            )
        ]
        text = "Date,Low (F),High (F),Rain (in)\n" + "\n".join(rows) + "\n"
    else:
        text = daily_summaries_csv_text("USC00251450", series, units=layout)
    path = tmp_path / "record.csv"
    path.write_text(text, encoding="utf-8")
    garden = tmp_path / "plot"
    do(
        "new",
        "--name",
        "Plot",
        "--lat",
        "40.4",
        "--lon",
        "-101.7",
        "--elevation",
        "1000",
        "--garden",
        str(garden),
    )
    said = do("weather", "add", str(path), "--garden", str(garden))
    assert (said.code, said.err) == (0, "")
    asked = ("--today", "2018-05-10", "--json")
    found = do("odds", "frost", "--garden", str(garden), *asked).json["dates"][1]["last_spring"]
    plain = ask("odds", "frost", "--garden", str(gardens["north"]), *asked).json["dates"][1]["last_spring"]
    if layout == "us":
        # whole degrees Fahrenheit move a day of frost here and there
        assert found["q50"][:7] == plain["q50"][:7]
    else:
        assert found == plain


def test_a_record_without_rain_still_answers(do: Any, tmp_path: Path) -> None:
    series = champion_series()
    rows = [
        f"{day},{low:.1f},{high:.1f}"
        for day, low, high in zip(series.dates, series.tmin_c, series.tmax_c, strict=True)
    ]
    path = tmp_path / "home.csv"
    path.write_text("date,tmin (C),tmax (C)\n" + "\n".join(rows) + "\n", encoding="utf-8")
    garden = tmp_path / "plot"
    do(
        "new",
        "--name",
        "P",
        "--lat",
        "40.4",
        "--lon",
        "-101.7",
        "--elevation",
        "1000",
        "--garden",
        str(garden),
    )
    assert do("weather", "add", str(path), "--garden", str(garden)).code == 0
    tail = ("--garden", str(garden), "--today", "2018-05-10")
    for line in (
        "weigh sow carrot",
        "weigh sow bush-bean",
        "odds ready carrot --sown 2018-05-01",
        "weather show",
    ):
        said = do(*line.split(), *tail)
        assert said.code == 0, said.err
        assert "nan" not in said.out
        if line.startswith("weigh"):
            assert "no rain in the record" in said.out
    again = do("weigh", "sow-again", "carrot", "--sown", "2018-04-25", "--seeds", "99", "--up", "9", *tail)
    assert again.code == 0


def test_a_sheet_shows_a_growers_own_number(do: Any, gardens: dict[str, Path], tmp_path: Path) -> None:
    garden = shutil.copytree(gardens["north"], tmp_path / "own")
    (garden / "overrides.toml").write_text("[carrot.development]\nready_days = 71\n", encoding="utf-8")
    spoken = do("sheet", "carrot", "--garden", str(garden)).out
    plain = do("sheet", "carrot", "--garden", str(tmp_path)).out
    line = next(line for line in spoken.splitlines() if line.strip().startswith("ready days"))
    assert "71" in line
    assert "sheet says" in line
    assert "sheet says" not in plain
    told = {
        value["field"]: value
        for value in do("sheet", "carrot", "--garden", str(garden), "--json").json["values"]
    }
    assert told["development.ready_days"]["value"] == 71.0
    assert told["development.ready_days"]["provenance"] == "grower"
    asked = ("odds", "ready", "carrot", "--sown", "2018-05-01", "--today", "2018-05-10", "--json", "--garden")
    assert (
        do(*asked, str(garden)).json["ready"]["q50"] > do(*asked, str(gardens["north"])).json["ready"]["q50"]
    )


def test_sheets_lists_them_all(ask: Any) -> None:
    listed = ask("sheets", "--json").json
    assert len(listed) >= 30
    spoken = ask("sheets").out
    for entry in listed:
        assert entry["british"] in spoken
        assert {"key", "british", "american", "kind", "season"} <= set(entry)


@pytest.mark.parametrize(("british", "american"), [("courgette", "zucchini"), ("aubergine", "eggplant")])
def test_british_and_american_names_find_one_sheet(british: str, american: str, ask: Any) -> None:
    assert ask("sheet", british, "--json").json["key"] == ask("sheet", american, "--json").json["key"]


def shell(*words: str, cwd: Path) -> subprocess.CompletedProcess[str]:
    """Run the program as its own process, with no terminal."""
    path = os.pathsep.join([str(ROOT / "src"), os.environ.get("PYTHONPATH", "")])
    return subprocess.run(
        [sys.executable, "-W", "error", "-m", "spadework.faces.cli", *words],
        capture_output=True, text=True, cwd=cwd, env={**os.environ, "PYTHONPATH": path}, check=False,
        encoding="utf-8",
    )  # fmt: skip


def test_as_a_program_of_its_own(tmp_path: Path, ask: Any) -> None:
    said = shell("law", "emergence-days", "crop=carrot", "soil_c=10", "--json", cwd=tmp_path)
    assert (said.returncode, said.stderr) == (0, "")
    assert said.stdout == ask("law", "emergence-days", "crop=carrot", "soil_c=10", "--json").out


def test_a_program_refuses_with_code_2(tmp_path: Path) -> None:
    said = shell("odds", "frost", "--json", cwd=tmp_path)
    assert said.returncode == 2
    assert "No garden in" in said.stderr
    assert said.stderr.count("\n") == 1
    assert '"error"' in said.stdout


def test_in_the_gardens_own_folder_it_needs_no_garden_named(gardens: dict[str, Path]) -> None:
    said = shell("odds", "frost", "--today", "2018-05-10", "--json", cwd=gardens["north"])
    assert (said.returncode, said.stderr) == (0, "")


def test_help_and_version_are_answers(do: Any) -> None:
    for words in (["--help"], ["weigh", "sow-again", "--help"], ["--version"], []):
        said = do(*words)
        assert said.code == 0
        assert said.out.strip()
        assert said.err == ""


def test_a_reader_that_stops_early_is_no_error(tmp_path: Path) -> None:
    path = os.pathsep.join([str(ROOT / "src"), os.environ.get("PYTHONPATH", "")])
    with subprocess.Popen(
        [sys.executable, "-m", "spadework.faces.cli", "sheet", "carrot"],
        stdout=subprocess.PIPE, stderr=subprocess.PIPE, cwd=tmp_path, env={**os.environ, "PYTHONPATH": path},
    ) as process:  # fmt: skip
        assert process.stdout is not None
        assert process.stderr is not None
        process.stdout.close()
        assert b"Traceback" not in process.stderr.read()


def test_nothing_heavy_is_loaded_for_one_law(tmp_path: Path) -> None:
    path = os.pathsep.join([str(ROOT / "src"), os.environ.get("PYTHONPATH", "")])
    code = (
        "import sys\n"
        "from spadework.faces.cli.main import run\n"
        "try:\n    run(['law', 'day-length', 'lat=45', 'date=2023-06-21'])\nexcept SystemExit:\n    pass\n"
        "print(sorted(set(sys.modules) & {'scipy', 'scipy.stats', 'pandas', 'spadework.clock.course'}))\n"
    )
    said = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, cwd=tmp_path, check=True,
        env={**os.environ, "PYTHONPATH": path},
    )  # fmt: skip
    assert said.stdout.splitlines()[-1] == "[]"
