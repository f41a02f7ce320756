"""The sample job holds together: entries, photos, labels and the verdicts that were written by hand."""

from __future__ import annotations

import hashlib
import json
import subprocess
import sys
from collections import Counter
from pathlib import Path

import cv2
import pytest
import zxingcpp
from PIL import Image
from stdnum.iso7064 import mod_37_36

from lastbolt import label_code
from lastbolt.actions.verify import replay_lines
from lastbolt.journal import AnyEntry, entry_from, raws_from_lines
from lastbolt.report.verdict import live_findings

SAMPLES = Path(__file__).resolve().parents[2] / "samples"
PHOTOS = SAMPLES / "photos"
VARIANTS = ("clean", "half_finished")
MANIFEST = json.loads((PHOTOS / "manifest.json").read_text(encoding="utf-8"))


def lines(variant: str) -> list[str]:
    return (SAMPLES / f"{variant}.jsonl").read_text(encoding="utf-8").splitlines()


def entries(variant: str) -> list[AnyEntry]:
    return [entry_from(raw) for raw in raws_from_lines(lines(variant))]


@pytest.mark.parametrize("variant", VARIANTS)
def test_every_line_is_an_entry_of_one_job_without_unknown_fields(variant):
    found = entries(variant)

    assert len({entry.job for entry in found}) == 1
    assert [entry.model_extra for entry in found if entry.model_extra] == []


@pytest.mark.parametrize("variant", VARIANTS)
def test_each_device_counts_without_gaps_and_its_clock_never_runs_back(variant):
    by_device: dict[str, list[AnyEntry]] = {}
    for entry in entries(variant):
        by_device.setdefault(entry.device, []).append(entry)

    assert sorted(by_device) == ["desk", "phone Ana", "phone Ben"]
    for own in by_device.values():
        own.sort(key=lambda entry: entry.seq)
        assert [entry.seq for entry in own] == list(range(1, len(own) + 1))
        assert [entry.at for entry in own] == sorted(entry.at for entry in own)


@pytest.mark.parametrize("variant", VARIANTS)
def test_ids_carry_the_time_of_their_entry(variant):
    found = entries(variant)

    assert len({entry.id for entry in found}) == len(found)
    assert all(entry.id.int >> 80 == int(entry.at.timestamp() * 1000) for entry in found)


def test_the_two_variants_share_no_id():
    clean, half = (({entry.id for entry in entries(variant)}) for variant in VARIANTS)

    assert not clean & half


@pytest.mark.parametrize("variant", VARIANTS)
def test_photo_entries_say_what_the_files_hold(variant):
    by_hash = {row["sha256"]: row for row in MANIFEST.values()}
    added = [entry for entry in entries(variant) if entry.kind == "photo-added"]

    assert len(added) >= 25
    for entry in added:
        row = by_hash[entry.photo]
        assert entry.sha256 == entry.photo
        assert (entry.width, entry.height) == (row["width"], row["height"])
        assert list(entry.labels) == row["labels"]
        assert entry.container in ([there["container"] for there in row["containers"]] or [None])
        assert entry.element == row["element"] if not row["containers"] else entry.shape == "tray"
        assert entry.at.isoformat() == row["taken_at"]


def test_every_photo_stands_in_one_of_the_journals():
    named = {entry.photo for variant in VARIANTS for entry in entries(variant) if entry.kind == "photo-added"}

    assert named == {row["sha256"] for row in MANIFEST.values()}


def test_the_manifest_lists_each_file_with_its_hash_and_the_folder_stays_small():
    files = sorted(path.name for path in PHOTOS.glob("*.jpg"))

    assert files == sorted(MANIFEST)
    assert len(files) >= 26
    assert sum((PHOTOS / name).stat().st_size for name in files) <= 7_000_000
    for name in files:
        assert hashlib.sha256((PHOTOS / name).read_bytes()).hexdigest() == MANIFEST[name]["sha256"]


def test_photos_bear_their_time_and_no_make():
    for name, row in MANIFEST.items():
        with Image.open(PHOTOS / name) as picture:
            exif = picture.getexif()
            inner = exif.get_ifd(0x8769)
        taken = row["taken_at"]
        assert inner[0x9003] == taken[:19].replace("-", ":").replace("T", " ")
        assert inner[0x9011] == taken[19:] == "+02:00"
        assert 0x010F not in exif and 0x0110 not in exif


@pytest.mark.parametrize("name", sorted(MANIFEST))
def test_labels_read_back_as_the_manifest_says(name):
    read = zxingcpp.read_barcodes(cv2.imread(str(PHOTOS / name)), formats=zxingcpp.BarcodeFormat.QRCode)

    assert sorted(found.text for found in read) == sorted(MANIFEST[name]["labels"])


def test_label_codes_carry_the_check_character_of_python_stdnum():
    for row in MANIFEST.values():
        for there, text in zip(row["containers"], row["labels"], strict=True):
            assert mod_37_36.is_valid(there["label"])
            assert label_code.shown(there["label"]) == text
            assert there["container"] == there["label"]


@pytest.mark.parametrize("variant", VARIANTS)
def test_each_place_is_photographed_before_and_after_with_its_holes_marked(variant):
    told = entries(variant)
    shots = {
        shape: {
            entry.element: entry for entry in told if entry.kind == "photo-added" and entry.shape == shape
        }
        for shape in ("before", "after")
    }
    n_of = {entry.set: entry.n for entry in told if entry.kind == "set-described"}
    marked = Counter((entry.photo, entry.element) for entry in told if entry.kind == "photo-pinned")

    assert len(shots["before"]) >= 9
    assert shots["before"].keys() == shots["after"].keys()
    for shot in (*shots["before"].values(), *shots["after"].values()):
        assert marked[shot.photo, shot.element] == n_of.get(shot.element, 1)


