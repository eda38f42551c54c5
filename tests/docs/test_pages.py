"""What the pages promise exists."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

import spadework
from source_tree import ROOT

README = (ROOT / "README.md").read_text(encoding="utf-8")
PAGES = [ROOT / "README.md", ROOT / "CHANGELOG.md", *sorted((ROOT / "docs").rglob("*.md"))]
OWN_WORDS = {"test", "bench"}  # run.py answers these itself; all other words go to the app


def commands() -> list[list[str]]:
    """Every command in the code blocks of the README, without what starts it."""
    blocks = re.findall(r"^```\w*\n(.*?)^```", README, re.M | re.S)
    lines = [line.split(" #")[0].strip() for block in blocks for line in block.splitlines()]
    starts = re.compile(r"^(?:\$ )?(?:python3 run\.py|spadework) (.+)$")
    return [found.group(1).split() for line in lines if (found := starts.match(line))]


def app(*words: str, cwd: Path) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-m", "spadework.faces.cli", *words]
    return subprocess.run(command, cwd=cwd, capture_output=True, text=True, check=False, timeout=120)


def test_readme_shows_the_two_commands_first() -> None:
    assert [words[0] for words in commands()[:2]] == ["demo", "test"]


def test_readme_commands_exist(tmp_path: Path) -> None:
    for words in commands():
        if words[0] in OWN_WORDS:
            continue
        plain = [word for word in words[:2] if re.fullmatch(r"[a-z-]+", word) and not word.startswith("-")]
        done = app(*plain[:1], "--help", cwd=tmp_path)
        assert done.returncode == 0, f"{words}: {done.stderr}"
        assert plain[0] in done.stdout


def test_demo_runs_in_an_empty_folder(tmp_path: Path) -> None:
    done = app("demo", "--tour", cwd=tmp_path)
    assert done.returncode == 0, done.stderr
    assert "years" in done.stdout


@pytest.mark.parametrize("page", PAGES, ids=lambda page: str(page.relative_to(ROOT)))
def test_links_lead_somewhere(page: Path) -> None:
    links = re.findall(r"\]\(([^)#]+)(?:#[^)]*)?\)", page.read_text(encoding="utf-8"))
    assert [link for link in links if not (page.parent / link).exists()] == []


def test_changelog_begins_with_this_version() -> None:
    versions = re.findall(r"^## (\d+\.\d+\.\d+)", (ROOT / "CHANGELOG.md").read_text(encoding="utf-8"), re.M)
    assert versions[0] == spadework.__version__


def test_decisions_are_numbered_and_listed() -> None:
    folder = ROOT / "docs" / "decisions"
    names = sorted(path.name for path in folder.glob("[0-9]*.md"))
    assert [int(name[:4]) for name in names] == list(range(1, len(names) + 1))
    listed = re.findall(r"\]\((\d{4}[^)]+)\)", (folder / "README.md").read_text(encoding="utf-8"))
    assert listed == names
    for name in names:
        text = (folder / name).read_text(encoding="utf-8")
        assert all(part in text for part in ("**Context.**", "**Choice.**", "**Consequence.**")), name


def test_versions_agree() -> None:
    project = (ROOT / "pyproject.toml").read_text(encoding="utf-8")
    assert f'version = "{spadework.__version__}"' in project


def test_ci_runs_what_the_readme_says() -> None:
    script = ROOT / ".ci" / "run"
    assert os.access(script, os.X_OK)
    assert re.search(r"^python3 run\.py test\b", script.read_text(), re.M)


def test_accuracy_lists_every_cell_of_the_emergence_table() -> None:
    table = (ROOT / "docs" / "accuracy-emergence.md").read_text("utf-8").split("\n\n")[2]
    cells = [line for line in table.split("\n") if line]
    page = (ROOT / "docs" / "accuracy.md").read_text("utf-8")
    assert len(cells) > 100
    assert all(line in page for line in cells)
