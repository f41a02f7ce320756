"""Practice 5.1 and 5.2 at the machine: a set goes back on, from the scan of its tray to the tray looked into."""

import re

import pytest
from playwright.sync_api import Page, expect
from tests.browser import at_work, bagging
from tests.browser.at_work import (
    JOB,
    LOOKALIKE,
    RAIL,
    TRAY,
    TRAY_SHOWN,
    keep_picture,
    recorded,
    said_by,
    sound,
)
from tests.web import shop

from lastbolt.label_code import make, shown

pytestmark = [pytest.mark.browser, pytest.mark.long]
ORDER = [3, 4, 2, 5, 1, 6]


@pytest.fixture
def here(tmp_path):
    with shop.open_shop(tmp_path / "data") as (address, client):
        at_work.taken_apart(client)
        at_work.photographed(client, pinned=True)
        yield address, client


@pytest.fixture(scope="module")
def film(tmp_path_factory):
    return bagging.clip(
        bagging.PHOTOS / "07-inlet-manifold-bolts.jpg", tmp_path_factory.mktemp("film") / "tray.mjpeg"
    )


@pytest.fixture
def in_hand(here, film, browser_type, browser_type_launch_args):
    with at_work.at_machine(browser_type, browser_type_launch_args, film=film, address=here[0]) as page:
        yield page


def back(page: Page, address: str) -> bagging.Hand:
    page.goto(f"{address}/jobs/{JOB}/back/{RAIL}")
    expect(page.get_by_role("heading", name=RAIL, exact=True)).to_be_visible()
    return bagging.Hand(page)


def facts(page: Page) -> dict[str, str]:
    names, values = page.locator("dt").all_inner_texts(), page.locator("dd").all_inner_texts()
    return dict(zip(names, values, strict=True))


def test_the_tray_in_view_says_where_each_goes_without_a_tap(here, in_hand, shots):
    """Practice 5.2: photo with the holes ringed, count, torque with page, new seal, what goes on before: 0 taps."""
    address, _ = here
    at_work.hub(in_hand, address)
    expect(in_hand.get_by_text(f"{TRAY_SHOWN}: 6 × M8x1.25x35 of {RAIL}")).to_be_visible()
    expect(in_hand.locator("svg .pin.open")).to_have_count(6)
    said = facts(in_hand)
    assert said["Lies in"] == f"{TRAY_SHOWN}: 6"
    assert said["As printed"] == "22-26 N·m, oiled"
    assert said["From"] == "workshop book (invented), edition 3, page 41"
    assert said["Order"] == "3 – 4 – 2 – 5 – 1 – 6"
    assert said["New pieces"] == "1 x manifold gasket"
    assert said["First on"] == "inlet manifold"
    assert said["Before it goes on"] == "air box"
    assert said["Wrench"].startswith("small wrench")
    sound(in_hand)
    keep_picture(in_hand, shots, "back-scan")
    print("\nwhere does this go: 0 taps (budget 0)")


