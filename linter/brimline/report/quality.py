"""A review as the list of findings that a host of code shows in a merge request as its code-quality report."""

import json

from brimline.findings import Level
from brimline.report.escaping import prose, whole_text
from brimline.report.handed import Handed, called, ranked, spoken, word
from brimline.report.words import sentence, standing
from brimline.review.fingerprint import fingerprint

# The words of the report, of which `blocker` is the gravest.
_SEVERITIES = {
    Level.UNSAFE: "blocker",
    Level.UNREADABLE: "critical",
    Level.UNTESTED: "critical",
    Level.QUALITY: "minor",
    Level.FORM: "info",
}


def quality(handed: Handed) -> str:
    """All findings as one JSON list in ASCII, unsafe ones first; those let stand are listed as information."""
    findings = []
    for one, finding in ranked(handed.review):
        excuse = standing(one, finding)
        text = f"{word(finding)}, {called(one)}: {spoken(finding)}"
        findings.append(
            {
                "description": prose(f"{sentence(excuse)} {text}" if excuse else text),
                "check_name": finding.rule,
                "fingerprint": fingerprint(one.code, finding),
                "severity": "info" if excuse else _SEVERITIES[finding.level],
                "location": {
                    "path": whole_text(handed.path(finding.at.path)),
                    "lines": {"begin": max(finding.line, 1)},
                },
            }
        )
    return json.dumps(findings, indent=2, ensure_ascii=True) + "\n"
