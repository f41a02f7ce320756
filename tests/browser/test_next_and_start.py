import pytest
from playwright.sync_api import expect
from tests.browser import in_hand
from tests.web import shop
from tests.web.shop import entry

pytestmark = [pytest.mark.browser, pytest.mark.long]


def test_what_next_is_one_tap_and_names_the_bag_to_fetch(here, phone, shots):
    job = in_hand.half_finished(here)
    hand = in_hand.hand_of(here, phone, "Ana")
    page = hand.page
    page.goto(f"{here.address}/jobs/{job}")
    hand.tap(page.get_by_role("link", name="What next?"))
    expect(page.get_by_role("heading", name="What next?")).to_be_visible()
    expect(page.locator(".step.first .headline")).to_be_visible()
    said = here.client.get(f"/api/jobs/{job}/next").json()
    expect(page.locator(".step.first .headline")).to_have_text(said["big"]["sentence"])
    assert page.locator(".step:not(.first)").count() == len(said["small"]) <= 3
    in_hand.sound(page)
    in_hand.pictures(page, shots, "next")
    print(f"\nwhat next: {hand.taps} tap (budget 1)")
    assert hand.taps == 1
    shop.send(here.client, [entry("fasteners-fitted", 30, set="pump cover bolts", n=6, source="T0042E")])
    shop.send(here.client, [entry("opening-closed", 31, opening="pump housing")])
    changed = here.client.get(f"/api/jobs/{job}/next").json()["big"]["sentence"]
    assert changed != said["big"]["sentence"]
    expect(page.locator(".step.first .headline")).to_have_text(changed)


def test_about_to_start_shows_what_stands_in_the_way_and_no_tick(here, phone, shots):
    job = in_hand.half_finished(here)
    rag = {"photos": ("rag.jpg", shop.picture("the rag"), "image/jpeg")}
    sha = here.client.post(f"/api/jobs/{job}/photos", files=rag).json()[0]["sha256"]
    shop.send(
        here.client, [entry("item-brought-in", 20, item="blue rag", opening="pump housing", photos=[sha])]
    )
    hand = in_hand.hand_of(here, phone, "Ana")
    page = hand.page
    page.goto(f"{here.address}/jobs/{job}")
    hand.tap(page.get_by_role("link", name="About to turn or start it"))
    expect(page.locator(".headline.stands")).to_contain_text("DO NOT START")
    expect(page.get_by_role("heading", name="1 blue rag is still in pump housing.")).to_be_visible()
    expect(page.locator(f"img[src*='{sha}']").first).to_be_visible()
    expect(page.get_by_text("Hands, hair, sleeves and people clear.")).to_be_visible()
    assert in_hand.last_of(here, job, "start-asked")["by"] == "Ana"
    in_hand.sound(page)
    in_hand.pictures(page, shots, "start")
    print(f"\nabout to start: {hand.taps} tap (budget 1)")
    assert hand.taps == 1


def test_without_wifi_the_last_answer_says_how_old_it_is_and_what_it_does_not_count(here, phone, shots):
    job = in_hand.half_finished(here)
    hand = in_hand.hand_of(here, phone, "Ana")
    page = hand.page
    page.goto(f"{here.address}/jobs/{job}/start")
    expect(page.locator(".headline.stands")).to_be_visible()
    in_hand.all_sent(page)
    page.goto(f"{here.address}/jobs/{job}/next")
    expect(page.locator(".step.first")).to_be_visible()
    page.goto(f"{here.address}/jobs/{job}")
    expect(page.get_by_role("link", name="About to turn or start it")).to_be_visible()
    phone.set_offline(True)
    hand.tap(page.get_by_role("link", name="About to turn or start it"))
    expect(page.locator(".headline.stands")).to_contain_text("This is old: look at the machine itself.")
    expect(page.locator(".old")).to_contain_text("As of ")
    expect(page.locator(".old")).to_contain_text("This does not count 1 entry of this phone")
    expect(page.locator(".old")).to_contain_text("Start asked")
    in_hand.sound(page)
    in_hand.pictures(page, shots, "start-offline")
    phone.set_offline(False)
