"""The wheel, installed into a clean environment away from the checkout, prints a sheet and serves the page."""

from __future__ import annotations

import os
import re
import subprocess
import sys
import urllib.request
import venv
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]


@pytest.fixture(scope="module")
def command(tmp_path_factory):
    """The installed command of a wheel built from this checkout, in an environment of its own."""
    folder = tmp_path_factory.mktemp("wheel")
    pip = [sys.executable, "-m", "pip", "--disable-pip-version-check", "-q"]
    subprocess.run([*pip, "wheel", "--no-deps", "-w", folder, ROOT], check=True, timeout=300)
    (wheel,) = folder.glob("lastbolt-*.whl")
    venv.create(folder / "clean", with_pip=True)
    python = folder / "clean" / "bin" / "python"
    subprocess.run([python, *pip[1:], "install", wheel], check=True, timeout=300)
    return folder / "clean" / "bin" / "lastbolt"


@pytest.fixture
def at_home(tmp_path):
    """An environment that knows nothing of the checkout."""
    return {"PATH": "/usr/bin:/bin", "HOME": str(tmp_path), "LASTBOLT_DATA": str(tmp_path / "shop")}


def test_prints_a_sheet_from_the_layouts_inside_it(command, at_home, tmp_path):
    words = [command, "labels", "--sheet", "a4-3x8", "--count", "24", "-o", "labels.pdf"]
    done = subprocess.run(
        words, env=at_home, cwd=tmp_path, capture_output=True, text=True, check=False, timeout=60
    )

    assert (done.returncode, done.stdout) == (0, "")
    assert done.stderr.startswith("24 labels, T-0001-") and (tmp_path / "labels.pdf").stat().st_size > 5000


def test_prints_german_labels_from_the_words_inside_it(command, at_home, tmp_path):
    words = [command, "labels", "--sheet", "a4-3x8", "--count", "1", "--language", "de", "-o", "labels.pdf"]
    subprocess.run(words, env=at_home, cwd=tmp_path, capture_output=True, check=True, timeout=60)
    read = ["pdftotext", tmp_path / "labels.pdf", "-"]

    assert "Schale" in subprocess.run(read, capture_output=True, text=True, check=True).stdout


def test_reads_a_photo_with_the_weights_inside_it(command, at_home, tmp_path):
    photo = ROOT / "samples" / "photos" / "05-linkage-nuts.jpg"
    done = subprocess.run(
        [command, "look", photo],
        env=at_home,
        cwd=tmp_path,
        capture_output=True,
        text=True,
        check=False,
        timeout=60,
    )

    assert done.returncode == 0
    assert "labels: T0114E" in done.stdout and "without the learned reader" not in done.stdout


def test_serves_the_page(command, at_home, tmp_path):
    words = [command, "serve", "--port", "0"]
    with subprocess.Popen(words, env=at_home, cwd=tmp_path, stdout=subprocess.PIPE, text=True) as server:
        try:
            assert server.stdout is not None
            address = re.search(r"http://[0-9.:]+", server.stdout.readline())
            assert address
            with urllib.request.urlopen(address[0], timeout=20) as answer:
                page = answer.read().decode()
            script = re.search(r'src="(/[^"]+\.js)"', page)
            assert script
            with urllib.request.urlopen(address[0] + script[1], timeout=20) as answer:
                assert len(answer.read()) > 10_000
        finally:
            server.terminate()


def test_has_no_sample_and_says_where_it_is(command, at_home, tmp_path):
    done = subprocess.run(
        [command, "demo"], env=at_home, cwd=tmp_path, capture_output=True, text=True, check=False
    )

    assert done.returncode == 2
    assert "it comes with the project's own folder" in done.stderr
    assert not os.path.exists(tmp_path / ".lastbolt-demo" / "told")
