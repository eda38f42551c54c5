"""What the days printed on packets come to at four places: the table of the page on accuracy, measured again.

Asked on 1 November of the last year of each record, of its last thirty years, on bare moist ground.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from datetime import date, timedelta
from functools import cache
from pathlib import Path

import numpy as np
import pytest

from ghcn_fixture import climate_series
from seasons import SITES
from spadework.advice.autumn import is_set_in_autumn
from spadework.clock.ground import SPIN_UP_DAYS, Ground
from spadework.clock.packet import SPRING_DAYS, convert, raised_only, raising_days, usual_start
from spadework.crops.loader import all_sheets
from spadework.weather.years import build_years

PAGE = Path(__file__).resolve().parents[3] / "docs" / "accuracy.md"
PLACES = ("champion", "norfolk", "brussels", "cordoba")


@dataclass
class Counted:
    """Ratios of a packet's warmth to the sheet's, usual days, and crops that have none."""

    cool: list[float] = field(default_factory=list)
    others: list[float] = field(default_factory=list)
    days: dict[str, date] = field(default_factory=dict)
    without: list[str] = field(default_factory=list)


@cache
def counted(place: str) -> Counted:
    record, site = climate_series(place), SITES[place]
    year = int(str(record.end)[:4])
    today = date(year, 11, 1)

    def ground(start: date, days: int) -> Ground:
        first = start - timedelta(days=SPIN_UP_DAYS)
        years = build_years(record, first, SPIN_UP_DAYS + days, today, need_seen=False)
        return Ground(site, years, "bare-moist")

    spring = ground(date(year + 1, 7 if site.south else 1, 1), SPRING_DAYS)
    found = Counted()
    for sheet in all_sheets().values():
        packet, since = sheet.development.packet_days, sheet.development.packet_from
        if packet is None or not since or is_set_in_autumn(sheet) or "crowns" in sheet.propagation:
            continue
        raised = since == "sowing" and raised_only(sheet)
        column = usual_start(sheet, spring, SPIN_UP_DAYS, "setting out" if raised else since)
        if column is None:
            found.without.append(sheet.key)
            continue
        start = spring.dates[column].item() - timedelta(days=raising_days(sheet) if raised else 0)
        ratio = convert(sheet, ground(start, int(packet.value) + 2), SPIN_UP_DAYS, packet.value, since).ratio
        (found.cool if sheet.season == "cool" and since == "sowing" else found.others).append(ratio)
        found.days[sheet.key] = start
    return found


def row(place: str) -> str:
    """One place as the page prints it."""
    found = counted(place)
    ratios = [
        ", ".join(f"{share:.2f}" for share in np.percentile(group, (10, 50, 90)))
        for group in (found.cool, found.others)
    ]
    days = [f"{found.days[crop].day} {found.days[crop]:%b}" for crop in ("carrot", "tomato")]
    return f"| {place.capitalize()} | {' | '.join((*ratios, *days))} |"


@pytest.mark.parametrize("place", PLACES)
def test_the_page_prints_what_is_measured(place: str) -> None:
    printed = re.search(
        rf"^\| {place.capitalize()} \| [\d., ]+ \| [\d., ]+ \| \d+ \w+ \| .*$", PAGE.read_text(), re.M
    )
    assert printed is not None
    assert printed[0] == row(place)


def test_cool_summers_leave_some_crops_without_a_usual_day() -> None:
    assert len(counted("norfolk").without) == 6
    assert not counted("champion").without
    assert all(all_sheets()[crop].season == "warm" for crop in counted("norfolk").without)
