import httpx
import pytest
from tests.house.test_forms import unsaid
from tests.web import shop
from tests.web.serving import served
from tests.web.signing_in import Phones

from lastbolt.web import problems


@pytest.fixture(autouse=True)
def heard(monkeypatch):
    """Every refusal that a test here provokes must have German words: a page says it in its language."""
    english: set[str] = set()
    as_before = problems.forms_of

    def listening(*texts):
        english.update(each for text in texts for each in unsaid(text))
        return as_before(*texts)

    monkeypatch.setattr(problems, "forms_of", listening)
    yield
    assert english == set()


@pytest.fixture
def app(tmp_path):
    """The application over a shop with nothing in it yet."""
    return shop.app_in(tmp_path)


@pytest.fixture
def served_at(app):
    """Where that shop is served."""
    with served(app) as address:
        yield address


@pytest.fixture
def client(app, served_at):
    """A client of that shop, signed in as whom each request speaks for."""
    with httpx.Client(base_url=served_at, timeout=30, auth=Phones(app)) as client:
        yield client


@pytest.fixture
def stranger(served_at):
    """A client of that shop who is not signed in."""
    with httpx.Client(base_url=served_at, timeout=30) as client:
        yield client


@pytest.fixture(scope="module")
def filled(tmp_path_factory):
    """A shop with two jobs and three photos, for those who only read."""
    with shop.open_shop(tmp_path_factory.mktemp("shop")) as (_, client):
        shop.fill(client)
        yield client
