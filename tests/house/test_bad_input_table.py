"""Every row of the table of bad input names tests, and those tests are there."""

from __future__ import annotations

import re

from .package import ROOT

ROWS = [
    line
    for line in (ROOT / "SECURITY.md")
    .read_text()
    .partition("## What becomes of broken input")[2]
    .splitlines()
    if line.startswith("| ")
][1:]
NAMED = re.compile(r"`(tests/[\w/]+\.py)::(test_\w+)`")


def test_every_row_names_a_test():
    assert len(ROWS) > 20
    assert [row for row in ROWS[1:] if not NAMED.search(row)] == []


def test_every_test_that_is_named_is_there():
    named = [found for row in ROWS for found in NAMED.findall(row)]
    gone = [
        f"{file}::{name}"
        for file, name in named
        if not (ROOT / file).is_file() or f"def {name}(" not in (ROOT / file).read_text()
    ]
    assert gone == []
