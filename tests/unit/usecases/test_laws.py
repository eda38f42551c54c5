"""Laws tried by hand: units, what is wrong said at once, and on whose word the answer rests."""

from __future__ import annotations

import re

import pytest

from spadework.errors import ParameterError, UnknownName
from spadework.usecases.law_book import LAWS
from spadework.usecases.laws import evaluate, find_law

EXAMPLES: dict[str, dict[str, str]] = {
    "emergence-days": {"crop": "carrot", "soil_c": "10"},
    "emergence-percent": {"crop": "carrot", "soil_c": "10"},
    "degree-days": {"tmin_c": "7", "tmax_c": "40", "lower_c": "12", "upper_c": "33"},
    "day-length": {"lat": "45", "date": "2023-06-21"},
    "extraterrestrial-radiation": {"lat": "-20", "date": "2023-09-03"},
    "et0": {"tmin_c": "12.3", "tmax_c": "21.5", "lat": "50.8", "date": "2023-07-06", "elevation_m": "100"},
    "development": {"crop": "tomato", "tmin_c": "12", "tmax_c": "25"},
    "leaf-frost": {"tmin_c": "1.5"},
    "air-at-hour": {"tmin_c": "8", "tmax_c": "22", "lat": "45", "date": "2023-06-21", "hour": "14"},
    "water-need": {"et0_mm": "4", "dry_days": "6", "roots_m": "0.4"},
    "seed-row-drying": {"et0_mm": "5", "lat": "45", "date": "2023-06-21"},
    "heat-index": {"temp_c": "32", "rh": "60"},
    "cover-gain": {"tmin_c": "1"},
    "tunnel-heat": {"tmin_c": "6", "tmax_c": "18", "lat": "45", "date": "2023-05-15"},
    "room-for-plants": {"plants_m2": "60"},
    "thinning-gain": {"plants_per_m": "80", "apart_cm": "5"},
    "hoed-weeds-die": {"et0_mm": "4"},
    "past-size": {"since_pick_cday": "60", "stays_good_cday": "40"},
    "uv-index": {"lat": "45", "date": "2023-06-21"},
    "insect-event": {"insect": "cabbage-maggot", "tmin_c": "8", "tmax_c": "18"},
    "wetness-severity": {"wet_h": "10", "wet_c": "22"},
    "late-blight-rule": {
        "tmin_first_c": "11",
        "humid_first_h": "7",
        "tmin_second_c": "10",
        "humid_second_h": "6",
    },
}


def result(law: str, **blanks: str) -> dict[str, float | str | None]:
    return evaluate(LAWS, law, blanks).result


def test_every_law_has_an_example_here() -> None:
    assert set(EXAMPLES) == set(LAWS)


@pytest.mark.parametrize("law", sorted(LAWS))
def test_every_law_answers_with_its_sources_and_inputs(law: str) -> None:
    found = evaluate(LAWS, law, EXAMPLES[law])
    assert found.law == law
    assert set(EXAMPLES[law]) <= set(found.inputs)
    assert any(isinstance(value, float) for value in found.result.values())
    assert found.sources
    classes = ("published", "memory", "common-practice", "measured", "computed", "grower")
    for source in found.sources:
        assert any(word in source.partition(" ")[0] or f": {word}" in source for word in classes), source


@pytest.mark.parametrize("law", sorted(LAWS))
def test_every_blank_missing_is_named_at_once(law: str) -> None:
    with pytest.raises(ParameterError) as caught:
        evaluate(LAWS, law, {})
    for blank in LAWS[law].blanks:
        if blank.needed and blank.default is None:
            assert f"{blank.name} is missing" in caught.value.message
            assert re.search(rf"(^|[ ,]){blank.name}\b", caught.value.hint)
        else:
            assert f"{blank.name} is missing" not in caught.value.message
            assert f"[{blank.name}]" in caught.value.hint


