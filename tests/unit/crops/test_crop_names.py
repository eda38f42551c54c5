"""A crop is found by what people call it."""

from __future__ import annotations

import pytest

from spadework.crops import all_sheets, find, find_whole, keys, load_sheet
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
        ("hearting lettuce", "head-lettuce"),
        ("Chinese cabbage", "napa-cabbage"),
        ("pot marigold", "calendula"),
        ("escarole", "endive"),
        ("husk tomato", "tomatillo"),
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


@pytest.mark.parametrize(
    ("said", "whole"),
    [
        ("tomato", ("tomato", None, None)),
        ("cherry tomato", ("tomato", "cherry", None)),
        ("Cherry Tomatoes", ("tomato", "cherry", None)),
        ("beefsteak tomato", ("tomato", "large", None)),
        ("cos lettuce", ("head-lettuce", "romaine", None)),
        ("iceberg", ("head-lettuce", "crisphead", None)),
        ("onion sets", ("onion", None, "sets")),
        ("onion-sets", ("onion", None, "sets")),
        ("short-day onion", ("onion", "short-day", None)),
        ("short day onion sets", ("onion", "short-day", "sets")),
        ("fall garlic", ("garlic", None, "autumn")),
        ("autumn broad beans", ("fava-bean", None, "autumn-sown")),
        ("early potatoes", ("potato", "early", None)),
        ("maincrop potato", ("potato", "main", None)),
        ("early sweetcorn", ("sweet-corn", "early", None)),
        ("cavolo nero", ("kale", "tuscan", None)),
        ("savoy", ("cabbage", "savoy", None)),
        ("raised beetroot", ("beet", None, "raised")),
        ("strawberry runners", ("strawberry", None, "crowns")),
        ("sweet potato slips", ("sweet-potato", None, "slips")),
        ("spring onion", ("bunching-onion", None, None)),
    ],
)
def test_a_name_may_hold_variety_and_method(said: str, whole: tuple[str, str | None, str | None]) -> None:
    assert find_whole(said) == whole
    assert find(said) == whole[0]
    sheet = load_sheet(said)
    assert (sheet.key, sheet.variety or None, sheet.method or None) == whole
    assert sheet is load_sheet(*whole)


def test_a_variety_given_apart_goes_before_the_name() -> None:
    assert load_sheet("cherry tomato", variety="large").variety == "large"
    assert load_sheet("tomato", method="raised").method == "raised"


@pytest.mark.parametrize(
    ("variety", "method", "hint"),
    [("chery", None, "cherry"), (None, "raise", "raised"), ("xyzzy", None, "cherry, early, large")],
)
def test_unknown_forms_get_the_nearest(variety: str | None, method: str | None, hint: str) -> None:
    with pytest.raises(UnknownName) as caught:
        load_sheet("tomato", variety=variety, method=method)
    assert hint in caught.value.hint


def test_unknown_names_list_forms_as_well() -> None:
    with pytest.raises(UnknownName) as caught:
        find("cherry tomatto")
    assert "tomato cherry" in caught.value.hint


def test_name_list_agrees_with_the_sheets() -> None:
    tables = _tables()
    owners: dict[str, str] = {}
    for key, sheet in all_sheets().items():
        names = dict.fromkeys([sheet.name, sheet.british, sheet.american, *sheet.synonyms])
        assert tables["crops"][key] == list(names), key
        for name in names:
            assert owners.setdefault(name.casefold(), key) == key, name
            assert find_whole(name) == (key, None, None), name
            assert find_whole(name + "s") == (key, None, None), name
    for title in ("varieties", "methods"):
        told = {
            key: {form.key: list(form.names) for form in getattr(sheet, title).values()}
            for key, sheet in all_sheets().items()
            if getattr(sheet, title)
        }
        assert tables[title] == told
    for choices in tables["several"].values():
        assert set(choices) <= set(keys())


def test_each_name_of_a_form_is_its_own() -> None:
    owners: dict[str, object] = {}
    for key, sheet in all_sheets().items():
        for form in [*sheet.varieties.values(), *sheet.methods.values()]:
            whole = (key, form.key, None) if form.kind == "variety" else (key, None, form.key)
            spoken = f"{form.key} {sheet.name}" if form.kind == "variety" else f"{sheet.name} {form.key}"
            for name in {*form.names, spoken}:
                assert owners.setdefault(name.casefold(), whole) == whole, name
                assert find_whole(name) == whole, name
                assert find_whole(name + "s") == whole, name
