"""Getting on: the first lead, a name and a PIN, people and devices, a lost phone, and back to where one was."""

import re

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page, expect
from tests.web import shop
from tests.web.serving import APPS
from tests.web.signing_in import PIN, people_of

pytestmark = pytest.mark.browser
PHONES = ((360, 740), (412, 915))
ENHANCED = {"rules": {"color-contrast-enhanced": {"enabled": True}}}


@pytest.fixture
def shop_here(tmp_path):
    with shop.open_shop(tmp_path) as (address, client):
        yield address, client


@pytest.fixture
def phone(browser):
    """A phone on which nobody was ever signed in."""
    with_touch = browser.new_context(viewport={"width": 360, "height": 740}, has_touch=True, locale="en-GB")
    yield with_touch.new_page()
    with_touch.close()


def sound(page: Page) -> None:
    for scheme in ("dark", "light"):
        page.emulate_media(color_scheme=scheme)
        found = Axe().run(page, options=ENHANCED)
        assert found.violations_count == 0, found.generate_report()
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
    small = page.evaluate(
        "[...document.querySelectorAll('button, a, summary, input, select')]"
        ".filter(e => e.getBoundingClientRect().height && e.getBoundingClientRect().height < 48)"
        ".map(e => e.outerHTML)"
    )
    assert small == []


def keep(page: Page, shots, name: str) -> None:
    if shots:
        for width, height in PHONES:
            page.set_viewport_size({"width": width, "height": height})
            page.screenshot(path=shots / f"{name}-{width}.png", full_page=True)
        page.set_viewport_size({"width": PHONES[0][0], "height": PHONES[0][1]})


def tap_pin(page: Page, pin: str, within: str = "Keys of the PIN") -> None:
    keys = page.get_by_role("group", name=within).last
    for digit in pin:
        keys.get_by_role("button", name=digit, exact=True).tap()


def test_the_first_lead_begins_with_the_code_then_adds_a_tech(shop_here, phone, shots):
    address, _ = shop_here
    code = people_of(APPS[address]).shop.first_code()
    phone.goto(f"{address}/checks")
    expect(phone.get_by_role("heading", name="The first lead")).to_be_visible()
    sound(phone)
    keep(phone, shots, "first-lead")
    phone.get_by_label("The code that the server printed").fill(code.lower())
    phone.get_by_label("Your name").fill("Lee")
    tap_pin(phone, "1234")
    phone.get_by_role("button", name="Begin as lead").tap()
    expect(phone.get_by_role("alert")).to_contain_text("one of the first that anybody tries")
    for _ in range(4):
        phone.get_by_role("button", name="Take back").tap()
    tap_pin(phone, "7306")
    phone.get_by_role("button", name="Begin as lead").tap()
    expect(phone.get_by_role("link", name=re.compile("^Lee"))).to_be_visible()
    assert phone.url.endswith("/checks")
    phone.get_by_role("link", name=re.compile("^Lee")).tap()
    sound(phone)
    keep(phone, shots, "who-is-here")
    phone.get_by_role("link", name="People", exact=True).tap()
    phone.get_by_label("Name").fill("Ana")
    tap_pin(phone, "4071")
    phone.get_by_role("button", name="Add a person").tap()
    expect(phone.get_by_role("status").get_by_text("Ana is added.")).to_be_visible()
    sound(phone)
    keep(phone, shots, "people")


@pytest.fixture
def crew(shop_here):
    address, _ = shop_here
    people = people_of(APPS[address])
    for name, role, pin in (("Lee", "lead", PIN), ("Ana", "tech", PIN)):
        people.shop.add(name, role, pin, by="a test")
    return people


