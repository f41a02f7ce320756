from pathlib import Path

from tests.web.pocket_vectors import CUTS, vectors, written

PAGE = Path(__file__).resolve().parents[2] / "mobile_web"


def test_the_pages_pocket_vectors_are_what_the_server_says():
    kept = (PAGE / "src" / "pocket" / "vectors.json").read_text()
    assert kept == written(), (
        "the pocket changed: python -m tests.web.pocket_vectors > mobile_web/src/pocket/vectors.json, "
        "then make src/pocket/overlay*.ts follow"
    )


def test_in_each_part_of_the_vectors_something_changes():
    kinds = {entry["kind"] for vector in vectors() for entry in vector["entries"]}
    assert len(CUTS) > 1
    assert {"fasteners-removed", "fasteners-fitted", "fasteners-tightened", "opening-covered"} <= kinds
    assert {
        "item-brought-in",
        "isolation-applied",
        "fluid-drained",
        "setting-found",
        "renewal-fitted",
    } <= kinds
