import json
from pathlib import Path

import httpx
import pytest
from tests.web import shop

from lastbolt.web.pocket_source import KeptPockets

SAMPLES = Path(__file__).resolve().parents[2] / "samples"
COVER, RAIL = "pump cover bolts", "rail bolts"


def pocket_of(client: httpx.Client, job: str = shop.JOB) -> dict:
    answer = client.get(f"/api/jobs/{job}/pocket")
    answer.raise_for_status()
    return answer.json()


def named(things: list[dict], field: str, name: str) -> dict:
    return next(each for each in things if each[field] == name)


def tell(client: httpx.Client, *acts: tuple[str, dict], job: str = "launch-9") -> None:
    opened = ("job-opened", {"machine": "Ferry tender, inboard", "title": "Gasket", "level": 3})
    lines = [shop.entry(kind, n, job=job, **said) for n, (kind, said) in enumerate((opened, *acts), start=1)]
    shop.send(client, lines).raise_for_status()


def test_the_pocket_of_a_half_finished_job_says_what_its_entries_say(filled):
    pocket = pocket_of(filled)
    cover = named(pocket["sets"], "set", COVER)
    assert (cover["n"], cover["type"], cover["part"]) == (6, "M6x1x16", "pump cover")
    assert [(h["hole"], h["level"]) for h in cover["holes"]] == [(n, "empty") for n in range(1, 7)]
    assert cover["lies_in"] == [{"container": "T0042E", "place": "bench by the window", "n": 6}]
    assert cover["first"] == ["pump cover"]
    part = named(pocket["parts"], "part", "pump cover")
    assert (part["on"], part["place"], part["sets"]) == (False, "shelf 2", [COVER])
    mouth = named(pocket["openings"], "opening", "pump housing")
    assert (mouth["mouths"], mouth["covers"], mouth["bare"]) == (1, 1, False)
    battery = named(pocket["isolations"], "isolation", "battery")
    assert (battery["holder"], battery["proven"]["by"], battery["removed"]) == ("Ana", "Ana", None)
    tray = named(pocket["containers"], "container", "T0042E")
    assert (tray["labels"], tray["shown"], tray["n"]) == (["T0042E"], "T-0042-E", 6)
    assert {"code": "T0042E", "thing": "T0042E", "retired": False} in pocket["labels"]
    assert [(p["name"], p["signed_on"]) for p in pocket["people"]] == [("Ana", True)]
    assert pocket["next"]["big"] is not None
    assert pocket["start"]["headline"].startswith("DO NOT START")


def test_the_head_is_that_of_the_journal(filled):
    newest = filled.get(f"/api/jobs/{shop.JOB}/entries", params={"limit": 1}).json()["lines"][0]
    head = pocket_of(filled)["head"]
    assert (head["position"], head["hash"]) == (newest["position"], newest["hash"])
    assert head["taken"][f"phone of {shop.JOB}"] == len(shop.half_finished())


def test_a_value_comes_with_its_page_its_order_and_what_each_hole_owes(client):
    tell(
        client,
        ("set-described", {"set": RAIL, "n": 4, "type": "M8x1.25x30", "part": "rail", "gasketed": True}),
        ("spec-entered", {
            "set": RAIL, "min_nm": 22, "max_nm": 26, "as_written": "22-26 N·m", "stage_count": 2,
            "stages": [{"min_nm": 10, "max_nm": 12}, {"min_nm": 22, "max_nm": 26}], "order": [1, 3, 2, 4],
            "source": "workshop book (invented)", "revision": "3", "page": "41", "condition": "oiled",
        }),
        ("renewal-needed", {"renewal": "rail gasket", "n": 1, "under": "rail"}),
        ("wrench-described", {"wrench": "W1", "min_nm": 5, "max_nm": 25}),
        ("access-said", {"part": "shroud", "element": RAIL, "need": "final"}),
        ("part-removed", {"part": "shroud"}),
        ("fasteners-removed", {"set": RAIL, "n": 4, "to": "B1"}),
        ("part-removed", {"part": "rail"}),
        ("part-fitted", {"part": "rail"}),
        ("fasteners-fitted", {"set": RAIL, "n": 3, "source": "B1"}),
        ("fasteners-tightened", {"set": RAIL, "holes": [1], "stage": 1, "value_nm": 11, "wrench": "W1"}),
    )  # fmt: skip
    pocket = pocket_of(client, "launch-9")
    rail = named(pocket["sets"], "set", RAIL)
    assert [h["level"] for h in rail["holes"]] == ["snug", "placed", "placed", "empty"]
    assert [h["next_stage"] for h in rail["holes"]] == [2, 1, 1, 1]
    torque = rail["torque"]
    assert (torque["as_written"], torque["page"], torque["revision"]) == ("22-26 N·m", "41", "3")
    assert (torque["order"], torque["is_order_suggested"]) == ([1, 3, 2, 4], False)
    assert [(s["low_nm"], s["high_nm"]) for s in torque["stages"]] == [(10, 12), (22, 26)]
    assert rail["lies_over"] == [{"part": "shroud", "need": "final", "on": False, "route": None}]
    assert rail["bring"] == ["1 x rail gasket"]
    assert any(RAIL in owed for owed in named(pocket["parts"], "part", "shroud")["owed"])
    wrench = named(pocket["wrenches"], "wrench", "W1")
    assert (wrench["min_nm"], wrench["max_nm"], wrench["calibrated"], wrench["is_suspect"]) == (
        5, 25, None, False,
    )  # fmt: skip


