import re

import pytest
from playwright.sync_api import expect
from tests.browser import bagging, in_hand
from tests.browser.bagging import PHOTOS

pytestmark = [pytest.mark.browser, pytest.mark.long]
CODE, LABEL = "T0106E", "T-0106-E"
SENDING_MS = 60_000
"""A photo may be on its way while entries wait behind it."""


@pytest.fixture
def phone(browser_type, browser_type_launch_args, tmp_path):
    film = bagging.clip(PHOTOS / "07-inlet-manifold-bolts.jpg", tmp_path / "tray.mjpeg")
    with bagging.phone(browser_type, browser_type_launch_args, film=film) as context:
        yield context


def on_the_list(here, job: str) -> set[str]:
    found = here.client.get(f"/api/jobs/{job}/findings").json()["findings"]
    return {f["check"] for f in found if f["severity"] != "note"}


def practice_begun(here, hand) -> str:
    page = hand.page
    page.goto(here.address)
    hand.tap(page.get_by_role("link", name="First time here"))
    hand.tap_button("Begin the practice job")
    page.wait_for_url(re.compile(r"/jobs/practice-[0-9a-f]+/practice$"))
    expect(page.get_by_role("heading", name="Practise")).to_be_visible(timeout=SENDING_MS)
    return page.url.split("/")[-2]


def test_the_practice_job_goes_wrong_in_three_ways_is_cured_and_counts_nowhere(here, phone, shots):
    hand = in_hand.hand_of(here, phone, "Ana")
    page = hand.page
    job = practice_begun(here, hand)
    in_hand.sound(page)
    in_hand.pictures(page, shots, "practice-1")
    hand.tap(page.get_by_role("link", name="Bag these"))
    expect(page.get_by_text(LABEL)).to_be_visible()
    hand.tap_button("Take the photo")
    hand.count(2)
    hand.tap(page.get_by_role("button", name=re.compile("^New spot")))
    expect(page.get_by_text("2 pieces ·")).to_be_visible()
    hand.tap(page.get_by_role("link", name=job))
    hand.tap(page.get_by_role("link", name="Go on practising"))
    expect(page.get_by_text("✓ done")).to_have_count(1)
    hand.tap_button("I loosened it")
    hand.tap_button("A rag is in it now")
    hand.tap_button("May it go?")
    for words in (f"bag {LABEL}|tray {LABEL}|{LABEL}", "loosened and not tight again", "rag in the stapler"):
        expect(page.locator(".lines").get_by_text(re.compile(words)).first).to_be_visible(timeout=SENDING_MS)
    before = on_the_list(here, job)
    assert before >= {"tray-not-empty", "loosened-and-left", "item-not-out"}
    in_hand.sound(page)
    in_hand.pictures(page, shots, "practice-2")
    hand.tap_button("2 screws back in, bag looked empty")
    hand.tap_button("The loose one is tight again")
    hand.tap_button("The rag is out")
    expect(page.get_by_text("Nothing on the list")).to_be_visible(timeout=SENDING_MS)
    assert on_the_list(here, job) & before == set()
    in_hand.pictures(page, shots, "practice-3")
    assert here.client.get(f"/api/labels/{CODE}").json()["job"] == job
    hand.tap_button("Throw it away")
    expect(page.get_by_text("This practice job was thrown away.")).to_be_visible()
    in_hand.sound(page)
    in_hand.all_sent(page)
    assert here.client.get(f"/api/labels/{CODE}").json()["job"] is None
    page.goto(here.address)
    expect(page.get_by_role("link", name="New job")).to_be_visible()
    assert page.get_by_text(job).count() == 0
    kinds = [each["kind"] for each in bagging.entries_of(here.client, job)]
    assert len(kinds) > 10, "what was practised stays readable"
    print(f"\nfirst run, practice job: {hand.taps} taps + 1 photo, 0 characters typed")


def test_a_new_job_needs_its_machines_name_and_goes_to_bagging(here, phone, shots):
    hand = in_hand.hand_of(here, phone, "Ana")
    page = hand.page
    page.goto(here.address)
    hand.tap(page.get_by_role("link", name="New job"))
    hand.tap_button("Go")
    expect(page.get_by_role("alert")).to_contain_text("Type the machine's name")
    page.get_by_label("Which machine?").fill("Ferry tender, inboard")
    in_hand.sound(page)
    in_hand.pictures(page, shots, "new-job")
    hand.tap_button("Go")
    page.wait_for_url(re.compile(r"/jobs/ferry-tender-inboard-[0-9a-f]+/bag$"))
    job = page.url.split("/")[-2]
    opened = in_hand.last_of(here, job, "job-opened")
    assert (opened["machine"], opened["level"], opened.get("practice", False)) == (
        "Ferry tender, inboard",
        2,
        False,
    )
    expect(page.get_by_text(LABEL)).to_be_visible()
    expect(page.get_by_text("there is no job")).to_have_count(0)
    in_hand.last_of(here, job, "signed-on")
    assert opened.get("meter") is None
    page.goto(f"{here.address}/first/new-job")
    page.get_by_label("Hours or km on its meter").fill("1204 h")
    hand.tap_button("Ferry tender, inboard")
    page.wait_for_url(re.compile(r"/jobs/ferry-tender-inboard-[0-9a-f]+/bag$"))
    again = page.url.split("/")[-2]
    assert again != job
    assert in_hand.last_of(here, again, "job-opened")["meter"] == "1204 h"
    print("\nnew job: 1 tap and a name; a machine that was here before: 1 tap, nothing typed")


def test_twenty_four_more_bags_by_one_tap_and_numbers_by_hand(here, phone, shots):
    hand = in_hand.hand_of(here, phone, "Ana")
    page = hand.page
    page.goto(f"{here.address}/first/print-labels")
    hand.tap_button("Print 24 more bags")
    expect(page.get_by_text(re.compile("24 labels, B-0001-. to B-0024-."))).to_be_visible()
    with page.expect_download() as download:
        page.get_by_role("link", name="Open the sheet").tap()
    assert download.value.path().read_bytes().startswith(b"%PDF")
    hand.tap_button("Print 24 more bags")
    expect(page.get_by_text(re.compile("24 labels, B-0025-. to B-0048-."))).to_be_visible()
    hand.tap_button("Give me 4 numbers")
    expect(page.locator(".numbers li")).to_have_count(4)
    assert [text[:6] for text in page.locator(".numbers li").all_text_contents()] == [
        f"B-00{number}" for number in range(49, 53)
    ]
    in_hand.sound(page)
    in_hand.pictures(page, shots, "labels")
    print("\nprint 24 more bags: 1 tap (budget 1)")
