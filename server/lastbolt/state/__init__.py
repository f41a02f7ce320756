"""What is true now: a fold over the journal."""

from .fold import fold, replay
from .job import Job

__all__ = ["Job", "fold", "replay"]
