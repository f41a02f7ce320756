"""A small model of a disk that loses what was not forced to it: what a folder may look like after a power cut.

Real calls of the operating system are written down while they are made. Only `fsync` of a file makes its
content last, only `fsync` of a folder makes the names in it last; until then each change of a name may be
lost or kept by itself, in any combination, and a file's content may be missing, cut short or zeros. That
is less than any journalling file system promises (POSIX, fsync and rename), so whoever survives this, survives those.
"""

from __future__ import annotations

import os
import random
from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from itertools import product
from pathlib import Path
from typing import Any

MOST_COMBINATIONS = 64


@dataclass(frozen=True)
class Disk:
    """What has lasted: names of files and folders, and each file's content at its last fsync, by inode."""

    names: dict[Path, int] = field(default_factory=dict)
    folders: frozenset[Path] = frozenset()
    content: dict[int, bytes] = field(default_factory=dict)


@dataclass(frozen=True)
class NameChange:
    """One change of names that a folder was not yet forced to keep."""

    folder: Path
    gone: Path | None
    new: Path | None
    inode: int | None

    def made_to(self, disk: Disk) -> Disk:
        names = {path: inode for path, inode in disk.names.items() if path != self.gone}
        if self.new is None:
            return replace(disk, names=names)
        if self.inode is None:
            return replace(disk, folders=disk.folders | {self.new})
        return replace(disk, names=names | {self.new: self.inode})


class Recorder:
    """Writes down what a program asks of the operating system beneath one folder; `acknowledged` is told by the test."""

    def __init__(self, root: Path, *, lame: frozenset[str] = frozenset()) -> None:
        self._root, self._lame = root, lame
        self._disk = Disk(folders=frozenset({root}))
        self._waiting: list[NameChange] = []
        self._told: tuple[Any, ...] = ()
        self.moments: list[tuple[Disk, tuple[NameChange, ...], tuple[Any, ...]]] = []
        self._true = {
            name: getattr(os, name) for name in ("open", "fsync", "replace", "rename", "mkdir", "unlink")
        }

    def put_in(self, monkeypatch: Any) -> None:
        for name in self._true:
            monkeypatch.setattr(os, name, getattr(self, f"_{name}"))

    def acknowledge(self, what: Any) -> None:
        self._told = (*self._told, what)
        self._moment()

    def _open(self, path: Any, flags: int, *rest: Any, **more: Any) -> int:
        handle: int = self._true["open"](path, flags, *rest, **more)
        if flags & os.O_CREAT and self._is_ours(path):
            self._change(None, Path(path), os.fstat(handle).st_ino)
        return handle

    def _fsync(self, handle: int) -> None:
        self._true["fsync"](handle)
        path = Path(os.readlink(f"/proc/self/fd/{handle}"))
        if not self._is_ours(path):
            return
        if path.is_dir() and "folder" not in self._lame:
            for change in [each for each in self._waiting if each.folder == path]:
                self._waiting.remove(change)
                self._disk = change.made_to(self._disk)
        elif path.is_file() and "file" not in self._lame:
            content = Path(f"/proc/self/fd/{handle}").read_bytes()
            self._disk = replace(self._disk, content=self._disk.content | {os.fstat(handle).st_ino: content})
        self._moment()

    def _replace(self, old: Any, new: Any, **more: Any) -> None:
        inode = os.stat(old).st_ino
        self._true["replace"](old, new, **more)
        if self._is_ours(new):
            self._change(Path(old), Path(new), inode)

    _rename = _replace

    def _mkdir(self, path: Any, *rest: Any, **more: Any) -> None:
        self._true["mkdir"](path, *rest, **more)
        if self._is_ours(path):
            self._change(None, Path(path), None)

    def _unlink(self, path: Any, **more: Any) -> None:
        self._true["unlink"](path, **more)
        if self._is_ours(path):
            self._change(Path(path), None, None)

    def _is_ours(self, path: Any) -> bool:
        return Path(path) == self._root or self._root in Path(path).parents

    def _change(self, gone: Path | None, new: Path | None, inode: int | None) -> None:
        self._waiting.append(NameChange((new or gone or self._root).parent, gone, new, inode))
        self._moment()

    def _moment(self) -> None:
        self.moments.append((self._disk, tuple(self._waiting), self._told))


def after_a_cut(disk: Disk, waiting: tuple[NameChange, ...], chance: random.Random) -> Iterator[Disk]:
    """Give what may lie on the disk when the power goes at one moment: every combination, or a sample of many."""
    combinations = list(product((False, True), repeat=min(len(waiting), 10)))
    if len(combinations) > MOST_COMBINATIONS:
        combinations = chance.sample(combinations, MOST_COMBINATIONS)
    for kept in combinations:
        found = disk
        for change, is_kept in zip(waiting[-10:], kept, strict=True):
            found = change.made_to(found) if is_kept else found
        unsure = [inode for inode in found.names.values() if inode not in found.content]
        spoilt = {inode: chance.choice((b"", b"\0" * 500, b"half of it")) for inode in unsure}
        yield replace(found, content=found.content | spoilt)


def laid_out(disk: Disk, root: Path, target: Path) -> None:
    """Make a true folder of what a disk holds; a name in a folder that was lost is lost with it."""
    target.mkdir()
    lasting = {root}
    for folder in sorted(disk.folders - {root}):
        if folder.parent in lasting:
            lasting.add(folder)
            (target / folder.relative_to(root)).mkdir()
    for path, inode in disk.names.items():
        if path.parent in lasting:
            (target / path.relative_to(root)).write_bytes(disk.content[inode])
