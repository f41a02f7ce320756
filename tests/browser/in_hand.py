"""A phone in the hand of somebody who is signed in: for tests of the screens at the machine."""

import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

import httpx
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import BrowserContext, Page
from tests.browser import bagging
from tests.browser.bagging import Hand
from tests.web import shop
from tests.web.serving import served
from tests.web.signing_in import Phones, sign_in_browser

LAYOUTS = Path(__file__).resolve().parents[2] / "label_templates"
ENHANCED = {"rules": {"color-contrast-enhanced": {"enabled": True}}}
FINGER_PX = 48
GLOVE_PX = 56


@dataclass(frozen=True)
class Shop:
    """A served shop, and a client that is signed in as whom it speaks for."""

    app: object
    address: str
    client: httpx.Client


@contextmanager
def shop_in(folder: Path) -> Iterator[Shop]:
    """Serve a shop from a folder of its own, with the label layouts of the checkout."""
    app = shop.app_in(folder, LAYOUTS)
    with served(app) as address, httpx.Client(base_url=address, timeout=120, auth=Phones(app)) as client:
        yield Shop(app, address, client)


def hand_of(here: Shop, context: BrowserContext, by: str, *, role: str = "tech") -> Hand:
    """Sign somebody in on a phone of its own, and put it into that hand."""
    sign_in_browser(context, here.address, by, role)
    return Hand(context.new_page())


def sound(page: Page) -> None:
    """No fault that axe sees, 7:1 in light and dark, nothing wider than the screen, nothing small for a glove."""
    for scheme in ("dark", "light"):
        page.emulate_media(color_scheme=scheme)
        found = Axe().run(page, options=ENHANCED)
        assert found.violations_count == 0, found.generate_report()
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
    assert small(page, ".hand button, .hand a.button", GLOVE_PX) == []
    assert small(page, "summary, .up a, .tile", FINGER_PX) == []


def small(page: Page, what: str, least: int) -> list[str]:
    """Name the targets that are lower than a finger wants."""
    return page.evaluate(
        "([what, least]) => [...document.querySelectorAll(what)]"
        ".filter(e => e.getBoundingClientRect().height && e.getBoundingClientRect().height < least)"
        ".map(e => e.textContent)",
        [what, least],
    )


def pictures(page: Page, shots: Path | None, name: str) -> None:
    """Keep pictures of a screen in both sizes, light and dark, to be looked at."""
    if not shots:
        return
    for width, height in bagging.PHONES:
        page.set_viewport_size({"width": width, "height": height})
        for scheme in ("dark", "light"):
            page.emulate_media(color_scheme=scheme)
            page.screenshot(path=shots / f"{name}-{width}-{scheme}.png", full_page=True)
    page.set_viewport_size({"width": bagging.PHONES[0][0], "height": bagging.PHONES[0][1]})


def entries(here: Shop, job: str, enough: Callable[[list[dict]], bool]) -> list[dict]:
    """Wait until the job's entries are enough, and give them, oldest first."""
    until = time.monotonic() + 180
    while not enough(found := entries_now(here, job)) and time.monotonic() < until:
        time.sleep(0.05)
    assert enough(found), [each["kind"] for each in found]
    return found


def entries_now(here: Shop, job: str) -> list[dict]:
    """Give the job's entries, oldest first; none while the server has not heard of the job."""
    known = here.client.get(f"/api/jobs/{job}").status_code == 200
    return bagging.entries_of(here.client, job) if known else []


def last_of(here: Shop, job: str, kind: str, n: int = 1) -> dict:
    """Wait for the n-th entry of a kind in a job, and give it."""
    found = entries(here, job, lambda all_: sum(each["kind"] == kind for each in all_) >= n)
    return [each for each in found if each["kind"] == kind][n - 1]


def all_sent(page: Page) -> None:
    """Wait until nothing waits on the phone."""
    bagging.all_sent(page, timeout=180_000)


def half_finished(here: Shop) -> str:
    """Put the half-finished job of the tests into the shop, with photos; give its name."""
    shop.fill(here.client)
    return shop.JOB
