import re
from collections.abc import Iterator
from typing import Any

import pytest
from playwright.sync_api import Page, expect
from tests.browser.test_pages import assert_sound, keep_picture, wait_for_pictures
from tests.web import shop
from tests.web.shop import entry
from tests.web.signing_in import sign_in_browser

pytestmark = pytest.mark.browser
JOB, BARE = "launch-9", "launch-10"
SOURCE = {"source": "launch engine manual", "revision": "3", "page": "41"}


def told(*lines: tuple[str, dict[str, Any]], job: str = JOB) -> list[dict[str, Any]]:
    return [entry(kind, number, job=job, **fields) for number, (kind, fields) in enumerate(lines, start=1)]


def wrench(name: str, low: float, high: float) -> list[tuple[str, dict[str, Any]]]:
    return [
        ("wrench-described", {"wrench": name, "min_nm": low, "max_nm": high}),
        (
            "wrench-calibrated",
            {"wrench": name, "calibrated_on": "2026-01-10", "due": "2090-01-10T00:00:00+00:00"},
        ),
    ]


def put(name: str, n: int, **fields: Any) -> list[tuple[str, dict[str, Any]]]:
    return [
        ("set-described", {"set": name, "n": n, **fields}),
        ("fasteners-removed", {"set": name, "n": n, "to": f"bag of {name}"}),
        ("fasteners-fitted", {"set": name, "n": n, "source": f"bag of {name}"}),
    ]


STAGES = [{"min_nm": 10, "max_nm": 12}, {"min_nm": 22, "max_nm": 26}]
MANY = [1, 11, 6, 16, 3, 13, 8, 18, 2, 12, 7, 17, 4, 14, 9, 19, 5, 15, 10, 20]
LINES = [
    ("job-opened", {"machine": "Launch engine", "title": "Lid and pump", "level": 3}),
    *wrench("small wrench", 4, 20),
    *wrench("large wrench", 20, 100),
    *put("drain cap", 1, type="M10x1.5x20"),
    ("spec-entered", {"set": "drain cap", "min_nm": 20, "max_nm": 24, "as_written": "20-24 N·m", **SOURCE}),
    ("fasteners-tightened", {"set": "drain cap", "holes": [1], "value_nm": 22, "wrench": "large wrench"}),
    *put("lid bolts", 6, type="M8x1.25x30"),
    (
        "spec-entered",
        {
            "set": "lid bolts",
            "as_written": "22-26 N·m",
            "stage_count": 2,
            "stages": STAGES,
            "order": [3, 4, 2, 5, 1, 6],
            "condition": "oiled",
            **SOURCE,
        },
    ),
    ("spec-checked", {"set": "lid bolts", "by": "Ida"}),
    (
        "fasteners-tightened",
        {
            "set": "lid bolts",
            "holes": [3, 4, 2, 5, 1, 6],
            "stage": 1,
            "value_nm": 11,
            "wrench": "small wrench",
        },
    ),
    (
        "fasteners-tightened",
        {"set": "lid bolts", "holes": [3, 4, 2], "stage": 2, "value_nm": 24, "wrench": "large wrench"},
    ),
    *put("pump flange", 20, type="M6x1x20 8.8"),
    ("spec-entered", {"set": "pump flange", "min_nm": 100, "max_nm": 110, "as_written": "7-8 lbf ft"}),
    (
        "fasteners-tightened",
        {"set": "pump flange", "holes": MANY[:5], "value_nm": 105, "wrench": "borrowed"},
    ),
    ("fasteners-removed", {"set": "guard screws", "n": 3, "to": "B9"}),
]


@pytest.fixture(scope="module")
def address(tmp_path_factory) -> Iterator[str]:
    """A shop of its own with a job half tightened, and one without any value."""
    with shop.open_shop(tmp_path_factory.mktemp("torque")) as (found, client):
        for entries in (
            told(*LINES),
            told(("job-opened", {"machine": "Winch", "title": "Look", "level": 1}), job=BARE),
        ):
            shop.send(client, entries).raise_for_status()
        yield found


@pytest.fixture
def context(context, address):
    sign_in_browser(context, address)
    return context


