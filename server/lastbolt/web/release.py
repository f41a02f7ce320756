"""Routes of a release: how it stands, ask, the lead's word, sign with a PIN, take back, reopen."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Query

from ..actions.release import (
    ReleaseRoom,
    Standing,
    Wish,
    ask_release,
    decide,
    reopen_job,
    sign_release,
    standing,
    withdraw_release,
)
from ..people.rights import Act
from ..report.questions import NOT_LISTED
from ..report.release_document import KeptRelease
from ..report.release_rules import LEAST_LOOK, hands_on
from . import answers
from . import release_wire as wire
from .door import AtDoor
from .forms import forms_of
from .release_room import AtRelease

router = APIRouter(prefix="/api/jobs", tags=["release"])
Second = Annotated[str | None, Query(max_length=120, description="who else would stand for it")]


@router.get("/{job:path}/release", operation_id="getRelease")
def get_release(job: str, room: AtRelease, visit: AtDoor, second: Second = None) -> wire.ReleaseStanding:
    """Say how the release stands, what is in the way, and the statement to be read aloud."""
    return _standing(room, job, visit.person(Act.READ).name, second)


@router.post("/{job:path}/release/ask", operation_id="askRelease")
def ask(job: str, wish: wire.AskWish, room: AtRelease, visit: AtDoor) -> wire.ReleaseStanding:
    """Ask for release: the verdict is taken at this entry, and the look begins."""
    who = visit.person(Act.WRITE).name
    ask_release(room, job, who, wish.model_dump())
    return _standing(room, job, who, None)


@router.post("/{job:path}/release/sign", operation_id="signRelease")
def sign(job: str, wish: wire.SignWish, room: AtRelease, visit: AtDoor) -> wire.ReleaseStanding:
    """Sign with a PIN; what is in the way is said in sentences, and nothing is signed."""
    who = visit.person(Act.SIGN).name
    signing = Wish(
        who, wish.pin.get_secret_value(), wish.second, wish.second_pin.get_secret_value(), wish.statement
    )
    sign_release(room, job, signing)
    return _standing(room, job, who, None)


@router.post("/{job:path}/release/withdraw", operation_id="withdrawRelease")
def withdraw(job: str, wish: wire.ReasonWish, room: AtRelease, visit: AtDoor) -> wire.ReleaseStanding:
    """Take a release back, with the reason."""
    who = visit.person(Act.SIGN).name
    withdraw_release(room, job, who, wish.reason)
    return _standing(room, job, who, None)


@router.post("/{job:path}/release/reopen", operation_id="reopenJob")
def reopen(job: str, wish: wire.ReasonWish, room: AtRelease, visit: AtDoor) -> wire.ReleaseStanding:
    """Reopen the job in a scope: the release no longer stands."""
    who = visit.person(Act.SIGN).name
    reopen_job(room, job, who, wish.model_dump())
    return _standing(room, job, who, None)


@router.post("/{job:path}/word", operation_id="decideFinding")
def give_word(job: str, wish: wire.WordWish, room: AtRelease, visit: AtDoor) -> wire.Noted:
    """Record the lead's word on one finding; what is missing is said, and nothing is recorded."""
    fields = {name: getattr(wish, name) for name in wire.WordWish.model_fields}
    line = decide(room, job, visit.person(Act.SIGN).name, fields)
    return wire.Noted(line=answers.line(line))


def _standing(room: ReleaseRoom, job: str, who: str, second: str | None) -> wire.ReleaseStanding:
    found = standing(room, job, who, second)
    state = found.view.job
    return wire.ReleaseStanding.model_validate(
        {
            "signer": who,
            "second": second,
            "state": _state(found),
            "in_the_way": list(found.in_the_way),
            "against": list(found.against),
            "forms": forms_of(*found.in_the_way, *found.against),
            "question": NOT_LISTED,
            "nothing_else_apart": state.nothing_else_apart,
            "statement": found.statement,
            "asked_at": found.asked_at,
            "least_look_s": int(LEAST_LOOK.total_seconds()),
            "may_need_second": who in hands_on(state),
            "released": _released(found.kept, found.no_longer) if found.kept else None,
        }
    )


def _state(found: Standing) -> str:
    state = found.view.job
    if state.released is not None:
        return "no longer released" if state.changed_after_release else "released"
    newest = state.asked[-1].time if state.asked else None
    back = state.reopened.time if state.reopened else None
    return "asked" if newest and (back is None or newest > back) else "open"


def _released(kept: KeptRelease, no_longer: str) -> wire.Released:
    said = kept.said
    return wire.Released(
        by=said["by"],
        second=said.get("second"),
        at=said["at"],
        statement=said["statement"],
        position=kept.position,
        head=said["head"],
        record_sha256=said["record"],
        signature=kept.signature,
        public_key=said["public_key"],
        papers=[wire.Paper(name=name, sha256=sha256) for name, sha256 in kept.files.items()],
        no_longer=no_longer,
    )
