"""Why a disk refused, in one sentence: full is told apart, because then it goes on when there is room."""

from __future__ import annotations

import errno

from ..errors import DiskFullError, StoreError
from ..said import said

_NO_ROOM = frozenset({errno.ENOSPC, errno.EDQUOT, errno.EFBIG})


def refusal(what: str, error: OSError, way_out: str) -> StoreError:
    """Give the error for what the system refused; `way_out` is for every reason but a full disk."""
    if error.errno in _NO_ROOM:
        return DiskFullError(
            said("{what} has no room left; free some room, then send it again", what=said(what))
        )
    return StoreError(
        said(
            "{what} refused ({reason}); {way_out}",
            what=said(what),
            reason=error.strerror or error,
            way_out=way_out,
        )
    )
