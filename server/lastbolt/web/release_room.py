"""Who stands at the desk, put together with what releasing needs."""

from __future__ import annotations

from dataclasses import replace
from typing import Annotated

from fastapi import Depends, Request

from ..actions.release import ReleaseRoom
from ..errors import NotAllowedError
from ..people.rights import Act, may
from ..people.visit import Visit
from ..said import said
from .desk import AtDesk
from .door import AtDoor, asking_from


class AtDevice:
    """Confirms names by the PINs of those who are signed in on the device that asks."""

    def __init__(self, desk: AtDesk, visit: Visit, request: Request) -> None:
        self._desk, self._visit, self._request = desk, visit, request

    def confirm(self, person: str, pin: str) -> str:
        """Give the name once the PIN fits; tries are counted.

        Raises:
            NotAllowedError: the PIN is not that person's, or the person is not signed in on this device.
        """
        sign_in = self._desk.wired.people.sign_in
        if not sign_in.may_be(self._visit, person, pin, asking_from(self._request)):
            raise NotAllowedError(
                said(
                    "That PIN is not {person}'s, or {person} is not signed in on this device. "
                    "Nothing was signed.",
                    person=person,
                )
            )
        return person

    def is_lead(self, person: str) -> bool:
        """Tell whether somebody who is signed in here may sign."""
        here = self._visit.named(person)
        return here is not None and here in self._visit.inside and may(here.role, Act.SIGN)


def _room(request: Request, desk: AtDesk, visit: AtDoor) -> ReleaseRoom:
    room = desk.wired.release_room(AtDevice(desk, visit, request))
    return replace(room, address=room.address or str(request.base_url).rstrip("/"))


AtRelease = Annotated[ReleaseRoom, Depends(_room)]
