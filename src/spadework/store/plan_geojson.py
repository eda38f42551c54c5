"""The plan as GeoJSON (RFC 7946): where each bed lies on the globe, with the plan's own metres beside it."""

from __future__ import annotations

import math
from datetime import date
from typing import Any, Final, TypeAlias

import msgspec

from spadework.garden.geometry import Outline, Point
from spadework.garden.records import Bed
from spadework.garden.site import Site
from spadework.garden.state import Garden
from spadework.science.globe import HIGHEST_LAT_DEG, metres_per_degree
from spadework.store.tables import lock_words

Ring: TypeAlias = list[Point]

_PLACES: Final = 8
"""Decimals of a degree: a millimetre on the ground."""

_ROUND: Final = 32
"""Corners of a round bed."""

_ORIGIN: Final = (
    "The site's coordinates stand for x = 0, y = 0 of the plan; x runs east and y north. "
    "x_m, y_m, width_m, length_m and turn_deg are the plan's own numbers."
)


def plan_geojson(garden: Garden, site: Site, day: date) -> str:
    """The beds as a feature collection.

    Parameters
    ----------
    garden : Garden
    site : Site
        Its coordinates are taken for the plan's own 0, 0.
    day : date
        Locks in force on it are named with their bed.

    Notes
    -----
    Positions are WGS 84, longitude first. Rings run anticlockwise. A bed across the 180th meridian is cut in
    two there. A bed of which the size is not known, or a garden at a pole, has no geometry.
    """
    beds = [bed for bed in garden.beds.values() if bed.gone_on is None]
    collection = {
        "type": "FeatureCollection",
        "name": site.name,
        "origin": {"lon_deg": site.lon_deg, "lat_deg": site.lat_deg, "means": _ORIGIN},
        "features": [_feature(garden, bed, site, day) for bed in beds],
    }
    return msgspec.json.format(msgspec.json.encode(collection), indent=1).decode() + "\n"


def _feature(garden: Garden, bed: Bed, site: Site, day: date) -> dict[str, Any]:
    out = bed.outline
    measures = (
        {}
        if out is None
        else {
            "x_m": out.x_m,
            "y_m": out.y_m,
            "width_m": out.width_m,
            "length_m": out.length_m,
            "turn_deg": out.turn_deg,
            "corners_m": [list(corner) for corner in out.corners],
        }
    )
    said = {
        "locked": lock_words(garden.locks_on(day, bed=bed.key)),
        "name": bed.name,
        "shape": bed.shape,
        "round": bed.is_round,
        **measures,
        "height_m": bed.height_m,
        "soil": bed.soil,
        "inside": bed.inside,
        "growing": [f"{each.crop} {each.variety}".strip() for each in garden.standing(bed=bed.key)],
    }
    return {"type": "Feature", "id": bed.key, "geometry": _geometry(bed, site), "properties": said}


def _geometry(bed: Bed, site: Site) -> dict[str, Any] | None:
    out = bed.outline
    if out is None or abs(site.lat_deg) > HIGHEST_LAT_DEG:
        return None
    north_m, east_m = metres_per_degree(site.lat_deg)
    ring = [
        (site.lon_deg + x_m / east_m, site.lat_deg + y_m / north_m)
        for x_m, y_m in (_circle(out) if bed.is_round else out.corners)
    ]
    parts = [part for part in (_within(ring, turns) for turns in (-1, 0, 1)) if part]
    if len(parts) == 1:
        return {"type": "Polygon", "coordinates": [_closed(parts[0])]}
    return {"type": "MultiPolygon", "coordinates": [[_closed(part)] for part in parts]}


def _circle(out: Outline) -> Ring:
    """A round bed as a ring of many corners, anticlockwise."""
    turns = [2 * math.pi * number / _ROUND for number in range(_ROUND)]
    across, along = out.width_m / 2, out.length_m / 2
    return [out.at(across * (1 + math.cos(turn)), along * (1 + math.sin(turn))) for turn in turns]


def _within(ring: Ring, turns: int) -> Ring:
    """What of a ring lies from -180 to 180 degrees after some whole turns round the globe."""
    part = [(lon + 360 * turns, lat) for lon, lat in ring]
    return _cut(_cut(part, 180.0, 1), -180.0, -1)


def _cut(ring: Ring, at: float, side: int) -> Ring:
    """What of a convex ring lies on this side of a meridian; nothing where it only touches it."""
    kept: Ring = []
    for one, other in zip(ring, [*ring[1:], *ring[:1]], strict=True):
        here, there = (side * (at - point[0]) for point in (one, other))
        if here >= 0:
            kept.append(one)
        if here * there < 0:
            share = here / (here - there)
            kept.append((at, one[1] + share * (other[1] - one[1])))
    return kept if any(point[0] != at for point in kept) else []


def _closed(ring: Ring) -> list[list[float]]:
    rounded = [[round(lon, _PLACES), round(lat, _PLACES)] for lon, lat in ring]
    return [*rounded, rounded[0]]
