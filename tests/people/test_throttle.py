from datetime import UTC, datetime, timedelta

import pytest

from lastbolt.people.throttle import EVERYWHERE, HERE, PLACE, Tries, after, wait

START = datetime(2026, 3, 9, 8, 0, tzinfo=UTC)


def guess_for(days, budget):
    """Try as often as the budget lets one, and count the tries; brute force against the clock."""
    now, tries, made = START, Tries(), 0
    while now - START < timedelta(days=days):
        left = wait(tries, now, budget)
        if left is None:
            return made
        if left > timedelta(0):
            now += left
            continue
        tries, made = after(tries, now, budget), made + 1
    return made


def test_five_slips_cost_nothing_and_the_sixth_a_quarter_of_a_minute():
    tries = Tries()
    for _ in range(5):
        assert wait(tries, START, HERE) == timedelta(0)
        tries = after(tries, START, HERE)
    assert wait(tries, START, HERE) == timedelta(0)
    assert wait(after(tries, START, HERE), START, HERE) == timedelta(seconds=15)


def test_waits_double_up_to_a_quarter_of_an_hour():
    waits = [wait(Tries(failed, START), START, HERE).total_seconds() for failed in range(6, 14)]
    assert waits == [15, 30, 60, 120, 240, 480, 900, 900]


def test_who_tries_a_pin_from_everywhere_is_locked_out_after_a_hundred():
    """NIST SP 800-63B, 3.2.2: no more than 100 failed tries in a row on an account (from memory)."""
    assert guess_for(365, EVERYWHERE) == 100
    assert wait(Tries(100, START), START + timedelta(days=365), EVERYWHERE) is None


@pytest.mark.parametrize("budget", [HERE, PLACE])
def test_one_device_or_address_guesses_less_than_a_hundredth_of_all_pins_in_a_day(budget):
    made = guess_for(1, budget)
    print(f"\n{made} tries in a day")
    assert made <= 130


def test_old_failures_are_forgotten_after_a_day():
    tries = Tries(12, START)
    assert wait(tries, START + timedelta(hours=25), HERE) == timedelta(0)
    assert after(tries, START + timedelta(hours=25), HERE).failed == 1
