import httpx
import pytest
from tests.web import shop
from tests.web.serving import served


@pytest.fixture
def client(tmp_path):
    """A shop with nothing in it yet, served from a folder of its own."""
    with served(shop.app_in(tmp_path)) as address, httpx.Client(base_url=address, timeout=30) as client:
        yield client


@pytest.fixture(scope="module")
def filled(tmp_path_factory):
    """A shop with two jobs and three photos, for those who only read."""
    app = shop.app_in(tmp_path_factory.mktemp("shop"))
    with served(app) as address, httpx.Client(base_url=address, timeout=30) as client:
        shop.fill(client)
        yield client
