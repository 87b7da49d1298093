"""The fingerprint of a finding: what stays the same when lines move, layout changes or a sentence is reworded."""

from collections import Counter
from collections.abc import Iterable

from msgspec.structs import replace

from brimline.findings import Finding

# Goes up when the same finding would get another fingerprint; the old ones then match nothing.
VERSION = 1


def fingerprint(code: str, finding: Finding) -> str:
    """The fingerprint of a finding on the formula with this code, such as `v1:9f86d081884c7d659a2feaa0c55ad015`.

    It is made from the code, the rule, the field (`/take/lemon-juice`), the class of the value (the row that was
    decided, the level, certain or `may`) and the ordinal among equals. Line numbers, columns, sentences, figures and
    sources are not in it. A formula without a code is known by its path.
    """
    from hashlib import sha256

    whose = code or f"<{finding.at.path}>"
    certain = "certain" if finding.certain else "may"
    said = (
        "finding",
        whose,
        finding.rule,
        finding.field,
        finding.row,
        finding.level.word,
        certain,
        str(finding.ordinal),
    )
    # No part can hold a null character: a file or a name with one is never read.
    data = "\0".join(said).encode("utf-8", "surrogatepass")
    return f"v{VERSION}:{sha256(data).hexdigest()[:32]}"


def counted(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """The findings of one formula, those alike in everything a fingerprint holds numbered from 1 in the order given."""
    seen: Counter[tuple[object, ...]] = Counter()
    out = []
    for one in findings:
        alike = (one.rule, one.field, one.row, one.level, one.certain)
        seen[alike] += 1
        out.append(one if one.ordinal == seen[alike] else replace(one, ordinal=seen[alike]))
    return tuple(out)
