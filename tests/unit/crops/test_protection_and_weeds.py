"""Sheets of protection and of weeds: receipts, sense, and what reads them."""

from __future__ import annotations

import pytest

from spadework.advice.keeps_out import keeps_out, opening_mm
from spadework.clock.cover import FLEECE
from spadework.clock.cover_kinds import KINDS, covers
from spadework.crops.protection import all_protection, read_protection
from spadework.crops.troubles import all_troubles
from spadework.crops.weed import all_weeds, read_weed, weed_called, weeds_in
from spadework.errors import InputFileError
from spadework.garden.records import KitItem


def kit(sort: str, name: str, grade: str = "") -> KitItem:
    return KitItem(item=name, sort=sort, grade=grade, last={})


def test_covers_are_what_the_sheet_says() -> None:
    assert covers()["fleece"] == FLEECE
    for key, (sheet, _) in KINDS.items():
        each = all_protection()[sheet]
        assert each.night_c is not None
        assert covers()[key].night_c == each.night_c.value


def test_thicker_fleece_warms_more_and_takes_more_light() -> None:
    kinds = [covers()[key] for key in ("fleece thin", "fleece", "fleece thick")]
    assert [kind.night_c for kind in kinds] == sorted(kind.night_c for kind in kinds)
    assert [kind.light_share for kind in kinds] == sorted((kind.light_share for kind in kinds), reverse=True)


@pytest.mark.parametrize(
    ("sort", "name", "trouble", "kept"),
    [
        ("mesh", "mesh 0.8 mm", "crucifer-flea-beetle", True),
        ("mesh", "mesh 1.3 mm", "crucifer-flea-beetle", False),
        ("mesh", "insect mesh over the carrots", "crucifer-flea-beetle", None),
        ("mesh", "the long mesh", "imported-cabbageworm", True),
        ("mesh", "mesh 1.3 mm", "carrot-rust-fly", True),
        ("netting", "bird net", "imported-cabbageworm", False),
        ("fleece", "fleece 17 g", "onion-thrips", True),
        ("hoops", "hoops", "carrot-rust-fly", False),
    ],
)
def test_what_a_cover_keeps_out(sort: str, name: str, trouble: str, kept: bool | None) -> None:
    # openings after the trade's rule: 0.8 mm for flea beetles, 1.3 for root flies, 6 for white butterflies
    assert keeps_out(kit(sort, name), all_troubles()[trouble]) is kept


def test_what_no_mesh_is_told_for_is_not_said_to_be_kept_out() -> None:
    unmeshed = next(each for each in all_troubles().values() if each.mesh_mm is None)
    assert keeps_out(kit("mesh", "mesh 0.8 mm"), unmeshed) is None
    assert opening_mm(kit("hoops", "hoops")) is None


def test_weeds_are_known_by_any_name() -> None:
    assert len(all_weeds()) == 12
    assert weed_called("Quackgrass") is all_weeds()["couch-grass"]
    assert [each.key for each in weeds_in("fat hen and some shepherd's purse")] == [
        "fat-hen",
        "shepherds-purse",
    ]
    assert weed_called("carrot") is None


def test_published_warmth_to_half_up() -> None:
    # FORCELLA1997, abstract: 200 for Chenopodium album and 639 for Amaranthus, above 4.4 degC in the soil
    for key, sum_cday in (("fat-hen", 200), ("pigweed", 639)):
        weed = all_weeds()[key]
        assert weed.half_up_cday is not None
        assert weed.base_c is not None
        assert (weed.base_c.value, weed.half_up_cday.value) == (4.4, sum_cday)


def test_faults_are_said_with_their_place() -> None:
    with pytest.raises(InputFileError, match="source"):
        read_protection(
            '[x]\nname = "x"\nkind = "net"\nabout = { text = "a", class = "published" }', "p.toml"
        )
    with pytest.raises(InputFileError):
        read_weed("key = 1", "x.toml")
