"""UUIDv7 against RFC 9562, Appendix A.6: 017F22E2-79B0-7CC3-98C4-DC0C0C07398F is 2022-02-22T19:22:22Z."""

from __future__ import annotations

from datetime import UTC, datetime
from itertools import pairwise
from uuid import UUID

import pytest
from tests.builders import Told

from lastbolt.errors import BadInputError
from lastbolt.journal import entry_from
from lastbolt.settings import settings_from
from lastbolt.wiring import wire

EXAMPLE = UUID("017F22E2-79B0-7CC3-98C4-DC0C0C07398F")
SECOND = datetime(2022, 2, 22, 19, 22, 22, tzinfo=UTC)


def fields(value: UUID) -> tuple[int, int, int, int, int]:
    """Give unix_ts_ms, version, rand_a, variant and rand_b (RFC 9562, section 5.7)."""
    bits = value.int
    return bits >> 80, (bits >> 76) & 0xF, (bits >> 64) & 0xFFF, (bits >> 62) & 0b11, bits & (2**62 - 1)


def entry(entry_id: str) -> dict[str, object]:
    return {**Told().raws[0], "id": entry_id}


def test_the_fields_of_the_published_example():
    assert fields(EXAMPLE) == (0x017F22E279B0, 7, 0xCC3, 0b10, 0x18C4DC0C0C07398F)
    assert fields(EXAMPLE)[0] == 1_645_557_742_000 == int(SECOND.timestamp()) * 1000


def test_the_published_example_is_taken_as_an_entrys_id():
    assert entry_from(entry(str(EXAMPLE))).id == EXAMPLE


@pytest.mark.parametrize(
    "other",
    [
        "919108f7-52d1-4320-9bac-f847db4148a8",  # RFC 9562, A.3: version 4
        "C232AB00-9414-11EC-B3C8-9F6BDECED846",  # RFC 9562, A.1: version 1
        "1EC9414C-232A-6B00-B3C8-9F6BDECED846",  # RFC 9562, A.5: version 6
        "00000000-0000-0000-0000-000000000000",  # RFC 9562, 5.9: nil
    ],
)
def test_other_versions_are_refused(other):
    with pytest.raises(BadInputError, match="version 7"):
        entry_from(entry(other))


def test_ids_made_here_carry_the_time_and_follow_one_another(tmp_path):
    wired = wire(settings_from({"LASTBOLT_DATA": str(tmp_path)}))
    before = datetime.now(UTC).timestamp() * 1000
    made = [wired.shop.new_id() for _ in range(200)]
    after = datetime.now(UTC).timestamp() * 1000
    wired.close()
    assert {(fields(one)[1], fields(one)[3]) for one in made} == {(7, 0b10)}
    assert all(before - 1 <= fields(one)[0] <= after + 200 for one in made)
    assert all(one < next_one for one, next_one in pairwise(made))
