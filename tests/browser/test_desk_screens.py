import re

import pytest
from playwright.sync_api import expect
from tests.browser import desk_shop
from tests.browser.desk_page import SIZES, assert_sound, desk, heard, keep
from tests.browser.desk_shop import JOB, MACHINE
from tests.web.signing_in import sign_in_browser

pytestmark = pytest.mark.browser

JOB_SCREENS = {
    "review": "inlet ports was shut over blue rag.",
    "pairs": "Before and after: pump cover bolts",
    "machine": "Choose a thing in the drawing",
    "torque-table": "20-24 N·m",
    "trays": "T-0102-M",
    "history": "entries, the newest first",
    "handover-sheet": "1. Danger now",
    "release": "In the way",
}
SHOP_SCREENS = {
    "board": "jobs shown",
    "search/M8×30 bolts": "Found for",
    "statistics": "Time by step",
    "questions": "Who tightened this bolt",
    "labels": "Does the printer keep sizes?",
    "transfer": "Take a job along",
}


@pytest.fixture(scope="module")
def address(tmp_path_factory):
    with desk_shop.opened(tmp_path_factory.mktemp("desk")) as (address, client):
        desk_shop.fill(client)
        yield address


@pytest.fixture(params=SIZES)
def page(browser, address, request):
    with desk(browser, address, request.param) as context:
        sign_in_browser(context, address)
        yield context.new_page()


@pytest.mark.parametrize(("view", "said"), JOB_SCREENS.items(), ids=JOB_SCREENS)
def test_each_screen_of_a_job_is_sound_in_light_and_dark(page, shots, view, said):
    complaints = heard(page)
    page.goto(f"/jobs/{JOB}/{view}")
    expect(page.get_by_role("heading", level=1, name=MACHINE)).to_be_visible()
    expect(page.get_by_text(said).first).to_be_visible()
    page.wait_for_load_state("networkidle")
    assert_sound(page)
    keep(page, shots, view)
    assert complaints == []


@pytest.mark.parametrize(("view", "said"), SHOP_SCREENS.items(), ids=SHOP_SCREENS)
def test_each_screen_of_the_shop_is_sound_in_light_and_dark(page, shots, view, said):
    complaints = heard(page)
    page.goto(f"/desk/{view}")
    expect(page.get_by_role("heading", level=1)).to_be_visible()
    expect(page.get_by_text(said).first).to_be_visible()
    page.wait_for_load_state("networkidle")
    assert_sound(page)
    keep(page, shots, view.split("/")[0])
    assert complaints == []


def test_the_board_is_what_a_wide_page_opens_with(page):
    page.goto("/")
    row = page.get_by_role("link", name=re.compile(MACHINE))
    expect(row).to_contain_text(re.compile(r"1\d things stop this"))
    expect(row).to_contain_text("On it: Ana, Ben")
    expect(page.get_by_role("link", name=re.compile("Harbour launch"))).to_contain_text("No opening bare")
    row.click()
    expect(page.get_by_role("navigation", name="Findings, worst first")).to_be_visible()


def test_the_board_is_filtered_by_typing_and_walked_by_arrows(page):
    page.goto("/")
    page.get_by_label("Show only jobs with these words").press_sequentially("tern")
    expect(page.get_by_role("status").filter(has_text="shown")).to_have_text(re.compile("2 of 4 jobs shown"))
    page.keyboard.press("ArrowDown")
    first, second = page.locator(".board-row").all()
    expect(first).to_be_focused()
    page.keyboard.press("ArrowDown")
    expect(second).to_be_focused()
    page.keyboard.press("ArrowUp")
    page.keyboard.press("Enter")
    expect(page.get_by_role("heading", level=1, name=re.compile("[Tt]ern"))).to_be_visible()


def test_what_was_searched_for_is_found_from_any_screen_of_the_desk(page):
    page.goto(f"/jobs/{JOB}/trays")
    page.get_by_role("searchbox").fill("M8×30 manifold")
    page.get_by_role("button", name="Search").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Found for “M8×30 manifold”")
    expect(page.get_by_role("list").filter(has_text="manifold bolts").first).to_be_visible()
    page.get_by_role("link", name=re.compile(MACHINE)).first.click()
    expect(page.get_by_role("heading", level=1, name=MACHINE)).to_be_visible()


