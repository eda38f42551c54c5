"""The book: lines heard with answers to choose of, an act at hand, a photo, a correction."""

from __future__ import annotations

import re
import struct
import zlib
from collections.abc import Callable
from pathlib import Path

from playwright.sync_api import Page, expect

from browser.checks import fair
from browser.conftest import DEMO_DAY, picture, served


def _png(wide: int, high: int) -> bytes:
    def chunk(kind: bytes, body: bytes) -> bytes:
        return struct.pack(">I", len(body)) + kind + body + struct.pack(">I", zlib.crc32(kind + body))

    rows = b"".join(b"\x00" + bytes([60, 120, 70] * wide) for _ in range(high))
    head = b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", struct.pack(">IIBBBBB", wide, high, 8, 2, 0, 0, 0))
    return head + chunk(b"IDAT", zlib.compress(rows)) + chunk(b"IEND", b"")


def test_lines_photo_act_and_correction(demo_copy: Path, visit: Callable[..., Page], tmp_path: Path) -> None:
    with served(demo_copy, "--today", DEMO_DAY.isoformat()) as here:
        page = visit(f"{here.address}/book", size="desk")
        line = page.get_by_label("Say it in a line")

        # two lines, one of which has to be asked about: a choice settles it, and Enter writes both
        line.fill("tied up peas\npicked 900 g rhubarb")
        page.locator("#heard").get_by_role("button", name=re.compile("Shed 2")).click()
        expect(page.locator("#heard .understood").first).to_contain_text("peas in Shed 2")
        expect(page.locator("#heard .asked")).to_have_count(0)
        picture(page, "book-heard-desk")
        line.press("Enter")
        expect(page.locator("#said")).to_contain_text("Picked 900 g of rhubarb")
        expect(line).to_have_value("")

        # what was said wrongly is corrected, and stays in the book as corrected
        entry = page.locator(".entry", has_text="Picked 900 g of rhubarb").first
        entry.locator("summary").press("Enter")
        entry.get_by_role("link", name="Correct it").click()
        expect(page.locator("h1")).to_have_text("Correct an entry")
        fair(page)
        picture(page, "correct-desk")
        page.get_by_label("Weight (kg)").fill("1.9")
        page.get_by_role("button", name="Correct it").click()
        expect(page.locator("h1")).to_have_text("The book")
        expect(page.locator("#said")).to_contain_text("Corrected: Picked 1.9 kg of rhubarb")
        page.goto(f"{here.address}/book?crop=rhubarb&kind=picked&first=2026-06-12")
        expect(page.locator(".entry:not(.corrected)")).to_have_count(1)
        expect(page.locator(".entry.corrected")).to_contain_text("900 g")

        # one of the acts at hand, with its number
        page.goto(f"{here.address}/book")
        act = page.locator(".act", has=page.get_by_label("Water given (litres)", exact=True)).first
        act.locator("summary").press("Enter")
        act.get_by_label("Water given (litres)").fill("6")
        act.get_by_role("button", name=re.compile("Into the book|Done")).click()
        expect(page.locator("#said")).to_contain_text("6 litres")

        # a photo: made smaller, shown at its bed and in the book
        photo = tmp_path / "large.png"
        photo.write_bytes(_png(2400, 300))
        page.goto(f"{here.address}/book/photo?of=shed-2")
        page.get_by_label("The photo").set_input_files(photo)
        expect(page.locator("#preview")).to_be_visible()
        page.get_by_label("What is to be seen").fill("peas after the storm")
        page.get_by_role("button", name="Into the book").click()
        shown = page.get_by_alt_text("peas after the storm")
        expect(shown).to_be_visible()
        expect(shown).to_have_js_property("naturalWidth", 1800)
        fair(page)
