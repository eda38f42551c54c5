"""Beds changed on the plan: by finger, mouse, keys and numbers, as one act that can be taken back."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from browser.checks import fair
from browser.conftest import DEMO_DAY, picture, served
from spadework.usecases.change_bed import change_bed
from spadework.usecases.show_beds import show_bed
from spadework.usecases.write_answer import Writing

PHONE_DRAG = """(grip) => {
  const box = grip.getBoundingClientRect();
  const x = box.x + box.width / 2, y = box.y + box.height / 2;
  const send = (type, dx, dy) => grip.dispatchEvent(new PointerEvent(type, {
    pointerId: 7, pointerType: 'touch',
    isPrimary: true, bubbles: true, cancelable: true, clientX: x + dx, clientY: y + dy }));
  send('pointerdown', 0, 0); send('pointermove', 0, 20); send('pointermove', 0, 40); send('pointerup', 0, 40);
}"""


def _north(page: Page) -> float:
    return float(page.get_by_label("North").input_value().removesuffix(" m"))


def test_a_bed_moved_turned_and_sized_at_the_desk(demo_copy: Path, visit: Callable[..., Page]) -> None:
    with served(demo_copy, "--today", DEMO_DAY.isoformat()) as here:
        page = visit(f"{here.address}/beds", size="desk")
        picture(page, "beds-desk")
        fair(page)
        page.locator("main").get_by_role("link", name="Gate 3", exact=True).click()
        expect(page.get_by_role("heading", level=1)).to_have_text("Change Gate 3")
        where = page.locator("#where")
        page.get_by_role("button", name="Move Gate 3").focus()
        page.keyboard.press("Shift+ArrowDown")
        page.keyboard.press("ArrowDown")
        expect(where).to_contain_text("-0.55 m north")
        page.get_by_role("slider", name="Turn Gate 3").focus()
        page.keyboard.press("ArrowRight")
        expect(where).to_contain_text("turned 359°")
        page.keyboard.press("ArrowLeft")
        page.get_by_role("button", name="Size of Gate 3").focus()
        page.keyboard.press("Shift+ArrowUp")
        expect(page.get_by_label("Length")).to_have_value("4.5 m")
        picture(page, "beds-changing-desk")
        fair(page)
        # by mouse: two metres down, whatever the picture's size
        grip = page.get_by_role("button", name="Move Gate 3")
        box = grip.bounding_box()
        assert box is not None
        before = _north(page)
        page.mouse.move(box["x"] + box["width"] / 2, box["y"] + box["height"] / 2)
        page.mouse.down()
        page.mouse.move(box["x"] + box["width"] / 2, box["y"] + box["height"] / 2 + 30)
        page.mouse.up()
        expect(page.get_by_label("North")).not_to_have_value(f"{before:g} m")
        assert _north(page) < before - 0.5
        north = _north(page)
        page.get_by_role("button", name="Save it").click()
        expect(page.locator("#said")).to_contain_text("In the book")
        found = show_bed(demo_copy, DEMO_DAY, "gate-3")
        assert found.y_m is not None
        assert abs(found.y_m - north) < 0.001
        assert found.length_m == 4.5
        page.get_by_role("button", name="Take it back").click()
        expect(page.locator("#said")).to_contain_text("Taken back")
        assert show_bed(demo_copy, DEMO_DAY, "gate-3").length_m == 5.0


def test_a_bed_under_a_finger_and_a_second_keeper(demo_copy: Path, visit: Callable[..., Page]) -> None:
    with served(demo_copy, "--today", DEMO_DAY.isoformat()) as here:
        page = visit(f"{here.address}/beds?bed=gate-1", size="phone")
        grip = page.get_by_role("button", name="Move Gate 1")
        expect(grip).to_be_visible()
        grip.evaluate(PHONE_DRAG)
        expect(page.locator("#where")).to_contain_text("Not saved yet")
        mine = _north(page)
        assert mine < -0.5
        picture(page, "beds-changing-phone")
        fair(page)
        change_bed(demo_copy, Writing(today=DEMO_DAY, by="odo"), "gate-1", {"y_m": -0.2})
        page.get_by_role("button", name="Save it").click()
        asked = page.get_by_role("alert")
        expect(asked).to_contain_text("Odo changed Gate 1")
        expect(asked).to_contain_text("-0.20 m")
        assert _north(page) == mine
        picture(page, "beds-asked-phone")
        page.get_by_role("button", name="write it all the same").click()
        expect(page.locator("#said")).to_contain_text("In the book")
        found = show_bed(demo_copy, DEMO_DAY, "gate-1")
        assert found.y_m is not None
        assert abs(found.y_m - mine) < 0.001


def test_a_bed_is_made_and_taken_up(demo_copy: Path, visit: Callable[..., Page]) -> None:
    with served(demo_copy, "--today", DEMO_DAY.isoformat()) as here:
        page = visit(f"{here.address}/beds?new=1", size="phone")
        page.get_by_label("Width").fill("very wide")
        page.get_by_label("What it is called").fill("Nursery")
        page.get_by_role("button", name="Make it").click()
        expect(page.get_by_role("alert")).to_contain_text("is no length")
        page.get_by_label("Width").fill("90 cm")
        picture(page, "beds-new-phone")
        page.get_by_role("button", name="Make it").click()
        expect(page.locator("#said")).to_contain_text("In the book")
        page.locator("main").get_by_role("listitem").get_by_role("link", name="Nursery").click()
        expect(page.get_by_role("heading", level=1)).to_have_text("Change Nursery")
        assert show_bed(demo_copy, DEMO_DAY, "nursery").width_m == 0.9
        page.get_by_text("Take Nursery up").click()
        page.get_by_role("button", name="Take it up").click()
        expect(page.locator("#said")).to_contain_text("In the book")
        expect(page.get_by_role("heading", level=1)).to_have_text("Change the beds")
        expect(page.locator("main").get_by_role("link", name="Nursery")).to_have_count(0)


def inches(text: str) -> float:
    """A length as the form writes it in feet and inches."""
    found = re.fullmatch(r"(-?)(?:(\d+) ft)? ?(?:([\d.]+) in)?", text)
    assert found, text
    return (-1 if found[1] else 1) * (12 * int(found[2] or 0) + float(found[3] or 0))


def test_a_bed_is_drawn_in_feet_and_inches(demo_copy: Path, visit: Callable[..., Page]) -> None:
    settings = demo_copy / "garden.toml"
    settings.write_text(settings.read_text().replace('units = "metric"', 'units = "us"'))
    with served(demo_copy, "--today", DEMO_DAY.isoformat()) as here:
        page = visit(f"{here.address}/beds?bed=gate-3", size="desk")
        expect(page.locator("#how-to-move")).to_contain_text("5 feet")
        width, length = page.get_by_label("Width"), page.get_by_label("Length")
        assert inches(width.input_value()) == pytest.approx(47.2)  # 1.2 m, as it was set out
        grip = page.get_by_role("button", name="Size of Gate 3")
        grip.scroll_into_view_if_needed()
        box = grip.bounding_box()
        assert box is not None
        x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
        page.mouse.move(x, y)
        page.mouse.down()
        page.mouse.move(x - 7, y - 8, steps=4)
        page.mouse.up()
        expect(width).not_to_have_value("3 ft 11.2 in")
        sides = [inches(each.input_value()) for each in (width, length)]
        assert all(side % 2 == 0 for side in sides), sides
        where = page.locator("#where")
        expect(where).to_contain_text(f"{width.input_value()} by {length.input_value()}")
        assert not re.search(r"\d m\b", where.inner_text())
        # a foot at a time with shift, two inches without
        grip.focus()
        page.keyboard.press("Shift+ArrowRight")
        page.keyboard.press("ArrowRight")
        assert inches(width.input_value()) == sides[0] + 14
        picture(page, "beds-in-feet")
        fair(page)
        page.get_by_role("button", name="Save it").click()
        expect(page.locator("#said")).to_contain_text("In the book")
        assert "ft" in page.locator("#said").inner_text()
        found = show_bed(demo_copy, DEMO_DAY, "gate-3")
        assert found.width_m == pytest.approx((sides[0] + 14) * 0.0254, abs=1e-3)
        assert found.length_m == pytest.approx(sides[1] * 0.0254, abs=1e-3)
        page.reload()
        expect(page.get_by_label("Width")).not_to_have_value("")
        assert inches(page.get_by_label("Width").input_value()) == sides[0] + 14
