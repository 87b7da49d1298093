"""Reads `variances.yaml`: dated, reasoned permissions for one finding on one formula. What they lift is judged elsewhere."""

from collections.abc import Iterable, Mapping
from fractions import Fraction

from brimline.findings import Reading, Variance
from brimline.shelf.own import ACID_LINE
from brimline.shelf.register import iso_date
from brimline.shelf.strict import Refused, Yaml, decoded, mapping, read_yaml, several, words

_KEYS = ("rule", "formula", "fingerprint", "reason", "evidence", "role", "until")
_EVIDENCE = ("letter", "readings", "record")
_READING = ("ph", "batch", "on", "of", "by")
MOST_VARIANCES = 500


def read_variances(data: bytes, path: str) -> tuple[Variance, ...]:
    """The variances of a collection in the order written; `path` is how the file is called. Raises Refused."""
    text = decoded(data)
    if not text.strip():
        return ()
    read = read_yaml(text)
    if read.value is None:
        return ()
    if not isinstance(read.value, list):
        raise Refused("is not a list of variances, each starting with a dash")
    if len(read.value) > MOST_VARIANCES:
        raise Refused(f"holds more than {MOST_VARIANCES:,} variances")
    return tuple(_variance(one, number, read, path) for number, one in enumerate(read.value))


def _variance(value: object, number: int, read: Yaml, path: str) -> Variance:
    line = read.line(number)
    where = f"the variance of line {line}"
    entry = mapping(value, _KEYS, where)
    for key in _KEYS:
        if key not in entry:
            raise Refused(f"leaves out `{key}` in {where}")
    evidence = mapping(entry["evidence"], _EVIDENCE, f"the evidence of {where}")
    readings = [_reading(one, where) for one in several(evidence.get("readings", []), "readings")]
    return Variance(
        rule=_one(entry, "rule"),
        formula=_one(entry, "formula"),
        fingerprint=_one(entry, "fingerprint"),
        reason=_one(entry, "reason"),
        role=_one(entry, "role"),
        until=iso_date(entry["until"], "until"),
        letter=words(evidence.get("letter", ""), "letter"),
        readings=tuple(readings),
        records=tuple(words(one, "record") for one in several(evidence.get("record", []), "record")),
        batches=_batches(readings),
        path=path,
        line=line,
    )


def _one(entry: Mapping[str, object], key: str) -> str:
    """The text of a key; a list is joined, so that what is too broad can be shown as it was written."""
    return ", ".join(words(one, key) for one in several(entry[key], key))


def _reading(value: object, where: str) -> Reading:
    entry = mapping(value, _READING, f"a reading of {where}")
    for key in _READING[:-1]:
        if key not in entry:
            raise Refused(f"leaves out `{key}` in a reading of {where}")
    number, batch = entry["ph"], entry["batch"]
    if isinstance(number, bool) or not isinstance(number, int | float) or not 0 < number < 14:
        raise Refused(f"gives a pH that is none in {where}; write a number such as 3.9")
    return Reading(
        ph=str(number),
        batch=words(str(batch) if isinstance(batch, int) else batch, "batch"),
        on=iso_date(entry["on"], "on"),
        of=words(entry["of"], "of"),
        by=words(entry.get("by", ""), "by"),
    )


def _batches(readings: Iterable[Reading]) -> int:
    """How many batches were measured finished and equilibrated; 0 if any reading lies above the line of acid food."""
    counted = set()
    for one in readings:
        if Fraction(one.ph) > ACID_LINE:
            return 0
        if {"finished", "equilibrated"} <= set(one.of.lower().replace(",", " ").split()):
            counted.add(one.batch.casefold())
    return len(counted)
