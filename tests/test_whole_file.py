"""A file is there whole or not at all: whoever writes one, and wherever it stops."""

from __future__ import annotations

import os
import stat
import subprocess
import sys
from pathlib import Path

import pytest

from lastbolt.whole_file import ANYBODY_READS, HALF, whole_file

WRITERS = {
    "a photo": "from lastbolt.store.photo_files import PhotoFiles; PhotoFiles(folder).put(b'picture')",
    "the signing key": "from lastbolt.keys.signing import signing_key; signing_key(folder)",
    "the keys of a backup": """
from lastbolt.store.backup_keys import copy_keys
(folder.parent / "shop" / "keys").mkdir(parents=True, exist_ok=True)
(folder.parent / "shop" / "keys" / "signing.pem").write_bytes(b"key")
copy_keys(folder.parent / "shop", folder)""",
    "the shop's authority": """
from datetime import UTC, datetime
from lastbolt.keys.authority import served_with
served_with(folder, ["shop.local"], datetime(2026, 3, 2, tzinfo=UTC))""",
    "an archive": """
from lastbolt.actions.archive import new_archive
with new_archive(folder / "job.zip"): pass""",
}
"""All that writes a file whole."""
DIES = "os.replace = os.link = lambda *_: os._exit(9)"
"""The machine stops when the file is written and has no name yet."""


def run(folder: Path, writer: str, before: str = "") -> int:
    code = f"import os\nfrom pathlib import Path\nfolder = Path({str(folder)!r})\n{before}\n{WRITERS[writer]}"
    return subprocess.run([sys.executable, "-c", code], check=False).returncode


def files_in(folder: Path) -> tuple[list[Path], list[Path]]:
    """Give the files that are whole, and the halves."""
    files = [path for path in folder.rglob("*") if path.is_file()]
    halves = [path for path in files if path.name.startswith(HALF)]
    return [path for path in files if path not in halves], halves


@pytest.mark.parametrize("writer", WRITERS)
def test_a_crash_before_the_name_leaves_no_file_and_the_next_try_makes_it(
    writer: str, tmp_path: Path
) -> None:
    folder = tmp_path / "place"
    folder.mkdir()

    assert run(folder, writer, DIES) == 9
    whole, halves = files_in(folder)
    assert (whole, len(halves)) == ([], 1)

    assert run(folder, writer) == 0
    assert files_in(folder)[0] != []


def test_what_stands_there_is_kept_when_the_writing_stops(tmp_path: Path) -> None:
    path = tmp_path / "key"
    path.write_bytes(b"old")

    with pytest.raises(RuntimeError), whole_file(path) as file:
        file.write(b"ne")
        raise RuntimeError

    assert path.read_bytes() == b"old"
    assert list(tmp_path.iterdir()) == [path]


def test_what_stands_there_may_stay_and_else_gives_way(tmp_path: Path) -> None:
    path = tmp_path / "key"
    for content in (b"first", b"second"):
        with whole_file(path, stays=True) as file:
            file.write(content)
    assert path.read_bytes() == b"first"

    with whole_file(path, ANYBODY_READS) as file:
        file.write(b"third")
    assert path.read_bytes() == b"third"
    assert stat.S_IMODE(path.stat().st_mode) == ANYBODY_READS
    assert list(tmp_path.iterdir()) == [path]


@pytest.mark.parametrize("is_forced", [True, False])
def test_a_name_is_given_to_what_is_on_disk_and_the_name_goes_there_too(
    is_forced: bool, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    seen: list[str] = []
    sync, replace = os.fsync, os.replace

    def syncs(handle: int) -> None:
        seen.append("folder" if stat.S_ISDIR(os.fstat(handle).st_mode) else "file")
        sync(handle)

    def replaces(half: str, path: Path) -> None:
        seen.append("name")
        replace(half, path)

    monkeypatch.setattr(os, "fsync", syncs)
    monkeypatch.setattr(os, "replace", replaces)
    with whole_file(tmp_path / "photo", is_forced=is_forced) as file:
        file.write(b"picture")

    assert seen == (["file", "name", "folder"] if is_forced else ["name"])
