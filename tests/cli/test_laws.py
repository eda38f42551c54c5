"""The laws on the command line, against published numbers and common practice."""

from __future__ import annotations

from typing import Any

import pytest


def law(ask: Any, line: str) -> dict[str, Any]:
    said = ask("law", *line.split(), "--json")
    assert (said.code, said.err) == (0, "")
    found: dict[str, Any] = said.json
    assert list(found)[:3] == ["law", "inputs", "result"]
    assert found["law"] == line.split()[0]
    assert found["sources"]
    result: dict[str, Any] = found["result"]
    return result


def test_the_list_of_laws(ask: Any) -> None:
    listed = {entry["law"]: entry for entry in ask("law", "--json").json}
    assert set(listed) >= {
        "emergence-days",
        "emergence-percent",
        "degree-days",
        "day-length",
        "extraterrestrial-radiation",
        "et0",
    }
    spoken = ask("law").out
    for name, entry in listed.items():
        assert name in spoken
        assert entry["says"]
        assert all({"name", "needed", "meaning"} == set(blank) for blank in entry["inputs"])
    needed = [blank["name"] for blank in listed["emergence-days"]["inputs"] if blank["needed"]]
    assert needed == ["crop", "soil_c"]


def test_uccle_in_july(ask: Any) -> None:
    """FAO-56, example 18."""
    found = law(
        ask,
        "et0 tmin_c=12.3 tmax_c=21.5 lat=50.8 date=2023-07-06 elevation_m=100 rh_max=84 rh_min=63 "
        "wind_m_s=2.7778 wind_height_m=10 sunshine_h=9.25",
    )
    assert found["mm_day"] == pytest.approx(3.88, abs=0.02)
    assert "Penman" in found["method"]
    assert found["wind_2m_m_s"] == pytest.approx(2.078, abs=0.002)
    assert found["solar_mj_m2"] == pytest.approx(22.07, abs=0.02)


def test_lyon_without_humidity_radiation_or_wind(ask: Any) -> None:
    """FAO-56, example 20."""
    found = law(ask, "et0 tmin_c=14.8 tmax_c=26.6 lat=45.72 date=2023-07-15 elevation_m=200")
    assert found["mm_day"] == pytest.approx(4.56, abs=0.03)


def test_day_length_at_45_north(ask: Any) -> None:
    found = law(ask, "day-length lat=45 date=2023-06-21")
    assert found["geometric_h"] == pytest.approx(15.42, abs=0.08)
    assert found["sunrise_to_sunset_h"] == pytest.approx(15.62, abs=0.08)
    assert 0.1 < found["sunrise_to_sunset_h"] - found["geometric_h"] < 0.4


def test_radiation_above_the_air_at_20_south(ask: Any) -> None:
    """FAO-56, example 8."""
    found = law(ask, "extraterrestrial-radiation lat=-20 date=2023-09-03")
    assert found["mj_m2_day"] == pytest.approx(32.2, abs=0.05)


@pytest.mark.parametrize(
    ("method", "cutoff", "expected"),
    [
        ("single-sine", "horizontal", 10.940),
        ("single-triangle", "horizontal", 11.136),
        ("single-sine", "vertical", 4.541),
        ("single-sine", "intermediate", 9.540),
    ],
)
def test_degree_days_of_a_hot_day(method: str, cutoff: str, expected: float, ask: Any) -> None:
    line = f"degree-days tmin_c=7 tmax_c=40 lower_c=12 upper_c=33 method={method} cutoff={cutoff}"
    assert law(ask, line)["degree_days_c"] == pytest.approx(expected, abs=0.001)


@pytest.mark.parametrize(
    ("method", "expected"), [("average", 0.0), ("modified-average", 4.0), ("single-sine", 2.546)]
)
def test_degree_days_near_the_threshold(method: str, expected: float, ask: Any) -> None:
    line = f"degree-days tmin_c=2 tmax_c=18 lower_c=10 method={method} cutoff=none"
    assert law(ask, line)["degree_days_c"] == pytest.approx(expected, abs=0.001)


def test_seed_that_will_not_come_up(ask: Any) -> None:
    found = law(ask, "emergence-days crop=lettuce soil_c=38")
    assert found["days"] is None
    assert isinstance(found["reason"], str)
    spoken = ask("law", "emergence-days", "crop=lettuce", "soil_c=38").out
    assert "will not happen" in spoken
    assert found["reason"].split()[0] in spoken


def days(ask: Any, crop: str, soil_c: float, depth_mm: float = 13.0) -> float:
    found = law(ask, f"emergence-days crop={crop} soil_c={soil_c} depth_mm={depth_mm}")["days"]
    assert found is not None
    return float(found)


def percent(ask: Any, crop: str, soil_c: float) -> float:
    return float(law(ask, f"emergence-percent crop={crop} soil_c={soil_c}")["percent"])


def test_parsnip_emerges_poorly_from_warm_soil(ask: Any) -> None:
    assert percent(ask, "parsnip", 15) > 75
    assert percent(ask, "parsnip", 30) < 0.7 * percent(ask, "parsnip", 15)
    assert percent(ask, "parsnip", 35) < 10
    assert days(ask, "parsnip", 30) > 1.5 * days(ask, "parsnip", 20)


def test_carrot_takes_weeks_in_cold_soil(ask: Any) -> None:
    assert days(ask, "carrot", 5) > 35
    assert days(ask, "carrot", 8) > 17
    assert days(ask, "carrot", 20) < 10


@pytest.mark.parametrize("crop", ["bush-bean", "pole-bean", "lima-bean"])
def test_beans_fail_in_cold_soil(crop: str, ask: Any) -> None:
    assert percent(ask, crop, 8) < 20
    assert percent(ask, crop, 25) > 70


@pytest.mark.parametrize("crop", ["spinach", "lettuce"])
def test_spinach_and_lettuce_fail_in_hot_soil(crop: str, ask: Any) -> None:
    assert percent(ask, crop, 10) > 70
    assert percent(ask, crop, 32) < 0.4 * percent(ask, crop, 10)
    assert percent(ask, crop, 36) < 5


def test_deeper_seed_takes_longer(ask: Any) -> None:
    assert days(ask, "carrot", 10, 40) > days(ask, "carrot", 10, 13) > days(ask, "carrot", 10, 5)
    assert days(ask, "carrot", 10) == days(ask, "carrot", 10, 13)


def test_every_sheet_answers_both_emergence_laws(ask: Any) -> None:
    for entry in ask("sheets", "--json").json:
        detail = ask("sheet", entry["key"], "--json").json
        fields = {value["field"]: value["value"] for value in detail["values"]}
        if "emergence.sum_cd" not in fields:
            continue
        optimum = fields["emergence.optimum_c"]
        assert 1.0 < days(ask, entry["key"], optimum - 3.0) < 80.0
        assert percent(ask, entry["key"], optimum - 3.0) > 40.0


def test_a_law_is_spoken_with_its_sources(ask: Any) -> None:
    blanks = ("tmin_c=12.3", "tmax_c=21.5", "lat=50.8", "date=2023-07-06", "elevation_m=100")
    spoken = ask("law", "et0", *blanks).out
    assert "published: Allen, Pereira, Raes, Smith 1998" in spoken
    assert "tmin_c 12.3" in spoken
