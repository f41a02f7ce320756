import hashlib
import json
from pathlib import Path

from lastbolt.web.contract import contract

PAGE = Path(__file__).resolve().parents[2] / "mobile_web"


def test_the_committed_contract_is_what_the_routes_say():
    assert (PAGE / "openapi.json").read_text() == contract(), (
        "routes changed: python -m lastbolt.web.contract > mobile_web/openapi.json, "
        "then python mobile_web/hatch_build.py api"
    )


def test_the_pages_types_were_made_from_the_committed_contract():
    made_from = hashlib.sha256((PAGE / "openapi.json").read_bytes()).hexdigest()
    first_line = (PAGE / "src" / "api.d.ts").read_text().splitlines()[0]
    assert first_line == f"// openapi.json {made_from}", "run python mobile_web/hatch_build.py api"


def test_every_route_has_its_own_name_in_the_pages_types():
    paths = json.loads(contract())["paths"]
    names = [route["operationId"] for methods in paths.values() for route in methods.values()]
    assert len(names) == len(set(names))
    assert all(name.isidentifier() and "_" not in name for name in names)
