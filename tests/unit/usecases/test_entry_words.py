"""Every kind of entry can be read aloud."""

from __future__ import annotations

from datetime import date

import pytest

from book_entries import EVERY_ACT, entry
from spadework.garden import entries as kinds
from spadework.garden.entries import Payload
from spadework.garden.fold import fold
from spadework.garden.state import Garden
from spadework.usecases.crop_words import crop_word
from spadework.usecases.entry_words import sentence
from spadework.usecases.keep_book import Act

DAY = date(2026, 5, 20)


@pytest.fixture(scope="module")
def garden() -> Garden:
    return fold(
        [
            entry(kinds.BedSet(name="Bed 3"), bed="bed-3"),
            entry(kinds.Sown(planting="carrot-2026-1", crop="carrot", seeds=300), bed="bed-3"),
            entry(kinds.Sown(planting="beet-2026-1", crop="beet", seeds=80), bed="bed-3"),
        ]
    )


@pytest.mark.parametrize("act", EVERY_ACT, ids=lambda act: act.__struct_config__.tag)
def test_every_kind_has_a_sentence(garden: Garden, act: Payload) -> None:
    said = sentence(entry(act, bed="bed-3", planting="carrot-2026-1", batch="heap"), garden)
    assert said[0].isupper() or said[0].isdigit()
    assert said.endswith((".", "?"))
    assert "None" not in said
    assert "_" not in said
    assert "  " not in said
    assert said != f"{act.__struct_config__.tag.capitalize()}."


@pytest.mark.parametrize(
    ("act", "where", "said"),
    [
        (kinds.Picked(kg=2.5), "carrot-2026-1", "Picked 2.5 kg of carrots from Bed 3."),
        (
            kinds.Picked(kg=0.4, last=True),
            "beet-2026-1",
            "Picked 400 g of beetroot from Bed 3, the last of it.",
        ),
        (kinds.Picked(pieces=12), "carrot-2026-1", "Picked 12 carrots from Bed 3."),
        (kinds.Thinned(spacing_cm=5.0), "carrot-2026-1", "Thinned carrots in Bed 3 to 5 cm."),
        (kinds.Watered(litres=18.0), "", "Watered Bed 3: 18 litres."),
        (kinds.Tended(act="hoed"), "", "Hoed Bed 3."),
        (kinds.Tended(act="potted on"), "", "Potted on Bed 3."),
        (kinds.Watered(minutes=10, hour=19.5), "", "Watered Bed 3: 10 minutes, at 19:30."),
        (
            kinds.BedSet(name="Bed 4", week_allowance_l=60.0),
            "",
            "Bed 4 is a framed bed, 1.2 m by 2.4 m, 30 cm deep, loam, at most 60 litres a week.",
        ),
        (kinds.FlowMeasured(flow_l_min=3.5), "", "Measured the flow in Bed 3: 3.5 litres a minute."),
        (kinds.Stage(what="ready", reached=False), "carrot-2026-1", "Carrot in Bed 3 is not ready yet."),
        (
            kinds.PlantedOut(planting="new", crop="kale", plants=1, spots=((0.6, 0.5),), rows_run="across"),
            "",
            "Planted out 1 kale in Bed 3, rows across the bed, at 0.6 and 0.5 m across and along.",
        ),
        (
            kinds.Sown(planting="new", crop="pea", block=kinds.Block(along_m=1.2, width_m=1.2, length_m=0.6)),
            "",
            "Sowed peas in Bed 3, 1.2 m by 0.6 m, from 0 m across and 1.2 m along.",
        ),
        (
            kinds.BedSet(name="Tub 1", shape="tub", width_m=0.5, length_m=0.5, is_round=True),
            "",
            "Tub 1 is a tub, round, 0.5 m across, 30 cm deep, loam.",
        ),
        (kinds.Stage(what="up"), "carrot-2026-1", "Carrot in Bed 3 is up."),
        (kinds.Moved(act="on", item="fleece", length_m=2.4), "", "Put 2.4 m of fleece on Bed 3."),
        (kinds.Moved(act="off"), "", "Took the covers off Bed 3."),
        (
            kinds.Sown(planting="new", crop="radish", rows=2, depth_mm=10, seeds=60, lot="r-26"),
            "new",
            "Sowed 60 seeds of radishes in Bed 3, 2 rows, 10 mm deep, from lot r-26.",
        ),
        (
            kinds.Sown(planting="new", crop="garlic", method="cloves", seeds=50),
            "new",
            "Planted 50 garlic cloves in Bed 3.",
        ),
        # Nobody said how, but there is no other way with potatoes.
        (kinds.Sown(planting="new", crop="potato", seeds=1), "new", "Planted 1 potato tuber in Bed 3."),
        (
            kinds.Amended(material="horse manure", state="raw", spray_history="not known"),
            "",
            "Worked horse manure into Bed 3, raw, spray history not known.",
        ),
        (
            kinds.Treated(product="soap", label_days=1),
            "carrot-2026-1",
            "Treated carrots in Bed 3 with soap, 1 day before picking by the label.",
        ),
    ],
)
def test_sentences(garden: Garden, act: Payload, where: str, said: str) -> None:
    assert sentence(Act(payload=act, on=DAY, bed="bed-3", planting=where), garden) == said


def test_undoing_names_the_entry(garden: Garden) -> None:
    act = Act(payload=None, on=DAY, withdraws="01ABCDEFGHJKMNPQRSTVWXYZ12")
    assert sentence(act, garden) == "Took back entry wxyz12."


def test_words_of_either_side() -> None:
    assert crop_word("eggplant", many=True) == "aubergines"
    assert crop_word("eggplant", "american", many=True) == "eggplants"
    assert crop_word("strawberry", many=True) == "strawberries"
    assert crop_word("tomato", many=True) == "tomatoes"
    assert crop_word("kale", many=True) == "kale"
    assert crop_word("no-such-crop") == "no such crop"
