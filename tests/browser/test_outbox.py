import time
from contextlib import contextmanager

import httpx
import pytest
from playwright.sync_api import Page, expect
from tests.browser import bagging
from tests.browser.bagging import PHOTOS, SET
from tests.web import shop
from tests.web.serving import served
from tests.web.signing_in import Phones, sign_in_browser

pytestmark = pytest.mark.browser
LABEL = "T-0106-E"
READY = "navigator.serviceWorker.ready.then(() => navigator.serviceWorker.controller !== null)"


class Newer:
    """The application, whose service worker may be made another one while it serves."""

    def __init__(self, app):
        self.app, self.newer = app, False

    async def __call__(self, scope, receive, send):
        changed = self.newer and scope.get("path") == "/sw.js"

        async def send_changed(message):
            if changed and message["type"] == "http.response.start":
                headers = [each for each in message["headers"] if each[0].lower() != b"content-length"]
                message = {**message, "headers": headers}
            if changed and message["type"] == "http.response.body" and not message.get("more_body"):
                message = {**message, "body": message.get("body", b"") + b"\n// a newer build"}
            await send(message)

        plain = [each for each in scope.get("headers", []) if each[0] != b"accept-encoding"]
        await self.app({**scope, "headers": plain} if changed else scope, receive, send_changed)


@contextmanager
def newer_shop(folder):
    """Serve a shop whose page can become a newer build: its address, a client, the app."""
    app = Newer(shop.app_in(folder))
    with served(app) as address, httpx.Client(base_url=address, auth=Phones(app)) as client:
        bagging.open_job(client)
        yield address, client, app


@pytest.fixture
def shop_here(tmp_path):
    with newer_shop(tmp_path / "data") as here:
        yield here


@pytest.fixture(scope="module")
def film(tmp_path_factory):
    return bagging.clip(
        PHOTOS / "07-inlet-manifold-bolts.jpg", tmp_path_factory.mktemp("film") / "tray.mjpeg"
    )


@pytest.fixture
def context(shop_here, film, browser_type, browser_type_launch_args):
    with bagging.phone(browser_type, browser_type_launch_args, film=film) as context:
        yield context


def bag(hand: bagging.Hand, n: int) -> None:
    expect(hand.page.get_by_text(LABEL).first).to_be_visible()
    hand.tap_button("Take the photo")
    hand.count(n)
    hand.tap_button(SET)
    expect(hand.page.get_by_text(f"{n} pieces · {SET} → {LABEL}")).to_be_visible()


def wait_until_kept(page: Page) -> None:
    """Wait until the page is kept for later and the service worker stands before it."""
    until = time.monotonic() + 10
    while not page.evaluate(READY) and time.monotonic() < until:
        time.sleep(0.05)
    assert page.evaluate(READY)


def sent(client: httpx.Client) -> tuple[list[str], list[int]]:
    entries = bagging.sent_by_phone(client)
    return [entry["kind"] for entry in entries], [entry["seq"] for entry in entries]


def test_without_wifi_the_page_opens_bags_and_hands_over_once(shop_here, context):
    address, client, _ = shop_here
    page = context.new_page()
    hand = bagging.take_phone(page, address)
    expect(page.get_by_role("button", name="Take the photo")).to_be_enabled()
    wait_until_kept(page)
    context.set_offline(True)
    page.reload()
    expect(page.get_by_text("What this phone knew last is shown.")).to_be_visible()
    bag(hand, 8)
    expect(page.get_by_text("4 not sent: 3 entries, 1 photo")).to_be_visible()
    page.reload()
    expect(page.get_by_text("4 not sent: 3 entries, 1 photo")).to_be_visible()
    assert sent(client) == ([], [])
    context.set_offline(False)
    bagging.all_sent(page)
    assert sent(client) == (["label-bound", "photo-added", "fasteners-removed"], [1, 2, 3])
    photos = client.get(f"/api/jobs/{bagging.JOB}/photos").json()
    assert [bagging.photo_matches(client, photo["sha256"]) for photo in photos] == [True]
    print(f"\nwithout Wi-Fi: {hand.taps - 1} taps + photo (budget 2 + photo)")


def test_an_answer_lost_on_the_way_makes_no_second_entry_or_photo(shop_here, context):
    address, client, _ = shop_here
    page = context.new_page()
    lost: list[str] = []

    def lose_first(route):
        if route.request.method != "POST" or route.request.url in lost:
            route.continue_()
            return
        lost.append(route.request.url)
        route.fetch()
        route.abort()

    page.route("**/api/jobs/**", lose_first)
    hand = bagging.take_phone(page, address)
    bag(hand, 8)
    bagging.all_sent(page)
    assert {url.split("/api/jobs/")[1].split("/")[1] for url in lost} >= {"entries", "photos"}
    assert sent(client) == (["label-bound", "photo-added", "fasteners-removed"], [1, 2, 3])
    assert len(client.get(f"/api/jobs/{bagging.JOB}/photos").json()) == 1


def test_two_tabs_are_one_phone(shop_here, context):
    address, client, _ = shop_here
    left = bagging.take_phone(context.new_page(), address)
    expect(left.page.get_by_role("button", name="Take the photo")).to_be_enabled()
    right = bagging.Hand(context.new_page())
    right.page.goto(f"{address}/jobs/{bagging.JOB}/bag")
    bag(right, 3)
    left.page.bring_to_front()
    bag(left, 5)
    for hand in (left, right):
        bagging.all_sent(hand.page)
    entries = bagging.sent_by_phone(client)
    assert [entry["seq"] for entry in entries] == list(range(1, len(entries) + 1))
    assert [entry["n"] for entry in entries if entry["kind"] == "fasteners-removed"] == [3, 5]
    assert len({entry["device"] for entry in entries}) == 1


def test_a_newer_page_is_offered_and_forced_on_nobody(shop_here, context):
    address, _, app = shop_here
    sign_in_browser(context, address)
    page = context.new_page()
    page.goto(address)
    wait_until_kept(page)
    app.newer = True
    page.reload()
    offer = page.get_by_role("button", name="Update ready: load it now")
    expect(offer).to_be_visible(timeout=10_000)
    offer.tap()
    expect(offer).to_have_count(0, timeout=30_000)
    expect(page.get_by_role("heading", level=1, name="Jobs")).to_be_visible()
