"""Every packaged sheet: loads, is complete, names its sources, and keeps the order of nature."""

from __future__ import annotations

import re
import time
from dataclasses import fields as record_fields

import pytest

from spadework.crops import (
    all_sheets,
    citation,
    keys,
    load_sheet,
    receipts,
    sources_markdown,
    whole_receipts,
)
from spadework.crops.fields import SECTIONS, TEXTS, fields_markdown, of_section, texts_of_section
from spadework.crops.loader import FOLDER, RECORDS, read_sheet
from spadework.crops.protection import FILE as PROTECTION
from spadework.crops.sheet import Sheet
from spadework.crops.sources import citations
from spadework.crops.troubles import FOLDER as TROUBLES
from spadework.crops.weed import FOLDER as WEEDS
from spadework.errors import UnknownName

MOST_GROWN = [
    "carrot",
    "beet",
    "radish",
    "turnip",
    "parsnip",
    "onion",
    "leek",
    "bunching-onion",
    "potato",
    "lettuce",
    "head-lettuce",
    "spinach",
    "chard",
    "kale",
    "cabbage",
    "broccoli",
    "cauliflower",
    "kohlrabi",
    "brussels-sprouts",
    "pea",
    "bush-bean",
    "pole-bean",
    "lima-bean",
    "fava-bean",
    "sweet-corn",
    "tomato",
    "pepper",
    "eggplant",
    "cucumber",
    "summer-squash",
    "winter-squash",
    "pumpkin",
    "melon",
    "watermelon",
    "celery",
    "parsley",
    "basil",
    "cilantro",
    "arugula",
]

SCIENCE = WEEDS.parent.parent / "science"


LESS_GROWN = [
    "artichoke",
    "asparagus",
    "bok-choy",
    "celeriac",
    "collards",
    "dill",
    "endive",
    "garlic",
    "mustard-greens",
    "napa-cabbage",
    "okra",
    "rhubarb",
    "runner-bean",
    "rutabaga",
    "shallot",
    "strawberry",
    "sweet-potato",
    "tomatillo",
    "alyssum",
    "calendula",
    "marigold",
    "nasturtium",
    "snapdragon",
    "sunflower",
    "zinnia",
]


def test_most_grown_crops_have_sheets() -> None:
    assert set(MOST_GROWN) | set(LESS_GROWN) == set(keys())
    assert set(MOST_GROWN) <= set(keys())
    assert {path.stem for path in FOLDER.glob("*.toml")} == set(keys())


@pytest.mark.parametrize("key", keys())
def test_sheet_loads_with_receipts(key: str) -> None:
    sheet = load_sheet(key)
    assert sheet.key == key
    values = receipts(sheet)
    assert len(values) > 40
    for path, value in values.items():
        assert value.provenance in ("published", "memory", "common-practice", "measured", "computed"), path
        assert value.sources or value.provenance == "common-practice", path
        assert value.low is None or value.low <= value.value, path
        assert value.high is None or value.value <= value.high, path
        assert value.own is None
        assert not value.origin
    for caution in sheet.cautions:
        assert caution.text.endswith(".")


@pytest.mark.parametrize("key", keys())
def test_order_of_nature(key: str) -> None:
    sheet = load_sheet(key)
    emergence, development = sheet.emergence, sheet.development
    assert float(emergence.base_c) < float(emergence.optimum_c) <= float(emergence.shoulder_c)
    assert float(emergence.shoulder_c) < float(emergence.ceiling_c)
    assert float(emergence.cold_half_c) < float(emergence.optimum_c) < float(emergence.heat_half_c) + 8
    assert float(development.base_c) < float(development.optimum_c) <= float(development.shoulder_c)
    assert list(development.stages) == sorted(development.stages)
    shares = [float(share) for share in development.stages.values()]
    assert shares == sorted(shares)
    if development.set_out_days is not None:
        assert float(development.set_out_days) < float(development.ready_days)
    if sheet.season == "warm":
        assert float(sheet.frost.kill_c) > -3
        assert sheet.frost.hardiness == "tender"
        assert sheet.chill.limit_c is not None
    else:
        assert float(development.base_c) <= 5.5
    if development.flower_share is not None and 6 in development.stages:
        assert float(development.stages[6]) == pytest.approx(float(development.flower_share))
    if sheet.bolting.kind == "cold":
        assert sheet.bolting.juvenile_leaves is not None
        assert float(sheet.bolting.juvenile_leaves) < float(sheet.growth.leaves_max)


