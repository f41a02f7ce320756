import pytest

from lastbolt.errors import NotAllowedError, WaitError
from lastbolt.people.everyone import people_from
from lastbolt.people.sign_in import Asking

from .conftest import CHEAP

HERE = Asking(address="192.168.1.5")


@pytest.fixture
def empty(rows, clock):
    return people_from(rows, CHEAP, clock)


def test_the_first_lead_comes_in_with_the_code_and_once_only(empty):
    code = empty.shop.first_code()
    typed = code.lower().replace("-", " ")
    assert empty.shop.first_lead(typed, "Lee", "7306", HERE).visit.current.role == "lead"
    with pytest.raises(NotAllowedError):
        empty.shop.first_lead(code, "Mallory", "7306", HERE)
    assert empty.shop.first_code() is None and not empty.shop.needs_first_lead()


def test_only_the_newest_code_counts(empty):
    old, new = empty.shop.first_code(), empty.shop.first_code()
    with pytest.raises(NotAllowedError):
        empty.shop.first_lead(old, "Lee", "7306", HERE)
    assert empty.shop.first_lead(new, "Lee", "7306", HERE).visit.current.name == "Lee"


def test_the_code_cannot_be_guessed_at_leisure(empty):
    empty.shop.first_code()
    for _ in range(21):
        with pytest.raises(NotAllowedError):
            empty.shop.first_lead("AAAAA-AAAAA", "Mallory", "7306", HERE)
    with pytest.raises(WaitError):
        empty.shop.first_lead("AAAAA-AAAAA", "Mallory", "7306", HERE)


def test_with_a_lead_here_there_is_no_code(people):
    assert people.shop.first_code() is None
    with pytest.raises(NotAllowedError):
        people.shop.first_lead("", "Mallory", "7306", HERE)
