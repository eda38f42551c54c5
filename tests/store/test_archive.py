"""The whole garden out and in again: the same state on both engines, and nothing half taken."""

from __future__ import annotations

import csv
import json
import random
import zipfile
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from io import StringIO
from pathlib import Path
from typing import Any

import pytest

import geojson_rules
from book_entries import entry
from book_servers import Server
from full_garden import JPEG, TODAY, full_garden
from spadework.errors import EntryConflict, GardenError, InputFileError, SpadeworkError, StoreError
from spadework.garden.entries import Note
from spadework.garden.fold import fold
from spadework.garden.site import Site
from spadework.garden.state import Garden
from spadework.store import archive_import
from spadework.store.archive import write_archive
from spadework.store.archive_form import without_store
from spadework.store.archive_import import TakenIn, bring_in
from spadework.store.archive_read import open_archive
from spadework.store.garden_folder import GardenFolder, create, open_garden
from spadework.store.plan_geojson import plan_geojson
from spadework.store.restore import restore


def out(folder: GardenFolder, to: Path) -> Path:
    with folder.open_book() as book:
        entries, predictions = book.entries(), book.predictions()
    return write_archive(folder, entries, predictions, fold(entries), to, TODAY).path


def take(file: Path, to: Path) -> TakenIn:
    with open_archive(file) as archive:
        return bring_in(archive, to)


@dataclass(frozen=True)
class State:
    """Everything a garden is."""

    entries: list[Any]
    garden: Garden
    predictions: list[Any]
    told: tuple[Any, ...]
    site: Site
    files: dict[str, bytes]
    weather: str


def state(path: Path) -> State:
    folder = open_garden(path)
    with folder.open_book() as book:
        entries, predictions = book.entries(), book.predictions()
    names = [path / "garden.toml", path / "overrides.toml", *sorted((path / "photos").glob("*"))]
    return State(
        entries,
        fold(entries),
        predictions,
        folder.told(TODAY),
        folder.site,
        {name.name: name.read_bytes() for name in names},
        (path / "weather" / "daily.csv").read_text(),
    )


def parts(file: Path) -> dict[str, bytes]:
    with zipfile.ZipFile(file) as archive:
        return {name: archive.read(name) for name in archive.namelist()}


