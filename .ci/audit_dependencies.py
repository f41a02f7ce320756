"""Ask an advisory service about every installed package; status 1 when one has a known hole.

What could not be asked (no network, an index without advisories) is said and counted, never passed over.
"""

from __future__ import annotations

import json
import subprocess
import sys
from dataclasses import dataclass

ASK = (sys.executable, "-m", "pip_audit", "--progress-spinner", "off", "--skip-editable", "--format", "json")
SECONDS = 120


@dataclass(frozen=True, slots=True)
class Audit:
    """What the service said: packages asked about, packages it could not be asked about, known holes."""

    asked: int
    unasked: tuple[str, ...]
    holes: tuple[str, ...]


def audit_from(text: str) -> Audit:
    """Read the answer of pip-audit (its JSON form).

    Raises:
        ValueError: it is no such answer.
    """
    asked, unasked, holes = 0, [], []
    for each in json.loads(text)["dependencies"]:
        if "skip_reason" in each:
            unasked.append(each["name"])
            continue
        asked += 1
        for hole in each["vulns"]:
            cured = ", ".join(hole["fix_versions"]) or "none yet"
            holes.append(f"{each['name']} {each['version']}: {hole['id']}; versions without it: {cured}")
    return Audit(asked, tuple(unasked), tuple(holes))


def said(audit: Audit) -> str:
    """Write the outcome in one line, and one for each hole."""
    whole = audit.asked + len(audit.unasked)
    lines = [
        f"Dependency audit: {audit.asked} of {whole} packages asked about, {len(audit.holes)} known holes."
    ]
    if not audit.asked:
        lines.append("No advisory service could be asked here: nothing is known about holes.")
    return "\n".join([*lines, *audit.holes])


def main() -> int:
    """Ask, and say what came of it."""
    try:
        answer = subprocess.run(ASK, capture_output=True, text=True, check=False, timeout=SECONDS)
        audit = audit_from(answer.stdout)
    except (subprocess.TimeoutExpired, ValueError, KeyError):
        sys.stdout.write("Dependency audit: no advisory service answered; nothing is known about holes.\n")
        return 0
    sys.stdout.write(said(audit) + "\n")
    return 1 if audit.holes else 0


if __name__ == "__main__":
    sys.exit(main())
