import httpx
import pytest
import zxingcpp
from PIL import Image
from tests.web.serving import served

from lastbolt.web.listening import own_names
from lastbolt.web.reach import Reach, guide_app
from lastbolt.web.terminal import drawn

FAR = Reach("https://192.168.1.20:8000", "http://192.168.1.20:8080/ca", b"DER of the authority", "12AB 34CD")


def picture_of(rows: list[str], scale: int = 8) -> Image.Image:
    width = len(rows) + 8
    image = Image.new("L", (width, width), 255)
    for y, row in enumerate(rows):
        for x, module in enumerate(row):
            image.putpixel((x + 4, y + 4), 0 if module == "1" else 255)
    return image.resize((width * scale, width * scale), Image.Resampling.NEAREST)


def test_the_symbols_lead_to_the_page_and_to_the_guide(app, client):
    """Read back by zxing, which did not draw them; scheme and host know no case (RFC 3986, 6.2.2.1)."""
    app.state.reach = FAR
    ways = client.get("/api/ways-in").json()
    texts = [zxingcpp.read_barcodes(picture_of(ways[way]["rows"]))[0].text for way in ("page", "guide")]
    assert texts == ["HTTPS://192.168.1.20:8000", "HTTP://192.168.1.20:8080/CA"]
    assert ways["is_far"] is True and ways["is_read_along"] is False and ways["fingerprint"] == "12AB 34CD"


def test_the_symbol_in_the_terminal_reads_too():
    lines = [
        line.removeprefix("\x1b[30;107m").removesuffix("\x1b[0m") for line in drawn(FAR.guide).splitlines()
    ]
    rows = []
    for line in lines:
        rows.append("".join("1" if each in "▀█" else "0" for each in line))
        rows.append("".join("1" if each in "▄█" else "0" for each in line))
    assert zxingcpp.read_barcodes(picture_of(rows))[0].text == "HTTP://192.168.1.20:8080/CA"


def test_a_server_for_this_machine_alone_says_so(client, served_at):
    ways = client.get("/api/ways-in").json()
    assert (ways["is_far"], ways["guide"], ways["page"]["address"]) == (False, None, served_at)
    assert client.get("/ca").status_code == 404 and "--lan" in client.get("/ca").json()["detail"]


@pytest.mark.parametrize("address", ["/ca", "/CA", "/ca/lastbolt.crt"])
def test_the_certificate_is_open_to_everybody_who_must_first_trust_it(app, stranger, address):
    app.state.reach = FAR
    assert stranger.get(address).status_code == 200


def test_plain_http_gives_the_guide_and_the_certificate_and_nothing_of_the_shop():
    with served(guide_app(FAR)) as address, httpx.Client(base_url=address) as client:
        guide = client.get("/ca")
        assert "12AB 34CD" in guide.text and "https://192.168.1.20:8000" in guide.text
        for words in ("Certificate Trust Settings", "CA certificate", "read along"):
            assert " ".join(words.split()) in " ".join(guide.text.split())
        certificate = client.get("/ca/lastbolt.crt")
        assert certificate.content == b"DER of the authority"
        assert certificate.headers["content-type"] == "application/x-x509-ca-cert"
        for elsewhere in ("/", "/jobs/x", "/api/jobs", "/api/session"):
            answer = client.get(elsewhere)
            assert (answer.status_code, answer.headers["location"]) == (303, "/ca")
        assert client.post("/api/session", json={"name": "Lee", "pin": "4071"}).status_code == 405


def test_this_machine_knows_under_which_names_others_reach_it():
    names = own_names()
    assert any(name.endswith(".local") for name in names) and all(names)
