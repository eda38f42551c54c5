"""Sheets of insects, slugs, mites and eelworms: totals as printed, and each reads as advice."""

from __future__ import annotations

import pytest

from spadework.crops import load_sheet
from spadework.crops.trouble import Event, Trouble
from spadework.crops.troubles import all_troubles, at_home, hosted_by, trouble, trouble_names

PESTS = (
    "seedcorn maggot",
    "cabbage maggot",
    "carrot rust fly",
    "carrot weevil",
    "imported cabbageworm",
    "diamondback moth",
    "cabbage looper",
    "crucifer flea beetle",
    "Colorado potato beetle",
    "striped cucumber beetle",
    "spotted cucumber beetle",
    "squash bug",
    "Mexican bean beetle",
    "spinach leafminer",
    "cabbage aphid",
    "green peach aphid",
    "onion thrips",
    "corn earworm",
    "European corn borer",
    "tomato hornworm",
    "grey field slug",
    "wireworm",
    "garden symphylan",
    "root-knot nematode",
    "Japanese beetle",
    "black cutworm",
    "aster leafhopper",
    "onion maggot",
    "squash vine borer",
    "asparagus beetle",
    "spider mite",
)

TOTALS = [
    # name, event, base C, total as printed in degC day: low and high where printed; where it is printed
    ("seedcorn maggot", "first-flight", 3.9, 360 / 1.8, 350),  # SDSU_SCM2024; OMAFRA2024
    ("cabbage maggot", "first-flight", 6.1, 300 / 1.8, 398),  # WIDATCP2013; OMAFRA2024
    ("cabbage maggot", "third-flight", 6.1, 1446, 1604),  # OMAFRA2024 (Wisconsin between: 2652 F)
    ("carrot rust fly", "first-flight", 5, 236, 236),  # CRF_ONT1983
    ("carrot weevil", "eggs-begin", 7, 138, 156),  # OMAFRA2024
    ("imported cabbageworm", "butterflies", 10, 150 / 1.8, 240 / 1.8),  # UW_XHT1087
    ("Colorado potato beetle", "big-grubs", 10, 400 / 1.8, 400 / 1.8),  # UW_XHT1087
    ("cabbage aphid", "grown", 4, 142.9, 142.9),  # SATAR2005
    ("onion thrips", "next-brood", 8.1, 221, 221),  # JAMIESON2012
    ("corn earworm", "moth-to-moth", 12.6, 872.8 / 1.8, 872.8 / 1.8),  # UCIPM_CEW
    ("European corn borer", "summer-hatch", 10, 1550 / 1.8, 1550 / 1.8),  # UW_XHT1087
    ("Japanese beetle", "beetles-out", 10, 1030 / 1.8, 1030 / 1.8),  # ISU_JB2013
    ("black cutworm", "cutting", 10.4, 225 / 1.8, 225 / 1.8),  # UCIPM_BCW
]

CLOCKS = {
    # what a total belongs to: start, method, cut-off, upper limit
    ("seedcorn maggot", "first-flight"): ("01-01", "average", "horizontal", 29),
    ("cabbage maggot", "first-flight"): ("04-01", "average", "none", None),
    ("carrot rust fly", "second-flight"): ("03-01", "modified-average", "none", 20),
    ("corn earworm", "first-eggs"): ("moths-in", "single-sine", "intermediate", 33.3),
    ("European corn borer", "first-moths"): ("01-01", "modified-average", "none", 30),
    ("black cutworm", "at-rest"): ("hatch", "single-sine", "horizontal", 30),
}


def _insects() -> list[Trouble]:
    return [each for each in all_troubles().values() if each.kind == "insect"]


def _event(name: str, key: str) -> Event:
    return next(event for event in trouble(name).events if event.key == key)


@pytest.mark.parametrize("name", PESTS)
def test_each_pest_of_the_list_has_a_sheet(name: str) -> None:
    assert trouble(name).kind == "insect"
    assert trouble(name).events


@pytest.mark.parametrize(("name", "key", "base_c", "low", "high"), TOTALS)
def test_totals_are_as_printed(name: str, key: str, base_c: float, low: float, high: float) -> None:
    event = _event(name, key)
    assert event.base_c == base_c
    assert event.provenance == "published"
    assert event.total is not None
    assert event.total.least == pytest.approx(low, abs=0.06)
    assert event.total.most == pytest.approx(high, abs=0.06)


@pytest.mark.parametrize(("whole", "clock"), CLOCKS.items())
def test_a_total_keeps_the_clock_it_was_printed_with(
    whole: tuple[str, str], clock: tuple[str, str, str, float | None]
) -> None:
    event = _event(*whole)
    assert (event.start, event.method, event.cutoff, event.upper_c) == clock


