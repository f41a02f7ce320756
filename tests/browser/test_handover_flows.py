import hashlib
import re
import time

import pytest
from playwright.sync_api import expect
from tests.browser import bagging, in_hand, shelf
from tests.browser.bagging import PHOTOS
from tests.web import shop
from tests.web.shop import entry

pytestmark = [pytest.mark.browser, pytest.mark.long]
JOB = "launch-40"
SECONDS_A_VIEW = 2.5
FIVE_MINUTES_S = 300


def test_giving_over_asks_three_questions_and_writes_its_own_list(here, phone, shots):
    job = in_hand.half_finished(here)
    shop.send(here.client, [entry("work-interrupted", 20, element="pump cover bolts", reason="telephone")])
    hand = in_hand.hand_of(here, phone, "Ana")
    page = hand.page
    page.goto(f"{here.address}/jobs/{job}")
    hand.tap(page.get_by_role("link", name="Give over"))
    expect(page.get_by_role("heading", name="What is half done?")).to_be_visible()
    expect(page.locator(".lines")).to_contain_text("pump cover bolts was interrupted")
    in_hand.sound(page)
    in_hand.pictures(page, shots, "give-1")
    hand.tap_button("That is all")
    expect(page.get_by_role("heading", name="What is dangerous?")).to_be_visible()
    expect(page.locator(".lines")).to_contain_text("battery is off, tag of Ana")
    hand.tap_button("That is all")
    expect(page.get_by_role("heading", name="What is not in here?")).to_be_visible()
    in_hand.sound(page)
    hand.tap_button("Nothing")
    in_hand.sound(page)
    in_hand.pictures(page, shots, "give-2")
    hand.tap_button("Give over and sign off")
    expect(page.get_by_text("Given over and signed off")).to_be_visible()
    offer = in_hand.last_of(here, job, "handover-offered")
    assert "pump cover bolts was interrupted" in offer["half_done"]
    assert "battery is off" in offer["dangerous"]
    assert offer["not_listed"] == "Nothing."
    assert in_hand.last_of(here, job, "signed-off")["why"] == "shift"
    print(f"\ngive over: {hand.taps} taps, 0 characters typed (budget: three questions, at most 90 s)")
    assert hand.taps == 5


def test_a_german_phone_reads_the_sheet_in_german(here, phone):
    job = in_hand.half_finished(here)
    shop.send(here.client, [entry("work-interrupted", 20, element="pump cover bolts", reason="telephone")])
    hand = in_hand.hand_of(here, phone, "Ana")
    page = hand.page
    page.goto(f"{here.address}/phone")
    page.get_by_role("button", name="Deutsch").tap()
    expect(page.get_by_role("heading", level=1, name="Was auf diesem Telefon wartet")).to_be_visible()
    page.goto(f"{here.address}/jobs/{job}/give-over")
    expect(page.locator(".lines")).to_contain_text("pump cover bolts wurde unterbrochen (Ana,")
    expect(page.locator(".lines")).to_contain_text("6 Löcher sind leer. Drei Schritte zurückgehen")
    hand.tap(page.locator("button.shutter"))
    expect(page.locator(".lines")).to_contain_text("battery ist abgetrennt, Schild von Ana, nachgewiesen")
    page.goto(f"{here.address}/labels/T-0042-F")
    expect(page.get_by_text("In T-0042-F steckt ein Fehler")).to_be_visible()


def test_what_is_not_in_the_record_is_said_in_ones_own_words(here, phone):
    job = in_hand.half_finished(here)
    hand = in_hand.hand_of(here, phone, "Ana")
    page = hand.page
    page.goto(f"{here.address}/jobs/{job}/give-over")
    for _ in range(2):
        hand.tap(page.locator("button.shutter"))
    page.get_by_label("In your words").fill("the hose behind the pump is only pushed on")
    hand.tap_button("Add this and go on")
    hand.tap_button("Give over and sign off")
    offer = in_hand.last_of(here, job, "handover-offered")
    assert offer["not_listed"] == "the hose behind the pump is only pushed on"
    hand.tap_button("Undo")
    expect(page.get_by_text("Taken back: Given over")).to_be_visible()
    in_hand.last_of(here, job, "entry-voided", 2)
    assert here.client.get(f"/api/jobs/{job}/takeover").json()["offered"] is None


