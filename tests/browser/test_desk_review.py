import re
import time

import pytest
from playwright.sync_api import Page, expect
from tests.browser import desk_shop
from tests.browser.desk_page import SIZES, desk, heard, keep
from tests.browser.desk_shop import JOB
from tests.web.signing_in import sign_in_browser

pytestmark = [pytest.mark.browser, pytest.mark.long]


@pytest.fixture(scope="module")
def here(tmp_path_factory):
    with desk_shop.opened(tmp_path_factory.mktemp("review")) as (address, client):
        desk_shop.tell_review(client)
        yield address, client


@pytest.fixture
def small(here, request):
    """A small job of its own for a test that decides something."""
    return desk_shop.tell_small(here[1], f"tern {abs(hash(request.node.name)) % 10_000}")


@pytest.fixture(params=SIZES)
def page(browser, here, request):
    with desk(browser, here[0], request.param) as context:
        sign_in_browser(context, here[0])
        yield context.new_page()


def findings(client, job):
    return client.get(f"/api/jobs/{job}/findings").json()["findings"]


def at(page: Page, sentence: str) -> None:
    """Go to the finding of that sentence in the list."""
    listed = page.get_by_role("navigation", name="Findings, worst first")
    listed.get_by_role("button", name=re.compile(": " + re.escape(sentence))).click()
    expect(page.get_by_role("heading", level=2, name=re.compile(re.escape(sentence), re.I))).to_be_visible()


def seen_at(page: Page) -> list[tuple[float, float, float]]:
    """Give zoom and corner of every picture of the pair, in shares of its frame."""
    return page.evaluate(
        "[...document.querySelectorAll('.layer')].map(e => {"
        "const l = e.getBoundingClientRect(), p = e.parentElement, g = p.getBoundingClientRect();"
        "const [w, h] = [p.clientWidth, p.clientHeight];"
        "return [l.width / w, (l.left - g.left - p.clientLeft) / w, (l.top - g.top - p.clientTop) / h] })"
    )


def test_ten_findings_are_gone_through_by_one_key(page, here):
    complaints = heard(page)
    page.goto(f"/jobs/{JOB}/review")
    sentences = [each["sentence"] for each in findings(here[1], JOB)]
    assert len(sentences) >= 10
    started = time.monotonic()
    for number, sentence in enumerate(sentences[:10], start=1):
        expect(page.get_by_text(f"{number} of {len(sentences)}", exact=True)).to_be_visible()
        expect(page.get_by_role("article").get_by_role("heading", level=2)).to_have_text(sentence)
        page.keyboard.press("j")
    print(
        f"ten findings shown one after the other in {time.monotonic() - started:.1f} s; the budget is 360 s"
    )
    page.keyboard.press("k")
    expect(page.get_by_text(f"10 of {len(sentences)}", exact=True)).to_be_visible()
    assert complaints == []


KEY_S, LOOK_S = 0.28, 15
"""A key of somebody who types as most do (from memory: Card, Moran and Newell's keystroke model), and a look at a pair."""


def test_ten_findings_are_each_sent_back_by_keys_within_six_minutes(page, here):
    """What the page takes is measured; fingers and eyes are reckoned."""
    page.goto(f"/jobs/{JOB}/review")
    total = len(findings(here[1], JOB))
    reason, keys = "Put it right and show me.", 0
    expect(page.get_by_text(f"1 of {total}", exact=True)).to_be_visible()
    started = time.monotonic()
    for number in range(1, 11):
        expect(page.get_by_text(f"{number} of {total}", exact=True)).to_be_visible()
        for key in ("g", "0", "b"):
            page.keyboard.press(key)
        whom = page.get_by_label("To whom")
        expect(whom).to_be_visible()
        if not whom.input_value():
            page.keyboard.type("Ben\t")
            keys += 4
        page.keyboard.type(reason)
        page.keyboard.press("Control+Enter")
        expect(whom).to_have_count(0)
        keys += 3 + len(reason) + 2
    page_s = time.monotonic() - started
    whole_s = page_s + keys * KEY_S + 10 * LOOK_S
    print(
        f"ten findings sent back: {keys} keys, the page {page_s:.1f} s, with looks about {whole_s:.0f} s of 360"
    )
    assert whole_s <= 360
    listed = here[1].get(f"/api/jobs/{JOB}/desk-list").json()["findings"]
    back = [each["sent_back"] for each in listed if each["sent_back"]]
    assert sum(each["reason"] == reason and bool(each["to"]) for each in back) == 10


