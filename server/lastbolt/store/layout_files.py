"""Label layouts as files: found by name in the folders that the settings give, the first one wins."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from ..errors import NotFoundError, StoreError
from ..said import said


class LayoutFiles:
    """Reads layout texts; a name is that of the file without `.toml`, never a path."""

    def __init__(self, folders: Sequence[Path]) -> None:
        self._folders = tuple(folders)

    def names(self) -> list[str]:
        """Name all layouts."""
        return sorted(self._found())

    def text(self, name: str) -> str:
        """Give the text of a layout.

        Raises:
            NotFoundError: no such layout; names those that there are.
        """
        found = self._found()
        if name not in found:
            known = ", ".join(sorted(found)) or "none"
            raise NotFoundError(
                said("there is no layout {name}; there are: {known}", name=repr(name[:60]), known=known)
            )
        try:
            return found[name].read_text(encoding="utf-8")
        except (OSError, UnicodeDecodeError) as error:
            raise StoreError(
                said("the layout {path} cannot be read: {error}", path=found[name], error=error)
            ) from error

    def _found(self) -> dict[str, Path]:
        paths = (path for folder in reversed(self._folders) for path in folder.glob("*.toml"))
        return {path.stem: path for path in paths}
