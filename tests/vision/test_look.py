"""Whole photos with recorded truth: rendered trays at 1200 x 900, path-traced, never used in training."""

import io
import json
from dataclasses import replace
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from PIL import Image

from lastbolt.vision.count import count_classical
from lastbolt.vision.empty import is_empty
from lastbolt.vision.look import look, look_at
from lastbolt.vision.outcome import Look, Photo
from lastbolt.vision.pixels import read_photo

PHOTOS = sorted((Path(__file__).parent / "photos").glob("*.jpg"))


def _truth(path: Path) -> dict[str, Any]:
    return json.loads(path.with_suffix(".json").read_text())


def _read(data: bytes) -> Look:
    seen = look(data, lambda text: text.rsplit("/", 1)[-1])
    assert isinstance(seen, Look)
    return seen


@pytest.fixture(scope="module")
def looks() -> dict[Path, Look]:
    return {path: _read(path.read_bytes()) for path in PHOTOS}


@pytest.mark.parametrize("path", PHOTOS, ids=lambda p: p.stem)
def test_parts_are_counted_and_labels_read(path: Path, looks: dict[Path, Look]) -> None:
    seen, truth = looks[path], _truth(path)
    assert seen.count.count == truth["count"] == len(seen.parts)
    assert seen.count.low <= truth["count"] <= seen.count.high
    assert sorted(mark.text for mark in seen.labels) == sorted(label["text"] for label in truth["labels"])
    for mark in seen.labels:
        corners = next(label["corners"] for label in truth["labels"] if label["text"] == mark.text)
        assert mark.px_per_module is not None
        assert np.abs(mark.corners - corners).max() < max(
            0.6, 0.5 * mark.px_per_module
        )  # pixels; half a module


@pytest.mark.parametrize("path", PHOTOS, ids=lambda p: p.stem)
def test_a_tray_is_called_empty_only_when_it_is(path: Path, looks: dict[Path, Look]) -> None:
    assert is_empty(looks[path]) == ("no" if _truth(path)["count"] else "yes")


def test_lying_bolts_are_measured_within_what_is_said(looks: dict[Path, Look]) -> None:
    misses, inside = [], []
    for path, seen in looks.items():
        for part in _truth(path)["parts"]:
            middles = [(p.outline.max(0) + p.outline.min(0)) / 2 for p in seen.parts]
            near = seen.parts[int(np.argmin([np.linalg.norm(m - part["middle"]) for m in middles]))]
            if part["length_mm"] and not part["standing"] and near.length_mm and near.plus_minus_mm:
                misses.append(abs(near.length_mm - part["length_mm"]))
                inside.append(misses[-1] <= near.plus_minus_mm)
    assert len(misses) > 15
    assert np.median(misses) < 1.2  # mm, at 1200 px a photo
    assert np.mean(inside) > 0.75  # two standard deviations are said


def test_json_has_exactly_the_agreed_fields(looks: dict[Path, Look]) -> None:
    seen = looks[next(path for path in PHOTOS if "steel_008" in path.stem)]
    line = json.loads(json.dumps(seen.to_json_dict("a.jpg")))
    assert list(line) == ["file", "size", "labels", "parts", "count", "unsure"]
    assert line["size"] == [1200, 900]
    assert list(line["labels"][0]) == ["text", "code", "corners"]
    assert line["labels"][0]["code"] == line["labels"][0]["text"][-5:]
    fields = ["kind", "outline", "label", "length_mm", "head_mm", "shank_mm", "thread", "confidence"]
    assert all(list(part) == fields for part in line["parts"])
    assert list(line["count"]) == ["low", "count", "high"]


def test_a_turned_photo_gives_the_same_count() -> None:
    path = next(p for p in PHOTOS if "steel_008" in p.stem)
    with Image.open(path) as picture:
        out = io.BytesIO()
        picture.transpose(Image.Transpose.ROTATE_180).save(out, "JPEG", quality=92)
    assert _read(out.getvalue()).count.count == _truth(path)["count"]


def test_a_dimmed_photo_gives_the_same_count() -> None:
    path = next(p for p in PHOTOS if "blue_plastic_014" in p.stem)
    with Image.open(path) as picture:
        dim = Image.fromarray((np.asarray(picture) * 0.6).astype(np.uint8))
    out = io.BytesIO()
    dim.save(out, "PNG")
    assert _read(out.getvalue()).count.count == _truth(path)["count"]


def test_a_photo_that_cannot_be_read_is_refused() -> None:
    assert not look(b"no photo", lambda text: None)


def test_the_baseline_counts_separate_discs_on_a_plain_floor() -> None:
    rows, cols = np.mgrid[0:600, 0:800]
    floor = 150 + 20 * np.sin(rows / 200) + np.random.default_rng(2).normal(0, 2, rows.shape)
    for row, col in ((150, 150), (150, 400), (400, 250), (420, 600), (200, 650)):
        floor[np.hypot(rows - row, cols - col) < 28] = 40
    rgb = np.stack([floor.clip(0, 255).astype(np.uint8)] * 3, axis=-1)
    counted = count_classical(rgb, 0.25, [])
    assert counted.count.count == 5
    assert counted.method == "classical-1"
    assert counted.unsure


def test_the_wide_lens_is_said_and_widens_the_sizes_far_from_the_middle() -> None:
    photo = read_photo(next(path for path in PHOTOS if "steel_008" in path.stem).read_bytes())
    assert isinstance(photo, Photo)
    seen = [
        look_at(Photo(photo.image, replace(photo.facts, focal_35mm=focal)), lambda text: None)
        for focal in (26.0, 18.0)
    ]
    assert ["wide lens" in " ".join(one.unsure) for one in seen] == [False, True]
    said = [sum(part.plus_minus_mm or 0.0 for part in one.parts) for one in seen]
    assert said[0] < said[1]
