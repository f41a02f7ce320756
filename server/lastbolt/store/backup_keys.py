"""The shop's own keys in a backup: without the signing key a restored shop would sign under another name."""

from __future__ import annotations

from pathlib import Path

from ..whole_file import whole_file

FOLDER = "keys"


def copy_keys(data: Path, backup: Path) -> int:
    """Copy the files of a shop's key folder, each readable by its owner alone; give how many there are."""
    return _copy(data / FOLDER, backup / FOLDER)


def restore_keys(backup: Path, data: Path) -> int:
    """Put the keys of a backup into a shop's folder."""
    return _copy(backup / FOLDER, data / FOLDER)


def _copy(source: Path, target: Path) -> int:
    files = sorted(p for p in source.iterdir() if p.is_file()) if source.is_dir() else []
    if files:
        target.mkdir(parents=True, exist_ok=True, mode=0o700)
    for path in (p for p in files if not p.name.startswith(".")):
        with whole_file(target / path.name) as file:
            file.write(path.read_bytes())
    return len(files)
