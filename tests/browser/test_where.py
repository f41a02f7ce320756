"""Practice 5.2 at the machine: where were they? Holes numbered on the photo, placed, moved, looked at by keyboard."""

import pytest
from playwright.sync_api import Page, expect
from tests.browser import at_work, bagging
from tests.browser.at_work import HOLES, JOB, LOOKALIKE, RAIL, keep_picture, recorded, said_by, sound
from tests.web import shop

pytestmark = [pytest.mark.browser, pytest.mark.long]
NEAR = 0.01
"""A tap of a whole screen pixel is up to 1/320 of the photo off; this is three of them."""


@pytest.fixture
def here(tmp_path):
    with shop.open_shop(tmp_path / "data") as (address, client):
        at_work.taken_apart(client)
        yield address, client


@pytest.fixture(scope="module")
def film(tmp_path_factory):
    picture = tmp_path_factory.mktemp("film") / "machine.jpg"
    picture.write_bytes(at_work.machine())
    return bagging.clip(picture, picture.with_suffix(".mjpeg"))


@pytest.fixture
def in_hand(here, film, browser_type, browser_type_launch_args):
    with at_work.at_machine(browser_type, browser_type_launch_args, film=film, address=here[0]) as page:
        yield page


def where(page: Page, address: str, set_name: str = RAIL) -> bagging.Hand:
    page.goto(f"{address}/jobs/{JOB}/where/{set_name}")
    expect(page.locator("svg image")).to_be_attached()
    return bagging.Hand(page)


def tap_photo(page: Page, x: float, y: float) -> None:
    """Tap a place of the photo, given in shares of what is in sight of it."""
    box = page.locator(".pin-board svg").bounding_box()
    page.touchscreen.tap(box["x"] + x * box["width"], box["y"] + y * box["height"])


def near(pin: dict, place: tuple[float, float]) -> bool:
    return abs(pin["x"] - place[0]) < NEAR and abs(pin["y"] - place[1]) < NEAR


def test_what_waits_comes_and_goes_without_moving_the_photo_under_a_finger(here, in_hand):
    address, client = here
    at_work.photographed(client)
    where(in_hand, address)
    photo, line = in_hand.locator(".pin-board"), in_hand.locator(".outbox")
    tap_photo(in_hand, *HOLES[0])
    expect(in_hand.locator(".understood")).to_contain_text(f"Hole 1 of {RAIL} marked")
    recorded(client, 1)
    top = photo.bounding_box()["y"]
    in_hand.context.set_offline(True)
    tap_photo(in_hand, *HOLES[1])
    expect(line).to_contain_text("1 not sent: 1 entry")
    assert photo.bounding_box()["y"] == pytest.approx(top, abs=1)
    assert line.bounding_box()["y"] == 0
    in_hand.context.set_offline(False)
    recorded(client, 2)
    expect(line).to_be_empty()
    assert photo.bounding_box()["y"] == pytest.approx(top, abs=1)


def test_the_holes_of_a_set_are_marked_with_one_tap_each(here, in_hand, shots):
    address, client = here
    photo = at_work.photographed(client)
    where(in_hand, address)
    taps = 0
    for number, (x, y) in enumerate(HOLES, start=1):
        expect(in_hand.get_by_text(f"Tap where hole {number} is")).to_be_visible()
        tap_photo(in_hand, x, y)
        taps += 1
        expect(in_hand.locator(".understood")).to_contain_text(f"Hole {number} of {RAIL} marked")
    expect(in_hand.get_by_text(f"All holes of {RAIL} are marked")).to_be_visible()
    pins = recorded(client, 6)
    assert [said_by(p, "kind", "photo", "element", "hole") for p in pins] == [
        ("photo-pinned", photo, RAIL, n) for n in range(1, 7)
    ]
    assert all(near(pin, place) for pin, place in zip(pins, HOLES, strict=True))
    sound(in_hand)
    keep_picture(in_hand, shots, "where-marked")
    print(f"\nwhere were they: {taps} taps for {len(HOLES)} holes (budget 1 a hole)")


