"""Large shops stay smooth at the desk: a thousand jobs on the board, two thousand photos in one job.

What is asserted is what keeps it smooth, that few rows are in the page at once and that they are drawn from small
pictures; times and memory are printed, the wall's beside those of a wall drawn from previews.

LASTBOLT_BROWSER=all python -m pytest -q -s -p no:randomly tests/browser/test_desk_large.py
"""

import hashlib
from pathlib import Path

import pytest
from playwright.sync_api import expect
from tests.browser import desk_shop
from tests.browser.desk_page import desk, long_tasks, processor_ms
from tests.browser.desk_shop import Teller, view
from tests.web.serving import APPS
from tests.web.signing_in import sign_in_browser

pytestmark = [pytest.mark.browser, pytest.mark.long]
JOBS, PHOTOS = 1000, 2000
ALBUM = "album-1"


@pytest.fixture(scope="module")
def here(tmp_path_factory):
    with desk_shop.opened(tmp_path_factory.mktemp("large")) as (address, client):
        fill(APPS[address].state.desk)
        yield address, client


def fill(room) -> None:
    """Put a thousand small jobs and one with two thousand photos into a shop, past its API."""
    for number in range(JOBS - 1):
        job = Teller(f"job-{number:04d}", desk_shop.datetime.now(desk_shop.UTC) - desk_shop.timedelta(days=2))
        title = "Pump seal" if number % 10 else "Sea-cock"
        job.say("Ana", ("job-opened", {"machine": f"Dinghy {number}", "title": title, "level": 2}))
        room.record(job.job, job.entries)
    album = Teller(ALBUM, desk_shop.datetime.now(desk_shop.UTC) - desk_shop.timedelta(days=3))
    album.say("Ana", ("job-opened", {"machine": "Ketch, gearbox", "title": "All apart", "level": 2}))
    small, photos = view("one of many"), room.wired.photos
    for number in range(PHOTOS):
        original = small + number.to_bytes(4, "big")
        name = hashlib.sha256(original).hexdigest()
        photos.put_preview(photos.put(original), small)
        about = {"photo": name, "sha256": name, "shape": "during", "width": 1600, "height": 1200}
        album.say("Ana", ("photo-added", {**about, "element": f"gear {number % 40}"}))
    for start in range(0, len(album.entries), 500):
        room.record(ALBUM, album.entries[start : start + 500])


@pytest.fixture
def page(browser, here):
    with desk(browser, here[0], "1280") as context:
        sign_in_browser(context, here[0])
        yield context.new_page()


def scroll_through(page) -> None:
    """Scroll as somebody does with the wheel, some forty screens down."""
    page.mouse.move(600, 500)
    for _ in range(60):
        page.mouse.wheel(0, 500)
        page.wait_for_timeout(16)


def renderer_mib(page) -> float:
    """Give the resident memory of the process that draws this page: the largest of the browser's renderers."""
    session = page.context.browser.new_browser_cdp_session()
    processes = session.send("SystemInfo.getProcessInfo")["processInfo"]
    session.detach()
    own = [each["id"] for each in processes if each["type"] == "renderer"]
    texts = [Path(f"/proc/{pid}/status").read_text() for pid in own]
    sizes = [line.split()[1] for text in texts for line in text.splitlines() if line.startswith("VmRSS")]
    return max(map(int, sizes)) / 1024


def said(name: str, tasks: list[float]) -> None:
    longest = max(tasks, default=0)
    print(f"{name}: {len(tasks)} tasks over 50 ms while scrolling, the longest {longest:.0f} ms")


def test_a_thousand_jobs_are_scrolled_and_filtered_with_few_in_the_page(page, here):
    page.goto("/")
    listed = page.get_by_role("status").filter(has_text="shown")
    expect(listed).to_have_text(
        "1000 of 1000 jobs shown", timeout=60_000
    )  # the first board judges all of them
    said("board of 1000 jobs", long_tasks(page, lambda: scroll_through(page)))
    assert 0 < page.locator(".board-row").count() <= 40
    page.evaluate("scrollTo(0, 0)")
    page.get_by_label("Show only jobs with these words").fill("dinghy 77 cock")
    expect(page.get_by_role("status").filter(has_text="shown")).to_have_text("1 of 1000 jobs shown")
    took = page.evaluate(
        "performance.getEntriesByType('resource').find(e => e.name.endsWith('/api/board')).duration"
    )
    print(f"/api/board of 1000 jobs: {took:.0f} ms in the browser")


@pytest.mark.parametrize("drawn_from", ["preview", "small"])
def test_two_thousand_photos_are_scrolled_with_few_in_the_page(page, drawn_from):
    if drawn_from == "preview":
        page.route(
            "**/small", lambda route: route.continue_(url=route.request.url.replace("small", "preview"))
        )
    page.goto(f"/jobs/{ALBUM}/history/photos")
    expect(page.get_by_text("2000 photos, the newest first")).to_be_visible()
    for time in ("first", "second"):
        said(
            f"wall of 2000 photos from {drawn_from}, {time} time",
            long_tasks(page, lambda: scroll_through(page)),
        )
        assert 0 < page.locator("main img").count() <= 150
        assert page.evaluate("scrollY") > 20_000
        print(f"  the renderer holds {renderer_mib(page):.0f} MiB")
        page.evaluate("scrollTo(0, 0)")
    own = processor_ms(page, lambda: scroll_through(page))
    print(f"  by its own processor time: {sum(own):.0f} ms in all, the longest task {max(own):.0f} ms")
    assert sum(ms > 50 for ms in own) <= 2
    page.evaluate("scrollTo(0, 0)")
    first = page.locator("main img").first
    expect(first).to_have_js_property("complete", True)
    assert first.evaluate("image => image.naturalWidth") == (400 if drawn_from == "small" else 1600)


def test_a_long_time_line_fetches_its_pages_as_one_comes_to_them(page):
    page.goto(f"/jobs/{ALBUM}/history")
    expect(page.get_by_text("2001 entries, the newest first")).to_be_visible()
    said("time line of 2001 entries", long_tasks(page, lambda: scroll_through(page)))
    assert 0 < page.locator(".moment").count() <= 40
    page.evaluate("scrollTo(0, document.body.scrollHeight)")
    expect(page.get_by_text("Job opened", exact=False)).to_be_visible()