def test_all_that_is_wrong_is_said_at_once() -> None:
    with pytest.raises(ParameterError) as caught:
        evaluate(
            LAWS,
            "degree-days",
            {"tmin_c": "cold", "tmax_c": "400", "method": "guess", "uper_c": "30", "cutoff": "sharp"},
        )
    said = caught.value.message
    for part in (
        "tmin_c is 'cold'",
        "tmax_c is 400",
        "-60 to 60",
        "method is 'guess'",
        "single-sine",
        "'uper_c'",
    ):
        assert part in said
    assert "meant upper_c?" in said
    assert "lower_c is missing" in said
    assert "cutoff is 'sharp'" in said
    assert "horizontal" in said


def test_an_unknown_crop_stands_beside_what_else_is_wrong() -> None:
    with pytest.raises(UnknownName, match="carot") as alone:
        evaluate(LAWS, "emergence-days", {"crop": "carot", "soil_c": "10"})
    assert "carrot" in alone.value.hint
    with pytest.raises(ParameterError) as both:
        evaluate(LAWS, "emergence-days", {"crop": "carot", "soil_c": "warm"})
    assert "carot" in both.value.message
    assert "carrot" in both.value.message
    assert "soil_c is 'warm'" in both.value.message


@pytest.mark.parametrize("value", ["nan", "inf", "-inf", "1e9", ""])
def test_numbers_that_are_none_are_refused(value: str) -> None:
    with pytest.raises(ParameterError, match="soil_c"):
        evaluate(LAWS, "emergence-days", {"crop": "carrot", "soil_c": value})


@pytest.mark.parametrize(
    ("typed", "nearest"),
    [
        ("emergence-dys", "emergence-days"),
        ("degree-day", "degree-days"),
        ("daylength", "day-length"),
        ("et", "et0"),
    ],
)
def test_an_unknown_law_gets_the_nearest(typed: str, nearest: str) -> None:
    with pytest.raises(UnknownName) as caught:
        find_law(LAWS, typed)
    assert nearest in caught.value.hint


def test_a_law_nothing_is_near_to_points_to_the_list() -> None:
    with pytest.raises(UnknownName, match="spadework law"):
        find_law(LAWS, "qqqq")


@pytest.mark.parametrize("typed", ["emergence-days", "Emergence Days", "emergence_days", " EMERGENCE-DAYS "])
def test_a_laws_name_may_be_written_as_one_likes(typed: str) -> None:
    assert find_law(LAWS, typed).name == "emergence-days"


def test_fahrenheit_and_inches_give_the_same_answer() -> None:
    metric = result("emergence-days", crop="carrot", soil_c="10", depth_mm="25.4")
    assert result("emergence-days", crop="carrot", soil_f="50", depth_in="1") == metric


def test_feet_miles_and_kilometres_an_hour_give_the_same_answer() -> None:
    base = {"lat": "50.8", "date": "2023-07-06", "rh_max": "84", "rh_min": "63", "sunshine_h": "9.25"}
    metric = result(
        "et0", tmin_c="10", tmax_c="20", elevation_m="304.8", wind_m_s="4.4704", wind_height_m="3.048", **base
    )
    assert (
        result(
            "et0", tmin_f="50", tmax_f="68", elevation_ft="1000", wind_mph="10", wind_height_ft="10", **base
        )
        == metric
    )
    kmh = result(
        "et0",
        tmin_c="10",
        tmax_c="20",
        elevation_m="304.8",
        wind_kmh="16.09344",
        wind_height_m="3.048",
        **base,
    )
    assert kmh == metric


def test_a_range_is_checked_after_the_unit_is_turned() -> None:
    with pytest.raises(ParameterError, match="soil_c is 93"):
        result("emergence-days", crop="carrot", soil_f="200")
    assert result("emergence-days", crop="carrot", soil_f="60")["days"] is not None


def test_one_blank_in_two_units_is_given_twice() -> None:
    with pytest.raises(ParameterError, match="given twice"):
        result("emergence-days", crop="carrot", soil_c="10", soil_f="50")