def test_both_photos_are_zoomed_and_moved_together_to_the_marked_place(page, shots):
    page.goto(f"/jobs/{JOB}/review")
    at(page, "manifold bolts: ")
    expect(page.get_by_role("heading", name="Before and after: manifold bolts")).to_be_visible()
    assert [zoom for zoom, _, _ in seen_at(page)] == [pytest.approx(1, abs=0.01)] * 2
    page.keyboard.press("+")
    assert [zoom for zoom, _, _ in seen_at(page)] == [pytest.approx(1.5, rel=0.01)] * 2
    page.keyboard.press("g")
    (zoom, left, top), (_, left_after, top_after) = seen_at(page)
    assert zoom == pytest.approx(3, rel=0.01)
    # the place marked on the photo from after is in the middle of its frame, the middle in that from before
    assert (left, top) == (pytest.approx(-1, abs=0.02), pytest.approx(-1, abs=0.02))
    assert left_after + 0.5 * 3 == pytest.approx(0.5, abs=0.02)
    assert top_after + (890 / 1200) * 3 == pytest.approx(0.5, abs=0.02)
    page.keyboard.press("ArrowLeft")
    moved = seen_at(page)
    assert moved[0][1] - left == pytest.approx(moved[1][1] - left_after) == pytest.approx(0.15, abs=0.02)
    keep(page, shots, "review-near")
    page.keyboard.press("0")
    assert [zoom for zoom, _, _ in seen_at(page)] == [pytest.approx(1, abs=0.01)] * 2


def test_one_photo_lies_over_the_other_as_far_as_the_slider_says(page, shots):
    page.goto(f"/jobs/{JOB}/review")
    at(page, "manifold bolts: ")
    page.keyboard.press("o")
    slider = page.get_by_label("After from here")
    slider.focus()
    for _ in range(20):
        page.keyboard.press("ArrowRight")
    expect(page.locator(".over")).to_have_css("clip-path", "inset(0px 0px 0px 70%)")
    keep(page, shots, "review-slider")


def test_the_way_back_is_drawn_part_by_part_with_minutes(page):
    page.goto(f"/jobs/{JOB}/review")
    at(page, "sender bolts: 1 hole is empty")
    steps = page.locator(".way-in li")
    expect(steps).to_have_count(4)
    expect(steps.nth(2)).to_contain_text("Take off inlet manifold")
    expect(steps.nth(2)).to_contain_text("40 min")
    expect(steps.nth(3)).to_contain_text("sender bolts")
    expect(page.get_by_text("manifold bolts: 4", exact=True)).to_be_visible()


def test_what_is_never_waived_says_so_and_can_only_be_sent_back(page):
    page.goto(f"/jobs/{JOB}/review")
    expect(page.get_by_text("Work on the machine cures it; nobody can sign it away.")).to_be_visible()
    words = page.get_by_role("group", name="The lead's word").get_by_role("button")
    expect(words).to_have_count(1)
    page.keyboard.press("d")
    page.keyboard.press("f")
    expect(page.get_by_role("form")).to_have_count(0)


