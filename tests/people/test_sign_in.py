"""Signing in. OWASP Authentication and Session Management Cheat Sheets (from memory, own words): the same answer
for a wrong name and a wrong PIN; growing delays that cannot be used to lock people out; session ids of at least
64 bits from a random source, renewed when somebody signs in, worthless on the server's disk, ended on demand."""

import pytest

from lastbolt.errors import ConflictError, NotAllowedError, NotSignedInError, WaitError
from lastbolt.people import tokens
from lastbolt.people.sign_in import Asking

SHOP = Asking(address="192.168.1.5", browser="a phone")
STRANGER = Asking(address="192.168.1.66")


def fail(people, name, times, asking=STRANGER):
    for _ in range(times):
        with pytest.raises(NotSignedInError):
            people.sign_in.sign_in(name, "9999", asking)


def test_name_and_pin_open_a_device_that_gets_a_name_and_a_token(people):
    opened = people.sign_in.sign_in("Ana", "4071", SHOP)
    assert opened.visit.current.name == "Ana" and opened.visit.current.role == "tech"
    assert opened.visit.device.startswith("phone ")
    assert people.sign_in.visit(opened.token).device == opened.visit.device


def test_case_and_spaces_of_a_name_do_not_matter(people):
    assert people.sign_in.sign_in("  aNA ", "4071", SHOP).visit.current.name == "Ana"
    with pytest.raises(ConflictError):
        people.shop.add("ANA", "tech", "4071", by="Lee")


def test_a_wrong_name_and_a_wrong_pin_get_the_same_answer(people):
    said = set()
    for name, pin in (("Ana", "4072"), ("Nobody", "4071")):
        with pytest.raises(NotSignedInError) as refused:
            people.sign_in.sign_in(name, pin, SHOP)
        said.add(str(refused.value))
    assert len(said) == 1


def test_who_left_the_shop_signs_in_no_more_and_is_out_everywhere(people):
    opened = people.sign_in.sign_in("Ana", "4071", SHOP)
    people.shop.leave("Ana", by="Lee")
    assert people.sign_in.visit(opened.token).current is None
    with pytest.raises(NotSignedInError):
        people.sign_in.sign_in("Ana", "4071", SHOP)


def test_the_disk_holds_no_token(people, rows):
    opened = people.sign_in.sign_in("Ana", "4071", SHOP)
    assert len(opened.token) >= 43
    (device,) = rows.devices.all()
    assert device.token == tokens.kept(opened.token) != opened.token


def test_each_sign_in_renews_the_token(people):
    first = people.sign_in.sign_in("Ana", "4071", SHOP)
    again = people.sign_in.sign_in("Ana", "4071", Asking(first.token))
    assert again.token != first.token and again.visit.device == first.visit.device
    assert people.sign_in.visit(first.token) is None


def test_after_twelve_hours_the_pin_is_needed_again(people, clock):
    opened = people.sign_in.sign_in("Ana", "4071", SHOP)
    clock.move(hours=11, minutes=59)
    assert people.sign_in.visit(opened.token).current.name == "Ana"
    clock.move(minutes=1)
    assert people.sign_in.visit(opened.token).current is None


def test_several_share_a_phone_and_hand_it_on_and_sign_out(people):
    first = people.sign_in.sign_in("Ana", "4071", SHOP)
    opened = people.sign_in.sign_in("Lee", "7306", Asking(first.token))
    assert opened.visit.device == first.visit.device
    assert {each.name for each in opened.visit.inside} == {
        "Ana",
        "Lee",
    } and opened.visit.current.name == "Lee"
    people.sign_in.hold(opened.visit, "Ana")
    assert people.sign_in.visit(opened.token).current.name == "Ana"
    people.sign_in.sign_out(people.sign_in.visit(opened.token), "Ana")
    visit = people.sign_in.visit(opened.token)
    assert [each.name for each in visit.inside] == ["Lee"]
    with pytest.raises(NotSignedInError):
        people.sign_in.hold(visit, "Ana")
    people.sign_in.sign_out(visit)
    assert people.sign_in.visit(opened.token).current is None


def test_a_device_that_lost_its_token_comes_back_alone(people):
    """Whoever claims the name of another's phone gets nobody's rights but their own."""
    phone = people.sign_in.sign_in("Lee", "7306", SHOP).visit.device
    taken = people.sign_in.sign_in("Ana", "4071", Asking(device=phone, address="192.168.1.66"))
    assert taken.visit.device == phone
    assert [each.name for each in taken.visit.inside] == ["Ana"]