def test_a_thing_of_the_machine_is_chosen_in_the_drawing_and_tells_the_way_back_to_it(page):
    page.goto(f"/jobs/{JOB}/machine")
    thing = page.get_by_role("button", name=re.compile("^sender: "))
    thing.focus()
    page.keyboard.press("Enter")
    expect(page.get_by_role("heading", level=2, name="sender", exact=True)).to_be_visible()
    page.get_by_text("The same as a list").click()
    page.get_by_role("button", name="sender bolts", exact=True).click()
    steps = page.locator(".way-in li")
    expect(steps).to_have_count(4)
    expect(steps.nth(2)).to_contain_text("Take off inlet manifold")
    expect(page.get_by_text("To get at sender bolts take off")).to_contain_text("60 min")


def test_what_lies_over_is_drawn_above(page):
    page.goto(f"/jobs/{JOB}/machine")
    tops = {}
    for name in ("heat shield", "inlet manifold", "sender"):
        tops[name] = page.get_by_role("button", name=re.compile(f"^{name}: ")).bounding_box()["y"]
    assert tops["heat shield"] < tops["inlet manifold"] < tops["sender"]


QUESTIONS = {
    "Who tightened this bolt": "W2",
    "Which jobs used this wrench": "manifold bolts",
    "Which joints stand pulled": "pump cover bolts",
    "Which jobs were released with a deferral": "No deferral is on record.",
    "What was changed after sign-off?": "signed",
    "Where was the machine without anybody": "",
    "Which findings were decided by a person": "No finding was decided",
    "Are journal, photos and what was signed": "entries",
}


@pytest.mark.parametrize(("question", "answer"), QUESTIONS.items(), ids=QUESTIONS)
def test_each_of_the_auditors_questions_is_answered_within_two_clicks(page, question, answer):
    page.goto(f"/jobs/{JOB}/review")
    clicks = 0
    page.get_by_role("link", name="Auditor's questions").click()
    clicks += 1
    asked = page.locator(".asked").filter(has_text=question)
    asked.get_by_role("button", name="Answer").click()
    clicks += 1
    expect(asked.locator("[aria-live]")).to_contain_text(answer or re.compile(r"\w{4}"))
    print(f"{question}: {clicks} clicks")
    assert clicks <= 2


def test_labels_begin_where_the_sheet_is_free_and_are_made_at_the_measured_scale(page):
    page.goto("/desk/labels")
    page.get_by_role("radio", name=re.compile("24 labels, A4")).check()
    page.locator(".place").nth(8).click()
    expect(page.get_by_label("First free place on the sheet")).to_have_value("9")
    expect(page.locator(".place.used")).to_have_count(8)
    page.get_by_label("How many").fill("3")
    expect(page.locator(".place.printed")).to_have_count(3)
    page.get_by_label("It measures, in mm").fill("98,5")
    page.get_by_role("button", name="Reckon the scale").click()
    expect(page.get_by_text("101.5 %")).to_be_visible()
    with page.expect_request("**/api/labels/sheets") as asked, page.expect_popup():
        page.get_by_role("button", name="Print 3 labels").click()
    wish = asked.value.post_data_json
    assert (wish["layout"], wish["count"], wish["start"]) == ("a4-3x8", 3, 9)
    assert wish["scale"] == pytest.approx(100 / 98.5, rel=1e-3)
    expect(page.get_by_text("Made: ")).to_contain_text("B-")


def test_a_job_goes_out_as_one_file_and_its_tables_as_csv(page):
    page.goto("/desk/transfer")
    page.get_by_label("Job", exact=True).select_option(JOB)
    for name, ending in (("The job as one file", ".zip"), ("Torques (CSV)", ".csv")):
        with page.expect_download() as came:
            page.get_by_role("link", name=name).click()
        assert came.value.suggested_filename.endswith(ending)


def test_what_is_no_bundle_is_refused_in_one_sentence(page, tmp_path):
    wrong = tmp_path / "holiday.zip"
    wrong.write_bytes(b"no zip at all")
    page.goto("/desk/transfer")
    page.get_by_label("The zip").set_input_files(wrong)
    expect(page.get_by_role("alert")).to_contain_text(re.compile(r"\w+.*"))


def test_the_handover_sheet_prints_on_one_page(page, shots):
    page.goto(f"/jobs/{JOB}/handover-sheet")
    expect(page.get_by_text("1. Danger now")).to_be_visible()
    page.wait_for_load_state("networkidle")
    paper = page.pdf(format="A4", margin=dict.fromkeys(("top", "right", "bottom", "left"), "12mm"))
    if shots:
        (shots / "handover.pdf").write_bytes(paper)
    assert len(re.findall(rb"/Type\s*/Page\b", paper)) == 1
