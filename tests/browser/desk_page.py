"""What the tests of the lead's desk share: browsers of its two sizes, keys alone, and what every screen must hold to."""

from collections import Counter
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, BrowserContext, Locator, Page, expect

SIZES = {"1280": {"width": 1280, "height": 800}, "1920": {"width": 1920, "height": 1080}}
ENHANCED = {"rules": {"color-contrast-enhanced": {"enabled": True}}}


@contextmanager
def desk(browser: Browser, address: str, size: str) -> Iterator[BrowserContext]:
    """Give a browser of a size on which nobody is signed in yet."""
    context = browser.new_context(
        base_url=address, viewport=SIZES[size], locale="en-GB", timezone_id="Europe/Berlin"
    )
    try:
        yield context
    finally:
        context.close()


def heard(page: Page) -> list[str]:
    """Gather what the console complains of, and every request to another server."""
    said: list[str] = []
    page.on("console", lambda m: said.append(m.text) if m.type == "error" else None)
    page.on("pageerror", lambda error: said.append(str(error)))
    ours = ("http://127.0.0.1", "data:", "blob:")
    page.on("request", lambda r: None if r.url.startswith(ours) else said.append(r.url))
    return said


def assert_sound(page: Page) -> None:
    """No fault that axe sees, 7:1 in light and dark, nothing wider than the screen, no small target."""
    for scheme in ("dark", "light"):
        page.emulate_media(color_scheme=scheme)
        found = Axe().run(page, options=ENHANCED)
        assert found.violations_count == 0, found.generate_report()
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
    low = page.evaluate(
        "[...document.querySelectorAll('.desk :is(a, button, input, select, summary)')]"
        ".filter(e => !(e.type === 'radio' || e.type === 'checkbox'))"
        ".map(e => [e.getBoundingClientRect().height, e.textContent || e.id])"
        ".filter(([height]) => height > 0 && height < 48)"
    )
    assert low == []


def keep(page: Page, shots: Path | None, name: str) -> None:
    """Keep pictures of a screen, light and dark, where the environment names a folder."""
    if shots is None:
        return
    for scheme in ("dark", "light"):
        page.emulate_media(color_scheme=scheme)
        page.screenshot(
            path=shots / f"desk-{name}-{page.viewport_size['width']}-{scheme}.png", full_page=True
        )


def tab_to(page: Page, wanted: Locator, most: int = 150) -> None:
    """Press Tab until the wanted thing has the focus, as somebody without a mouse does."""
    expect(wanted).to_be_visible()
    for _ in range(most):
        if wanted.evaluate("element => element === document.activeElement"):
            return
        page.keyboard.press("Tab")
    raise AssertionError(f"{most} presses of Tab do not lead to {wanted}")


def press(page: Page, wanted: Locator, key: str = "Enter") -> None:
    """Go to a thing by keys and press it."""
    tab_to(page, wanted)
    page.keyboard.press(key)


def write(page: Page, wanted: Locator, text: str) -> None:
    """Go to a box by keys and write into it."""
    tab_to(page, wanted)
    page.keyboard.press("Control+A")
    page.keyboard.type(text)


def sign_in(page: Page, name: str = "Lee", pin: str = "3141") -> None:
    """Sign in by keys alone."""
    write(page, page.get_by_label("Your name"), name)
    write(page, page.get_by_label("Your PIN"), pin)
    page.keyboard.press("Enter")
    expect(page.get_by_label("Your PIN")).to_have_count(0)


def processor_ms(page: Page, act: Any) -> list[float]:
    """Give the milliseconds of processor time of each task of the page's main thread while something is done.

    Other than `long_tasks` it does not grow when other processes want the processor.
    """
    session, events, over = page.context.new_cdp_session(page), [], []
    session.on("Tracing.dataCollected", lambda told: events.extend(told["value"]))
    session.on("Tracing.tracingComplete", lambda told: over.append(told))
    session.send(
        "Tracing.start", {"categories": "toplevel,devtools.timeline", "transferMode": "ReportEvents"}
    )
    act()
    session.send("Tracing.end")
    while not over:
        page.wait_for_timeout(50)
    session.detach()
    paints = Counter((e["pid"], e["tid"]) for e in events if e["name"] == "Paint")
    main = paints.most_common(1)[0][0]
    tasks = [
        e for e in events if e["name"] == "ThreadControllerImpl::RunTask" and (e["pid"], e["tid"]) == main
    ]
    return [e.get("tdur", 0) / 1000 for e in tasks]


def long_tasks(page: Page, act: Any) -> list[float]:
    """Give the milliseconds of every task over 50 ms while something is done."""
    page.evaluate(
        "() => { window.tasks = []; window.watcher = new PerformanceObserver("
        "list => tasks.push(...list.getEntries().map(e => e.duration)));"
        "watcher.observe({ type: 'longtask' }) }"
    )
    act()
    page.wait_for_timeout(300)
    return page.evaluate("() => { watcher.disconnect(); return tasks }")
