"""Making a garden: by flags, and by answering at a terminal."""

from __future__ import annotations

import os
import select
import signal
import subprocess
import sys
import time
from pathlib import Path
from typing import Any

import pytest

from source_tree import ROOT
from spadework.store.garden_folder import open_garden
from spadework.usecases.keep_book import garden_state

if sys.platform == "win32":
    pytest.skip("terminals of this kind are not there", allow_module_level=True)

import pty

PLOT = (
    "12 beds 1.2 x 2.4 m in 3 rows, paths 0.6 m",
    "a tunnel 3 by 6 m north of them; 3 beds 0.8 x 5 m inside the tunnel",
    "6 tubs 45 cm across, 40 cm deep beside the tunnel",
    "cold frame 60 x 120 cm east of bed 4; seed shelf indoors",
    "beds 5 to 8 raised 30 cm, clay loam",
)
PLACE = ("--lat", "52 06 N", "--lon", "-0.1")


def test_by_flags_with_beds_and_people(do: Any, tmp_path: Path) -> None:
    flags = [word for line in PLOT for word in ("--beds", line)]
    people = ("--keeper", "Ann", "--helper", "Ben", "--helper", "Kim Lee")
    said = do(
        "new", "--name", "Plot", *PLACE, "--elevation", "30", *flags, *people, "--garden", str(tmp_path / "g")
    )
    assert said.code == 0, said.err
    assert "Plot is made" in said.out
    assert "T1–T3" in said.out
    assert "weather add" in said.out
    garden = garden_state(open_garden(tmp_path / "g"))
    assert len(garden.beds) == 24
    assert garden.beds["tunnel-bed-2"].inside == "tunnel"
    assert {key: person.role for key, person in garden.people.items()} == {
        "ann": "keeper", "ben": "helper", "kim-lee": "helper",
    }  # fmt: skip
    assert not any(entry.insisted for entry in garden.entries)


def test_beds_from_a_file(do: Any, tmp_path: Path) -> None:
    (tmp_path / "beds.txt").write_text("\n".join(PLOT), encoding="utf-8")
    said = do(
        "new", *PLACE, "--beds-file", str(tmp_path / "beds.txt"), "--garden", str(tmp_path / "g"), "--json"
    )
    assert said.code == 0, said.err
    assert said.json["beds"] == 24
    assert said.json["lat_deg"] == pytest.approx(52.1)
    assert said.json["picture"]["lines"]


def test_a_wrong_line_makes_nothing_and_names_every_problem(do: Any, tmp_path: Path) -> None:
    said = do("new", *PLACE, "--beds", "9 tubbs", "--beds", "2 beds 0 x 2 m", "--garden", str(tmp_path / "g"))
    assert said.code == 2
    assert "line 1, column 1" in said.err
    assert "line 2, column 8" in said.err
    assert list(tmp_path.iterdir()) == []


def test_without_a_terminal_nothing_is_asked(do: Any, tmp_path: Path) -> None:
    said = do("new", "--garden", str(tmp_path / "g"))
    assert said.code == 2
    assert "--lat and --lon" in said.err
    assert list(tmp_path.iterdir()) == []


def test_a_folder_with_other_files_is_kept(do: Any, tmp_path: Path) -> None:
    (tmp_path / "letter.txt").write_text("mine", encoding="utf-8")
    assert do("new", *PLACE, "--beds", "2 beds", "--garden", str(tmp_path)).code == 0
    assert (tmp_path / "letter.txt").read_text(encoding="utf-8") == "mine"
    assert sorted(path.name for path in tmp_path.iterdir()) == [
        "book.sqlite", "garden.toml", "letter.txt", "overrides.toml", "weather",
    ]  # fmt: skip
    again = do("new", *PLACE, "--beds", "2 beds", "--garden", str(tmp_path))
    assert (again.code, "already" in again.err) == (2, True)


def test_an_american_garden(do: Any, tmp_path: Path) -> None:
    words = ("--elevation", "300ft", "--units", "us", "--beds", "4 beds 4x8 named North 1 to North 4")
    said = do("new", *PLACE, *words, "--garden", str(tmp_path / "g"))
    assert said.code == 0, said.err
    assert "4 ft by 8 ft" in said.out
    assert open_garden(tmp_path / "g").site.elevation_m == pytest.approx(91.4)


