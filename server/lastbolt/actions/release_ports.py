"""What releasing needs of the world outside: a key, what keeps releases, and who confirms a PIN."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Protocol

from ..report.release_document import KeptRelease


class Signer(Protocol):
    """Signs in the shop's name."""

    @property
    def public(self) -> str: ...

    def sign(self, message: bytes) -> str:
        """Give a signature as hex digits."""


class Releases(Protocol):
    """Keeps signed releases and their papers."""

    def put(self, kept: KeptRelease, papers: Mapping[str, bytes]) -> None:
        """Keep a release and its papers, by SHA-256."""

    def of(self, job: str) -> Sequence[KeptRelease]:
        """Give the signed releases of a job, the oldest first."""

    def paper(self, sha256: str) -> bytes:
        """Give a paper's bytes."""


class Confirming(Protocol):
    """Knows who is who: asks for PINs, and who is a lead."""

    def confirm(self, person: str, pin: str) -> str:
        """Give the person's name as the shop writes it, once the PIN fits; else refuse in one sentence."""

    def is_lead(self, person: str) -> bool:
        """Tell whether somebody may sign."""
