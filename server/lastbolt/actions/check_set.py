"""The check set itself: the source of all that makes a verdict, its fingerprint, and a zip of it."""

from __future__ import annotations

import hashlib
import io
import zipfile
from functools import cache
from pathlib import Path

from ..journal import canonical

PACKAGE = Path(__file__).resolve().parents[1]
ROOMS = ("journal", "state", "checks", "torque")
REPORT = "report/__init__.py"
FILES = ("__init__.py", "errors.py", "units.py", "finding.py", "label_code.py", "said.py", REPORT)
VERDICT = ("report/verdict.py", "report/text.py")
LONG_AGO = (1980, 1, 1, 0, 0, 0)


@cache
def check_set_files() -> dict[str, bytes]:
    """Give the sources by their path in the package: entries, state, checks, verdict, what they lean on."""
    found = [PACKAGE / name for name in (*FILES, *VERDICT)]
    for room in ROOMS:
        found += [p for p in (PACKAGE / room).rglob("*") if p.is_file() and "__pycache__" not in p.parts]
    return {path.relative_to(PACKAGE).as_posix(): path.read_bytes() for path in sorted(found)}


@cache
def check_set_hash() -> str:
    """Give one SHA-256 for all of them, over their names and hashes."""
    said = {name: hashlib.sha256(data).hexdigest() for name, data in check_set_files().items()}
    return hashlib.sha256(canonical(said)).hexdigest()


def check_set_zip() -> bytes:
    """Pack them as a package that Python can import from the zip; the same bytes every time."""
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as zipped:
        for name, data in check_set_files().items():
            info = zipfile.ZipInfo(f"lastbolt/{name}", LONG_AGO)
            info.compress_type = zipfile.ZIP_DEFLATED
            info.external_attr = 0o644 << 16
            zipped.writestr(info, data)
    return out.getvalue()
