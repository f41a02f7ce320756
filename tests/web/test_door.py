"""Nothing is open without signing in. OWASP Session Management Cheat Sheet (from memory, own words): the cookie is
HttpOnly, SameSite, Secure over TLS, host-bound; the id is random, renewed at sign-in, ended on the server's side."""

import logging
import re

import httpx
import pytest
from fastapi.routing import APIRoute
from starlette.routing import BaseRoute, Route
from tests.web import shop
from tests.web.serving import served
from tests.web.shop import JOB, entry, half_finished, picture, send
from tests.web.signing_in import PIN, Phones, people_of, signed_in

from lastbolt.web.door import OPEN, is_open
from lastbolt.web.page import PAGES

WAYS_IN = {
    ("GET", "/assets/{name}"), ("GET", "/{name}"), ("GET", "/L/{code}"), ("GET", "/l/{code}"),
    ("GET", "/ca"), ("GET", "/CA"), ("GET", "/ca/lastbolt.crt"), ("GET", "/api/session"), ("POST", "/api/session"), ("POST", "/api/first-lead"),
}  # fmt: skip
"""Written by hand: the page's files, and the ways to sign in; beside them only addresses of the page itself."""
WITHOUT_A_SESSION = WAYS_IN | {("GET", address) for address in PAGES}


def routes_of(routes: list[BaseRoute]) -> set[tuple[str, str]]:
    """Find every route of an application, included routers and all; a kind of route unknown here is a fault."""
    found = set()
    for route in routes:
        if hasattr(route, "original_router"):
            found |= routes_of(route.original_router.routes)
        else:
            assert isinstance(route, APIRoute | Route), f"what is {route}? It must be tried too"
            found |= {(method, route.path) for method in route.methods}
    return found


def address_of(path: str) -> str:
    filled = re.sub(r"\{(sha|sha256)(:\w+)?\}", "a" * 64, path)
    return re.sub(r"\{\w+(:\w+)?\}", "1", filled)


def test_every_route_that_is_not_on_the_list_answers_401_to_a_stranger(app, stranger):
    tried = 0
    for method, path in sorted(routes_of(app.routes)):
        if (("GET" if method == "HEAD" else method), path) in WITHOUT_A_SESSION:
            continue
        answer = stranger.request(method, address_of(path))
        assert answer.status_code == 401, (method, path, answer.status_code)
        if method != "HEAD":
            assert answer.headers["content-type"] == "application/problem+json"
            assert "Sign in" in answer.json()["detail"]
        tried += 1
    print(f"\n{tried} closed routes tried")
    assert tried > 40


def test_the_list_of_open_addresses_is_the_one_written_here():
    assert OPEN == WITHOUT_A_SESSION


@pytest.mark.parametrize("address", PAGES)
def test_an_address_of_the_page_gives_the_same_shell_to_everybody(client, stranger, address):
    send(client, half_finished())
    shell = stranger.get("/")
    assert stranger.get(address_of(address)).content == shell.content
    assert JOB not in shell.text


@pytest.mark.parametrize(
    "path", ["/api/openapi.json", "/api/events", f"/api/jobs/{JOB}/events", "/api/nowhere"]
)
def test_description_streams_and_unknown_addresses_are_closed_too(stranger, path):
    assert stranger.get(path).status_code == 401


@pytest.mark.parametrize(
    "path",
    ["/api/session/", "/api/session/holder", "//api/jobs", "/API/jobs", "/api/jobs/%2e%2e/session", "/api"],
)
def test_addresses_that_look_like_an_open_one_open_nothing(stranger, path):
    answer = stranger.get(path)
    assert answer.status_code in (401, 404), answer.text
    assert "launch" not in answer.text


def test_a_made_up_token_opens_nothing(stranger, served_at):
    for token in ("x", "0" * 64, "' OR 1=1 --", "%00"):
        cookie = f"lastbolt-{served_at.rsplit(':', 1)[1]}={token}"
        assert stranger.get("/api/jobs", headers={"cookie": cookie}).status_code == 401


