import re
import time

import httpx
import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page, expect
from tests.browser import bagging
from tests.browser.bagging import JOB, PHOTOS, SET
from tests.web import shop

pytestmark = pytest.mark.browser
LABEL, CODE = "T-0106-E", "T0106E"


@pytest.fixture
def shop_here(tmp_path):
    with shop.open_shop(tmp_path / "data") as (address, client):
        bagging.open_job(client)
        client.post("/api/look", content=(PHOTOS / "07-inlet-manifold-bolts.jpg").read_bytes(), timeout=60)
        yield address, client


@pytest.fixture(scope="module")
def film(tmp_path_factory):
    return bagging.clip(
        PHOTOS / "07-inlet-manifold-bolts.jpg", tmp_path_factory.mktemp("film") / "tray.mjpeg"
    )


@pytest.fixture
def in_hand(shop_here, film, browser_type, browser_type_launch_args):
    with bagging.phone(browser_type, browser_type_launch_args, film=film) as context:
        yield context.new_page()


ENHANCED = {"rules": {"color-contrast-enhanced": {"enabled": True}}}


def assert_sound(page: Page) -> None:
    """No fault that axe sees, 7:1 in light and dark, nothing wider than the screen, nothing small for a glove."""
    for scheme in ("dark", "light"):
        page.emulate_media(color_scheme=scheme)
        found = Axe().run(page, options=ENHANCED)
        assert found.violations_count == 0, found.generate_report()
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
    heights = page.evaluate(
        "[...document.querySelectorAll('.bag button')].map(e => e.getBoundingClientRect().height).filter(Boolean)"
    )
    assert min(heights) >= 56


@pytest.fixture
def leaving(in_hand, shop_here):
    gone: list[str] = []
    ours = (shop_here[0], "data:", "blob:")
    in_hand.on(
        "request", lambda request: gone.append(request.url) if not request.url.startswith(ours) else None
    )
    return gone


@pytest.fixture
def complaints(in_hand):
    said: list[str] = []
    in_hand.on("console", lambda message: said.append(message.text) if message.type == "error" else None)
    in_hand.on("pageerror", lambda error: said.append(str(error)))
    return said


def keep_picture(page: Page, shots, name: str) -> None:
    if shots:
        for width, height in bagging.PHONES:
            page.set_viewport_size({"width": width, "height": height})
            page.screenshot(path=shots / f"{name}-{width}.png")
        page.set_viewport_size({"width": bagging.PHONES[0][0], "height": bagging.PHONES[0][1]})


def recorded(client: httpx.Client, n: int) -> list[dict]:
    """Wait until the phone's entries are here, and give them."""
    until = time.monotonic() + 10
    while len(found := bagging.sent_by_phone(client)) < n and time.monotonic() < until:
        time.sleep(0.05)
    return found


def all_sent(page: Page) -> None:
    """Wait until nothing waits on the phone; the original is read before it is kept, which takes a while."""
    bagging.all_sent(page)


def fields(entry: dict, *names: str) -> tuple:
    return tuple(entry.get(name) for name in names)


