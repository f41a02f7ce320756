"""Texts of symbols with what `lastbolt.label_code.read` makes of each: the page's own reader is held to them.

python -m tests.web.label_vectors > mobile_web/src/scan/label_vectors.json
"""

import json

from lastbolt.label_code import HIGHEST_NUMBER, Kind, check_character, make, payload, read, shown

NUMBERS = (1, 42, 1010, 9999, 10_000, 12_345, HIGHEST_NUMBER)
ODD = (
    "", " ", "T", "T0042", "T0000A", "T00042A", "t-oo42-e", "T-OO42-E", "T-0042-F", "0-1234-M", "Z0042E", "T0042E\n",
    "T\u20130042\u2013E", "T\u22120042\u2212E", "T - 0042 - E", "Ｔ0042E", "T0042E T0042E", "http://shop.lan/t/MR8JZ",
    "HTTP://192.168.1.20:8000/L/T0042E", "https://shop.lan:8443/l/t-0042-e/?seen=1#top", "https://shop.lan/l/T0042F",
    "http://[fd00::1]:8000/L/T0042E", "https://example.org/", "https://example.org/x/12", "https://a.example/l/abc",
    "https://a.example/a/b/c/t/abcd1234efgh", "https://a.example/l/abcd1234efghi", "ftp://a.example/l/T0042E",
    "https://a.example/l/T0042E/more", "https://a.example/l/T0042E?q=a b", "javascript:alert(1)", "T0042E" * 60,
    "WIFI:S:shop;;", "4006381333931",
)  # fmt: skip


def vectors() -> dict[str, list[list[object]]]:
    """Give the check characters and the readings, in the order in which they are written."""
    bodies = [f"{kind.value}{number:04d}" for kind in Kind for number in NUMBERS] + ["A12425GABC1234002"]
    texts = list(ODD)
    for kind in Kind:
        for number in NUMBERS:
            code = make(kind, number)
            texts += [code, shown(code).lower(), payload(code, address="http://10.0.0.7:8000")]
            texts += [code[:-1] + ("A" if code[-1] != "A" else "B"), code.replace("0", "O").replace("1", "l")]
    readings: list[list[object]] = []
    for text in texts:
        found = read(text)
        readings.append([text, found and found.code, found and found.checked])
    return {"check": [[body, check_character(body)] for body in bodies], "read": readings}


def written() -> str:
    """Write the vectors as the file that the page's tests read."""
    return json.dumps(vectors(), indent=0) + "\n"


if __name__ == "__main__":
    print(written(), end="")
