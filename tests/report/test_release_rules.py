"""Whose hands were on a job: everybody who ever worked on it, not only who did so last."""

from __future__ import annotations

from tests.report.journals import Written, verdict_of

from lastbolt.report.decisions import weighed
from lastbolt.report.release_rules import hands_on

HOSE = (
    Written()
    .add("connection-parted", connection="HOSE", by="Ana")
    .add("connection-made", connection="HOSE", by="Ben")
    .add("second-checked", elements=["HOSE"], by="Eva")
)


def test_who_took_it_apart_had_hands_on_it_though_another_put_it_together():
    assert hands_on(HOSE.state) == {"Ana", "Ben"}


def test_a_word_on_ones_own_work_is_told_as_such_though_another_worked_there_later():
    word = {"check": "not-reconnected", "subject": "HOSE", "decision": "accept", "role": "lead"}
    told = HOSE.add("finding-decided", by="Ana", **word)

    (found,) = weighed(told.state, verdict_of(told.entries))
    assert (found.doers, found.on_own_work) == (("Ana", "Ben"), True)
