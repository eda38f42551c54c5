"""A sheet with faults is refused whole, with every fault named at its TOML path."""

from __future__ import annotations

import pytest

from spadework.crops.loader import FOLDER, read_sheet
from spadework.errors import Fault, InputFileError


def carrot() -> str:
    return (FOLDER / "carrot.toml").read_text(encoding="utf-8")


def swapped(text: str, start: str, line: str) -> str:
    """The text with the first line that begins with `start` replaced by `line`."""
    lines = text.splitlines()
    at = next(index for index, old in enumerate(lines) if old.startswith(start))
    return "\n".join([*lines[:at], line, *lines[at + 1 :]])


def faults_of(text: str, name: str = "carrot.toml") -> dict[str, Fault]:
    with pytest.raises(InputFileError) as caught:
        read_sheet(text, name)
    assert caught.value.name == name
    return {fault.where: fault for fault in caught.value.faults}


def test_the_sound_sheet_is_taken() -> None:
    assert read_sheet(carrot(), "carrot.toml").name == "carrot"


@pytest.mark.parametrize(
    ("start", "line", "where", "said"),
    [
        (
            "depth_mm",
            'depth_mm = { value = "deep", class = "common-practice" }',
            "sowing.depth_mm.value",
            "'deep'",
        ),
        ("depth_mm", "depth_mm = 13", "sowing.depth_mm", "receipt"),
        ("depth_mm", "", "sowing.depth_mm", "nothing"),
        ("depth_mm", 'dept_mm = { value = 1, class = "memory" }', "sowing.dept_mm", "depth_mm"),
        (
            "depth_mm",
            'depth_mm = { value = 1300, class = "common-practice" }',
            "sowing.depth_mm.value",
            "0 to 200 mm",
        ),
        (
            "depth_mm",
            'depth_mm = { value = true, class = "common-practice" }',
            "sowing.depth_mm.value",
            "True",
        ),
        ("depth_mm", 'depth_mm = { value = nan, class = "common-practice" }', "sowing.depth_mm.value", "nan"),
        (
            "depth_mm",
            'depth_mm = { value = 13, low = 20, class = "common-practice" }',
            "sowing.depth_mm",
            "low 20",
        ),
        (
            "depth_mm",
            'depth_mm = { value = 13, high = 9, class = "common-practice" }',
            "sowing.depth_mm",
            "high 9",
        ),
        ("depth_mm", 'depth_mm = { low = 9, class = "common-practice" }', "sowing.depth_mm.value", "nothing"),
        ("depth_mm", "depth_mm = { value = 13 }", "sowing.depth_mm.class", "nothing"),
        ("depth_mm", 'depth_mm = { value = 13, class = "hearsay" }', "sowing.depth_mm.class", "'hearsay'"),
        ("depth_mm", 'depth_mm = { value = 13, class = "grower" }', "sowing.depth_mm.class", "'grower'"),
        ("depth_mm", 'depth_mm = { value = 13, class = "published" }', "sowing.depth_mm.source", "nothing"),
        (
            "depth_mm",
            'depth_mm = { value = 13, class = "published", source = "ATHERTON1991" }',
            "sowing.depth_mm.source",
            "ATHERTON1990",
        ),
        (
            "depth_mm",
            'depth_mm = { value = 13, class = "memory", source = 7 }',
            "sowing.depth_mm",
            "not text",
        ),
        (
            "depth_mm",
            'depth_mm = { value = 13, hgh = 15, class = "common-practice" }',
            "sowing.depth_mm.hgh",
            "high",
        ),
        ("kind = ", 'kind = "vegetable"', "kind", "'vegetable'"),
        ("season", "season = 3", "season", "cool, warm"),
        ("propagation", 'propagation = "direct"', "propagation", "a list of"),
        ("propagation", "propagation = []", "propagation", "a list of"),
        ("family", "", "family", "nothing"),
        ("life", 'life = "biennial"\ncolour = "orange"', "colour", "unknown"),
        ("key", 'key = "carotte"', "key", "'carrot'"),
        ("[growth]", "[growht]", "growht", "growth"),
        ("shares", 'shares = { "1" = 0.4, "4" = 0.2 }', "development.stages.1", "0.4"),
        ("shares", 'shares = { "11" = 0.4 }', "development.stages.11", "unknown stage"),
        ("shares", 'shares = { "4" = 1.4 }', "development.stages.4", "0 to 1"),
        ("shares", "", "development.stages", "no shares"),
        (
            "shoulder_c",
            'shoulder_c = { value = 20, class = "common-practice" }',
            "emergence.optimum_c",
            "26.5",
        ),
        ("most_cday", 'most_cday = { value = 100, class = "common-practice" }', "bolting.first_cday", "126"),
        ("dose_cday", "", "heat.dose_cday", "nothing"),
        ("first_cday", "", "bolting.first_cday", "nothing"),
        ('kind = "cold"', 'kind = "none"', "bolting.first_cday", "only for crops that bolt"),
        (
            "cv = ",
            'cv = { value = 0.1, class = "common-practice" }\ncritical_h = 13',
            "development.critical_h",
            "only",
        ),
        ("propagation", 'propagation = ["direct", "raised"]', "sowing.weeks_to_set_out", "nothing"),
    ],
)
def test_each_fault_is_named_where_it_is(start: str, line: str, where: str, said: str) -> None:
    faults = faults_of(swapped(carrot(), start, line))
    assert where in faults
    assert said in str(faults[where])


def test_all_faults_come_together() -> None:
    text = swapped(carrot(), "depth_mm", 'depth_mm = { value = -5, class = "common-practice" }')
    text = swapped(text, "family", "")
    text = swapped(text, "leaf_days", 'leaf_dys = { value = 4, class = "common-practice" }')
    text = swapped(text, "sign", "sign = 4")
    text = swapped(text, "most_cday", 'most_cday = { value = 100, class = "rumour" }')
    faults = faults_of(text)
    assert set(faults) == {
        "sowing.depth_mm.value",
        "family",
        "growth.leaf_dys",
        "growth.leaf_days",
        "harvest.sign",
        "bolting.most_cday.class",
        "bolting.first_cday",
    }


def test_text_that_is_not_toml() -> None:
    faults = faults_of("key = carrot", "carrot.toml")
    assert "not TOML" in str(faults["carrot.toml"])


def test_an_empty_sheet_names_every_missing_table() -> None:
    faults = faults_of("", "carrot.toml")
    assert {"key", "sowing", "emergence", "harvest", "sowing.depth_mm"} <= set(faults)


def test_cautions_are_checked() -> None:
    bad = carrot() + '\n[[cautions]]\nclass = "common-practice"\n'
    assert "cautions[0]" in faults_of(bad)
    bad = carrot() + '\n[[cautions]]\ntext = "Mind."\nclass = "published"\nsource = "NOBODY1900"\n'
    assert "cautions[0].source" in faults_of(bad)
