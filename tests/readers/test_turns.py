import threading
import time

import pytest

from lastbolt.errors import StoreError
from lastbolt.readers.turns import Turns


def in_order_of_turns(turns: Turns, asked: list[str], pressing: frozenset[str] = frozenset()) -> list[str]:
    """Let each device of the list ask in this order while the only place is held; give the order of turns."""
    served: list[str] = []

    def ask(device: str) -> None:
        with turns.turn(device, pressing=device in pressing):
            served.append(device)

    threads = [threading.Thread(target=ask, args=(device,)) for device in asked]
    with turns.turn("holder"):
        for number, thread in enumerate(threads):
            thread.start()
            while len(turns.waiting()) <= number:
                time.sleep(0.001)
        foretold = turns.waiting()
    for thread in threads:
        thread.join(10)
    assert tuple(served) == foretold
    return served


def test_a_phone_with_many_photos_holds_nobody_up():
    assert in_order_of_turns(Turns(1, 64), ["a", "a", "a", "a", "b", "c", "b"]) == list("abcabaa")


def test_one_phone_is_served_in_its_own_order_and_places_are_free_again_afterwards():
    turns = Turns(2, 64)
    with turns.turn("a"), turns.turn("a"):
        assert turns.waiting() == ()
    with turns.turn("b"), turns.turn("c"):
        pass


def test_who_comes_when_too_many_wait_is_told_so():
    turns = Turns(1, 1)
    with turns.turn("holder"):
        waiting = threading.Thread(target=lambda: turns.turn("a").__enter__())
        waiting.start()
        while not turns.waiting():
            time.sleep(0.001)
        with pytest.raises(StoreError, match="too many photos wait"), turns.turn("b"):
            pass
    waiting.join(10)


def test_closing_sends_everybody_away_who_waits():
    turns, said = Turns(1, 64), []

    def ask() -> None:
        try:
            with turns.turn("a"):
                said.append("served")
        except StoreError as error:
            said.append(str(error))

    with turns.turn("holder"):
        waiting = threading.Thread(target=ask)
        waiting.start()
        while not turns.waiting():
            time.sleep(0.001)
        turns.close()
        waiting.join(10)
    assert said and said[0].startswith("the server is stopping")
    with pytest.raises(StoreError), turns.turn("b"):
        pass


def test_a_turn_that_ends_in_an_error_is_handed_on():
    turns = Turns(1, 64)
    with pytest.raises(ZeroDivisionError), turns.turn("a"):
        _ = 1 / 0
    with turns.turn("b"):
        assert turns.waiting() == ()


def test_what_somebody_waits_for_comes_before_all_photos_and_fair_among_its_like():
    served = in_order_of_turns(Turns(1, 64), list("abxxya"), pressing=frozenset("xy"))
    assert served == list("xyxaba")


def test_photos_that_fill_the_queue_leave_room_for_what_somebody_waits_for():
    turns = Turns(1, 1)

    def ask(*, pressing: bool) -> None:
        with turns.turn("a", pressing=pressing):
            pass

    waiting = [threading.Thread(target=ask, kwargs={"pressing": soon}) for soon in (False, True)]
    with turns.turn("holder"):
        for number, each in enumerate(waiting):
            each.start()
            while len(turns.waiting()) <= number:
                time.sleep(0.001)
        for soon in (False, True):
            with pytest.raises(StoreError, match="too many photos wait"), turns.turn("b", pressing=soon):
                pass
    for each in waiting:
        each.join(10)
    assert turns.waiting() == ()
