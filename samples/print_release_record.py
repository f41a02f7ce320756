"""Release the clean sample job as a lead would, and keep the first page of its record as a picture.

PYTHONPATH=. python samples/print_release_record.py   (needs pdftoppm)
"""

from __future__ import annotations

import subprocess
import tempfile
from pathlib import Path

from tests.actions.releases import JOB, released, sample_shop

PICTURE = Path(__file__).parent / "pictures" / "release_record"


def main() -> None:
    """Write samples/pictures/release_record.png."""
    with tempfile.TemporaryDirectory() as folder:
        wired = sample_shop(Path(folder) / "shop")
        released(wired)
        kept = wired.releases.of(JOB)[-1]
        paper = Path(folder) / "record.pdf"
        paper.write_bytes(wired.releases.paper(kept.files["record-a4.pdf"]))
        wired.close()
        first = ["-f", "1", "-l", "1", "-singlefile", "-png"]
        command = ["pdftoppm", "-r", "80", *first, str(paper), str(PICTURE)]
        subprocess.run(command, check=True)
    print(f"{PICTURE}.png")


if __name__ == "__main__":
    main()
