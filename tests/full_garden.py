"""An invented garden with something of everything in it, for tests of what is taken out and brought in."""

from __future__ import annotations

from datetime import UTC, date, datetime
from pathlib import Path

from book_entries import EVERY_ACT, entry
from garden_book import Pen, long_book
from spadework.garden import entries as kinds
from spadework.garden.keys import new_key
from spadework.garden.site import Site
from spadework.garden.told import SoilWarmth, Told
from spadework.store import predictions as foretold
from spadework.store.garden_folder import GardenFolder, create
from spadework.store.predictions import Kept, Prediction, Subject

TODAY = date(2026, 5, 20)
JPEG = b"\xff\xd8\xff\xe0 a made-up photo"
PNG = b"\x89PNG\r\n\x1a\n another made-up photo"
WEATHER = """\
date,tmin_c,tmax_c,rain_mm
2026-05-01,3.0,14.0,0.0
2026-05-02,4.5,15.5,2.0
2026-05-03,5.0,16.0,0.0
2026-05-04,2.0,12.0,7.5
"""


def fill(folder: GardenFolder, count: int = 120) -> GardenFolder:
    """Entries of every kind, some undone, photos, predictions, a told fact, weather and own numbers."""
    from spadework.weather.read.detect import read_weather

    pen = Pen(first=date(2026, 5, 1))
    pen(kinds.BedSet(name="=1+1", x_m=10.5, y_m=-4.0, turn_deg=30.0, shape="ground"), bed="odd")
    pen(kinds.BedSet(name="Tub", x_m=-3.0, width_m=0.5, length_m=0.5, shape="tub", is_round=True), bed="tub")
    pen(kinds.Amended(material="horse manure", state="raw", spray_history="not known"), bed="odd")
    pen(kinds.Note(text="Früh gehackt, \"gut\"\nund 'trocken'; @home, -1"), bed="b1")
    pen(folder.photos.keep(JPEG, "slugs"), bed="b1")
    pen(folder.photos.keep(PNG))
    pen(withdraws=pen.written[3].key)
    pen(kinds.Picked(kg=1.25, pieces=4), day=3, planting="stray")
    with folder.open_book() as book:
        book.append(
            [
                *long_book(count),
                *(entry(act) for act in EVERY_ACT if not isinstance(act, kinds.FactTold)),
                *pen.written,
            ]
        )
        foretold.add(
            book.database,
            [
                Kept(
                    prediction=Prediction(
                        kind="ready",
                        subject=Subject(crop="carrot", started=date(2026, 4, day)),
                        made_on=TODAY,
                        quantiles={"0.1": date(2026, 7, day), "0.5": None},
                        chance=0.5,
                        years=30,
                    ),
                    kept_at=datetime(2026, 5, 20, 7, day, tzinfo=UTC),
                )
                for day in range(1, 9)
            ],
        )
    told = SoilWarmth(temp_c=9.5, depth_cm=10.0, first=date(2026, 5, 19), last=date(2026, 5, 19), hour=8.0)
    key = new_key(datetime(2026, 5, 19, 9, tzinfo=UTC), b"0123456789")
    folder.tell(Told(key=key, told_on=date(2026, 5, 19), source="own reading", fact=told))
    folder.add_weather(read_weather(WEATHER.encode(), "station.csv"))
    own = "# mine\n[carrot.emergence]\nsum_cd = 160\n"
    (folder.path / "overrides.toml").write_text(own, encoding="utf-8")
    return folder


def full_garden(path: Path, *, lat: float = 52.1, lon: float = 0.1) -> GardenFolder:
    """A new garden with all that."""
    return fill(create(path, Site('Plot "é"', lat, lon, 30.0)))
