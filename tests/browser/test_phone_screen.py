"""What waits on the phone, taking it back, sorting later, and the other language."""

import time
from contextlib import suppress

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import TimeoutError, expect
from tests.browser import bagging
from tests.browser.bagging import JOB, PHOTOS, SET
from tests.web import shop

pytestmark = [pytest.mark.browser, pytest.mark.long]
PATIENCE = 60_000


@pytest.fixture
def shop_here(tmp_path):
    with shop.open_shop(tmp_path / "data") as (address, client):
        bagging.open_job(client)
        yield address, client


@pytest.fixture
def page(phone):
    return phone.new_page()


def shoot_for_later(page, address, photo):
    hand = bagging.take_phone(page, address)
    expect(page.get_by_role("button", name="Photo only, sort later")).to_be_enabled(timeout=PATIENCE)
    with page.expect_file_chooser() as chooser:
        hand.tap_button("Photo only, sort later")
    chooser.value.set_files(photo)
    expect(page.get_by_text("Photo to be sorted later").first).to_be_visible(timeout=PATIENCE)
    return hand


def sound(page, shots, name):
    found = Axe().run(page, options={"rules": {"color-contrast-enhanced": {"enabled": True}}})
    assert found.violations_count == 0, found.generate_report()
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
    if shots:
        for width, height in bagging.PHONES:
            page.set_viewport_size({"width": width, "height": height})
            page.screenshot(path=shots / f"{name}-{width}.png", full_page=True)


def kinds(client):
    return [each["kind"] for each in bagging.sent_by_phone(client)]


def wait_for(client, kind):
    until = time.monotonic() + 60
    while kind not in kinds(client) and time.monotonic() < until:
        time.sleep(0.1)
    return [each for each in bagging.sent_by_phone(client) if each["kind"] == kind]


def test_what_waits_is_in_sight_and_can_be_taken_back(shop_here, page, shots):
    address, client = shop_here
    page.route(
        "**/api/jobs/**", lambda route: route.abort() if route.request.method == "POST" else route.continue_()
    )
    shoot_for_later(page, address, PHOTOS / "06-air-box-bolts.jpg")
    page.get_by_role("link", name="See what waits").tap()
    expect(page.get_by_role("heading", level=1, name="What waits on this phone")).to_be_visible(
        timeout=PATIENCE
    )
    expect(page.get_by_text("3 not sent: 2 entries, 1 photo").first).to_be_visible()
    sound(page, shots, "phone-waiting")
    photo = page.get_by_role("listitem").filter(has_text="kB").or_(page.locator("li.photo")).first
    photo.get_by_role("button", name="Take back").tap()
    photo.get_by_role("button", name="Yes, let this photo go; nobody else has the original").tap()
    expect(page.get_by_text("3 not sent: 3 entries").first).to_be_visible(timeout=PATIENCE)
    page.unroute_all()
    with suppress(TimeoutError):  # it may have tried again by itself meanwhile
        page.get_by_role("button", name="Try again").tap(timeout=3000)
    expect(page.get_by_text("Nothing waits: the server has all that was recorded here.")).to_be_visible(
        timeout=PATIENCE
    )
    assert kinds(client) == ["label-bound", "photo-added", "photo-rejected"]


def test_a_shot_is_sorted_later_in_two_taps(shop_here, page, shots):
    address, client = shop_here
    shoot_for_later(page, address, PHOTOS / "06-air-box-bolts.jpg")
    (added,) = wait_for(client, "photo-added")
    page.goto(f"{address}/jobs/{JOB}/sort")
    hand = bagging.Hand(page)
    expect(page.get_by_text("1 photo to sort")).to_be_visible(timeout=PATIENCE)
    sound(page, shots, "phone-sort")
    hand.tap_button("4")
    hand.tap_button(SET)
    expect(page.get_by_text("No photo waits to be sorted.")).to_be_visible(timeout=PATIENCE)
    (removed,) = wait_for(client, "fasteners-removed")
    assert (removed["n"], removed["to"], removed["photos"], removed["mode"]) == (
        4,
        "T0103K",
        [added["photo"]],
        "late",
    )
    assert removed["happened_at"] == added["at"]
    found = client.get(f"/api/jobs/{JOB}/findings").json()["findings"]
    assert "late-entry" not in [each["check"] for each in found]
    print(f"\nsort later: {hand.taps} taps (budget 2)")
    assert hand.taps == 2


def test_the_page_speaks_german_when_it_is_asked_to(shop_here, page, shots):
    address, _ = shop_here
    bagging.take_phone(page, address)
    page.goto(f"{address}/phone")
    page.get_by_role("button", name="Deutsch").tap()
    expect(page.get_by_role("heading", level=1, name="Was auf diesem Telefon wartet")).to_be_visible(
        timeout=PATIENCE
    )
    assert page.evaluate("document.documentElement.lang") == "de"
    sound(page, shots, "phone-german")
    page.goto(f"{address}/jobs/{JOB}/bag")
    expect(page.get_by_role("heading", level=1, name="Einbeuteln")).to_be_visible(timeout=PATIENCE)
