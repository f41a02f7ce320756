"""Search, statistics, the auditor's questions, tables and zips over the wire, on the sample jobs."""

import csv
import io
import json
import subprocess
import sys
import zipfile
from pathlib import Path

import httpx
import pytest
from tests.web import shop
from tests.web.serving import served
from tests.web.signing_in import CHEAP, Phones

from lastbolt.actions.record import record
from lastbolt.settings import Settings
from lastbolt.web.app import create_app

SAMPLES = Path(__file__).resolve().parents[2] / "samples"
CLEAN, HALF = "wagtail-clean", "dunlin-half-finished"


@pytest.fixture(scope="module")
def desk(tmp_path_factory):
    """A shop with both sample jobs, recorded as they were."""
    app = shop.app_in(tmp_path_factory.mktemp("desk"))
    wired = app.state.desk.wired
    for name in ("clean", "half_finished"):
        raws = [json.loads(line) for line in (SAMPLES / f"{name}.jsonl").read_text().splitlines()]
        record(wired.journal, wired.clock, raws, job=raws[0]["job"])
    with served(app) as address, httpx.Client(base_url=address, timeout=60, auth=Phones(app)) as client:
        yield client


def got(client, address, **params):
    answer = client.get(address, params=params)
    assert answer.status_code == 200, answer.text
    return answer.json()


def test_the_board_tells_of_every_job(desk):
    board = got(desk, "/api/board")["jobs"]
    assert {job["job"] for job in board} == {CLEAN, HALF}
    for job in board:
        findings = got(desk, f"/api/jobs/{job['job']}/findings")["findings"]
        stops = sum(1 for f in findings if f["severity"] == "stop")
        assert job["counts"]["stop"] == stops
        head = got(desk, f"/api/jobs/{job['job']}")
        assert (job["state"], job["entries"], job["counts"]) == (
            head["state"],
            head["entries"],
            head["counts"],
        )


def test_the_board_follows_each_entry(tmp_path):
    app = shop.app_in(tmp_path)
    with served(app) as address, httpx.Client(base_url=address, timeout=60, auth=Phones(app)) as client:
        shop.send(client, shop.half_finished()).raise_for_status()
        before = got(client, "/api/board")["jobs"][0]
        assert before["people"] == ["Ana"] and before["uncovered"] is None
        shop.send(client, [shop.entry("opening-uncovered", 30, opening="pump housing")]).raise_for_status()
        shop.send(client, [shop.entry("signed-off", 31)]).raise_for_status()
        after = got(client, "/api/board")["jobs"][0]
        assert after["people"] == []
        assert after["uncovered"]["opening"] == "pump housing"
        assert after["entries"] == before["entries"] + 2


def test_a_question_finds_the_bolts(desk):
    found = got(desk, "/api/search", q="where did we use the M8×35 bolts?")
    assert found["all_words"]
    assert {(hit["job"], hit["name"]) for hit in found["hits"]} >= {(CLEAN, "inlet manifold bolts")}
    assert got(desk, "/api/search", q="M8x1.25x35 manifold")["hits"]
    assert got(desk, "/api/search", q="zebra")["hits"] == []


@pytest.mark.parametrize("asked", ['"', "*", "a AND", "NEAR(", "-x", "job:x", "', DROP TABLE search", "\x00"])
def test_no_search_words_upset_the_index(desk, asked):
    got(desk, "/api/search", q=asked)


def test_who_tightened_this_bolt(desk):
    rows = got(desk, "/api/auditor/tightened", job=CLEAN, set="inlet manifold bolts", hole=3)
    assert [row["stage"] for row in rows] == [1, 2]
    assert {row["hole"] for row in rows} == {3}
    last = rows[-1]
    assert (last["by"], last["value"], last["wrench"]) == ("Ben", "24 N·m", "large wrench")
    assert "page 41" in last["source"] and "edition 3" in last["source"]
    assert last["looked"].startswith("Ana")
    assert desk.get("/api/auditor/tightened", params={"job": CLEAN, "set": "no such"}).status_code == 404


