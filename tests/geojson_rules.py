"""Rules of RFC 7946 for GeoJSON, written from its text: what is wrong with an object, by section."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import Any


def faults(thing: Any) -> list[str]:
    """Everything wrong with a feature collection."""
    return list(_collection(thing))


def _collection(thing: Any) -> Iterator[str]:
    if not isinstance(thing, dict) or thing.get("type") != "FeatureCollection":
        yield "3.3: no FeatureCollection"
        return
    if not isinstance(thing.get("features"), list):
        yield "3.3: features is no array"
        return
    if "crs" in thing:
        yield "4: crs is not used any more"
    for name in ("geometry", "properties", "coordinates", "geometries"):
        if name in thing:
            yield f"7.1: a FeatureCollection has {name}"
    for feature in thing["features"]:
        yield from _feature(feature)


def _feature(thing: Any) -> Iterator[str]:
    if thing.get("type") != "Feature":
        yield "3.2: a member of features is no Feature"
    if "geometry" not in thing or "properties" not in thing:
        yield "3.2: a Feature without geometry or properties"
    if not isinstance(thing.get("properties"), dict | None):
        yield "3.2: properties is no object"
    if "id" in thing and (not isinstance(thing["id"], str | int | float) or isinstance(thing["id"], bool)):
        yield "3.2: id is neither text nor number"
    for name in ("coordinates", "geometries", "features"):
        if name in thing:
            yield f"7.1: a Feature has {name}"
    geometry = thing.get("geometry")
    if geometry is None:
        return
    if geometry["type"] == "Polygon":
        yield from _polygon(geometry["coordinates"])
    elif geometry["type"] == "MultiPolygon":
        for polygon in geometry["coordinates"]:
            yield from _polygon(polygon)
    else:
        yield f"1.4: {geometry['type']} is not expected here"


def _polygon(rings: Any) -> Iterator[str]:
    for number, ring in enumerate(rings):
        if len(ring) < 4:
            yield "3.1.6: a ring of fewer than four positions"
        if ring[0] != ring[-1]:
            yield "3.1.6: a ring whose ends are not the same"
        for position in ring:
            if len(position) not in (2, 3) or not all(isinstance(part, float | int) for part in position):
                yield "3.1.1: a position is not two or three numbers"
            elif not (-180 <= position[0] <= 180 and -90 <= position[1] <= 90):
                yield "4: a position outside the world"
        if max(p[0] for p in ring) - min(p[0] for p in ring) > 180:
            yield "3.1.9: a ring across the antimeridian"
        # From the first corner, or the sum drowns in the rounding of large coordinates.
        x0, y0 = ring[0]
        area = sum(
            (one[0] - x0) * (two[1] - y0) - (two[0] - x0) * (one[1] - y0) for one, two in pairwise(ring)
        )
        if (area > 0) != (number == 0):
            yield "3.1.6: a ring against the right-hand rule"
