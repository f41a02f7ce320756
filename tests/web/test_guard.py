import pytest
from starlette.datastructures import Headers

from lastbolt.web.guard import is_near, refused

HERE = {"host": "127.0.0.1:8000"}


@pytest.mark.parametrize(
    "host",
    ["127.0.0.1:8000", "localhost", "localhost:8000", "[::1]:8000", "192.168.1.20:8443", "shop.local:8000"],
)
def test_this_machine_and_its_own_network_are_near(host):
    assert is_near(host)


@pytest.mark.parametrize(
    "host", ["", "bolts.example", "127.0.0.1.example", "localhost.example:8000", "[::1", "1.2.3.4.5", "local"]
)
def test_a_name_that_somebody_else_could_point_here_is_not_near(host):
    assert not is_near(host)


def test_a_request_without_an_origin_is_served():
    assert refused("POST", "http", Headers(HERE)) is None


def test_a_write_from_our_own_page_is_served():
    own = HERE | {"origin": "http://127.0.0.1:8000", "sec-fetch-site": "same-origin"}
    assert refused("POST", "http", Headers(own)) is None


@pytest.mark.parametrize(
    "origin",
    ["http://bolts.example", "null", "https://127.0.0.1:8000", "http://127.0.0.1:8001", "http://127.0.0.1"],
)
def test_another_origin_is_refused_in_one_sentence_with_a_way_out(origin):
    why = refused("POST", "http", Headers(HERE | {"origin": origin}))
    assert why and why.endswith("Open Lastbolt's own page and do it there.")


def test_a_write_that_the_browser_calls_cross_site_is_refused_even_without_an_origin():
    crossing = Headers(HERE | {"sec-fetch-site": "cross-site"})
    assert refused("POST", "http", crossing)
    assert refused("GET", "http", crossing) is None
