"""What the page's pocket must show after the sample job's next entries, for its own tests.

python -m tests.web.pocket_vectors > mobile_web/src/pocket/vectors.json
"""

import json
import sys
import tempfile
from functools import cache
from pathlib import Path
from typing import Any

from tests.web import shop

SAMPLE = Path(__file__).resolve().parents[2] / "samples" / "half_finished.jsonl"
CUTS = ((88, 72), (160, 60), (225, 40), (290, 115))
"""Where the phone's pocket was made, and how many entries come after it: taking apart, both, putting back."""


def shown_of(pocket: dict[str, Any]) -> dict[str, Any]:
    """Give what the page lays entries over, without what only the server works out."""
    return {
        "sets": {s["set"]: [s["n"], "".join(h["level"][0] for h in s["holes"])] for s in pocket["sets"]},
        "captive": {s["set"]: s["captive_open"] for s in pocket["sets"] if s["captive_open"]},
        "bags": {c["container"]: c["n"] for c in pocket["containers"] if c["n"]},
        "off": sorted(p["part"] for p in pocket["parts"] if not p["on"]),
        "apart": sorted(c["connection"] for c in pocket["connections"] if c["apart"]),
        "open": {o["opening"]: [o["mouths"], o["covers"]] for o in pocket["openings"] if o["open"]},
        "items": sorted([i["item"], i["opening"], i["n"]] for i in pocket["items"]),
        "held": {i["isolation"]: i["holder"] for i in pocket["isolations"] if i["applied"]},
        "fluids": {f["fluid"]: [f["drained_l"], round(f["filled_l"], 3)] for f in pocket["fluids"]},
        "settings": {s["setting"]: [s["found"], s["left"]] for s in pocket["settings"]},
        "renewals": {r["renewal"]: r["fitted"] for r in pocket["renewals"]},
        "labels": sorted([b["code"], b["thing"]] for b in pocket["labels"] if not b["retired"]),
    }


LEFT_OUT: dict[str, Any] = {
    "head": {"position": 0, "hash": "", "received": "2026-05-04T06:00:00Z"}, "on": "2026-05-04",
    "findings": [], "not_checked": [], "next": {"big": None, "small": [], "waiting": []}, "photos": [], "people": [],
    "start": {"headline": "", "findings": [], "not_checked": [], "cautions": []},
}  # fmt: skip
"""The page changes none of it, and some of it depends on the day, as which wrenches suit does."""


@cache
def vectors() -> list[dict[str, Any]]:
    """Give for each cut the pocket, the entries after it, and what the server shows once it has them."""
    entries = [json.loads(line) for line in SAMPLE.read_text().splitlines()]
    found = []
    for cut, more in CUTS:
        with tempfile.TemporaryDirectory() as folder, shop.open_shop(Path(folder)) as (_, client):
            job = entries[0]["job"]
            shop.send(client, entries[:cut]).raise_for_status()
            before = client.get(f"/api/jobs/{job}/pocket").json()
            after = entries[cut : cut + more]
            shop.send(client, after).raise_for_status()
            shown = shown_of(client.get(f"/api/jobs/{job}/pocket").json())
            for stage in (s for each in before["sets"] if each["torque"] for s in each["torque"]["stages"]):
                stage["wrenches"] = []
            found.append({"pocket": {**before, **LEFT_OUT}, "entries": after, "shown": shown})
    return found


def written() -> str:
    """Write them as they stand beside the page's sources."""
    return json.dumps(vectors(), ensure_ascii=False, sort_keys=True) + "\n"


if __name__ == "__main__":
    sys.stdout.write(written())