def test_what_the_two_jobs_left_differently_looks_different_and_the_rest_is_one_picture():
    after = [
        {e.element: e.photo for e in entries(variant) if e.kind == "photo-added" and e.shape == "after"}
        for variant in VARIANTS
    ]
    other = {element for element, photo in after[0].items() if after[1][element] != photo}

    assert other == {
        "water neck bolts", "hose strap bolts", "coolant filler", "blue rag", "temperature sender plug",
    }  # fmt: skip


def test_a_place_drawn_anew_is_the_committed_picture(tmp_path):
    """Bytes depend on the JPEG library; what is seen does not."""
    name = "40-after-water-neck.jpg"
    subprocess.run(
        [sys.executable, "-B", str(SAMPLES / "draw_views.py"), "--into", str(tmp_path), "--only", name],
        check=True,
    )
    drawn, kept = (cv2.imread(str(folder / name)).astype(float) for folder in (tmp_path, PHOTOS))

    assert abs(drawn - kept).mean() < 2


@pytest.mark.parametrize("variant", VARIANTS)
def test_a_photo_taken_while_bagging_shows_what_was_bagged(variant):
    bagged: dict[tuple[str, str], int] = {}
    for entry in entries(variant):
        if entry.kind == "fasteners-removed":
            for photo in entry.photos:
                bagged[photo, entry.to] = bagged.get((photo, entry.to), 0) + entry.bagged
    shown = {
        (row["sha256"], there["container"]): there["count"]
        for row in MANIFEST.values()
        if row["shot"].startswith("bag-")
        for there in row["containers"]
    }

    assert bagged == shown


@pytest.mark.parametrize("variant", VARIANTS)
def test_a_tray_photographed_when_cleared_is_empty_in_the_picture(variant):
    counts = {row["sha256"]: [there["count"] for there in row["containers"]] for row in MANIFEST.values()}
    cleared = [
        photo for entry in entries(variant) if entry.kind == "container-emptied" for photo in entry.photos
    ]

    assert len(cleared) >= 6
    assert all(counts[photo] == [0] for photo in cleared)


def test_the_builder_writes_the_committed_journals_byte_for_byte(tmp_path):
    builder = SAMPLES / "build_sample.py"
    subprocess.run([sys.executable, "-B", str(builder), "--into", str(tmp_path)], check=True)

    for variant in VARIANTS:
        name = f"{variant}.jsonl"
        assert (tmp_path / name).read_bytes() == (SAMPLES / name).read_bytes()


@pytest.mark.parametrize("variant", VARIANTS)
def test_the_verdicts_are_those_written_by_hand(variant):
    expected = json.loads((SAMPLES / f"expected_{variant}.json").read_text(encoding="utf-8"))

    assert verdicts(lines(variant)) == sorted_findings(expected)


@pytest.mark.parametrize("variant", VARIANTS)
def test_the_verdicts_do_not_depend_on_the_order_of_arrival(variant):
    backwards = list(reversed(lines(variant)))

    assert verdicts(backwards) == verdicts(lines(variant))


@pytest.mark.parametrize("variant", VARIANTS)
def test_the_verdicts_are_the_same_with_both_journals_in_one_store(variant):
    both = [line for name in VARIANTS for line in lines(name)]

    assert verdicts(both, entries(variant)[0].job) == verdicts(lines(variant))


def test_the_clean_journal_brings_up_nothing_on_the_way():
    assert live_findings(entries("clean"), entries("clean")[0].job) == []


def verdicts(journal: list[str], job: str | None = None) -> dict[str, object]:
    found = [
        {
            "at": verdict.at,
            "findings": [
                {"check": f.check, "severity": f.severity.value, "waivable": f.waivable, "subject": f.subject}
                for f in verdict.findings
            ],
            "not_checked": list(verdict.not_checked),
        }
        for verdict in replay_lines(journal, job)
    ]
    return sorted_findings({"verdicts": found})


def sorted_findings(document: dict[str, object]) -> dict[str, object]:
    """Bring findings into one order: the lists are compared as sets, duplicates kept."""
    for verdict in document["verdicts"]:
        verdict["findings"].sort(key=lambda f: (f["check"], f["subject"]))
    return document


@pytest.mark.parametrize("name", ["no-label.jpg", "stranger.jpg"])
def test_odd_pictures_hold_none_of_our_labels(name):
    read = zxingcpp.read_barcodes(cv2.imread(str(SAMPLES / "odd" / name)))

    assert [label_code.read(found.text) for found in read] in ([], [None])


def test_the_cut_picture_is_cut_and_the_text_is_no_picture():
    cut = (SAMPLES / "odd" / "cut-short.jpg").read_bytes()

    assert cut.startswith(b"\xff\xd8") and not cut.endswith(b"\xff\xd9")
    with pytest.raises(OSError, match="truncated"), Image.open(SAMPLES / "odd" / "cut-short.jpg") as picture:
        picture.load()
    with pytest.raises(OSError, match="cannot identify"):
        Image.open(SAMPLES / "odd" / "no-picture.jpg")