def test_a_set_goes_back_on_fitted_tightened_in_stages_and_the_tray_looked_into(here, in_hand, shots):
    address, client = here
    hand = at_work.hub(in_hand, address)
    hand.tap(in_hand.get_by_role("link", name=f"Fit {RAIL}"))
    hand.tap_button("1 new manifold gasket is on")
    hand.tap(in_hand.get_by_role("button", name=re.compile("^inlet manifold is on")))
    keep_picture(in_hand, shots, "back-fit")
    hand.tap_button(f"All 6 from {TRAY_SHOWN}")
    expect(in_hand.locator(".understood")).to_contain_text(
        f"6 of {RAIL} from {TRAY_SHOWN} fitted, not tight yet"
    )
    expect(in_hand.get_by_text("The value comes from the maker's manual")).to_be_visible()
    sound(in_hand)
    keep_picture(in_hand, shots, "back-caution")
    hand.tap_button("Read")
    fitting = hand.taps
    expect(in_hand.get_by_role("heading", name="Tighten: stage 1 of 2")).to_be_visible()
    sound(in_hand)
    hand.tap(in_hand.get_by_role("button", name=re.compile("^small wrench")))
    keep_picture(in_hand, shots, "back-value")
    hand.tap_button("11 N·m")
    keep_picture(in_hand, shots, "back-pull")
    sound(in_hand)
    hand.tap_button("All 6 at 11 N·m: 3 – 4 – 2 – 5 – 1 – 6")
    expect(in_hand.get_by_role("heading", name="Tighten: stage 2 of 2")).to_be_visible()
    first = hand.taps - fitting
    hand.tap_button("Another wrench")
    hand.tap(in_hand.get_by_role("button", name="large wrench", exact=True))
    hand.tap_button("24 N·m")
    for hole in ORDER:
        hand.tap(in_hand.get_by_role("button", name=f"{hole} due"))
    expect(in_hand.locator(".understood")).to_contain_text("6 holes of manifold bolts tightened at 24 N·m")
    second = hand.taps - fitting - first
    hand.tap_button(f"{TRAY_SHOWN}: looked into, felt, empty")
    expect(in_hand.get_by_role("button", name="Take the photo of the empty bag")).to_be_enabled()
    sound(in_hand)
    keep_picture(in_hand, shots, "back-empty")
    hand.tap_button("Take the photo of the empty bag")
    expect(in_hand.locator(".understood")).to_contain_text(f"{TRAY_SHOWN} is empty and free")
    seal, part, fitted, low, high, photo, emptied = recorded(client, 7)
    assert said_by(seal, "kind", "renewal", "n") == ("renewal-fitted", "manifold gasket", 1)
    assert said_by(part, "kind", "part") == ("part-fitted", "inlet manifold")
    assert said_by(fitted, "kind", "set", "n", "source") == ("fasteners-fitted", RAIL, 6, TRAY)
    pulled = ("kind", "stage", "holes", "value_nm", "wrench", "method")
    assert said_by(low, *pulled) == ("fasteners-tightened", 1, ORDER, 11, "small wrench", "click")
    assert said_by(high, *pulled) == ("fasteners-tightened", 2, ORDER, 24, "large wrench", "click")
    assert said_by(emptied, "kind", "container", "photos") == ("container-emptied", TRAY, [photo["photo"]])
    findings = client.get(f"/api/jobs/{JOB}/findings").json()["findings"]
    about = [f["check"] for f in findings if f["subject"] in (RAIL, TRAY)]
    assert not {"torque-missing", "stage-or-sequence", "hole-empty", "tray-not-empty"} & set(about)
    print(
        f"\nback on: fitted with seal and part {fitting} taps (1 is the caution), stage 1 {first}, "
        f"stage 2 hole by hole {second} (budget 1 a hole + value + wrench), tray 1 + photo"
    )
    assert (fitting, first, second) == (5, 3, 9)


def test_fewer_may_be_fitted_and_what_the_tray_still_holds_is_said(here, in_hand):
    address, client = here
    hand = back(in_hand, address)
    hand.tap_button(f"Fewer from {TRAY_SHOWN}")
    hand.count(5)
    hand.tap_button("Record 5")
    expect(in_hand.get_by_text(f"By the record {TRAY_SHOWN} still holds 1 × M8x1.25x35")).to_be_visible()
    expect(in_hand.get_by_role("button", name=re.compile("looked into, felt, empty"))).to_have_count(0)
    assert said_by(recorded(client, 1)[0], "n", "source") == (5, TRAY)


def test_some_holes_of_a_stage_can_be_recorded_and_the_rest_stays_due(here, in_hand):
    address, client = here
    at_work.tell(client, ("fasteners-fitted", {"set": RAIL, "n": 6, "source": TRAY}), first=80)
    hand = back(in_hand, address)
    hand.tap_button("Read")
    hand.tap(in_hand.get_by_role("button", name=re.compile("^small wrench")))
    hand.tap_button("10 N·m")
    for hole in (3, 4):
        hand.tap(in_hand.get_by_role("button", name=f"{hole} due"))
    hand.tap_button("Record 2 holes: 3 – 4")
    expect(in_hand.locator(".understood")).to_contain_text("2 holes of manifold bolts tightened at 10 N·m")
    assert said_by(recorded(client, 1)[0], "stage", "holes") == (1, [3, 4])
    expect(in_hand.get_by_role("button", name="All 4 at 10 N·m: 2 – 5 – 1 – 6")).to_be_visible()