def test_the_token_of_one_server_is_worthless_at_another(app, stranger, tmp_path):
    token = signed_in(app)
    with served(shop.app_in(tmp_path / "other")) as address, httpx.Client(base_url=address) as other:
        port = address.rsplit(":", 1)[1]
        assert other.get("/api/jobs", headers={"cookie": f"lastbolt-{port}={token}"}).status_code == 401


def sign_in(client, name="Lee", pin=PIN, **more):
    return client.post("/api/session", json={"name": name, "pin": pin, **more})


@pytest.fixture
def lee(app):
    people_of(app).shop.add("Lee", "lead", PIN, by="a test")


@pytest.mark.usefixtures("lee")
def test_signing_in_opens_the_shop_and_signing_out_shuts_it(stranger):
    answer = sign_in(stranger)
    assert answer.json()["state"] == "in" and answer.json()["current"] == "Lee"
    assert stranger.get("/api/jobs").status_code == 200
    assert stranger.delete("/api/session").json()["state"] == "pin"
    assert stranger.get("/api/jobs").status_code == 401
    assert "PIN is needed" in stranger.get("/api/jobs").json()["detail"]


@pytest.mark.usefixtures("lee")
def test_the_cookie_is_kept_from_programs_and_other_sites(stranger):
    said = sign_in(stranger).headers["set-cookie"].lower()
    assert "httponly" in said and "samesite=strict" in said and "path=/" in said
    assert "domain" not in said and "secure" not in said
    assert len(re.search(r"=([^;]+)", said)[1]) >= 43


@pytest.mark.usefixtures("lee")
def test_a_wrong_pin_is_answered_in_words_and_at_last_with_a_wait(stranger):
    answers = [sign_in(stranger, pin="9999") for _ in range(7)]
    assert [answer.status_code for answer in answers] == [401] * 6 + [429]
    assert answers[0].headers["www-authenticate"] and int(answers[6].headers["retry-after"]) <= 16
    assert answers[6].json()["detail"].startswith("Too many wrong tries. Try again in ")


@pytest.mark.usefixtures("lee")
@pytest.mark.parametrize(
    "headers",
    [
        {"origin": "https://elsewhere.example"},
        {"origin": "null"},
        {"origin": "http://127.0.0.1:1"},
        {"sec-fetch-site": "cross-site"},
        {"sec-fetch-site": "same-site"},
    ],
)
def test_a_page_of_another_site_writes_nothing_though_the_cookie_came_along(client, headers):
    """CSRF, OWASP's advice (own words): besides SameSite the server looks at Origin and Sec-Fetch-Site."""
    for method, path, body in (
        ("POST", f"/api/jobs/{JOB}/entries", half_finished()),
        ("POST", "/api/people", {"name": "Mallory", "role": "lead", "pin": "7306"}),
        ("POST", "/api/session", {"name": "Lee", "pin": PIN}),
        ("DELETE", "/api/session", None),
    ):
        answer = client.request(method, path, json=body, headers=headers)
        assert answer.status_code == 403 and "Another site" in answer.json()["detail"]
    assert client.get("/api/jobs").json() == []


@pytest.mark.usefixtures("lee")
def test_no_secret_stands_in_an_address_an_answer_or_a_log(stranger, app, caplog, capfd):
    with caplog.at_level(logging.DEBUG):
        answer = sign_in(stranger, pin=PIN)
        wrong = sign_in(stranger, pin="secret words 77")
        bad = stranger.post("/api/session", json={"name": "Lee", "pin": ["secret words 77"]})
        token = next(iter(stranger.cookies.values()))
        stranger.get("/api/people")
        stranger.get("/api/devices")
    said = " ".join(
        (
            answer.text,
            wrong.text,
            bad.text,
            stranger.get("/api/people").text,
            stranger.get("/api/devices").text,
        )
    )
    log = " ".join(
        record.getMessage() for record in caplog.records if not record.name.startswith("http")
    ) + "".join(capfd.readouterr())
    for secret in (token, "secret words 77", "argon2", "$"):
        assert secret not in said and secret not in log
    assert all(
        ("pin" not in path and "token" not in path.replace("/tokens", "")) or "{" in path for _, path in OPEN
    )


