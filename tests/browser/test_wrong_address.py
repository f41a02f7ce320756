"""Who types or follows an address that there is not gets a sentence and a way on, in the page's language, without a network too."""

import re

import pytest
from playwright.sync_api import Page, expect
from tests.browser.conftest import SIZES
from tests.browser.test_outbox import wait_until_kept
from tests.browser.test_pages import assert_sound, keep_picture
from tests.web.shop import JOB
from tests.web.signing_in import sign_in_browser

pytestmark = pytest.mark.browser
OLD = f"/jobs/{JOB}/parts-list"
SAID = {
    "en-GB": ("There is no such page", f"There is nothing at {OLD}.", f"Go to the job {JOB}"),
    "de-DE": ("Diese Seite gibt es nicht", f"Unter {OLD} ist nichts.", f"Zum Auftrag {JOB}"),
}


def told(page: Page, locale: str) -> None:
    title, sentence, _ = SAID[locale]
    expect(page.get_by_role("heading", level=1, name=title)).to_be_visible()
    expect(page.get_by_text(re.compile(f"^{re.escape(sentence)}"))).to_be_visible()


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("locale", SAID)
def test_an_address_that_there_is_not_says_so_and_leads_on(browser, base_url, shots, locale, size):
    with browser.new_context(locale=locale, viewport=SIZES[size], base_url=base_url) as context:
        sign_in_browser(context, base_url)
        page = context.new_page()
        answer = page.goto(OLD)
        assert answer is not None and answer.status == 200, (
            "an address below a job may be one of a newer page"
        )
        told(page, locale)
        assert_sound(page)
        keep_picture(page, shots, f"wrong-address-{locale}")
        page.get_by_role("link", name=SAID[locale][2]).click()
        expect(page).to_have_url(re.compile(f"/jobs/{JOB}$"))
        answer = page.goto("/jbos/old")
        assert answer is not None and answer.status == 404
        expect(page.get_by_role("heading", level=1, name=SAID[locale][0])).to_be_visible()
        page.get_by_role("link", name=re.compile("list of jobs|Liste der Aufträge")).click()
        expect(page.get_by_role("heading", level=1)).not_to_have_text(SAID[locale][0])


def test_a_stranger_signs_in_there_first(browser, base_url):
    with browser.new_context(viewport=SIZES["phone"], base_url=base_url) as context:
        page = context.new_page()
        page.goto("/jbos/old")
        expect(page.get_by_role("heading", level=1, name="Sign in")).to_be_visible()


@pytest.mark.parametrize("address", [OLD, "/jbos/old", "/old-list.html"])
def test_without_a_network_it_is_said_too(browser, base_url, address):
    with browser.new_context(viewport=SIZES["phone"], base_url=base_url) as context:
        sign_in_browser(context, base_url)
        page = context.new_page()
        page.goto("/")
        wait_until_kept(page)
        context.set_offline(True)
        page.goto(address)
        expect(page.get_by_role("heading", level=1, name="There is no such page")).to_be_visible()
        expect(page.get_by_text(f"There is nothing at {address}.")).to_be_visible()
        page.goto("/L/T0042E")
        expect(page.get_by_role("heading", level=1, name="T-0042-E")).to_be_visible()
        expect(page.get_by_role("button", name="Try again")).to_be_visible()
