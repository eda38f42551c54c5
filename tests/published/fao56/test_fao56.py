"""The worked examples of FAO-56, each intermediate that is printed, and a southern example beside them."""

from __future__ import annotations

import csv
import json
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from spadework.science import evapotranspiration as et
from spadework.science import radiation, sun
from spadework.types import Floats

with (Path(__file__).parent / "checks.csv").open(newline="", encoding="utf-8") as _table:
    CHECKS = list(csv.DictReader(_table))

Given = dict[str, Any]


def _ra(given: Given) -> Floats:
    return sun.extraterrestrial_radiation_mj(given["lat_deg"], given["J"])


def _day_length(given: Given) -> Floats:
    return sun.day_length_geometric_h(given["lat_deg"], given["J"])


def _wind(given: Given) -> Any:
    if "u" in given:
        return et.wind_at_2m_m_s(given["u"], given["z_m"])
    if "wind_kmh_10m" in given:
        return et.wind_at_2m_m_s(given["wind_kmh_10m"] / 3.6, 10.0)
    return given["u2"]


def _vapour(given: Given) -> Floats:
    if "rh_pct" in given:
        return given["rh_pct"] / 100.0 * et.saturation_vapour_pressure_kpa(given["temp_c"])
    if "ea_kpa" in given:
        return np.asarray(given["ea_kpa"])
    humidity = {"rh_max_pct": given["rhmax"], "rh_min_pct": given["rhmin"]} if "rhmax" in given else {}
    return et.actual_vapour_pressure_kpa(given["tmin_c"], given["tmax_c"], **humidity).kpa


def _solar(given: Given) -> Floats:
    if "Rs" in given:
        return np.asarray(given["Rs"])
    if "krs" in given:
        ra = given["Ra"] if "Ra" in given else _ra(given)
        return radiation.solar_from_temperature_range_mj(
            given["tmin_c"], given["tmax_c"], ra, given["krs"], given.get("z_m", 0.0)
        )
    if "N_h" in given:
        return radiation.solar_from_sunshine_mj(given["n_h"], given["N_h"], given["Ra"])
    return radiation.solar_from_sunshine_mj(given["n_h"], _day_length(given), _ra(given))


def _clear(given: Given) -> Floats:
    return radiation.clear_sky_mj(_ra(given), given["z_m"])


def _longwave(given: Given) -> Floats:
    ratio = radiation.clear_sky_ratio(_solar(given), _clear(given))
    return radiation.net_longwave_mj(given["tmin_c"], given["tmax_c"], _vapour(given), ratio)


def _net(given: Given) -> Floats:
    return radiation.net_radiation_mj(_solar(given), _longwave(given))


def _ground(given: Given) -> Any:
    return et.monthly_ground_flux_mj(given["t_month"], given["t_prev"]) if "t_month" in given else 0.0


def _et0(given: Given) -> Floats:
    if "T_c" in given:  # the night hour of example 19
        return et.et0_penman_monteith_hourly_mm(
            given["T_c"],
            elevation_m=given["z_m"],
            actual_vapour_pressure_kpa=given["RH"] / 100.0 * et.saturation_vapour_pressure_kpa(given["T_c"]),
            solar_mj=given["Rs"],
            clear_sky_ratio=given["rs_rso"],
            wind_2m_m_s=given["u2"],
        )
    return et.et0_penman_monteith_mm(
        given["tmin_c"],
        given["tmax_c"],
        ra_mj=_ra(given),
        elevation_m=given["z_m"],
        actual_vapour_pressure_kpa=_vapour(given),
        solar_mj=_solar(given),
        wind_2m_m_s=_wind(given),
        ground_flux_mj=_ground(given),
    )


LAWS: dict[str, Any] = {
    "P": lambda g: et.pressure_kpa(g["z_m"]),
    "gamma": lambda g: et.psychrometric_constant_kpa_per_c(g["P_kPa"]),
    "e0": lambda g: et.saturation_vapour_pressure_kpa(g["T_c"]),
    "es": lambda g: et.mean_saturation_vapour_pressure_kpa(g["tmin_c"], g["tmax_c"]),
    "ea": _vapour,
    "dr": lambda g: sun.inverse_relative_distance(g["J"]),
    "delta": lambda g: sun.declination_rad(g["J"]),
    "ws": lambda g: sun.sunset_hour_angle_rad(g["lat_deg"], g["J"]),
    "Ra": _ra,
    "N": _day_length,
    "Rs": _solar,
    "Rso": _clear,
    "Rns": lambda g: radiation.net_shortwave_mj(_solar(g)),
    "Rnl": _longwave,
    "Rn": _net,
    "Delta": lambda g: et.vapour_pressure_slope_kpa_per_c((g["tmin_c"] + g["tmax_c"]) / 2.0),
    "G": _ground,
    "u2": _wind,
    "ET0": _et0,
    "ET0_hourly": lambda g: et.et0_penman_monteith_hourly_mm(
        g["temp_c"],
        elevation_m=g["z_m"],
        actual_vapour_pressure_kpa=_vapour(g),
        solar_mj=g["Rs"],
        clear_sky_ratio=g["Rs"] / g["Rso"],
        wind_2m_m_s=g["u2"],
    ),
    "ET0_hargreaves": lambda g: et.et0_hargreaves_mm(g["tmin_c"], g["tmax_c"], _ra(g)),
}


@pytest.mark.parametrize("check", CHECKS, ids=[check["check_id"] for check in CHECKS])
def test_example(check: dict[str, str]) -> None:
    given: Given = json.loads(check["inputs_json"])
    wanted = [float(part) for part in check["expected"].split(";")]
    allowed = [float(part) for part in check["tolerance"].split(";")]
    for quantity, value, tolerance in zip(check["quantity"].split(";"), wanted, allowed, strict=True):
        assert float(LAWS[quantity](given)) == pytest.approx(value, abs=tolerance), quantity
