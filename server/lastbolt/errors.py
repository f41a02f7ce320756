"""Every exception that Lastbolt raises on purpose; never imports anything of ours."""


class LastboltError(Exception):
    """Root of all errors that a person can mend; `str(error)` is one sentence with a way out."""


def told(error: Exception) -> str:
    """Give an error's sentence as it was raised, so that one made of a form keeps it.

    >>> told(LastboltError("There is no such tray."))
    'There is no such tray.'
    """
    return error.args[0] if error.args and isinstance(error.args[0], str) else str(error)


class BadInputError(LastboltError):
    """What came in (a file, a line, an option) cannot be read as what it should be."""


class NotFoundError(LastboltError):
    """The named job, photo or label is not in this store."""


class ConflictError(LastboltError):
    """Something else already stands where this should go (an id with other content, a taken place)."""


class StoreError(LastboltError):
    """The disk, the database or the photo folder refused; nothing already recorded was lost."""


class DiskFullError(StoreError):
    """There is no room; nothing already recorded was lost, and it goes on when there is room again."""


class DamagedError(StoreError):
    """A stored entry is not what was recorded; the sentence names it, other jobs are served as before."""


class NotSignedInError(LastboltError):
    """Nobody is signed in here, or the PIN was wrong."""


class NotAllowedError(LastboltError):
    """Who asks may not do that."""


class WaitError(LastboltError):
    """Too many tries; `seconds` until the next one, None when a lead must clear it."""

    def __init__(self, sentence: str, seconds: int | None = None) -> None:
        self.seconds = seconds
        super().__init__(sentence)


class TemplateError(LastboltError):
    """A label layout has mistakes; `mistakes` holds all of them, one sentence each."""

    def __init__(self, mistakes: list[str]) -> None:
        self.mistakes = mistakes
        super().__init__("; ".join(mistakes))