def test_sets_that_a_hand_takes_for_one_another_name_each_other(client):
    kinds = {"short": "M8x1.25x25", "long": "M8x1.25x30", "thin": "M6x1x30", "far": "M8x1.25x90"}
    tell(client, *(("set-described", {"set": name, "n": 2, "type": kind}) for name, kind in kinds.items()))
    sets = {each["set"]: each["look_alikes"] for each in pocket_of(client, "launch-9")["sets"]}
    assert sets == {"short": ["long"], "long": ["short"], "thin": [], "far": []}


def test_of_two_pins_for_one_hole_the_newer_stands_and_a_voided_one_is_gone(client):
    photo = "ab" * 32
    pin = {"photo": photo, "element": RAIL}
    tell(
        client,
        ("photo-added", {"photo": photo, "sha256": photo, "shape": "before"}),
        ("photo-pinned", {**pin, "hole": 1, "x": 0.1, "y": 0.2}),
        ("photo-pinned", {**pin, "hole": 2, "x": 0.3, "y": 0.4}),
        ("photo-pinned", {**pin, "hole": 1, "x": 0.5, "y": 0.6}),
    )
    lines = client.get("/api/jobs/launch-9/entries").json()["lines"]
    second = next(line["entry"]["id"] for line in lines if line["entry"].get("hole") == 2)
    voided = shop.entry("entry-voided", 6, job="launch-9", entry=second, reason="wrong hole")
    shop.send(client, [voided]).raise_for_status()
    (found,) = pocket_of(client, "launch-9")["photos"]
    assert [(p["hole"], p["x"], p["y"]) for p in found["pins"]] == [(1, 0.5, 0.6)]
    assert found["elements"] == [RAIL]


def test_labels_of_other_open_jobs_are_known_and_those_on_parts_are_no_bags(client):
    shop.fill(client)
    label = {"label": "P0001S", "container": "rail"}
    tell(client, ("label-bound", label), ("label-retired", {"label": "B0002Q"}))
    pocket = pocket_of(client, "launch-9")
    assert pocket["elsewhere"] == [{"code": "T0042E", "thing": "T0042E", "job": shop.JOB}]
    assert pocket["containers"] == []
    assert {"code": "P0001S", "thing": "rail", "retired": False} in pocket["labels"]
    assert {"code": "B0002Q", "thing": "", "retired": True} in pocket["labels"]


@pytest.mark.parametrize("cut", [150, 250, None])
def test_on_the_sample_job_the_pocket_agrees_with_the_other_answers(client, cut):
    """The other answers are made by other programs of ours; what each says is held to files elsewhere."""
    lines = [json.loads(line) for line in (SAMPLES / "half_finished.jsonl").read_text().splitlines()][:cut]
    job = lines[0]["job"]
    shop.send(client, lines).raise_for_status()
    pocket = pocket_of(client, job)
    containers = client.get(f"/api/jobs/{job}/containers").json()
    lying = {each["container"]: each["contents"] for each in containers if each["contents"]}
    assert {each["container"]: each["contents"] for each in pocket["containers"] if each["n"]} == lying
    findings = client.get(f"/api/jobs/{job}/findings").json()
    assert [f["key"] for f in pocket["findings"]] == [f["key"] for f in findings["findings"]]
    sheet = client.get(f"/api/jobs/{job}/torque").json()
    owed = {row["set"]: row["open_holes"] for row in sheet["rows"]}
    for each in pocket["sets"]:
        if each["torque"] and not each["torque"]["hand_tight"]:
            assert sorted(h["hole"] for h in each["holes"] if h["next_stage"]) == sorted(owed[each["set"]])
    photos = client.get(f"/api/jobs/{job}/photos").json()
    assert [p["photo"] for p in pocket["photos"]] == [p["photo"] for p in photos]


def test_a_job_that_is_not_here_has_no_pocket(client):
    answer = client.get("/api/jobs/nowhere/pocket")
    assert answer.status_code == 404
    assert "nowhere" in answer.json()["detail"]


def test_a_pocket_that_is_still_the_newest_is_not_sent_again(filled):
    """RFC 9110, 13.1.2 (If-None-Match) and 15.4.5 (304): the same mark, no body; any entry makes another mark."""
    address = f"/api/jobs/{shop.JOB}/pocket"
    tag = filled.get(address).headers["etag"]
    again = filled.get(address, headers={"if-none-match": tag})
    assert (again.status_code, again.content, again.headers["etag"]) == (304, b"", tag)
    tell(filled, ("label-bound", {"label": "B0001P", "container": "B0001P", "container_kind": "bag"}))
    changed = filled.get(address, headers={"if-none-match": tag})
    assert changed.status_code == 200 and changed.headers["etag"] != tag
    assert any(each["code"] == "B0001P" for each in changed.json()["elsewhere"])
    assert filled.get("/api/jobs/nowhere/pocket", headers={"if-none-match": tag}).status_code == 404


def test_pockets_asked_for_again_are_not_made_again_and_old_ones_are_let_go():
    made: list[str] = []
    kept = KeptPockets(most=2)
    for mark in ("a", "b", "a", "c", "b", "a"):
        assert kept.said(mark, lambda: made.append(mark) or mark.encode()) == mark.encode()  # noqa: B023
    assert made == ["a", "b", "c", "b", "a"]
