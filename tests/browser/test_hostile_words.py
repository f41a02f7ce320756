"""What others wrote stays words on every screen: nothing of it runs, loads, leads away or breaks the page.

OWASP's Cross Site Scripting prevention advice: untrusted data is put into a page as text, never as markup.
"""

from urllib.parse import quote

import pytest
from playwright.sync_api import expect
from tests.browser.desk_page import desk, heard
from tests.web import shop
from tests.web.signing_in import sign_in_browser

pytestmark = pytest.mark.browser

RUNS = "<img src=x onerror=\"document.title='run'\"><script>document.title='run'</script>"
LEADS_AWAY = "javascript:document.title='run'"
BREAKS_OUT = "\"'`--><svg onload=document.title='run'>{{7*7}}${7*7}"
HOSTILE = {
    "machine": RUNS,
    "title": BREAKS_OUT,
    "part": f"cover {RUNS[:90]}",
    "set": f"bolts {BREAKS_OUT}",
    "opening": LEADS_AWAY,
    "place": f"shelf {RUNS}",
    "isolation": f"battery {BREAKS_OUT}",
}
JOB = f"launch-7 {BREAKS_OUT}"
DESK = ("review", "pairs", "machine", "torque-table", "trays", "history", "handover-sheet", "release")
SET = quote(HOSTILE["set"], safe="")
HAND = (
    *("", "containers", "photos", "torque", "entries", "bag", "sort", "work", f"back/{SET}", f"where/{SET}"),
    *("next", "start", "give-over", "take-over", "find", "looks", "orphan", "correct", "containers/T0042E"),
)
SHOP = (
    "/desk/board",
    "/desk/search/cover",
    "/desk/statistics",
    "/desk/questions",
    "/who/people",
    "/who/devices",
)


def hostile_job():
    """Tell the half-finished job again, with markup in every word that a person chose."""
    told = []
    for each in shop.half_finished():
        words = {field: words for field, words in HOSTILE.items() if field in each}
        told.append({**each, **words, "job": JOB})
    return told


@pytest.fixture(scope="module")
def address(tmp_path_factory):
    with shop.open_shop(tmp_path_factory.mktemp("hostile")) as (address, client):
        at = f"/api/jobs/{quote(JOB, safe='')}"
        for each in hostile_job():
            client.post(f"{at}/entries", json=[each]).raise_for_status()
        photo = (f"{RUNS}.jpg", shop.picture("the tray", (1200, 900), LEADS_AWAY), "image/jpeg")
        client.post(f"{at}/photos", files={"photos": photo}).raise_for_status()
        yield address


def look_at(page, address: str) -> None:
    """Open an address, let it settle, and see that it is our page with nothing of theirs in it."""
    page.goto(address)
    expect(page.get_by_role("heading", level=1)).to_be_visible()
    page.wait_for_timeout(250)
    assert page.title() != "run"
    assert page.get_by_text("There is no such page").count() == 0, address
    assert page.locator("main script, main svg[onload], main img[onerror], [src='x']").count() == 0
    away = (
        "[...document.links].filter(a => !a.href.startsWith(location.origin) && !a.href.startsWith('data:'))"
    )
    assert page.evaluate(f"{away}.map(a => a.href)") == []


@pytest.mark.parametrize("size", ["phone", "1280"])
def test_hostile_words_are_words_on_every_screen(browser, address, size):
    sizes = {"phone": (360, 740), "1280": (1280, 800)}
    with desk(browser, address, "1280") as context:
        sign_in_browser(context, address)
        page = context.new_page()
        page.set_viewport_size(dict(zip(("width", "height"), sizes[size], strict=True)))
        complaints = heard(page)
        page.on("dialog", lambda dialog: complaints.append(dialog.message))
        job = f"/jobs/{quote(JOB, safe='')}"
        for view in DESK if size == "1280" else HAND:
            look_at(page, f"{job}/{view}")
        for shown in ("/", *SHOP):
            look_at(page, shown)
        page.goto(job)
        expect(page.get_by_text(RUNS).first).to_be_visible()
        assert complaints == []