def test_a_wrench_that_does_not_suit_is_called_out_with_the_servers_reason(here, in_hand):
    address, client = here
    at_work.tell(client, ("fasteners-fitted", {"set": RAIL, "n": 6, "source": TRAY}), first=80)
    hand = back(in_hand, address)
    hand.tap_button("Read")
    hand.tap(in_hand.get_by_role("button", name=re.compile("^large wrench")))
    expect(in_hand.get_by_role("alert")).to_contain_text("20")
    suits = client.get(f"/api/jobs/{JOB}/torque").json()["rows"][0]["stages"][0]["wrenches"]
    reason = next(each["objections"] for each in suits if each["wrench"] == "large wrench")
    assert in_hand.get_by_role("alert").inner_text() == " ".join(reason)


def test_the_right_tray_and_a_wrong_one_are_told_apart_while_a_set_goes_back(here, in_hand):
    address, _ = here
    hand = back(in_hand, address)
    hand.tap_button("Scan bag or wrench")
    expect(in_hand.get_by_text(f"{TRAY_SHOWN} is right: 6 × M8x1.25x35 of {RAIL}")).to_be_visible(
        timeout=30_000
    )
    in_hand.goto(f"{address}/jobs/{JOB}/back/{LOOKALIKE}")
    hand.tap_button("Scan bag or wrench")
    wrong = in_hand.get_by_role("alert").filter(has_text=f"{TRAY_SHOWN} is another one")
    expect(wrong).to_contain_text(f"Nothing of {LOOKALIKE} lies in it", timeout=30_000)


def test_a_wrench_scanned_while_a_set_goes_back_is_in_the_hand(
    here, browser_type, browser_type_launch_args, tmp_path
):
    address, client = here
    code = make("W", 3)
    at_work.tell(
        client,
        ("label-bound", {"label": code, "container": "large wrench", "container_kind": "place"}),
        first=90,
    )
    picture = tmp_path / "wrench.jpg"
    picture.write_bytes(shop.picture("a wrench", (1280, 960), shown(code)))
    film = bagging.clip(picture, tmp_path / "wrench.mjpeg")
    with at_work.at_machine(browser_type, browser_type_launch_args, film=film, address=address) as page:
        hand = back(page, address)
        hand.tap_button("Scan bag or wrench")
        expect(page.locator(".understood")).to_contain_text(
            "large wrench is in the hand for 30 minutes", timeout=30_000
        )
        sound(page)
        print(f"\nwrench by scan: {hand.taps} tap (budget 1)")


def test_without_wifi_a_tray_still_says_where_it_goes_and_its_fitting_goes_over_later(here, in_hand):
    address, client = here
    hand = at_work.hub(in_hand, address)
    expect(in_hand.get_by_text("from the server.")).to_be_visible()
    in_hand.evaluate("navigator.serviceWorker.ready.then(() => undefined)")
    at_work.offline(in_hand.context, True)
    in_hand.reload()
    expect(in_hand.get_by_text(f"{TRAY_SHOWN}: 6 × M8x1.25x35 of {RAIL}")).to_be_visible()
    hand.tap(in_hand.get_by_role("link", name=f"Fit {RAIL}"))
    hand.tap_button(f"All 6 from {TRAY_SHOWN}")
    hand.tap_button("Read")
    hand.tap(in_hand.get_by_role("button", name=re.compile("^small wrench")))
    hand.tap_button("11 N·m")
    hand.tap_button("All 6 at 11 N·m: 3 – 4 – 2 – 5 – 1 – 6")
    expect(in_hand.get_by_role("heading", name="Tighten: stage 2 of 2")).to_be_visible()
    expect(in_hand.get_by_text("2 entries since are not judged yet.")).to_be_visible()
    assert at_work.by_ana(client) == []
    at_work.offline(in_hand.context, False)
    assert [each["kind"] for each in recorded(client, 2)] == ["fasteners-fitted", "fasteners-tightened"]
