"""The server's clock set back by years and forward again: no chain breaks, no entry is lost or put out of order."""

from __future__ import annotations

from dataclasses import replace

from tests.faults.shop_under_fire import ReadBefore
from tests.web.shop import JOB, entry, half_finished

from lastbolt.actions.audit import audit
from lastbolt.actions.photograph import Hint, take
from lastbolt.actions.record import record

JUMPS_DAYS = (-4000, 1, 9000, -9000, 0.01, 4000)


def lying_in_the_tray(wired):
    lots = wired.bench.view(JOB).job.ledger.lots("T0042E")
    return [f"{n} of {lot.set}" for lot, n in lots.items()]


def test_a_clock_that_jumps_changes_no_chain_and_loses_no_entry(shop, wired, clock):
    shop = replace(shop, reader=ReadBefore())
    record(shop.journal, clock, half_finished())
    before = lying_in_the_tray(wired)
    sent = []
    for number, days in enumerate(JUMPS_DAYS, start=100):
        clock.move(days=days)
        raw = entry("container-scanned", number, container="T0042E")
        record(shop.journal, clock, [raw])
        record(shop.journal, clock, [raw])
        sent.append(raw["id"])
        hint = Hint(container="T0042E", device="camera", live=True)
        assert take(shop, f"photo {number}".encode(), job=JOB, by="Ana", hint=hint).outcome == "kept"
    found = audit(shop, JOB)
    assert found.is_whole, found.sentences()
    lines = shop.journal.lines(JOB)
    assert [line.position for line in lines] == list(range(1, len(lines) + 1))
    assert [line.entry["id"] for line in lines if line.entry["id"] in sent] == sent
    assert lying_in_the_tray(wired) == before == ["6 of pump cover bolts"], "a clock moved parts about"
