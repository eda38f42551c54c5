"""What cannot be: one clear line, exit code 2, and nothing done."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

G = "--garden {north} --today 2018-05-10"
BARE = "--garden {bare} --today 2018-05-10"
AGAIN = "weigh sow-again carrot --sown 2018-04-25"

REFUSED: list[tuple[str, str]] = [
    # no garden, no coordinates, no weather
    ("odds frost --garden {none}", "No garden in"),
    ("odds ready carrot --sown 2018-05-01 --garden {none}", "No garden in"),
    ("weigh sow --garden {none}", "spadework new"),
    ("weather show --garden {none}", "No garden in"),
    ("weather add {dly} --garden {none}", "No garden in"),
    ("odds frost --garden {placeless}", "lat_deg, lon_deg, elevation_m"),
    ("weigh sow carrot --garden {placeless}", "coordinates"),
    ("sheet carrot --garden {placeless}", "coordinates"),
    (f"odds frost {BARE}", "no weather yet"),
    (f"odds ready carrot --sown 2018-05-01 {BARE}", "weather add FILE"),
    (f"weigh sow carrot {BARE}", "no weather yet"),
    (f"weigh sow {BARE}", "no weather yet"),
    (f"{AGAIN} --seeds 150 --up 12 {BARE}", "no weather yet"),
    (f"weigh fits {BARE}", "no weather yet"),
    (f"weigh plant-out tomato {BARE}", "no weather yet"),
    (f"weigh sow-next lettuce {BARE}", "no weather yet"),
    (f"weigh sow-next tomato {G}", "spadework weigh sow"),
    (f"weather show {BARE}", "no weather yet"),
    # names
    (f"odds ready carot --sown 2018-05-01 {G}", "carrot"),
    (f"weigh sow parsnp {G}", "parsnip"),
    (f"{AGAIN.replace('carrot', 'spinache')} --seeds 9 --up 1 {G}", "spinach"),
    (f"weigh sow bean {G}", "bush-bean"),
    ("sheet zuchini", "summer-squash"),
    ("sheet qqqqq", "spadework sheets"),
    ("law emergence-dys crop=carrot soil_c=10", "emergence-days"),
    ("law qqqqq", "spadework law"),
    ("law emergence-days crop=carot soil_c=10", "carrot"),
    ("law emergence-days crop=carrot", "soil_c is missing"),
    ("law emergence-days crop=carrot soil_c", "name=value"),
    ("law emergence-days crop=carrot soil_c=ten", "'ten'"),
    ("law emergence-days crop=carrot soil_c=99", "-10 to 60"),
    ("law emergence-days crop=carrot soil_c=5 soil_c=6", "twice"),
    ("law day-length lat=45 date=2023-02-30", "2023-02-30"),
    ("law day-length lat=91 date=2023-02-03", "-90 to 90"),
    ("law degree-days tmin_c=20 tmax_c=10 lower_c=5", "above"),
    ("law degree-days tmin_c=5 tmax_c=10 lower_c=15 upper_c=10", "not above"),
    # counts
    (f"{AGAIN} --seeds 150 --up 151 {G}", "more than the 150 seeds"),
    (f"{AGAIN} --seeds 150 --up -1 {G}", "below zero"),
    (f"{AGAIN} --seeds 0 --up 0 {G}", "--seeds 0"),
    (f"{AGAIN} --seeds many --up 12 {G}", "many"),
    (f"{AGAIN} --seeds 150 --up 12 --up-on 2018-05-05=200 {G}", "--up-on 200"),
    (f"{AGAIN} --seeds 20 --up 18 --up-on 2018-05-05=15 --up-on 2018-05-07=2 {G}", "20 seeds"),
    (f"{AGAIN} --seeds 150 --up 12 --up-on 2018-05-05 {G}", "--up-on"),
    (f"{AGAIN} --seeds 150 --up 12 --up-on 2018-04-05=1 {G}", "2018-04-05"),
    (f"{AGAIN} --seeds 150 --up 12 --wanted 151 {G}", "--wanted 151"),
    (f"{AGAIN} --seeds 150 --up 12 --dug green {G}", "firm, sprouted, soft, gone"),
    (f"{AGAIN} --seeds 150 --up 12 --germination 0 {G}", "--germination 0"),
    (f"{AGAIN} --seeds 150 --up 12 --germination 101 {G}", "--germination 101"),
    (f"{AGAIN} --seeds 150 --up 12 --depth -3 {G}", "--depth"),
    (f"{AGAIN} --up 12 {G}", "--seeds"),
    (f"weigh sow-again carrot --seeds 150 --up 12 {G}", "--sown"),
    # dates
    (f"weigh sow-again carrot --sown 2018-05-11 --seeds 150 --up 12 {G}", "after today"),
    (f"weigh sow-again carrot --sown 2017-05-11 --seeds 150 --up 12 {G}", "364 days ago"),
    (f"weigh sow carrot --on 2018-05-01 {G}", "before today"),
    (f"weigh sow --on 2018-05-01 {G}", "before today"),
    (f"weigh sow carrot --on 2021-05-01 {G}", "400 days"),
    (f"weigh fits --on 2018-05-01 {G}", "before today"),
    (f"odds ready carrot --sown 2030-05-01 {G}", "400 days"),
    (f"odds ready carrot {G}", "--sown DATE or --set-out DATE"),
    (f"odds ready carrot --sown 2018-05-01 --set-out 2018-05-01 {G}", "not both"),
    (f"odds ready carrot --sown 2018-05-01 --by 2018-04-01 {G}", "--by 2018-04-01"),
    (f"odds ready carrot --sown 2018-05-01 --by 2019-05-01 {G}", "--by 2019-05-01"),
    ("odds ready carrot --sown 1975-05-01 --today 1975-05-10 --garden {north}", "1982-01-01"),
    ("odds ready carrot --sown 1982-01-05 --today 1982-03-10 --garden {north}", "1982-01-01"),
    ("odds ready carrot --sown 1983-04-05 --today 1983-05-10 --garden {north}", "1 past year "),
    ("odds ready carrot --sown 2026-05-01 --today 2026-05-10 --garden {north}", "2018-12-31"),
    (f"{AGAIN.replace('2018', '2026')} --seeds 9 --up 1 --today 2026-05-10 --garden {{north}}", "2018-12-31"),
    ("odds frost --today 1983-05-10 --garden {north}", "At least 4"),
    ("weigh sow carrot --today 1983-05-10 --garden {north}", "At least 4"),
    ("odds frost --today garbage --garden {north}", "'garbage' is not a date"),
    ("weigh sow carrot --today 31.2. --garden {north}", "is not a date"),
    ("weigh sow carrot --today 2018-02-30 --garden {north}", "'2018-02-30'"),
    ("weigh sow carrot --today 9999-12-31 --garden {north}", "9999-12-31"),
    ("odds frost --today 0001-01-01 --garden {north}", "0001-01-01"),
    (f"odds frost --by soon {G}", "'soon'"),
    (f"odds ready carrot --sown yesterday {G}", "'yesterday'"),
    # odds and limits
    (f"odds frost --at-odds 6in5 {G}", "1in5"),
    (f"odds frost --at-odds often {G}", "'often' is not odds"),
    (f"odds frost --at-odds 1in0 {G}", "1in0"),
    (f"odds frost --at-odds 0% {G}", "0%"),
    (f"odds frost --below warm {G}", "'warm' is not a temperature"),
    (f"odds frost --below 99 {G}", "-30 to 20"),
    (f"odds frost --years 2 {G}", "4 or more"),
    (f"odds frost --years some {G}", "'some'"),
    (f"weigh fits --odds never {G}", "'never' is not odds"),
    (f"weigh sow carrot --germination nan {G}", "nan"),
    (f"weigh sow carrot --depth 900 {G}", "0 to 250"),
    # a garden that cannot be made
    ("new --name x --lat 95 --lon 0 --elevation 0 --garden {fresh}", "latitude"),
    ("new --name x --lat nan --lon 0 --elevation 0 --garden {fresh}", "latitude"),
    ("new --name x --lat 45 --lon 200 --elevation 0 --garden {fresh}", "longitude"),
    ("new --name x --lat 45 --lon 0 --elevation 99999 --garden {fresh}", "elevation"),
    ("new --name x --lat abc --lon 0 --elevation 0 --garden {fresh}", "--lat"),
    ("new --name x --lon 0 --elevation 0 --garden {fresh}", "--lat"),
    ("new --name x --lat 45 --lon 0 --elevation 0 --garden {north}", "already"),
    # commands
    ("frobnicate", "frobnicate"),
    ("odds rain", "rain"),
    (f"weigh sow carrot --bogus 1 {G}", "--bogus"),
]  # fmt: skip

FILES: list[tuple[str, str]] = [
    ("empty.csv", ""),
    ("words.csv", "once upon a time\nthere was a garden\n"),
    ("columns.csv", "a,b\n1,2\n"),
    ("value.csv", "date,tmin (C),tmax (C),rain (mm)\n2018-01-01,5,x,0\n"),
    ("date.csv", "date,tmin (C),tmax (C),rain (mm)\n2018-02-30,5,9,0\n"),
    ("short.dly", "USC00251450198201TMAX  100  7\n"),
    ("page.html", "<html><body>not found</body></html>"),
]


@pytest.fixture(scope="session")
def places(gardens: dict[str, Path], tmp_path_factory: pytest.TempPathFactory) -> dict[str, Path]:
    from spadework.garden.site import Site
    from spadework.store.garden_folder import create

    folder = tmp_path_factory.mktemp("places")
    create(folder / "bare", Site("Bare", 45.0, 1.0, 10.0))
    (folder / "placeless").mkdir()
    (folder / "placeless" / "garden.toml").write_text(
        'format = 1\n[site]\nname = "Nowhere"\n', encoding="utf-8"
    )
    (folder / "none").mkdir()
    return {
        "north": gardens["north"],
        "bare": folder / "bare",
        "placeless": folder / "placeless",
        "none": folder / "none",
        "fresh": folder / "fresh",
        "dly": gardens["north"].parent / "north.dly",
    }


def check(said: Any, part: str) -> str:
    assert said.code == 2
    assert "Traceback" not in said.err
    assert said.out == ""
    line = said.err.rstrip("\n")
    assert part in line
    assert "None" not in line.replace("None of", "")
    return line


@pytest.mark.parametrize(("line", "part"), REFUSED, ids=[line[:60] for line, _ in REFUSED])
def test_one_clear_line(line: str, part: str, do: Any, places: dict[str, Path]) -> None:
    words = line.format(**places).split()
    said = do(*words)
    message = check(said, part)
    assert "\n" not in message, "one line"
    assert not places["fresh"].exists()
    in_json = do(*words, "--json")
    assert in_json.code == 2
    assert in_json.err == said.err
    told = json.loads(in_json.out)
    assert set(told) == {"error", "hint"}
    assert f"{told['error']} {told['hint']}".strip() == message


@pytest.mark.parametrize(("name", "text"), FILES, ids=[name for name, _ in FILES])
def test_a_wrong_file_is_refused_whole(
    name: str, text: str, do: Any, places: dict[str, Path], tmp_path: Path
) -> None:
    path = tmp_path / name
    path.write_text(text, encoding="utf-8")
    record = places["north"] / "weather" / "daily.csv"
    before = record.read_bytes()
    words = ["weather", "add", str(path), "--garden", str(places["north"])]
    message = check(do(*words), name)
    assert "nothing was changed" in message
    assert "found" in message
    assert "allowed" in message
    assert record.read_bytes() == before
    told = json.loads(do(*words, "--json").out)
    assert set(told) == {"error", "hint"}
    assert name in told["error"]


def test_bytes_that_are_no_text_and_paths_that_are_no_file(
    do: Any, places: dict[str, Path], tmp_path: Path
) -> None:
    (tmp_path / "noise.bin").write_bytes(bytes(range(256)) * 8)
    for path in (tmp_path / "noise.bin", tmp_path / "none.csv", tmp_path):
        check(do("weather", "add", str(path), "--garden", str(places["north"])), path.name)


def test_own_numbers_that_cannot_be(do: Any, places: dict[str, Path], tmp_path: Path) -> None:
    import shutil

    garden = shutil.copytree(places["north"], tmp_path / "own")
    asked = ("weigh", "sow", "carrot", "--garden", str(garden), "--today", "2018-05-10")
    for text, part in (
        ("[carrot.development]\nready_dys = 70\n", "ready_days"),
        ("[carrot.development]\nready_days = 7000\n", "5 to 400"),
        ("[carot.development]\nready_days = 70\n", "overrides.toml"),
        ("carrot = 3\n", "overrides.toml"),
        ("[carrot\n", "overrides.toml"),
    ):
        (garden / "overrides.toml").write_text(text, encoding="utf-8")
        check(do(*asked), part)
