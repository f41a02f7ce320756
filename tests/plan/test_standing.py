"""How each thing on the map stands."""

from __future__ import annotations

import pytest
from tests.report.journals import Written

from lastbolt.plan.access import access_map
from lastbolt.plan.standing import State, standing


@pytest.mark.parametrize(("level", "state"), [(2, State.HALF), (3, State.BURIED)])
def test_what_is_in_place_is_buried_unfinished_only_where_its_value_is_recorded(
    level: int, state: State
) -> None:
    job = Written(level=level).add("set-described", set="NUTS", n=2).add("part-removed", part="LID")
    job.add("spec-entered", set="NUTS", min_nm=20, max_nm=25).add("access-said", part="LID", element="NUTS")
    job.add("fasteners-removed", set="NUTS", to="B1").add("part-fitted", part="LID")
    job.add("fasteners-fitted", set="NUTS", source="B1")

    found = {one.name: one.state for one in standing(job.state, access_map(job.state))}
    assert found["NUTS"] is state
