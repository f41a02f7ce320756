"""Practice 5.1: while bagging, the place is tapped on the photo of the machine, or beside it on a button."""

import time

import pytest
from playwright.sync_api import Page, expect
from tests.browser import at_work
from tests.browser.at_work import HOLES, JOB, RAIL
from tests.browser.bagging import PHOTOS, Hand
from tests.web import shop

pytestmark = pytest.mark.browser
PATIENCE_MS = 60_000
NEAR = 0.02
"""A tap of a whole screen pixel is up to 1/320 of the photo off, and the page keeps ratios."""
BUDGET = 2


@pytest.fixture
def here(tmp_path):
    with shop.open_shop(tmp_path / "data") as (address, client):
        at_work.described(client)
        photo = at_work.photographed(client, pinned=True)
        yield address, client, photo


@pytest.fixture
def page(here, browser_type, browser_type_launch_args):
    with at_work.at_machine(browser_type, browser_type_launch_args, film=None, address=here[0]) as page:
        page.set_default_timeout(PATIENCE_MS)
        yield page


def shoot(page: Page, address: str, screen: str) -> Hand:
    """Photograph a tray whose label is read, with the phone's own camera; the count stands in the picture."""
    page.goto(f"{address}/jobs/{JOB}/{screen}")
    with page.expect_file_chooser() as chooser:
        page.get_by_role("button", name="Take the photo", exact=True).tap()
    chooser.value.set_files(PHOTOS / "07-inlet-manifold-bolts.jpg")
    expect(page.locator(".places svg image")).to_be_attached(timeout=PATIENCE_MS)
    return Hand(page)


def tap_place(hand: Hand, x: float, y: float) -> None:
    """Tap the photo of the machine, in shares of it."""
    picture = hand.page.locator(".places svg")
    picture.scroll_into_view_if_needed()
    box = picture.bounding_box()
    hand.page.touchscreen.tap(box["x"] + x * box["width"], box["y"] + y * box["height"])
    hand.taps += 1


def bagged(client, kind: str) -> dict:
    until = time.monotonic() + 60
    while (
        not (found := [e for e in at_work.by_ana(client) if e["kind"] == kind]) and time.monotonic() < until
    ):
        time.sleep(0.05)
    return found[-1]


@pytest.mark.parametrize("screen", ["bag", "work"])
def test_a_pin_on_the_photo_of_the_machine_is_the_place_in_two_taps(here, page, shots, screen):
    address, client, _ = here
    hand = shoot(page, address, screen)
    tap_place(hand, *HOLES[2])
    assert not [e for e in at_work.by_ana(client) if e["kind"] == "fasteners-removed"], "no count, no place"
    hand.taps = 0
    hand.count(6)
    expect(page.get_by_text(f"1 {RAIL}", exact=True)).to_be_visible()
    if screen == "work":
        at_work.sound(page)
    at_work.keep_picture(page, shots, f"place-{screen}")
    tap_place(hand, *HOLES[2])
    expect(page.get_by_role("status").filter(has_text=f"6 pieces · {RAIL} →")).to_be_visible()
    removed = bagged(client, "fasteners-removed")
    assert (removed["set"], removed["n"], removed["to"]) == (RAIL, 6, at_work.TRAY)
    print(f"\nplace on the photo ({screen}): {hand.taps} taps + photo (budget {BUDGET} + photo)")
    assert hand.taps <= BUDGET


def test_a_tap_beside_all_pins_is_a_new_spot_that_is_marked_there_and_goes_with_the_undo(here, page):
    address, client, photo = here
    hand = shoot(page, address, "bag")
    hand.count(4)
    tap_place(hand, 0.5, 0.5)
    removed, pin = bagged(client, "fasteners-removed"), bagged(client, "photo-pinned")
    assert removed["set"].startswith("near ")
    assert (pin["element"], pin["photo"]) == (removed["set"], photo)
    assert abs(pin["x"] - 0.5) < NEAR and abs(pin["y"] - 0.5) < NEAR
    assert hand.taps <= BUDGET
    hand.tap_button("Undo")
    bagged(client, "entry-voided")
    until = time.monotonic() + 30
    voided: set[str] = set()
    while not {removed["id"], pin["id"]} <= voided and time.monotonic() < until:
        voided = {e["entry"] for e in at_work.by_ana(client) if e["kind"] == "entry-voided"}
    assert {removed["id"], pin["id"]} <= voided


def test_near_pins_are_told_apart_by_zoom_and_keys_work_too(here, page):
    address, client, _ = here
    hand = shoot(page, address, "work")
    hand.count(3)
    page.get_by_role("button", name="Nearer", exact=True).tap()
    board = page.locator(".places .pin-board")
    board.focus()
    for _ in range(3):  # from the middle to the hole in the middle of the upper row
        page.keyboard.press("ArrowUp")
    page.keyboard.press("Enter")
    assert bagged(client, "fasteners-removed")["set"] == RAIL