@pytest.mark.parametrize("claimed", ["desk", "phone of somebody", "phone 12", "", "phone 0123456789abXX"])
def test_a_device_cannot_call_itself_what_is_no_phones_name(people, claimed):
    assert people.sign_in.sign_in("Ana", "4071", Asking(device=claimed)).visit.device != claimed


def test_wrong_pins_make_one_wait_and_the_right_pin_too(people, clock):
    fail(people, "Ana", 6)
    with pytest.raises(WaitError) as waiting:
        people.sign_in.sign_in("Ana", "4071", STRANGER)
    assert 0 < waiting.value.seconds <= 16
    clock.move(seconds=16)
    assert people.sign_in.sign_in("Ana", "4071", STRANGER).visit.current.name == "Ana"


def test_a_stranger_locks_nobody_out_who_was_here_before(people, clock):
    known = people.sign_in.sign_in("Ana", "4071", SHOP)
    for attempt in range(100):
        clock.move(hours=2)
        with pytest.raises(NotSignedInError):
            people.sign_in.sign_in("Ana", "9999", Asking(address=f"10.0.0.{attempt}"))
    with pytest.raises(WaitError) as locked:
        people.sign_in.sign_in("Ana", "4071", Asking(address="10.0.1.1"))
    assert locked.value.seconds is None and "A lead can clear" in str(locked.value)
    assert people.sign_in.sign_in("Ana", "4071", Asking(known.token)).visit.current.name == "Ana"
    assert people.sign_in.sign_in("Lee", "7306", SHOP).visit.current.name == "Lee"
    assert any("locked" in deed.act and deed.about == "Ana" for deed in people.shop.deeds())
    assert {p.name: failed for p, failed in people.shop.all()}["Ana"] >= 100
    people.shop.clear_tries("Ana", by="Lee")
    assert people.sign_in.sign_in("Ana", "4071", Asking(address="10.0.1.1")).visit.current.name == "Ana"


def test_one_address_that_tries_many_names_waits_too(people):
    for number in range(21):
        with pytest.raises(NotSignedInError):
            people.sign_in.sign_in(f"Name {number}", "9999", STRANGER)
    with pytest.raises(WaitError):
        people.sign_in.sign_in("Ana", "4071", STRANGER)
    assert people.sign_in.sign_in("Ana", "4071", SHOP).visit.current.name == "Ana"


def test_a_lost_phone_is_cut_off_and_stays_out_until_a_lead_lets_it_back(people):
    opened = people.sign_in.sign_in("Ana", "4071", SHOP)
    people.shop.end_device(opened.visit.device, by="Lee", lost=True)
    visit = people.sign_in.visit(opened.token)
    assert visit.cut and visit.current is None
    for asking in (Asking(opened.token), Asking(device=opened.visit.device)):
        with pytest.raises(NotAllowedError, match="reported lost"):
            people.sign_in.sign_in("Ana", "4071", asking)
    people.shop.let_back(opened.visit.device, by="Lee")
    back = people.sign_in.sign_in("Ana", "4071", Asking(device=opened.visit.device))
    assert back.visit.device == opened.visit.device and not back.visit.cut


def test_a_new_pin_puts_a_person_out_on_every_device(people):
    opened = people.sign_in.sign_in("Ana", "4071", SHOP)
    people.shop.set_secret("Ana", "6284", by="Lee")
    assert people.sign_in.visit(opened.token).current is None
    with pytest.raises(NotSignedInError):
        people.sign_in.sign_in("Ana", "4071", Asking(opened.token))
    assert people.sign_in.sign_in("Ana", "6284", Asking(opened.token)).visit.current.name == "Ana"


def test_the_last_lead_stays_and_nobody_raises_themselves(people):
    for act in (
        lambda: people.shop.leave("Lee", by="cli"),
        lambda: people.shop.set_role("Lee", "tech", by="cli"),
    ):
        with pytest.raises(NotAllowedError, match="only lead"):
            act()
    people.shop.set_role("Ana", "lead", by="Lee")
    with pytest.raises(ConflictError):
        people.shop.set_role("Ana", "reader", by="Ana")
    people.shop.set_role("Lee", "tech", by="Ana")
    assert [(deed.by, deed.act, deed.about) for deed in people.shop.deeds()[:2]] == [
        ("Ana", "made tech", "Lee"),
        ("Lee", "made lead", "Ana"),
    ]
