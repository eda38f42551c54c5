"""Sheets of troubles are read whole, and every fault is told."""

from __future__ import annotations

import pytest

from spadework.crops.troubles import FOLDER, all_signs, all_troubles, read_trouble, trouble
from spadework.errors import InputFileError, UnknownName


def test_every_sheet_reads() -> None:
    assert set(all_troubles()) == {path.stem for path in FOLDER.rglob("*.toml")}


def test_every_look_alike_is_a_trouble() -> None:
    for each in all_troubles().values():
        for alike in each.alike:
            assert alike.trouble in all_troubles(), f"{each.key} is taken for {alike.trouble}"


def test_every_sign_belongs_to_a_trouble() -> None:
    shown = {sign.sign for each in all_troubles().values() for sign in each.signs}
    assert set(all_signs()) == shown


def test_every_sign_asks_one_question_and_knows_other_words() -> None:
    for key, sign in all_signs().items():
        assert sign.ask.endswith("?"), key
        assert sign.ask.count("?") == 1, key
        assert not sign.words.endswith("."), key
        assert len(sign.phrases) >= 2, key
        assert 0 < sign.usual <= 0.3, key


def test_a_trouble_answers_to_its_names() -> None:
    assert trouble("Flea Beetles").key == "crucifer-flea-beetle"
    with pytest.raises(UnknownName, match="flee beetle"):
        trouble("flee beetle of the moon")


def test_faults_are_told() -> None:
    text = (FOLDER / "insects" / "crucifer-flea-beetle.toml").read_text(encoding="utf-8")
    with pytest.raises(InputFileError):
        read_trouble(text.replace("shot-holes", "no-such-sign"), "crucifer-flea-beetle.toml")
    with pytest.raises(InputFileError):
        read_trouble(text.replace('source = "ESTIMATE"', ""), "crucifer-flea-beetle.toml")
    with pytest.raises(InputFileError):
        read_trouble(text.replace("base_c = 10", ""), "crucifer-flea-beetle.toml")
