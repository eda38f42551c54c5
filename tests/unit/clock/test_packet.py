"""Packet days against the course they are run through."""

from __future__ import annotations

from datetime import date, timedelta

import numpy as np
import pytest

from grounds import champion_ground, soil_ground
from spadework.clock.course import set_out, sow
from spadework.clock.packet import (
    LATE_FROST_ODDS,
    MAIN_SOWING_C,
    convert,
    later_frost,
    raised_only,
    sowing_warmth_c,
    usual_start,
)
from spadework.clock.sprout import Sowing
from spadework.crops.loader import all_sheets, load_sheet

TODAY = date(2017, 11, 1)
MIDWINTER = 45
SPRING = champion_ground(date(2017, 11, 17), 45 + 210, TODAY)


@pytest.mark.parametrize("crop", ["carrot", "bush-bean", "lettuce", "potato", "sweet-corn"])
def test_the_courses_own_duration_gives_the_sheets_requirement(crop: str) -> None:
    """A packet that prints the days at which the years on average are ready means the sheet's requirement."""
    sheet = load_sheet(crop)
    column = usual_start(sheet, SPRING, MIDWINTER, "sowing")
    assert column is not None
    first = SPRING.dates[column].item()
    ground = champion_ground(first - timedelta(days=45), 45 + 250, TODAY)
    grown = np.maximum(sow(sheet, ground, Sowing(45)).grown_days, 0.0).mean(axis=0)
    days = float(np.interp(sheet.development.ready_days.value, grown[45:], np.arange(grown.size - 45)))
    found = convert(sheet, ground, 45, days, "sowing")
    assert found.best_days == pytest.approx(sheet.development.ready_days.value, rel=1e-3)
    assert found.ratio == pytest.approx(1.0, rel=1e-3)
    whole = convert(sheet, ground, 45, float(round(days)), "sowing")
    assert abs(whole.best_days - found.best_days) <= 0.5


def test_the_same_from_setting_out() -> None:
    sheet = load_sheet("tomato")
    column = usual_start(sheet, SPRING, MIDWINTER, "setting out")
    assert column is not None
    first = SPRING.dates[column].item()
    ground = champion_ground(first - timedelta(days=45), 45 + 250, TODAY)
    course = set_out(sheet, ground, 45)
    grown = np.maximum(course.grown_days - course.head_days, 0.0).mean(axis=0)
    days = float(np.interp(course.ready_days, grown[45:], np.arange(grown.size - 45)))
    assert convert(sheet, ground, 45, days, "setting out").ratio == pytest.approx(1.0, rel=1e-3)


def test_frost_keeps_tender_plants_in_and_later_days_are_safer() -> None:
    tomato, kale = load_sheet("tomato"), load_sheet("kale")
    last = MIDWINTER + 200
    tender, hardy = (later_frost(sheet, SPRING, last) for sheet in (tomato, kale))
    assert tender.shape == (last,)
    assert np.all(np.diff(tender) <= 1e-12)
    assert np.all(tender >= hardy - 1e-12)
    column = usual_start(tomato, SPRING, MIDWINTER, "setting out")
    assert column is not None
    assert tender[column] < LATE_FROST_ODDS


def test_every_sheet_has_a_usual_day_on_the_high_plains() -> None:
    for sheet in all_sheets().values():
        since = "setting out" if raised_only(sheet) else "sowing"
        assert sowing_warmth_c(sheet) >= MAIN_SOWING_C
        column = usual_start(sheet, SPRING, MIDWINTER, since)
        assert column is not None, sheet.key
        assert date(2018, 3, 15) <= SPRING.dates[column].item() <= date(2018, 6, 25), sheet.key


def test_a_place_that_is_never_warm_enough_has_none() -> None:
    cold = soil_ground(6.0, days=300)
    assert usual_start(load_sheet("okra"), cold, 45, "sowing") is None
    assert usual_start(load_sheet("carrot"), cold, 45, "sowing") is None


def test_printed_days_come_near_the_sheets_own_requirements() -> None:
    """The sheets' printed days, counted from the usual day here, against the sheets' requirements.

    Median and spread over the crops, on the high plains: no crop is held to it alone.
    """
    ratios = []
    for sheet in all_sheets().values():
        packet = sheet.development.packet_days
        if packet is None or packet.value > 150 or "crowns" in sheet.propagation:
            continue
        since = "sowing" if sheet.development.packet_from == "sowing" else "setting out"
        column = usual_start(sheet, SPRING, MIDWINTER, "setting out" if raised_only(sheet) else since)
        assert column is not None
        first = SPRING.dates[column].item()
        ground = champion_ground(first - timedelta(days=45), 45 + 160, TODAY)
        ratios.append(convert(sheet, ground, 45, packet.value, since).ratio)
    assert len(ratios) > 50
    assert np.median(ratios) == pytest.approx(0.9, abs=0.06)
    assert float(np.mean(np.abs(np.log(ratios)))) < 0.2