def test_what_packets_print_is_known() -> None:
    for key, sheet in all_sheets().items():
        days, since = sheet.development.packet_days, sheet.development.packet_from
        assert (days is None) == (since == ""), key
        assert days is not None or key == "lima-bean"
        if since == "setting out":
            assert sheet.development.set_out_days is not None, key
        if days is not None and sheet.harvest.first_year is None and sheet.life != "perennial":
            # a plant is never quicker through its days than at the optimum every day
            counted = (
                sheet.development.set_out_days if since == "setting out" else sheet.development.ready_days
            )
            assert counted is not None
            assert float(days) > 0.95 * float(counted.low or counted), key


def test_what_is_picked_in_later_years_stands_for_years() -> None:
    later = {key: sheet.harvest.first_year for key, sheet in all_sheets().items() if sheet.harvest.first_year}
    assert set(later) == {"artichoke", "asparagus", "rhubarb", "strawberry"}
    assert {key: float(year) for key, year in later.items()} == {
        "artichoke": 1,
        "asparagus": 3,
        "rhubarb": 2,
        "strawberry": 2,
    }
    assert all(load_sheet(key).life == "perennial" for key in later)


def test_records_and_field_table_agree() -> None:
    for section in SECTIONS:
        known = {field.name for field in record_fields(RECORDS[section])}
        texts = {"hardiness" if name == "class" else name for name in texts_of_section(section)}
        extra = {"stages"} if section == "development" else set()
        assert known == set(of_section(section)) | texts | extra
    head = {field.name for field in record_fields(Sheet)}
    forms = {"varieties", "methods", "variety", "method", "traits"}
    assert head == set(texts_of_section("")) | set(SECTIONS) | {"cautions"} | forms
    listed = fields_markdown()
    for text in TEXTS:
        assert f"`{text.path}`" in listed
    assert "| `emergence.base_c` | degC | -5 to 18 |" in listed


def test_every_source_is_used_and_cited_without_addresses() -> None:
    notes = " ".join(
        value.note for sheet in all_sheets().values() for value in whole_receipts(sheet).values()
    )
    used = {
        key
        for sheet in all_sheets().values()
        for value in whole_receipts(sheet).values()
        for key in value.sources
    }
    used |= {caution.source for sheet in all_sheets().values() for caution in sheet.cautions}
    others = " ".join(
        path.read_text("utf-8")
        for path in (*TROUBLES.rglob("*.toml"), *WEEDS.glob("*.toml"), PROTECTION, *SCIENCE.glob("*.py"))
    )
    for key, text in citations().items():
        assert key in used or key in notes or re.search(rf"(?<![\w-]){key}(?![\w-])", others), key
        assert not re.search(r"://|www\.|\.(com|org|net|edu|gov|io)\b", text), key
    named = {word for word in re.findall(r"(?<![\w-])[A-Z][A-Z0-9_-]{3,}[A-Z0-9]\b", notes) if word != "BBCH"}
    assert named <= set(citations())
    table = sources_markdown()
    assert f"| ATHERTON1990 | {citation('ATHERTON1990')} |" in table
    assert table.count("\n") == len(citations()) + 2
    with pytest.raises(UnknownName, match="ATHERTON1990"):
        citation("ATHERTON1909")


def test_sheets_cannot_be_changed() -> None:
    sheet = load_sheet("carrot")
    with pytest.raises(AttributeError):
        sheet.emergence.base_c.value = 4.0  # type: ignore[misc]
    with pytest.raises(TypeError):
        sheet.development.stages[4] = sheet.emergence.base_c  # type: ignore[index]


def test_reading_is_fast() -> None:
    texts = {path.name: path.read_text(encoding="utf-8") for path in FOLDER.glob("*.toml")}

    def best_ms(names: list[str]) -> float:
        times = []
        for _ in range(5):
            start = time.process_time()
            for name in names:
                read_sheet(texts[name], name)
            times.append(1000 * (time.process_time() - start))
        return min(times)

    assert best_ms(["carrot.toml"]) < 15
    assert best_ms(list(texts)) < 150
