"""What holds for every page: nothing axe can find, no sideways scroll, one heading, room for a thumb."""

from __future__ import annotations

from typing import Final

from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page

RULES: Final = ("wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice")
NARROW: Final = 360
ZOOMED: Final = 640
"""A desk of 1280 points at 200 % shows as many."""

_WIDE: Final = """() => [...document.querySelectorAll('main *')]
  .filter(each => each.getBoundingClientRect().right > innerWidth + 1 && !each.closest('.scroll'))
  .slice(0, 3).map(each => each.outerHTML.slice(0, 120))"""

_SMALL: Final = """() => [...document.querySelectorAll(
    'main button, main a.button, main a.chip, main summary, nav a, main input, main select')]
  .filter(each => !['hidden', 'checkbox', 'radio', 'range'].includes(each.type))
  .filter(each => { const box = each.getBoundingClientRect();
    return box.width && box.height && (box.height < 43.5 || box.width < 24) })
  .slice(0, 5).map(each => each.outerHTML.slice(0, 120))"""

_UNNAMED: Final = """() => [...document.querySelectorAll('svg')]
  .filter(each => !each.closest('[aria-hidden]') && !each.getAttribute('aria-label')
    && !each.querySelector('title'))
  .map(each => each.outerHTML.slice(0, 100))"""


def fair(page: Page) -> None:
    """Fail with every fault of an open page: at its own size, on a narrow phone, and enlarged twice."""
    page.locator("main").wait_for()
    found = Axe().run(page, options={"runOnly": list(RULES)})
    faults = [
        f"{each['id']}: {each['help']}: {[node['html'][:160] for node in each['nodes'][:4]]}"
        for each in found.response["violations"]
    ]
    if (headings := page.locator("h1").count()) != 1:
        faults.append(f"{headings} headings of the first rank")
    size = page.viewport_size
    assert size is not None
    for width in sorted({size["width"], NARROW, ZOOMED}):
        page.set_viewport_size({"width": width, "height": size["height"]})
        over = page.evaluate("document.documentElement.scrollWidth - innerWidth")
        if over > 0:
            faults.append(f"{over} points wider than a screen of {width}: {page.evaluate(_WIDE)}")
    page.set_viewport_size(size)
    faults += [f"too small for a thumb: {each}" for each in page.evaluate(_SMALL)]
    faults += [f"a picture without words: {each}" for each in page.evaluate(_UNNAMED)]
    assert not faults, "\n".join(faults)
