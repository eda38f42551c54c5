"""The demo: an invented garden, and a short walk past real answers."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from spadework.faces.cli.common import Common
from spadework.faces.cli.say import wrapped

DEMO_DAY = (5, 20)
"""The demo is asked as of 20 May: late enough for sowings of every kind, early enough for frost to matter."""


def demo(*, common: Common | None = None) -> None:
    """Make the demo garden and ask it seven questions."""
    from spadework.faces.cli.main import run_quietly
    from spadework.usecases.demo_garden import DEMO_NAME, make_demo

    common = common or Common()
    folder = common.garden if common.garden != Path() else Path("demo-garden")
    today = common.day if common.today is not None else date(date.today().year, *DEMO_DAY)
    make_demo(folder, today)
    print(
        wrapped(
            f"{DEMO_NAME} is an invented garden beside a lake, with made weather. It stands in {folder}; "
            f"asked as of {today.isoformat()}."
        )
    )
    sown = date(today.year, 5, 2).isoformat()
    tour = (
        "odds frost --at-odds 1in5",
        "weigh sow carrot",
        f"weigh sow-again carrot --sown {sown} --seeds 150 --up 12",
        f"odds ready potato --sown {sown}",
        "odds ready tomato --set-out " + date(today.year, 6, 1).isoformat(),
        "weigh sow",
        "law emergence-days crop=parsnip soil_c=10",
    )
    for line in tour:
        print(f"\n{'─' * 78}\n$ spadework {line}\n")
        run_quietly([*line.split(), "--garden", str(folder), "--today", today.isoformat()])