def test_a_word_without_its_reason_is_refused_in_a_sentence_and_then_recorded(page, here, small):
    page.goto(f"/jobs/{small}/review")
    at(page, "strainer screws has no photo")
    page.keyboard.press("d")
    page.get_by_role("button", name="Record my word").click()
    expect(page.get_by_role("alert")).to_contain_text("Write the reason")
    page.get_by_label("Reason, in your words").fill(
        "The lid hides nothing; the screws were counted by two of us."
    )
    page.get_by_role("button", name="Record my word").click()
    expect(page.get_by_role("status").filter(has_text="Accepted:")).to_be_visible()
    assert "photo-missing" not in {each["check"] for each in findings(here[1], small)}
    expect(page.get_by_text("2 things stop this", exact=False).first).to_be_visible()
    expect(page.get_by_text("Accepted: photo missing, strainer screws")).to_be_visible()


def test_a_deferral_needs_limit_barrier_and_another_name(page, here, small):
    page.goto(f"/jobs/{small}/review")
    at(page, "strainer screws: 1 hole is empty")
    page.keyboard.press("f")
    page.get_by_label("Reason, in your words").fill("The fourth screw comes on Monday.")
    go = page.get_by_role("button", name="Record the deferral")
    go.click()
    expect(page.get_by_role("alert")).to_contain_text("until which day")
    page.get_by_label("Until which day").fill("2031-01-01")
    go.click()
    expect(page.get_by_role("alert")).to_contain_text("doing harm")
    page.get_by_label("What keeps it from doing harm").fill("tag on the sea-cock, pump not used")
    go.click()
    expect(page.get_by_role("alert")).to_contain_text("second person")
    page.get_by_label("Who else stands for it").fill("Lee")
    go.click()
    expect(page.get_by_role("alert")).to_contain_text("somebody other than you")
    page.get_by_label("Who else stands for it").fill("Ana")
    go.click()
    expect(page.get_by_role("status").filter(has_text="Deferred:")).to_be_visible()
    assert "hole-empty" not in {each["check"] for each in findings(here[1], small)}


def test_a_finding_sent_back_names_who_is_to_do_it_and_stays_on_the_list(page, here):
    page.goto(f"/jobs/{JOB}/review")
    expect(page.get_by_role("article").get_by_role("heading", level=2)).to_be_visible()
    page.keyboard.press("b")
    page.get_by_label("To whom").fill("Ben")
    page.get_by_label("Reason, in your words").fill("Open it again and take the rag out.")
    page.get_by_role("button", name="Send it back").click()
    expect(page.get_by_role("status").filter(has_text="Sent back to Ben")).to_be_visible()
    at(page, "inlet ports was shut over blue rag")
    expect(page.get_by_text("Sent back to Ben by Lee")).to_be_visible()
    assert "closed-over-an-item" in {each["check"] for each in findings(here[1], JOB)}


def test_single_keys_can_be_turned_off(page):
    page.goto(f"/jobs/{JOB}/review")
    expect(page.get_by_text("1 of", exact=False).first).to_be_visible()
    page.get_by_role("button", name="Single keys").click()
    page.keyboard.press("j")
    expect(page.get_by_text(re.compile(r"^1 of \d+$"))).to_be_visible()
    page.get_by_role("button", name="Single keys").click()
    page.keyboard.press("j")
    expect(page.get_by_text(re.compile(r"^2 of \d+$"))).to_be_visible()


def test_pairs_are_marked_as_looked_at_and_the_next_comes_up(page, here):
    def pairs():
        return here[1].get(f"/api/jobs/{JOB}/desk-list").json()["pairs"]

    open_ones = [pair["element"] for pair in pairs() if not pair["seen"]]
    seen = len(pairs()) - len(open_ones)
    page.goto(f"/jobs/{JOB}/pairs")
    expect(page.get_by_role("heading", level=2, name=open_ones[0])).to_be_visible()
    expect(page.get_by_text(f"{seen} of the 3 to look at first are seen.")).to_be_visible()
    page.keyboard.press("m")
    expect(page.get_by_text(f"{seen + 1} of the 3 to look at first are seen.")).to_be_visible()
    expect(page.get_by_role("heading", level=2, name=open_ones[1])).to_be_visible()
    assert {pair["element"]: pair["seen"] for pair in pairs()}[open_ones[0]]["by"] == "Lee"