def test_bag_these_bolts_takes_two_taps_and_a_photo(shop_here, in_hand, leaving, complaints, shots):
    """Practice 5.1: label read without a tap, shutter, count, place; nothing typed."""
    address, client = shop_here
    hand = bagging.take_phone(in_hand, address)
    expect(in_hand.locator("video")).to_be_visible()
    expect(in_hand.get_by_text(LABEL)).to_be_visible()
    assert_sound(in_hand)
    keep_picture(in_hand, shots, "bag-aim")
    hand.tap_button("Take the photo")
    expect(in_hand.get_by_role("heading", name="Where were they?")).to_be_visible()
    shown = time.monotonic()
    expect(in_hand.get_by_text("The picture shows 6.")).to_be_visible(timeout=40_000)
    print(
        f"\ncount of the picture on the pad {time.monotonic() - shown:.2f} s after it opened (budget 1.5 s)"
    )
    expect(in_hand.locator(".counted output")).to_have_text("6")
    assert_sound(in_hand)
    keep_picture(in_hand, shots, "bag-count")
    hand.tap_button(SET)
    expect(in_hand.get_by_text(f"6 pieces · {SET} → {LABEL}")).to_be_visible()
    assert_sound(in_hand)
    keep_picture(in_hand, shots, "bag-said")
    bound, added, removed, counted = recorded(client, 4)
    assert fields(bound, "kind", "label", "container", "container_kind", "seq") == (
        "label-bound", CODE, CODE, "tray", 1,
    )  # fmt: skip
    assert fields(added, "kind", "container", "element", "seq") == ("photo-added", CODE, SET, 2)
    assert fields(removed, "kind", "set", "n", "to", "by") == ("fasteners-removed", SET, 6, CODE, "Ana")
    assert fields(counted, "kind", "container", "n", "mode") == ("photo-counted", CODE, 6, "machine")
    assert counted["photo"] == added["sha256"] and len(counted["seen"]) == 6
    all_sent(in_hand)
    assert bagging.photo_matches(client, added["sha256"])
    tray = next(
        each for each in client.get(f"/api/jobs/{JOB}/containers").json() if each["container"] == CODE
    )
    assert (tray["contents"][0]["n"], len(tray["photos"])) == (6, 1)
    assert bagging.sent_by_phone(client) == [bound, added, removed, counted]
    print(f"bag these: {hand.taps - 1} tap + photo (budget 2 + photo), 0 characters typed")
    assert hand.taps == 2
    assert (leaving, complaints) == ([], [])


def test_what_the_reader_saw_can_be_struck_and_added_to_and_both_words_are_kept(shop_here, in_hand, shots):
    address, client = shop_here
    hand = bagging.take_phone(in_hand, address)
    expect(in_hand.get_by_text(LABEL)).to_be_visible()
    hand.tap_button("Take the photo")
    expect(in_hand.get_by_text("The picture shows 6.")).to_be_visible(timeout=40_000)
    hand.tap_button("See what was counted in the photo, and correct it")
    hand.tap_button("Part 2, seen by the reader")
    expect(in_hand.get_by_role("button", name="Use 5", exact=True)).to_be_visible()
    assert_sound(in_hand)
    keep_picture(in_hand, shots, "bag-marks")
    drawing = in_hand.get_by_role("group", name="The photo just taken").bounding_box()
    in_hand.touchscreen.tap(drawing["x"] + drawing["width"] * 0.9, drawing["y"] + drawing["height"] * 0.9)
    hand.tap_button("Use 6")
    hand.tap_button(SET)
    machine, person = recorded(client, 5)[3:]
    assert fields(machine, "kind", "n", "mode") == ("photo-counted", 6, "machine")
    assert fields(person, "kind", "n", "container", "mode") == ("reading-corrected", 6, CODE, None)
    assert person["struck"] == [machine["seen"][1]]
    assert abs(person["added"][0]["x"] - 0.9) < 0.02 and abs(person["added"][0]["y"] - 0.9) < 0.02


def test_another_number_than_the_picture_shows_comes_up_as_a_finding(shop_here, in_hand):
    address, client = shop_here
    hand = bagging.take_phone(in_hand, address)
    expect(in_hand.get_by_text(LABEL)).to_be_visible()
    hand.tap_button("Take the photo")
    expect(in_hand.get_by_text("The picture shows 6.")).to_be_visible(timeout=40_000)
    hand.count(8)
    hand.tap_button(SET)
    recorded(client, 4)
    found = client.get(f"/api/jobs/{JOB}/findings").json()["findings"]
    (differs,) = [each for each in found if each["check"] == "picture-count-differs"]
    assert differs["sentence"] == f"The picture of {LABEL} shows 6, the record says 8."


