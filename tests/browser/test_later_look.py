"""A shop of one: whoever did the work looks again later, and does more than look (practice 5.10)."""

import pytest
from playwright.sync_api import expect
from tests.browser import bagging, in_hand
from tests.web import shop
from tests.web.shop import entry

pytestmark = [pytest.mark.browser, pytest.mark.long]
SET = "steering arm bolts"


def done_alone(here, job: str, **opened: object) -> str:
    """Ana alone took a critical set out and tightened it again, long ago."""
    lines = [
        entry("job-opened", 1, job=job, machine="Work boat", title="Steering", level=3, **opened),
        entry("set-described", 2, job=job, set=SET, n=2, type="M10x1.5x40", critical=True),
        entry("spec-entered", 3, job=job, set=SET, min_nm=45, max_nm=49, source="maker's manual p. 12"),
        entry("fasteners-removed", 4, job=job, set=SET, n=2, to="T0106E"),
        entry("fasteners-fitted", 5, job=job, set=SET, n=2, source="T0106E"),
        entry("fasteners-tightened", 6, job=job, set=SET, value_nm=47),
    ]
    shop.send(here.client, lines).raise_for_status()
    return job


def open_looks(here, phone, job: str):
    hand = in_hand.hand_of(here, phone, "Ana")
    hand.page.goto(f"{here.address}/jobs/{job}/looks")
    hand.tap_button(f"I looked at {SET}")
    return hand


def missing(here, job: str) -> list[dict]:
    in_hand.last_of(here, job, "second-checked")
    found = here.client.get(f"/api/jobs/{job}/findings").json()["findings"]
    return [each for each in found if each["check"] == "second-person-missing"]


def test_the_torque_tried_again_goes_with_the_look_to_the_lead(here, phone, shots):
    job = done_alone(here, "steering")
    hand = open_looks(here, phone, job)
    hand.tap_button("Good, but I did it myself: re-look, same person")
    expect(hand.page.get_by_text("a look alone is not enough")).to_be_visible()
    in_hand.sound(hand.page)
    in_hand.pictures(hand.page, shots, "look-again")
    hand.tap_button("Torque tried again: the wrench clicked on all 2")
    expect(hand.page.locator(".understood p")).to_contain_text("torque tried again")
    in_hand.all_sent(hand.page)
    (finding,) = missing(here, job)
    assert finding["severity"] == "decide" and "Ana tried the torque again later" in finding["sentence"]


def test_a_photo_from_another_angle_goes_with_the_look(here, phone):
    job = done_alone(here, "steering")
    hand = open_looks(here, phone, job)
    hand.tap_button("Good, but I did it myself: re-look, same person")
    with hand.page.expect_file_chooser() as chooser:
        hand.tap_button("Photo from another angle")
    chooser.value.set_files(bagging.PHOTOS / "07-inlet-manifold-bolts.jpg")
    expect(hand.page.locator(".understood p")).to_contain_text("with a photo from another angle")
    in_hand.all_sent(hand.page)
    (finding,) = missing(here, job)
    assert finding["severity"] == "decide" and "with a photo from another angle" in finding["sentence"]


def test_for_licensed_work_the_doers_own_look_is_not_offered(here, phone, shots):
    job = done_alone(here, "steering", licensed=["pressure"])
    hand = open_looks(here, phone, job)
    expect(hand.page.get_by_role("button", name="Good, and I did none of it")).to_be_visible()
    expect(
        hand.page.get_by_role("button", name="Good, but I did it myself: re-look, same person")
    ).to_have_count(0)
    expect(hand.page.get_by_text("Licensed work: whoever did it cannot stand")).to_be_visible()
    in_hand.pictures(hand.page, shots, "look-again-licensed")