def rewrite(file: Path, change: Callable[[dict[str, bytes]], None], *, agree: bool = True) -> Path:
    """Change parts of an archive; with `agree` its own list of them agrees with what it holds then."""
    import hashlib

    found = parts(file)
    change(found)
    if agree and "about.json" in found:
        about = json.loads(found["about.json"])
        about["parts"] = {
            name: {"bytes": len(data), "sha256": hashlib.sha256(data).hexdigest()}
            for name, data in found.items()
            if name != "about.json"
        }
        found["about.json"] = json.dumps(about).encode()
    file.unlink()
    with zipfile.ZipFile(file, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, data in found.items():
            archive.writestr(name, data)
    return file


@pytest.fixture(scope="module")
def plot(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A full garden and its archive beside it; not to be written into."""
    folder = tmp_path_factory.mktemp("out")
    out(full_garden(folder / "plot"), folder / "plot.zip")
    return folder / "plot"


@pytest.fixture
def file(plot: Path, tmp_path: Path) -> Path:
    """A copy of the archive."""
    copy = tmp_path / "plot.zip"
    copy.write_bytes(plot.with_suffix(".zip").read_bytes())
    return copy


# -- round trip --------------------------------------------------------------------------------------


def test_from_a_file_to_a_server_and_back_it_is_the_same_garden(
    plot: Path, file: Path, tmp_path: Path, server: Server, monkeypatch: pytest.MonkeyPatch
) -> None:
    first = state(plot)
    assert len(first.entries) > 150
    monkeypatch.setenv("SPADEWORK_STORE_URL", server.fresh_url())
    done = take(file, tmp_path / "served")
    assert (done.made, done.entries, done.known) == (True, len(first.entries), 0)
    assert not (tmp_path / "served" / "book.sqlite").exists()
    assert state(tmp_path / "served") == first
    second = out(open_garden(tmp_path / "served"), tmp_path / "second.zip")
    monkeypatch.delenv("SPADEWORK_STORE_URL")
    take(second, tmp_path / "deep" / "back")
    assert state(tmp_path / "deep" / "back") == first
    third = out(open_garden(tmp_path / "deep" / "back"), tmp_path / "third.zip")
    assert all(
        parts(each)[name] == data
        for each in (second, third)
        for name, data in parts(file).items()
        if name != "about.json"
    )


def test_the_archive_holds_what_the_brief_of_it_says(file: Path) -> None:
    names = list(parts(file))
    assert names[:2] == ["about.json", "locks.csv"]
    assert {"book.jsonl", "predictions.jsonl", "garden.toml", "overrides.toml", "weather/daily.csv"} < set(
        names
    )
    assert {"plan.geojson", "beds.csv", "plantings.csv", "kit.csv", "tin.csv", "people.csv"} < set(names)
    assert sum(name.startswith("photos/") for name in names) == 2
    about = json.loads(parts(file)["about.json"])
    assert about["entries"] == parts(file)["book.jsonl"].count(b"\n")
    assert about["predictions"] == 8


def test_into_an_empty_folder(file: Path, tmp_path: Path, plot: Path) -> None:
    """Or one in which an import was stopped."""
    (tmp_path / "here" / ".import-left").mkdir(parents=True)
    take(file, tmp_path / "here")
    assert state(tmp_path / "here") == state(plot)
    assert [path.name for path in (tmp_path / "here").glob(".*")] == [".import-left"]


def test_a_folder_with_other_things_is_left_alone(file: Path, tmp_path: Path) -> None:
    (tmp_path / "there").mkdir()
    (tmp_path / "there" / "letter.txt").write_text("x")
    with pytest.raises(GardenError, match="not empty"):
        take(file, tmp_path / "there")
    assert [path.name for path in (tmp_path / "there").iterdir()] == ["letter.txt"]


def test_the_server_of_the_book_stays_at_home() -> None:
    text = '# c\n[store] # mine\nurl = "postgresql://a@b/c"\n\n[site]\nname = "x"\n'
    assert without_store(text) == '# c\n[site]\nname = "x"\n'
    assert without_store("a = 1\n") == "a = 1\n"
    with pytest.raises(ValueError, match="store"):
        without_store('store.url = "x"\n[site]\n')


def test_no_overwriting(file: Path, plot: Path) -> None:
    before = file.read_bytes()
    with pytest.raises(StoreError, match="exists already"):
        out(open_garden(plot), file)
    assert file.read_bytes() == before


def test_photos_that_are_gone_or_changed_are_named(tmp_path: Path) -> None:
    folder = full_garden(tmp_path / "g")
    one, two = sorted((folder.path / "photos").iterdir())
    one.unlink()
    two.write_bytes(JPEG + b"x")
    with open_archive(out(folder, tmp_path / "o.zip")) as archive:
        left_out = archive.about.left_out
        assert archive.photos == ()
    assert [sum(name in line for line in left_out) for name in (one.stem, two.name, "0" * 64)] == [1, 1, 1]
    assert len(left_out) == 3  # the last is named by an entry and never was there


# -- joined to a garden that is there ----------------------------------------------------------------


def test_the_same_archive_again_changes_nothing(file: Path, tmp_path: Path) -> None:
    take(file, tmp_path / "g")
    before = state(tmp_path / "g")
    done = take(file, tmp_path / "g")
    assert (done.made, done.entries, done.predictions, done.photos, done.weather_days) == (False, 0, 0, 0, 0)
    assert done.known == len(before.entries)
    assert state(tmp_path / "g") == before


def test_two_lines_of_one_garden_come_together(file: Path, tmp_path: Path) -> None:
    take(file, tmp_path / "one")
    take(file, tmp_path / "two")
    for name in ("one", "two"):
        folder = open_garden(tmp_path / name)
        photo = folder.photos.keep(JPEG + name.encode())
        with folder.open_book() as book:
            book.append([entry(photo), entry(Note(text=name))])
    (tmp_path / "two" / "overrides.toml").write_text("[carrot.emergence]\nsum_cd = 150\n")
    weather = tmp_path / "two" / "weather" / "daily.csv"
    weather.write_text(
        weather.read_text() + weather.read_text().splitlines()[-1].replace("05-04", "05-05") + "\n"
    )
    done = take(out(open_garden(tmp_path / "two"), tmp_path / "two.zip"), tmp_path / "one")
    assert (done.entries, done.photos, done.weather_days) == (2, 1, 1)
    assert done.stayed == ("overrides.toml",)
    one, two = state(tmp_path / "one"), state(tmp_path / "two")
    assert len(one.entries) == len(two.entries) + 2
    assert open_garden(tmp_path / "one").weather().days == 5
    assert "160" in (tmp_path / "one" / "overrides.toml").read_text()
    assert {each.key for each in two.entries} < {each.key for each in one.entries}


def test_a_key_with_two_contents_is_refused_whole(file: Path, tmp_path: Path) -> None:
    take(file, tmp_path / "one")
    take(file, tmp_path / "two")
    for name in ("one", "two"):
        folder = open_garden(tmp_path / name)
        with folder.open_book() as book:
            book.append([entry(Note(text=name), key="SAMEKEY", recorded_at=book.entries()[0].recorded_at)])
    folder = open_garden(tmp_path / "two")
    with folder.open_book() as book:
        book.append([entry(folder.photos.keep(JPEG + b"new"))])
    other = out(folder, tmp_path / "two.zip")
    before = state(tmp_path / "one")
    with pytest.raises(EntryConflict, match="SAMEKEY"):
        take(other, tmp_path / "one")
    assert state(tmp_path / "one") == before


def test_another_garden_is_not_mixed_in(file: Path, tmp_path: Path) -> None:
    create(tmp_path / "far", Site("Far", -40.0, 175.0, 10.0))
    with pytest.raises(GardenError, match="folder of its own"):
        take(file, tmp_path / "far")
    assert not (tmp_path / "far" / "book.sqlite").exists()


def test_a_stop_on_the_way_leaves_no_garden(
    file: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def stop(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(archive_import.Photos, "keep", stop)
    with pytest.raises(GardenError, match="No space left"):
        take(file, tmp_path / "g")
    assert not (tmp_path / "g").exists()


# -- damaged and hostile -----------------------------------------------------------------------------


def _book_line(found: dict[str, bytes]) -> None:
    found["book.jsonl"] = found["book.jsonl"].replace(b'"kind":"sown"', b'"kind":"sprayed"', 2)


def _same_key(found: dict[str, bytes]) -> None:
    line = found["book.jsonl"].split(b"\n")[0]
    found["book.jsonl"] += line.replace(b'"author":"ann"', b'"author":"ben"') + b"\n"


def _server(found: dict[str, bytes]) -> None:
    found["garden.toml"] += b'\n[store]\nurl = "postgresql://evil/x"\n'


def _newer(found: dict[str, bytes]) -> None:
    found["about.json"] = found["about.json"].replace(b'"format": 1', b'"format": 2, "more": true')


HOSTILE: dict[str, tuple[Callable[[dict[str, bytes]], object], bool, str]] = {
    "a path out of the folder": (lambda p: p.update({"../evil.txt": b"x"}), True, "a part no garden has"),
    "an absolute path": (lambda p: p.update({"/tmp/evil": b"x"}), True, "a part no garden has"),
    "a path with a backslash": (lambda p: p.update({"..\\evil": b"x"}), True, "a part no garden has"),
    "a photo by a false name": (
        lambda p: p.update({f"photos/{'a' * 64}.jpg": JPEG}),
        True,
        "another content",
    ),
    "a photo that is none": (
        lambda p: p.update(
            {"photos/2d711642b726b04401627ca9fbac32f5c8530fb1903cc4db02258717921a4881.jpg": b"x"}
        ),
        True,
        "no photo",
    ),
    "a part not in the list": (lambda p: p.update({"tin.csv": b"x"}), False, "other content"),
    "a changed book": (_book_line, False, "other content"),
    "a part that is gone": (lambda p: p.pop("book.jsonl"), False, "nothing"),
    "no book at all": (lambda p: p.pop("book.jsonl"), True, "this part in every archive"),
    "no list": (lambda p: p.pop("about.json"), True, "no about.json"),
    "a list that is none": (lambda p: p.update({"about.json": b"[1]"}), False, "about.json"),
    "a deep list": (lambda p: p.update({"about.json": b"[" * 100_000}), False, "about.json"),
    "a newer form": (_newer, False, "newer program"),
    "an entry of no known kind": (_book_line, True, "book.jsonl line"),
    "two contents under one key": (_same_key, True, "another entry with the key"),
    "half a line": (lambda p: p.update({"book.jsonl": p["book.jsonl"][:-40]}), True, "book.jsonl line"),
    "a line too few": (
        lambda p: p.update({"book.jsonl": p["book.jsonl"].split(b"\n", 1)[1]}),
        True,
        "the same number",
    ),
    "a server to speak to": (_server, True, "address of a server"),
    "settings that are no TOML": (lambda p: p.update({"garden.toml": b"= ="}), True, "garden.toml"),
    "weather that is none": (
        lambda p: p.update({"weather/daily.csv": b"a,b\n1,2\n"}),
        True,
        "daily.csv row 1",
    ),
    "a part that swells": (lambda p: p.update({"beds.csv": b"0" * 60_000_000}), True, "a real text"),
}


@pytest.mark.parametrize("case", HOSTILE)
def test_a_hostile_archive_is_refused_whole(file: Path, tmp_path: Path, case: str) -> None:
    change, agree, said = HOSTILE[case]
    rewrite(file, change, agree=agree)
    with pytest.raises(InputFileError, match=said):
        take(file, tmp_path / "g")
    assert sorted(path.name for path in tmp_path.iterdir()) == ["plot.zip"]


def test_a_part_twice_is_refused(file: Path, tmp_path: Path) -> None:
    with zipfile.ZipFile(file, "a") as archive, pytest.warns(UserWarning, match="Duplicate"):
        archive.writestr("garden.toml", b"x")
    with pytest.raises(InputFileError, match="two parts of one name"):
        take(file, tmp_path / "g")


@pytest.mark.parametrize("content", [b"", b"PK", b"words", None])
def test_no_archive(tmp_path: Path, content: bytes | None) -> None:
    if content is not None:
        (tmp_path / "x.zip").write_bytes(content)
    with pytest.raises(InputFileError, match=r"x\.zip was not taken"):
        take(tmp_path / "x.zip", tmp_path / "g")
    assert not (tmp_path / "g").exists()


def test_bytes_changed_anywhere_are_refused_or_make_no_difference(
    plot: Path, file: Path, tmp_path: Path
) -> None:
    """Cut short, or with single bytes changed: never another garden, never half of one."""
    whole, luck, want = file.read_bytes(), random.Random(7), state(plot)
    refused = 0
    for number in range(120):
        at = luck.randrange(len(whole))
        spoiled = whole[:at] if number % 6 == 0 else whole[:at] + bytes([whole[at] ^ 0x41]) + whole[at + 1 :]
        file.write_bytes(spoiled)
        to = tmp_path / f"g{number}"
        try:
            take(file, to)
        except SpadeworkError:
            refused += 1
            assert not to.exists()
        else:
            assert state(to) == want
    assert refused > 100


def test_a_copy_made_by_backup_is_no_archive_and_the_other_way_round(file: Path, tmp_path: Path) -> None:
    take(file, tmp_path / "g")
    with pytest.raises(StoreError, match=r"holds no book\.sqlite"):
        restore(tmp_path / "g", file)


# -- for other programs ------------------------------------------------------------------------------


def test_another_reader_reads_every_table(file: Path) -> None:
    import pandas as pd

    found = parts(file)
    for name in [each for each in found if each.endswith(".csv") and "/" not in each]:
        text = found[name].decode()
        frame = pd.read_csv(StringIO(text), keep_default_na=False)
        rows = list(csv.reader(StringIO(text)))
        assert list(frame.columns) == rows[0]
        assert len(frame) == len(rows) - 1, name
    beds = pd.read_csv(StringIO(found["beds.csv"].decode())).set_index("bed")
    assert beds.loc["odd", "name"] == "=1+1"
    assert beds.loc["odd", "turn_deg"] == 30.0
    assert beds.loc["odd", "locked"].startswith("no picking until 2026-08-29")
    locks = pd.read_csv(StringIO(found["locks.csv"].decode()), parse_dates=["until", "set_on"])
    assert locks["in_force"].dtype == bool
    assert locks["in_force"].is_monotonic_decreasing
    plantings = pd.read_csv(StringIO(found["plantings.csv"].decode()), parse_dates=["started_on"])
    assert plantings["started_on"].dt.year.min() == 2022
    assert plantings["picked_kg"].dtype == float


def test_the_harvest_adds_up(file: Path, plot: Path) -> None:
    import pandas as pd

    frame = pd.read_csv(StringIO(parts(file)["harvest.csv"].decode()))
    picked = [json.loads(line)["act"] or {} for line in parts(file)["book.jsonl"].splitlines()]
    garden = state(plot).garden
    standing = {each.key for each in garden.entries}
    kg = sum(
        (json.loads(line)["act"] or {}).get("kg") or 0
        for line in parts(file)["book.jsonl"].splitlines()
        if json.loads(line)["key"] in standing
        and (json.loads(line)["act"] or {}).get("kind") in ("picked", "lifted")
    )
    assert any(act.get("kind") == "picked" for act in picked)
    assert frame["harvest_kg"].sum() == pytest.approx(kg)


def test_the_plan_follows_the_rules_of_geojson(file: Path) -> None:
    plan = json.loads(parts(file)["plan.geojson"])
    assert geojson_rules.faults(plan) == []
    odd = next(each for each in plan["features"] if each["id"] == "odd")
    assert odd["properties"]["x_m"] == 10.5
    assert "no picking" in odd["properties"]["locked"]
    # 10.5 m east and 4 m south of the site, by the printed length of a degree at 52.1 N (class memory).
    lon, lat = odd["geometry"]["coordinates"][0][0]
    assert (lon - 0.1) * 68_500 == pytest.approx(10.5, abs=0.05)
    assert (lat - 52.1) * 111_270 == pytest.approx(-4.0, abs=0.01)


@pytest.mark.parametrize(
    ("lat", "lon"), [(-16.8, 179.999995), (-16.8, -180.0), (65.0, 180.0), (0.0, -179.999995)]
)
def test_beds_across_the_antimeridian_are_cut(lat: float, lon: float) -> None:
    from garden_book import Pen
    from spadework.garden.entries import BedSet

    pen = Pen()
    for number, x in enumerate((-6.0, -0.6, 0.0, 6.0)):
        pen(BedSet(name=str(number), x_m=x, turn_deg=15.0 * number), bed=str(number))
    plan = json.loads(plan_geojson(fold(pen.written), Site("Date line", lat, lon, 5.0), date(2026, 5, 1)))
    assert geojson_rules.faults(plan) == []
    assert "MultiPolygon" in {each["geometry"]["type"] for each in plan["features"]}


def test_the_check_of_the_rules_finds_what_is_wrong() -> None:
    square = [[0, 0], [1, 0], [1, 1], [0, 1], [0, 0]]

    def plan(*rings: Any, **more: Any) -> dict[str, Any]:
        geometry = {"type": "Polygon", "coordinates": list(rings)}
        feature = {"type": "Feature", "geometry": geometry, "properties": {}}
        return {"type": "FeatureCollection", "features": [feature], **more}

    assert geojson_rules.faults(plan(square)) == []
    assert "right-hand" in geojson_rules.faults(plan(square[::-1]))[0]
    assert "ends" in geojson_rules.faults(plan(square[:-1]))[0]
    assert "outside" in geojson_rules.faults(plan([[0, 0], [1, 0], [1, 91], [0, 0]]))[0]
    assert "crs" in geojson_rules.faults(plan(square, crs={}))[0]


def test_at_the_pole_there_is_no_place_for_a_bed() -> None:
    from garden_book import Pen
    from spadework.garden.entries import BedSet

    pen = Pen()
    pen(BedSet(name="a"), bed="a")
    plan = json.loads(plan_geojson(fold(pen.written), Site("Pole", 90.0, 0.0, 5.0), date(2026, 5, 1)))
    assert plan["features"][0]["geometry"] is None
    assert geojson_rules.faults(plan) == []
