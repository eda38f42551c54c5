"""Lines read in an invented garden (tests/line_garden.py): what is understood, asked and left over."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from functools import cache
from typing import Any

import msgspec
import pytest

from line_garden import TODAY, line_garden
from spadework.garden.state import Garden
from spadework.usecases.keep_book import Act
from spadework.usecases.line.lexicon import Lexicon, lexicon_of
from spadework.usecases.line.marking import Manner
from spadework.usecases.line.read import Reading, read_line

METRIC = Manner(TODAY)
US = Manner(TODAY, fahrenheit=True, us_gallon=True, month_first=True)


@cache
def garden() -> Garden:
    return line_garden()


@cache
def lexicon() -> Lexicon:
    return lexicon_of(garden())


def read(line: str, manner: Manner = METRIC, **more: str) -> Reading:
    return read_line(line, garden(), manner, lexicon=lexicon(), **more)


def told(act: Act) -> dict[str, Any]:
    found: dict[str, Any] = msgspec.to_builtins(act.payload)
    return found


def one(line: str, manner: Manner = METRIC, **more: str) -> tuple[Act, dict[str, Any]]:
    reading = read(line, manner, **more)
    assert not reading.questions, reading.questions
    assert len(reading.acts) == 1, reading.acts
    return reading.acts[0], told(reading.acts[0])


@pytest.mark.parametrize(
    ("line", "kind", "bed", "fields"),
    [
        ("picked 2 kg kale", "picked", "bed-6", {"kg": 2.0}),
        ("two pounds of rhubarb", "picked", "bed-12", {"kg": 0.907}),
        ("12 cukes, tunnel", "picked", "tunnel", {"pieces": 12}),
        ("cut a lettuce", "picked", "bed-1", {"pieces": 1}),
        ("parsnips thinned to 15cm, took out 40", "thinned", "bed-12", {"removed": 40, "spacing_cm": 15.0}),
        ("thinned the beets, left 60", "thinned", "bed-3", {"left": 60}),
        ("sowed dill from dill-26 in the herb tub", "sown", "herb-tub", {"lot": "dill-26", "crop": "dill"}),
        ("planted 50 onion sets in bed 8", "sown", "bed-8", {"method": "sets", "seeds": 50}),
        (
            "planted out 20 kale in bed 8, 45 cm apart",
            "planted out",
            "bed-8",
            {"plants": 20, "spacing_cm": 45.0},
        ),
        ("tunnel min 6 max 31", "thermometer", "tunnel", {"place": "tunnel", "min_c": 6.0, "max_c": 31.0}),
        (
            "soil 14C at 5 cm in bed 3",
            "thermometer",
            "bed-3",
            {"place": "soil", "now_c": 14.0, "depth_cm": 5.0},
        ),
        ("quarter of an inch of rain", "rain gauge", "", {"rain_mm": 6.35}),
        ("handful from bed 4 held together", "soil felt", "bed-4", {"squeeze": "holds"}),
        (
            "blight on 3 of the 12 tomatoes",
            "seen",
            "tunnel",
            {"what": "blight", "plants": 3, "of_plants": 12},
        ),
        ("bird net on the peas", "cover", "bed-8", {"act": "on", "item": "bird netting"}),
        ("closed the tunnel at 7pm", "cover", "tunnel", {"act": "shut", "hour": 19.0}),
        ("put 5 cm of compost on bed 8", "tended", "bed-8", {"act": "mulched", "depth_cm": 5.0}),
        (
            "fresh horse manure dug into bed 8",
            "amended",
            "bed-8",
            {"state": "raw", "material": "horse manure"},
        ),
        ("sprayed bed 11 with soap, label 1 day", "treated", "bed-11", {"product": "soap", "label_days": 1}),
        ("garlic hung up to dry in the shed", "kept", "bed-4", {"act": "cured", "where": "shed"}),
        ("the lettuces in bed 1 have bolted", "stage", "bed-1", {"what": "bolting", "reached": True}),
        ("half the runner beans are up", "stage", "bed-10", {"what": "up", "test": "half"}),
        ("no time to hoe bed 7", "skipped", "bed-7", {"job": "hoeing"}),
        ("bed 9 had potatoes last year", "stood", "bed-9", {"crop": "potato", "year": 2025}),
        (
            "new bed 13, 1.2 x 3 m, raised",
            "bed",
            "bed-13",
            {"name": "Bed 13", "width_m": 1.2, "length_m": 3.0},
        ),
        ("bought 2 hoops", "kit", "", {"item": "hoops", "pieces": 26}),
        (
            "18 of 20 radish-26 seeds came up",
            "seed lot",
            "",
            {"lot": "radish-26", "germinated": 18, "tested": 20},
        ),
        ("leeks 8 mm across", "measured", "bed-5", {"width_mm": 8.0}),
        ("weather lovely", "note", "", {"text": "weather lovely"}),
    ],
)
def test_kinds_of_lines(line: str, kind: str, bed: str, fields: dict[str, Any]) -> None:
    act, payload = one(line)
    assert (payload["kind"], act.bed) == (kind, bed)
    assert {name: payload.get(name) for name in fields} == fields


@pytest.mark.parametrize(
    ("line", "kinds"),
    [
        ("cat dug up bed 7", ["seen"]),
        ("took the mesh off the cabbages for weeding", ["cover"]),
        ("lifted the fleece off bed 7", ["cover"]),
        ("copper on the potatoes against blight, 21 days before harvest", ["treated"]),
        ("cut down the broad beans and composted them", ["ended"]),
        ("pulled every other beetroot, 25 of them", ["thinned"]),
        ("potatoes put in sacks, 25 kg", ["kept"]),
        ("dug down a finger, bed 9 still damp", ["soil felt"]),
        ("drip ran in the tunnel from 6 to 7am", ["watered"]),
        ("horse manure, well rotted, 2 barrowloads on bed 10", ["amended"]),
        ("3/4 inch rain", ["rain gauge"]),
        ("moved the fleece from bed 7 to bed 11", ["cover", "cover"]),
    ],
)
def test_what_an_act_is_not_mistaken_for(line: str, kinds: list[str]) -> None:
    assert [told(act)["kind"] for act in read(line).acts] == kinds


def test_a_number_takes_the_unit_before_it_only_for_the_same_thing() -> None:
    acts = read("harvested courgettes 1.1 kg, cucumbers 4").acts
    assert [(told(act)["kg"], told(act)["pieces"]) for act in acts] == [(1.1, None), (None, 4)]


def test_not_up_yet_is_a_stage_not_reached() -> None:
    act, payload = one("carrots in bed 7 not up yet")
    assert (act.planting, payload["what"], payload["reached"]) == ("carrot-2026-2", "up", False)


def test_a_lock_never_ends_before_it_begins() -> None:
    assert one("keep off bed 4 until the 20th")[1]["until"] == "2026-06-20"
    assert one("don't pick from bed 4 till Friday")[1]["until"] == "2026-06-19"


def test_a_crop_that_stands_once_brings_its_bed_and_planting() -> None:
    act, _ = one("thinned beetroot")
    assert (act.bed, act.planting) == ("bed-3", "beet-2026-1")


def test_of_two_plantings_one_is_asked_for_and_the_answer_taken() -> None:
    reading = read("thinned carrots")
    assert [question.found for question in reading.questions] == ["Which carrots: Bed 3 or Bed 7?"]
    assert reading.acts == ()
    assert one("thinned carrots", bed="bed-7")[0].planting == "carrot-2026-2"
    assert one("thinned carrots", planting="carrot-2026-1")[0].bed == "bed-3"
    assert [act.bed for act in read("thinned carrots", bed="all").acts] == ["bed-3", "bed-7"]


def test_what_cannot_be_is_not_asked() -> None:
    """Seedlings in a tray are not picked, plants in a bed not pricked out, two weeks make no carrot."""
    assert one("picked 3 lettuces")[0].bed == "bed-1"
    assert one("pricked out 20 lettuces")[0].bed == "seed-shelf"
    assert one("picked a bunch of carrots")[0].bed == "bed-3"


def test_a_variety_or_a_sowing_decides() -> None:
    assert one("thinned the Nantaise to 4 cm")[0].planting == "carrot-2026-1"
    assert one("thinned the second sowing of carrots")[0].planting == "carrot-2026-2"


@pytest.mark.parametrize(
    "line",
    [
        "watered",
        "picked 5",
        "picked beans",
        "watered bed 20",
        "sowed carrots",
        "same again",
        "lost some beetroot",
        "watered leeks and onions 20 l",
        "picked kale in bed 3",
        "planted lettuce",
    ],
)
def test_what_is_truly_open_is_asked(line: str) -> None:
    reading = read(line)
    assert reading.questions
    assert reading.acts == ()


def test_several_acts_several_beds_and_who() -> None:
    reading = read("Ben weeded beds 4 and 5 and Kim opened the tunnel")
    assert [(act.author, act.bed) for act in reading.acts] == [
        ("ben", "bed-4"),
        ("ben", "bed-5"),
        ("kim", "tunnel"),
    ]


def test_each_place_may_have_its_own_day_and_amount() -> None:
    acts = read("watered bed 1 yesterday and bed 2 today").acts
    assert [(act.bed, act.on) for act in acts] == [("bed-1", date(2026, 6, 14)), ("bed-2", TODAY)]
    acts = read("10 litres on the leeks, 5 on the onions").acts
    assert [(act.bed, told(act)["litres"]) for act in acts] == [("bed-5", 10.0), ("bed-4", 5.0)]


def test_beds_left_out_are_left_out() -> None:
    beds = {act.bed for act in read("weeded all the beds except bed 3").acts}
    assert "bed-3" not in beds
    assert len(beds) == 12


def test_time_taken_is_an_entry_of_its_own() -> None:
    acts = read("Ann and Kim spent 30 minutes clearing bed 8").acts
    assert [told(act)["kind"] for act in acts] == ["ended", "minutes"]
    assert told(acts[1])["minutes"] == 30
    assert told(acts[1])["people"] == 2


def test_half_is_not_all() -> None:
    reading = read("lost half the leeks to rust")
    assert told(reading.acts[0])["plants"] == 30
    assert reading.taken == ("half taken as 30 plants",)


def test_wilting_has_its_hour_and_its_morning() -> None:
    _, payload = one("tomatoes limp at 2pm yesterday, fine again by this morning")
    assert (payload["hour"], payload["gone_by_morning"]) == (14.0, True)
    _, payload = one("courgettes wilting at 4pm, still wilted this morning")
    assert payload["gone_by_morning"] is False


@pytest.mark.parametrize(
    "line",
    [
        "need to water the tunnel tomorrow",
        "going to pick peas if it dries",
        "can we grow melons in the tunnel?",
        "I should thin the beetroot",
    ],
)
def test_what_is_only_planned_is_a_note(line: str) -> None:
    assert one(line)[1]["kind"] == "note"


def test_a_lock_told_in_a_line() -> None:
    act, payload = one("please don't pick from bed 2 until Friday 26 June, sprayed")
    assert (act.bed, act.on) == ("bed-2", TODAY)
    assert (payload["kind"], payload["stops"], payload["until"]) == ("locked", "picking", "2026-06-26")


def test_units_of_the_garden() -> None:
    assert told(read("tunnel 86 at 2pm", US).acts[0])["now_c"] == 30.0
    assert told(read("tunnel 30 at 2pm").acts[0])["now_c"] == 30.0
    assert told(read("a gallon on the leeks", US).acts[0])["litres"] == 3.79
    assert told(read("a gallon on the leeks").acts[0])["litres"] == 4.55
    assert read("6/5 hoed bed 1", US).acts[0].on == date(2026, 6, 5)
    assert read("6/5 hoed bed 1").acts[0].on == date(2026, 5, 6)


def test_mistyped_words_are_taken_and_said() -> None:
    reading = read("wateerd the tomatos in the tunel")
    assert told(reading.acts[0])["kind"] == "watered"
    assert "wateerd taken as watered" in reading.taken


@pytest.mark.parametrize(
    "line", ["robin singing in the hedge", "wedding on the lawn", "Walter came by with the speed boat"]
)
def test_english_is_not_bent_into_garden_words(line: str) -> None:
    reading = read(line)
    assert reading.taken == ()
    assert told(reading.acts[0])["kind"] == "note"


def test_what_was_not_used_is_said() -> None:
    assert read("picked 2 kg kale, cloudy and mild").unused == "cloudy mild"


def test_the_south_and_another_day_make_no_difference_to_words() -> None:
    act, _ = one("hoed bed 9 three days ago", replace(METRIC, today=date(2026, 1, 2)))
    assert act.on == date(2025, 12, 30)


@pytest.mark.parametrize(
    ("line", "expected"),
    [
        ("parsnips have come thru", {"kind": "stage", "what": "up"}),
        ("stuck a finger in bed 5, dry", {"kind": "soil felt", "finger": "dry"}),
        ("took up a handful in bed 9 and it crumbled", {"kind": "soil felt", "squeeze": "crumbles"}),
        ("45 mins. Bed 3.", {"kind": "minutes", "minutes": 45.0}),
        ("2 kg of peas gone into the freezer", {"kind": "kept", "act": "stored", "where": "freezer"}),
        ("yanked 30 carrot seedlings in bed 3", {"kind": "thinned", "removed": 30}),
        ("took out 20 of the beetroot and left one every 10 cm", {"kind": "thinned", "spacing_cm": 10.0}),
        ("something has had 4 of the cabbages", {"kind": "ended", "how": "lost", "plants": 4}),
        ("3 cabbages gone to slugs", {"kind": "ended", "how": "lost", "plants": 3}),
        ("a pot has turned up so that's Tub 6 now, 40 cm across", {"kind": "bed", "name": "Tub 6"}),
        ("cabbages, 3 gone, pigeons", {"kind": "ended", "how": "lost", "plants": 3}),
        ("nobody pick the kale until I say", {"kind": "locked", "stops": "picking", "until": None}),
        ("two 3 m rows of turnips in bed 7", {"kind": "sown", "rows": 2, "row_length_m": 3.0}),
        ("8 radish seeds from radish-26 in tub 4", {"kind": "sown", "seeds": 8, "lot": "radish-26"}),
        (
            "pea seed came by post, Hollow Wonder, 2026, 200 seeds",
            {"kind": "seed lot", "variety": "Hollow Wonder"},
        ),
        ("picked 2 kg, make that 3 kg of rhubarb", {"kind": "picked", "kg": 3.0}),
        ("picked 500 g of kale, fair but holey", {"kind": "picked", "quality": "fair"}),
        ("half nine last night, slugs on the kale", {"kind": "seen", "hour": 21.5}),
        ("kale wilting 3 in the afternoon", {"kind": "seen", "hour": 15.0}),
        ("min of -2 in bed 9 at 4 o'clock", {"kind": "thermometer", "hour": 4.0}),
    ],
)
def test_what_is_told_in_passing(line: str, expected: dict[str, Any]) -> None:
    reading = read(line)
    assert [question.found for question in reading.questions] == []
    assert len(reading.acts) == 1
    found = told(reading.acts[0])
    assert {field: found[field] for field in expected} == expected


def test_an_hour_and_minutes_without_a_word_for_them() -> None:
    found = [told(act) for act in read("weeded bed 5, 1 hr 15").acts]
    assert [each["minutes"] for each in found if each["kind"] == "minutes"] == [75.0]


def test_an_appointment_does_not_date_an_entry() -> None:
    assert [act.on for act in read("Talk at the hall Friday at 7").acts] == [TODAY]
    assert [act.on for act in read("fox was about Friday at 7").acts] == [date(2026, 6, 12)]


def test_manure_dug_in_names_no_crop_of_the_bed() -> None:
    (act,) = read("dug 2 barrows of old manure into bed 12").acts
    assert (told(act)["kind"], act.bed, act.planting) == ("amended", "bed-12", "")


def test_what_is_moved_in_is_covered_where_it_now_stands() -> None:
    acts = read("moved 10 kale into bed 7 and fleeced them").acts
    assert [(told(act)["kind"], act.bed) for act in acts] == [("planted out", "bed-7"), ("cover", "bed-7")]


@pytest.mark.parametrize("line", ["Sprayed.", "Watered.", "6 leeks gone"])
def test_too_little_is_asked_about(line: str) -> None:
    reading = read(line)
    assert reading.questions
    assert not reading.acts


def test_a_row_that_stands_already_is_not_sown_again() -> None:
    (act,) = read("one 3 m row of carrots in bed 3, looking good").acts
    assert told(act)["kind"] == "note"


def test_the_same_again_is_the_amount_just_said() -> None:
    acts = read("Leeks had 12 litres on Friday and the same again this morning").acts
    assert [(act.on, told(act)["litres"]) for act in acts] == [(date(2026, 6, 12), 12.0), (TODAY, 12.0)]
    assert {act.bed for act in acts} == {"bed-5"}


def test_what_is_meant_to_be_done_is_not_done() -> None:
    assert [told(act)["kind"] for act in read("i mean to pick the peas").acts] == ["note"]


def test_plants_swapped_for_are_no_seed() -> None:
    acts = read("swapped for some courgette plants, planted 2 in bed 9").acts
    assert [told(act)["kind"] for act in acts] == ["planted out"]