def test_a_comma_and_a_percent_sign_are_understood() -> None:
    assert result("emergence-days", crop="carrot", soil_c="10,5") == result(
        "emergence-days", crop="carrot", soil_c="10.5"
    )
    humid = {"tmin_c": "12", "tmax_c": "22", "lat": "50", "date": "2023-07-06", "elevation_m": "0"}
    assert result("et0", rh_mean="70%", **humid) == result("et0", rh_mean="70", **humid)


@pytest.mark.parametrize("crop", ["courgette", "zucchini", "summer squash", "summer-squash"])
def test_a_crop_may_be_called_by_any_of_its_names(crop: str) -> None:
    found = evaluate(LAWS, "emergence-percent", {"crop": crop, "soil_c": "20"})
    assert found.inputs["crop"] == "summer-squash"


def test_seed_that_will_not_come_up_has_no_days_but_a_reason() -> None:
    for crop, soil in (("lettuce", "38"), ("tomato", "2"), ("bush-bean", "0")):
        found = result("emergence-days", crop=crop, soil_c=soil)
        assert found["days"] is None
        assert isinstance(found["reason"], str)
        assert found["reason"]
    assert result("emergence-days", crop="lettuce", soil_c="15")["reason"] is None


def test_without_an_upper_limit_nothing_is_cut_off() -> None:
    found = result("degree-days", tmin_c="7", tmax_c="40", lower_c="12")
    assert found["cutoff"] == "none"
    assert found == result("degree-days", tmin_c="7", tmax_c="40", lower_c="12", cutoff="none")
    limited = result("degree-days", tmin_c="7", tmax_c="40", lower_c="12", upper_c="33")
    assert limited["cutoff"] == "horizontal"
    with pytest.raises(ParameterError, match="upper"):
        result("degree-days", tmin_c="7", tmax_c="40", lower_c="12", cutoff="vertical")


def test_et0_says_what_it_stood_on() -> None:
    bare = {"tmin_c": "12.3", "tmax_c": "21.5", "lat": "50.8", "date": "2023-07-06", "elevation_m": "100"}
    plain = str(result("et0", **bare)["method"])
    assert "temperature range" in plain
    assert "2 m/s" in plain
    told = str(result("et0", **bare, sunshine_h="9.25", wind_m_s="2", rh_mean="70")["method"])
    assert "sunshine" in told
    assert "wind given" in told
    assert (
        str(result("et0", **bare, solar_mj_m2="20", sunshine_h="3")["method"]).count("radiation given") == 1
    )


def test_an_insect_comes_after_its_total() -> None:
    # 166.7 degree-days above 6.1 degC at a mean of 13: 6.9 a day (Eckenrode and Chapman 1972)
    found = result("insect-event", insect="cabbage-maggot", tmin_c="8", tmax_c="18")
    assert found["degree_days_a_day"] == 6.9
    assert found["total_cday"] == 166.7
    assert found["days_until"] == 25.0
    assert result("insect-event", insect="cabbage-maggot", tmin_c="0", tmax_c="4")["days_until"] is None
    with pytest.raises(ParameterError, match="events by warmth"):
        result("insect-event", insect="cabbage-maggot", tmin_c="8", tmax_c="18", which="20")
    with pytest.raises(ParameterError, match="no total of warmth"):
        result("insect-event", insect="spider-mite", tmin_c="8", tmax_c="18")


def test_late_blight_by_both_rules() -> None:
    given = EXAMPLES["late-blight-rule"]
    found = result("late-blight-rule", **given)
    assert str(found["alert"]).startswith("yes")
    assert found["by_the_older_rule"] == "no"
    assert result("late-blight-rule", **(given | {"tmin_second_c": "9.9"}))["alert"] == "no"
    longer = given | {"humid_first_h": "11", "humid_second_h": "12"}
    assert result("late-blight-rule", **longer)["by_the_older_rule"] == "yes"


def test_severity_of_a_wet_day() -> None:
    assert result("wetness-severity", wet_h="10", wet_c="22")["severity"] == 2.0
    assert result("wetness-severity", wet_h="24", wet_c="30")["in_words"] == "none"
