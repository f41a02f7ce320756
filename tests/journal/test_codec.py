"""Entries as text and back: bytes are canonical, unknown fields survive, mistakes are named."""

from __future__ import annotations

import json
from typing import Any
from uuid import UUID

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.replay.any_entries import journals

from lastbolt.errors import BadInputError
from lastbolt.journal import canonical, entry_from, raw_from, raws_from_lines

ENTRY = {
    "id": "019cafe0-0000-7000-8000-000000000000",
    "job": "j",
    "device": "d",
    "seq": 1,
    "at": "2026-03-02T08:00:00Z",
    "by": "Ana",
}


@given(journals())
@settings(max_examples=100, derandomize=True, deadline=None)
def test_an_entry_written_and_read_is_the_same(raws: list[dict[str, Any]]) -> None:
    for raw in raws:
        entry = entry_from(raw)

        assert entry_from(json.loads(canonical(raw_from(entry)))) == entry


def test_a_field_from_a_newer_phone_survives() -> None:
    raw = raw_from(entry_from(ENTRY | {"kind": "signed-on", "mood": {"hands": "cold"}}))

    assert raw["mood"] == {"hands": "cold"}


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"kind": "sigend-on"}, "its kind 'sigend-on' is unknown"),
        ({"kind": "signed-on", "seq": 0}, "seq: "),
        ({"kind": "signed-on", "at": "2026-03-02T08:00:00"}, "at: "),
        ({"kind": "signed-on", "id": "8c1f6d3e-0000-4000-8000-000000000000"}, "UUID of version 7"),
        ({"kind": "fasteners-removed", "set": "LID", "n": 501}, "n: "),
        ({"kind": "fasteners-removed"}, "set: "),
    ],
)
def test_a_mistake_is_named_by_its_field(change: dict[str, Any], said: str) -> None:
    with pytest.raises(BadInputError, match="this is no entry") as caught:
        entry_from(ENTRY | change)

    assert said in str(caught.value)


@given(st.integers(0, 2**128 - 1), st.integers(0, 15), st.integers(0, 3))
@settings(derandomize=True, deadline=None)
def test_an_id_is_taken_where_python_reads_version_7_in_it(bits: int, version: int, variant: int) -> None:
    """Outside value: `uuid.UUID.version`, which looks at the variant too (RFC 9562, sections 4.1 and 5.7)."""
    own = UUID(int=bits & ~((0xF << 76) | (0b11 << 62)) | (version << 76) | (variant << 62))
    try:
        is_taken = entry_from(ENTRY | {"kind": "signed-on", "id": str(own)}).id == own
    except BadInputError:
        is_taken = False

    assert is_taken == (own.version == 7)


def test_lines_may_be_bare_or_stored() -> None:
    bare = ENTRY | {"kind": "signed-on"}
    lines = [json.dumps(bare), "", json.dumps({"position": 1, "hash": "x", "entry": bare})]

    assert raws_from_lines(lines) == [bare, bare]


@pytest.mark.parametrize(("line", "said"), [("{", "line 1 is no JSON"), ("[1]", "line 1 is no JSON object")])
def test_a_line_that_is_no_object_is_named(line: str, said: str) -> None:
    with pytest.raises(BadInputError, match=said):
        raws_from_lines([line])


def test_what_has_no_canonical_form_is_refused() -> None:
    with pytest.raises(BadInputError, match="cannot be written down exactly"):
        canonical({"value": float("nan")})
