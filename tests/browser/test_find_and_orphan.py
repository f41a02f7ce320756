import pytest
from playwright.sync_api import expect
from tests.browser import bagging, in_hand
from tests.browser.bagging import PHOTOS
from tests.web import shop
from tests.web.shop import entry

pytestmark = [pytest.mark.browser, pytest.mark.long]
SET = "inlet manifold bolts"
TRAY_ON_FILM = "T0106E"


def test_a_tray_is_found_by_scan_without_a_tap(here, browser_type, browser_type_launch_args, tmp_path):
    bagging.open_job(here.client)
    bound = {"label": TRAY_ON_FILM, "container": "blue tray", "container_kind": "tray"}
    shop.send(here.client, [entry("label-bound", 3, job=bagging.JOB, **bound)]).raise_for_status()
    film = bagging.clip(PHOTOS / "07-inlet-manifold-bolts.jpg", tmp_path / "tray.mjpeg")
    with bagging.phone(browser_type, browser_type_launch_args, film=film) as context:
        hand = in_hand.hand_of(here, context, "Ana")
        page = hand.page
        page.goto(f"{here.address}/jobs/{bagging.JOB}")
        hand.tap(page.get_by_role("link", name="Find", exact=True))
        page.wait_for_url("**/containers/blue%20tray")
    print(f"\nfind by scan: {hand.taps} tap to the screen, 0 to scan")
    assert hand.taps == 1


def test_a_typed_code_is_found_and_its_slip_is_said_in_words(here, phone, shots):
    job = in_hand.half_finished(here)
    hand = in_hand.hand_of(here, phone, "Ana")
    page = hand.page
    page.goto(f"{here.address}/jobs/{job}/find")
    page.get_by_label("Or type what stands on it").fill("T-0042-F")
    hand.tap_button("Find it")
    expect(page.get_by_text("T-0042-F has a slip in it: the last character does not fit")).to_be_visible()
    in_hand.sound(page)
    in_hand.pictures(page, shots, "find")
    page.get_by_label("Or type what stands on it").fill("T-0043-C")
    hand.tap_button("Find it")
    expect(page.get_by_text("bound to nothing here yet")).to_be_visible()
    page.get_by_label("Or type what stands on it").fill("t0042e")
    hand.tap_button("Find it")
    page.wait_for_url("**/containers/T0042E")


def test_by_place_and_photos_by_step_label_and_date(here, phone, shots):
    job = in_hand.half_finished(here)
    hand = in_hand.hand_of(here, phone, "Ana")
    page = hand.page
    page.goto(f"{here.address}/jobs/{job}/find")
    hand.tap(page.get_by_text("bench by the window · 1 bag or tray"))
    expect(page.get_by_role("link", name="T-0042-E")).to_be_visible()
    hand.tap_button("By label")
    hand.tap(page.get_by_text("T-0042-E · 1 photo"))
    expect(page.locator("details[open] .grid img")).to_have_count(1)
    in_hand.sound(page)
    in_hand.pictures(page, shots, "find-label")
    hand.tap_button("By date")
    expect(page.get_by_text("· 3 photos")).to_be_visible()
    print(f"\nfind by place: 1 tap; a photo by label: 2 taps, by date: 2 taps ({hand.taps} in all)")


def test_a_lone_bolt_by_length_and_thickness_gets_homes_with_reasons(here, phone, shots):
    job = in_hand.half_finished(here)
    hand = in_hand.hand_of(here, phone, "Ana")
    page = hand.page
    page.goto(f"{here.address}/jobs/{job}")
    hand.tap(page.get_by_role("link", name="Where does this go?"))
    expect(page.get_by_text("No camera answered.")).to_be_visible()
    in_hand.sound(page)
    in_hand.pictures(page, shots, "orphan-ask")
    hand.tap_button("Look for its home")
    expect(page.get_by_role("alert")).to_contain_text("Type millimetres")
    before = hand.taps
    page.get_by_label("Length under the head").fill("16,3")
    page.get_by_label("Thickness of the thread").fill("6")
    hand.tap_button("Look for its home")
    expect(page.get_by_text("holes 1, 2, 3, 4, 5, 6 stand empty")).to_be_visible()
    expect(page.get_by_text("length 16.3 mm, it has 16")).to_be_visible()
    in_hand.sound(page)
    in_hand.pictures(page, shots, "orphan-homes")
    hand.tap_button("It is of pump cover bolts")
    identified = in_hand.last_of(here, job, "fastener-identified")
    assert identified["set"] == "pump cover bolts"
    measured = in_hand.last_of(here, job, "fastener-measured")
    assert (measured["diameter_mm"], measured["length_mm"], measured["how"]) == (6, 16.3, "caliper")
    print(
        f"\norphan by measure: {hand.taps - before} taps and two numbers (budget 2 taps + photo or numbers)"
    )
    hand.tap_button("Undo")
    in_hand.last_of(here, job, "entry-voided", 3)


def test_a_lone_bolt_is_measured_in_a_photo_beside_a_label(here, phone, shots):
    job = bagging.JOB
    entries = [
        entry("job-opened", 1, job=job, machine="Ferry tender, inboard", title="Gasket", level=1),
        entry("set-described", 2, job=job, set="short ones", n=4, type="M8x1.25x20"),
        entry("set-described", 3, job=job, set=SET, n=6, type="M8x1.25x35"),
        entry("fasteners-removed", 4, job=job, set=SET, n=6),
    ]
    shop.send(here.client, entries).raise_for_status()
    hand = in_hand.hand_of(here, phone, "Ana")
    page = hand.page
    page.goto(f"{here.address}/jobs/{job}/orphan")
    with page.expect_file_chooser() as chooser:
        hand.tap_button("Photograph the piece")
    chooser.value.set_files(PHOTOS / "07-inlet-manifold-bolts.jpg")
    expect(page.locator("section h2").first).to_contain_text("mm long", timeout=60_000)
    expect(page.get_by_text("Estimate.").first).to_be_visible()
    expect(page.locator("article.card", has_text=SET).first).to_contain_text("The only one that fits")
    in_hand.pictures(page, shots, "orphan-photo")
    before = hand.taps
    hand.tap(page.get_by_role("button", name="Found, and nobody knows where it goes").first)
    found = in_hand.last_of(here, job, "thing-found")
    assert "mm long" in found["what"]
    print(f"\norphan by photo: {before} photo + 1 tap (budget 2 taps + photo)")
