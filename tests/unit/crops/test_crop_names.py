"""A crop is found by what people call it."""

from __future__ import annotations

import pytest

from spadework.crops import all_sheets, find, keys, load_sheet
from spadework.crops.names import _tables
from spadework.errors import UnknownName


@pytest.mark.parametrize(
    ("said", "key"),
    [
        ("courgette", "summer-squash"),
        ("Courgettes", "summer-squash"),
        ("zucchini", "summer-squash"),
        ("Summer Squash", "summer-squash"),
        ("aubergine", "eggplant"),
        ("eggplants", "eggplant"),
        ("swede", "rutabaga"),
        ("rutabaga", "rutabaga"),
        ("rocket", "arugula"),
        ("arugula", "arugula"),
        ("spring onion", "bunching-onion"),
        ("spring-onions", "bunching-onion"),
        ("scallions", "bunching-onion"),
        ("French bean", "bush-bean"),
        ("bush beans", "bush-bean"),
        ("snap bean", "bush-bean"),
        ("dwarf bean", "bush-bean"),
        ("broad beans", "fava-bean"),
        ("fava bean", "fava-bean"),
        ("beetroot", "beet"),
        ("BEET", "beet"),
        ("coriander", "cilantro"),
        ("cilantro", "cilantro"),
        ("sweetcorn", "sweet-corn"),
        ("sweet corn", "sweet-corn"),
        ("Swiss chard", "chard"),
        ("leaf beet", "chard"),
        ("chard", "chard"),
        ("tomatoes", "tomato"),
        ("potatoes", "potato"),
        ("radishes", "radish"),
        ("leaf_lettuce", "lettuce"),
        ("lettuce", "lettuce"),
        ("cos lettuce", "head-lettuce"),
        ("brussels sprout", "brussels-sprouts"),
        ("Brussels Sprouts", "brussels-sprouts"),
        ("calabrese", "broccoli"),
        ("  Pak   Choi ", "bok-choy"),
        ("lady's fingers", "okra"),
        ("rúcola", "arugula"),
        ("bunching-onion", "bunching-onion"),
        ("celery root", "celeriac"),
    ],
)
def test_names_find_the_sheet(said: str, key: str) -> None:
    assert find(said) == key
    assert load_sheet(said) is load_sheet(key)


def test_words_follow_the_garden() -> None:
    assert load_sheet("eggplant").word("british") == "aubergine"
    assert load_sheet("eggplant").word("american") == "eggplant"


@pytest.mark.parametrize(
    ("said", "hint"),
    [("carot", "carrot"), ("tomatoe plant", "tomato"), ("leak", "leek"), ("parsnap", "parsnip")],
)
def test_unknown_names_get_the_nearest(said: str, hint: str) -> None:
    with pytest.raises(UnknownName) as caught:
        find(said)
    assert said in caught.value.message
    assert hint in caught.value.hint


@pytest.mark.parametrize("said", ["xyzzy", "", "  "])
def test_nothing_like_it(said: str) -> None:
    with pytest.raises(UnknownName):
        find(said)


@pytest.mark.parametrize("said", ["bean", "Beans", "squash"])
def test_a_word_for_several_crops_asks_back(said: str) -> None:
    with pytest.raises(UnknownName, match="several crops") as caught:
        find(said)
    assert "summer-squash" in caught.value.hint or "bush-bean" in caught.value.hint


def test_name_list_agrees_with_the_sheets() -> None:
    crops, several = _tables()
    owners: dict[str, str] = {}
    for key, sheet in all_sheets().items():
        names = dict.fromkeys([sheet.name, sheet.british, sheet.american, *sheet.synonyms])
        assert crops[key] == list(names), key
        for name in names:
            assert owners.setdefault(name.casefold(), key) == key, name
            assert find(name) == key, name
            assert find(name + "s") == key, name
    for choices in several.values():
        assert set(choices) <= set(keys())
