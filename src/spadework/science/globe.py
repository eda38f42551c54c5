"""How long a degree is on the ground, for putting a plan in metres on the map of the world."""

from __future__ import annotations

import math
from typing import Final

from spadework.errors import ParameterError

EQUATOR_RADIUS_M: Final = 6_378_137.0
FLATTENING: Final = 1 / 298.257223563
HIGHEST_LAT_DEG: Final = 89.9
"""Nearer to a pole a degree of longitude is too short to place a garden by. Class: common-practice."""

_ECCENTRICITY_2: Final = FLATTENING * (2 - FLATTENING)


def metres_per_degree(lat_deg: float) -> tuple[float, float]:
    """Length of one degree of latitude and of one degree of longitude at a latitude.

    Parameters
    ----------
    lat_deg : float  [deg]
        North positive; within 89.9 of the equator.

    Returns
    -------
    tuple of (float, float)  [m deg-1]
        To the north, to the east.

    Raises
    ------
    ParameterError
        If the latitude is too near a pole.

    Notes
    -----
    Radii of curvature of the ellipse along and across the meridian; over a garden they do not change.

    Source
    ------
    WGS84: half axis and flattening; the radii are computed from the ellipse.
    """
    if not abs(lat_deg) <= HIGHEST_LAT_DEG:
        raise ParameterError(
            f"A plan cannot be put on the map at latitude {lat_deg:g}.",
            f"Allowed: {-HIGHEST_LAT_DEG:g} to {HIGHEST_LAT_DEG:g}.",
        )
    lat = math.radians(lat_deg)
    bent = 1 - _ECCENTRICITY_2 * math.sin(lat) ** 2
    along_m = EQUATOR_RADIUS_M * (1 - _ECCENTRICITY_2) / bent**1.5
    across_m = EQUATOR_RADIUS_M / math.sqrt(bent)
    return math.radians(along_m), math.radians(across_m * math.cos(lat))
