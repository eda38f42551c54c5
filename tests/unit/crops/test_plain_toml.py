"""The quick reading of sheets gives what the library gives, and leaves every oddity to it."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest

from spadework.crops import plain_toml
from spadework.crops.loader import FOLDER

LINE = 'depth_mm = { value = 13, low = 6.5, high = 20, class = "memory", source = "ESTIMATE", note = "x, y" }'


@pytest.mark.parametrize("path", sorted(FOLDER.glob("*.toml")), ids=lambda path: path.stem)
def test_every_sheet_is_read_as_the_library_reads_it(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    assert plain_toml.loads(text) == tomllib.loads(text)


@pytest.mark.parametrize(
    "text",
    [
        LINE,
        LINE.replace("13", "-0.5"),
        LINE.replace(", low = 6.5", ""),
        LINE.replace("value = 13, low = 6.5", "low = 6.5, value = 13"),
        LINE.replace("13", "nan"),
        LINE.replace("13", "1_000"),
        LINE.replace("13", "true"),
        LINE.replace('"x, y"', r'"say \"x\""'),
        LINE.replace('"x, y"', r'"\ue0000"'),
        LINE + " # as sown",
        f'note = """\n{LINE}\n"""',
        f'[a.b]\n{LINE}\n[[cautions]]\ntext = "Mind."\n{LINE}',
        f"name = '\ue0000'\n{LINE}",
        f'"frost.kill_c" = {LINE.partition(" = ")[2]}',
    ],
)
def test_one_line_is_read_as_the_library_reads_it(text: str) -> None:
    read, told = plain_toml.loads(text), tomllib.loads(text)
    assert repr(read) == repr(told)


@pytest.mark.parametrize(
    "text", [f"{LINE}\n{LINE}", LINE.replace("13", "013"), LINE + "\ndepth_mm = 3", "a = b"]
)
def test_faults_of_syntax_are_the_librarys(text: str) -> None:
    with pytest.raises(tomllib.TOMLDecodeError) as told:
        tomllib.loads(text)
    with pytest.raises(tomllib.TOMLDecodeError) as caught:
        plain_toml.loads(text)
    assert str(caught.value) == str(told.value)
