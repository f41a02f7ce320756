"""Routes about signing in and out, and who holds the device."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Query, Request, Response

from ..errors import NotAllowedError
from ..people.sign_in import Opened
from ..people.visit import LOCKED_AFTER, Visit
from . import session_wire as wire
from .desk import AtDesk, Desk
from .door import AtDoor, asking_from, cookie_name

router = APIRouter(prefix="/api", tags=["session"])
A_YEAR_S = 365 * 24 * 3600


@router.get("/session", operation_id="getSession")
def get_session(request: Request, desk: AtDesk) -> wire.Session:
    """Say who is signed in on this device; the same answer, but for the device itself, to everybody."""
    return session(desk, request.state.visit)


@router.post("/session", operation_id="signIn")
def sign_in(wish: wire.SignInWish, request: Request, response: Response, desk: AtDesk) -> wire.Session:
    """Sign a person in on this device, beside those who are signed in already."""
    opened = desk.wired.people.sign_in.sign_in(
        wish.name, wish.pin.get_secret_value(), asking_from(request, wish.device)
    )
    return _opened(opened, request, response, desk)


@router.post("/first-lead", operation_id="makeFirstLead")
def make_first_lead(
    wish: wire.FirstLeadWish, request: Request, response: Response, desk: AtDesk
) -> wire.Session:
    """Make the first lead with the code that the server printed, and sign them in."""
    opened = desk.wired.people.shop.first_lead(
        wish.code, wish.name, wish.pin.get_secret_value(), asking_from(request, wish.device)
    )
    return _opened(opened, request, response, desk)


@router.put("/session/holder", operation_id="holdDevice")
def hold_device(wish: wire.HolderWish, request: Request, desk: AtDesk, visit: AtDoor) -> wire.Session:
    """Say who of those signed in holds the device now."""
    desk.wired.people.sign_in.hold(visit, wish.name)
    return session(desk, _again(request, desk))


@router.put("/session/pin", operation_id="changeOwnPin")
def change_own_pin(wish: wire.PinWish, request: Request, desk: AtDesk, visit: AtDoor) -> wire.Session:
    """Take a new PIN for oneself; every device asks for it."""
    people, current = desk.wired.people, visit.current
    asking = asking_from(request)
    if current is None or not people.sign_in.may_be(visit, current.name, wish.old.get_secret_value(), asking):
        raise NotAllowedError("The old PIN is not right.")
    people.shop.set_secret(current.name, wish.new.get_secret_value(), by=current.name)
    return session(desk, _again(request, desk))


@router.delete("/session", operation_id="signOut")
def sign_out(
    request: Request, desk: AtDesk, visit: AtDoor, person: Annotated[str | None, Query(max_length=60)] = None
) -> wire.Session:
    """Sign one person out on this device, or everybody."""
    desk.wired.people.sign_in.sign_out(visit, person)
    return session(desk, _again(request, desk))


def session(desk: Desk, visit: Visit | None) -> wire.Session:
    """Write who is at a device."""
    needs_first_lead = desk.wired.people.shop.needs_first_lead()
    if visit is None:
        return wire.Session(
            state="out", device=None, last_seq=0, people=[], current=None, needs_first_lead=needs_first_lead
        )
    current = visit.current
    return wire.Session(
        state="cut" if visit.cut else "in" if current else "pin",
        device=visit.device,
        last_seq=desk.wired.people.shop.last_seq(visit.device),
        people=[
            wire.Somebody.model_validate(
                {"name": each.name, "role": each.role, "until": each.pin_at + LOCKED_AFTER}
            )
            for each in visit.inside
        ],
        current=current.name if current else None,
        needs_first_lead=needs_first_lead,
    )


def _opened(opened: Opened, request: Request, response: Response, desk: Desk) -> wire.Session:
    """Give the device its token, where no program of the page can read it, and never another site's."""
    response.set_cookie(
        cookie_name(request.scope),
        opened.token,
        max_age=A_YEAR_S,
        path="/",
        secure=request.url.scheme == "https",
        httponly=True,
        samesite="strict",
    )
    return session(desk, opened.visit)


def _again(request: Request, desk: Desk) -> Visit | None:
    return desk.wired.people.sign_in.visit(asking_from(request).token)
