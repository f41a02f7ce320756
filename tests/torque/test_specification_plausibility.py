from lastbolt.torque.plausibility import Exemption, PlausibilityVerdict
from lastbolt.torque.specification import Specification, Stage, StageKind, TorqueWindow
from lastbolt.torque.specification_plausibility import find_odd_stages
from lastbolt.torque.threads import MetricThread, coarse_thread


def thread_of(diameter: float) -> MetricThread:
    thread = coarse_thread(diameter)
    assert thread is not None
    return thread


def torque(number: int, value: float, text: str = "", kind: StageKind = StageKind.TORQUE) -> Stage:
    angle = 90.0 if kind is StageKind.TORQUE_THEN_ANGLE else None
    return Stage(number, kind, TorqueWindow(value, value, text), angle)


def specify(*stages: Stage) -> Specification:
    return Specification("HEAD", (1, 2, 3, 4), stages)


def test_a_clean_specification_says_nothing() -> None:
    assert find_odd_stages(specify(torque(1, 10), torque(2, 24)), thread_of(8), class_name="8.8") == ()


def test_only_the_last_torque_of_a_hole_is_judged_on_the_low_side() -> None:
    assert find_odd_stages(specify(torque(1, 3), torque(2, 24)), thread_of(8), class_name="8.8") == ()
    (odd,) = find_odd_stages(specify(torque(1, 3), torque(2, 5)), thread_of(8), class_name="8.8")
    assert (odd.stage.number, odd.plausibility.verdict) == (2, PlausibilityVerdict.LOW)


def test_an_angle_in_the_stage_or_after_it_excuses_a_low_torque() -> None:
    with_angle = specify(torque(1, 5, kind=StageKind.TORQUE_THEN_ANGLE))
    before_angle = specify(torque(1, 5), Stage(2, StageKind.ANGLE, angle_degrees=90.0))
    for specification in (with_angle, before_angle):
        assert find_odd_stages(specification, thread_of(8), class_name="8.8") == ()


def test_an_angle_for_other_holes_excuses_nothing() -> None:
    elsewhere = Stage(2, StageKind.ANGLE, angle_degrees=90.0, holes=frozenset({1, 2}))
    assert len(find_odd_stages(specify(torque(1, 5), elsewhere), thread_of(8), class_name="8.8")) == 1


def test_a_soft_joint_is_told_by_the_caller() -> None:
    soft = frozenset({Exemption.SOFT_JOINT})
    assert find_odd_stages(specify(torque(1, 5)), thread_of(8), class_name="8.8", exemptions=soft) == ()


def test_every_stage_is_judged_on_the_high_side_with_the_unit_as_typed() -> None:
    typed_wrong = torque(1, 122.0, "90 lbf·ft")
    (odd,) = find_odd_stages(specify(typed_wrong, torque(2, 10)), thread_of(6), class_name="8.8")
    assert odd.plausibility.verdict is PlausibilityVerdict.IMPOSSIBLE
    assert {slip.written.value for slip in odd.plausibility.hints} == {"lbf·ft"}


def test_threads_that_cannot_be_judged_give_nothing() -> None:
    assert find_odd_stages(specify(torque(1, 5000)), thread_of(7)) == ()
