import pytest
from playwright.sync_api import expect
from tests.browser import bagging, in_hand
from tests.web import shop
from tests.web.shop import entry

pytestmark = [pytest.mark.browser, pytest.mark.long]
JOB = bagging.JOB
SET = bagging.SET


@pytest.fixture
def here(tmp_path):
    with in_hand.shop_in(tmp_path / "data") as here:
        bagging.open_job(here.client)
        yield here


@pytest.fixture
def bagged(here):
    """Six bolts bagged, counted and four of them fitted again by Ana; returns the ids by kind."""
    entries = [
        entry("label-bound", 3, job=JOB, label="T0042E", container="T0042E"),
        entry("label-bound", 4, job=JOB, label="T0106E", container="T0106E"),
        entry("fasteners-removed", 5, job=JOB, set=SET, n=6, to="T0042E"),
        entry("container-counted", 6, job=JOB, container="T0042E", n=6),
        entry("fasteners-fitted", 7, job=JOB, set=SET, n=4, source="T0042E"),
    ]
    shop.send(here.client, entries).raise_for_status()
    return {each["kind"]: each["id"] for each in entries}


def rows(page):
    return page.locator(".timeline > li")


def row_of(page, words: str):
    return rows(page).filter(has_text=words)


def test_a_wrong_count_takes_two_taps(here, phone, bagged, shots):
    hand = in_hand.hand_of(here, phone, "Ana")
    page = hand.page
    page.goto(f"{here.address}/jobs/{JOB}/correct")
    hand.tap(row_of(page, "Fasteners removed").get_by_role("button", name="Count: 6"))
    in_hand.sound(page)
    in_hand.pictures(page, shots, "correct-count")
    hand.tap_button("8")
    expect(page.get_by_text("Put right to 8")).to_be_visible()
    replaced = in_hand.last_of(here, JOB, "entry-replaced")
    assert (replaced["entry"], replaced["fields"]) == (bagged["fasteners-removed"], {"n": 8})
    expect(row_of(page, "Fasteners removed")).to_contain_text("Put right by a later entry.")
    print(f"\nwrong count: {hand.taps} taps (budget 2)")
    assert hand.taps == 2


def test_wrong_tray_found_later_takes_three_taps_and_shows_what_rests_on_it(here, phone, bagged, shots):
    hand = in_hand.hand_of(here, phone, "Ana")
    page = hand.page
    page.goto(f"{here.address}/jobs/{JOB}/correct")
    before = bagging.entries_of(here.client, JOB)
    hand.tap(row_of(page, "Fasteners removed").get_by_role("link", name="Wrong"))
    expect(page.get_by_role("heading", name="2 later entries rest on this")).to_be_visible()
    expect(page.locator(".card")).to_contain_text("Container counted")
    expect(page.locator(".card")).to_contain_text("Fasteners fitted")
    expect(page.locator(".card")).to_contain_text("would come onto the list")
    hand.tap_button("wrong bag or tray")
    in_hand.sound(page)
    in_hand.pictures(page, shots, "correct-tray")
    hand.tap_button("T-0106-E")
    expect(page.get_by_text("Put right: ")).to_be_visible()
    replaced = in_hand.last_of(here, JOB, "entry-replaced")
    assert (replaced["fields"], replaced["reason"]) == ({"to": "T0106E"}, "wrong bag or tray")
    assert len(bagging.entries_of(here.client, JOB)) == len(before) + 1, "nothing else changed with it"
    print(f"\nwrong tray, found later: {hand.taps} taps (budget 3)")
    assert hand.taps == 3


