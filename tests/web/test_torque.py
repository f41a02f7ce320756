import pytest
from tests.web.shop import entry, send

JOB = "launch-9"
SOURCE = {"source": "launch engine manual", "revision": "3", "page": "41"}


def lid_half_done() -> list[dict]:
    """An invented lid of four: two bolts pulled, two only in; a wrench that suits and one that does not."""
    return [
        entry("job-opened", 1, job=JOB, machine="Launch engine", title="Lid", level=3),
        entry("wrench-described", 2, job=JOB, wrench="small wrench", min_nm=2, max_nm=10),
        entry("wrench-described", 3, job=JOB, wrench="large wrench", min_nm=20, max_nm=100),
        entry(
            "wrench-calibrated",
            4,
            job=JOB,
            wrench="large wrench",
            calibrated_on="2026-01-10",
            due="2090-01-10T00:00:00+00:00",
        ),
        entry("set-described", 5, job=JOB, set="lid bolts", n=4, type="M8x1.25x30", part="lid"),
        entry(
            "spec-entered",
            6,
            job=JOB,
            set="lid bolts",
            min_nm=20,
            max_nm=25,
            as_written="20-25 N·m",
            order=[1, 3, 2, 4],
            **SOURCE,
        ),
        entry("fasteners-removed", 7, job=JOB, set="lid bolts", n=4, to="B1"),
        entry("fasteners-fitted", 8, job=JOB, set="lid bolts", n=4, source="B1"),
        entry(
            "fasteners-tightened",
            9,
            job=JOB,
            set="lid bolts",
            holes=[1, 3],
            value_nm=22,
            wrench="large wrench",
        ),
    ]


def sheet(client) -> dict:
    send(client, lid_half_done()).raise_for_status()
    return client.get(f"/api/jobs/{JOB}/torque").json()


def test_the_sheet_tells_what_is_asked_pulled_and_open(client):
    found = sheet(client)
    (row,) = found["rows"]
    assert (row["set"], row["as_written"], row["exact"]) == ("lid bolts", "20-25 N·m", "20–25 N·m")
    assert row["source"] == "launch engine manual, edition 3, page 41"
    assert row["open_holes"] == [2, 4] == [h["hole"] for h in row["holes"][:2]]
    assert row["holes"][2]["pulls"][0]["said"] == "reached 22 N·m (wrench ± 0.88 N·m)"
    assert [caution for caution in found["cautions"] if "maker's manual" in caution] == found["cautions"]


def test_each_wrench_comes_with_what_to_set_or_why_not(client):
    suits = sheet(client)["rows"][0]["stages"][0]["wrenches"]
    assert tuple(suits[0][name] for name in ("wrench", "suits", "setting_nm")) == ("large wrench", True, 22.5)
    assert "above the range of wrench small wrench" in suits[1]["objections"][0]


def test_the_drawing_needs_no_style_and_no_script(client):
    drawing = sheet(client)["rows"][0]["drawing"]
    assert drawing["svg"].startswith("<svg ") and drawing["title"] == "Tightening order: 2 of 4 done"
    assert not any(word in drawing["svg"] for word in ("style", "script", "href", "onload"))


def test_a_job_without_values_has_an_empty_sheet_and_an_unknown_one_is_said_to_be_missing(client):
    send(client, lid_half_done()[:1])
    assert client.get(f"/api/jobs/{JOB}/torque").json()["rows"] == []
    missing = client.get("/api/jobs/nowhere/torque")
    assert (missing.status_code, "nowhere" in missing.json()["detail"]) == (404, True)


def test_a_torque_as_typed_gives_the_fields_of_an_entry(client):
    found = client.post("/api/torque/read", json={"text": "10-11 N·m / 7-8 lbf·ft"}).json()
    assert [each["unit"] for each in found["quantities"]] == ["N·m", "lbf·ft"]
    assert found["fields"] == {
        "as_written": "10-11 N·m / 7-8 lbf·ft",
        "unit": "N·m",
        "min_nm": 10.0,
        "max_nm": 11.0,
    }
    assert found["warnings"] == []
    made = entry("spec-entered", 2, job=JOB, set="lid bolts", **found["fields"])
    assert send(client, [*lid_half_done()[:1], made]).status_code == 200


def test_a_thread_brings_a_warning_and_leaves_the_fields_alone(client):
    plain = client.post("/api/torque/read", json={"text": "100-110 Nm"}).json()
    odd = client.post("/api/torque/read", json={"text": "100-110 Nm", "thread": "M6", "class": "8.8"}).json()
    assert "cannot be right for M6 8.8" in odd["warnings"][0]
    assert odd["fields"] == plain["fields"]


@pytest.mark.parametrize(
    ("sent", "said"),
    [
        ({"text": "35"}, "has no unit"),
        ({"text": "9000 Nm"}, "lies outside"),
        ({"text": "x" * 501}, "at most 500"),
        ({"words": "35 Nm"}, "text"),
        ({"text": 35}, "text"),
    ],
)
def test_what_cannot_be_read_is_refused_in_one_sentence(client, sent, said):
    answer = client.post("/api/torque/read", json=sent)
    assert (answer.status_code, answer.headers["content-type"]) == (422, "application/problem+json")
    assert said in answer.json()["detail"]
