"""Reads and writes `register.json`: the tested formulas of a collection, each with its fingerprint, date and evidence.

JSON, because every review reads it and the YAML library costs a tenth of a second to load. One key a formula, sorted by
code, one line a fact, `version` last: two people who seal two formulas change different lines. A row of evidence is made
for the fingerprint of its entry, unless it stands under `earlier` with the one it was made for.
"""

import re
from collections.abc import Iterable
from datetime import date

from brimline.document.meaning import Seal
from brimline.shelf.strict import Refused, decoded, mapping, read_json, words

VERSION = 1
_CODE = re.compile(r"[A-Z0-9]{1,12}(?:-[A-Z0-9]{1,12}){1,4}", re.ASCII)
_PRINT = re.compile(r"m1-[0-9a-f]{64}", re.ASCII)
_KEYS = ("fingerprint", "sealed", "evidence", "earlier", "reason")


def read_register(data: bytes) -> dict[str, Seal]:
    """The seals of a register by code. Raises Refused."""
    read = read_json(decoded(data))
    if not isinstance(read, dict):
        raise Refused("is not a list of codes with their seals")
    if read.get("version") != VERSION or read.get("version") is True:
        raise Refused(f"does not say that it is of version {VERSION}")
    words(read.get("notice", ""), "notice")
    return {code: _seal(code, value) for code, value in read.items() if code not in ("version", "notice")}


def write_register(seals: Iterable[Seal], notice: str = "") -> bytes:
    """A register as it is kept: UTF-8, LF, two blanks for each level, codes sorted."""
    import json

    out: dict[str, object] = {}
    for seal in sorted(seals, key=lambda one: one.code):
        earlier = {row: made_for for row, made_for in seal.evidence if made_for != seal.fingerprint}
        out[seal.code] = {
            "fingerprint": seal.fingerprint,
            "sealed": seal.sealed,
            "evidence": [row for row, made_for in seal.evidence if made_for == seal.fingerprint],
            **({"earlier": earlier} if earlier else {}),
            **({"reason": seal.reason} if seal.reason else {}),
        }
    if notice:
        out["notice"] = notice
    out["version"] = VERSION
    return (json.dumps(out, indent=2, ensure_ascii=False) + "\n").encode("utf-8")


def is_fingerprint(word: object) -> bool:
    """Whether a value is written as a fingerprint."""
    return isinstance(word, str) and bool(_PRINT.fullmatch(word))


def is_code(word: object) -> bool:
    """Whether a value is written as a formula's code."""
    return isinstance(word, str) and bool(_CODE.fullmatch(word))


def iso_date(value: object, key: str) -> str:
    """A date as ISO text. Raises Refused for anything that is no date of the calendar."""
    text = value.isoformat() if type(value) is date else value
    try:
        if isinstance(text, str) and re.fullmatch(r"\d{4}-\d\d-\d\d", text, re.ASCII):
            return date.fromisoformat(text).isoformat()
    except ValueError:
        pass
    raise Refused(f"gives `{key}` something that is not a date, such as 2027-01-31")


def _seal(code: str, value: object) -> Seal:
    if not is_code(code):
        raise Refused(f"has `{code}` where the code of a formula is expected")
    entry = mapping(value, _KEYS, code)
    printed = entry.get("fingerprint")
    rows, earlier = entry.get("evidence"), entry.get("earlier", {})
    if not isinstance(printed, str) or not is_fingerprint(printed):
        raise Refused(f"gives {code} no fingerprint; brimline seal writes it")
    if not isinstance(rows, list):
        raise Refused(f"gives {code} no list of evidence; brimline seal writes it")
    if not isinstance(earlier, dict) or not all(is_fingerprint(one) for one in earlier.values()):
        raise Refused(f"gives {code} earlier evidence that is not paired with fingerprints; brimline seal writes it")
    return Seal(
        code=code,
        fingerprint=printed,
        sealed=iso_date(entry.get("sealed"), "sealed"),
        evidence=(
            *((words(row, "evidence"), printed) for row in rows),
            *((words(row, "earlier"), str(one)) for row, one in earlier.items()),
        ),
        reason=words(entry.get("reason", ""), "reason"),
    )
