"""The order list: known when it comes off, and shorter with every new piece that lies ready."""

from __future__ import annotations

from tests.report.journals import Written, job_of, scenario

from lastbolt.plan.order_list import OrderLine, order_list


def hub() -> Written:
    job = Written().add("set-described", set="HUB NUTS", n=4, type="M12x1.5x12/nut", single_use=True)
    return job.add("fasteners-removed", set="HUB NUTS", n=3, to="B1")


def test_single_use_pieces_are_on_the_list_the_minute_they_come_off():
    assert order_list(hub().state) == (
        OrderLine("M12x1.5x12/nut", 3, "HUB NUTS", "single-use, and they were undone"),
    )


def test_new_ones_in_a_bag_or_in_their_holes_are_off_the_list():
    job = hub().add("fasteners-moved", set="HUB NUTS", n=2, source="NEW", to="B2")

    assert [line.n for line in order_list(job.state)] == [1]

    job.add("fasteners-fitted", set="HUB NUTS", n=2, source="B2", new=True)

    assert [line.n for line in order_list(job.state)] == [1]


def test_a_used_one_put_back_is_still_to_be_ordered():
    job = hub().add("fasteners-fitted", set="HUB NUTS", n=3, source="B1")

    assert [line.n for line in order_list(job.state)] == [3]


def test_a_check_with_the_wrench_spends_nothing():
    job = Written().add("set-described", set="HUB NUTS", n=4, single_use=True)
    job.add("fasteners-tightened", set="HUB NUTS", value_nm=90)

    assert order_list(job.state) == ()


def test_seals_are_listed_until_they_are_on_and_again_when_spent():
    job = Written().add("renewal-needed", renewal="SEAL", under="LID", n=2, part_number="77-1")
    job.add("part-removed", part="LID")

    assert order_list(job.state) == (OrderLine("SEAL", 2, "LID", "goes under LID", "77-1"),)

    job.add("renewal-fitted", renewal="SEAL", n=2).add("part-fitted", part="LID")

    assert order_list(job.state) == ()

    job.add("part-removed", part="LID")

    assert [(line.n, line.why) for line in order_list(job.state)] == [
        (2, "spent again: what lay over it came off")
    ]


def test_broken_studs_split_pins_and_lost_nuts():
    job = Written().add("set-described", set="STUDS", n=2, type="M8x1.25x40/stud", locking="split-pin")
    job.add("fasteners-found-bad", set="STUDS", holes=[2], defect="broken").add(
        "fasteners-removed", set="STUDS", holes=[1], to="B1"
    )
    job.add("thing-lost", loss="L1", what="an M6 nut", type="M6x1x5/nut", set="STUDS")

    assert {(line.what, line.n, line.why) for line in order_list(job.state)} == {
        ("M8x1.25x40/stud", 1, "found broken"),
        ("split pin", 1, "spent when it was undone"),
        ("M6x1x5/nut", 1, "lost and not found"),
    }


def test_found_loose_needs_a_cause_and_not_an_order():
    job = (
        Written()
        .add("set-described", set="STUDS", n=2)
        .add("fasteners-found-bad", set="STUDS", holes=[2], defect="loose")
    )

    assert order_list(job.state) == ()


def test_a_clean_job_orders_nothing_at_the_end_and_its_gasket_before():
    assert [line.what for line in order_list(job_of(scenario("C0", "1 12:00")))] == ["PUMP GASKET"]
    assert order_list(job_of(scenario("C0"))) == ()
