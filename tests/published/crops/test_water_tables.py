"""Water numbers of the sheets against FAO Irrigation and Drainage Paper 56.

Source: Allen, R.G., Pereira, L.S., Raes, D. & Smith, M. (1998), Crop evapotranspiration (FAO56): crop
coefficients of Table 12, basal ones of Table 17, rooting depth and depletion of Table 22, lengths of stages
of Table 11, in the files beside this one. A sheet whose crop the paper does not list borrows a row, and
names it.
"""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from spadework.crops import all_sheets, find, load_sheet
from spadework.crops.sheet import Value

HERE = Path(__file__).parent


def table(name: str) -> list[dict[str, str]]:
    with (HERE / name).open(encoding="utf-8") as file:
        return list(csv.DictReader(file))


PRINTED = {row["crop"]: row for row in table("fao56_tables.csv")}
STAGES = table("fao56_stages.csv")


def cited() -> list[tuple[str, str, Value]]:
    """Every water number of every sheet that names the paper."""
    return [
        (key, name, value)
        for key, sheet in all_sheets().items()
        for name in sheet.water.__dataclass_fields__
        if (value := getattr(sheet.water, name)) is not None and "FAO56" in value.sources
    ]


def row_of(key: str, value: Value) -> dict[str, str]:
    """The printed row that stands behind a value: its crop's own, or the one its note names."""
    while key not in PRINTED:
        told = value.note.removeprefix("row of ").split(",")[0]
        key, value = find(told), load_sheet(find(told)).water.kc_mid
    return PRINTED[key]


@pytest.mark.parametrize(
    ("key", "name", "value"), cited(), ids=lambda part: part if isinstance(part, str) else ""
)
def test_what_names_the_paper_is_what_it_prints(key: str, name: str, value: Value) -> None:
    if value.provenance == "memory":
        assert (key, name) == ("lima-bean", "roots_m")
        return
    row = row_of(key, value)
    if name == "roots_m":
        low, high = float(row["roots_low_m"]), float(row["roots_high_m"])
        assert (value.low, value.high) == (low, high)
        assert value.value == pytest.approx((low + high) / 2)
    else:
        assert value.value == float(row[name])
    assert value.provenance == ("published" if key in PRINTED else "common-practice")


def test_most_crops_have_a_row_of_their_own() -> None:
    own = {key for key, name, value in cited() if name == "kc_mid" and value.provenance == "published"}
    assert own == set(PRINTED)
    assert len(own) == 37
    assert {key for key, name, _ in cited() if name == "kc_mid"} == set(all_sheets())


def test_full_cover_comes_when_the_development_stage_ends() -> None:
    checked = 0
    for key, sheet in all_sheets().items():
        value = sheet.room.cover_from
        if value is None:
            continue
        shares = [
            (float(row["initial"]) + float(row["development"])) / float(row["total"])
            for row in STAGES
            if row["crop"] == key
        ]
        assert value.value == pytest.approx(shares[0], abs=0.005)
        if len(shares) > 1:
            assert (value.low, value.high) == (
                pytest.approx(min(shares), abs=0.005),
                pytest.approx(max(shares), abs=0.005),
            )
        checked += 1
    assert checked >= 10


# Doorenbos, J. & Kassam, A.H. (1979), Yield response to water (FAO33), seasonal response factors, recalled.
RESPONSE = {
    "bush-bean": 1.15,
    "pole-bean": 1.15,
    "lima-bean": 1.15,
    "cabbage": 0.95,
    "onion": 1.1,
    "pea": 1.15,
    "pepper": 1.1,
    "potato": 1.1,
    "sunflower": 0.95,
    "sweet-corn": 1.25,
    "tomato": 1.05,
    "watermelon": 1.1,
}


def test_yield_response_is_as_recalled_and_says_so() -> None:
    found = {
        key: sheet.water.thirst_cost.value
        for key, sheet in all_sheets().items()
        if "FAO33" in sheet.water.thirst_cost.sources
    }
    assert found == RESPONSE
    assert all(load_sheet(key).water.thirst_cost.provenance == "memory" for key in found)


@pytest.mark.parametrize(
    ("plants_m2", "kg_m2"), [(25, 5.99), (40, 7.21), (60, 8.13), (80, 8.69), (100, 9.06), (150, 9.6)]
)
def test_onion_density_gives_the_fitted_yields(plants_m2: float, kg_m2: float) -> None:
    """Data of Ratkowsky, D.A. (1983), Purnong Landing; own fit, ln residual 0.085."""
    thin = load_sheet("onion").thin
    alpha, beta, theta = (
        float(value or 0) for value in (thin.density_alpha, thin.density_beta, thin.density_theta)
    )
    gram = (alpha + beta * plants_m2) ** (-1 / theta)
    assert gram * plants_m2 / 1000 == pytest.approx(kg_m2, rel=0.005)
