"""Sheets of diseases and disorders: what the trade's lists name is there, and each reads as advice."""

from __future__ import annotations

import re

import pytest

from spadework.crops.trouble import Trouble
from spadework.crops.troubles import all_troubles, hosted_by, trouble

RULES = {
    "late-blight": "late-blight",
    "early-blight": "leaf-spot-severity",
    "septoria-leaf-spot": "leaf-spot-severity",
    "onion-downy-mildew": "onion-downy-mildew",
    "cucurbit-downy-mildew": "cucurbit-downy-mildew",
    "lettuce-downy-mildew": "lettuce-downy-mildew",
    "cucurbit-powdery-mildew": "powdery-mildew",
    "grey-mould": "grey-mould",
    "white-mould": "white-mould",
    "damping-off": "damping-off",
    "beet-leaf-spot": "beet-leaf-spot",
    "carrot-leaf-blight": "leaf-spot-severity",
}

OTHERS = ("clubroot", "onion white rot", "bacterial wilt", "black rot", "rust", "mosaic virus", "common scab")

DISORDERS = (
    "frost",
    "cold injury",
    "heat",
    "drought",
    "waterlogging",
    "soil crust",
    "nitrogen deficiency",
    "blossom end rot",
    "buttoning",
    "poor set",
    "herbicide carryover",
    "herbicide drift",
    "sunscald",
    "transplant shock",
    "wind damage",
)


def _sick() -> list[Trouble]:
    return [each for each in all_troubles().values() if each.kind in ("disease", "disorder")]


def test_diseases_the_weather_is_watched_for_name_their_rule() -> None:
    assert {each.key: each.rule for each in all_troubles().values() if each.rule} == RULES


@pytest.mark.parametrize(
    ("name", "kind"), [*((name, "disease") for name in OTHERS), *((name, "disorder") for name in DISORDERS)]
)
def test_growers_words_find_the_sheet(name: str, kind: str) -> None:
    assert trouble(name).kind == kind


@pytest.mark.parametrize("each", _sick(), ids=lambda each: each.key)
def test_each_sheet_reads_as_advice(each: Trouble) -> None:
    assert 3 <= len(each.signs) <= 18
    assert len({shown.sign for shown in each.signs}) == len(each.signs)
    assert max(shown.often.value for shown in each.signs) >= 0.7, "no sign it is known by"
    assert 0 < each.usual.value <= 0.6
    assert not set(each.hosts) & set(each.poor_hosts)
    assert len({favour.when for favour in each.favours}) == len(each.favours)
    assert each.stops
    assert each.keep_or_pull
    assert all(remedy.kit in ("", "fleece", "netting", "mesh", "film", "screen") for remedy in each.remedies)
    treated = [at for at, remedy in enumerate(each.remedies) if "the label is the law" in remedy.act]
    assert treated in ([], [len(each.remedies) - 1]), "treating comes last"
    for at in treated:
        act = each.remedies[at].act
        assert "bees" in act
        assert "wait before picking" in act
        assert "extension service" in act


def test_what_is_urgent_for_others_says_so() -> None:
    assert "miles" in trouble("late blight").neighbours
    assert trouble("late blight").laboratory
    assert trouble("clubroot").stays_in_soil
    assert trouble("onion white rot").stays_in_soil
    assert trouble("blossom-end rot").neighbours == ""


def test_a_load_is_asked_after_where_twisted_growth_may_come_of_it() -> None:
    load = trouble("herbicide carry-over")
    assert set(load.came_with) == {"manure", "compost", "straw", "hay", "clippings"}
    assert hosted_by(load, "tomato", "Solanaceae") == 1
    assert hosted_by(load, "sweet-corn", "Poaceae") == 0, "grasses stand it (FERRELL-SSAGR415)"
    assert hosted_by(load, "onion", "Amaryllidaceae") == 0


def test_weather_that_cannot_be_left_out_counts_against_where_it_was_not() -> None:
    otherwise = {
        (each.key, favour.when): favour.otherwise
        for each in all_troubles().values()
        for favour in each.favours
    }
    assert otherwise["frost-damage", "frost lately"] <= 0.02
    assert otherwise["herbicide-drift", "weedkiller near"] <= 0.1
    assert otherwise["herbicide-carry-over", "outside material lately"] <= 0.1
    assert otherwise["transplant-shock", "planted out lately"] <= 0.05


def test_thresholds_are_those_of_the_trade() -> None:
    """Counts at which gardens act, as extension texts give them; blossom-end rot: UDEL_BER."""
    told = {
        each.key: each.scout.threshold.value
        for each in all_troubles().values()
        if each.scout.threshold is not None
    }
    assert told["late-blight"] == 1, "one blotch"
    assert told["cucurbit-powdery-mildew"] == 100 / 50, "one old leaf in fifty, in percent"
    assert told["damping-off"] == 10, "percent of seedlings"
    assert told["carrot-leaf-blight"] == 25, "percent of leaves"
    assert told["blossom-end-rot"] == 1, "one fruit"


def test_no_sentence_holds_a_degree() -> None:
    """The garden reads its own units, and a sentence of a sheet is read as it stands."""
    for each in all_troubles().values():
        said = [each.about, each.after_why, *each.stops, *each.cautions, *each.legal]
        for text in (*(one.text for one in said), *(remedy.act for remedy in each.remedies)):
            assert not re.search(r"\d ?(deg|°)[CF]", text), f"{each.key}: {text}"
