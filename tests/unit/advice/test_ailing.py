"""The differential on invented troubles: priors, fit, questions, reasons."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from spadework.advice.ailing.ask_next import information, next_sign
from spadework.advice.ailing.differential import differ
from spadework.advice.ailing.evidence import Evidence, Heard
from spadework.advice.ailing.matching import Matcher
from spadework.advice.ailing.prior import OTHER
from spadework.advice.ailing.verdict import (
    before_dark,
    causes_of,
    keep_or_pull,
    to_laboratory,
    urgent_for_neighbours,
)
from spadework.advice.circumstances import Here, Hold
from troubles_made import ALL, CRAWLER, HOPPER, MOULD, ROOT_EATER, SIGNS, made, told

KALE = Here(crop="kale", family="Brassicaceae", age="young")


def _found(**looks: Any) -> Evidence:
    return Evidence(looks={key.replace("_", "-"): look for key, look in looks.items()})


def test_nothing_found_leaves_what_was_likely_before() -> None:
    state = differ(KALE, Evidence(), ALL, SIGNS)
    assert state.chances == pytest.approx(state.before)


def test_what_lives_elsewhere_is_hardly_likely_and_says_so() -> None:
    away = replace(KALE, away=frozenset({"root-eater"}))
    state = differ(away, Evidence(), ALL, SIGNS)
    assert state.before["root-eater"] < 0.1 * differ(KALE, Evidence(), ALL, SIGNS).before["root-eater"]
    found = differ(away, _found(maggots="yes"), [ROOT_EATER], SIGNS)
    cause = next(each for each in causes_of(found) if each.cause == "root-eater")
    assert "It is not known to live in this part of the world." in cause.against


def test_the_trouble_of_another_crop_drops_out() -> None:
    assert "onion-eater" not in differ(KALE, _found(wilts="yes"), ALL, SIGNS).chances


def test_the_sign_tells_its_cause() -> None:
    state = differ(KALE, _found(maggots="yes"), ALL, SIGNS)
    assert state.ranked[0] is ROOT_EATER
    assert state.chances["root-eater"] > 0.8


def test_a_sign_not_there_speaks_against_what_shows_it() -> None:
    state = differ(KALE, _found(round_holes="no"), ALL, SIGNS)
    assert state.chances["hopper"] < state.before["hopper"] / 3


def test_what_cannot_be_told_changes_nothing() -> None:
    state = differ(KALE, _found(round_holes="unknown"), ALL, SIGNS)
    assert state.chances == pytest.approx(state.before)


def test_something_else_grows_as_signs_fit_badly() -> None:
    well = differ(KALE, _found(round_holes="yes"), [HOPPER], SIGNS)
    badly = differ(KALE, _found(round_holes="no", fuzz="yes"), [HOPPER], SIGNS)
    assert well.other < well.before[OTHER] < badly.other
    assert badly.other > 0.5


def test_a_trouble_before_its_time_is_less_likely() -> None:
    late = Here(crop="kale", family="Brassicaceae", age="young", present={"hopper": 0.0})
    assert differ(late, Evidence(), ALL, SIGNS).chances["hopper"] < 0.05


def test_a_circumstance_counts_as_far_as_it_holds() -> None:
    favour = {"when": "dry spell", "times": told(4.0), "otherwise": 0.5}
    dry = made("dry-lover", {"yellow": 0.5}, favours=[favour])

    def chance(hold: Hold | None) -> float:
        here = Here(crop="kale", family="Brassicaceae", holds={} if hold is None else {"dry spell": hold})
        return differ(here, Evidence(), [dry, MOULD], SIGNS).chances["dry-lover"]

    assert chance(Hold(0.0)) < chance(None) < chance(Hold(0.5)) < chance(Hold(1.0))


def test_the_next_question_is_the_one_that_tells_most() -> None:
    state = differ(KALE, _found(yellow="yes"), ALL, SIGNS)
    sign = next_sign(state)
    assert information(state, sign) == max(information(state, each) for each in SIGNS if each != "yellow")
    assert next_sign(state, asked=6) == ""


def test_no_question_where_the_cause_is_clear() -> None:
    assert next_sign(differ(KALE, _found(maggots="yes", wilts="yes"), ALL, SIGNS)) == ""


def test_reasons_say_what_was_found_and_what_was_not() -> None:
    causes = causes_of(differ(KALE, _found(slime="yes", round_holes="no"), ALL, SIGNS))
    assert causes[0].cause == "crawler"
    assert any("trails of slime" in reason for reason in causes[0].reasons_for)
    assert any("small round holes" in reason for reason in causes[0].against)


def test_the_test_is_the_sheets_own_where_two_are_alike() -> None:
    alike = [{"trouble": "crawler", "test": "Touch it: it hops.", "class": "common-practice"}]
    hopper = made("hopper", {"round-holes": 0.9}, alike=alike)
    causes = causes_of(differ(KALE, _found(round_holes="yes"), [hopper, CRAWLER], SIGNS))
    assert causes[0].test == "Touch it: it hops."


def test_what_to_do_before_dark_comes_from_the_kit_there_is() -> None:
    remedies = [
        {"act": "cover with netting", "kit": "netting", "now": True, "class": "common-practice"},
        {"act": "pick them off", "now": True, "class": "common-practice"},
        {"act": "rotate", "class": "common-practice"},
    ]
    hopper = made("hopper", {"round-holes": 0.9}, remedies=remedies)
    state = differ(KALE, _found(round_holes="yes"), [hopper], SIGNS)
    assert [todo.act for todo in before_dark(state, {"netting"})] == ["Cover with netting.", "Pick them off."]
    assert [todo.act for todo in before_dark(state, set())] == ["Pick them off."]
    only = made("hopper", {"round-holes": 0.9}, remedies=remedies[:1])
    missing = before_dark(differ(KALE, _found(round_holes="yes"), [only], SIGNS), set())
    assert [todo.at_hand for todo in missing] == [False]


def test_neighbours_and_the_laboratory_are_told_where_it_matters() -> None:
    mould = made("mould", {"fuzz": 0.9}, neighbours="It blows far.", laboratory="Where it is the first.")
    state = differ(KALE, _found(fuzz="yes"), [mould, HOPPER], SIGNS)
    assert urgent_for_neighbours(state) == ("Mould: It blows far.",)
    assert to_laboratory(state) == ("Mould: Where it is the first.",)
    nothing = differ(KALE, _found(fuzz="yes", round_holes="no"), [HOPPER], SIGNS)
    assert "extension service" in to_laboratory(nothing)[-1]


def test_keep_or_pull_only_where_it_is_the_question() -> None:
    gone = made("rot", {"wilts": 0.9}, keep_or_pull="Pull what is soft.")
    found = keep_or_pull(differ(KALE, _found(wilts="yes"), [gone], SIGNS))
    assert found is not None
    assert found[1] == "Pull what is soft."
    assert keep_or_pull(differ(KALE, _found(round_holes="yes"), [HOPPER], SIGNS)) is None


# -- words -----------------------------------------------------------------------------------------

MATCHER = Matcher(SIGNS, ALL)


@pytest.mark.parametrize(
    ("said", "sign"),
    [
        ("small round holes", "round-holes"),
        ("there are tiny round hole everywhere", "round-holes"),
        ("slimy trails on everything", "slime"),
        ("the roots have grubs in them", "maggots"),
        ("grey mold on the berries", "fuzz"),
        ("leaves are yellowing", "yellow"),
        ("drooping and not recovering", "wilts"),
    ],
)
def test_words_are_matched_to_signs(said: str, sign: str) -> None:
    heard = MATCHER.hear(said)
    assert [each.signs[0][0] for each in heard if each.signs and each.there][:1] == [sign]


def test_no_before_a_sign_says_that_it_is_not_there() -> None:
    heard = MATCHER.hear("no slime trails")
    assert heard[0].signs[0][0] == "slime"
    assert not heard[0].there


def test_two_signs_in_one_sentence_are_both_heard() -> None:
    heard = MATCHER.hear("small round holes, and maggots in the root")
    assert [each.signs[0][0] for each in heard] == ["round-holes", "maggots"]


def test_a_trouble_called_by_its_name_is_heard() -> None:
    assert [each.trouble for each in MATCHER.hear("I saw a hopper")] == ["hopper"]


def test_healthy_parts_are_heard() -> None:
    assert [each.sound for each in MATCHER.hear("the leaves look healthy")] == ["leaf"]


def test_what_is_not_understood_gives_the_nearest() -> None:
    assert MATCHER.hear("purple elephants") == ()
    assert MATCHER.nearest("yellow something")[0] == "leaves turn yellow"


def test_a_look_settles_what_words_left_open() -> None:
    heard = Heard(words="holes", signs=(("round-holes", 0.6), ("slime", 0.4)))
    found = Evidence(heard=(heard,))
    assert found.looked("round-holes", "no").still_heard[0].signs == (("slime", 1.0),)
    assert found.looked("slime", "yes").still_heard == ()
