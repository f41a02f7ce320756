"""The commands that say what to do: next, start, undo, handover, match, and the demo's own walk."""

from __future__ import annotations

import json
import shutil
import sqlite3
from contextlib import closing
from dataclasses import replace
from pathlib import Path

import pytest

from lastbolt.actions.sample import STORIES
from lastbolt.cli import shell
from lastbolt.settings import read_settings

ROOT = Path(__file__).parents[1]
JOB = "dunlin-half-finished"


@pytest.fixture
def told(run):
    """The half-finished job of the sample, entered."""
    status, _, err = run("enter", JOB, ROOT / "samples" / "half_finished.jsonl")
    assert (status, err) == (0, "")
    return run


def test_verify_stops_with_status_1_and_names_the_bag(told):
    status, out, _ = told("verify", JOB)

    assert status == 1
    assert out.startswith(f"{JOB}, at the end of the record") and "8 things stop release." in out
    assert "1 piece is still in T-0108-A" in out


def test_a_clean_job_has_status_0_at_its_end(run):
    status, out, _ = run("replay", ROOT / "samples" / "clean.jsonl")

    assert status == 0
    assert out.count("Nothing on the list.\n") == 2


def test_next_says_one_big_thing_first(told):
    status, out, _ = told("next", JOB)

    assert status == 0
    assert out.splitlines()[0] == "Next: Close coolant filler: look inside, shut it."


def test_start_is_guarded_by_what_is_open_and_inside(told):
    status, out, _ = told("start", JOB)

    assert status == 1
    assert out.splitlines()[0] == "DO NOT START: 2 things to clear first."
    assert "Hands, hair, sleeves and people clear." in out


def test_undo_names_what_comes_nearest_to_a_slip(told):
    status, _, err = told("undo", JOB, "water neck bolt")

    assert status == 2
    assert err == (
        f"lastbolt: the job {JOB} has no set, part, connection or opening 'water neck bolt'; "
        "near it: water neck bolts, water neck, raw-water pump bolts\n"
    )


def test_the_handover_sheet_begins_with_the_danger(told):
    status, out, _ = told("handover", JOB)

    assert status == 0
    assert out.index("1. Danger now") < out.index("2. Half done") < out.index("6. Bags and trays")


def test_a_lone_bolt_is_offered_the_set_that_misses_one(told):
    photo = ROOT / "samples" / "photos" / "26-one-left-in-tray-108.jpg"
    status, out, _ = told("match", JOB, photo)

    assert status == 0
    assert "water neck bolts (M6x1x30)" in out and "An estimate" in out


def test_what_is_no_photo_has_no_home(told, tmp_path):
    (tmp_path / "text.jpg").write_text("no photo at all")
    status, _, err = told("match", JOB, tmp_path / "text.jpg")

    assert status == 2
    assert err == "lastbolt: The file is not a photo that can be read here; send a JPEG, PNG, WebP or HEIC.\n"


@pytest.fixture
def small_sample(tmp_path, monkeypatch):
    """The sample with every eighth of its photos: what the demo says of each is the same for all."""
    folder = tmp_path / "sample"
    shutil.copytree(ROOT / "samples" / "odd", folder / "odd")
    (folder / "photos").mkdir()
    for photo in sorted((ROOT / "samples" / "photos").glob("*.jpg"))[::8]:
        shutil.copy(photo, folder / "photos")
    for story in STORIES:
        shutil.copy(ROOT / "samples" / story, folder)
    there = {"samples": folder}
    monkeypatch.setattr(shell, "read_settings", lambda data=None: replace(read_settings(data), **there))


def test_the_demo_tells_the_sample_once(run, small_sample, tmp_path):
    folder = tmp_path / "demo"
    status, out, _ = run("demo", "--folder", folder, "--no-serve")

    assert status == 0
    assert (folder / "labels.pdf").read_bytes().startswith(b"%PDF")
    assert "wagtail-clean, at the end of the record" in out and "Nothing on the list." in out
    assert "cut-short.jpg: The photo is damaged or was cut off on its way; send it again." in out
    assert "no-picture.jpg: The file is not a photo" in out
    assert out.count("parts (an estimate)") + out.count("not counted") >= 7

    with closing(sqlite3.connect(folder / "lastbolt.sqlite")) as tables:
        counted = "SELECT job, COUNT(*) FROM entries WHERE device = 'photo reader' GROUP BY job ORDER BY job"
        assert tables.execute(counted).fetchall() == [(JOB, 4), ("wagtail-clean", 4)]

    again = run("demo", "--folder", folder, "--no-serve")

    assert again == (
        0,
        f"The sample lies in {folder}; delete that folder to begin anew.\n"
        "Sign in as Ilse (lead, PIN 7306), Ana (tech, PIN 4071), Nora (reader, PIN 5182); "
        "invented people, for this machine only.\n",
        "",
    )


def test_the_outlook_lists_sections_even_when_they_are_empty(told):
    status, out, _ = told("outlook", JOB)

    assert status == 0
    assert out.startswith("Time left: ") and "To order: nothing." in out and "Where to look first:" in out


def test_a_plan_of_a_past_job_is_entries_without_their_envelope(told):
    told("enter", "wagtail-clean", ROOT / "samples" / "clean.jsonl")
    status, out, _ = told("plan", "wagtail-clean", "--name", "cooling side")
    entries = [json.loads(line) for line in out.splitlines()]

    assert status == 0
    assert entries[0]["kind"] == "plan-adopted" and entries[0]["plan"] == "cooling side"
    assert not any({"id", "by", "at"} & entry.keys() for entry in entries)
    assert {"set-described", "access-said", "renewal-needed"} <= {entry["kind"] for entry in entries}


def test_a_sister_boat_is_compared_with_the_plan(told):
    told("enter", "wagtail-clean", ROOT / "samples" / "clean.jsonl")
    status, out, _ = told("plan", "wagtail-clean", "--against", JOB)

    assert (status, out) == (0, f"{JOB} is as the plan has it.\n")
