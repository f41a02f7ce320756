import pytest

from lastbolt.people.everyone import people_from
from lastbolt.people.pins import Hashing
from lastbolt.people.ports import Rows
from lastbolt.store.database import Database
from lastbolt.store.device_rows import DeviceRows
from lastbolt.store.held_rows import HeldRows
from lastbolt.store.people_rows import PeopleRows

CHEAP = Hashing(1, 64, 1)


@pytest.fixture
def rows(tmp_path):
    database = Database(tmp_path / "shop")
    yield Rows(PeopleRows(database), DeviceRows(database), HeldRows(database))
    database.close()


@pytest.fixture
def people(rows, clock):
    """The people of a shop with a lead, a tech and a reader, whose PINs end in their own first digit."""
    people = people_from(rows, CHEAP, clock)
    for name, role, pin in (("Lee", "lead", "7306"), ("Ana", "tech", "4071"), ("Nora", "reader", "5182")):
        people.shop.add(name, role, pin, by="a test")
    return people
