"""Varieties and methods keep the rules of a sheet, and the sheet's own number beside each of theirs."""

from __future__ import annotations

import pytest

from spadework.crops import all_sheets, apply_overrides, load_sheet, receipts
from spadework.crops.fields import by_path
from spadework.crops.loader import FOLDER, read_sheet
from spadework.crops.parts import words_of
from spadework.crops.sheet import Form, Sheet
from spadework.errors import Fault, InputFileError

FORMS = [
    (sheet, form)
    for sheet in all_sheets().values()
    for form in [*sheet.varieties.values(), *sheet.methods.values()]
]


def of_form(sheet: Sheet, form: Form) -> Sheet:
    return load_sheet(sheet.key, **{form.kind: form.key})


@pytest.mark.parametrize(("sheet", "form"), FORMS, ids=[f"{sheet.key} {form.key}" for sheet, form in FORMS])
def test_each_form_is_whole_and_has_receipts(sheet: Sheet, form: Form) -> None:
    whole = of_form(sheet, form)
    assert (whole.variety, whole.method)[form.kind == "method"] == form.key
    assert form.note
    base, mine = receipts(sheet), receipts(whole)
    for path, value in form.values.items():
        assert mine[path] is value
        assert value.own == base.get(path)
        assert value.origin == f"{form.kind} {form.key}"
        assert value.sources or value.provenance == "common-practice", path
        assert value.own is None or (value.value, value.low, value.high, value.note) != (
            value.own.value,
            value.own.low,
            value.own.high,
            value.own.note,
        ), f"{path} says nothing new"
    for path in set(mine) - set(form.values):
        assert mine[path] == base[path]
    if form.kind == "method":
        assert whole.propagation == (form.way,)
        assert form.way in sheet.propagation
    assert words_of(whole)["development.day_response"] == sheet.development.day_response


def test_every_way_of_starting_is_a_method() -> None:
    for sheet in all_sheets().values():
        assert {form.way for form in sheet.methods.values()} == set(sheet.propagation), sheet.key


def test_a_method_leaves_out_what_does_not_apply_to_it() -> None:
    sets, direct, raised = (load_sheet("onion", method=way) for way in ("sets", "direct", "raised"))
    assert sets.sowing.seeds_per_gram is None
    assert sets.development.set_out_days is None
    assert direct.sowing.weeks_to_set_out is None
    assert direct.sowing.seeds_per_gram is not None
    assert raised.development.set_out_days == load_sheet("onion").development.set_out_days


def test_variety_and_method_together() -> None:
    both = load_sheet("onion", variety="short-day", method="sets")
    assert both.development.critical_h == load_sheet("short-day onion").development.critical_h
    assert both.emergence.sum_cd == load_sheet("onion sets").emergence.sum_cd


def test_a_growers_number_goes_over_a_variety() -> None:
    mine = apply_overrides(load_sheet("cherry tomato"), {"development.set_out_days": 48}, "this garden")
    assert float(mine.development.set_out_days or 0) == 48
    assert mine.variety == "cherry"
    own = mine.development.set_out_days.own if mine.development.set_out_days else None
    assert own == load_sheet("tomato").development.set_out_days


def faults_of(addition: str, crop: str = "onion") -> dict[str, Fault]:
    text = (FOLDER / f"{crop}.toml").read_text(encoding="utf-8")
    with pytest.raises(InputFileError) as caught:
        read_sheet(f"{text}\n{addition}\n", f"{crop}.toml")
    return {fault.where: fault for fault in caught.value.faults}


@pytest.mark.parametrize(
    ("addition", "where", "said"),
    [
        ('[variety.x]\nnote = "x"\nnmes = ["y"]', "variety.x.nmes", "names"),
        ("[variety.x]", "variety.x.note", "sentence"),
        ('[variety.x]\nnote = "x"\nnames = "y"', "variety.x.names", "list"),
        ('[variety.x]\nnote = "x"\nway = "sets"', "variety.x.way", "unknown"),
        ('[method.x]\nnote = "x"', "method.x.way", "sets"),
        ('[method.x]\nnote = "x"\nway = "tubers"', "method.x.way", "raised, sets, direct"),
        (
            '[variety.x]\nnote = "x"\n"development.redy_days" = { value = 4, class = "common-practice" }',
            "variety.x.development.redy_days",
            "ready_days",
        ),
        (
            '[variety.x]\nnote = "x"\n"development.ready_days" = 60',
            "variety.x.development.ready_days",
            "receipt",
        ),
        (
            '[variety.x]\nnote = "x"\n"development.ready_days" = { value = 90, class = "published" }',
            "variety.x.development.ready_days.source",
            "nothing",
        ),
        (
            '[variety.x]\nnote = "x"\n"development.ready_days" = { value = 900, class = "common-practice" }',
            "variety.x.development.ready_days.value",
            "5 to 400",
        ),
        (
            '[variety.x]\nnote = "x"\n"development.ready_days" = { value = 60, class = "common-practice" }',
            "variety.x.development.set_out_days",
            "71.4",
        ),
        (
            '[method.x]\nway = "sets"\nnote = "x"\n'
            '"development.set_out_days" = { value = 60, class = "common-practice" }',
            "development.set_out_days",
            "set out",
        ),
    ],
)
def test_each_fault_of_a_form_is_named(addition: str, where: str, said: str) -> None:
    faults = faults_of(addition)
    assert where in faults
    assert said in str(faults[where])


def test_a_form_that_is_no_table() -> None:
    text = (FOLDER / "carrot.toml").read_text(encoding="utf-8")
    with pytest.raises(InputFileError, match="variety"):
        read_sheet("variety = 3\n" + text.split("\n[variety.")[0], "carrot.toml")


def test_bulbs_answer_to_the_day_length_of_their_kind() -> None:
    gates = [
        load_sheet("onion", variety=kind).development for kind in ("short-day", "intermediate", "long-day")
    ]
    full = [float(gate.saturating_h or 0) for gate in gates]
    assert full == sorted(full)
    assert full[0] <= 12 <= full[1] <= 14 <= full[2]


def test_numbers_of_forms_go_the_way_growers_know() -> None:
    def ready(name: str) -> float:
        return float(load_sheet(name).development.ready_days)

    def kills(name: str) -> float:
        return float(load_sheet(name).frost.kill_c)

    assert ready("early potato") < ready("potato") < ready("main potato")
    assert ready("early tomato") < ready("cherry tomato") < ready("tomato") < ready("large tomato")
    assert ready("early sweet corn") < ready("sweet corn") < ready("late sweet corn")
    assert ready("baby lettuce") < ready("lettuce")
    assert kills("savoy") < kills("late cabbage") < kills("cabbage")
    assert kills("curly kale") < kills("Russian kale") < kills("cavolo nero")
    assert kills("winter leek") < kills("leek") < kills("summer leek")
    assert kills("autumn broad bean") < kills("broad bean")


def test_paths_of_forms_are_fields() -> None:
    for _, form in FORMS:
        assert all(path in by_path() or path.startswith("development.stages.") for path in form.values)