def test_recorded_twice_is_taken_back_in_three_taps_and_the_correction_too(here, phone, bagged, shots):
    hand = in_hand.hand_of(here, phone, "Ana")
    page = hand.page
    page.goto(f"{here.address}/jobs/{JOB}/correct")
    hand.tap(row_of(page, "Fasteners fitted").get_by_role("link", name="Wrong"))
    expect(page.get_by_role("heading", name="Nothing later rests on this")).to_be_visible()
    hand.tap_button("recorded twice")
    hand.tap_button("It does not count")
    expect(page.get_by_text("No longer counts: Fasteners fitted")).to_be_visible()
    assert in_hand.last_of(here, JOB, "entry-voided")["entry"] == bagged["fasteners-fitted"]
    print(f"\nrecorded twice: {hand.taps} taps (budget 3)")
    assert hand.taps == 3
    hand.tap_button("Undo")
    expect(page.get_by_text("Taken back: ")).to_be_visible()
    in_hand.last_of(here, JOB, "entry-voided", 2)
    page.goto(f"{here.address}/jobs/{JOB}/correct")
    expect(row_of(page, "Fasteners fitted")).not_to_contain_text("no longer counts")


def test_somebody_elses_entry_wants_a_reason_in_words(here, phone, bagged):
    hand = in_hand.hand_of(here, phone, "Ilse", role="lead")
    page = hand.page
    page.goto(f"{here.address}/jobs/{JOB}/correct/{bagged['container-counted']}")
    expect(page.get_by_text("Ana recorded this: a lead corrects it")).to_be_visible()
    expect(page.get_by_role("button", name="recorded twice")).to_be_disabled()
    page.get_by_label("Ana recorded this").fill("counted the wrong tray")
    hand.tap_button("recorded twice")
    hand.tap_button("It does not count")
    voided = in_hand.last_of(here, JOB, "entry-voided")
    assert (voided["by"], voided["reason"]) == ("Ilse", "counted the wrong tray")
    page.goto(f"{here.address}/jobs/{JOB}/correct/{bagged['container-counted']}")
    expect(page.get_by_text("Taken back; it no longer counts.")).to_be_visible()


def test_a_place_that_is_wrong_is_put_right(here, phone, bagged):
    shop.send(here.client, [entry("set-described", 8, job=JOB, set="water neck bolts", n=3)])
    hand = in_hand.hand_of(here, phone, "Ana")
    page = hand.page
    page.goto(f"{here.address}/jobs/{JOB}/correct/{bagged['fasteners-removed']}")
    hand.tap_button("wrong place")
    expect(page.get_by_role("link", name="Move the pin on its photo")).to_be_visible()
    hand.tap_button("water neck bolts")
    assert in_hand.last_of(here, JOB, "entry-replaced")["fields"] == {"set": "water neck bolts"}


def test_a_bag_scanned_twice_asks_whether_to_add_and_one_tap_says_no(here, phone, shots):
    bagged = [
        entry("label-bound", 3, job=JOB, label="T0106E", container="T0106E"),
        entry("fasteners-removed", 4, job=JOB, set=SET, n=6, to="T0106E"),
    ]
    shop.send(here.client, bagged).raise_for_status()
    hand = in_hand.hand_of(here, phone, "Ana")
    page = hand.page
    page.goto(f"{here.address}/jobs/{JOB}/bag")
    with page.expect_file_chooser() as chooser:
        hand.tap_button("Take the photo")
    chooser.value.set_files(bagging.PHOTOS / "07-inlet-manifold-bolts.jpg")
    expect(page.get_by_role("heading", name="Where were they?")).to_be_visible(timeout=60_000)
    hand.count(6)
    hand.tap(page.get_by_role("button", name=SET, exact=True))
    expect(page.get_by_text(f"Already in T-0106-E: {SET}. Add these too?")).to_be_visible()
    in_hand.pictures(page, shots, "twice")
    before = hand.taps
    hand.tap_button("No, they are recorded")
    expect(page.get_by_role("button", name="Take the photo")).to_be_visible()
    assert len(bagging.entries_of(here.client, JOB)) == 2 + len(bagged), "nothing was recorded"
    print(f"\nscanned twice: {hand.taps - before} tap (budget 1)")
