"""From sign-in to a signed release without a mouse: every step is reached by Tab and done by keys."""

import re
from datetime import timedelta

import pytest
from playwright.sync_api import expect
from tests.browser import desk_shop
from tests.browser.desk_page import SIZES, assert_sound, desk, heard, keep, press, sign_in, tab_to, write
from tests.web.serving import APPS
from tests.web.signing_in import signed_in

from lastbolt.report import release_rules
from lastbolt.web import release as release_routes

pytestmark = [pytest.mark.browser, pytest.mark.long]
LOOK_S = 12


@pytest.fixture(scope="module")
def here(tmp_path_factory):
    """A shop where twelve seconds between asking and signing are enough; sixty are the rule."""
    with (
        pytest.MonkeyPatch.context() as patch,
        desk_shop.opened(tmp_path_factory.mktemp("release")) as (address, client),
    ):
        for room in (release_rules, release_routes):
            patch.setattr(room, "LEAST_LOOK", timedelta(seconds=LOOK_S))
        signed_in(APPS[address], name="Lee")
        yield address, client


@pytest.fixture
def small(here, request):
    """A small job of its own for each test."""
    return desk_shop.tell_small(here[1], f"tern {abs(hash(request.node.name)) % 10_000}")


@pytest.fixture(params=SIZES)
def page(browser, here, request):
    with desk(browser, here[0], request.param) as context:
        yield context.new_page()


def defer(page, sentence):
    press(
        page,
        page.get_by_role("navigation", name="Findings, worst first").get_by_role("button", name=sentence),
    )
    page.keyboard.press("f")
    tab_to(page, page.get_by_label("Until which day"))
    page.keyboard.type("01012031")
    write(page, page.get_by_label("What keeps it from doing harm"), "tag on the sea-cock")
    write(page, page.get_by_label("Who else stands for it"), "Ben")
    write(page, page.get_by_label("Reason, in your words"), "The fourth screw comes on Monday.")
    press(page, page.get_by_role("button", name="Record the deferral"))
    expect(page.get_by_role("status").filter(has_text=re.compile(f"Deferred: .*{sentence}"))).to_be_visible()
    expect(page.get_by_role("button", name="Record the deferral")).to_have_count(0)


def test_a_job_is_reviewed_and_released_by_keys_alone(page, here, small, shots):
    complaints = heard(page)
    page.goto("/")
    sign_in(page)
    press(page, page.get_by_role("link", name=re.compile(re.escape(f"({small})"))))
    expect(page.get_by_role("heading", level=1, name=f"Bilge pump of {small}")).to_be_focused()
    defer(page, "1 hole is empty")
    defer(page, "still in")
    page.keyboard.press("d")
    write(page, page.get_by_label("Reason, in your words"), "Counted by two of us; the lid hides nothing.")
    press(page, page.get_by_role("button", name="Record my word"))
    expect(page.get_by_text("Nothing on the list").first).to_be_visible()
    press(page, page.get_by_role("link", name="Go to the release"))
    press(page, page.get_by_role("button", name="No, nothing else: ask for release"))
    expect(page.get_by_role("heading", name="Sign", exact=True)).to_be_visible()
    expect(page.locator("blockquote")).to_contain_text(f"I looked at Bilge pump of {small}")
    write(page, page.get_by_label("Your PIN, Lee"), "3141")
    page.keyboard.press("Enter")
    expect(page.get_by_role("alert")).to_contain_text("look at them")
    assert_sound(page)
    keep(page, shots, "release-asked")
    expect(page.get_by_role("timer")).to_have_count(0, timeout=LOOK_S * 1000)
    write(page, page.get_by_label("Your PIN, Lee"), "1111")
    page.keyboard.press("Enter")
    expect(page.get_by_role("alert")).to_contain_text("PIN")
    write(page, page.get_by_label("Your PIN, Lee"), "3141")
    page.keyboard.press("Enter")
    expect(
        page.get_by_role(
            "heading", level=2, name=re.compile("^Released with 0 open, 3 decisions, 18 checks not run")
        )
    ).to_be_visible()
    tab_to(page, page.get_by_role("link", name="Record, A4"))
    assert_sound(page)
    keep(page, shots, "released")
    assert [said for said in complaints if "status of 4" not in said] == []
    record = here[1].get(f"/api/jobs/{small}/record.pdf")
    assert record.content.startswith(b"%PDF")


def test_work_after_a_release_is_seen_at_once(page, here, small):
    page.goto("/")
    sign_in(page)
    expect(page.get_by_role("heading", level=1, name="Jobs")).to_be_visible()
    api = page.request
    for check, subject in (
        ("hole-empty", "strainer screws"),
        ("tray-not-empty", f"bag of {small}"),
        ("photo-missing", "strainer screws"),
    ):
        stop = check != "photo-missing"
        word = {
            "check": check,
            "subject": subject,
            "reason": "comes on Monday, by boat",
            "decision": "defer" if stop else "accept",
        }
        more = {"limit": "2031-01-01T12:00:00Z", "barrier": "tag on it", "second": "Ben"} if stop else {}
        assert api.post(f"/api/jobs/{small}/word", data={**word, **more}).ok
    assert api.post(f"/api/jobs/{small}/release/ask", data={"nothing_else_apart": True}).ok
    page.wait_for_timeout(LOOK_S * 1000 + 500)
    signed = api.post(f"/api/jobs/{small}/release/sign", data={"pin": "3141"})
    assert signed.ok, signed.text()
    later = desk_shop.Teller(small, desk_shop.datetime.now(desk_shop.UTC))
    later.say("Ana", ("part-removed", {"part": "strainer lid"}))
    desk_shop.send(here[1], later)
    page.goto(f"/jobs/{small}/release")
    expect(page.get_by_role("heading", name="This release no longer stands")).to_be_visible()
    page.goto("/")
    expect(page.get_by_role("link", name=re.compile(re.escape(f"({small})")))).to_contain_text(
        "changed since its release"
    )


def test_something_not_on_the_list_is_added_from_the_question(page, here, small):
    page.goto("/")
    sign_in(page)
    page.goto(f"/jobs/{small}/release")
    page.get_by_role("button", name="Yes, something is").click()
    page.get_by_role("radio", name="A plug, hose or clamp is apart").check()
    page.get_by_role("button", name="Put it on the list").click()
    expect(page.get_by_role("alert")).to_contain_text("Give it a name")
    page.get_by_label("Its name, as people here call it").fill("bilge hose")
    page.get_by_role("button", name="Put it on the list").click()
    expect(page.get_by_role("button", name="Put it on the list")).to_have_count(0)
    subjects = {each["subject"] for each in here[1].get(f"/api/jobs/{small}/findings").json()["findings"]}
    assert "bilge hose" in subjects