def test_shoot_now_and_sort_later_takes_one_tap(shop_here, in_hand):
    address, client = shop_here
    hand = bagging.take_phone(in_hand, address)
    expect(in_hand.get_by_text(LABEL)).to_be_visible()
    hand.tap_button("Photo only, sort later")
    expect(in_hand.get_by_text(f"Photo to be sorted later → {LABEL}")).to_be_visible()
    _, added = recorded(client, 2)
    assert fields(added, "kind", "container", "element") == ("photo-added", CODE, None)
    all_sent(in_hand)
    assert bagging.photo_matches(client, added["sha256"])
    print(f"\nshoot now, sort later: {hand.taps} tap (budget 1)")
    assert hand.taps == 1


def test_a_new_spot_names_itself_and_one_tap_takes_it_back(shop_here, in_hand):
    address, client = shop_here
    hand = bagging.take_phone(in_hand, address)
    expect(in_hand.get_by_text(LABEL)).to_be_visible()
    hand.tap_button("Take the photo")
    hand.count(12)
    hand.tap_button("New spot: near the machine, photo 1")
    expect(in_hand.get_by_text("12 pieces · near the machine, photo 1 →")).to_be_visible()
    removed = recorded(client, 3)[2]
    assert fields(removed, "set", "n") == ("near the machine, photo 1", 12)
    hand.tap_button("Undo")
    expect(in_hand.get_by_text("Taken back: 12 pieces")).to_be_visible()
    voided = recorded(client, 4)[3]
    assert fields(voided, "kind", "entry", "seq") == ("entry-voided", removed["id"], 4)
    tray = next(
        each for each in client.get(f"/api/jobs/{JOB}/containers").json() if each["container"] == CODE
    )
    assert tray["contents"] == []
    print(f"\nnew spot: {hand.taps - 2} taps + photo for a count of two digits; undo: 1 tap (budget 1)")
    assert hand.taps == 5


def test_without_a_camera_the_phones_own_takes_the_photo_and_the_label_is_read_from_it(
    shop_here, browser_type, browser_type_launch_args
):
    address, client = shop_here
    photo = PHOTOS / "06-air-box-bolts.jpg"
    with bagging.phone(browser_type, browser_type_launch_args, film=None) as context:
        page = context.new_page()
        hand = bagging.take_phone(page, address)
        expect(page.get_by_text("No camera answered.")).to_be_visible()
        with page.expect_file_chooser() as chooser:
            hand.tap_button("Take the photo")
        chooser.value.set_files(photo)
        hand.count(4)
        hand.tap_button(SET)
        expect(page.get_by_text(re.compile("4 pieces · inlet manifold bolts → T-"))).to_be_visible()
        added = recorded(client, 3)[1]
        all_sent(page)
        assert client.get(f"/api/photos/{added['sha256']}").content == photo.read_bytes()


def test_a_photo_without_a_label_asks_for_it_and_a_slip_is_caught(
    shop_here, browser_type, browser_type_launch_args, tmp_path
):
    address, client = shop_here
    blank = tmp_path / "blank.jpg"
    blank.write_bytes(shop.picture("six bolts, no label"))
    with bagging.phone(browser_type, browser_type_launch_args, film=None) as context:
        page = context.new_page()
        hand = bagging.take_phone(page, address)
        with page.expect_file_chooser() as chooser:
            hand.tap_button("Take the photo")
        chooser.value.set_files(blank)
        expect(page.get_by_text("No label was read in this photo.")).to_be_visible()
        assert_sound(page)
        page.get_by_label("What stands on the label").fill("T-0106-F")
        hand.tap_button("Use this label")
        expect(page.get_by_role("alert")).to_contain_text("That is no bag or tray of this shop")
        page.get_by_label("What stands on the label").fill("t 0106 e")
        hand.tap_button("Use this label")
        hand.count(6)
        hand.tap_button(SET)
        expect(page.get_by_text(f"6 pieces · {SET} → {LABEL}")).to_be_visible()
        assert fields(recorded(client, 3)[2], "to", "n") == (CODE, 6)