def test_forty_bags_are_walked_by_camera_and_taken_over(
    here, browser_type, browser_type_launch_args, tmp_path, shots
):
    labels = shelf.printed_labels(here, tmp_path)
    codes = shelf.codes_of(here, tmp_path)
    assert len(labels) == len(codes) == shelf.BAGS
    shelf.fill(here, codes, JOB)
    offered = {"half_done": "cover 3: second bolt sticks", "dangerous": "sea-cock weeps"}
    shop.send(here.client, [entry("handover-offered", 90, job=JOB, **offered)]).raise_for_status()
    film = shelf.walk_film(labels, tmp_path / "shelf.mjpeg", SECONDS_A_VIEW)
    with bagging.phone(browser_type, browser_type_launch_args, film=film) as context:
        hand = in_hand.hand_of(here, context, "Ben")
        page = hand.page
        page.goto(f"{here.address}/jobs/{JOB}")
        hand.tap(page.get_by_role("link", name="Take over"))
        expect(page.get_by_text("cover 3: second bolt sticks", exact=True)).to_be_visible()
        in_hand.sound(page)
        in_hand.pictures(page, shots, "take-read")
        began = time.monotonic()
        hand.tap_button(f"Walk along the {shelf.BAGS} bags and trays")
        expect(page.locator("video")).to_be_visible()
        expect(page.get_by_text("✗ missing").first).to_be_visible()
        in_hand.pictures(page, shots, "take-walk")
        expect(page.get_by_text(f"{shelf.BAGS} of {shelf.BAGS} seen")).to_be_visible(timeout=120_000)
        walked = time.monotonic() - began
        assert page.get_by_text("✗ missing").count() == 0
        in_hand.sound(page)
        in_hand.pictures(page, shots, "take-walked")
        hand.tap_button("Go on")
        in_hand.sound(page)
        in_hand.pictures(page, shots, "take-tags")
        before = hand.taps
        for _ in range(2):
            hand.tap(page.get_by_role("button", name="The tag is mine now").first)
        transfers = hand.taps - before
        hand.tap_button("I take over")
        expect(page.get_by_text("Taken over: 40 of 40 bags and trays seen")).to_be_visible()
        taken = in_hand.last_of(here, JOB, "handover-accepted")
        moved = [e for e in bagging.entries_of(here.client, JOB) if e["kind"] == "isolation-transferred"]
    assert sorted(taken["containers"]) == codes and taken["disputed"] == [] and taken["giver"] == "Ana"
    assert [(each["isolation"], each["to"]) for each in moved] == [("battery", "Ben"), ("sea-cock", "Ben")]
    sheet = here.client.get(f"/api/jobs/{JOB}/takeover").json()
    assert [tag["holder"] for tag in sheet["tags"]] == ["Ben", "Ben"]
    print(
        f"\ntake over: {hand.taps - transfers} taps + {transfers} transfers (budget 6 + transfers); "
        f"{shelf.BAGS} bags seen in {walked:.0f} s (budget {FIVE_MINUTES_S} s; the film alone takes "
        f"{shelf.BAGS / shelf.IN_VIEW * SECONDS_A_VIEW:.0f} s)"
    )
    assert hand.taps - transfers <= 6
    assert walked <= FIVE_MINUTES_S


def test_a_bag_that_is_not_there_stays_missing_and_one_that_differs_is_disputed(here, phone, shots):
    codes = ["B0001X", "B0002V"]
    shelf.fill(here, codes, JOB)
    hand = in_hand.hand_of(here, phone, "Ben")
    page = hand.page
    page.goto(f"{here.address}/jobs/{JOB}/take-over")
    expect(page.get_by_text("Nobody has given this job over.")).to_be_visible()
    hand.tap(page.locator("button.shutter"))
    hand.tap(page.get_by_role("button", name="I see it").first)
    hand.tap_button("Not so")
    expect(page.get_by_text("✗ missing")).to_have_count(1)
    in_hand.sound(page)
    in_hand.pictures(page, shots, "take-missing")
    hand.tap_button("Go on, 1 not seen")
    expect(page.get_by_text("1 is disputed: B0001X")).to_be_visible()
    hand.tap_button("I take over, 1 not seen")
    taken = in_hand.last_of(here, JOB, "handover-accepted")
    assert (taken["containers"], taken["disputed"]) == (["B0001X"], ["B0001X"])


def test_what_was_half_done_is_looked_over_again_by_one_tap(here, phone):
    job = in_hand.half_finished(here)
    shop.send(here.client, [entry("work-interrupted", 20, element="pump cover bolts", reason="telephone")])
    hand = in_hand.hand_of(here, phone, "Ben")
    hand.page.goto(f"{here.address}/jobs/{job}/take-over")
    hand.tap_button("Went back three steps and looked again")
    resumed = in_hand.last_of(here, job, "work-resumed")
    assert (resumed["element"], resumed["went_back"], resumed["rechecked"]) == ("pump cover bolts", 3, True)
    assert "handover-gap" not in [
        f["check"]
        for f in here.client.get(f"/api/jobs/{job}/findings").json()["findings"]
        if f["subject"] == "pump cover bolts"
    ]


def test_a_voice_note_goes_along_with_the_handover_and_the_next_one_hears_it(
    here, browser_type, browser_type_launch_args, tmp_path, shots
):
    """The browser's own false microphone beeps; the bytes are what its recorder makes of that."""
    job = in_hand.half_finished(here)
    film = bagging.clip(PHOTOS / "07-inlet-manifold-bolts.jpg", tmp_path / "tray.mjpeg")
    with bagging.phone(browser_type, browser_type_launch_args, film=film) as context:
        context.grant_permissions(["microphone"], origin=here.address)
        hand = in_hand.hand_of(here, context, "Ana")
        page = hand.page
        page.goto(f"{here.address}/jobs/{job}/give-over")
        for _ in range(3):
            hand.tap(page.locator("button.shutter"))
        hand.tap_button("Speak a note, a minute at most")
        stop = page.get_by_role("button", name=re.compile("^Listening"))
        expect(stop).to_be_visible()
        in_hand.sound(page)
        in_hand.pictures(page, shots, "give-voice")
        hand.tap(stop)
        expect(page.get_by_text(re.compile("A voice note of \\d+ seconds? goes along"))).to_be_visible()
        hand.tap_button("Give over and sign off")
        offer = in_hand.last_of(here, job, "handover-offered")
        in_hand.all_sent(page)
        kept = here.client.get(f"/api/photos/{offer['voice_note']}")
        assert kept.headers["content-type"] == "audio/webm"
        assert hashlib.sha256(kept.content).hexdigest() == offer["voice_note"]
        page.goto(f"{here.address}/jobs/{job}/take-over")
        expect(page.get_by_label("Voice note of Ana")).to_be_visible(timeout=60_000)
        heard = "document.querySelector('audio').play().then(() => true)"
        assert page.evaluate(heard), "the next one hears it"
        print(f"\nvoice note: 2 taps, {len(kept.content)} bytes")