@pytest.mark.usefixtures("crew")
def test_a_name_and_a_pin_lead_back_to_where_one_was_and_the_name_is_remembered(shop_here, phone, shots):
    address, client = shop_here
    shop.send(client, shop.half_finished()).raise_for_status()
    phone.goto(f"{address}/jobs/{shop.JOB}/containers")
    expect(phone.get_by_role("heading", name="Sign in")).to_be_visible()
    assert "Harbour launch" not in phone.content()
    phone.get_by_label("Your name").fill("Ana")
    tap_pin(phone, "4072")
    phone.get_by_role("button", name="Sign in").tap()
    expect(phone.get_by_role("alert")).to_contain_text("do not belong together")
    sound(phone)
    keep(phone, shots, "sign-in")
    tap_pin(phone, PIN)
    phone.get_by_role("button", name="Sign in").tap()
    expect(phone.get_by_text("T-0042-E").first).to_be_visible()
    phone.get_by_role("link", name=re.compile("^Ana")).tap()
    expect(phone.get_by_role("link", name="People", exact=True)).to_have_count(0)
    phone.get_by_role("button", name="Sign Ana out").tap()
    expect(phone.get_by_role("heading", name="Sign in")).to_be_visible()
    expect(phone.get_by_role("button", name=re.compile("Ana$"), pressed=True)).to_be_visible()
    keep(phone, shots, "sign-in-again")
    phone.evaluate("addEventListener('click', () => { window.taps = (window.taps ?? 0) + 1 }, true)")
    tap_pin(phone, PIN)
    phone.get_by_role("button", name="Sign in").tap()
    expect(phone.get_by_role("link", name=re.compile("^Ana"))).to_be_visible()
    taps = phone.evaluate("window.taps")
    print(f"\nsigning in again: {taps} taps of {len(PIN) + 1}, nothing typed")
    assert taps <= len(PIN) + 1


def test_a_lost_phone_is_cut_off_and_what_it_held_goes_to_the_lead(shop_here, crew, phone, browser, shots):
    address, client = shop_here
    shop.send(client, shop.half_finished()).raise_for_status()
    phone.goto(address)
    phone.get_by_label("Your name").fill("Ana")
    tap_pin(phone, PIN)
    phone.get_by_role("button", name="Sign in").tap()
    expect(phone.get_by_role("heading", level=1, name="Jobs")).to_be_visible()
    leads = browser.new_context(
        viewport={"width": 412, "height": 915}, has_touch=True, locale="en-GB"
    ).new_page()
    leads.goto(f"{address}/who/devices")
    leads.get_by_label("Your name").fill("Lee")
    tap_pin(leads, PIN)
    leads.get_by_role("button", name="Sign in").tap()
    card = leads.locator("li.card").filter(has_text="Signed in: Ana", has_not_text="phone of")
    expect(card).to_be_visible()
    sound(leads)
    keep(leads, shots, "devices")
    card.get_by_role("button", name="Lost: cut it off").tap()
    expect(leads.get_by_text("Reported lost by Lee")).to_be_visible()
    phone.get_by_role("link", name=re.compile("Harbour launch")).first.tap()
    expect(phone.get_by_role("heading", name="Sign in")).to_be_visible()
    expect(phone.get_by_text("A lead cut this device off.")).to_be_visible()
    leads.goto(f"{address}/who/devices")
    of_the_job = leads.locator("li.card").filter(has_text=f"phone of {shop.JOB}")
    of_the_job.get_by_role("button", name="Lost: cut it off").tap()
    looked_at = of_the_job.get_by_role("button", name=f"I looked at everything it touched in {shop.JOB}")
    expect(looked_at).to_be_visible()
    keep(leads, shots, "lost-phone-touched")
    assert "phone-not-sent" in checks_of(client)
    looked_at.tap()
    expect(of_the_job.get_by_role("status")).to_contain_text("everything it touched was looked at")
    sound(leads)
    assert "phone-not-sent" not in checks_of(client)
    leads.goto(f"{address}/who/held")
    expect(leads.get_by_text("Nothing is held.")).to_be_visible()
    sound(leads)
    leads.context.close()


def checks_of(client) -> set[str]:
    return {each["check"] for each in client.get(f"/api/jobs/{shop.JOB}/findings").json()["findings"]}


@pytest.mark.usefixtures("crew")
def test_a_phone_is_handed_to_another_who_signed_in_on_it(shop_here, phone, shots):
    address, _ = shop_here
    phone.goto(f"{address}/who")
    phone.get_by_label("Your name").fill("Ana")
    tap_pin(phone, PIN)
    phone.get_by_role("button", name="Sign in").tap()
    phone.get_by_role("button", name="Another person signs in here").tap()
    phone.get_by_role("button", name="Somebody else").tap()
    phone.get_by_label("Your name").fill("Lee")
    tap_pin(phone, PIN)
    phone.get_by_role("button", name="Sign in").tap()
    expect(phone.get_by_text("Lee holds this device.")).to_be_visible()
    sound(phone)
    keep(phone, shots, "two-on-one-phone")
    phone.get_by_role("button", name="Ana holds it now").tap()
    expect(phone.get_by_role("link", name=re.compile("^Ana"))).to_be_visible()