def test_a_reader_sees_everything_and_changes_nothing(app, served_at, client):
    send(client, half_finished())
    reader = signed_in(app, "phone of Nora", "Nora", "reader")
    with httpx.Client(base_url=served_at) as nora:
        nora.headers["cookie"] = f"lastbolt-{served_at.rsplit(':', 1)[1]}={reader}"
        assert nora.get("/api/jobs").status_code == 200
        for method, path in sorted(routes_of(app.routes)):
            if method in ("GET", "HEAD") or path.startswith(("/api/session", "/api/first-lead")):
                continue
            body = [{**entry("signed-on", 1, by="Nora"), "device": "phone of Nora"}]
            answer = nora.request(method, address_of(path), json=body)
            assert answer.status_code == 403, (method, path, answer.status_code, answer.text)


def test_what_is_for_leads_is_refused_to_a_tech_in_words(app, served_at):
    token = signed_in(app, "phone of Ana", "Ana", "tech")
    with httpx.Client(base_url=served_at) as ana:
        ana.headers["cookie"] = f"lastbolt-{served_at.rsplit(':', 1)[1]}={token}"
        asked = [
            ("GET", "/api/people", None),
            ("POST", "/api/people", {"name": "Bo", "role": "lead", "pin": "7306"}),
            ("PUT", "/api/people/Ana/role", {"role": "lead"}),
            ("PUT", "/api/people/Ana/pin", {"pin": "7306"}),
            ("DELETE", "/api/people/Ana/tries", None),
            ("DELETE", "/api/people/Ana", None),
            ("GET", "/api/devices", None),
            ("POST", "/api/devices/phone of Ana/end", {"lost": True}),
            ("POST", "/api/devices/phone of Ana/back", None),
            ("GET", "/api/devices/phone of Ana/touched", None),
            ("GET", "/api/held", None),
            ("POST", "/api/held/00000000-0000-7000-8000-000000000000/in", None),
            ("POST", "/api/held/00000000-0000-7000-8000-000000000000/discard", {"reason": "because of that"}),
        ]
        for method, path, body in asked:
            answer = ana.request(method, path, json=body)
            assert answer.status_code == 403 and "takes a lead" in answer.json()["detail"], (
                path,
                answer.text,
            )


def test_a_labels_address_tells_a_stranger_nothing(stranger, client):
    send(client, half_finished())
    answer = stranger.get("/L/T0042E")
    assert answer.status_code == 303 and answer.headers["location"] == "/labels/T0042E"


def test_a_lost_phone_is_cut_off_at_once_and_what_it_sends_later_is_held(app, served_at, client):
    send(client, half_finished())
    phone, port = "phone of Ana", served_at.rsplit(":", 1)[1]
    with httpx.Client(base_url=served_at) as ana:
        ana.headers["cookie"] = f"lastbolt-{port}={signed_in(app, phone, 'Ana', 'tech')}"
        before = {**entry("part-removed", 29, by="Ana", part="guard"), "device": phone}
        assert ana.post(f"/api/jobs/{JOB}/entries", json=[before]).json()["held"] == 0
        devices = client.post(f"/api/devices/{phone}/end", json={"lost": True}).json()
        assert next(each for each in devices if each["device"] == phone)["lost"] is True
        assert ana.get("/api/jobs").status_code == 401
        assert ana.get("/api/session").json()["state"] == "cut"
        late = {**entry("part-removed", 30, by="Ana", part="lid"), "device": phone}
        said = ana.post(f"/api/jobs/{JOB}/entries", json=[late]).json()
        assert (said["lines"], said["held"]) == ([], 1)
        assert (
            ana.post(f"/api/jobs/{JOB}/photos", files={"photos": ("a.jpg", picture("a"))}).status_code == 401
        )
        forged = {**entry("signed-on", 31, by="Lee"), "device": phone}
        assert ana.post(f"/api/jobs/{JOB}/entries", json=[forged]).status_code == 403
    held, owing = _findings_of(client, "phone-not-sent")
    assert owing["subject"] == held["subject"] == phone
    assert "1 entry waits for a lead's look" in held["sentence"]
    assert "nobody can say what it still held" in owing["sentence"]
    (held,) = client.get("/api/held").json()
    assert held["entry"] == late and held["by"] == "Ana" and "cut off" in held["why"]
    total = client.get(f"/api/jobs/{JOB}/entries").json()["total"]
    assert client.post(f"/api/held/{held['id']}/in").json() == []
    assert client.get(f"/api/jobs/{JOB}/entries").json()["total"] == total + 2
    (owing,) = _findings_of(client, "phone-not-sent")
    assert "nobody can say" in owing["sentence"]
    client.post(f"/api/devices/{phone}/walked", json={"job": JOB}).raise_for_status()
    assert _findings_of(client, "phone-not-sent") == []
    client.post(f"/api/devices/{phone}/back").raise_for_status()
    with httpx.Client(base_url=served_at) as ana:
        ana.headers["cookie"] = f"lastbolt-{port}={signed_in(app, phone, 'Ana', 'tech')}"
        client.post(f"/api/devices/{phone}/end", json={"lost": False}).raise_for_status()
        later = {**entry("part-removed", 32, by="Ana", part="lid 2"), "device": phone}
        assert ana.post(f"/api/jobs/{JOB}/entries", json=[later]).json()["held"] == 1
    (waits,) = _findings_of(client, "phone-not-sent")
    assert "1 entry waits" in waits["sentence"]
    wish = {"reason": "nobody was at the lid"}
    client.post(f"/api/held/{later['id']}/discard", json=wish).raise_for_status()
    assert _findings_of(client, "phone-not-sent") == []


