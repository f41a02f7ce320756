"""What the first load weighs, and how long a label takes from the camera to its page."""

import statistics
import time

import pytest
from playwright.sync_api import expect
from tests.browser import bagging
from tests.browser.bagging import JOB, PHOTOS
from tests.web import shop

pytestmark = pytest.mark.browser
CODE = "T0106E"
BUDGET_KB = 40


@pytest.fixture
def shop_here(tmp_path):
    with shop.open_shop(tmp_path / "data") as (address, client):
        bagging.open_job(client)
        bound = shop.entry("label-bound", 3, job=JOB, label=CODE, container=CODE, container_kind="tray")
        shop.send(client, [bound]).raise_for_status()
        yield address, client


def first_load(browser_type, arguments, address, locale):
    """Open the list of jobs in a fresh browser; give what came over the wire, by name, in bytes."""
    browser = browser_type.launch(**arguments)
    context = browser.new_context(
        service_workers="block", locale=locale, viewport={"width": 360, "height": 740}
    )
    came = []
    try:
        shop_cookie(context, address)
        page = context.new_page()
        page.on("requestfinished", lambda request: came.append(request))
        page.goto(address)
        expect(page.get_by_role("heading", level=1)).to_be_visible(timeout=30_000)
        page.wait_for_load_state("networkidle")
        sizes = {
            r.url.rsplit("/", 1)[-1] or "/": r.sizes()["responseBodySize"]
            for r in came
            if "/api/" not in r.url
        }
        return sizes, page.get_by_role("heading", level=1).inner_text()
    finally:
        browser.close()


def shop_cookie(context, address):
    from tests.web.signing_in import sign_in_browser

    sign_in_browser(context, address, "Ana")


@pytest.mark.parametrize(("locale", "heading"), [("en-GB", "Jobs"), ("de-DE", "Aufträge")])
def test_the_first_load_is_light(shop_here, browser_type, browser_type_launch_args, locale, heading):
    address, _ = shop_here
    sizes, shown = first_load(browser_type, browser_type_launch_args, address, locale)
    assert shown == heading
    own = {name: size for name, size in sizes.items() if not name.startswith("de-")}
    total, german = sum(own.values()) / 1000, (sum(sizes.values()) - sum(own.values())) / 1000
    print(
        f"\nfirst load {locale}: {total:.1f} kB compressed (budget {BUDGET_KB}), German {german:.1f} kB more on demand"
    )
    assert not any("worker" in name or name.endswith(".wasm") for name in sizes)
    assert total <= BUDGET_KB
    assert (german > 0) == (locale == "de-DE")


def test_a_label_in_view_leads_to_its_page(shop_here, browser_type, browser_type_launch_args, tmp_path):
    address, _ = shop_here
    film = bagging.clip(PHOTOS / "07-inlet-manifold-bolts.jpg", tmp_path / "tray.mjpeg")
    took = []
    with bagging.phone(browser_type, browser_type_launch_args, film=film) as context:
        shop_cookie(context, address)
        page = context.new_page()
        for _ in range(5):
            page.goto(f"{address}/jobs/{JOB}/find")
            page.locator("video").wait_for(timeout=30_000)
            began = time.monotonic()
            page.wait_for_url(f"**/containers/{CODE}", timeout=30_000)
            expect(
                page.get_by_role("heading", name=CODE).or_(page.get_by_text("T-0106-E")).first
            ).to_be_visible(timeout=30_000)
            took.append(time.monotonic() - began)
    print(
        f"\nlabel in view to its page: median {statistics.median(took):.2f} s (budget 1.0 s), {[round(t, 2) for t in took]}"
    )
