"""Signing in with a name and a PIN, on a device that keeps a token; and out again."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from functools import cached_property
from threading import Lock

from ..errors import BadInputError, NotAllowedError, NotSignedInError, WaitError
from ..roster import Deed, Device
from ..said import said
from . import throttle, tokens
from .pins import Hashing
from .ports import Clock, Rows, read, written
from .throttle import EVERYWHERE, HERE, PLACE, Budget, Tries
from .visit import Visit, folded, visit_of

SEEN_EVERY = timedelta(minutes=1)
_PHONE = re.compile(r"phone [0-9a-f]{12}")
WRONG = "That name and PIN do not belong together. A lead can give a new PIN."


@dataclass(frozen=True, slots=True)
class Asking:
    """Where a try comes from: the device's token, what it calls itself, its address, its browser."""

    token: str | None = None
    device: str | None = None
    address: str = "here"
    browser: str = ""


@dataclass(frozen=True, slots=True)
class Opened:
    """What came of signing in: the token for the device to keep, and who is there now."""

    token: str
    visit: Visit


class SignIn:
    """Checks PINs and knows devices by their tokens."""

    def __init__(self, rows: Rows, hashing: Hashing, clock: Clock) -> None:
        self._rows, self._hashing, self._clock = rows, hashing, clock
        self._counting, self._changing = Lock(), Lock()

    def visit(self, token: str | None) -> Visit | None:
        """Give who is at the device that holds this token; None for a token that nobody gave out."""
        device = self._rows.devices.of_token(tokens.kept(token)) if token else None
        if device is None:
            return None
        now = self._clock()
        if now - read(device.seen) >= SEEN_EVERY:
            self._rows.devices.saw(device.device, written(now))
        return visit_of(device, now)

    def sign_in(self, name: str, secret: str, asking: Asking) -> Opened:
        """Let a person in on a device.

        Raises:
            NotSignedInError: the name or the PIN is wrong.
            WaitError: too many tries.
            NotAllowedError: the device was reported lost.
        """
        key, now = folded(name), self._clock()
        person = self._rows.people.person(key)
        known = self._known(asking)
        budgets = _budgets(key, known, asking.address)
        self._count(budgets, key, now)
        fits = self._hashing.fits(secret, person.secret if person else self._nobody)
        if not fits or person is None or person.gone is not None:
            raise NotSignedInError(WRONG)
        for about, budget in budgets.items():
            if budget is PLACE:
                self._take_back(about, key)
            else:
                self._rows.people.clear_tries(about)
        return self.let_in(person.key, asking)

    def let_in(self, key: str, asking: Asking) -> Opened:
        """Put a person whose PIN was right on a device, and give the device a new token.

        Raises:
            NotAllowedError: the device was reported lost.
        """
        now, token, devices = written(self._clock()), tokens.new_token(), self._rows.devices
        with self._changing:
            found = self._known(asking) or self._taken_over(asking, now) or self._new_device(asking, key, now)
            renewed = replace(found, token=tokens.kept(token), browser=asking.browser[:200], seen=now)
            devices.put(replace(renewed, current=key, ended=None, ended_by=None))
            devices.sign_in(found.device, key, now)
            visit = self.visit(token)
        assert visit is not None
        return Opened(token, visit)

    def hold(self, visit: Visit, name: str) -> None:
        """Say that another of those who are signed in holds the device now.

        Raises:
            NotSignedInError: that person is not signed in here.
        """
        here = visit.named(name)
        if here is None or here not in visit.inside:
            raise NotSignedInError(
                said("{who} is not signed in on this device; the PIN is needed.", who=name)
            )
        device = self._rows.devices.named(visit.device)
        assert device is not None
        self._rows.devices.put(replace(device, current=here.key))

    def sign_out(self, visit: Visit, name: str | None = None) -> None:
        """Take one person off the device, or everybody and the device's token with them."""
        now = written(self._clock())
        here = visit.named(name) if name else None
        if name and here is None:
            raise BadInputError(said("{who} is not signed in on this device.", who=name))
        self._rows.devices.sign_out(visit.device, now, person=here.key if here else None)

    def may_be(self, visit: Visit, name: str, secret: str, asking: Asking) -> bool:
        """Tell whether this PIN is that of somebody signed in here, as for a signature; tries are counted."""
        here = visit.named(name)
        if here is None or here not in visit.inside:
            return False
        person, now = self._rows.people.person(here.key), self._clock()
        about = f"{here.key} on {visit.device}"
        self._count({about: HERE}, here.key, now)
        fits = self._hashing.fits(secret, person.secret if person else self._nobody)
        if fits:
            self._rows.people.clear_tries(about)
        return fits

    def count_code(self, asking: Asking) -> None:
        """Count a try at the first lead's code.

        Raises:
            WaitError: too many tries from that address.
        """
        self._count({f"code at {asking.address}": PLACE}, "", self._clock())

    @cached_property
    def _nobody(self) -> str:
        """Give what a name that nobody has is held against, so that the answer takes as long."""
        return self._hashing.hashed(tokens.new_token())

    def _known(self, asking: Asking) -> Device | None:
        """Give the device that proves by its token which one it is, unless it was cut off."""
        found = self._rows.devices.of_token(tokens.kept(asking.token)) if asking.token else None
        if found and found.lost:
            raise NotAllowedError("This device was reported lost. A lead can let it in again.")
        return None if found is None or found.ended else found

    def _taken_over(self, asking: Asking, now: str) -> Device | None:
        """Give a device that has lost its token: whoever else was signed in on it is out."""
        found = self._rows.devices.named(asking.device) if asking.device else None
        if found is None:
            return None
        if found.lost:
            raise NotAllowedError("This device was reported lost. A lead can let it in again.")
        self._rows.devices.sign_out(found.device, now)
        return found

    def _new_device(self, asking: Asking, key: str, now: str) -> Device:
        """Make a device under the name that it goes by, where that is a phone's, else under a new one."""
        own = asking.device or ""
        name = own if _PHONE.fullmatch(own) else tokens.new_device()
        return Device(name, "", asking.browser[:200], now, now, key)

    def _count(self, budgets: dict[str, Budget], key: str, now: datetime) -> None:
        """Count this try as failed before it is looked at, so that tries at the same time count too."""
        with self._counting:
            found = {about: self._tries(about) for about in budgets}
            for about, budget in budgets.items():
                left = throttle.wait(found[about], now, budget)
                if left is None:
                    self._note_lock(key, now)
                    raise WaitError(
                        "Too many wrong PINs for this name. A lead can clear that or give a new PIN."
                    )
                if left > timedelta(0):
                    seconds = int(left.total_seconds()) + 1
                    raise WaitError(
                        said("Too many wrong tries. Try again in {time}.", time=_spoken(seconds)), seconds
                    )
            for about, budget in budgets.items():
                counted = throttle.after(found[about], now, budget)
                self._rows.people.put_tries(about, key, counted.failed, written(now))

    def _take_back(self, about: str, key: str) -> None:
        with self._counting:
            tries = self._tries(about)
            if tries.last is not None:
                self._rows.people.put_tries(about, key, max(0, tries.failed - 1), written(tries.last))

    def _tries(self, about: str) -> Tries:
        failed, last = self._rows.people.tries(about)
        return Tries(failed, read(last) if last else None)

    def _note_lock(self, key: str, now: datetime) -> None:
        person = self._rows.people.person(key)
        said = self._rows.people.deeds(1)
        about = person.name if person else ""
        if person and not (said and said[0].act == _LOCKED and said[0].about == about):
            self._rows.people.write_deed(Deed(written(now), "the server", _LOCKED, about))


_LOCKED = "locked for new devices after too many wrong PINs"


def _budgets(key: str, known: Device | None, address: str) -> dict[str, Budget]:
    """Say against which counts a try goes; strangers' tries hold up no device that the person was on."""
    if known and any(each.key == key for each in known.people):
        return {f"{key} on {known.device}": HERE}
    return {f"{key} at {address}": HERE, f"at {address}": PLACE, f"person {key}": EVERYWHERE}


def _spoken(seconds: int) -> str:
    return said("{n} seconds", n=seconds) if seconds < 120 else said("{n} minutes", n=-(-seconds // 60))