def test_a_mark_moves_with_two_taps_and_what_was_said_first_stays_readable(here, in_hand):
    """Practice 5.9: wrong place: move the pin, 2 taps; it is written as a replacement."""
    address, client = here
    at_work.photographed(client, pinned=True)
    hand = where(in_hand, address)
    hand.tap(in_hand.get_by_role("button", name="2 marked"))
    tap_photo(in_hand, 0.55, 0.4)
    expect(in_hand.locator(".understood")).to_contain_text(f"Mark 2 of {RAIL} moved")
    moved = recorded(client, 1)[0]
    assert moved["kind"] == "entry-replaced"
    assert near(moved["fields"], (0.55, 0.4))
    photo = client.get(f"/api/jobs/{JOB}/pocket").json()["photos"][0]
    second = next(pin for pin in photo["pins"] if pin["hole"] == 2)
    assert (second["entry"], near(second, (0.55, 0.4))) == (moved["entry"], True)
    print(f"\nmove a mark: {hand.taps + 1} taps (budget 2)")
    assert hand.taps + 1 == 2
    hand.tap_button("Undo")
    expect(in_hand.locator(".understood")).to_contain_text("Taken back")
    recorded(client, 2)
    photo = client.get(f"/api/jobs/{JOB}/pocket").json()["photos"][0]
    assert near(next(pin for pin in photo["pins"] if pin["hole"] == 2), HOLES[1])


def test_a_mark_is_taken_away_with_two_taps(here, in_hand):
    address, client = here
    at_work.photographed(client, pinned=True)
    hand = where(in_hand, address)
    hand.tap(in_hand.get_by_role("button", name="6 marked"))
    hand.tap_button("Take mark 6 away")
    expect(in_hand.get_by_role("button", name="6 not yet")).to_be_visible()
    assert recorded(client, 1)[0]["kind"] == "entry-voided"
    photo = client.get(f"/api/jobs/{JOB}/pocket").json()["photos"][0]
    assert sorted(pin["hole"] for pin in photo["pins"]) == [1, 2, 3, 4, 5]


def test_two_fingers_or_a_button_zoom_and_a_tap_still_lands_where_it_points(here, in_hand, shots):
    address, client = here
    at_work.photographed(client)
    hand = where(in_hand, address)
    before = in_hand.locator(".pin-board svg").get_attribute("viewBox")
    box = in_hand.locator(".pin-board svg").bounding_box()
    middle = (box["x"] + box["width"] / 2, box["y"] + box["height"] / 2)
    pinch(in_hand, middle, 20, 60)
    x, y, width, height = view_of(in_hand)
    assert float(before.split()[2]) / width == pytest.approx(3, rel=0.1)
    tap_photo(in_hand, 0.25, 0.25)
    expect(in_hand.locator(".understood")).to_contain_text(f"Hole 1 of {RAIL} marked")
    pin = recorded(client, 1)[0]
    assert near(pin, ((x + width / 4) / at_work.SIZE[0], (y + height / 4) / at_work.SIZE[1]))
    keep_picture(in_hand, shots, "where-zoomed")
    hand.tap(in_hand.get_by_role("button", name="Further away"))
    hand.tap(in_hand.get_by_role("button", name="Further away"))
    hand.tap(in_hand.get_by_role("button", name="Further away"))
    assert view_of(in_hand)[2] == at_work.SIZE[0]


def pinch(page: Page, middle: tuple[float, float], start: int, end: int) -> None:
    """Spread two fingers from `start` to `end` pixels on both sides of a point."""
    touch = page.context.new_cdp_session(page)
    for step in range(9):
        apart = start + (end - start) * step / 8
        points = [
            {"x": middle[0] - apart, "y": middle[1], "id": 1},
            {"x": middle[0] + apart, "y": middle[1], "id": 2},
        ]
        kind = "touchStart" if step == 0 else "touchMove"
        touch.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": points})
    touch.send("Input.dispatchTouchEvent", {"type": "touchEnd", "touchPoints": []})


def view_of(page: Page) -> tuple[float, float, float, float]:
    """Give which piece of the photo is in sight: corner and size in its pixels."""
    return tuple(float(each) for each in page.locator(".pin-board svg").get_attribute("viewBox").split())