def test_stages_of_the_corn_earworm_add_up_to_its_broods() -> None:
    # UCIPM_CEW prints the stages and the sums; egg, small and big caterpillar, pupa, then adult to first egg
    stages = ("small-caterpillars", "big-caterpillars", "caterpillars-in-soil", "next-moths")
    grown = sum(total.value for key in stages if (total := _event("corn earworm", key).total))
    whole, brood = (_event("corn earworm", key).total for key in ("egg-to-moth", "moth-to-moth"))
    first = _event("corn earworm", "first-eggs").total
    assert whole is not None
    assert brood is not None
    assert first is not None
    assert grown == pytest.approx(whole.value, abs=0.1)
    assert grown + first.value == pytest.approx(brood.value, abs=0.1)


@pytest.mark.parametrize("each", _insects(), ids=lambda each: each.key)
def test_each_sheet_reads_as_advice(each: Trouble) -> None:
    assert 5 <= len(each.signs) <= 12
    assert len({shown.sign for shown in each.signs}) == len(each.signs)
    assert max(shown.often.value for shown in each.signs) >= 0.7, "no sign it is known by"
    assert 0 < each.usual.value <= 0.5
    assert not set(each.hosts) & set(each.poor_hosts)
    assert len({favour.when for favour in each.favours}) == len(each.favours)
    assert each.stops
    assert each.keep_or_pull
    assert each.alike
    assert any(remedy.now for remedy in each.remedies), "nothing to do before dark"
    assert all(remedy.kit in ("", "mesh", "film") for remedy in each.remedies)
    treated = [at for at, remedy in enumerate(each.remedies) if "label" in remedy.act]
    assert treated in ([], [len(each.remedies) - 1]), "treating comes last"
    for at in treated:
        act = each.remedies[at].act
        assert "as their label says" in act or ("the label is the law" in act and "bees" in act)


@pytest.mark.parametrize("each", _insects(), ids=lambda each: each.key)
def test_what_harms_or_lays_begins_by_itself_and_ends(each: Trouble) -> None:
    events = {event.key: event for event in each.events}
    assert len(events) == len(each.events)
    assert any(event.harms for event in each.events)
    for event in each.events:
        if event.harms or event.lays:
            assert event.lasts is not None or event.clock == "season", event.key
        assert event.start != "seen", f"{event.key} never comes unless seen"


def test_a_name_stands_for_one_trouble() -> None:
    told = [
        (" ".join(name.casefold().replace("-", " ").split()), each.key)
        for each in all_troubles().values()
        for name in {each.name, *each.names, each.latin} - {""}
    ]
    assert sorted(told) == sorted((name, key) for name, key in told if trouble_names()[name] == key)


@pytest.mark.parametrize(
    ("crop", "first", "never"),
    [
        ("radish", ("crucifer-flea-beetle", "cabbage-maggot"), ("carrot-rust-fly", "squash-bug")),
        ("carrot", ("carrot-rust-fly",), ("cabbage-maggot", "onion-maggot", "crucifer-flea-beetle")),
        ("summer-squash", ("striped-cucumber-beetle", "squash-bug"), ("tomato-hornworm",)),
        ("tomato", ("tomato-hornworm", "black-cutworm"), ("squash-bug", "mexican-bean-beetle")),
        ("bush-bean", ("field-slug", "mexican-bean-beetle"), ("squash-bug", "cabbage-maggot")),
        ("onion", ("onion-thrips", "onion-maggot"), ("cabbage-maggot", "carrot-rust-fly")),
        ("lettuce", ("field-slug", "green-peach-aphid"), ("crucifer-flea-beetle", "onion-maggot")),
        ("potato", ("colorado-potato-beetle", "wireworm"), ("onion-maggot", "spinach-leafminer")),
        ("chard", ("spinach-leafminer", "field-slug"), ("carrot-rust-fly",)),
        ("sweet-corn", ("corn-earworm", "european-corn-borer"), ("squash-bug", "cabbage-aphid")),
    ],
)
def test_what_comes_to_a_crop_reads_true(crop: str, first: tuple[str, ...], never: tuple[str, ...]) -> None:
    family = load_sheet(crop).family
    hosted = {each.key: hosted_by(each, crop, family) for each in _insects()}
    assert all(hosted[key] == 1 for key in first)
    assert all(hosted[key] == 0 for key in never)


def test_some_live_in_one_part_of_the_world_only() -> None:
    borer, fly = trouble("squash vine borer"), trouble("bean seed fly")
    assert at_home(borer, "north america")
    assert not at_home(borer, "europe")
    assert at_home(fly, "oceania"), "everywhere where nothing is said"
    assert not at_home(trouble("groundhog"), "asia")
