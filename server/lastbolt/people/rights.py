"""Who may do what: roles, and the one table of acts that need a lead."""

from __future__ import annotations

from enum import StrEnum
from typing import Literal, get_args

Role = Literal["tech", "lead", "reader"]
ROLES: tuple[Role, ...] = get_args(Role)
RANK = {"reader": 0, "tech": 1, "lead": 2}


class Act(StrEnum):
    """What is asked for over the web beside recording entries."""

    READ = "read"
    WRITE = "write"
    SEE_PEOPLE = "see the people and their devices"
    CHANGE_PEOPLE = "add or change people"
    END_DEVICE = "end a device"
    SETTLE_HELD = "let in or discard what is held"
    SIGN = "sign a release"


LEAST: dict[Act, Role] = {
    Act.READ: "reader",
    Act.WRITE: "tech",
    Act.SEE_PEOPLE: "lead",
    Act.CHANGE_PEOPLE: "lead",
    Act.END_DEVICE: "lead",
    Act.SETTLE_HELD: "lead",
    Act.SIGN: "lead",
}
"""The least role for each act."""
LEAD_KINDS = frozenset(
    {
        "finding-decided", "release-signed", "release-withdrawn", "job-reopened", "job-cancelled",
        "loss-written-off", "person-described", "licence-recorded",
    }
)  # fmt: skip
"""Kinds of entry that only a lead records; every other kind is open to a tech (practice 3.3)."""


def may(role: str, act: Act) -> bool:
    """Tell whether a role is enough for an act.

    >>> may("tech", Act.WRITE), may("reader", Act.WRITE), may("tech", Act.SIGN)
    (True, False, False)
    """
    return RANK[role] >= RANK[LEAST[act]]


def may_record(role: str, kind: str) -> bool:
    """Tell whether somebody of this role may record an entry of this kind.

    >>> may_record("tech", "fasteners-removed"), may_record("tech", "release-signed")
    (True, False)
    """
    return may(role, Act.WRITE) and (kind not in LEAD_KINDS or role == "lead")
