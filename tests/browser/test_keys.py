"""Everything by keyboard: each page walked with the tab key, and the commonest acts done without a mouse."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

from playwright.sync_api import Page, expect

from browser.conftest import DEMO_DAY, Served, served
from browser.test_rooms import PAGES
from spadework.faces.web.ways import all_ways
from spadework.usecases.show_beds import show_bed

MORE = ("/planting/carrot-2026-2", "/plant", "/beds?bed=gate-3", "/season?try=carrot,lake-2,2026-06-20")

TAB = {"type": "rawKeyDown", "key": "Tab", "code": "Tab", "windowsVirtualKeyCode": 9}

ALIKE = ("weigh-next", "weigh-thin", "weigh-pick", "weigh-fits", "weigh-out", "weigh-again", "book-photo")
"""Made of the same parts as others that are walked."""

WATCH = """() => {
  const can = 'a[href], button, input:not([type=hidden]), select, textarea, summary, [tabindex]';
  const groups = new Set();
  const wanted = [...document.querySelectorAll(can)].filter((each) => {
    if (each.disabled || each.tabIndex < 0) return false;
    if (!each.checkVisibility({ visibilityProperty: true })) return false;
    if (each.matches('summary') && each.parentElement.querySelector('summary') !== each) return false;
    if (each.type !== 'radio') return true;
    const group = `${each.form?.action} ${each.name}`;
    return !groups.has(group) && groups.add(group);
  });
  const drawn = (each) => [each, ...each.querySelectorAll('*')].map((one) => getComputedStyle(one))
    .map((look) => [look.stroke, look.strokeWidth, look.fill].join()).join(';');
  const atRest = new Map(wanted.filter((each) => each.matches('svg g')).map((each) => [each, drawn(each)]));
  const bar = document.querySelector('.rooms');
  const walk = { wanted, seen: [], faults: [] };
  const fault = (what, each) => walk.faults.push(`${what}: ${each.outerHTML.slice(0, 110)}`);
  for (const each of wanted) if (each.tabIndex > 0) fault('out of order', each);
  const held = (each) => {
    const look = getComputedStyle(each);
    if (look.outlineStyle !== 'none' && parseFloat(look.outlineWidth)) return true;
    if (look.boxShadow !== 'none') return true;
    return atRest.has(each) && atRest.get(each) !== drawn(each);
  };
  document.addEventListener('focusin', ({ target }) => {
    if (walk.seen.includes(target) || !wanted.includes(target)) return;
    const before = walk.seen.at(-1);
    walk.seen.push(target);
    const follows = before?.compareDocumentPosition(target) & Node.DOCUMENT_POSITION_FOLLOWING;
    if (before && !follows) fault('jumps back to', target);
    if (!held(target)) fault('not seen to be held', target);
    if (!bar || bar.contains(target) || getComputedStyle(bar).position !== 'fixed') return;
    const under = target.getBoundingClientRect().top >= bar.getBoundingClientRect().top;
    if (under) fault('hidden under the bar', target);
  });
  window.walk = walk;
  return wanted.length;
}"""
"""Listens to what is held by the keyboard; gives how much there is to hold."""

LEFT = """() => walk.wanted.filter((each) => !walk.seen.includes(each)
  && !(each.type === 'radio' && walk.seen.some((one) => one.type === 'radio' && one.name === each.name)))
  .map((each) => each.outerHTML.slice(0, 110))"""


def addresses(page: Page) -> Iterator[str]:
    """Every page that needs no name, one of each that does, and a job of the round."""
    yield from dict.fromkeys(
        [
            *(way.path for way in all_ways() if not way.post and not set("{.") & set(way.path)),
            *(address for name, address in PAGES.items() if name not in ALIKE),
            *MORE,
            page.locator(".why-link").first.get_attribute("href") or "",
        ]
    )


def test_every_page_is_walked_through_with_the_tab_key(demo: Served, visit: Callable[..., Page]) -> None:
    page = visit(demo.address)
    keys = page.context.new_cdp_session(page)
    faults, walked = [], 0
    for address in list(addresses(page)):
        answer = page.goto(demo.address + address, wait_until="domcontentloaded")
        assert answer is not None
        if not answer.ok or "text/html" not in answer.headers.get("content-type", ""):
            assert answer.status != 500, address
            continue
        page.locator("main").wait_for()
        wanted = page.evaluate(WATCH)
        left: list[str] = ["not begun"]
        # a field of parts, such as a date, takes the key more than once
        for presses in (wanted, 60, 60, wanted):
            for _ in range(presses):
                keys.send("Input.dispatchKeyEvent", TAB)
            left = page.evaluate(LEFT)
            if not left:
                break
        faults += [f"{address}: not reached: {each}" for each in left[:4]]
        faults += [f"{address}: {each}" for each in page.evaluate("walk.faults")[:4]]
        walked += 1
    assert not faults, "\n".join(faults)
    assert walked >= 30


def tab_to(page: Page, wanted: str) -> None:
    """Press the tab key until what answers to a selector is held."""
    for _ in range(150):
        page.keyboard.press("Tab")
        if page.evaluate("wanted => document.activeElement.matches(wanted)", wanted):
            return
    raise AssertionError(f"{wanted} is not reached by the tab key")


def test_the_commonest_acts_need_no_mouse(demo_copy: Path, visit: Callable[..., Page]) -> None:
    with served(demo_copy, "--today", DEMO_DAY.isoformat()) as here:
        page = visit(here.address, size="desk")
        said = page.locator("#said")
        # past the head of the page at once
        page.keyboard.press("Tab")
        page.keyboard.press("Enter")
        expect(page.locator("main")).to_be_focused()

        # put a job off, and take that back
        act = page.locator(".job h2").first.inner_text()
        tab_to(page, ".job .more > summary")
        page.keyboard.press("Enter")
        tab_to(page, ".put-off .chip")
        page.keyboard.press("Enter")
        expect(said).to_contain_text("Put off")
        expect(page.locator(".stop-list")).not_to_contain_text(act)
        page.keyboard.press("Shift+Tab")
        expect(said.get_by_role("button")).to_be_focused()
        page.keyboard.press("Enter")
        expect(said).to_contain_text("Taken back")
        expect(page.locator(".stop-list")).to_contain_text(act)

        # say a line
        page.goto(f"{here.address}/book")
        tab_to(page, "[name=line]")
        page.keyboard.type("note: the robin sings by the tunnel")
        tab_to(page, "button")
        page.keyboard.press("Enter")
        expect(said).to_contain_text("robin")

        # move a bed and save it
        page.goto(f"{here.address}/beds?bed=gate-3")
        before = show_bed(demo_copy, DEMO_DAY, "gate-3").y_m
        assert before is not None
        tab_to(page, "[data-grip=move]")
        page.keyboard.press("ArrowDown")
        tab_to(page, "#bed-form button")
        page.keyboard.press("Enter")
        expect(said).to_contain_text("In the book")
        after = show_bed(demo_copy, DEMO_DAY, "gate-3").y_m
        assert after is not None
        assert abs(after - (before - 0.05)) < 1e-6
