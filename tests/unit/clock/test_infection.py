"""Infection rules through the years: whatever the span, every rule gives the same days, between 0 and 1."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import numpy as np
import pytest

from grounds import EVEN, champion_ground, years_of
from spadework.clock.ground import Ground
from spadework.clock.infection import RULES, risk_days, wet_hours
from spadework.errors import UnknownName


def damp(mean_c: float = 16.0, half_c: float = 1.0, rain_mm: float = 3.0, days: int = 30) -> Ground:
    flat = np.full((2, days), mean_c)
    return Ground(EVEN, years_of(flat - half_c, flat + half_c, rain_mm=rain_mm), "bare-moist")


@pytest.mark.parametrize("rule", RULES)
def test_rules_on_a_real_record(rule: str) -> None:
    ground = champion_ground(date(2015, 4, 1), 120, last=8)
    whole = risk_days(rule, ground)
    assert whole.shape == ground.years.tmin_c.shape
    assert ((whole >= 0.0) & (whole <= 1.0)).all()
    assert risk_days(rule, ground, 80, 110) == pytest.approx(whole[:, 80:110])


@pytest.mark.parametrize("rule", [rule for rule in RULES if rule not in ("damping-off", "powdery-mildew")])
def test_wet_mild_weather_is_worse_than_dry_heat(rule: str) -> None:
    dry = damp(31.0, 9.0, 0.0)
    assert risk_days(rule, damp())[:, 20].mean() > risk_days(rule, dry)[:, 20].mean()


def test_powdery_mildew_needs_no_rain() -> None:
    assert risk_days("powdery-mildew", damp(23.0, 6.0, 0.0)).min() == 1.0


def test_beans_rot_in_ground_where_peas_stand() -> None:
    cool = damp(11.0, 3.0, 8.0, 60)
    peas, beans = risk_days("damping-off", cool), risk_days("damping-off", cool, warm_crop=True)
    assert (beans >= peas).all()
    assert beans[:, 30:].mean() > 0.9


def test_dew_point_told_goes_before_the_guess() -> None:
    ground = damp(16.0, 6.0, 0.0)
    years = replace(ground.years, tdew_c=np.full((2, 30), -5.0))
    dry = wet_hours(replace(ground, years=years, _kept={}))
    guessed = wet_hours(ground)
    assert (dry.humid_h == 0.0).all()
    assert (guessed.wet_h >= dry.wet_h).all()
    assert dry.error_h < guessed.error_h
    assert "dew point" in dry.note
    assert "2.2 h" in guessed.note


def test_unknown_rule() -> None:
    with pytest.raises(UnknownName):
        risk_days("moonlight", damp())
