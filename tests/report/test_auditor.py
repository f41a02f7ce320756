"""What the auditor is told of an entry."""

from __future__ import annotations

import pytest

from lastbolt.report.auditor import about_of


@pytest.mark.parametrize(
    ("raw", "about"),
    [
        ({"kind": "fasteners-removed", "set": "LID"}, "LID"),
        ({"kind": "isolation-removed", "isolation": "MAINS"}, "MAINS"),
        ({"kind": "test-run", "test": "LIFT"}, "LIFT"),
        ({"kind": "kit-counted", "kit": "BOX 3"}, "BOX 3"),
        ({"kind": "entry-voided", "entry": "some id", "reason": "twice"}, "twice"),
        ({"kind": "signed-on"}, ""),
    ],
)
def test_an_entry_is_named_by_what_it_is_about(raw: dict[str, object], about: str) -> None:
    assert about_of(raw) == about