def _findings_of(client, check):
    found = client.get(f"/api/jobs/{JOB}/findings").json()
    return [each for each in found["findings"] if each["check"] == check]


def test_an_open_stream_ends_when_its_device_is_cut_off(app, served_at, client):
    phone, port = "phone of Ana", served_at.rsplit(":", 1)[1]
    send(client, half_finished())
    with httpx.Client(base_url=served_at, timeout=30) as ana:
        ana.headers["cookie"] = f"lastbolt-{port}={signed_in(app, phone, 'Ana', 'tech')}"
        with ana.stream("GET", f"/api/jobs/{JOB}/events") as stream:
            assert stream.status_code == 200
            lines = stream.iter_lines()
            next(lines)
            client.post(f"/api/devices/{phone}/end", json={"lost": False})
            send(client, [entry("signed-on", 40)])
            try:
                rest = "\n".join(lines)
            except httpx.RemoteProtocolError:
                rest = ""
            assert "changed" not in rest


def test_photos_come_in_under_the_name_of_whoever_holds_the_device(app, served_at, client):
    send(client, half_finished())
    token = signed_in(app, "phone of Ana", "Ana", "tech")
    with httpx.Client(base_url=served_at, timeout=60) as ana:
        ana.headers["cookie"] = f"lastbolt-{served_at.rsplit(':', 1)[1]}={token}"
        photo = {"photos": ("a.jpg", picture("a tray"), "image/jpeg")}
        assert ana.post(f"/api/jobs/{JOB}/photos", files=photo, data={"by": "Lee"}).status_code == 403
        assert ana.post(f"/api/jobs/{JOB}/photos", files=photo).json()[0]["kept"] is True
    newest = client.get(f"/api/jobs/{JOB}/entries").json()["lines"][0]["entry"]
    assert newest["by"] == "Ana"


def test_the_first_lead_comes_in_by_the_code_and_the_session_says_that_one_is_needed(app, stranger):
    assert stranger.get("/api/session").json()["needs_first_lead"] is True
    code = people_of(app).shop.first_code()
    wish = {"name": "Lee", "pin": "7306", "device": None}
    assert stranger.post("/api/first-lead", json={**wish, "code": "AAAAA-AAAAA"}).status_code == 403
    assert stranger.post("/api/first-lead", json={**wish, "code": code}).json()["current"] == "Lee"
    assert stranger.get("/api/session").json()["needs_first_lead"] is False
    assert is_open("GET", "/api/session") and not is_open("PUT", "/api/session/pin")


def test_ones_own_pin_is_changed_with_the_old_one(app, served_at):
    with httpx.Client(base_url=served_at, auth=Phones(app, {"Ana": "tech"})) as client:
        assert client.put("/api/session/pin", json={"old": "9999", "new": "6284"}).status_code == 403
        changed = client.put("/api/session/pin", json={"old": PIN, "new": "6284"})
        assert changed.json()["state"] == "pin"
