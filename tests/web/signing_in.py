"""Phones that are signed in, for tests: each request goes out as the device and person that its body names."""

import json
import re
import secrets
from collections.abc import Iterator
from threading import Lock
from typing import Any
from urllib.parse import unquote

import httpx
from tests.web.serving import APPS

from lastbolt.errors import ConflictError
from lastbolt.people.sign_in import Asking
from lastbolt.roster import Device

PIN = "3141"
LEE = "Lee"
DESK = "phone of tests"
CHEAP = (1, 64)
"""One round over 64 KiB: tests are no attackers."""


def people_of(app: Any) -> Any:
    """Give the people of an application, also of one that is wrapped."""
    while not hasattr(app, "state"):
        app = app.app
    return app.state.desk.wired.people


def signed_in(app: Any, device: str = DESK, name: str = LEE, role: str = "lead") -> str:
    """Sign a person in on a device of that name, both made at need; give the device's new token."""
    people = people_of(app)
    try:
        people.shop.add(name, role, PIN, by="a test")
    except ConflictError:
        pass
    rows, now = people.sign_in._rows.devices, "2026-03-09T08:00:00.000Z"
    if rows.named(device) is None:
        rows.put(Device(device, "0" * 63 + str(len(rows.all()) % 10), "a test", now, now, name.casefold()))
    held = _TOKENS.get((id(people), device))
    opened = people.sign_in.sign_in(name, PIN, Asking(held, device))
    _TOKENS[id(people), device] = opened.token
    return opened.token


def sign_in_browser(context: Any, address: str, name: str = LEE, role: str = "lead") -> str:
    """Sign a person in on a browser without the screen for it, as on a phone of its own; give the phone's name."""
    device = f"phone {secrets.token_hex(6)}"
    context.add_cookies([cookie(address, signed_in(APPS[address], device, name, role))])
    return device


_TOKENS: dict[tuple[int, str], str] = {}


def cookie(base_url: str, token: str) -> dict[str, str]:
    """Write the cookie that a browser keeps for a server."""
    return {"name": f"lastbolt-{base_url.rsplit(':', 1)[1].strip('/')}", "value": token, "url": base_url}


class Phones(httpx.Auth):
    """Signs each request in as whom it speaks for; everybody is a lead unless `roles` says otherwise."""

    requires_request_body = True

    def __init__(self, app: Any, roles: dict[str, str] | None = None) -> None:
        self.app, self.roles = app, roles or {}
        self.turn = Lock()
        self.here: dict[str, set[str]] = {}
        self.tokens: dict[str, str] = {}
        self.token = ""

    def cookie(self, port: int) -> str:
        """Write the cookie of the device that spoke last, as a request to that port carries it."""
        return f"lastbolt-{port}={self.token}"

    def auth_flow(self, request: httpx.Request) -> Iterator[httpx.Request]:
        with self.turn:
            for device, name in sorted(_spoken_for(request)) or [(DESK, LEE)]:
                if name not in self.here.setdefault(device, set()):
                    self.tokens[device] = signed_in(self.app, device, name, self.roles.get(name, "lead"))
                    self.here[device].add(name)
                self.token = self.tokens[device]
            request.headers["cookie"] = self.cookie(request.url.port or 80)
        yield request


def _spoken_for(request: httpx.Request) -> set[tuple[str, str]]:
    """Find the devices and names in a body: entries name both, a form of photos a name, other bodies neither."""
    if named := re.search(rb'name="by"\r\n\r\n([^\r]+)', request.content):
        return {(DESK, unquote(named[1].decode()))}
    try:
        entries = json.loads(request.content)
    except ValueError:
        return set()
    if not isinstance(entries, list) or not all(isinstance(each, dict) for each in entries):
        return set()
    return {(each["device"], each["by"]) for each in entries if {"device", "by"} <= set(each)}