def open_sheet(page: Page, address: str, machine: str = "Launch engine") -> None:
    page.goto(address)
    page.get_by_role("link", name=re.compile(machine)).click()
    page.get_by_role("navigation").get_by_role("link", name="Torque").click()
    expect(page.get_by_role("link", name="Torque")).to_have_attribute("aria-current", "page")


def test_open_holes_come_first_with_value_source_wrench_and_what_is_owed(page, address, complaints, shots):
    gone: list[str] = []
    page.on("request", lambda request: gone.append(request.url))
    open_sheet(page, address)
    cards = page.get_by_role("article")
    expect(cards).to_have_count(3)
    expect(cards.nth(2)).to_contain_text("No hole open")
    expect(cards.nth(2).get_by_text("20-24 N·m")).to_be_hidden()
    cards.nth(2).get_by_text("drain cap").first.click()
    expect(cards.nth(2).get_by_text("20-24 N·m")).to_be_visible()
    lid = cards.filter(has_text="lid bolts")
    expect(lid).to_contain_text("3 holes open: 1, 5, 6")
    expect(lid).to_contain_text("launch engine manual, edition 3, page 41")
    expect(lid).to_contain_text("entered by Ana, read again by Ida")
    expect(lid).to_contain_text("large wrench: set 24 N·m, ± 0.96 N·m there")
    expect(lid.get_by_text("above the range of wrench small wrench")).to_be_hidden()
    lid.get_by_text("1 wrench does not suit").last.click()
    expect(lid.get_by_text("above the range of wrench small wrench")).to_be_visible()
    first = lid.get_by_role("row").nth(1)
    expect(first).to_contain_text("Stage 1: reached 11 N·m (wrench ± 0.44 N·m) small wrench, Ana")
    expect(first).to_contain_text("Stage 2 is not pulled.")
    expect(page.get_by_text("guard screws")).to_be_visible()
    wait_for_pictures(page)
    assert_sound(page)
    keep_picture(page, shots, "torque")
    assert complaints == []
    assert [url for url in gone if not url.startswith((address, "data:"))] == []


def test_cautions_stand_above_the_first_set_and_doubts_at_their_set(page, address):
    open_sheet(page, address)
    expect(page.get_by_role("article").first).to_be_visible()
    cautions = page.get_by_role("complementary")
    expect(cautions).to_contain_text("The value comes from the maker's manual for this machine.")
    expect(cautions).to_contain_text("Estimate, not a specification")
    assert cautions.bounding_box()["y"] < page.get_by_role("article").first.bounding_box()["y"]
    flange = page.get_by_role("article").filter(has_text="pump flange")
    expect(flange).to_contain_text("No source is given")
    expect(flange).to_contain_text("The record holds 100 to 110 N·m, but 7-8 lbf ft is")
    expect(flange).to_contain_text("cannot be right for M6 8.8")
    expect(flange).to_contain_text("This value is in doubt: look again before a wrench is set.")


def test_the_drawing_is_drawn_under_the_content_policy_with_its_numbers_and_filled_marks(page, address):
    open_sheet(page, address)
    picture = page.get_by_role("img", name="lid bolts. Stage 2 of 2: 3 of 6 done")
    expect(picture).to_have_js_property("complete", True)
    dark, whole = picture.evaluate(
        """image => {
            const canvas = document.createElement('canvas');
            canvas.width = image.naturalWidth; canvas.height = image.naturalHeight;
            const pen = canvas.getContext('2d');
            pen.drawImage(image, 0, 0);
            const bytes = pen.getImageData(0, 0, canvas.width, canvas.height).data;
            let dark = 0;
            for (let at = 0; at < bytes.length; at += 4) if (bytes[at] < 64) dark++;
            return [dark, bytes.length / 4];
        }"""
    )
    assert 3 * 30 * 30 < dark < 0.2 * whole
    expect(page.get_by_text("Drawn on a circle").first).to_be_visible()


def test_a_job_without_a_value_says_where_one_comes_from(page, address):
    open_sheet(page, address, "Winch")
    expect(page.get_by_text("No set of this job has a value.")).to_be_visible()
    assert_sound(page)


def test_the_dark_sheet_is_as_legible(page, address, shots):
    page.emulate_media(color_scheme="dark")
    open_sheet(page, address)
    expect(page.get_by_role("article").first).to_be_visible()
    wait_for_pictures(page)
    assert_sound(page)
    keep_picture(page, shots, "torque-dark")
