"""Look for secrets in what git tracks: keys, tokens and passwords by their form; status 1 when one is found.

Words of high entropy are left out: the sources are full of SHA-256 digests and test vectors. Where a line is
meant as it is, it says `pragma: allowlist secret`.
"""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

from detect_secrets import SecretsCollection
from detect_secrets.settings import transient_settings

ROOT = Path(__file__).resolve().parents[1]
DETECTORS = (
    "ArtifactoryDetector", "AWSKeyDetector", "AzureStorageKeyDetector", "BasicAuthDetector",
    "GitHubTokenDetector", "GitLabTokenDetector", "JwtTokenDetector",
    "NpmDetector", "OpenAIDetector",
    "PrivateKeyDetector", "PypiTokenDetector", "SendGridDetector", "SlackDetector", "StripeDetector",
    "TwilioKeyDetector",
)  # fmt: skip
LEFT_OUT = {".onnx", ".png", ".jpg", ".pdf", ".woff2", ".jsonl", ".sql"}
LARGEST = 150_000
"""Bytes; what is larger was made by a program (lock file, API description)."""


def is_small(path: Path) -> bool:
    """Tell whether a file is here and short enough to be of a hand."""
    return path.is_file() and path.stat().st_size <= LARGEST


def secrets_in(root: Path, files: list[str]) -> SecretsCollection:
    """Look through files of a folder."""
    found = SecretsCollection(root=str(root))
    with transient_settings({"plugins_used": [{"name": name} for name in DETECTORS]}):
        for name in files:
            found.scan_file(name)
    return found


def main() -> int:
    """Scan every tracked file that is text and written by hand."""
    listed = subprocess.run(["git", "ls-files", "-z"], cwd=ROOT, capture_output=True, check=False)
    if listed.returncode:
        sys.stdout.write("No secrets scan: this is no git checkout.\n")
        return 0
    names = [name for name in listed.stdout.decode().split("\0") if name]
    files = [name for name in names if Path(name).suffix not in LEFT_OUT and is_small(ROOT / name)]
    found = secrets_in(ROOT, files)
    for name, secret in found:
        sys.stdout.write(f"{name}:{secret.line_number}: {secret.type}\n")
    sys.stdout.write(f"Secrets: {len(files)} files looked at, {sum(1 for _ in found)} found.\n")
    return 1 if any(True for _ in found) else 0


if __name__ == "__main__":
    sys.exit(main())