def test_the_keyboard_zooms_moves_and_marks(here, in_hand):
    address, client = here
    at_work.photographed(client)
    where(in_hand, address)
    in_hand.locator(".pin-board").focus()
    for key in ("+", "+", "ArrowRight", "ArrowDown", "Enter"):
        in_hand.keyboard.press(key)
    expect(in_hand.locator(".understood")).to_contain_text(f"Hole 1 of {RAIL} marked")
    pin = recorded(client, 1)[0]
    step = 1 / 2.25 / 10
    assert near(pin, (0.5 + step, 0.5 + step * 4 / 3)) or near(pin, (0.5 + step, 0.5 + step))


def test_look_alike_sets_differ_in_outline_and_number_not_by_colour_alone(here, in_hand, shots):
    address, client = here
    photo = at_work.photographed(client, pinned=True)
    others = [
        ("photo-pinned", {"photo": photo, "element": LOOKALIKE, "hole": n, "x": 0.35 * n, "y": 0.5})
        for n in (1, 2)
    ]
    at_work.tell(client, *others, first=70)
    where(in_hand, address)
    expect(in_hand.locator("svg .pin")).to_have_count(8)
    own = in_hand.locator("svg .pin:not(.other)")
    other = in_hand.locator("svg .pin.other")
    assert own.locator("circle.body").count() == 6
    assert (other.locator("polygon.body").count(), other.locator("circle.body").count()) == (2, 0)
    assert own.locator("text").all_text_contents() == [str(n) for n in range(1, 7)]
    keep_picture(in_hand, shots, "where-look-alikes")


def test_the_before_photo_lies_over_the_live_picture_while_the_after_photo_is_taken(here, in_hand, shots):
    address, client = here
    at_work.photographed(client, pinned=True)
    hand = where(in_hand, address)
    hand.tap_button("Take the after photo")
    expect(in_hand.get_by_alt_text("The photo from before, laid over")).to_be_visible()
    expect(in_hand.get_by_role("button", name="Take the after photo")).to_be_enabled()
    sound(in_hand)
    keep_picture(in_hand, shots, "where-ghost")
    hand.tap_button("Take the after photo")
    expect(in_hand.locator(".understood")).to_contain_text(f"After photo of {RAIL}")
    added = recorded(client, 1)[0]
    assert said_by(added, "kind", "shape", "element") == ("photo-added", "after", RAIL)
    print(f"\nafter photo with its ghost: {hand.taps} taps (budget 1 + photo)")
    assert hand.taps == 2


def test_a_photo_taken_at_the_machine_leads_to_marking_its_holes(here, in_hand):
    address, client = here
    hand = at_work.hub(in_hand, address)
    hand.tap_button("Take the photo")
    hand.tap_button("Where they are: mark the holes")
    hand.tap_button(RAIL)
    expect(in_hand.get_by_text("Tap where hole 1 is")).to_be_visible()
    added = recorded(client, 1)[0]
    assert said_by(added, "kind", "shape", "element") == ("photo-added", "before", RAIL)
    expect(in_hand.locator("svg image")).to_be_attached()


def test_without_wifi_the_photo_and_its_marks_are_here_and_a_new_mark_is_kept(here, in_hand):
    """What was seen once with the network is here without it, after a reload too."""
    address, client = here
    at_work.photographed(client, pinned=True)
    hand = at_work.hub(in_hand, address)
    expect(in_hand.get_by_text("from the server.")).to_be_visible()
    in_hand.wait_for_function(PICTURES, arg=1)
    in_hand.evaluate("navigator.serviceWorker.ready.then(() => undefined)")
    at_work.offline(in_hand.context, True)
    where(in_hand, address)
    expect(in_hand.locator("svg .pin")).to_have_count(6)
    hand.tap(in_hand.get_by_role("button", name="4 marked"))
    tap_photo(in_hand, 0.3, 0.6)
    expect(in_hand.locator(".understood")).to_contain_text(f"Mark 4 of {RAIL} moved")
    expect(in_hand.get_by_text("1 entry since is not judged yet.")).to_be_visible()
    assert at_work.by_ana(client) == []
    at_work.offline(in_hand.context, False)
    assert recorded(client, 1)[0]["kind"] == "entry-replaced"


PICTURES = """(least) => new Promise((done) => {
  const opening = indexedDB.open("lastbolt pocket");
  opening.onsuccess = () => {
    const counting = opening.result.transaction("pictures").objectStore("pictures").count();
    counting.onsuccess = () => { opening.result.close(); done(counting.result >= least); };
  };
})"""
