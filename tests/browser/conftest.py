import os
import shutil
from pathlib import Path

import pytest
from playwright.sync_api import expect
from tests.browser import bagging, in_hand
from tests.web import shop
from tests.web.signing_in import sign_in_browser

expect.set_options(timeout=20_000)
SIZES = {"phone": {"width": 360, "height": 740}, "desk": {"width": 1280, "height": 800}}


@pytest.fixture(scope="session")
def browser_type_launch_args(browser_type_launch_args):
    arguments = (
        "--no-sandbox --disable-gpu --disable-quic --no-first-run --disable-background-networking "
        "--disable-component-update --disable-sync --force-color-profile=srgb --font-render-hinting=none"
    )
    chromium = os.environ.get("CHROMIUM") or shutil.which("chromium") or shutil.which("chromium-browser")
    here = {"executable_path": chromium} if chromium else {}
    return {**browser_type_launch_args, **here, "args": arguments.split()}


@pytest.fixture(scope="session")
def shop_folder(tmp_path_factory) -> Path:
    return tmp_path_factory.mktemp("shop")


@pytest.fixture(scope="session")
def base_url(shop_folder):
    with shop.open_shop(shop_folder) as (address, client):
        shop.fill(client)
        yield address


@pytest.fixture(scope="session", params=SIZES)
def browser_context_args(browser_context_args, request):
    return {
        **browser_context_args,
        "viewport": SIZES[request.param],
        "locale": "en-GB",
        "timezone_id": "Europe/Berlin",
    }


@pytest.fixture
def context(context, base_url):
    """A browser on which Lee, a lead, is signed in; `sign_in_browser` signs others in elsewhere."""
    sign_in_browser(context, base_url)
    return context


@pytest.fixture
def leaving(page, base_url):
    """Every request that went anywhere but to our own server."""
    gone: list[str] = []

    def look(request):
        if not request.url.startswith((base_url, "data:", "blob:")):
            gone.append(request.url)

    page.on("request", look)
    return gone


@pytest.fixture
def complaints(page):
    """What the browser's console said that is no mere remark: errors, refused by the content policy or not."""
    said: list[str] = []
    page.on("console", lambda message: said.append(message.text) if message.type == "error" else None)
    page.on("pageerror", lambda error: said.append(str(error)))
    return said


@pytest.fixture
def shots() -> Path | None:
    """Where screenshots go to be looked at, if the environment names a folder for them."""
    folder = os.environ.get("LASTBOLT_SHOTS")
    return Path(folder) if folder else None


def pytest_collection_modifyitems(config, items):
    """Leave what is marked long, and the desk at its widest, to `make browser`: the whole run stays under a quarter of an hour."""
    if os.environ.get("LASTBOLT_BROWSER") == "all":
        return
    is_long = [item for item in items if item.get_closest_marker("long") or "[1920" in item.name]
    if is_long:
        config.hook.pytest_deselected(items=is_long)
        items[:] = [item for item in items if item not in set(is_long)]


@pytest.fixture
def here(tmp_path):
    """A shop of this test alone."""
    with in_hand.shop_in(tmp_path / "data") as here:
        yield here


@pytest.fixture
def phone(browser_type, browser_type_launch_args):
    """A phone without a camera, on which nobody is signed in yet."""
    with bagging.phone(browser_type, browser_type_launch_args, film=None) as context:
        yield context
