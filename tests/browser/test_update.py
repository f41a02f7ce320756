"""A new build of the page comes while somebody counts bolts: the pad stays, the update waits for a quiet moment."""

import pytest
from playwright.sync_api import Page, expect
from tests.browser import bagging
from tests.browser.bagging import PHOTOS, SET
from tests.browser.test_outbox import Newer, newer_shop, sent, wait_until_kept

pytestmark = pytest.mark.browser
LABEL = "T-0106-E"
WAITS = "An update is here. It waits until this is recorded."
READY = "Update ready: load it now"
SLOW_MS = 30_000
LAME_DUCK_MS = 330_000
"""Chromium lets an old worker that it holds for busy stand in the way for 5 minutes at most; from memory of its source."""


@pytest.fixture
def shop_here(tmp_path):
    with newer_shop(tmp_path / "data") as here:
        yield here


@pytest.fixture
def page(phone):
    return phone.new_page()


def put_away(page: Page, *, is_away: bool) -> None:
    """What the browser tells a page when its phone is locked, or taken up again."""
    page.evaluate(
        "away => { Object.defineProperty(document, 'visibilityState', "
        "{ configurable: true, get: () => (away ? 'hidden' : 'visible') });"
        " document.dispatchEvent(new Event('visibilitychange')); }",
        is_away,
    )


def shoot(page: Page, hand: bagging.Hand) -> None:
    with page.expect_file_chooser() as chooser:
        hand.tap_button("Take the photo")
    chooser.value.set_files(PHOTOS / "07-inlet-manifold-bolts.jpg")
    expect(page.get_by_role("heading", name="Where were they?")).to_be_visible(timeout=SLOW_MS)


def a_new_build_comes(page: Page, app: Newer) -> None:
    """The page looks for a newer build, as it does by itself every half hour."""
    app.newer = True
    page.evaluate("navigator.serviceWorker.getRegistration().then(here => here.update())")


def test_an_update_while_a_count_pad_is_open_waits_and_nothing_tapped_is_lost(shop_here, page, shots):
    address, client, app = shop_here
    hand = bagging.take_phone(page, address)
    wait_until_kept(page)
    shoot(page, hand)
    hand.count(8)
    page.evaluate("window.stillHere = true")
    a_new_build_comes(page, app)
    expect(page.get_by_text(WAITS)).to_be_visible(timeout=SLOW_MS)
    expect(page.get_by_role("button", name=READY)).to_have_count(0)
    if shots:
        page.screenshot(path=shots / "update-waits.png")
    put_away(page, is_away=True)
    put_away(page, is_away=False)
    expect(page.locator(".counted output")).to_have_text("8")
    assert page.evaluate("window.stillHere"), "a locked phone kept its count pad"
    hand.tap_button(SET)
    expect(page.get_by_text(f"8 pieces · {SET} → {LABEL}")).to_be_visible()
    expect(page.get_by_role("button", name=READY)).to_be_visible()
    assert page.evaluate("window.stillHere"), "the update is forced on nobody"
    put_away(page, is_away=True)
    expect(page.get_by_text("Updated. All that was recorded is here.")).to_be_visible(timeout=LAME_DUCK_MS)
    assert page.evaluate("window.stillHere === undefined"), "the page is the new one"
    expect(page.get_by_role("button", name=READY)).to_have_count(0)
    bagging.all_sent(page, timeout=SLOW_MS)
    kinds, numbers = sent(client)
    by_hand = [kind for kind in kinds if kind != "photo-counted"]  # the reader's, where it was quick enough
    assert by_hand == ["label-bound", "photo-added", "fasteners-removed"]
    assert numbers == list(range(1, len(kinds) + 1))
    (removed,) = [each for each in bagging.sent_by_phone(client) if each["kind"] == "fasteners-removed"]
    assert removed["n"] == 8


def test_an_update_that_comes_with_nothing_begun_is_offered_at_once(shop_here, page):
    address, _, app = shop_here
    bagging.take_phone(page, address)
    wait_until_kept(page)
    a_new_build_comes(page, app)
    offer = page.get_by_role("button", name=READY)
    expect(offer).to_be_visible(timeout=SLOW_MS)
    offer.tap()
    expect(page.get_by_text("Updated. All that was recorded is here.")).to_be_visible(timeout=SLOW_MS)
