"""The commands about people, and the server for the shop's network."""

import io
import re
import ssl
import subprocess
import sys

import httpx
import pytest


@pytest.fixture
def told(run, monkeypatch):
    def typed(*words, pin="4071"):
        monkeypatch.setattr(sys, "stdin", io.StringIO(f"{pin}\n"))
        return run("people", *words)

    return typed


def test_people_are_added_listed_raised_and_let_go(told):
    assert told("add", "Ana") == (0, "Ana is added as tech.\n", "")
    assert told("add", "Lee", "--role", "lead", pin="a long passphrase")[0] == 0
    assert told("role", "Ana", "reader") == (0, "Ana is a reader now.\n", "")
    assert told("pin", "Ana", pin="6284")[1] == "Ana has a new PIN.\n"
    assert told("clear", "Ana")[0] == 0
    assert told("leave", "Ana")[1] == "Ana signs in no more.\n"
    said = told("list")[1].splitlines()
    assert said[0] == "Lee\tlead" and re.fullmatch(r"Ana\treader\tleft \d{4}-\d\d-\d\d", said[1])


@pytest.mark.parametrize(
    ("words", "pin", "said"),
    [
        (("add", "Ana"), "1234", "one of the first that anybody tries"),
        (("add", "Ana"), "", "give a PIN of 4 to 8 digits"),
        (("role", "Nobody", "tech"), "", "nobody called Nobody"),
        (("add", "Ana", "--role", "boss"), "4071", "not one of"),
        (("end", "phone 0123"), "", "no device called"),
        (("end",), "", "--of"),
    ],
)
def test_what_cannot_be_is_told_in_one_sentence(told, words, pin, said):
    status, out, err = told(*words, pin=pin)
    assert (status, out) == (2, "") and said in err and len(err.splitlines()) == 1


def test_devices_are_listed_and_cut_off(told, wired):
    told("add", "Lee", "--role", "lead")
    phone = wired.people.sign_in.sign_in("Lee", "4071", _asking()).visit.device
    assert phone in told("devices")[1] and "Lee" in told("devices")[1]
    assert told("end", "--of", "Lee", "--lost")[1] == f"1 cut off: {phone}.\n"
    assert "\tlost\t" in told("devices")[1]
    assert told("back", phone)[1] == f"{phone} may sign in again.\n"


def _asking():
    from lastbolt.people.sign_in import Asking

    return Asking()


def test_serving_the_network_goes_by_https_and_plain_http_gives_the_guide_only(tmp_path):
    words = ["-m", "lastbolt", "--data", str(tmp_path), "serve", "--lan", "--port", "0", "--guide-port", "0"]
    with subprocess.Popen([sys.executable, *words], stdout=subprocess.PIPE, text=True) as server:
        try:
            said = [server.stdout.readline() for _ in range(5)]
            page = re.search(r"https://[0-9.]+:(\d+)", said[0])
            guide = re.search(r"http://[0-9.]+:(\d+)/ca", said[1])
            assert page and guide and "code" in said[4]
            der = httpx.get(f"http://127.0.0.1:{guide[1]}/ca/lastbolt.crt").content
            trusting = ssl.create_default_context(cadata=der)
            answer = httpx.get(f"https://127.0.0.1:{page[1]}/api/session", verify=trusting)
            assert answer.json()["needs_first_lead"] is True
            wish = {"code": re.search(r"[A-Z0-9]{5}-[A-Z0-9]{5}", said[4])[0], "name": "Lee", "pin": "7306"}
            cookie = httpx.post(
                f"https://127.0.0.1:{page[1]}/api/first-lead", json=wish, verify=trusting
            ).headers["set-cookie"]
            assert cookie.startswith(f"__Host-lastbolt-{page[1]}=")
            assert "Secure" in cookie and "HttpOnly" in cookie and "Path=/" in cookie
        finally:
            server.terminate()
            server.wait(20)
    assert server.returncode in (0, -15)