class Terminal:
    """The program at a terminal of its own."""

    def __init__(self, folder: Path, *words: str) -> None:
        self.master, slave = pty.openpty()
        env = {
            **os.environ,
            "PYTHONPATH": str(ROOT / "src"),
            "TZ": "Europe/London",
            "USER": "robin",
            "TERM": "dumb",
        }
        self.process = subprocess.Popen(
            [sys.executable, "-m", "spadework.faces.cli", *words],
            stdin=slave,
            stdout=slave,
            stderr=slave,
            cwd=folder,
            env=env,
            start_new_session=True,
        )
        os.close(slave)
        self.heard, self.place = "", 0

    def until(self, text: str, seconds: float = 60.0) -> None:
        """Listen until a text is said after the last one that was waited for."""
        end = time.monotonic() + seconds
        start = self.place
        while text not in self.heard[start:]:
            ready, _, _ = select.select([self.master], [], [], max(0.0, end - time.monotonic()))
            assert ready, f"{text!r} was not said; heard: {self.heard}"
            try:
                self.heard += os.read(self.master, 4096).decode("utf-8", "replace")
            except OSError:
                break
        assert text in self.heard[start:], self.heard
        self.place = self.heard.index(text, start) + len(text)

    def answer(self, text: str) -> None:
        os.write(self.master, f"{text}\n".encode())

    def interrupt(self, seconds: float = 60.0) -> None:
        """Ctrl-C, again and again: one in the moment between the prompt and the wait for a line is lost."""
        end = time.monotonic() + seconds
        while self.process.poll() is None and time.monotonic() < end:
            os.killpg(self.process.pid, signal.SIGINT)
            if select.select([self.master], [], [], 0.5)[0]:
                break

    def ended(self) -> int:
        """Its exit code, once it has ended."""
        return self.process.wait(60)

    def __enter__(self) -> Terminal:
        return self

    def __exit__(self, *_: object) -> None:
        self.process.kill()
        self.process.wait()
        os.close(self.master)


def talk(terminal: Terminal, *turns: tuple[str, str | None]) -> None:
    """Wait for each text in turn, and answer it unless the answer is None."""
    for heard, answer in turns:
        terminal.until(heard)
        if answer is not None:
            terminal.answer(answer)


def test_asked_at_a_terminal(tmp_path: Path) -> None:
    with Terminal(tmp_path, "new") as terminal:
        talk(
            terminal,
            ("[Home] >", "Top Field"),
            ("[top-field] >", ""),
            ("] >", "somewhere"),
            ("is not a place", None),
            ("] >", "47 12 N, 93 24 W"),
            ("[us] >", "metric"),
            ("[100] >", "320"),
            ("[british] >", ""),
            ("[no more] >", "9 tubbs"),
            ("line 1, column 1", None),
            ("[no more] >", "4 beds 1 x 2 m"),
            ("[no more] >", ""),
            ("[Robin] >", "Ann"),
            ("[nobody] >", "Ben, Kim"),
            ("weather add", None),
        )
        assert terminal.ended() == 0
    folder = open_garden(tmp_path / "top-field")
    assert (folder.site.name, folder.site.lat_deg, folder.site.lon_deg) == ("Top Field", 47.2, -93.4)
    garden = garden_state(folder)
    assert sorted(garden.beds) == ["bed-1", "bed-2", "bed-3", "bed-4"]
    assert sorted(garden.people) == ["ann", "ben", "kim"]


@pytest.mark.parametrize("answers", [0, 3])
def test_stopping_leaves_nothing_behind(tmp_path: Path, answers: int) -> None:
    with Terminal(tmp_path, "new") as terminal:
        talk(terminal, *[("] >", "")] * answers, ("] >", None))
        terminal.interrupt()
        terminal.until("Nothing was made.")
        assert terminal.ended() == 130
    assert list(tmp_path.iterdir()) == []
