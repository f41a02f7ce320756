"""What the shop learns from its own jobs for the time that is left."""

from __future__ import annotations

from math import exp, log

import pytest
from tests.builders import Told

from lastbolt.actions.past_jobs import own_ratios
from lastbolt.actions.record import record
from lastbolt.plan.time_left import PRIOR_JOBS, START, Work


def hose_off_and_on(job: str, *, minutes_back: int, released: bool) -> Told:
    told = Told(job=job, machine=f"machine of {job}")
    told.say("connection-parted", connection="HOSE", after=2)
    told.say("connection-made", connection="HOSE", after=minutes_back)
    if released:
        told.say("release-signed", by="Lee", role="lead", statement="looked at it")
    return told


def test_a_released_job_moves_the_ratio_and_one_still_here_does_not(wired, shop, clock):
    for number, (job, back, released) in enumerate(
        (("gone", 8, True), ("here", 6, False), ("now", 2, False))
    ):
        told = hose_off_and_on(job, minutes_back=back, released=released)
        raws = [{**raw, "device": f"phone {number}", "id": raw["id"][:-3] + f"{number}{k:02}"}
                for k, raw in enumerate(told.raws)]  # fmt: skip
        record(shop.journal, clock, raws)
    ratios = own_ratios(wired.bench, wired.bench.others("now"))

    start = START[Work.OTHER].middle
    middle = exp((PRIOR_JOBS * log(start) + log(8 / 2)) / (PRIOR_JOBS + 1))
    assert ratios[Work.OTHER].middle == pytest.approx(middle)
    assert ratios[Work.SEAL] == START[Work.SEAL]
