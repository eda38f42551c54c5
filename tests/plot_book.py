"""A small invented garden with a book, for tests of what reads and writes it."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from spadework.garden import entries as kinds
from spadework.garden.site import Site
from spadework.store.garden_folder import GardenFolder, create
from spadework.usecases.keep_book import Act, write_acts

TODAY = "2026-06-15"
"""The day the questions are asked."""


def plot(folder: Path, *, us: bool = False) -> Path:
    """An invented garden of two beds and a tunnel with something of everything."""
    path = folder / ("us" if us else "plot")
    site = Site("Plot", 50.0, 10.0, 100.0, units="us", words="american") if us else Site("Plot", 50, 10, 100)
    garden = create(path, site)
    _write(garden, "2024-05-01", kinds.PersonSet(person="ann", name="Ann", role="keeper"))
    _write(garden, "2024-05-01", kinds.PersonSet(person="ben", name="Ben", not_for=("lifting",)))
    _write(garden, "2024-05-01", kinds.BedSet(name="Bed 1", flow_l_min=5.0, measured_l_min=4.2), bed="bed-1")
    _write(garden, "2024-05-01", kinds.BedSet(name="Bed 2", x_m=1.8), bed="bed-2")
    _write(garden, "2024-05-01", kinds.Stood(crop="potato", year=2023), bed="bed-1")
    _write(garden, "2024-05-01", kinds.KitSet(item="fleece", sort="fleece", length_m=20.0))
    _write(garden, "2024-05-01", kinds.LotSet(lot="carrot-25", crop="carrot", year=2025, seeds=2000))
    _write(garden, "2025-05-01", kinds.Sown(planting="pea-2025-1", crop="pea"), bed="bed-1")
    _write(garden, "2025-08-01", kinds.Ended(how="cleared"), planting="pea-2025-1")
    carrots = kinds.Sown(
        planting="carrot-2026-1", crop="carrot", variety="Nantaise", seeds=300, lot="carrot-25"
    )
    _write(garden, "2026-04-20", carrots, bed="bed-1", planting="carrot-2026-1")
    _write(garden, "2026-05-08", kinds.Stage(what="up"), planting="carrot-2026-1")
    _write(garden, "2026-06-02", kinds.Counted(standing=180), planting="carrot-2026-1")
    _write(garden, "2026-06-03", kinds.Thinned(removed=60), planting="carrot-2026-1")
    _write(garden, "2026-06-10", kinds.Watered(minutes=5.0), bed="bed-1")
    _write(garden, "2026-06-11", kinds.Moved(act="on", item="fleece", length_m=2.4), bed="bed-1")
    manure = kinds.Amended(material="horse manure", state="raw", spray_history="clean")
    _write(garden, "2026-06-12", manure, bed="bed-2", insist=True)
    _write(garden, "2026-06-13", kinds.Picked(kg=0.4), planting="carrot-2026-1", author="ben")
    return path


def _write(
    garden: GardenFolder,
    on: str,
    payload: kinds.Payload,
    *,
    bed: str = "",
    planting: str = "",
    author: str = "ann",
    insist: bool = False,
) -> None:
    act = Act(payload=payload, on=date.fromisoformat(on), bed=bed, planting=planting)
    done = write_acts(garden, [act], today=date(2026, 6, 15), author=author, insist=insist)
    assert done.stored, done.questions
