"""Every route of the API asked with made-up and with broken requests, by a lead: never a fault of the server.

Schemathesis makes the requests from the OpenAPI description, sound ones and broken ones. It is driven from
plain Hypothesis: its own pytest plugin does not run with the pytest that we use.
"""

from __future__ import annotations

import json
import os
import warnings

import pytest
import schemathesis
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis.errors import Unsatisfiable
from schemathesis import GenerationMode
from tests.web import shop
from tests.web.signing_in import Phones, signed_in

from lastbolt.web.contract import contract

EXAMPLES = 200 if os.environ.get("LASTBOLT_FAULTS") == "long" else 3
LEFT_OUT = ("streamEvents",)
"""A stream that ends only when its listener goes away; who is signed in stays so, see `ENDING`."""
ENDING = ("session", "/devices/", "/people/")
"""Addresses that would sign the asking lead out; they are asked in tests/web/test_people.py."""
API = schemathesis.openapi.from_dict(json.loads(contract()))
OPERATIONS = [
    found.ok()
    for found in API.get_all_operations()
    if found.ok().definition.raw.get("operationId") not in LEFT_OUT
    and not any(part in found.ok().path for part in ENDING)
    and "/events" not in found.ok().path
]


@pytest.fixture(scope="module")
def lead(tmp_path_factory):
    """Where a shop with a job is served, and the cookie of a lead."""
    with shop.open_shop(tmp_path_factory.mktemp("fuzzed")) as (address, client):
        phones = client.auth if isinstance(client.auth, Phones) else client._auth
        shop.send(client, shop.half_finished()).raise_for_status()
        token = signed_in(phones.app)
        yield address, {"cookie": f"lastbolt-{address.rsplit(':', 1)[1]}={token}"}


@pytest.mark.parametrize("operation", OPERATIONS, ids=lambda each: f"{each.method.upper()} {each.path}")
@pytest.mark.parametrize("mode", [GenerationMode.POSITIVE, GenerationMode.NEGATIVE], ids=["sound", "broken"])
def test_no_request_finds_a_fault_of_the_server(lead, operation, mode):
    address, cookie = lead
    answered = []

    @given(operation.as_strategy(generation_mode=mode))
    @settings(
        max_examples=EXAMPLES, deadline=None, derandomize=True, database=None,
        phases=[Phase.explicit, Phase.generate], suppress_health_check=list(HealthCheck),
    )  # fmt: skip
    def ask(case):
        case.headers = {**(case.headers or {}), **cookie}
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            answer = case.call(base_url=address, timeout=60)
        answered.append(answer.status_code)
        assert answer.status_code < 500, (
            f"{answer.status_code} {answer.text[:300]}\n{case.as_curl_command()[:800]}"
        )

    try:
        ask()
    except Unsatisfiable:
        assert mode is GenerationMode.NEGATIVE, "no sound request could be made up"
        return  # an address that takes any text, or nothing, cannot be asked wrongly
    assert 401 not in answered, "the lead was not signed in, so nothing was asked"