def test_which_jobs_used_this_wrench_between_dates(desk):
    uses = got(desk, "/api/auditor/wrench", wrench="large wrench")
    assert {use["job"] for use in uses} >= {CLEAN}
    assert [use["at"] for use in uses] == sorted((use["at"] for use in uses), reverse=True)
    day = got(
        desk, "/api/auditor/wrench", wrench="large wrench",
        since="2026-05-08T00:00:00+02:00", until="2026-05-09T00:00:00+02:00",
    )  # fmt: skip
    assert day and all(use["at"] < "2026-05-09" for use in day) and len(day) < len(uses)
    assert got(desk, "/api/auditor/wrench", wrench="no such") == []


def test_a_wrench_in_doubt_leads_to_every_joint(desk):
    joints = got(desk, "/api/auditor/doubtful-wrench", wrench="large wrench")
    assert joints[0]["critical"]
    assert "pulled with large wrench" in joints[0]["sentence"]


def test_when_nobody_was_signed_on(desk):
    gaps = got(desk, "/api/auditor/nobody", job=CLEAN)
    assert len(gaps) == 3
    assert gaps[0]["since"].startswith("2026-05-04T16:10")


def test_what_came_after_the_signature(desk):
    assert got(desk, "/api/auditor/after-signing", job=CLEAN) == []
    late = shop.entry("fasteners-loosened", 900, job=CLEAN, by="Ben", set="belt guard bolts", n=1)
    shop.send(desk, [late | {"at": "2026-06-01T08:00:00+02:00"}]).raise_for_status()
    (row,) = got(desk, "/api/auditor/after-signing", job=CLEAN)
    assert (row["kind"], row["about"], row["is_work"]) == ("fasteners-loosened", "belt guard bolts", True)


def test_deferrals_and_words_on_own_work_are_found(tmp_path):
    app = shop.app_in(tmp_path)
    with served(app) as address, httpx.Client(base_url=address, timeout=60, auth=Phones(app)) as client:
        shop.send(client, shop.half_finished()).raise_for_status()
        word = shop.entry(
            "finding-decided", 30, by="Ana", role="lead", check="part-not-back-on", subject="pump cover",
            decision="defer", reason="the gasket comes on Friday", limit="2026-03-20T00:00:00+00:00",
            barrier="tag on the key", second="Ida",
        )  # fmt: skip
        shop.send(client, [word]).raise_for_status()
        (one,) = got(client, "/api/auditor/deferrals")
        assert one["expired"] and not one["settled"] and not one["released"]
        (own,) = got(client, "/api/auditor/own-decisions")
        assert (own["by"], own["subject"], own["doers"]) == ("Ana", "pump cover", ["Ana"])


def test_time_by_step_stands_beside_the_last_job_of_the_kind(desk):
    found = got(desk, "/api/statistics", job=CLEAN)
    assert found["last"] == HALF
    both = [step for step in found["steps"] if step["before"] is not None]
    assert both and all(step["minutes"] > 0 for step in found["steps"])
    assert not {"Ana", "Ben", "Ilse"} & set(json.dumps(found).replace('"', " ").split())


def test_how_good_the_reader_is_here(desk):
    found = got(desk, "/api/statistics/reader")
    assert found["compared"] >= found["within"] >= found["equal"] >= 0
    assert found["compared"] > 0


@pytest.mark.parametrize(
    ("what", "head"), [("findings", "what"), ("torques", "set"), ("renewals", "renewal")]
)
def test_a_table_is_read_back_as_it_was(desk, what, head):
    answer = desk.get(f"/api/jobs/{HALF}/{what}.csv")
    assert answer.headers["content-type"].startswith("text/csv")
    rows = list(csv.reader(io.StringIO(answer.content.decode("utf-8-sig"))))
    assert rows[0][0] == head and len(rows) > 2
    assert len({len(row) for row in rows}) == 1
    short = desk.get(f"/api/jobs/{HALF}/{what}.csv", params={"customer": True}).content.decode()
    assert "Ben" not in short.replace("Bench", "")


