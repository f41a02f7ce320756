"""A phone that lay for half a day asks for the PIN, network or not; another phone gets on by the symbol on this one."""

import io
import re

import pytest
import zxingcpp
from PIL import Image
from playwright.sync_api import expect
from tests.browser import at_work, bagging, in_hand
from tests.web import shop
from tests.web.serving import APPS
from tests.web.signing_in import sign_in_browser

from lastbolt.web.reach import Reach

pytestmark = pytest.mark.browser
ADDRESS = "https://192.168.7.20:8443"


@pytest.fixture
def here(tmp_path):
    with shop.open_shop(tmp_path / "data") as (address, client):
        at_work.described(client)
        yield address, client


def test_twelve_hours_later_the_pin_is_asked_for_without_a_network_too_and_what_waits_stays(
    here, browser_type, browser_type_launch_args
):
    """Practice 5.8; the browser's clock is set on, the server's stays: nobody but the phone can ask here."""
    address, client = here
    with bagging.phone(browser_type, browser_type_launch_args, film=None) as context:
        sign_in_browser(context, address, "Ana", "tech")
        page = context.new_page()
        page.clock.install()
        page.goto(f"{address}/jobs/{at_work.JOB}/work")
        expect(page.get_by_role("button", name="Part off")).to_be_visible(timeout=30_000)
        with page.expect_response(re.compile("sign_in")):
            page.clock.fast_forward("11:00:00")
        expect(page.get_by_role("button", name="Part off")).to_be_visible()
        at_work.offline(context, True)
        for name in ("Part off", "air box", "No mouth"):
            page.get_by_role("button", name=name, exact=True).tap()
        expect(page.get_by_text("1 not sent: 1 entry")).to_be_visible()
        page.clock.fast_forward("01:05:00")
        expect(page.get_by_text("The PIN is needed again. What was recorded here is kept.")).to_be_visible()
        expect(page.get_by_role("button", name="Part off")).to_have_count(0)
        expect(page.get_by_text("1 not sent: 1 entry")).to_be_visible()
        assert at_work.by_ana(client) == []


def test_another_phones_camera_reads_the_address_from_this_ones_screen(
    here, browser_type, browser_type_launch_args
):
    """The symbol on the screen, photographed, is read by a library that is not ours (zxing-cpp)."""
    address, _ = here
    app = APPS[address]
    while not hasattr(app, "state"):
        app = app.app
    app.state.reach = Reach(ADDRESS)
    with bagging.phone(browser_type, browser_type_launch_args, film=None) as context:
        sign_in_browser(context, address)
        page = context.new_page()
        page.goto(f"{address}/who")
        page.get_by_role("link", name="Put this on another phone").tap()
        expect(page.get_by_text(ADDRESS)).to_be_visible()
        for scheme in ("light", "dark"):
            page.emulate_media(color_scheme=scheme)
            seen = zxingcpp.read_barcodes(Image.open(io.BytesIO(page.screenshot())))
            assert [each.text.lower() for each in seen] == [
                ADDRESS
            ]  # scheme and host know no case (RFC 3986, 6.2.2.1)
        in_hand.sound(page)
