import subprocess
from pathlib import Path

import httpx
import pytest
from tests.web.serving import served
from tests.web.signing_in import CHEAP, Phones

from lastbolt.label_code import LabelCode, read
from lastbolt.settings import Settings
from lastbolt.web.app import create_app

LAYOUTS = Path(__file__).resolve().parents[2] / "label_templates"


@pytest.fixture
def client(tmp_path):
    app = create_app(Settings(data=tmp_path / "shop", layouts=(LAYOUTS,), pin_cost=CHEAP))
    with served(app) as address, httpx.Client(base_url=address, timeout=30, auth=Phones(app)) as client:
        yield client


def codes_on(pdf: bytes, folder) -> list[str]:
    """Read the codes back off the printed sheet with poppler's pdftotext."""
    path = folder / "sheet.pdf"
    path.write_bytes(pdf)
    text = subprocess.run(["pdftotext", str(path), "-"], capture_output=True, text=True, check=True).stdout
    found = (read(word) for word in text.split())
    return [each.code for each in found if each is not None and each.checked]


def test_twenty_four_more_bags_never_repeat_a_number(client, tmp_path):
    first, second = (client.post("/api/labels/sheets", json={}) for _ in range(2))
    assert first.headers["content-type"] == "application/pdf"
    assert first.headers["x-labels"].startswith("24 labels, B-0001-")
    printed = [codes_on(answer.content, tmp_path) for answer in (first, second)]
    assert [len(set(codes)) for codes in printed] == [24, 24]
    assert not set(printed[0]) & set(printed[1])


def test_numbers_written_by_hand_come_from_the_same_counter(client, tmp_path):
    by_hand = client.post("/api/labels/numbers", json={"count": 4}).json()["codes"]
    assert [read(code).checked for code in by_hand] == [True] * 4
    printed = codes_on(client.post("/api/labels/sheets", json={}).content, tmp_path)
    assert not {LabelCode(read(code).code) for code in by_hand} & set(printed)


def test_a_layout_that_is_not_there_uses_up_no_number(client):
    answer = client.post("/api/labels/sheets", json={"layout": "a9-9x9"})
    assert answer.status_code == 404 and answer.json()["detail"]
    assert client.post("/api/labels/numbers", json={}).json()["codes"][0].startswith("B-0001-")