def test_a_job_goes_out_as_a_zip_that_proves_itself_and_comes_in_elsewhere(desk, tmp_path):
    answer = desk.get(f"/api/jobs/{HALF}/bundle.zip")
    assert answer.headers["content-type"] == "application/zip"
    path = tmp_path / "job.zip"
    path.write_bytes(answer.content)
    names = zipfile.ZipFile(path).namelist()
    assert {"record.txt", "check_bundle.py", "checks.zip", "journal.jsonl"} <= set(names)
    with zipfile.ZipFile(path) as zipped:
        zipped.extractall(tmp_path / "out")
    done = subprocess.run(
        [sys.executable, "-I", tmp_path / "out" / "check_bundle.py"],
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stdout + done.stderr
    assert "computed anew by the check set that came along" in done.stdout
    other = shop.app_in(tmp_path / "other")
    with served(other) as address, httpx.Client(base_url=address, timeout=60, auth=Phones(other)) as client:
        files = {"bundle": ("job.zip", answer.content, "application/zip")}
        moved = client.post("/api/bundles", files=files)
        assert moved.status_code == 200, moved.text
        assert moved.json()["job"] == HALF
        assert got(client, "/api/board")["jobs"][0]["job"] == HALF
        spoiled = {"bundle": ("job.zip", answer.content[:-40], "application/zip")}
        refused = client.post("/api/bundles", files=spoiled)
        assert refused.status_code == 422 and refused.json()["detail"].startswith(("nothing", "/", "the"))


def test_a_customers_zip_names_nobody(desk):
    data = desk.get(f"/api/jobs/{CLEAN}/bundle.zip", params={"customer": True}).content
    zipped = zipfile.ZipFile(io.BytesIO(data))
    text = zipped.read("record.txt").decode()
    assert "record.pdf" in zipped.namelist() and not any(n.startswith("releases/") for n in zipped.namelist())
    assert not {"Ana", "Ben", "Ilse"} & set(text.replace(",", " ").replace(";", " ").split())


def test_layouts_and_the_print_scale(tmp_path):
    templates = SAMPLES.parent / "label_templates"
    app = create_app(Settings(data=tmp_path, layouts=(templates,), pin_cost=CHEAP))
    with served(app) as address, httpx.Client(base_url=address, timeout=60, auth=Phones(app)) as desk:
        look_at_layouts(desk)


def look_at_layouts(desk):
    layouts = {each["name"]: each for each in got(desk, "/api/label-layouts")}
    assert layouts["a4-3x8"]["places"] == 24 and layouts["a4-3x8"]["level"] in ("Q", "H")
    assert not any(each["mistakes"] for each in layouts.values())
    scale = desk.post("/api/label-layouts/scale", json={"measured_mm": 98.0}).json()
    assert scale["scale"] == pytest.approx(100 / 98)
    assert desk.post("/api/label-layouts/scale", json={"measured_mm": 60.0}).status_code == 422
    mat = next(name for name, each in layouts.items() if each["kind"] == "mat")
    assert desk.get(f"/api/label-layouts/{mat}/mat.pdf").content.startswith(b"%PDF")


def test_what_to_set_with_an_adapter(desk):
    found = got(desk, "/api/torque/adapter", wanted_nm=70, lever_mm=12, extension_mm=2)
    assert found["setting_nm"] == pytest.approx(60.0)
    assert found["svg"].startswith("<svg")
    behind = {"wanted_nm": 70, "lever_mm": 12, "extension_mm": 12, "angle_deg": 180}
    assert desk.get("/api/torque/adapter", params=behind).status_code == 422
